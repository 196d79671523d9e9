//! What every command has at hand: the words, the world, the data folder.

use crate::{Exit, trouble::Trouble};
use std::{path::PathBuf, sync::Arc};
use words::{Arg, Told, Words};
use yard::world::World;

/// At hand in every command.
pub(crate) struct Kit {
    /// Sentences.
    pub(crate) words: Arc<Words>,
    /// Clock, zone, chance.
    pub(crate) world: Arc<dyn World>,
    /// The data folder.
    pub(crate) data: PathBuf,
    /// Whether JSON is wanted.
    pub(crate) json: bool,
}

impl Kit {
    /// A sentence without arguments.
    pub(crate) fn t(&self, key: &str) -> String {
        self.words.text(key)
    }

    /// A sentence with one argument.
    pub(crate) fn t1<'a>(&self, key: &str, name: &str, arg: impl Into<Arg<'a>>) -> String {
        self.words.say(key, &[(name, arg.into())])
    }

    /// Refused: the message `key` and its next step.
    pub(crate) fn refused(&self, key: &str, args: &[(&str, Arg<'_>)]) -> Trouble {
        self.yours(key, args, Exit::Refused)
    }

    /// What was handed in has a mistake: the message `key` and its next step.
    pub(crate) fn mistake(&self, key: &str, args: &[(&str, Arg<'_>)]) -> Trouble {
        self.yours(key, args, Exit::Mistakes)
    }

    /// The command line was not understood, with what was stumbled over.
    pub(crate) fn not_understood(&self, detail: &str) -> Trouble {
        crate::answer::slip(&self.words, detail)
    }

    fn yours(&self, key: &str, args: &[(&str, Arg<'_>)], exit: Exit) -> Trouble {
        let told = Told {
            what: self.words.say(key, args),
            next: self.words.say(&format!("{key}.next"), args),
        };
        self.told(key, told, exit)
    }

    /// A trouble already in words.
    pub(crate) fn told(&self, code: &str, told: Told, exit: Exit) -> Trouble {
        Trouble::Yours {
            code: code.to_owned(),
            told,
            exit,
        }
    }
}

/// The data folder where none is named: the user's own data folder, by the custom of the system.
pub(crate) fn usual_data_folder() -> PathBuf {
    let of = |name: &str| {
        std::env::var_os(name)
            .filter(|value| !value.is_empty())
            .map(PathBuf::from)
    };
    let base = if cfg!(windows) {
        of("LOCALAPPDATA")
    } else if cfg!(target_os = "macos") {
        of("HOME").map(|home| home.join("Library/Application Support"))
    } else {
        of("XDG_DATA_HOME").or_else(|| of("HOME").map(|home| home.join(".local/share")))
    };
    // Without a home the folder one stands in is the only one that is surely the user's.
    base.unwrap_or_default().join("kingpost")
}
