//! Who am I.

use super::{
    asked::{Asked, say},
    refused::Refused,
    shapes::Me,
};
use axum::{http::StatusCode, response::Response};

/// Who asks, with their role now.
pub(super) fn me(asked: &Asked) -> Result<Response, Refused> {
    let who = asked.who()?;
    let person = asked.app.yard.person(who.person)?;
    say(
        StatusCode::OK,
        Me {
            person: who.person.0,
            name: person.and_then(|person| person.name),
            role: asked.role()?.code().to_owned(),
            until: who.until.to_string(),
            yard: asked.app.yard.id().0,
        },
    )
}
