//! What a check found wrong, and where.

use std::fmt;

/// One thing to mend: the file, the line where there is one, and what would be right.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Finding {
    /// The file, from the root of the tree, with forward slashes.
    pub(crate) path: String,
    /// The line, counted from 1.
    pub(crate) line: Option<usize>,
    /// What is wrong and what would be right.
    pub(crate) what: String,
}

impl Finding {
    /// A finding about a whole file or folder.
    pub(crate) fn at(path: &str, what: impl Into<String>) -> Self {
        Self {
            path: path.to_owned(),
            line: None,
            what: what.into(),
        }
    }

    /// A finding about one line, counted from 1.
    pub(crate) fn on_line(path: &str, line: usize, what: impl Into<String>) -> Self {
        Self {
            path: path.to_owned(),
            line: Some(line),
            what: what.into(),
        }
    }
}

impl fmt::Display for Finding {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.line {
            Some(line) => write!(out, "{}:{line}: {}", self.path, self.what),
            None => write!(out, "{}: {}", self.path, self.what),
        }
    }
}
