//! The journal on screen: its entries, corrections and questions.

pub(crate) mod correct;
pub(crate) mod list;
pub(crate) mod questions;
