//! The papers as they come out of the printer.
#![allow(clippy::unwrap_used)]

mod printed;
mod yard_of_one;

use papers::PaperSize;
use printed::Printed;
use words::Words;
use yard_of_one::YardOfOne;

const DEMO: &str = "demo/marigold.toml";

#[test]
fn temporary() {
    let yard = YardOfOne::of(DEMO);
    let words = Words::english();
    let sheet = yard.sheet(&words, PaperSize::A4);
    let pdf = papers::round_sheet(&sheet, &yard.due());
    println!("{:?}", pdf.as_ref().map(Vec::len));
    let c = papers::greasing_chart(&sheet, Some(1.28));
    println!("{:?}", c.as_ref().map(Vec::len));
    let people = std::collections::BTreeMap::new();
    let names = words::BookNames { book: Some(&yard.book), people: &people, now: yard.now, zone: &yard.zone };
    let s = papers::due_strip(&sheet, &yard::upkeep::next_due(&yard.situation()), &names);
    println!("{:?}", s.as_ref().map(Vec::len));
    let entry = yard::id::EntryId(uuid::Uuid::from_u128(9));
    let finding = yard::state::Finding { id: yard::id::FaultRef { entry, point: None }, what: yard::state::Found::StoodDown("x".into()), at: yard.now, by: yard_of_one::STEWARD, life_hours: None, book: None, mended: vec![], released: None };
    let t = papers::stand_down_tag(&sheet, &finding, "Dipper pin clips: pivot and ram, left: missing (washer gone, pin has moved 5 mm outwards)", "Odalys");
    println!("{:?}", t.as_ref().map(Vec::len));
    let _ = Printed::of(&pdf.unwrap_or_default());
}
