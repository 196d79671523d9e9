//! Tokens: a person lets a program act for them under /api, for a while, with no more than their own role.
//!
//! A token is shown once; only its hash is kept. Making and ending one is noted in the journal.

use crate::{accept, app::App, refusal::Refusal, session};
use jiff::SignedDuration;
use store::{Delivery, StoreError, Token, Yard};
use yard::{
    entry::{Access, AccessWhat},
    id::PersonId,
    world::World,
};

/// Longest that a token may hold, days.
pub const MOST_DAYS: i64 = 366;

/// Most letters of its name.
const MOST_NAME: usize = 60;

/// Most tokens of one person at a time.
const MOST_TOKENS: usize = 50;

/// What every token begins with, so that one that leaked is known for what it is.
const PREFIX: &str = "kingpost-";

/// A token that somebody asks for.
#[derive(Clone, Debug)]
pub struct Wanted {
    /// What it is for.
    pub name: String,
    /// Whether it may read.
    pub reads: bool,
    /// Whether it may deliver entries.
    pub delivers: bool,
    /// For how many days.
    pub days: i64,
}

impl Wanted {
    /// What is wrong with it, as keys of sentences; nothing where it will do.
    pub fn troubles(&self) -> Vec<&'static str> {
        let name = self.name.trim();
        let sound = !name.is_empty()
            && name.chars().count() <= MOST_NAME
            && !name.contains(char::is_control);
        [
            (!sound, "ask-token-name"),
            (!self.reads && !self.delivers, "ask-token-scope"),
            (!(1..=MOST_DAYS).contains(&self.days), "ask-token-days"),
        ]
        .into_iter()
        .filter_map(|(wrong, key)| wrong.then_some(key))
        .collect()
    }
}

/// Makes a token for a person and gives its secret, which nobody can show again. None where they have too many already.
/// `wanted` has no troubles. `by` is who makes it: the person, or the program itself for whoever sits at its computer.
///
/// # Errors
/// The store's.
pub fn make(
    yard: &Yard,
    world: &dyn World,
    by: PersonId,
    person: PersonId,
    wanted: &Wanted,
) -> Result<Option<(String, Token)>, StoreError> {
    if yard.tokens_of(person)?.len() >= MOST_TOKENS {
        return Ok(None);
    }
    let secret = format!("{PREFIX}{}", session::secret(world));
    let now = world.now();
    let token = Token {
        id: store::fresh_id(world),
        person: person.0,
        name: wanted.name.trim().to_owned(),
        reads: wanted.reads,
        delivers: wanted.delivers,
        made: now,
        expires: now + SignedDuration::from_hours(24 * wanted.days.clamp(1, MOST_DAYS)),
    };
    // Noted first: a token that nobody knows of must not be there, whatever happens between.
    note(yard, world, by, AccessWhat::TokenMade, &token)?;
    yard.keep_token(&session::hash(&secret), &token)?;
    Ok(Some((secret, token)))
}

/// Ends one token of a person; none where they have no such token.
///
/// # Errors
/// The store's.
pub fn end(
    yard: &Yard,
    world: &dyn World,
    by: PersonId,
    person: PersonId,
    id: uuid::Uuid,
) -> Result<Option<Token>, StoreError> {
    let ended = yard.end_token(person, id)?;
    if let Some(token) = &ended {
        note(yard, world, by, AccessWhat::TokenEnded, token)?;
    }
    Ok(ended)
}

/// The token that this secret is of, if it holds still. Those of a person who holds no role any more, or whose name was erased,
/// are ended when one of them is tried.
pub(crate) fn holding(app: &App, secret: &str) -> Result<Option<Token>, Refusal> {
    if secret.len() != PREFIX.len() + 32 {
        return Ok(None);
    }
    let now = app.world.now();
    let Some(token) = app.yard.token(&session::hash(secret), now)? else {
        return Ok(None);
    };
    let person = PersonId(token.person);
    let active = app.yard.person(person)?.is_some_and(|known| known.active);
    if active && app.gate()?.holds_role(person, now) {
        return Ok(Some(token));
    }
    end_all(&app.yard, app.world.as_ref(), person)?;
    Ok(None)
}

/// Ends all tokens of a person, on the program's own account.
pub(crate) fn end_all(yard: &Yard, world: &dyn World, person: PersonId) -> Result<(), StoreError> {
    for ended in yard.end_tokens_of(person)? {
        note(
            yard,
            world,
            PersonId::PROGRAM,
            AccessWhat::TokenEnded,
            &ended,
        )?;
    }
    Ok(())
}

fn note(
    yard: &Yard,
    world: &dyn World,
    by: PersonId,
    what: AccessWhat,
    token: &Token,
) -> Result<(), StoreError> {
    let access = Access {
        what,
        of: Some(PersonId(token.person)),
        note: Some(token.name.clone()),
    };
    let bytes = accept::note(yard, world, by, yard.tip()?.seq + 1, access);
    yard.accept(&bytes, Delivery::here(world.now())).map(drop)
}
