//! The machine book on screen.

pub(crate) mod text;
