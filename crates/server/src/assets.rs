//! Static files inside the program, addressed by content so that a phone may keep them.

use axum::{
    extract::Path,
    http::{StatusCode, header},
    response::{IntoResponse, Response},
};
use rust_embed::RustEmbed;

#[derive(RustEmbed)]
#[folder = "static/"]
struct Files;

/// Address of a static file: its name and the first digits of its hash.
pub(crate) fn address(name: &str) -> String {
    let mark = Files::get(name)
        .map(|file| hex::encode(&file.metadata.sha256_hash()[..6]))
        .unwrap_or_default();
    format!("/static/{mark}/{name}")
}

/// Serves a static file; the mark in the address is for caches only.
pub(crate) async fn serve(Path((_mark, name)): Path<(String, String)>) -> Response {
    match Files::get(&name) {
        Some(file) => {
            let kind = file.metadata.mimetype().to_owned();
            (
                [
                    (header::CONTENT_TYPE, kind),
                    (
                        header::CACHE_CONTROL,
                        "public, max-age=31536000, immutable".to_owned(),
                    ),
                ],
                file.data,
            )
                .into_response()
        }
        None => StatusCode::NOT_FOUND.into_response(),
    }
}
