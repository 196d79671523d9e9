//! The tables that may be there often: stations, poses, joints, fluids, rams, rest steps and the like.

use super::arm::{Once, ram_work};
use crate::book::fields::Named;
use crate::book::section::Section;
use crate::book::trouble::TroubleKind;
use crate::book::{
    Control, Fluid, Joint, Lubrication, Pose, Ram, RestKind, RestStep, Station, Weakness,
};
use crate::id::{ItemId, PointId, StationId};
use std::ops::Range;

pub(super) fn station(section: Section<'_, '_>) -> Option<Station> {
    let id = section.id(Named::Station);
    let (name, at) = (section.text("name"), section.place("at"));
    Some(Station {
        id: StationId::new(&id?.0)?,
        name: name?,
        at,
        line: section.line,
    })
}

/// The steward's lap, with the places of its stations.
pub(super) fn lap(section: Section<'_, '_>) -> (Range<usize>, Vec<(StationId, Range<usize>)>) {
    let order = section
        .references("order")
        .into_iter()
        .filter_map(|(id, place)| Some((StationId::new(&id)?, place)));
    (section.place_of("order"), order.collect())
}

pub(super) fn pose(section: Section<'_, '_>) -> Option<Pose> {
    let (id, what) = (item(&section, Named::Pose), section.text("what"));
    let (rods_in, rods_out) = (section.items("rods-in"), section.items("rods-out"));
    for ram in rods_out.iter().filter(|ram| rods_in.contains(ram)) {
        section.desk.mistake(
            section.place_of("rods-out"),
            TroubleKind::RodInAndOut {
                ram: ram.to_string(),
            },
        );
    }
    let guards = section.words("guards");
    Some(Pose {
        id: id?,
        what: what?,
        rods_in,
        rods_out,
        guards,
        line: section.line,
    })
}

/// A joint, with the place where it names its twin.
pub(super) fn joint(section: Section<'_, '_>) -> Option<(Joint, Range<usize>)> {
    let (id, name) = (item(&section, Named::Joint), section.text("name"));
    let lubrication = section.word("lubrication").unwrap_or(Lubrication::Fittings);
    let mirror = section.reference("mirror").and_then(|id| ItemId::new(&id));
    let at = section.place("at");
    let place = section.place_of("mirror");
    Some((
        Joint {
            id: id?,
            name: name?,
            lubrication,
            mirror,
            at,
            line: section.line,
        },
        place,
    ))
}

pub(super) fn fluid(section: Section<'_, '_>) -> Option<Fluid> {
    let (id, name) = (item(&section, Named::Fluid), section.text("name"));
    let (grade, holds, filler) = (
        section.text("grade"),
        section.positive("holds"),
        section.text("filler"),
    );
    Some(Fluid {
        id: id?,
        name: name?,
        grade,
        holds,
        filler,
        line: section.line,
    })
}

pub(super) fn ram(section: Section<'_, '_>, moved: &Once) -> Option<Ram> {
    let (id, name) = (item(&section, Named::Ram), section.text("name"));
    let (bore, rod) = (section.positive("bore"), section.positive("rod"));
    let (closed, open) = (section.positive("closed"), section.positive("open"));
    if let (Some(bore), Some(rod)) = (&bore, &rod)
        && rod.si() >= bore.si()
    {
        section
            .desk
            .mistake(section.place_of("rod"), TroubleKind::RodFillsBore);
    }
    if let (Some(closed), Some(open)) = (&closed, &open)
        && open.si() <= closed.si()
    {
        section
            .desk
            .mistake(section.place_of("open"), TroubleKind::RamDoesNotOpen);
    }
    let count = section.count("count").unwrap_or(1);
    let work = ram_work(&section, moved);
    Some(Ram {
        id: id?,
        name: name?,
        bore,
        rod,
        closed,
        open,
        count,
        work,
        line: section.line,
    })
}

pub(super) fn rest(section: Section<'_, '_>) -> Option<RestStep> {
    let (id, what, is) = (
        item(&section, Named::Rest),
        section.text("what"),
        section.word("is"),
    );
    let (proof, to_dig) = (section.text("proof"), section.text("to-dig"));
    let said_safe = section.text("said-safe");
    if is == Some(RestKind::LeversWorked) && said_safe.is_none() && !section.has("said-safe") {
        section
            .desk
            .mistake(section.place_of("is"), TroubleKind::LeversNotSaidSafe);
    }
    Some(RestStep {
        id: id?,
        what: what?,
        proof,
        is: is?,
        to_dig,
        line: section.line,
    })
}

pub(super) fn weakness(section: Section<'_, '_>) -> Option<Weakness> {
    let (id, what, points) = (
        item(&section, Named::Weakness),
        section.text("what"),
        points(&section),
    );
    Some(Weakness {
        id: id?,
        what: what?,
        points,
        line: section.line,
    })
}

pub(super) fn control(section: Section<'_, '_>) -> Option<Control> {
    let (id, name, does) = (
        item(&section, Named::Control),
        section.text("name"),
        section.text("does"),
    );
    Some(Control {
        id: id?,
        name: name?,
        does,
        line: section.line,
    })
}

fn item(section: &Section<'_, '_>, of: Named) -> Option<ItemId> {
    section.id(of).and_then(|(id, _)| ItemId::new(&id))
}

fn points(section: &Section<'_, '_>) -> Vec<PointId> {
    section
        .references("points")
        .iter()
        .filter_map(|(id, _)| PointId::new(id))
        .collect()
}
