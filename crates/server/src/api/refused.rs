//! Refusals of the API: a status, a code for programs and a sentence for people. Never a redirect, never a page.

use super::shapes::Refusal as Shape;
use crate::refusal::Refusal;
use axum::{
    Json,
    http::{StatusCode, header},
    response::{IntoResponse, Response},
};
use words::{Arg, Words};

/// Why a request was not answered as asked.
#[derive(Debug)]
pub(super) struct Refused {
    /// Code, one of [`CODES`].
    pub(super) why: &'static str,
    /// Arguments of its sentence.
    pub(super) args: Vec<(&'static str, String)>,
    /// Where in what was sent, line and column from 1.
    pub(super) place: Option<(usize, usize)>,
}

/// Every code with its status. The sentence is `api-why-<code>`.
pub(super) const CODES: &[(&str, StatusCode)] = &[
    ("sign-in", StatusCode::UNAUTHORIZED),
    ("token", StatusCode::UNAUTHORIZED),
    ("may-not", StatusCode::FORBIDDEN),
    ("scope", StatusCode::FORBIDDEN),
    ("cross-site", StatusCode::FORBIDDEN),
    ("not-found", StatusCode::NOT_FOUND),
    ("method", StatusCode::METHOD_NOT_ALLOWED),
    ("media-type", StatusCode::UNSUPPORTED_MEDIA_TYPE),
    ("too-large", StatusCode::PAYLOAD_TOO_LARGE),
    ("cut-off", StatusCode::BAD_REQUEST),
    ("not-json", StatusCode::BAD_REQUEST),
    ("shape", StatusCode::BAD_REQUEST),
    ("parameter", StatusCode::BAD_REQUEST),
    ("too-many", StatusCode::BAD_REQUEST),
    ("not-an-entry", StatusCode::BAD_REQUEST),
    ("entry", StatusCode::UNPROCESSABLE_ENTITY),
    ("not-yours", StatusCode::FORBIDDEN),
    ("photo-too-large", StatusCode::PAYLOAD_TOO_LARGE),
    ("photo-empty", StatusCode::UNPROCESSABLE_ENTITY),
    ("photo-not-a-picture", StatusCode::UNPROCESSABLE_ENTITY),
    ("photo-other-kind", StatusCode::UNPROCESSABLE_ENTITY),
    ("photo-moving", StatusCode::UNPROCESSABLE_ENTITY),
    ("photo-too-many-pixels", StatusCode::UNPROCESSABLE_ENTITY),
    ("photo-cut-off", StatusCode::UNPROCESSABLE_ENTITY),
    ("photo-damaged", StatusCode::UNPROCESSABLE_ENTITY),
    ("differs", StatusCode::CONFLICT),
    ("slow-down", StatusCode::TOO_MANY_REQUESTS),
    ("disk-full", StatusCode::INSUFFICIENT_STORAGE),
    ("ours", StatusCode::INTERNAL_SERVER_ERROR),
];

impl Refused {
    pub(super) fn of(why: &'static str) -> Self {
        Self {
            why,
            args: Vec::new(),
            place: None,
        }
    }

    pub(super) fn with(why: &'static str, name: &'static str, value: impl ToString) -> Self {
        Self {
            args: vec![(name, value.to_string())],
            ..Self::of(why)
        }
    }

    /// JSON that does not read, or reads as something else.
    pub(super) fn json(error: &serde_json::Error) -> Self {
        let (line, column) = (error.line(), error.column());
        let why = match error.classify() {
            serde_json::error::Category::Data => "shape",
            _ => "not-json",
        };
        Self {
            why,
            args: vec![
                ("line", line.to_string()),
                ("column", column.to_string()),
                ("why", what_stumbled(error)),
            ],
            place: Some((line, column)),
        }
    }

    /// The status of a code.
    pub(super) fn status_of(why: &str) -> StatusCode {
        let known = CODES.iter().find(|(code, _)| *code == why);
        known.map_or(StatusCode::INTERNAL_SERVER_ERROR, |(_, status)| *status)
    }

    pub(super) fn answer(&self, words: &Words) -> Response {
        let args: Vec<(&str, Arg<'_>)> = self
            .args
            .iter()
            .map(|(name, value)| (*name, value.into()))
            .collect();
        // What is wrong with a photo has its sentences already.
        let photo = self.why.strip_prefix("photo-");
        let told = match photo {
            Some(_) => format!(
                "{} {}",
                words.text(self.why),
                words.text(&format!("{}.next", self.why))
            ),
            None => words.say(&format!("api-why-{}", self.why), &args),
        };
        let body = Shape {
            why: photo.unwrap_or(self.why).to_owned(),
            told,
            line: self.place.map(|(line, _)| line as u64),
            column: self.place.map(|(_, column)| column as u64),
        };
        let no_store = [(header::CACHE_CONTROL, "no-store")];
        let status = Self::status_of(self.why);
        if status == StatusCode::UNAUTHORIZED {
            // RFC 9110, 11.6.1: a 401 names a way to say who one is.
            let how = [(header::WWW_AUTHENTICATE, "Bearer realm=\"yard\"")];
            return (status, how, no_store, Json(body)).into_response();
        }
        (status, no_store, Json(body)).into_response()
    }
}

/// The reader's complaint without its own "at line 1 column 2".
fn what_stumbled(error: &serde_json::Error) -> String {
    let said = error.to_string();
    said.split(" at line ").next().unwrap_or(&said).to_owned()
}

impl From<Refusal> for Refused {
    fn from(refusal: Refusal) -> Self {
        match refusal {
            Refusal::NotFound => Self::of("not-found"),
            Refusal::MayNot(_) => Self::of("may-not"),
            Refusal::SignIn { .. } => Self::of("sign-in"),
            Refusal::Photo(trouble) => Self::of(trouble.key()),
            Refusal::BadRequest | Refusal::TextTooLong => Self::with("not-an-entry", "why", ""),
            Refusal::DiskFull => Self::of("disk-full"),
            Refusal::Ours(what) => {
                eprintln!("api: {what}");
                Self::of("ours")
            }
        }
    }
}

impl From<store::StoreError> for Refused {
    fn from(error: store::StoreError) -> Self {
        Refusal::from(error).into()
    }
}
