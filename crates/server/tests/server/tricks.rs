//! Headers, paths and bodies made to trick the server.

use super::{browser::Browser, fixture::Place};
use axum::{
    body::Body,
    extract::ConnectInfo,
    http::{Request, StatusCode},
};
use std::net::SocketAddr;

#[tokio::test]
async fn other_sites_write_nothing() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let before = place.yard.tip().unwrap().seq;
    let foreign: [&[(&str, &str)]; 4] = [
        &[("sec-fetch-site", "cross-site")],
        &[("sec-fetch-site", "same-site")],
        &[("origin", "https://evil.example"), ("host", "yard.lan")],
        &[("origin", "null"), ("host", "yard.lan")],
    ];
    for headers in foreign {
        for path in ["note", "stand-down", "fault"] {
            let mut request = Request::post(format!("{}/{path}", place.machine()))
                .header("cookie", &cookie)
                .header("content-type", "application/x-www-form-urlencoded");
            for (name, value) in headers {
                request = request.header(*name, *value);
            }
            let body = Body::from("text=mischief&what=x&severity=note");
            let got = place.send(request.body(body).unwrap()).await;
            assert_eq!(got.status, StatusCode::FORBIDDEN, "{headers:?}");
        }
    }
    assert_eq!(place.yard.tip().unwrap().seq, before);
}

#[tokio::test]
async fn odd_paths_find_nothing() {
    let place = Place::new();
    let mut browser = Browser::at(&place, "192.168.1.7");
    browser.sign_in(place.steward).await;
    let tag = place.app.tag();
    for path in [
        format!("/y/{tag}/../../etc/passwd"),
        format!("/y/{tag}/m/..%2f..%2fetc"),
        format!("/y/{tag}/m/%2e%2e"),
        format!("/y/{tag}%2fm%2fmarigold"),
        format!("//y/{tag}/m/marigold"),
        format!("/y/{tag}//m/marigold"),
        format!("/y/{tag}/y/{tag}/m/marigold"),
        "/y/0123456789/m/marigold".to_owned(),
        format!("/y/{tag}/m/marigold%00"),
        format!("/y/{tag}/m/MARIGOLD"),
        "/static/x/..%2f..%2fCargo.toml".to_owned(),
        "/static/x/%2e%2e".to_owned(),
    ] {
        let got = browser.get(&path).await;
        assert_eq!(got.status, StatusCode::NOT_FOUND, "{path}");
    }
}

#[tokio::test]
async fn a_host_made_up_changes_no_link() {
    let place = Place::new();
    let mut browser = Browser::at(&place, "192.168.1.7");
    browser.headers = vec![
        ("host", "evil.example".to_owned()),
        ("x-forwarded-host", "evil.example".to_owned()),
        ("x-forwarded-proto", "https".to_owned()),
    ];
    browser.sign_in(place.steward).await;
    for path in [
        place.home(),
        place.machine(),
        format!("{}/people", place.home()),
        format!("{}/me", place.home()),
        format!("{}/sign-in", place.home()),
    ] {
        let got = browser.get(&path).await;
        assert!(!got.text.contains("evil.example"), "{path}");
    }
    let new = [("name", "Ilse"), ("role", "operator"), ("pin", "")];
    let got = browser
        .post(&format!("{}/people", place.home()), &new)
        .await;
    assert!(got.text.contains("http://yard.lan/y/"), "{}", got.text);
    assert!(!got.text.contains("evil.example"));
}

