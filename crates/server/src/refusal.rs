//! Why a request was not answered as asked: each with its status and a page that says what to do next.

use crate::photo::PhotoTrouble;
use axum::{
    http::StatusCode,
    response::{IntoResponse, Redirect, Response},
};

/// What stands in the way.
#[derive(Clone, Debug)]
pub(crate) enum Refusal {
    /// No such page, machine, entry.
    NotFound,
    /// Signed in, but not entitled: which deed.
    MayNot(&'static str),
    /// Must sign in first; then back here.
    SignIn {
        /// Sign-in page.
        at: String,
    },
    /// Not answerable as sent (a form that is no form of ours).
    BadRequest,
    /// The disk is full: nothing of this was kept.
    DiskFull,
    /// A text is longer than anybody reads: nothing of this was kept.
    TextTooLong,
    /// Sent as a photo, but no picture that can be kept.
    Photo(PhotoTrouble),
    /// Ours: a bug or a store that fails. Logged, never shown in detail.
    Ours(String),
}

impl Refusal {
    /// Status.
    pub(crate) fn status(&self) -> StatusCode {
        match self {
            Refusal::NotFound => StatusCode::NOT_FOUND,
            Refusal::MayNot(_) => StatusCode::FORBIDDEN,
            Refusal::SignIn { .. } => StatusCode::SEE_OTHER,
            Refusal::BadRequest | Refusal::TextTooLong => StatusCode::BAD_REQUEST,
            Refusal::DiskFull => StatusCode::INSUFFICIENT_STORAGE,
            Refusal::Photo(trouble) => trouble.status(),
            Refusal::Ours(_) => StatusCode::INTERNAL_SERVER_ERROR,
        }
    }
    /// Key of its sentence.
    pub(crate) fn key(&self) -> &'static str {
        match self {
            Refusal::NotFound => "error-not-found",
            Refusal::MayNot(_) => "error-may-not",
            Refusal::SignIn { .. } => "error-sign-in",
            Refusal::BadRequest => "error-bad-request",
            Refusal::DiskFull => "error-disk-full",
            Refusal::TextTooLong => "error-text-too-long",
            Refusal::Photo(trouble) => trouble.key(),
            Refusal::Ours(_) => "error-ours",
        }
    }
}

impl From<store::StoreError> for Refusal {
    fn from(error: store::StoreError) -> Self {
        if error.code() == "disk-full" {
            return Refusal::DiskFull;
        }
        Refusal::Ours(format!("{}: {:?}", error.code(), error.args()))
    }
}

impl From<PhotoTrouble> for Refusal {
    fn from(trouble: PhotoTrouble) -> Self {
        Refusal::Photo(trouble)
    }
}

impl From<askama::Error> for Refusal {
    fn from(error: askama::Error) -> Self {
        Refusal::Ours(error.to_string())
    }
}

impl IntoResponse for Refusal {
    /// A bare answer; pages replace it by a worded one where they know the reader (see `desk`).
    fn into_response(self) -> Response {
        match &self {
            Refusal::SignIn { at } => Redirect::to(at).into_response(),
            other => other.status().into_response(),
        }
    }
}
