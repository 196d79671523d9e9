//! The machine book in words.
