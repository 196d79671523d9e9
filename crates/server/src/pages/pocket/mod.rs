//! The pocket page: everything that can be written about one machine, in one page that goes on working out of range.
//!
//! The page is sent once, with the round as data. From then on its script keeps entries on the phone and delivers them; see
//! `static/pocket.js`. It holds no name of anybody, so that a phone may keep it.

mod marks;
mod reads;
mod words;

pub(crate) mod one;
pub(crate) mod shelf;
pub(crate) mod worker;

pub(crate) use words::of_every_page;
