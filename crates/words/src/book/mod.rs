//! The machine book in words: its troubles, its gaps, its format.

mod gap;
mod reference;
mod trouble;
