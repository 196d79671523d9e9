//! The one-time link of the first start, and of a forgotten PIN: whoever holds it chooses a new PIN, once.

use crate::{
    accept,
    desk::{Answer, Desk, page},
    page::Page,
    pages::walkround::form::Typed,
    refusal::Refusal,
    session,
};
use askama::Template;
use store::LinkUse;
use yard::{entry::AccessWhat, id::PersonId};

#[derive(Template)]
#[template(path = "people/first.html")]
struct FirstPage {
    p: Page,
    asked: String,
    name: String,
}

/// Shows the form while the link is good.
pub(crate) fn show(desk: &Desk, token: &str) -> Answer {
    let person = holder(desk, token)?;
    let p = desk.page();
    page(&FirstPage {
        asked: String::new(),
        name: desk.view.name(person),
        p,
    })
}

/// Sets the PIN, uses the link up and signs in.
pub(crate) fn keep(desk: &Desk, token: &str, typed: &Typed) -> Answer {
    let person = holder(desk, token)?;
    let p = desk.page();
    let (pin, again) = (typed.field("pin"), typed.field("again"));
    let asked = if let Some(key) = session::pin_trouble(pin) {
        Some(p.t(key))
    } else {
        (pin != again).then(|| p.t("pin-not-the-same"))
    };
    if let Some(asked) = asked {
        return page(&FirstPage {
            asked,
            name: desk.view.name(person),
            p,
        });
    }
    let hash = session::pin_hash(pin, desk.app.world.as_ref()).map_err(Refusal::Ours)?;
    if !matches!(
        desk.app.yard.use_link(&session::hash(token), desk.now)?,
        LinkUse::Opens(_)
    ) {
        return Err(Refusal::NotFound);
    }
    session::set_pin(&desk.app, person, hash)?;
    accept::note_access(desk, AccessWhat::PinSet, Some(person), None)?;
    // Whoever has chosen a PIN needs no older link any more.
    desk.app.yard.end_links_of(person)?;
    // On whose phone a link was opened is not known: the careful side.
    let home = format!("/y/{}", desk.app.tag());
    session::begin(desk, person, true, &home)
}

/// Whose link it is, while it is good.
fn holder(desk: &Desk, token: &str) -> Result<PersonId, Refusal> {
    let link = desk.app.yard.link(&session::hash(token))?;
    let good = link.filter(|link| link.used.is_none() && link.expires > desk.now);
    good.and_then(|link| link.person)
        .map(PersonId)
        .ok_or(Refusal::NotFound)
}
