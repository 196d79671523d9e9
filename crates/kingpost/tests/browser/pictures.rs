//! Pictures of the pages for the documentation: made only where KINGPOST_PICTURES names a folder.

use super::{chromium::WIDTH, page::Page};
use serde_json::json;
use std::path::PathBuf;
use thirtyfour::support::base64_decode;

fn folder() -> Option<PathBuf> {
    std::env::var_os("KINGPOST_PICTURES").map(PathBuf::from)
}

/// The whole page as it is now, from its top to its bottom or `most` CSS pixels.
pub async fn take(page: &Page, name: &str, most: Option<f64>) {
    let Some(folder) = folder() else { return };
    let cdp = page.driver.cdp();
    let metrics = cdp
        .send_raw("Page.getLayoutMetrics", json!({}))
        .await
        .unwrap();
    let height = metrics["cssContentSize"]["height"]
        .as_f64()
        .unwrap()
        .min(most.unwrap_or(f64::MAX));
    let clip = json!({ "x": 0, "y": 0, "width": WIDTH, "height": height, "scale": 1 });
    let shot = cdp
        .send_raw(
            "Page.captureScreenshot",
            json!({ "format": "png", "captureBeyondViewport": true, "clip": clip }),
        )
        .await
        .unwrap();
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(
        folder.join(name),
        base64_decode(shot["data"].as_str().unwrap()).unwrap(),
    )
    .unwrap();
}
