//! Forms of the bodies: one for each kind, as its newest version is written.

use super::{
    answers::AnsweredForm,
    leaf::{
        Day, EntryRef, ItemRef, MachineRef, PersonRef, PhotoRef, PointRef, RoundRef, Thing, Time,
        Written,
    },
    shape::{Form, struct_form, word_form},
};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use yard::{
    book::Severity,
    entry::{
        Access, AccessWhat, Adjustment, Arrival, ArrivalStep, AttachmentChange, BookAdopted,
        CameBack, Cause, Document, DocumentEnded, DocumentKind, EngineLeft, Evidence, Fault,
        FluidNow, GapAccepted, Greasing, Handover, HoursTold, LeftHow, LeftYard, Lesson,
        MeterBroken, MeterChange, MeterReading, MovePermit, Note, PartFitted, PhotoNote, Purchase,
        Release, Repair, RestAnswer, RestState, RoleGiven, RoundPurpose, Ruling, RulingSays, Run,
        RunPart, ShelfCount, SignOff, StandDown, Told, TopUp, WalkRound,
    },
    people::Role,
};

// The book and the meter.
struct_form!(BookAdoptedForm for BookAdopted { text: String } maybe { why: String });
struct_form!(GapAcceptedForm for GapAccepted { gap: String, why: String });
struct_form!(MeterReadingForm for MeterReading { shows: Written } maybe { meter: ItemRef });
struct_form!(MeterChangeForm for MeterChange { new_first: Written, why: String } maybe { meter: ItemRef, old_last: Written, unmetered: Written });
struct_form!(MeterBrokenForm for MeterBroken { why: String } maybe { meter: ItemRef, since: Time });
struct_form!(HoursToldForm for HoursTold { ran: Written });
struct_form!(RulingForm for Ruling { about: EntryRef, says: RulingSaysForm, why: String });

// Rounds, runs, handovers.
struct_form!(WalkRoundForm for WalkRound { round: RoundRef, book: EntryRef, purpose: RoundPurposeWord, from_paper: bool }
    maybe { hours: Written, closes: EvidenceForm, no_photo: String } lists { answers: AnsweredForm });
struct_form!(EvidenceForm for Evidence { verdict: String, reasons: Vec<String>, book: EntryRef, program: String });
struct_form!(RunForm for Run { part: RunPartWord } maybe { hours: Written, work: String, in_sight_of: PersonRef } lists { amiss: String });
struct_form!(HandoverForm for Handover { book: EntryRef, engine: EngineLeftWord } maybe { hours: Written, next: String } lists { steps: RestAnswerForm });
struct_form!(RestAnswerForm for RestAnswer { step: ItemRef, state: RestStateWord } maybe { note: String });

// Upkeep.
struct_form!(GreasingForm for Greasing {} lists { fittings: AnsweredForm, mends: Thing });
struct_form!(TopUpForm for TopUp { added: Written } maybe { fluid: ItemRef, grade: String } lists { mends: Thing });
struct_form!(AdjustmentForm for Adjustment { what: String } maybe { point: PointRef, event: ItemRef } lists { mends: Thing });
struct_form!(FaultForm for Fault { what: String, severity: SeverityWord } maybe { point: PointRef, told: ToldWord });
struct_form!(RepairForm for Repair { what: String } maybe { cost: String, event: ItemRef, cause: CauseForm } lists { mends: Thing });
struct_form!(PartFittedForm for PartFitted { what: String } maybe { part: ItemRef, point: PointRef, event: ItemRef, cost: String, count: u32 });
struct_form!(PurchaseForm for Purchase { what: String } maybe { cost: String, part: ItemRef, point: PointRef, count: u32 });
struct_form!(ShelfCountForm for ShelfCount { part: ItemRef, count: u32 });

// Attachments, documents, leaving.
struct_form!(AttachmentForm for AttachmentChange { attachment: MachineRef, fitted: bool } maybe { note: String });
struct_form!(DocumentForm for Document { what: DocumentKindWord, title: String }
    maybe { number: String, from: Day, until: Day, kept: String, note: String, of_book: ItemRef, renews: EntryRef } lists { photos: PhotoRef });
struct_form!(DocumentEndedForm for DocumentEnded { of: EntryRef, why: String });
struct_form!(LeftYardForm for LeftYard { how: LeftHowWord } maybe { on: Day, to: String, hours: Written, note: String });
struct_form!(CameBackForm for CameBack { why: String });
struct_form!(ArrivalForm for Arrival { step: ArrivalStepWord } maybe { about: ItemRef, fluid: FluidNowWord, count: u32, says: String });

