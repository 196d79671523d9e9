//! The photos' addresses: `PUT /api/y/{tag}/photos/{photo}` takes one in, `GET /y/{tag}/photos/{photo}` shows it.

use super::{MOST_BYTES, PhotoTrouble, clean, in_turn, keep};
use crate::{
    app::App,
    desk::{Answer, Desk},
    refusal::Refusal,
    routes::{answer, in_yard},
};
use axum::{
    Json,
    body::Body,
    extract::{OriginalUri, Path, State},
    http::{HeaderMap, StatusCode, header},
    response::{IntoResponse, Response},
};
use http_body_util::BodyExt as _;
use std::{collections::BTreeMap, sync::Arc, time::Duration};
use store::PictureKept;
use tokio::sync::Semaphore;
use yard::{id::PhotoId, people::Deed};

/// Uploads read at once, so that the bodies waiting for their turn stay below some 100 MB.
static READERS: Semaphore = Semaphore::const_new(8);

/// Longest that a body may take: 12 MiB over a weak link in the yard.
const LONGEST: Duration = Duration::from_secs(180);

/// What is read and thrown away of a body that is too large, so that the phone hears why instead of a line gone dead.
const MOST_THROWN_AWAY: usize = 64 << 20;

/// The small picture of lists: pixels along the long side.
const SMALL: u32 = 320;

/// Takes in a photo: 201 new, 200 known, 409 where another picture has this id, 401, 403, 413, 422 with `why` and `told`.
///
/// Who sends is asked before the body is read.
pub(crate) async fn put(
    state: State<Arc<App>>,
    headers: HeaderMap,
    OriginalUri(uri): OriginalUri,
    Path(parts): Path<BTreeMap<String, String>>,
    body: Body,
) -> Response {
    let place = parts.clone();
    let asked = answer(state.clone(), headers.clone(), uri.clone(), move |desk| {
        Ok(match entitled(desk, place) {
            Ok(_) => StatusCode::CONTINUE.into_response(),
            Err(refusal) => told(desk, &refusal),
        })
    });
    let asked = asked.await;
    if asked.status() != StatusCode::CONTINUE {
        return asked;
    }
    let Ok(_reader) = READERS.acquire().await else {
        return StatusCode::SERVICE_UNAVAILABLE.into_response();
    };
    let read = tokio::time::timeout(LONGEST, read(body)).await;
    let read = read.unwrap_or(Err(PhotoTrouble::CutOff));
    answer(state, headers, uri, move |desk| {
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

/// The whole body, if it is not too large.
async fn read(mut body: Body) -> Result<Vec<u8>, PhotoTrouble> {
    let (mut bytes, mut seen) = (Vec::new(), 0);
    while let Some(frame) = body.frame().await {
        let Ok(data) = frame.map_err(|_| PhotoTrouble::CutOff)?.into_data() else {
            continue;
        };
        seen += data.len();
        if seen <= MOST_BYTES {
            bytes.extend_from_slice(&data);
        } else {
            bytes = Vec::new();
        }
        if seen > MOST_THROWN_AWAY {
            break;
        }
    }
    if seen > MOST_BYTES {
        return Err(PhotoTrouble::TooLarge);
    }
    Ok(bytes)
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
