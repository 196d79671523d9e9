//! The trust page: what HTTPS is here, the root to install, the steps for each kind of phone; or how the yard gets HTTPS.

use crate::{
    desk::{Answer, Desk, page},
    page::Page,
    refusal::Refusal,
};
use askama::Template;
use axum::{http::header, response::IntoResponse};
use words::{TRUST_KINDS, fingerprint_lines};

#[derive(Template)]
#[template(path = "trust.html")]
struct TrustPage {
    p: Page,
    kinds: Vec<Kind>,
    fingerprint: Vec<String>,
    root_name: String,
    until: String,
    over: String,
}

/// A kind of phone: what its settings are called, and what to do there.
struct Kind {
    title: String,
    steps: Vec<String>,
    remove: String,
}

#[derive(Template)]
#[template(path = "no_https.html")]
struct NoHttpsPage {
    p: Page,
    lacks: Vec<String>,
    steps: Vec<(String, &'static str)>,
}

/// What is typed at each of the steps to HTTPS.
const COMMANDS: [&str; 4] = [
    "",
    "kingpost serve --https",
    "kingpost papers trust -o trust.pdf",
    "",
];

/// Shows the page: the steps where there is a root, else why there are none.
pub(crate) fn show(desk: &Desk) -> Answer {
    let p = desk.page();
    let Some(https) = desk.app.https() else {
        return page(&NoHttpsPage {
            lacks: p.words.in_a_row("no-https-lacks"),
            steps: p
                .words
                .in_a_row("no-https-step")
                .into_iter()
                .zip(COMMANDS)
                .collect(),
            p,
        });
    };
    let root = https.root.as_ref();
    let until = root.map(|root| root.until.to_zoned_datetime(desk.zone.clone()).date());
    page(&TrustPage {
        kinds: if root.is_some() {
            kinds(&p)
        } else {
            Vec::new()
        },
        fingerprint: root.map_or(Vec::new(), |root| fingerprint_lines(&root.fingerprint)),
        root_name: root.map(|root| root.name.clone()).unwrap_or_default(),
        until: until.map(|day| p.words.date(day)).unwrap_or_default(),
        over: format!("{}/y/{}", desk.app.address, desk.app.tag()),
        p,
    })
}

/// The root itself, to install: `root.crt` is the certificate's bytes, `root.pem` the same as text.
pub(crate) fn root(desk: &Desk, file: &str) -> Answer {
    let https = desk.app.https().ok_or(Refusal::NotFound)?;
    let root = https.root.as_ref().ok_or(Refusal::NotFound)?;
    let (kind, bytes) = match file {
        "root.crt" => ("application/x-x509-ca-cert", root.der.clone()),
        "root.pem" => ("application/x-pem-file", root.pem.clone().into_bytes()),
        _ => return Err(Refusal::NotFound),
    };
    let name = format!("attachment; filename=\"kingpost-{file}\"");
    Ok((
        [
            (header::CONTENT_TYPE, kind.to_owned()),
            (header::CONTENT_DISPOSITION, name),
            (header::CACHE_CONTROL, "no-store".to_owned()),
        ],
        bytes,
    )
        .into_response())
}

fn kinds(p: &Page) -> Vec<Kind> {
    let kind = |which: &str| Kind {
        title: p.t(&format!("trust-{which}")),
        steps: p.words.in_a_row(&format!("trust-{which}-step")),
        remove: p.t(&format!("trust-{which}-remove")),
    };
    TRUST_KINDS.map(kind).into()
}
