//! The sheet by which a phone is told to trust the yard's computer.

mod trust_sheet;

pub use trust_sheet::{TrustSheet, trust_sheet};
