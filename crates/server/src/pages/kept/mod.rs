//! Pages of what is kept: parts and the shelf, shopping, attachments, documents, leaving.

pub(crate) mod attachments;
pub(crate) mod documents;
pub(crate) mod leaving;
pub(crate) mod parts;
pub(crate) mod shelf;
pub(crate) mod shopping;
