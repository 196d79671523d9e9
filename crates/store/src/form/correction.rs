//! The form of a correction: what it says instead is a body of its own, with its kind and version.

use super::{
    kinds::{kind_of, read_body, write_body},
    leaf::EntryRef,
    shape::Form,
};
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use yard::entry::{Body, Correction};

/// `{"of": "<entry>", "instead": {"kind": "note", "version": 1, "body": {…}}, "why": "…"}`.
#[derive(Debug, Serialize, Deserialize)]
pub(super) struct CorrectionForm {
    of: EntryRef,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    instead: Option<InsteadForm>,
    why: String,
}

#[derive(Debug, Serialize, Deserialize)]
struct InsteadForm {
    kind: String,
    version: u32,
    body: Box<RawValue>,
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
    fn read(self) -> Body {
        read_body(&self.kind, self.version, self.body.get())
    }
}
