//! What is kept about whoever is signed in: to see, to download, to have the name erased.

use crate::{
    accept,
    desk::{Answer, Desk, go, page},
    page::Page,
    pages::{
        people::{kept::Kept, rights, sign_in},
        walkround::form::Typed,
    },
    refusal::Refusal,
    session,
};
use askama::Template;
use axum::{
    Json,
    http::header,
    response::{AppendHeaders, IntoResponse, Redirect},
};
use words::Arg;
use yard::{
    entry::{AccessWhat, Body, Entry},
    id::{EntryId, PersonId},
    people::Role,
};

#[derive(Template)]
#[template(path = "people/me.html")]
struct MePage {
    p: Page,
    asked: Vec<String>,
    intro: String,
    facts: Vec<(String, String)>,
    roles: Vec<(String, String)>,
    sign_offs: Vec<(String, String)>,
    sign_ins: Vec<SignInLine>,
    stays: String,
    last_steward: bool,
}

struct SignInLine {
    device: String,
    since: String,
    here: bool,
    which: String,
}

/// So much of a sign-in's hash names it in an address.
const NAMED: usize = 16;

/// Shows it.
pub(crate) fn show(desk: &Desk) -> Answer {
    render(desk, Vec::new())
}

/// Gives it as JSON, to keep.
pub(crate) fn data(desk: &Desk) -> Answer {
    let person = desk.signed_in()?;
    let saved = [(
        header::CONTENT_DISPOSITION,
        "attachment; filename=\"about-me.json\"",
    )];
    Ok((saved, Json(Kept::about(desk, person)?.json())).into_response())
}

/// Signs out on another device, or here.
pub(crate) fn sign_out_there(desk: &Desk, which: &str) -> Answer {
    let person = desk.signed_in()?;
    let own = desk.app.yard.sessions_of(person, desk.now)?;
    let named = own
        .into_iter()
        .find(|(hash, _)| which.len() == NAMED && hash.starts_with(which));
    let (hash, _) = named.ok_or(Refusal::NotFound)?;
    desk.app.yard.end_session(&hash)?;
    go(&format!("/y/{}/me", desk.app.tag()))
}

/// Erases one's own name, with one's own PIN.
pub(crate) fn erase(desk: &Desk, typed: &Typed) -> Answer {
    let person = desk.signed_in()?;
    if rights::is_last_steward(desk, person)? {
        return render(desk, vec![desk.page().t("me-erase-last")]);
    }
    if let Err(asked) = sign_in::own_word(desk, typed.field("pin"))? {
        return render(desk, asked);
    }
    erase_name(desk, person)?;
    let gone = session::set_cookie(session::COOKIE, "", desk.caller.tls, 0);
    let home = format!("/y/{}", desk.app.tag());
    let gone = AppendHeaders([(header::SET_COOKIE, gone)]);
    Ok((gone, Redirect::to(&home)).into_response())
}

/// Erases a name and all that hangs on it outside the journal, and notes that it was done.
pub(crate) fn erase_name(desk: &Desk, person: PersonId) -> Result<EntryId, Refusal> {
    desk.app.yard.erase_person(person)?;
    desk.app
        .yard
        .unlock(|key| crate::guard::is_of(key, person))?;
    accept::note_access(desk, AccessWhat::NameErased, Some(person), None)
}

fn render(desk: &Desk, asked: Vec<String>) -> Answer {
    let person = desk.signed_in()?;
    let p = desk.page();
    let kept = Kept::about(desk, person)?;
    let intro = p.t1("me-intro", "name", &p.person_name);
    let stays = p.t1("me-erase-stays", "id", &words::end_of(person));
    page(&MePage {
        asked,
        intro,
        facts: facts(&p, &kept),
        roles: roles(desk, &p, &kept),
        sign_offs: sign_offs(desk, &p, &kept),
        sign_ins: sign_ins(desk, &p, &kept),
        stays,
        last_steward: rights::is_last_steward(desk, person)?,
        p,
    })
}

fn facts(p: &Page, kept: &Kept<'_>) -> Vec<(String, String)> {
    let count = |n: usize| n.to_string();
    let pin = p.t(if kept.pin {
        "me-pin-kept"
    } else {
        "me-pin-none"
    });
    vec![
        (p.t("me-name"), kept.name.unwrap_or_default().to_owned()),
        (p.t("me-role"), p.role_word()),
        (p.t("me-pin"), pin),
        (p.t("me-written"), count(kept.written.len())),
        (p.t("me-named"), count(kept.naming.len())),
        (p.t("me-photos"), count(kept.photos().len())),
        (p.t("me-misses"), count(kept.missed())),
    ]
}

fn roles(desk: &Desk, p: &Page, kept: &Kept<'_>) -> Vec<(String, String)> {
    let line = |(since, role, entry): &(jiff::Timestamp, Option<Role>, EntryId)| {
        let role = match role {
            Some(role) => p.t(&format!("role-{}", role.code())),
            None => p.t("me-no-role"),
        };
        let giver = kept
            .naming
            .iter()
            .find(|e: &&&Entry| e.id == *entry && matches!(e.body, Body::RoleGiven(_)));
        let line = match giver {
            Some(giver) => p.t2(
                "me-role-line",
                "role",
                role,
                "name",
                desk.view.name(giver.by),
            ),
            None => role,
        };
        (p.words.moment(*since, desk.now, &desk.zone), line)
    };
    kept.roles.iter().map(line).collect()
}

fn sign_offs(desk: &Desk, p: &Page, kept: &Kept<'_>) -> Vec<(String, String)> {
    let line = |(machine, _): &(&yard::id::MachineId, &yard::state::SignedOff)| {
        let state = desk.view.machines.get(machine)?;
        let name = state.book().map(|b| b.book.machine.name.clone());
        let standing = super::sign_offs::standing(p, state, kept.person);
        Some((name.unwrap_or_else(|| machine.to_string()), standing))
    };
    kept.sign_offs.iter().filter_map(line).collect()
}

fn sign_ins(desk: &Desk, p: &Page, kept: &Kept<'_>) -> Vec<SignInLine> {
    let here = desk.signed.as_ref().map(|signed| &signed.hash);
    let line = |(hash, held): &(String, store::Session)| {
        let here = here == Some(hash);
        let device = if here {
            p.t("me-here")
        } else {
            p.t1("me-device", "device", &held.device)
        };
        let since = held.since.map(|since| {
            let when = p.words.moment(since, desk.now, &desk.zone);
            p.words.say("me-since", &[("when", Arg::from(when))])
        });
        SignInLine {
            device: if held.shared {
                p.t1("me-device-shared", "device", &device)
            } else {
                device
            },
            since: since.unwrap_or_default(),
            here,
            which: hash[..NAMED].to_owned(),
        }
    };
    kept.sign_ins.iter().map(line).collect()
}
