//! Who is in the yard.

use super::{
    asked::{Asked, say},
    refused::Refused,
    shapes::{People, PersonLine},
};
use axum::{http::StatusCode, response::Response};

/// Everybody with their role now.
pub(super) fn list(asked: &Asked) -> Result<Response, Refused> {
    let gate = asked.gate()?;
    let people = asked.app.yard.people()?;
    let people = people.into_iter().map(|person| PersonLine {
        id: person.id.0,
        role: gate.role(person.id, asked.now).code().to_owned(),
        name: person.name,
    });
    say(
        StatusCode::OK,
        People {
            people: people.collect(),
        },
    )
}
