//! The photos' addresses: `PUT /api/y/{tag}/photos/{photo}` takes one in, `GET /y/{tag}/photos/{photo}` shows it.

use super::{clean, in_turn, keep, reading};
use crate::{
    desk::{Answer, Desk},
    refusal::Refusal,
    routes::{Shared, answer, in_yard},
};
use axum::{
    Json,
    body::Body,
    extract::{OriginalUri, Path},
    http::{StatusCode, Uri, header},
    response::{IntoResponse, Response},
};
use std::collections::BTreeMap;
use store::PictureKept;
use yard::{id::PhotoId, people::Deed};

/// The small picture of lists: pixels along the long side.
const SMALL: u32 = 320;

/// Takes in a photo: 201 new, 200 known, 409 where another picture has this id, 401, 403, 413, 422 with `why` and `told`.
///
/// Who sends is asked before the body is read.
pub(crate) async fn put(
    state: Shared,
    OriginalUri(uri): OriginalUri,
    Path(parts): Path<BTreeMap<String, String>>,
    body: Body,
) -> Response {
    let place = parts.clone();
    let asked = ask_first(&state, &uri, move |desk| {
        Some(told(desk, &entitled(desk, place).err()?))
    });
    if let Some(refused) = asked.await {
        return refused;
    }
    let read = reading::whole(body).await;
    answer(state, uri, move |desk| {
        let kept = read
            .map_err(Refusal::from)
            .and_then(|bytes| keep(desk, entitled(desk, parts)?, &bytes));
        Ok(match kept {
            Ok(PictureKept::New) => StatusCode::CREATED.into_response(),
            Ok(PictureKept::Known) => StatusCode::OK.into_response(),
            Ok(PictureKept::Differs) => {
                said(desk, StatusCode::CONFLICT, "differs", "photo-differs")
            }
            Err(refusal) => told(desk, &refusal),
        })
    })
    .await
}

/// The photo meant, if whoever asks may keep one in this yard.
fn entitled(desk: &Desk, parts: BTreeMap<String, String>) -> Result<PhotoId, Refusal> {
    let place = in_yard(desk, parts, BTreeMap::new())?;
    desk.may(Deed::Note)?;
    place.part("photo").parse().map_err(|_| Refusal::NotFound)
}

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

/// A refusal for a program: its code, and the sentences for whoever holds the phone.
fn told(desk: &Desk, refusal: &Refusal) -> Response {
    let (status, why) = match refusal {
        Refusal::SignIn { .. } => (StatusCode::UNAUTHORIZED, "sign-in"),
        Refusal::Photo(trouble) => (trouble.status(), trouble.code()),
        other => (other.status(), other.key().trim_start_matches("error-")),
    };
    if let Refusal::Ours(what) = refusal {
        eprintln!("{} {}: {what}", desk.now, desk.path);
    }
    said(desk, status, why, refusal.key())
}

fn said(desk: &Desk, status: StatusCode, why: &str, key: &str) -> Response {
    let p = desk.page();
    let told = format!("{} {}", p.t(key), p.t(&format!("{key}.next")));
    let body = Json(serde_json::json!({ "why": why, "told": told }));
    (status, body).into_response()
}

/// Shows a photo to somebody signed in: photos may show people. `size` is `small` for lists.
pub(crate) fn show(desk: &Desk, photo: &str, size: &str) -> Answer {
    desk.signed_in()?;
    let id: PhotoId = photo.parse().map_err(|_| Refusal::NotFound)?;
    let picture = desk.app.yard.picture(id)?.ok_or(Refusal::NotFound)?;
    let bytes = match size {
        "small" => in_turn(|| clean::smaller(&picture.bytes, SMALL))?.bytes,
        _ => picture.bytes,
    };
    // A photo's id leads to one picture for ever, so a phone may keep it; a shared cache on the way may not.
    Ok((
        [
            (header::CONTENT_TYPE, picture.media_type.as_str()),
            (
                header::CACHE_CONTROL,
                "private, max-age=31536000, immutable",
            ),
            (header::CONTENT_DISPOSITION, "inline"),
            (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        ],
        bytes,
    )
        .into_response())
}
