//! What every paper is made from: the words, the book, the size of the paper, the time, the address behind its square code.

use jiff::{Timestamp, tz::TimeZone};
use std::fmt;
use words::Words;
use yard::book::Book;

/// The paper in the yard's printer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PaperSize {
    /// 210 by 297 mm.
    A4,
    /// 8 1/2 by 11 in.
    Letter,
}

/// What a paper is made from. The same sheet gives the same bytes.
#[derive(Clone, Copy)]
pub struct Sheet<'a> {
    /// The language: every sentence comes from here.
    pub words: &'a Words,
    /// The machine.
    pub book: &'a Book,
    /// The paper in the printer.
    pub size: PaperSize,
    /// When it is printed.
    pub now: Timestamp,
    /// The yard's time zone.
    pub zone: &'a TimeZone,
    /// When the book was adopted; none = a draft.
    pub since: Option<Timestamp>,
    /// Address of the machine's page, without a slash at the end.
    pub address: &'a str,
}

/// Why a paper could not be made. The person at the printer cannot mend it: it is ours, apart from an address that is too long.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PaperError {
    /// The typesetter refused, or warned of something that would print wrong.
    Typesetting(String),
    /// The address does not fit into a square code.
    AddressTooLong(usize),
}

impl fmt::Display for PaperError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PaperError::Typesetting(said) => write!(f, "the paper could not be typeset: {said}"),
            PaperError::AddressTooLong(letters) => {
                write!(
                    f,
                    "the address is {letters} letters long; a square code that a phone reads holds 200 at most"
                )
            }
        }
    }
}

impl std::error::Error for PaperError {}
