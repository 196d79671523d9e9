//! The arrival sheet as it comes out of the printer, for every blank.
#![allow(clippy::unwrap_used)]

mod printed;
mod yard_of_one;

use papers::PaperSize;
use printed::Printed;
use words::Words;
use yard::{arrival::plan, entry::*, id::ItemId};
use yard_of_one::{YardOfOne, project_file};

fn sheet_of(yard: &YardOfOne, size: PaperSize) -> Printed {
    let words = Words::english();
    let plan = plan(&yard.situation());
    Printed::of(&papers::arrival_sheet(&yard.sheet(&words, size), &plan).unwrap())
}

fn blanks() -> Vec<String> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../blanks");
    let files = std::fs::read_dir(folder).unwrap();
    let names = files.map(|file| file.unwrap().file_name().into_string().unwrap());
    let mut all: Vec<String> = names.filter(|name| name.ends_with(".toml")).collect();
    all.sort();
    all
}

#[test]
fn it_has_three_pages_at_most_for_every_blank_on_both_papers() {
    let blanks = blanks();
    assert!(blanks.len() >= 8);
    for blank in blanks {
        let yard = YardOfOne::of(&format!("blanks/{blank}"));
        for size in [PaperSize::A4, PaperSize::Letter] {
            let printed = sheet_of(&yard, size);
            let pages: u32 = printed.info("Pages").parse().unwrap();
            assert!(pages <= 3, "{blank} {size:?}: {pages} pages");
            assert_eq!(printed.info("Tagged"), "yes");
        }
    }
}

#[test]
fn it_says_stop_first_and_asks_everything_of_the_book() {
    let yard = YardOfOne::of("demo/marigold.toml");
    let text = sheet_of(&yard, PaperSize::A4).in_one_line();
    let at = |what: &str| {
        text.find(what)
            .unwrap_or_else(|| panic!("no {what:?}: {text}"))
    };
    assert!(at(&yard.book.stop.as_ref().unwrap().how) < at("How it stops"));
    let order = [
        "How it stops",
        "Plates and photos",
        "Fluids Each",
        "Left against right",
        "What to measure first",
        "Fittings, first lap",
        "Fittings, second lap",
        "Known weaknesses",
    ];
    let places: Vec<usize> = order.map(at).to_vec();
    assert!(places.is_sorted(), "{places:?}");
    for fluid in &yard.book.fluids {
        at(&fluid.name);
    }
    for weakness in &yard.book.weaknesses {
        at(weakness.what.split_whitespace().next().unwrap());
    }
    let all = yard::upkeep::fittings(&yard.book);
    at(&format!("Together {all}"));
}

#[test]
fn a_fluid_that_was_changed_is_ticked() {
    let changed = Arrival {
        step: ArrivalStep::Fluids,
        about: ItemId::new("engine-oil"),
        fluid: Some(FluidNow::Changed),
        count: None,
        says: None,
    };
    let text = project_file("demo/marigold.toml");
    let at = "2026-11-18T08:00:00Z";
    let known = YardOfOne::with(&text, vec![(at, Body::Arrival(changed))]);
    let ticked = |yard: &YardOfOne| {
        sheet_of(yard, PaperSize::A4)
            .in_one_line()
            .matches('☒')
            .count()
    };
    assert_eq!(ticked(&YardOfOne::with(&text, vec![])), 0);
    assert_eq!(ticked(&known), 1);
}
