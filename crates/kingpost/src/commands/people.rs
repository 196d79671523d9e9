//! People: who is here, a new person, a link to choose a PIN, and the table of what each may do.

use crate::{
    desk::{Desk, tag},
    kit::Kit,
    said::Said,
    trouble::Trouble,
};
use clap::{Subcommand, builder::PossibleValuesParser};
use jiff::SignedDuration;
use serde_json::json;
use store::{Link, Person, fresh_id};
use words::Arg;
use yard::{
    entry::{Access, AccessWhat, Body, RoleGiven},
    id::PersonId,
    people::{DEEDS, Deed, ROLES, Role, may},
};

/// How long a link opens, hours.
const LINK_HOURS: i64 = 24;

#[derive(Subcommand)]
pub(crate) enum Job {
    List,
    Add {
        name: String,
        #[arg(long, value_parser = PossibleValuesParser::new(ROLES.map(Role::code)))]
        role: String,
        #[arg(long, value_name = "PERSON")]
        by: String,
        #[arg(long, value_name = "ADDRESS")]
        address: Option<String>,
    },
    PinLink {
        name: String,
        #[arg(long, value_name = "ADDRESS")]
        address: Option<String>,
    },
    Unlock {
        name: Option<String>,
    },
    Erase {
        name: String,
    },
    Permissions {
        #[arg(long)]
        md: bool,
    },
}

pub(crate) fn run(kit: &Kit, job: Job) -> Result<Said, Trouble> {
    match job {
        Job::List => list(kit),
        Job::Add {
            name,
            role,
            by,
            address,
        } => add(kit, &name, &role, &by, address.as_deref()),
        Job::PinLink { name, address } => pin_link(kit, &name, address.as_deref()),
        Job::Unlock { name } => unlock(kit, name.as_deref()),
        Job::Erase { name } => erase(kit, &name),
        // For people the table is Markdown either way: it reads as it stands.
        Job::Permissions { md: _ } => Ok(permissions(kit)),
    }
}

fn list(kit: &Kit) -> Result<Said, Trouble> {
    let desk = Desk::look(kit)?;
    let role = |person: &Person| desk.state.role_at(person.id, desk.now);
    let name = |person: &Person| kit.words.person(person.id, &desk.names(None));
    let sign_in = |person: &Person| {
        kit.t(if person.active && person.pin_hash.is_some() {
            "person-signs-in"
        } else {
            "person-without-pin"
        })
    };
    let lines: Vec<_> = desk
        .people
        .iter()
        .map(|person| {
            (
                name(person),
                format!("{} · {}", kit.words.name(role(person)), sign_in(person)),
            )
        })
        .collect();
    let told = desk.people.iter().map(|person| {
        json!({
            "id": person.id.to_string(), "name": person.name, "role": role(person).code(), "active": person.active,
            "has_pin": person.pin_hash.is_some(), "invented": person.invented,
        })
    });
    Ok(Said::new(
        crate::rows::rows(&lines),
        json!({ "people": told.collect::<Vec<_>>() }),
    ))
}

