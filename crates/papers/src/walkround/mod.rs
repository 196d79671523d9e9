//! Papers of the walk-round.

mod found;
mod pairs;
mod round_sheet;
mod stands_down;
mod words;

pub use round_sheet::round_sheet;
pub use words::{AnswerWord, answer_words, read_answer_word};

pub(crate) use found::{Line, Piece};
pub(crate) use pairs::{Row, rows};
pub(crate) use stands_down::stands_down;
