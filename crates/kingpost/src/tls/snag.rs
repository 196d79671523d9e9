//! What stands in the way of HTTPS, as the key of a message with its arguments; worded where it is told.

use crate::{Exit, kit::Kit, trouble::Trouble};
use std::{fmt::Display, io, path::Path};
use words::{Arg, Told, Words};

/// Something that stands in the way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Snag {
    /// The person's to mend: the message's key and its arguments.
    Yours(&'static str, Vec<(&'static str, String)>),
    /// Ours.
    Ours(String),
}

impl Snag {
    /// A snag about one file.
    pub(crate) fn file(key: &'static str, path: &Path) -> Self {
        Self::Yours(key, vec![("path", path.display().to_string())])
    }

    /// A snag about one file, with one more argument.
    pub(crate) fn file_and(
        key: &'static str,
        path: &Path,
        name: &'static str,
        value: impl Display,
    ) -> Self {
        Self::Yours(
            key,
            vec![
                ("path", path.display().to_string()),
                (name, value.to_string()),
            ],
        )
    }

    /// A file that could not be read.
    pub(crate) fn unreadable(path: &Path, why: &io::Error) -> Self {
        if why.kind() == io::ErrorKind::NotFound {
            Self::file("https-file-not-there", path)
        } else {
            Self::file_and("https-file-unreadable", path, "detail", why)
        }
    }

    /// A file that could not be written.
    pub(crate) fn unwritten(path: &Path, why: &io::Error) -> Self {
        Self::file_and("https-file-unwritten", path, "detail", why)
    }

    /// What and what next, in words.
    pub(crate) fn told(&self, words: &Words) -> Told {
        let (key, args) = match self {
            Self::Yours(key, args) => (*key, args.clone()),
            Self::Ours(detail) => ("ours", vec![("detail", detail.clone())]),
        };
        let args: Vec<(&str, Arg<'_>)> = args
            .iter()
            .map(|(name, value)| (*name, value.into()))
            .collect();
        Told {
            what: words.say(key, &args),
            next: words.say(&format!("{key}.next"), &args),
        }
    }

    /// As a command's trouble.
    pub(crate) fn trouble(self, kit: &Kit) -> Trouble {
        match &self {
            Self::Yours(key, _) => kit.told(key, self.told(&kit.words), Exit::Refused),
            Self::Ours(detail) => Trouble::Ours(detail.clone()),
        }
    }
}

/// A mistake of ours, or of what we stand on.
pub(crate) fn ours(error: impl Display) -> Snag {
    Snag::Ours(error.to_string())
}