#[tokio::test]
async fn what_is_too_long_or_no_form_is_turned_away() {
    let place = Place::new();
    let mut browser = Browser::at(&place, "192.168.1.7");
    browser.sign_in(place.operator).await;
    let note = format!("{}/note", place.machine());
    let before = place.yard.tip().unwrap().seq;
    let long = "x".repeat(1 << 20);
    let got = browser.post(&note, &[("text", &long)]).await;
    assert_eq!(got.status, StatusCode::PAYLOAD_TOO_LARGE);
    let path = format!("{}/journal?before={}", place.home(), "9".repeat(5_000));
    assert_eq!(browser.get(&path).await.status, StatusCode::URI_TOO_LONG);
    browser.headers = vec![("x-long", "x".repeat(17 << 10))];
    let got = browser.get(&place.home()).await;
    assert_eq!(got.status, StatusCode::REQUEST_HEADER_FIELDS_TOO_LARGE);
    let cookie = place.sign_in(place.operator).await;
    for (media, body) in [
        ("application/json", "{\"text\":\"x\"}"),
        ("text/plain", "text=x"),
        ("application/x-www-form-urlencoded", "text=%ff%fe"),
        ("multipart/form-data", "text"),
        ("", "text=x"),
    ] {
        let request = Request::post(&note)
            .header("cookie", &cookie)
            .header("content-type", media)
            .body(Body::from(body))
            .unwrap();
        let got = place.send(request).await;
        assert!(!got.status.is_server_error(), "{media}: {}", got.status);
    }
    let many = "a=1&".repeat(100_000);
    let request = Request::post(&note)
        .header("cookie", &cookie)
        .header("content-type", "application/x-www-form-urlencoded")
        .body(Body::from(many))
        .unwrap();
    assert!(!place.send(request).await.status.is_server_error());
    let kept = place.yard.entries().unwrap();
    assert!(kept.iter().filter(|e| e.seq > before).count() <= 1);
}

#[tokio::test]
async fn six_hundred_forms_a_minute_are_enough() {
    let place = Place::new();
    let mut browser = Browser::at(&place, "192.168.1.7");
    let out = format!("{}/sign-out", place.home());
    let mut last = StatusCode::OK;
    for _ in 0..601 {
        last = browser.post(&out, &[]).await.status;
    }
    assert_eq!(last, StatusCode::TOO_MANY_REQUESTS);
    // Throwing the cookies away does not help; looking goes on; a program is told in JSON.
    browser.jar.clear();
    let got = browser.post(&out, &[]).await;
    assert_eq!(got.status, StatusCode::TOO_MANY_REQUESTS);
    assert!(got.text.contains("Wait a minute"), "{}", got.text);
    assert_eq!(browser.get(&place.home()).await.status, StatusCode::OK);
    let got = browser
        .post(&format!("/api{}/deliveries", place.home()), &[])
        .await;
    let told: serde_json::Value = serde_json::from_str(&got.text).unwrap();
    assert_eq!(told["why"], "slow-down");
    let mut other = Browser::at(&place, "192.168.1.8");
    assert_eq!(other.post(&out, &[]).await.status, StatusCode::SEE_OTHER);
    place.later(1);
    assert_eq!(browser.post(&out, &[]).await.status, StatusCode::SEE_OTHER);
}

#[tokio::test]
async fn every_answer_carries_its_headers() {
    use tower::ServiceExt as _;
    let place = Place::new();
    let sign_in = format!("{}/sign-in", place.home());
    for path in [place.home().as_str(), "/nowhere", &sign_in, "/health"] {
        let address: SocketAddr = "192.168.1.7:5".parse().unwrap();
        let request = Request::get(path)
            .extension(ConnectInfo(address))
            .body(Body::empty())
            .unwrap();
        let answer = place.router.clone().oneshot(request).await.unwrap();
        let head = |name: &str| answer.headers()[name].to_str().unwrap().to_owned();
        assert_eq!(head("cache-control"), "no-store", "{path}");
        assert_eq!(head("x-content-type-options"), "nosniff");
        assert_eq!(head("cross-origin-opener-policy"), "same-origin");
        assert!(head("permissions-policy").contains("geolocation=()"));
        let policy = head("content-security-policy");
        for part in [
            "default-src 'none'",
            "frame-ancestors 'none'",
            "worker-src 'self'",
            "form-action 'self'",
        ] {
            assert!(policy.contains(part), "{policy}");
        }
        assert!(!policy.contains("unsafe"), "{policy}");
    }
}
