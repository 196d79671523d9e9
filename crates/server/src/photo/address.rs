//! The photos' address: `GET /y/{tag}/photos/{photo}` shows one. (The API takes them in.)

use super::{clean, in_turn};
use crate::{
    desk::{Answer, Desk},
    refusal::Refusal,
    routes::{Shared, answer},
};
use axum::{
    body::Body,
    http::{StatusCode, Uri, header},
    response::{IntoResponse, Response},
};
use yard::id::PhotoId;

/// The small picture of lists: pixels along the long side.
const SMALL: u32 = 320;

/// Asks before a large body is read whether whoever sends it may; what they are told where they may not.
pub(crate) async fn ask_first(
    state: &Shared,
    uri: &Uri,
    check: impl FnOnce(&Desk) -> Option<Response> + Send + 'static,
) -> Option<Response> {
    let asked = answer(state.clone(), uri.clone(), move |desk| {
        Ok(check(desk).unwrap_or_else(|| StatusCode::CONTINUE.into_response()))
    });
    Some(asked.await).filter(|response| response.status() != StatusCode::CONTINUE)
}

/// Shows a photo to somebody signed in: photos may show people. `size` is `small` for lists.
pub(crate) fn show(desk: &Desk, photo: &str, size: &str) -> Answer {
    desk.signed_in()?;
    let id: PhotoId = photo.parse().map_err(|_| Refusal::NotFound)?;
    let picture = desk.app.yard.picture(id)?.ok_or(Refusal::NotFound)?;
    let bytes = match size {
        "small" => desk.app.small_photos.of(id, || {
            let smaller = in_turn(|| clean::smaller(&picture.bytes, SMALL))?;
            Ok(smaller.bytes)
        })?,
        _ => picture.bytes.into(),
    };
    // On a shared tablet the next person must not find it: neither by its address nor by going back.
    Ok((
        [
            (header::CONTENT_TYPE, picture.media_type.as_str()),
            (header::CACHE_CONTROL, "no-store"),
            (header::CONTENT_DISPOSITION, "inline"),
            (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        ],
        Body::from(bytes),
    )
        .into_response())
}
