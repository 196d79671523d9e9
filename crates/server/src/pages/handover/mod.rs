//! Handing a machine over.

pub(crate) mod leave;
