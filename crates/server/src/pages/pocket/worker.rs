//! What lets a phone start out of range, where the browser allows it (over HTTPS): the worker and the manifest.

use crate::{
    assets,
    desk::{Answer, Desk},
    refusal::Refusal,
};
use axum::{
    http::header,
    response::{IntoResponse, Response},
};
use serde_json::json;

/// The worker's script, naming the scripts it belongs to: it changes when any of them does.
pub(crate) async fn script() -> Response {
    let text = assets::text("worker.js").replace("MARK", &assets::scripts_mark());
    (
        [
            (header::CONTENT_TYPE, "text/javascript; charset=utf-8"),
            (header::CACHE_CONTROL, "no-cache"),
        ],
        text,
    )
        .into_response()
}

/// The manifest by which a phone puts the yard on its first screen.
pub(crate) fn manifest(desk: &Desk) -> Answer {
    let p = desk.page();
    let manifest = json!({
        "id": p.home(), "name": p.t("app-name"), "short_name": p.t("app-name"), "lang": p.lang(), "display": "standalone",
        "start_url": format!("{}/pocket", p.home()), "scope": "/", "background_color": "#EFE8DA", "theme_color": "#EFE8DA",
        "icons": [{ "src": p.static_file("icon.svg"), "sizes": "any", "type": "image/svg+xml" }],
    });
    let text = serde_json::to_string(&manifest).map_err(|why| Refusal::Ours(why.to_string()))?;
    let kind = "application/manifest+json";
    Ok(([(header::CONTENT_TYPE, kind)], text).into_response())
}
