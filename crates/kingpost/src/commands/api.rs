//! The API's description, as the server gives it.

use crate::{kit::Kit, said::Said};

/// Prints the OpenAPI document. It is JSON either way.
pub(crate) fn run(kit: &Kit) -> Said {
    let document = server::api::document(&kit.words);
    Said::new(format!("{document:#}"), document)
}
