//! One request as an operation sees it.

use super::refused::Refused;
use crate::{app::App, desk::Desk, gate::Gate, refusal::Refusal};
use axum::{
    http::StatusCode,
    http::header,
    response::{IntoResponse, Response},
};
use jiff::Timestamp;
use serde::{Serialize, de::DeserializeOwned};
use std::{collections::BTreeMap, sync::Arc};
use tokio::sync::SemaphorePermit;
use yard::{id::PersonId, people::Role};

/// Who asks.
#[derive(Clone, Debug)]
pub(super) struct Asker {
    pub(super) person: PersonId,
    /// Until when the sign-in or the token holds.
    pub(super) until: Timestamp,
    pub(super) reads: bool,
    pub(super) delivers: bool,
}

/// A request whose address, size and asker were looked at already.
pub(super) struct Asked {
    pub(super) app: Arc<App>,
    /// Nobody, where anybody may ask.
    pub(super) asker: Option<Asker>,
    /// Parts of the path and words behind the question mark, all as the operation's parameters say.
    pub(super) parts: BTreeMap<String, String>,
    /// What was sent along.
    pub(super) body: Vec<u8>,
    /// The room it takes in memory, given back when this request is answered.
    pub(super) _room: Option<SemaphorePermit<'static>>,
    /// The writer's clock, where a header says it.
    pub(super) clock: Option<Timestamp>,
    pub(super) now: Timestamp,
}

impl Asked {
    pub(super) fn part(&self, name: &str) -> &str {
        self.parts.get(name).map_or("", String::as_str)
    }

    /// A number behind the question mark; its kind has looked at it.
    pub(super) fn number(&self, name: &str) -> u64 {
        self.part(name).parse().unwrap_or(0)
    }

    pub(super) fn who(&self) -> Result<&Asker, Refused> {
        self.asker.as_ref().ok_or_else(|| Refused::of("sign-in"))
    }

    pub(super) fn gate(&self) -> Result<Arc<Gate>, Refused> {
        Ok(self.app.gate()?)
    }

    /// The role of who asks, now.
    pub(super) fn role(&self) -> Result<Role, Refused> {
        Ok(self.gate()?.role(self.who()?.person, self.now))
    }

    /// A desk, for operations that look at machines.
    pub(super) fn desk(&self) -> Result<Desk, Refused> {
        let person = Some(self.who()?.person);
        Ok(Desk::set_up(self.app.clone(), person, String::new())?)
    }

    /// What was sent, read as JSON.
    pub(super) fn json<T: DeserializeOwned>(&self) -> Result<T, Refused> {
        serde_json::from_slice(&self.body).map_err(|error| Refused::json(&error))
    }
}

/// An answer as JSON, never kept by a browser.
pub(super) fn say(status: StatusCode, what: impl Serialize) -> Result<Response, Refused> {
    let text =
        serde_json::to_vec(&what).map_err(|e| Refused::from(Refusal::Ours(e.to_string())))?;
    let heads = [
        (header::CACHE_CONTROL, "no-store"),
        (header::CONTENT_TYPE, "application/json"),
    ];
    Ok((status, heads, text).into_response())
}
