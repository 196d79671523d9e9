//! What a command says: a text for people, the same as JSON, and how the program ends.

use crate::Exit;
use serde_json::Value;

/// The answer of one command.
#[derive(Debug)]
pub(crate) struct Said {
    /// For people.
    pub(crate) text: String,
    /// For programs: codes as well as words.
    pub(crate) json: Value,
    /// How the program ends.
    pub(crate) exit: Exit,
}

impl Said {
    /// An answer that ends well.
    pub(crate) fn new(text: impl Into<String>, json: Value) -> Self {
        Self {
            text: text.into(),
            json,
            exit: Exit::Done,
        }
    }

    /// The same answer, ending otherwise.
    pub(crate) fn ending(self, exit: Exit) -> Self {
        Self { exit, ..self }
    }

    /// The text as it is printed: one line end at its end.
    pub(crate) fn printed(&self, json: bool) -> String {
        let whole = if json {
            format!("{:#}", self.json)
        } else {
            self.text.clone()
        };
        match whole.trim_end() {
            "" => String::new(),
            text => format!("{text}\n"),
        }
    }
}
