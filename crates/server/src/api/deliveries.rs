//! The way in: a delivery of many entries, or one entry by itself.

use super::{
    asked::{Asked, say},
    refused::Refused,
    shapes::{Delivered, Delivery, EntryBecame, Taken},
};
use crate::accept::{self, Became, Why};
use axum::{http::StatusCode, response::Response};
use jiff::Timestamp;
use words::Words;

/// Most bytes of a delivery.
pub(super) const MOST_BYTES: usize = 4 << 20;

/// Most entries of a delivery.
pub(super) const MOST_ENTRIES: usize = 200;

/// Takes a delivery and says what became of each entry, once all that was taken is on the disk.
pub(super) fn deliver(asked: &Asked) -> Result<Response, Refused> {
    let delivery: Delivery = asked.json()?;
    if delivery.entries.len() > MOST_ENTRIES {
        return Err(Refused::with("too-many", "most", MOST_ENTRIES));
    }
    // A clock that does not read is no clock: the entries are worth more than their order.
    let clock = delivery.clock.and_then(|clock| clock.parse().ok());
    let entries: Vec<Vec<u8>> = delivery
        .entries
        .into_iter()
        .map(String::into_bytes)
        .collect();
    let became = take(asked, clock, &entries)?;
    let told = entries.iter().zip(&became);
    let entries = told.map(|(bytes, became)| told_of(&asked.app.words, bytes, became));
    say(
        StatusCode::OK,
        Delivered {
            entries: entries.collect(),
        },
    )
}

/// Takes one entry.
pub(super) fn write_entry(asked: &Asked) -> Result<Response, Refused> {
    let entries = [asked.body.clone()];
    let became = take(asked, asked.clock, &entries)?;
    let Some(became) = became.first() else {
        return Err(Refused::of("ours"));
    };
    let status = match became {
        Became::New => StatusCode::CREATED,
        Became::Known => StatusCode::OK,
        Became::Conflict => StatusCode::CONFLICT,
        Became::NotYours => return Err(Refused::of("not-yours")),
        Became::Refused(Why::Store(
            store::Refusal::NotAnEntry { .. } | store::Refusal::NotText,
        )) => {
            serde_json::from_slice::<serde::de::IgnoredAny>(&asked.body)
                .map_err(|error| Refused::json(&error))?;
            return Err(Refused::with(
                "not-an-entry",
                "why",
                became.told(&asked.app.words),
            ));
        }
        Became::Refused(_) => {
            return Err(Refused::with("entry", "why", became.told(&asked.app.words)));
        }
    };
    say(
        status,
        Taken {
            is: became.word().to_owned(),
        },
    )
}

fn take(
    asked: &Asked,
    clock: Option<Timestamp>,
    entries: &[Vec<u8>],
) -> Result<Vec<Became>, Refused> {
    let (app, person) = (&asked.app, asked.who()?.person);
    Ok(accept::take_all(app, person, asked.now, clock, entries)?)
}

fn told_of(words: &Words, bytes: &[u8], became: &Became) -> EntryBecame {
    EntryBecame {
        id: id_of(bytes),
        is: became.word().to_owned(),
        why: became.why().to_owned(),
        told: became.told(words),
    }
}

/// The id the sender knows it by, as sent; empty where none can be made out.
fn id_of(bytes: &[u8]) -> String {
    #[derive(serde::Deserialize)]
    struct Id {
        id: String,
    }
    serde_json::from_slice(bytes).map_or_else(|_| String::new(), |Id { id }| id)
}
