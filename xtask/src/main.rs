//! Checks cargo alone does not do.
fn main() {}
