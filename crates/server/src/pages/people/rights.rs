//! What the steward may do about others' signing in: a first link, a new one at this computer, unlocking, erasing a name.

use crate::{
    accept,
    desk::{Answer, Desk, go, page},
    guard,
    page::Page,
    pages::{
        people::{list, me, sign_in},
        walkround::form::Typed,
    },
    refusal::Refusal,
    session,
};
use askama::Template;
use jiff::SignedDuration;
use store::Link;
use words::Arg;
use yard::{
    entry::AccessWhat,
    id::PersonId,
    people::{Deed, Role},
};

/// How long a link opens, hours.
const LINK_HOURS: i64 = 24;

#[derive(Template)]
#[template(path = "people/link.html")]
struct LinkPage {
    p: Page,
    title: String,
    address: String,
    once: String,
}

/// A person who still has a name.
pub(crate) fn named(desk: &Desk, person: &str) -> Result<PersonId, Refusal> {
    let id = PersonId(person.parse().map_err(|_| Refusal::NotFound)?);
    let known = desk.view.names.contains_key(&id);
    known.then_some(id).ok_or(Refusal::NotFound)
}

/// Whether somebody's PIN may be set or replaced by a page now: of whoever has none, or at this computer.
pub(crate) fn may_give_pin(desk: &Desk, person: PersonId) -> Result<bool, Refusal> {
    let has_pin = desk.app.yard.person(person)?;
    Ok(desk.caller.here || has_pin.is_none_or(|person| person.pin_hash.is_none()))
}

/// Whether nobody else who can sign in is steward.
pub(crate) fn is_last_steward(desk: &Desk, person: PersonId) -> Result<bool, Refusal> {
    let role = |id| desk.view.yard.role_at(id, desk.now);
    if role(person) != Role::Steward {
        return Ok(false);
    }
    let all = desk.app.yard.people()?;
    let other = |one: &store::Person| {
        one.id != person && one.active && one.name.is_some() && role(one.id) == Role::Steward
    };
    Ok(!all.iter().any(other))
}

/// Gives a one-time link: to whoever has no PIN yet, and at this computer to anybody.
pub(crate) fn give_link(desk: &Desk, person: &str) -> Answer {
    desk.may(Deed::ManagePeople)?;
    let id = named(desk, person)?;
    if !may_give_pin(desk, id)? {
        return Err(Refusal::MayNot(Deed::ManagePeople.code()));
    }
    link_page(desk, id)
}

/// Makes the link and shows it once.
pub(crate) fn link_page(desk: &Desk, person: PersonId) -> Answer {
    let (yard, world) = (&desk.app.yard, desk.app.world.as_ref());
    let token = session::secret(world);
    let link = Link {
        purpose: "first".to_owned(),
        person: Some(person.0),
        expires: desk.now + SignedDuration::from_hours(LINK_HOURS),
        used: None,
    };
    yard.end_links_of(person)?;
    yard.keep_link(&session::hash(&token), &link)?;
    accept::note_access(desk, AccessWhat::LinkGiven, Some(person), None)?;
    let desk = desk.again()?;
    let (p, name) = (desk.page(), desk.view.name(person));
    let once = [("name", Arg::from(name.as_str())), ("n", LINK_HOURS.into())];
    page(&LinkPage {
        title: p.t1("people-link", "name", &name),
        address: format!("{}/y/{}/first/{token}", desk.app.address, desk.app.tag()),
        once: p.words.say("people-link-once", &once),
        p,
    })
}

/// Unlocks signing in as a person, or on all devices; only at this computer.
pub(crate) fn unlock(desk: &Desk, person: &str) -> Answer {
    desk.may(Deed::ManagePeople)?;
    if !desk.caller.here {
        return Err(Refusal::MayNot(Deed::ManagePeople.code()));
    }
    let of = match person {
        "devices" => None,
        person => Some(named(desk, person)?),
    };
    let locked = desk.app.yard.unlock(|key| match of {
        Some(person) => guard::is_of(key, person),
        None => guard::is_device(key),
    })?;
    if locked {
        accept::note_access(desk, AccessWhat::Unlocked, of, None)?;
    }
    go(&format!("/y/{}/people", desk.app.tag()))
}

/// Erases somebody's name, with the steward's own PIN.
pub(crate) fn erase(desk: &Desk, person: &str, typed: &Typed) -> Answer {
    desk.may(Deed::ManagePeople)?;
    let id = named(desk, person)?;
    if is_last_steward(desk, id)? {
        return list::render(desk, vec![desk.page().t("people-erase-steward")]);
    }
    if let Err(asked) = sign_in::own_word(desk, typed.field("pin"))? {
        return list::render(desk, asked);
    }
    me::erase_name(desk, id)?;
    go(&format!("/y/{}/people", desk.app.tag()))
}
