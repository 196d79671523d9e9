//! People: who is in the yard, what each may do; the steward adds people, changes roles and PINs.

use crate::{
    accept,
    desk::{Answer, Desk, go, page},
    guard,
    page::Page,
    pages::{
        people::rights,
        walkround::{
            form::Typed,
            question::{Choice, capital},
        },
    },
    refusal::Refusal,
    session,
};
use askama::Template;
use yard::{
    entry::{AccessWhat, Body, RoleGiven},
    id::{EntryId, PersonId},
    people::{DEEDS, Deed, ROLES, Role, may},
};

#[derive(Template)]
#[template(path = "people/people.html")]
struct PeoplePage {
    p: Page,
    asked: Vec<String>,
    people: Vec<Line>,
    here: bool,
    at_home: String,
    devices_locked: bool,
    roles: Vec<Choice>,
    role_words: Vec<String>,
    table: Vec<(String, Vec<String>)>,
}

struct Line {
    id: PersonId,
    short: String,
    name: String,
    role: String,
    signed: String,
    standing: Vec<String>,
    roles: Vec<Choice>,
    pin: bool,
    locked: bool,
}

/// Shows people and the table.
pub(crate) fn show(desk: &Desk) -> Answer {
    render(desk, Vec::new())
}

/// Adds somebody with a name and a role; with a PIN, or with a one-time link to choose one.
pub(crate) fn add(desk: &Desk, typed: &Typed) -> Answer {
    desk.may(Deed::ManagePeople)?;
    let p = desk.page();
    let (name, pin) = (typed.field("name"), typed.field("pin"));
    let role = Role::from_code(typed.field("role"));
    let mut asked = Vec::new();
    if name.is_empty() || name.chars().count() > 60 {
        asked.push(p.t("ask-person-name"));
    }
    if role.is_none() {
        asked.push(p.t("ask-person-role"));
    }
    if !pin.is_empty() {
        asked.extend(session::pin_trouble(pin).map(|key| p.t(key)));
    }
    let (Some(role), true) = (role, asked.is_empty()) else {
        return render(desk, asked);
    };
    let id = PersonId(desk.new_id().0);
    let hash = |pin| session::pin_hash(pin, desk.app.world.as_ref()).map_err(Refusal::Ours);
    let pin_hash = (!pin.is_empty()).then(|| hash(pin)).transpose()?;
    let without_pin = pin_hash.is_none();
    desk.app.yard.keep_person(&store::Person {
        id,
        name: Some(name.to_owned()),
        pin_hash,
        active: true,
        invented: false,
    })?;
    give_role(desk, id, role)?;
    if without_pin {
        return rights::link_page(desk, id);
    }
    go(&format!("/y/{}/people", desk.app.tag()))
}

/// Changes somebody's role, or their PIN: that of whoever has none, or at this computer.
pub(crate) fn change(desk: &Desk, person: &str, typed: &Typed) -> Answer {
    desk.may(Deed::ManagePeople)?;
    let id = rights::named(desk, person)?;
    let p = desk.page();
    let pin = typed.field("pin");
    if !pin.is_empty() {
        if !rights::may_give_pin(desk, id)? {
            return Err(Refusal::MayNot(Deed::ManagePeople.code()));
        }
        if let Some(key) = session::pin_trouble(pin) {
            return render(desk, vec![p.t(key)]);
        }
        session::set_pin(
            &desk.app,
            id,
            session::pin_hash(pin, desk.app.world.as_ref()).map_err(Refusal::Ours)?,
        )?;
        accept::note_access(desk, AccessWhat::PinSet, Some(id), None)?;
    }
    if let Some(role) = Role::from_code(typed.field("role"))
        .filter(|role| *role != desk.view.yard.role_at(id, desk.now))
    {
        // A yard without a steward could release nothing any more.
        if role != Role::Steward && rights::is_last_steward(desk, id)? {
            return render(desk, vec![p.t("ask-last-steward")]);
        }
        give_role(desk, id, role)?;
    }
    go(&format!("/y/{}/people", desk.app.tag()))
}

fn give_role(desk: &Desk, person: PersonId, role: Role) -> Result<EntryId, Refusal> {
    let given = RoleGiven {
        person,
        role: Some(role),
        machines: Vec::new(),
    };
    accept::keep(desk, None, Body::RoleGiven(given))
}

fn role_choices(p: &Page, chosen: Option<Role>) -> Vec<Choice> {
    let word = |role: &Role| capital(&p.t(&format!("role-{}", role.code())));
    ROLES
        .iter()
        .rev()
        .map(|role| Choice {
            code: role.code().to_owned(),
            word: word(role),
            chosen: Some(*role) == chosen,
        })
        .collect()
}

/// Shows people and the table, with what is asked.
pub(crate) fn render(desk: &Desk, asked: Vec<String>) -> Answer {
    desk.signed_in()?;
    let p = desk.page();
    let misses = desk.app.yard.all_misses(desk.now)?;
    let locked = |which: &dyn Fn(&str) -> bool| misses.iter().any(|(k, m)| m.locked && which(k));
    let mut people = Vec::new();
    for (id, name) in &desk.view.names {
        let with_pin = desk.app.yard.person(*id)?;
        let with_pin = with_pin.is_some_and(|person| person.pin_hash.is_some());
        let locked = locked(&|key| guard::is_of(key, *id));
        people.push(line(desk, &p, *id, name, with_pin, locked));
    }
    people.sort_by(|a, b| a.name.cmp(&b.name));
    let table = DEEDS.iter().map(|deed| {
        let cells = ROLES.iter().map(|role| {
            p.t(if may(*role, *deed) {
                "permissions-yes"
            } else {
                "permissions-no"
            })
        });
        (p.t(&format!("deed-{}", deed.code())), cells.collect())
    });
    let table = table.collect();
    let role_words = ROLES
        .iter()
        .map(|role| p.t(&format!("role-{}", role.code())))
        .collect();
    page(&PeoplePage {
        asked,
        people,
        here: desk.caller.here,
        at_home: at_home(desk),
        devices_locked: locked(&guard::is_device),
        roles: role_choices(&p, None),
        role_words,
        table,
        p,
    })
}

fn line(desk: &Desk, p: &Page, id: PersonId, name: &str, pin: bool, locked: bool) -> Line {
    let role = desk.view.yard.role_at(id, desk.now);
    let mut standing = Vec::new();
    if !pin {
        standing.push(p.t("people-no-pin"));
    }
    if locked {
        standing.push(p.t("people-locked"));
    }
    Line {
        id,
        short: words::end_of(id),
        name: name.to_owned(),
        role: p.t(&format!("role-{}", role.code())),
        signed: signed(desk, id),
        standing,
        roles: role_choices(p, Some(role)),
        pin: desk.caller.here || !pin,
        locked: locked && desk.caller.here,
    }
}

/// How this page is reached at the yard's own computer: the same port by the loopback's name.
fn at_home(desk: &Desk) -> String {
    let address = &desk.app.address;
    let port = address
        .rsplit(':')
        .next()
        .filter(|port| port.parse::<u16>().is_ok());
    let port = port.map(|port| format!(":{port}")).unwrap_or_default();
    format!("127.0.0.1{port}/y/{}/people", desk.app.tag())
}

/// Machines somebody is signed off on.
fn signed(desk: &Desk, person: PersonId) -> String {
    let on = desk
        .view
        .machines
        .values()
        .filter(|m| m.sign_offs.contains_key(&person))
        .filter_map(|m| m.book());
    on.map(|b| b.book.machine.name.clone())
        .collect::<Vec<_>>()
        .join(", ")
}
