//! The yard, its machines, and the pages that explain: rules and the reckoner.

pub(crate) mod explain;
pub(crate) mod home;
pub(crate) mod machine;
