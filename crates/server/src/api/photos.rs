//! Photos, sent before or after the entries that name them.

use super::{
    asked::{Asked, say},
    refused::Refused,
    shapes::Taken,
};
use crate::photo;
use axum::{http::StatusCode, response::Response};
use store::PictureKept;

/// Cleans a photo and keeps it under the id its phone gave.
pub(super) fn keep(asked: &Asked) -> Result<Response, Refused> {
    let id = asked.part("photo").parse();
    let id = id.map_err(|_| Refused::of("not-found"))?;
    let (status, is) = match photo::keep(&asked.desk()?, id, &asked.body)? {
        PictureKept::New => (StatusCode::CREATED, "new"),
        PictureKept::Known => (StatusCode::OK, "known"),
        PictureKept::Differs => return Err(Refused::of("differs")),
    };
    say(status, Taken { is: is.to_owned() })
}
