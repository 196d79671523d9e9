//! The form of a correction: what it says instead is a body of its own, with its kind and version.

use super::{
    kinds::{kind_of, read_body, write_body},
    leaf::EntryRef,
    shape::Form,
};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use yard::entry::{Body, Correction};

/// The kind's own word.
const CORRECTION: &str = "correction";

/// `{"of": "<entry>", "instead": {"kind": "note", "version": 1, "body": {…}}, "why": "…"}`.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
pub(super) struct CorrectionForm {
    of: EntryRef,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    instead: Option<InsteadForm>,
    why: String,
}

#[derive(Debug, Serialize, Deserialize, JsonSchema)]
struct InsteadForm {
    kind: String,
    version: u32,
    /// As the kind and version say.
    #[schemars(with = "serde_json::Value")]
    body: Box<RawValue>,
}

/// As much of a correction's body as shows whether it says yet another correction instead.
#[derive(Deserialize)]
struct Glance {
    #[serde(default)]
    instead: Option<KindOnly>,
}

#[derive(Deserialize)]
struct KindOnly {
    kind: String,
}

impl Form for CorrectionForm {
    type Of = Correction;

    fn write(correction: &Correction) -> Self {
        let instead = correction.instead.as_deref().map(InsteadForm::write);
        Self {
            of: EntryRef::write(&correction.of),
            instead,
            why: correction.why.clone(),
        }
    }

    fn read(self) -> Correction {
        let instead = self.instead.map(|instead| Box::new(instead.read()));
        Correction {
            of: self.of.read(),
            instead,
            why: self.why,
        }
    }
}

impl InsteadForm {
    fn write(body: &Body) -> Self {
        let (kind, version) = kind_of(body);
        let kind = kind.to_owned();
        Self {
            kind,
            version,
            body: write_body(body).unwrap_or_default(),
        }
    }

    /// Not raised to an error where it does not read: the correction stands, what it says instead is asked about.
    ///
    /// A correction may be corrected, so one may stand inside another; a third inside that says nothing a reader could use. It is not read,
    /// so that no entry, however it was made, leads deeper than the stack goes.
    fn read(self) -> Body {
        if self.kind == CORRECTION && leads_deeper(self.body.get()) {
            return Body::Unreadable {
                kind: self.kind,
                at: "instead".to_owned(),
            };
        }
        read_body(&self.kind, self.version, self.body.get())
    }
}

/// What does not even read this far does not read as a correction either.
fn leads_deeper(json: &str) -> bool {
    serde_json::from_str::<Glance>(json)
        .is_ok_and(|body| body.instead.is_some_and(|next| next.kind == CORRECTION))
}
