//! The arm at the command line, through the real program: figures against tables made elsewhere, sheets, map and pins.
#![allow(clippy::unwrap_used)]

mod program;
mod reference;
mod reference_still;
mod second;
mod sheets;
mod table;
mod taped;
mod whole;
