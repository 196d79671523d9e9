//! From a machine book to the arm's figures: the reference machine's tables, and what is not known without what.

#![allow(clippy::unwrap_used)]

mod reference;
mod survey;
mod table;
mod unknown;
