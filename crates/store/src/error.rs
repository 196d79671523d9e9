//! What can go wrong with the store: codes with arguments; the sentences are made in `words`.

use std::{fmt, io, path::Path};

/// Why the store could not do what was asked. Every variant but [`StoreError::Engine`] can be mended by the person at the keyboard.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum StoreError {
    /// The bytes offered are no entry of this yard.
    Refused(Refusal),
    /// No such yard here.
    NoYard,
    /// A yard with this id is here already.
    YardExists,
    /// The folder lies on a network share, where the journal could be damaged. `kind` is the file system's name.
    NetworkShare {
        /// The folder.
        dir: String,
        /// The file system.
        kind: String,
    },
    /// The folder cannot be made or written.
    CannotWrite {
        /// The folder.
        dir: String,
        /// The system's reason.
        why: String,
    },
    /// Another program holds the folder.
    HeldByAnother {
        /// The folder.
        dir: String,
    },
    /// The store was written by a newer program; this one would damage it.
    NewerSchema {
        /// Schema found.
        found: i64,
        /// Newest this program knows.
        known: i64,
    },
    /// A file of that name is there, but it is no store of ours.
    NotOurs {
        /// The file.
        path: String,
    },
    /// Nothing is kept in this folder.
    NothingThere {
        /// The folder.
        dir: String,
    },
    /// The folder must be empty and is not.
    NotEmpty {
        /// The folder.
        dir: String,
    },
    /// The backup or export is not whole: `what` names the file or the entry.
    BackupDamaged {
        /// File, or `yard/seq`.
        what: String,
    },
    /// A kept row does not read: `journal verify` says more.
    Damaged {
        /// Its place in the chain.
        seq: u64,
    },
    /// The store's file is cut, overwritten or worn: only a backup helps.
    FileDamaged {
        /// What shows it.
        why: String,
    },
    /// The disk is full; nothing of what was asked was kept.
    DiskFull,
    /// The store was opened beside another program, to look only.
    LookOnly,
    /// The picture's kind is not kept here.
    MediaType {
        /// As offered.
        offered: String,
    },
    /// A file could not be read or written.
    File {
        /// The file.
        path: String,
        /// The system's reason.
        why: String,
    },
    /// The database's own complaint.
    Engine {
        /// Its message.
        why: String,
    },
}

/// Why bytes offered as an entry were not taken. Acceptance looks at the outside only: a body that does not read is taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// Larger than [`MOST_BYTES`](crate::MOST_BYTES).
    TooLarge {
        /// Bytes offered.
        bytes: usize,
        /// Most that are taken.
        most: usize,
    },
    /// Not UTF-8.
    NotText,
    /// Not a JSON object with the fields of an entry.
    NotAnEntry {
        /// The field, or empty for the whole.
        field: String,
        /// What the reader stumbled over.
        why: String,
    },
    /// Written for another yard.
    OtherYard {
        /// Its id.
        yard: String,
    },
    /// A field is there but not well formed.
    IllFormed {
        /// The field.
        field: &'static str,
    },
}

impl StoreError {
    /// The code its sentence goes by: `store-<code>`.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Refused(refusal) => refusal.code(),
            Self::NoYard => "no-yard",
            Self::YardExists => "yard-exists",
            Self::NetworkShare { .. } => "network-share",
            Self::CannotWrite { .. } => "cannot-write",
            Self::HeldByAnother { .. } => "held-by-another",
            Self::NewerSchema { .. } => "newer-schema",
            Self::NotOurs { .. } => "not-ours",
            Self::NothingThere { .. } => "nothing-there",
            Self::NotEmpty { .. } => "not-empty",
            Self::BackupDamaged { .. } => "backup-damaged",
            Self::Damaged { .. } => "damaged",
            Self::FileDamaged { .. } => "file-damaged",
            Self::DiskFull => "disk-full",
            Self::LookOnly => "look-only",
            Self::MediaType { .. } => "media-type",
            Self::File { .. } => "file",
            Self::Engine { .. } => "engine",
        }
    }

    /// The arguments of its sentence, by name.
    pub fn args(&self) -> Vec<(&'static str, String)> {
        match self {
            Self::Refused(refusal) => refusal.args(),
            Self::NoYard | Self::YardExists | Self::LookOnly | Self::DiskFull => vec![],
            Self::NetworkShare { dir, kind } => vec![("dir", dir.clone()), ("kind", kind.clone())],
            Self::CannotWrite { dir, why } => vec![("dir", dir.clone()), ("why", why.clone())],
            Self::HeldByAnother { dir } | Self::NothingThere { dir } | Self::NotEmpty { dir } => {
                vec![("dir", dir.clone())]
            }
            Self::NewerSchema { found, known } => {
                vec![("found", found.to_string()), ("known", known.to_string())]
            }
            Self::NotOurs { path } => vec![("path", path.clone())],
            Self::BackupDamaged { what } => vec![("what", what.clone())],
            Self::Damaged { seq } => vec![("seq", seq.to_string())],
            Self::MediaType { offered } => vec![("offered", offered.clone())],
            Self::File { path, why } => vec![("path", path.clone()), ("why", why.clone())],
            Self::FileDamaged { why } | Self::Engine { why } => vec![("why", why.clone())],
        }
    }

    /// A file's trouble, with its path.
    pub fn file(path: &Path, why: &io::Error) -> Self {
        if no_room(why) {
            return Self::DiskFull;
        }
        Self::File {
            path: path.display().to_string(),
            why: why.to_string(),
        }
    }

    /// A folder that cannot be made or written.
    pub(crate) fn cannot_write(dir: &Path, why: &io::Error) -> Self {
        if no_room(why) {
            return Self::DiskFull;
        }
        Self::CannotWrite {
            dir: dir.display().to_string(),
            why: why.to_string(),
        }
    }

    /// What is kept does not read.
    pub(crate) fn file_damaged(why: impl fmt::Display) -> Self {
        Self::FileDamaged {
            why: why.to_string(),
        }
    }

    /// The database's complaint.
    pub(crate) fn engine(why: impl fmt::Display) -> Self {
        Self::Engine {
            why: why.to_string(),
        }
    }
}

fn no_room(why: &io::Error) -> bool {
    matches!(
        why.kind(),
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded
    )
}

impl Refusal {
    /// The code its sentence goes by.
    pub fn code(&self) -> &'static str {
        match self {
            Self::TooLarge { .. } => "refused-too-large",
            Self::NotText => "refused-not-text",
            Self::NotAnEntry { .. } => "refused-not-an-entry",
            Self::OtherYard { .. } => "refused-other-yard",
            Self::IllFormed { .. } => "refused-ill-formed",
        }
    }

    fn args(&self) -> Vec<(&'static str, String)> {
        match self {
            Self::TooLarge { bytes, most } => {
                vec![("bytes", bytes.to_string()), ("most", most.to_string())]
            }
            Self::NotText => vec![],
            Self::NotAnEntry { field, why } => vec![("field", field.clone()), ("why", why.clone())],
            Self::OtherYard { yard } => vec![("yard", yard.clone())],
            Self::IllFormed { field } => vec![("field", (*field).to_owned())],
        }
    }
}

impl fmt::Display for StoreError {
    /// Code and arguments, for logs; people are shown the sentence from `words`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "store-{}", self.code())?;
        for (name, value) in self.args() {
            write!(f, " {name}={value:?}")?;
        }
        Ok(())
    }
}

impl std::error::Error for StoreError {}

impl From<Refusal> for StoreError {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal)
    }
}
