//! The machine book: what a machine is, what is to be attended to on it, and what is still unknown about it.

mod model;

pub use model::*;
