//! Every sentence a person reads, by language. What lies below hands up codes and arguments; here they become words.
//!
//! The messages are in `lang/<language>/<job>.ftl`, in the Fluent message format; [`Words::say`] fills one. On top of it
//! there is one file of typed renderers for each job, so that a page or a paper hands over a domain value and never builds a
//! sentence itself. [`Words::pseudo`] speaks a made-up language: what is still plain English in it bypassed this crate, and
//! [`plain_runs`] finds it.

mod named;
mod names;
mod pseudo;
mod words;

#[cfg(test)]
mod check;

mod time;

mod quantity;
mod reckon;

mod arm;
mod arrival;
mod book;
mod comes_back;
mod errors;
mod explain;
mod handover;
mod honest;
mod journal;
mod kept;
mod kinds;
mod people;
mod trust;
mod upkeep;
mod walkround;

pub use arm::{Fineness, way_code};
pub use named::Named;
pub use names::{BookList, BookNames, Names, NoNames, end_of};
pub use pseudo::{plain_runs, visible_text};
pub use trust::{TRUST_KINDS, fingerprint_lines};
pub use words::{Arg, Told, Words};
