//! Why a command did not do what was asked. Two kinds: the person's, worded for the one who can mend it; and ours.

use crate::Exit;
use serde_json::{Value, json};
use store::StoreError;
use words::{Told, Words};

/// A trouble of a command.
#[derive(Debug)]
pub(crate) enum Trouble {
    /// The person's: what is so and what would be right, already in words.
    Yours {
        /// Its code, for JSON.
        code: String,
        /// In words.
        told: Told,
        /// How the program ends.
        exit: Exit,
    },
    /// The store's.
    Store(StoreError),
    /// Ours: a bug, or the machine under us.
    Ours(String),
}

impl Trouble {
    /// How the program ends with it.
    pub(crate) fn exit(&self) -> Exit {
        match self {
            Self::Yours { exit, .. } => *exit,
            Self::Store(StoreError::Engine { .. }) | Self::Ours(_) => Exit::Ours,
            Self::Store(
                StoreError::BackupDamaged { .. }
                | StoreError::Damaged { .. }
                | StoreError::FileDamaged { .. },
            ) => Exit::Mistakes,
            Self::Store(_) => Exit::Refused,
        }
    }

    /// As it is printed.
    pub(crate) fn printed(&self, words: &Words, json: bool) -> String {
        let told = self.told(words);
        if json {
            return format!("{:#}\n", self.json(&told));
        }
        format!("{}\n{}\n", told.what, told.next)
    }

    fn told(&self, words: &Words) -> Told {
        match self {
            Self::Yours { told, .. } => told.clone(),
            Self::Store(error) => words.store_trouble(error.code(), &error.args()),
            Self::Ours(detail) => {
                let args = [("detail", detail.into())];
                Told {
                    what: words.say("ours", &args),
                    next: words.text("ours.next"),
                }
            }
        }
    }

    fn json(&self, told: &Told) -> Value {
        let code = match self {
            Self::Yours { code, .. } => code.clone(),
            Self::Store(error) => format!("store-{}", error.code()),
            Self::Ours(_) => "ours".to_owned(),
        };
        let exit = self.exit();
        json!({ "trouble": code, "what": told.what, "next": told.next, "exit": exit.code(), "means": exit.word() })
    }
}

impl From<StoreError> for Trouble {
    fn from(error: StoreError) -> Self {
        Self::Store(error)
    }
}
