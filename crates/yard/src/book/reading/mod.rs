//! From the tree to the book: each table read into its items, all mistakes noted on the way.

mod arm;
mod drawing;
mod kinds;
mod lists;
mod machine;
mod parts;
mod points;
mod sheet;

pub(super) use points::ReadPoint;

use super::desk::Desk;
use super::fields::{FORMAT, MOST_BYTES, Named};
use super::trouble::{Level, Trouble, TroubleKind};
use super::{Book, checks, lap, level_shift, mend};
use quantity::Habits;
use sheet::Sheet;

/// What came of reading a book.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadBook {
    /// The book; none where there is any mistake.
    pub book: Option<Book>,
    /// Everything wrong, in the order of the text.
    pub troubles: Vec<Trouble>,
}

/// Reads a machine book. Never fails half-way: every mistake is told, each once, with its place.
pub fn read(text: &str, habits: &Habits) -> ReadBook {
    if text.len() > MOST_BYTES {
        let what = TroubleKind::TooBig {
            bytes: text.len(),
            most: MOST_BYTES,
        };
        return ReadBook {
            book: None,
            troubles: vec![Trouble {
                line: 1,
                column: 1,
                span: 0..0,
                level: Level::Mistake,
                what,
            }],
        };
    }
    let document = mend::document(text);
    let desk = Desk::new(text, habits, document.broken);
    for (span, what) in document.found {
        desk.mistake(span, what);
    }
    let book = book(&desk, &Sheet::of(&desk, &document.entries));
    let troubles = desk.troubles();
    let sound = troubles
        .iter()
        .all(|trouble| trouble.level != Level::Mistake);
    ReadBook {
        book: book.filter(|_| sound),
        troubles,
    }
}

fn book(desk: &Desk<'_>, sheet: &Sheet<'_, '_>) -> Option<Book> {
    sheet.note_format(FORMAT);
    let machine = sheet.one("machine").and_then(machine::identity);
    let stations = sheet.each("station", lists::station);
    let points = sheet.each("point", points::point);
    let joints = sheet.each("joint", lists::joint);
    let rams = {
        let moved = arm::Once::default();
        sheet.each("ram", |section| lists::ram(section, &moved))
    };
    let meter = sheet.one("meter").and_then(machine::meter);
    let further_meters = sheet.each("further-meter", machine::further_meter);
    let written_lap = sheet.one("lap").map(lists::lap);
    let book = Book {
        stop: sheet.one("stop").and_then(machine::stop),
        start: sheet
            .one("start")
            .map(|section| section.texts("steps"))
            .unwrap_or_default(),
        service_hours: sheet
            .one("service-hours")
            .and_then(|section| machine::service_hours(&section, meter.as_ref(), &further_meters)),
        meter,
        further_meters,
        lap_is_stewards: written_lap.is_some(),
        lap: Vec::new(),
        stations,
        poses: sheet.each("pose", lists::pose),
        fluids: sheet.each("fluid", lists::fluid),
        parts: sheet.each("part", parts::part),
        attachments: sheet.each("attachment", parts::attachment),
        documents: sheet.each("document", parts::document),
        greasing: sheet
            .one("greasing")
            .map(machine::greasing)
            .unwrap_or_default(),
        distances: arm::distances(sheet),
        masses: sheet.each("mass", arm::mass),
        ground_gear: sheet.one("ground").and_then(machine::ground),
        rest: sheet.each("rest", lists::rest),
        shift: sheet.one("shift").map(machine::shift).unwrap_or_default(),
        danger_zone: sheet.one("danger").and_then(machine::danger),
        weaknesses: sheet.each("weakness", lists::weakness),
        controls: sheet.each("control", lists::control),
        drawing: sheet.each("draw", drawing::stroke),
        renamed: sheet
            .one("renamed")
            .map(machine::renamed)
            .unwrap_or_default(),
        arm: arm::tables(sheet),
        points: points.iter().map(|read| read.point.clone()).collect(),
        joints: joints.iter().map(|(joint, _)| joint.clone()).collect(),
        rams,
        machine: machine?,
    };
    checks::mirrored_points(desk, &points);
    checks::mirrored_joints(desk, &joints);
    checks::marks_with_attachments(desk, &points, &book.attachments);
    checks::whole_book(desk, &book);
    let lap = match &written_lap {
        Some(written) => checks::written_lap(desk, &book.stations, written),
        None => lap::shortest(&book),
    };
    desk.look_up();
    let mut book = Book { lap, ..book };
    level_shift::fill_in(&mut book);
    Some(book)
}

/// Everything with ids of its own.
const NAMED: [Named; 13] = [
    Named::Station,
    Named::Point,
    Named::Pose,
    Named::Joint,
    Named::Fluid,
    Named::Part,
    Named::Ram,
    Named::Rest,
    Named::Weakness,
    Named::Control,
    Named::Meter,
    Named::Attachment,
    Named::Document,
];
