//! Reading the journal: entries as their writers made them, with what acceptance added.

use super::{
    asked::{Asked, say},
    refused::Refused,
    shapes::{EntriesPage, EntryKept},
};
use axum::{http::StatusCode, response::Response};
use store::Row;
use yard::id::EntryId;

/// Bytes of entries in one answer, so that a page of long books stays small: after that many no further entry is added.
const ENOUGH: usize = 4 << 20;

/// Entries after a place, a page at a time.
pub(super) fn list(asked: &Asked) -> Result<Response, Refused> {
    let after = asked.number("after");
    let most = usize::try_from(asked.number("most")).unwrap_or(1);
    let of = asked.app.yard.tip()?.seq;
    let rows = asked.app.yard.rows_since(after, most)?;
    let mut bytes = 0;
    let within = rows.iter().take_while(|row| {
        let fits = bytes < ENOUGH;
        bytes += row.bytes.len();
        fits
    });
    let entries: Vec<EntryKept> = within.map(kept).collect();
    let next = entries.last().map_or(after, |entry| entry.seq);
    say(StatusCode::OK, EntriesPage { entries, next, of })
}

/// One entry.
pub(super) fn one(asked: &Asked) -> Result<Response, Refused> {
    let not_found = || Refused::of("not-found");
    let id: EntryId = asked.part("entry").parse().map_err(|_| not_found())?;
    let row = asked.app.yard.row(id)?.ok_or_else(not_found)?;
    say(StatusCode::OK, kept(&row))
}

fn kept(row: &Row) -> EntryKept {
    EntryKept {
        seq: row.envelope.seq,
        written: row.envelope.written.to_string(),
        ordered_at: row.envelope.ordered_at.to_string(),
        corrected: row.envelope.corrected,
        hash: hex::encode(row.envelope.hash),
        text: String::from_utf8_lossy(&row.bytes).into_owned(),
    }
}
