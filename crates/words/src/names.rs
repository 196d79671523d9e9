//! What sentences look up: the names of people and things, and the yard's clock.

use crate::Words;
use jiff::{Timestamp, tz::TimeZone};
use std::collections::BTreeMap;
use yard::{
    book::Book,
    id::{ItemId, MachineId, PersonId, PointId, StationId},
};

/// Names of people and things, and the time. None where a name is not known: the sentence then says so, or shows the id.
pub trait Names {
    /// A person's name.
    fn person(&self, person: PersonId) -> Option<String>;
    /// A machine's name.
    fn machine(&self, _machine: &MachineId) -> Option<String> {
        None
    }
    /// A station's name.
    fn station(&self, _station: &StationId) -> Option<String> {
        None
    }
    /// What a point is, in the book's words.
    fn point(&self, point: &PointId) -> Option<String>;
    /// A pose, joint, fluid, part, ram, rest step, weakness, control or further meter, in the book's words.
    fn item(&self, item: &ItemId) -> Option<String>;
    /// What something in one list of the book is. Two lists may well use the same id: a fluid and a joint, a control and a point.
    fn listed(&self, list: BookList, item: &ItemId) -> Option<String>;
    /// The time now.
    fn now(&self) -> Timestamp;
    /// The yard's time zone.
    fn zone(&self) -> &TimeZone;
}

/// A list of the book whose items sentences name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BookList {
    /// Poses.
    Poses,
    /// Joints.
    Joints,
    /// Fluids.
    Fluids,
    /// Rams.
    Rams,
    /// Steps of the rest order.
    Rest,
    /// Known weaknesses.
    Weaknesses,
    /// Controls.
    Controls,
}

/// Names out of one machine's book and the yard's table of people.
#[derive(Clone, Copy, Debug)]
pub struct BookNames<'a> {
    /// The machine's book, where there is one.
    pub book: Option<&'a Book>,
    /// People by id.
    pub people: &'a BTreeMap<PersonId, String>,
    /// Now.
    pub now: Timestamp,
    /// The yard's time zone.
    pub zone: &'a TimeZone,
}

impl Names for BookNames<'_> {
    fn person(&self, person: PersonId) -> Option<String> {
        self.people.get(&person).cloned()
    }
    fn machine(&self, machine: &MachineId) -> Option<String> {
        let identity = &self.book?.machine;
        (identity.id == *machine).then(|| identity.name.clone())
    }
    fn station(&self, station: &StationId) -> Option<String> {
        self.book?
            .stations
            .iter()
            .find(|s| s.id == *station)
            .map(|s| s.name.clone())
    }
    fn point(&self, point: &PointId) -> Option<String> {
        self.book?
            .points
            .iter()
            .find(|p| p.id == *point)
            .map(|p| p.what.clone())
    }
    fn item(&self, item: &ItemId) -> Option<String> {
        item_of(self.book?, item)
    }
    fn listed(&self, list: BookList, item: &ItemId) -> Option<String> {
        listed_in(self.book?, list, item)
    }
    fn now(&self) -> Timestamp {
        self.now
    }
    fn zone(&self) -> &TimeZone {
        self.zone
    }
}

fn item_of(book: &Book, item: &ItemId) -> Option<String> {
    let named: [&mut dyn Iterator<Item = (&ItemId, &String)>; 10] = [
        &mut book
            .further_meters
            .iter()
            .map(|meter| (&meter.id, &meter.name)),
        &mut book.poses.iter().map(|pose| (&pose.id, &pose.what)),
        &mut book.joints.iter().map(|joint| (&joint.id, &joint.name)),
        &mut book.fluids.iter().map(|fluid| (&fluid.id, &fluid.name)),
        &mut book.parts.iter().map(|part| (&part.id, &part.what)),
        &mut book.rams.iter().map(|ram| (&ram.id, &ram.name)),
        &mut book.rest.iter().map(|step| (&step.id, &step.what)),
        &mut book
            .weaknesses
            .iter()
            .map(|weakness| (&weakness.id, &weakness.what)),
        &mut book
            .documents
            .iter()
            .map(|document| (&document.id, &document.title)),
        &mut book
            .controls
            .iter()
            .map(|control| (&control.id, &control.name)),
    ];
    named
        .into_iter()
        .flatten()
        .find(|(id, _)| *id == item)
        .map(|(_, name)| name.clone())
}

fn listed_in(book: &Book, list: BookList, item: &ItemId) -> Option<String> {
    let listed: Vec<(&ItemId, &String)> = match list {
        BookList::Poses => book.poses.iter().map(|it| (&it.id, &it.what)).collect(),
        BookList::Joints => book.joints.iter().map(|it| (&it.id, &it.name)).collect(),
        BookList::Fluids => book.fluids.iter().map(|it| (&it.id, &it.name)).collect(),
        BookList::Rams => book.rams.iter().map(|it| (&it.id, &it.name)).collect(),
        BookList::Rest => book.rest.iter().map(|it| (&it.id, &it.what)).collect(),
        BookList::Weaknesses => book
            .weaknesses
            .iter()
            .map(|it| (&it.id, &it.what))
            .collect(),
        BookList::Controls => book.controls.iter().map(|it| (&it.id, &it.name)).collect(),
    };
    let found = listed.into_iter().find(|(id, _)| *id == item);
    found.map(|(_, name)| name.clone())
}

/// Knows nobody and nothing: sentences show ids, times are in UTC.
#[derive(Clone, Copy, Debug)]
pub struct NoNames {
    /// Now.
    pub now: Timestamp,
}

impl Names for NoNames {
    fn person(&self, _: PersonId) -> Option<String> {
        None
    }
    fn point(&self, _: &PointId) -> Option<String> {
        None
    }
    fn item(&self, _: &ItemId) -> Option<String> {
        None
    }
    fn listed(&self, _: BookList, _: &ItemId) -> Option<String> {
        None
    }
    fn now(&self) -> Timestamp {
        self.now
    }
    fn zone(&self) -> &TimeZone {
        const { &TimeZone::UTC }
    }
}

impl Words {
    /// A person's name, or the end of their id where it was erased; what the program wrote itself says so.
    pub fn person(&self, person: PersonId, names: &dyn Names) -> String {
        if person == PersonId::PROGRAM {
            return self.text("the-program");
        }
        names.person(person).unwrap_or_else(|| end_of(person))
    }

    /// What a point is; its id where the book does not have it.
    pub fn point(&self, point: &PointId, names: &dyn Names) -> String {
        names.point(point).unwrap_or_else(|| point.to_string())
    }

    /// What an item of the book is; its id where the book does not have it.
    pub fn item(&self, item: &ItemId, names: &dyn Names) -> String {
        names.item(item).unwrap_or_else(|| item.to_string())
    }

    /// What an item of one list of the book is; its id where the book does not have it.
    pub fn listed(&self, list: BookList, item: &ItemId, names: &dyn Names) -> String {
        names.listed(list, item).unwrap_or_else(|| item.to_string())
    }
}

/// All that stands for a person without a name: the last four letters of their id.
pub fn end_of(person: PersonId) -> String {
    let id = person.to_string();
    format!("…{}", &id[id.len() - 4..])
}
