//! Printing: as written first, the other system beside it, rounded no finer than the writer could know.

mod beside;
mod number;

pub use number::{format_exact, format_feet_inches, format_fraction_inches, round_to_step};
pub(crate) use number::{plain_text, rounded_pair};

use crate::{Quantity, System};

/// A quantity ready to print, in pieces and without prose.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// What stands first.
    pub first: String,
    /// The other system's text; `None` where both systems use the same unit.
    pub beside: Option<String>,
}

/// A quantity as text, the chosen system first. With [`System::Both`], and wherever it was written in the chosen system, what
/// was written stands first, untouched.
///
/// Only what was written decides at a limit; the other text is for reading. It reads back as the rounded value it prints.
#[must_use]
pub fn show(quantity: &Quantity, first: System) -> Shown {
    let own = quantity.text().to_owned();
    let written_in = quantity.unit().system();
    match beside::other_system(quantity) {
        Some(other)
            if first != System::Both && written_in != System::Both && written_in != first =>
        {
            Shown {
                first: other,
                beside: Some(own),
            }
        }
        beside => Shown { first: own, beside },
    }
}

impl Quantity {
    /// As written, and in the other system: `1 3/4 in` and `44.45 mm`.
    #[must_use]
    pub fn both(&self) -> (String, Option<String>) {
        let shown = show(self, System::Both);
        (shown.first, shown.beside)
    }
}
