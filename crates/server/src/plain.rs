//! The plain port beside HTTPS: the trust page and the root, and the way over for everything else.

use crate::{app::App, https::Https, routes};
use axum::{
    Router,
    extract::{OriginalUri, State},
    http::{HeaderMap, HeaderValue, Method, StatusCode, header},
    response::{IntoResponse, Response},
};
use std::sync::Arc;

/// Everything the plain port answers while HTTPS is on. Nothing signed in, nothing written.
pub fn plain_router(app: Arc<App>) -> Router {
    routes::dressed(routes::open_routes().fallback(over), app)
}

/// Leads to the same page over HTTPS. What was written is not taken: it came where anybody can listen.
async fn over(
    State(app): State<Arc<App>>,
    method: Method,
    headers: HeaderMap,
    OriginalUri(uri): OriginalUri,
) -> Response {
    let path = uri.path_and_query().map_or("/", |path| path.as_str());
    let to = app
        .https()
        .map(|https| {
            format!(
                "https://{}{path}",
                authority(&https, &headers, &app.address)
            )
        })
        .unwrap_or_default();
    if method != Method::GET && method != Method::HEAD {
        let said = app.words.say("plain-not-taken", &[("address", to.into())]);
        return (StatusCode::FORBIDDEN, said).into_response();
    }
    match HeaderValue::from_str(&to) {
        Ok(to) => (StatusCode::PERMANENT_REDIRECT, [(header::LOCATION, to)]).into_response(),
        Err(_) => StatusCode::BAD_REQUEST.into_response(),
    }
}

/// The host the browser asked for, where the certificate stands for it; else the yard's own address. So nobody is led elsewhere.
fn authority(https: &Https, headers: &HeaderMap, address: &str) -> String {
    let asked = headers
        .get(header::HOST)
        .and_then(|host| host.to_str().ok())
        .map(|host| without_port(host).to_ascii_lowercase());
    let bare = |host: &str| host.trim_matches(['[', ']']).to_owned();
    match asked.filter(|host| https.hosts.contains(&bare(host))) {
        Some(host) => format!("{host}:{}", https.port),
        None => address
            .split_once("://")
            .map_or(address, |(_, after)| after)
            .to_owned(),
    }
}

fn without_port(host: &str) -> &str {
    match host.rsplit_once(':') {
        Some((before, port)) if port.bytes().all(|b| b.is_ascii_digit()) => before,
        _ => host,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_names_of_the_certificate_are_led_to() {
        let https = Https {
            port: 4721,
            hosts: ["yard.local", "192.168.1.20", "fd00::7"]
                .map(str::to_owned)
                .into(),
            root: None,
        };
        let own = "https://192.168.1.20:4721";
        for (host, to) in [
            ("yard.local:4720", "yard.local:4721"),
            ("YARD.local", "yard.local:4721"),
            ("[fd00::7]:4720", "[fd00::7]:4721"),
            ("evil.example:4720", "192.168.1.20:4721"),
            ("yard.local@evil.example", "192.168.1.20:4721"),
        ] {
            let headers = HeaderMap::from_iter([(header::HOST, HeaderValue::from_static(host))]);
            assert_eq!(authority(&https, &headers, own), to, "{host}");
        }
        assert_eq!(
            authority(&https, &HeaderMap::new(), own),
            "192.168.1.20:4721"
        );
    }
}
