//! A yard's beginning: a new one with its founding steward, or the invented demo yard.

use crate::{demo, kit::Kit, said::Said, trouble::Trouble};
use clap::Subcommand;
use serde_json::json;
use store::{Delivery, NewEntry, Store, StoreError, fresh_id, write_entry};
use words::Arg;
use yard::{
    entry::{Body, RoleGiven},
    id::{DeviceId, EntryId, PersonId},
    people::Role,
};

#[derive(Subcommand)]
pub(crate) enum Job {
    New {
        name: String,
        #[arg(long)]
        steward: String,
        #[arg(long, value_name = "ADDRESS")]
        address: Option<String>,
    },
    Demo,
}

pub(crate) fn run(kit: &Kit, job: Job) -> Result<Said, Trouble> {
    match job {
        Job::New {
            name,
            steward,
            address,
        } => new(kit, &name, &steward, address.as_deref()),
        Job::Demo => {
            demo::make(&kit.data, kit.world.as_ref())?;
            let dir = kit.data.display().to_string();
            let args: [(&str, Arg<'_>); 2] =
                [("dir", dir.as_str().into()), ("pin", demo::PIN.into())];
            Ok(Said::new(
                kit.words.say("demo-made", &args),
                json!({ "data": dir, "invented": true, "pin": demo::PIN }),
            ))
        }
    }
}

fn new(kit: &Kit, name: &str, steward: &str, address: Option<&str>) -> Result<Said, Trouble> {
    let name = super::people::sound_name(kit, name)?;
    let steward = super::people::sound_name(kit, steward)?;
    let store = Store::open(&kit.data)?;
    if !store.yards()?.is_empty() {
        return Err(StoreError::YardExists.into());
    }
    let yard = store.create_yard(&name, kit.world.as_ref())?;
    let person = super::people::new_person(kit, &yard, &steward)?;
    found(kit, &yard, person)?;
    let link = super::people::link_for(kit, &yard, person, "first-steward", address)?;
    let args: [(&str, Arg<'_>); 3] = [
        ("name", steward.as_str().into()),
        ("yard", name.as_str().into()),
        ("address", link.as_str().into()),
    ];
    let json = json!({ "yard": yard.id().to_string(), "name": name, "steward": steward, "person": person.to_string(), "link": link });
    Ok(Said::new(kit.words.say("yard-made", &args), json))
}

/// The first entry of a yard: its founding steward, by themselves.
fn found(kit: &Kit, yard: &store::Yard, person: PersonId) -> Result<(), Trouble> {
    let now = kit.world.now();
    let entry = NewEntry {
        id: EntryId(fresh_id(kit.world.as_ref())),
        yard: yard.id(),
        machine: None,
        at: now,
        by: person,
        device: DeviceId("command line".into()),
        counter: 1,
        body: Body::RoleGiven(RoleGiven {
            person,
            role: Some(Role::Steward),
            machines: Vec::new(),
        }),
    };
    yard.accept(&write_entry(&entry), Delivery::here(now))?;
    Ok(())
}