// Standing down and releasing.
struct_form!(StandDownForm for StandDown { why: String });
struct_form!(ReleaseForm for Release { mended: String } lists { lifts: Thing });
struct_form!(MovePermitForm for MovePermit { who: PersonRef, how_far: Written, until: Time, how: String });

// People, notes.
struct_form!(LessonForm for Lesson { person: PersonRef, what: String });
struct_form!(SignOffForm for SignOff { person: PersonRef, given: bool, in_sight: bool } maybe { until: Day, limits: String });
struct_form!(RoleGivenForm for RoleGiven { person: PersonRef } maybe { role: RoleWord } lists { machines: MachineRef });
struct_form!(AccessForm for Access { what: AccessWhatWord } maybe { of: PersonRef, note: String });
struct_form!(NoteForm for Note { text: String } maybe { point: PointRef });
struct_form!(PhotoNoteForm for PhotoNote { photo: PhotoRef } maybe { of: Thing, point: PointRef, text: String });

word_form!(RoundPurposeWord for RoundPurpose { Start = "start", Relief = "relief", After = "after" });
word_form!(RunPartWord for RunPart { Start = "start", During = "during", End = "end" });
word_form!(EngineLeftWord for EngineLeft { Off = "off", Running = "running", NotSaid = "not-said" });
word_form!(RestStateWord for RestState { Proven = "proven", Done = "done", NotDone = "not-done", OnLock = "on-lock" });
word_form!(ToldWord for Told { Named = "named", Unnamed = "unnamed" });
word_form!(SeverityWord for Severity { Note = "note", Care = "care", StandDown = "stand-down" });
word_form!(AccessWhatWord for AccessWhat { Locked = "locked", Unlocked = "unlocked", LinkGiven = "link-given", PinSet = "pin-set", NameErased = "name-erased", TokenMade = "token-made", TokenEnded = "token-ended", TakenIn = "taken-in" });
word_form!(DocumentKindWord for DocumentKind { Manual = "manual", Certificate = "certificate", Insurance = "insurance", TestReport = "test-report", Registration = "registration", Recall = "recall", Other = "other" });
word_form!(LeftHowWord for LeftHow { Sold = "sold", Scrapped = "scrapped", GivenBack = "given-back" });
word_form!(ArrivalStepWord for ArrivalStep { Came = "came", Stop = "stop", Plates = "plates", Fluids = "fluids", Sides = "sides", Measures = "measures", FittingsFirst = "fittings-first", FittingsSecond = "fittings-second", Weaknesses = "weaknesses", Over = "over" });
word_form!(FluidNowWord for FluidNow { Changed = "changed", Analysed = "analysed" });
word_form!(RoleWord for Role { Visitor = "visitor", Learner = "learner", Operator = "operator", Deputy = "deputy", Steward = "steward" });

/// `"reading-wrong"`, `{"meter-replaced": {"unmetered": "12 h"}}`, …
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum RulingSaysForm {
    MeterReplaced {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        unmetered: Option<Written>,
    },
    MeterRolledOver,
    MeterBroken,
    ReadingWrong,
    ReadingRight,
    Answered,
}

impl Form for RulingSaysForm {
    type Of = RulingSays;

    fn write(of: &RulingSays) -> Self {
        match of {
            RulingSays::MeterReplaced { unmetered } => Self::MeterReplaced {
                unmetered: Form::write(unmetered),
            },
            RulingSays::MeterRolledOver => Self::MeterRolledOver,
            RulingSays::MeterBroken => Self::MeterBroken,
            RulingSays::ReadingWrong => Self::ReadingWrong,
            RulingSays::ReadingRight => Self::ReadingRight,
            RulingSays::Answered => Self::Answered,
        }
    }

    fn read(self) -> RulingSays {
        match self {
            Self::MeterReplaced { unmetered } => RulingSays::MeterReplaced {
                unmetered: unmetered.read(),
            },
            Self::MeterRolledOver => RulingSays::MeterRolledOver,
            Self::MeterBroken => RulingSays::MeterBroken,
            Self::ReadingWrong => RulingSays::ReadingWrong,
            Self::ReadingRight => RulingSays::ReadingRight,
            Self::Answered => RulingSays::Answered,
        }
    }
}

/// `{"found": "..."}` or `{"not-found": "because"}`.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum CauseForm {
    Found(String),
    NotFound(String),
}

impl Form for CauseForm {
    type Of = Cause;

    fn write(of: &Cause) -> Self {
        match of {
            Cause::Found(cause) => Self::Found(cause.clone()),
            Cause::NotFound(because) => Self::NotFound(because.clone()),
        }
    }

    fn read(self) -> Cause {
        match self {
            Self::Found(cause) => Cause::Found(cause),
            Self::NotFound(because) => Cause::NotFound(because),
        }
    }
}
