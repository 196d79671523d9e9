//! The journal in words: one line for each kind of entry, and the questions some of them raise.

mod entry;
mod kept;
mod meters;
mod question;

#[cfg(test)]
mod tests;
