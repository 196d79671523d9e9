//! What became of an entry, as a word, a code and a sentence.

use super::{Became, Why};
use words::{Arg, Words};

impl Became {
    /// The word for programs: new, known, conflict, refused, not-yours.
    pub(crate) fn word(&self) -> &'static str {
        match self {
            Became::New => "new",
            Became::Known => "known",
            Became::Conflict => "conflict",
            Became::Refused(_) => "refused",
            Became::NotYours => "not-yours",
        }
    }

    /// Why, as a code; the word itself where there is no more to say.
    pub(crate) fn why(&self) -> &'static str {
        match self {
            Became::Refused(Why::Store(refusal)) => refusal.code(),
            Became::Refused(Why::MayNot(_)) => "may-not",
            Became::Refused(Why::WordInSight) => "word-in-sight",
            Became::Refused(Why::ProgramOnly) => "program-only",
            Became::Refused(Why::OtherMachine) => "other-machine",
            other => other.word(),
        }
    }

    /// What became of it, in a sentence or two.
    pub(crate) fn told(&self, words: &Words) -> String {
        let args: Vec<(&str, Arg<'_>)> = match self {
            Became::Refused(Why::Store(refusal)) => {
                let error = store::StoreError::from(refusal.clone());
                let told = words.store_trouble(error.code(), &error.args());
                return format!("{} {}", told.what, told.next);
            }
            Became::Refused(Why::MayNot(deed)) => {
                vec![("deed", words.text(&format!("deed-{}", deed.code())).into())]
            }
            _ => Vec::new(),
        };
        words.say(&format!("api-entry-{}", self.why()), &args)
    }
}
