//! Who is who in the yard, and the one table of what each may do.

mod may;
mod role;

pub use may::{DEEDS, Deed, may};
pub use role::{ROLES, Role};
