//! What one request, and one device within a minute, may ask at most.

use crate::{
    app::App,
    caller::Caller,
    guard,
    pages::lines::{LinesPage, Section},
    refusal::Refusal,
};
use askama::Template;
use axum::{
    extract::{Request, State},
    http::{HeaderMap, Method, StatusCode, header},
    middleware::Next,
    response::{Html, IntoResponse, Response},
};
use std::{
    collections::BTreeMap,
    sync::{Arc, PoisonError},
    time::Duration,
};
use yard::people::Role;

/// The longest address, bytes.
const ADDRESS: usize = 4 << 10;
/// All headers of a request together, bytes.
const HEADERS: usize = 16 << 10;
/// Writing requests from one device within a minute.
const WRITES: u32 = 600;
/// So many devices are counted at once; who comes after shares one count.
const COUNTED: usize = 4_096;
/// The longest a request may take, from its head to its answer: longer than a large photo takes through a poor network.
pub(crate) const LONGEST: Duration = Duration::from_secs(240);

/// How many writing requests came from where within the minute that runs.
#[derive(Debug, Default)]
pub(crate) struct Rates {
    minute: i64,
    from: BTreeMap<String, u32>,
}

impl Rates {
    /// Counts one; `false` where it is one too many.
    fn count(&mut self, minute: i64, from: String) -> bool {
        if minute != self.minute {
            *self = Self {
                minute,
                ..Self::default()
            };
        }
        let full = self.from.len() >= COUNTED && !self.from.contains_key(&from);
        let from = if full { String::new() } else { from };
        let count = self.from.entry(from).or_default();
        *count = count.saturating_add(1);
        *count <= WRITES
    }
}

/// Turns away what is too long or too often, before anything else looks at it.
pub(crate) async fn within(State(app): State<Arc<App>>, request: Request, next: Next) -> Response {
    if request
        .uri()
        .path_and_query()
        .map_or(0, |at| at.as_str().len())
        > ADDRESS
    {
        return StatusCode::URI_TOO_LONG.into_response();
    }
    if size(request.headers()) > HEADERS {
        return StatusCode::REQUEST_HEADER_FIELDS_TOO_LARGE.into_response();
    }
    let reads = matches!(
        *request.method(),
        Method::GET | Method::HEAD | Method::OPTIONS
    );
    if reads {
        return next.run(request).await;
    }
    let (parts, body) = request.into_parts();
    let caller = Caller::of(&parts);
    let request = Request::from_parts(parts, body);
    // Without an address there is nothing to tell callers apart by: nobody but ourselves calls so.
    if caller.peer.is_none() {
        return next.run(request).await;
    }
    let api = crate::api::is_here(request.uri().path());
    let counted = {
        let app = app.clone();
        tokio::task::spawn_blocking(move || often(&app, &caller)).await
    };
    match counted {
        Ok(Ok(false)) => next.run(request).await,
        Ok(Ok(true)) => too_often(&app, api),
        Ok(Err(refusal)) => refusal.into_response(),
        Err(_) => StatusCode::INTERNAL_SERVER_ERROR.into_response(),
    }
}

fn size(headers: &HeaderMap) -> usize {
    let pair = |(name, value): (&header::HeaderName, &header::HeaderValue)| {
        name.as_str().len() + value.len()
    };
    headers.iter().map(pair).sum()
}

/// Counts a writing request, and says whether it is one too many.
fn often(app: &App, caller: &Caller) -> Result<bool, Refusal> {
    let device = caller.device_hash().map(|hash| app.yard.device(&hash));
    let known = device.transpose()?.flatten().is_some();
    let minute = app.world.now().as_second().div_euclid(60);
    let mut rates = app.rates.lock().unwrap_or_else(PoisonError::into_inner);
    Ok(!rates.count(minute, guard::device_key(caller, known)))
}

/// 429: for a person a page, for a program JSON; both say to wait a minute.
fn too_often(app: &App, api: bool) -> Response {
    let words = &app.words;
    let (what, next) = (words.text("too-often"), words.text("too-often.next"));
    let wait = [(header::RETRY_AFTER, "60")];
    if api {
        let told = serde_json::json!({ "why": "slow-down", "told": format!("{what} {next}") });
        return (StatusCode::TOO_MANY_REQUESTS, wait, axum::Json(told)).into_response();
    }
    let Ok(view) = app.view() else {
        return (StatusCode::TOO_MANY_REQUESTS, wait).into_response();
    };
    let page = LinesPage {
        title: what,
        intro: vec![next],
        sections: Vec::<Section>::new(),
        button: None,
        p: app.page(&view, None, Role::Visitor),
    };
    match page.render() {
        Ok(html) => (StatusCode::TOO_MANY_REQUESTS, wait, Html(html)).into_response(),
        Err(_) => (StatusCode::TOO_MANY_REQUESTS, wait).into_response(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_device_has_its_own_count_and_a_new_minute_begins_anew() {
        let mut rates = Rates::default();
        for _ in 0..WRITES {
            assert!(rates.count(7, "a".to_owned()));
        }
        assert!(!rates.count(7, "a".to_owned()));
        assert!(rates.count(7, "b".to_owned()));
        assert!(rates.count(8, "a".to_owned()));
    }

    #[test]
    fn it_counts_no_more_devices_than_it_can_hold() {
        let mut rates = Rates::default();
        for n in 0..COUNTED + 2 * WRITES as usize {
            rates.count(7, n.to_string());
        }
        assert!(rates.from.len() <= COUNTED + 1);
        assert!(!rates.count(7, "one more".to_owned()));
        assert!(rates.count(7, "0".to_owned()));
    }
}
