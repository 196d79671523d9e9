//! People: who is in the yard, what each may do; the steward adds people, changes roles and PINs.

use crate::{
    accept,
    desk::{Answer, Desk, go, page},
    page::Page,
    pages::walkround::{
        form::Typed,
        question::{Choice, capital},
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
    roles: Vec<Choice>,
    role_words: Vec<String>,
    table: Vec<(String, Vec<String>)>,
}

struct Line {
    id: PersonId,
    name: String,
    role: String,
    signed: String,
    roles: Vec<Choice>,
}

/// Shows people and the table.
pub(crate) fn show(desk: &Desk) -> Answer {
    render(desk, Vec::new())
}

/// Adds somebody with a name, a role and a PIN.
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
    asked.extend(session::pin_trouble(pin).map(|key| p.t(key)));
    let (Some(role), true) = (role, asked.is_empty()) else {
        return render(desk, asked);
    };
    let id = PersonId(desk.new_id().0);
    let pin_hash = Some(session::pin_hash(pin, desk.app.world.as_ref()).map_err(Refusal::Ours)?);
    desk.app.yard.keep_person(&store::Person {
        id,
        name: Some(name.to_owned()),
        pin_hash,
        active: true,
        invented: false,
    })?;
    give_role(desk, id, role)?;
    go(&format!("/y/{}/people", desk.app.tag()))
}

/// Changes somebody's role or PIN.
pub(crate) fn change(desk: &Desk, person: &str, typed: &Typed) -> Answer {
    let steward = desk.may(Deed::ManagePeople)?;
    let id = PersonId(person.parse().map_err(|_| Refusal::NotFound)?);
    if !desk.view.names.contains_key(&id) {
        return Err(Refusal::NotFound);
    }
    let p = desk.page();
    let pin = typed.field("pin");
    if !pin.is_empty() {
        if let Some(key) = session::pin_trouble(pin) {
            return render(desk, vec![p.t(key)]);
        }
        session::set_pin(
            &desk.app.yard,
            id,
            session::pin_hash(pin, desk.app.world.as_ref()).map_err(Refusal::Ours)?,
        )?;
        accept::note_access(desk, AccessWhat::PinSet, Some(id), None)?;
    }
    if let Some(role) = Role::from_code(typed.field("role"))
        .filter(|role| *role != desk.view.yard.role_at(id, desk.now))
    {
        // A yard without a steward could release nothing any more.
        if id == steward && role != Role::Steward && stewards(desk) < 2 {
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

fn stewards(desk: &Desk) -> usize {
    desk.view
        .yard
        .people
        .values()
        .filter(|s| s.role_at(desk.now) == Role::Steward)
        .count()
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

fn render(desk: &Desk, asked: Vec<String>) -> Answer {
    desk.signed_in()?;
    let p = desk.page();
    let mut people: Vec<Line> = desk
        .view
        .names
        .iter()
        .map(|(id, name)| {
            let role = desk.view.yard.role_at(*id, desk.now);
            Line {
                id: *id,
                name: name.clone(),
                role: p.t(&format!("role-{}", role.code())),
                signed: signed(desk, *id),
                roles: role_choices(&p, Some(role)),
            }
        })
        .collect();
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
        roles: role_choices(&p, None),
        role_words,
        table,
        p,
    })
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
