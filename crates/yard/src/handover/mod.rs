//! May it run, why, and in what state was it left.

mod code;
mod verdict;

pub use verdict::*;
