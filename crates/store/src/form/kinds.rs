//! The kinds: each with its word, its newest version and its form.

use super::{
    bodies::{
        AccessForm, AdjustmentForm, ArrivalForm, AttachmentForm, BookAdoptedForm, CameBackForm,
        DocumentEndedForm, DocumentForm, FaultForm, GapAcceptedForm, GreasingForm, HandoverForm,
        HoursToldForm, LeftYardForm, LessonForm, MeterBrokenForm, MeterChangeForm,
        MeterReadingForm, MovePermitForm, NoteForm, PartFittedForm, PhotoNoteForm, PurchaseForm,
        ReleaseForm, RepairForm, RoleGivenForm, RulingForm, RunForm, ShelfCountForm, SignOffForm,
        StandDownForm, TopUpForm, WalkRoundForm,
    },
    correction::CorrectionForm,
    raise::{Raised, raise},
    shape::Form,
};
use schemars::{Schema, SchemaGenerator};
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use std::borrow::Cow;
use yard::entry::Body;

macro_rules! kinds {
    ($($word:literal $version:literal $variant:ident $form:ident;)+) => {
        /// Every kind this program writes, with the version it writes.
        pub const KINDS: &[(&str, u32)] = &[$(($word, $version),)+];

        /// The kind's word and the version of a body.
        pub fn kind_of(body: &Body) -> (&str, u32) {
            match body {
                $(Body::$variant(_) => ($word, $version),)+
                Body::Unknown { kind, version } => (kind, *version),
                Body::Unreadable { kind, .. } => (kind, newest(kind).unwrap_or(1)),
            }
        }

        /// The body's JSON. What could not be read has none to give: `null`.
        pub(super) fn write_body(body: &Body) -> serde_json::Result<Box<RawValue>> {
            match body {
                $(Body::$variant(said) => to_raw(&$form::write(said)),)+
                Body::Unknown { .. } | Body::Unreadable { .. } => to_raw(&()),
            }
        }

        /// Each kind with its version and the schema of its body.
        pub(super) fn body_schemas(generator: &mut SchemaGenerator) -> Vec<(&'static str, u32, Schema)> {
            vec![$(($word, $version, generator.subschema_for::<$form>()),)+]
        }

        /// Reads JSON of the newest version of a kind; none where the kind is unknown.
        fn read_newest(kind: &str, json: &str) -> Option<Result<Body, String>> {
            match kind {
                $($word => Some(read_form::<$form>(json).map(Body::$variant)),)+
                _ => None,
            }
        }
    };
}

kinds! {
    "book-adopted" 1 BookAdopted BookAdoptedForm;
    "gap-accepted" 1 GapAccepted GapAcceptedForm;
    "meter-reading" 2 MeterReading MeterReadingForm;
    "meter-change" 2 MeterChange MeterChangeForm;
    "meter-broken" 1 MeterBroken MeterBrokenForm;
    "hours-told" 1 HoursTold HoursToldForm;
    "ruling" 2 Ruling RulingForm;
    "walk-round" 1 WalkRound WalkRoundForm;
    "run" 1 Run RunForm;
    "greasing" 1 Greasing GreasingForm;
    "top-up" 1 TopUp TopUpForm;
    "adjustment" 1 Adjustment AdjustmentForm;
    "fault" 1 Fault FaultForm;
    "repair" 1 Repair RepairForm;
    "stand-down" 1 StandDown StandDownForm;
    "release" 1 Release ReleaseForm;
    "move-permit" 1 MovePermit MovePermitForm;
    "handover" 1 Handover HandoverForm;
    "part-fitted" 2 PartFitted PartFittedForm;
    "purchase" 2 Purchase PurchaseForm;
    "shelf-count" 1 ShelfCount ShelfCountForm;
    "attachment" 1 Attachment AttachmentForm;
    "document" 1 Document DocumentForm;
    "document-ended" 1 DocumentEnded DocumentEndedForm;
    "left-yard" 1 LeftYard LeftYardForm;
    "came-back" 1 CameBack CameBackForm;
    "arrival" 1 Arrival ArrivalForm;
    "lesson" 1 Lesson LessonForm;
    "sign-off" 1 SignOff SignOffForm;
    "note" 1 Note NoteForm;
    "photo" 1 Photo PhotoNoteForm;
    "correction" 1 Correction CorrectionForm;
    "role-given" 1 RoleGiven RoleGivenForm;
    "access" 1 Access AccessForm;
}

/// Reads a body, whatever it is: unknown kinds and newer versions become [`Body::Unknown`], what does not read [`Body::Unreadable`].
pub fn read_body(kind: &str, version: u32, json: &str) -> Body {
    let unknown = || Body::Unknown {
        kind: kind.to_owned(),
        version,
    };
    let unreadable = |at| Body::Unreadable {
        kind: kind.to_owned(),
        at,
    };
    let Some(newest) = newest(kind) else {
        return unknown();
    };
    let json = match raise(kind, version, newest, json) {
        Raised::Newest(json) => json,
        Raised::NotKnown => return unknown(),
        Raised::Unreadable => return unreadable(String::new()),
    };
    read_newest(kind, &json)
        .unwrap_or_else(|| Ok(unknown()))
        .unwrap_or_else(unreadable)
}

/// The newest version of a kind this program knows.
fn newest(kind: &str) -> Option<u32> {
    KINDS
        .iter()
        .find(|(word, _)| *word == kind)
        .map(|(_, version)| *version)
}

fn to_raw(form: &impl Serialize) -> serde_json::Result<Box<RawValue>> {
    serde_json::value::to_raw_value(form)
}

/// Reads a form; where that fails, once more with an eye on the path, e.g. `answers[3].answer.measure.readings[0].value`.
fn read_form<'a, F: Form + Deserialize<'a>>(json: &'a str) -> Result<F::Of, String> {
    if let Ok(form) = serde_json::from_str::<F>(json) {
        return Ok(form.read());
    }
    let mut again = serde_json::Deserializer::from_str(json);
    match serde_path_to_error::deserialize::<_, F>(&mut again) {
        Ok(form) => Ok(form.read()),
        Err(stumbled) => Err(stumbled.path().to_string()),
    }
}

/// A text that may have been made anew on the way.
pub(super) type Json<'a> = Cow<'a, str>;
