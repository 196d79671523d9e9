//! Static files inside the program, addressed by content so that a phone may keep them.

use axum::{
    extract::Path,
    http::{StatusCode, header},
    response::{IntoResponse, Response},
};
use rust_embed::RustEmbed;
use sha2::{Digest, Sha256};

#[derive(RustEmbed)]
#[folder = "static/"]
struct Files;

/// Address of a static file: its name and the first digits of its hash. Scripts load each other, so all have one mark.
pub(crate) fn address(name: &str) -> String {
    if name.ends_with(".js") {
        return format!("/static/{}/{name}", scripts_mark());
    }
    let mark = Files::get(name)
        .map(|file| hex::encode(&file.metadata.sha256_hash()[..6]))
        .unwrap_or_default();
    format!("/static/{mark}/{name}")
}

/// The mark of all scripts together.
pub(crate) fn scripts_mark() -> String {
    static MARK: std::sync::OnceLock<String> = std::sync::OnceLock::new();
    let mark = || {
        let mut names: Vec<_> = Files::iter().filter(|name| name.ends_with(".js")).collect();
        names.sort();
        let files = names.iter().filter_map(|name| Files::get(name));
        let all: Vec<u8> = files.flat_map(|file| file.metadata.sha256_hash()).collect();
        hex::encode(&Sha256::digest(all)[..6])
    };
    MARK.get_or_init(mark).clone()
}

/// A static file's text.
pub(crate) fn text(name: &str) -> String {
    Files::get(name)
        .map(|file| String::from_utf8_lossy(&file.data).into_owned())
        .unwrap_or_default()
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
