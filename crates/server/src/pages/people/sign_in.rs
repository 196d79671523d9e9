//! Signing in by name and PIN; wrong tries are slowed, then stopped for a while.

use crate::{
    desk::{Answer, Desk, page},
    page::Page,
    pages::walkround::{form::Typed, question::Choice},
    refusal::Refusal,
    session,
};
use askama::Template;
use yard::{id::PersonId, people::Role};

#[derive(Template)]
#[template(path = "people/sign_in.html")]
struct SignInPage {
    p: Page,
    asked: String,
    hint: String,
    back: String,
    people: Vec<Choice>,
}

/// Shows the names. Only names of people with a role and a PIN are shown.
pub(crate) fn show(desk: &Desk, back: &str, asked: &str, chosen: &str) -> Answer {
    let p = desk.page();
    let mut people: Vec<Choice> = desk
        .app
        .yard
        .people()?
        .into_iter()
        .filter(|person| {
            person.active
                && person.pin_hash.is_some()
                && desk.view.yard.role_at(person.id, desk.now) > Role::Visitor
        })
        .filter_map(|person| {
            Some(Choice {
                code: person.id.to_string(),
                word: person.name?,
                chosen: person.id.to_string() == chosen,
            })
        })
        .collect();
    people.sort_by(|a, b| a.word.cmp(&b.word));
    let hint = if desk.view.invented() {
        p.t("sign-in-demo-hint")
    } else {
        String::new()
    };
    page(&SignInPage {
        asked: asked.to_owned(),
        hint,
        back: back.to_owned(),
        people,
        p,
    })
}

/// Whose PIN it is, when it is right. Checking takes the same time for an unknown person.
pub(crate) fn check(desk: &Desk, typed: &Typed) -> Result<Option<PersonId>, Refusal> {
    let person = typed.field("person").parse().ok().map(PersonId);
    let known = person
        .map(|id| desk.app.yard.person(id))
        .transpose()?
        .flatten()
        .filter(|p| p.active);
    let key = format!("pin {}", person.map(|p| p.to_string()).unwrap_or_default());
    if desk.app.yard.misses(&key, desk.now, session::LOCKED_FOR)? >= session::MOST_MISSES {
        return Err(Refusal::SlowDown);
    }
    let right = session::pin_matches(
        known.as_ref().and_then(|p| p.pin_hash.as_deref()),
        typed.field("pin"),
    );
    if right {
        desk.app.yard.forget_misses(&key)?;
        return Ok(person);
    }
    desk.app
        .yard
        .count_miss(&key, desk.now, session::LOCKED_FOR)?;
    Ok(None)
}