fn add(
    kit: &Kit,
    name: &str,
    role: &str,
    by: &str,
    address: Option<&str>,
) -> Result<Said, Trouble> {
    let desk = Desk::write(kit)?;
    let by = desk.person(by)?;
    desk.may(by, None, Deed::ManagePeople)?;
    let name = sound_name(kit, name)?;
    if desk.person(&name).is_ok() {
        return Err(kit.refused("person-exists", &[("name", name.into())]));
    }
    let person = new_person(kit, &desk.yard, &name)?;
    desk.keep(
        None,
        by,
        Body::RoleGiven(RoleGiven {
            person,
            role: Role::from_code(role),
            machines: Vec::new(),
        }),
    )?;
    let link = link_for(kit, &desk.yard, person, "first", address)?;
    let args: [(&str, Arg<'_>); 3] = [
        ("name", name.as_str().into()),
        ("address", link.as_str().into()),
        ("n", LINK_HOURS.into()),
    ];
    Ok(Said::new(
        kit.words.say("person-added", &args),
        json!({ "person": person.to_string(), "name": name, "role": role, "link": link }),
    ))
}

fn pin_link(kit: &Kit, name: &str, address: Option<&str>) -> Result<Said, Trouble> {
    let desk = Desk::write(kit)?;
    let person = desk.person(name)?;
    let link = link_for(kit, &desk.yard, person, "forgotten-pin", address)?;
    note(&desk, AccessWhat::LinkGiven, Some(person))?;
    let args: [(&str, Arg<'_>); 3] = [
        ("name", name.into()),
        ("address", link.as_str().into()),
        ("n", LINK_HOURS.into()),
    ];
    Ok(Said::new(
        kit.words.say("person-link", &args),
        json!({ "person": person.to_string(), "link": link }),
    ))
}

/// Opens signing in again: as one person, or on all devices and as everybody.
fn unlock(kit: &Kit, name: Option<&str>) -> Result<Said, Trouble> {
    let desk = Desk::write(kit)?;
    let person = name.map(|name| desk.person(name)).transpose()?;
    let locked = desk
        .yard
        .unlock(|key| person.is_none_or(|person| server::is_of(key, person)))?;
    if locked {
        note(&desk, AccessWhat::Unlocked, person)?;
    }
    let key = if locked {
        "person-unlocked"
    } else {
        "person-not-locked"
    };
    Ok(Said::new(
        format!("{}\n", kit.t(key)),
        json!({ "person": person.map(|person| person.to_string()), "was_locked": locked }),
    ))
}

/// Erases a name and a PIN. Entries stay, under the bare id.
fn erase(kit: &Kit, name: &str) -> Result<Said, Trouble> {
    let desk = Desk::write(kit)?;
    let person = desk.person(name)?;
    let steward = |of: &Person| {
        of.active && of.name.is_some() && desk.state.role_at(of.id, desk.now) == Role::Steward
    };
    let stewards: Vec<_> = desk.people.iter().filter(|of| steward(of)).collect();
    if stewards.len() == 1 && stewards[0].id == person {
        return Err(kit.refused("last-steward", &[]));
    }
    desk.yard.erase_person(person)?;
    desk.yard.unlock(|key| server::is_of(key, person))?;
    note(&desk, AccessWhat::NameErased, Some(person))?;
    Ok(Said::new(
        format!("{}\n", kit.t("me-erased")),
        json!({ "person": person.to_string(), "erased": true }),
    ))
}

/// Notes in the journal what was done about signing in; the computer's user does it, not somebody signed in.
fn note(desk: &Desk<'_>, what: AccessWhat, of: Option<PersonId>) -> Result<(), Trouble> {
    let access = Access {
        what,
        of,
        note: None,
    };
    desk.keep(None, PersonId::PROGRAM, Body::Access(access))
        .map(|_| ())
}

fn permissions(kit: &Kit) -> Said {
    let page = kit.words.permissions();
    let row = |deed: &Deed| json!({ "deed": deed.code(), "roles": ROLES.iter().filter(|role| may(**role, *deed)).map(|role| role.code()).collect::<Vec<_>>() });
    Said::new(
        page,
        json!({ "deeds": DEEDS.iter().map(row).collect::<Vec<_>>() }),
    )
}

/// A name as it is kept: trimmed, one line, not empty.
pub(crate) fn sound_name(kit: &Kit, name: &str) -> Result<String, Trouble> {
    let name = name.trim();
    if name.is_empty() || name.chars().count() > 60 || name.chars().any(char::is_control) {
        return Err(kit.refused("bad-name", &[]));
    }
    Ok(name.to_owned())
}

/// A new person of this name, without a PIN.
pub(crate) fn new_person(kit: &Kit, yard: &store::Yard, name: &str) -> Result<PersonId, Trouble> {
    let id = PersonId(fresh_id(kit.world.as_ref()));
    yard.keep_person(&Person {
        id,
        name: Some(name.to_owned()),
        pin_hash: None,
        active: true,
        invented: false,
    })?;
    Ok(id)
}

/// A one-time link under which a person chooses a PIN. Links made before for the same person open no more.
pub(crate) fn link_for(
    kit: &Kit,
    yard: &store::Yard,
    person: PersonId,
    purpose: &str,
    address: Option<&str>,
) -> Result<String, Trouble> {
    let token = server::session::secret(kit.world.as_ref());
    let expires = kit.world.now() + SignedDuration::from_hours(LINK_HOURS);
    let link = Link {
        purpose: purpose.to_owned(),
        person: Some(person.0),
        expires,
        used: None,
    };
    yard.end_links_of(person)?;
    yard.keep_link(&server::session::hash(&token), &link)?;
    Ok(format!(
        "{}/y/{}/first/{token}",
        super::address::of_yard(kit, address),
        tag(yard)
    ))
}
