//! The parts list, the history and the wall chart as they come out of the printer.
#![allow(clippy::unwrap_used)]

mod printed;
mod yard_of_one;

use papers::{OnTheWall, PaperSize, WallChart};
use printed::Printed;
use std::collections::BTreeMap;
use words::{BookNames, Words};
use yard::{
    entry::*,
    id::{EntryId, ItemId, PersonId},
    state::OnShelf,
};
use yard_of_one::{STEWARD, YardOfOne, project_file};

const SIZES: [(PaperSize, &str); 2] = [
    (PaperSize::A4, "595.276 x 841.89 pts"),
    (PaperSize::Letter, "612 x 792 pts"),
];

/// The demo's book with a part of a known place, and a fastener with its torque.
fn with_parts(further: Vec<(&str, Body)>) -> YardOfOne {
    let more = "\n[[part]]\nid = \"air-cleaner\"\nwhat = \"Safety element\"\nkind = \"filter\"\nnumber = \"0042917\"\nat = [1.2, 0.5, 1.4]\nkeep = 2\n\
        instead = [{ what = \"The tall one\", number = \"557E90\", said-by = \"the farm shop\", on = \"2025-03-01\" }]\n\
        [[part]]\nid = \"frame-bolt\"\nwhat = \"Frame bolt\"\nkind = \"fastener\"\nthread = \"3/4-10\"\ngrade = \"grade 8\"\n\
        torque = \"290 lb ft\"\nthen = \"then 60 degrees more\"\nput-in = \"dry\"\ncount = 8\nat = [0.2, -0.6, 0.8]\n";
    YardOfOne::with(&(project_file("demo/marigold.toml") + more), further)
}

#[test]
fn the_parts_list_has_numbers_sizes_and_what_fits_instead() {
    let yard = with_parts(vec![]);
    let words = Words::english();
    let shelf = BTreeMap::from([(
        ItemId::new("air-cleaner").unwrap(),
        OnShelf {
            count: 1,
            short: false,
            entry: EntryId(uuid::Uuid::from_u128(7)),
            at: yard.now,
        },
    )]);
    for (size, points) in SIZES {
        let made = papers::parts_list(&yard.sheet(&words, size), &shelf).unwrap();
        let printed = Printed::of(&made);
        assert!(printed.info("Page size").starts_with(points));
        assert_eq!(printed.info("Tagged"), "yes");
        let text = printed.in_one_line();
        for said in [
            "0042917",
            "557E90",
            "the farm shop",
            "1 on the shelf",
            "2 wanted there",
            "290 lb ft, then 60 degrees more",
            "3/4-10",
        ] {
            assert!(text.contains(said), "{said}: {text}");
        }
    }
}

fn note(text: &str) -> Body {
    Body::Note(Note {
        point: None,
        text: text.to_owned(),
    })
}

#[test]
fn the_history_tells_all_in_order_and_names_nobody() {
    let learner = PersonId(uuid::Uuid::from_u128(77));
    let repair = Repair {
        mends: vec![],
        what: "new hose at the lift ram".into(),
        cost: Some("EUR 48".into()),
        event: None,
        cause: None,
    };
    let lesson = Lesson {
        person: learner,
        what: "first trench".into(),
    };
    let left = LeftYard {
        how: LeftHow::Sold,
        on: None,
        to: Some("a farmer up the valley".into()),
        hours: None,
        note: None,
    };
    let yard = with_parts(vec![
        ("2026-11-15T08:00:00Z", note("gate key is in the hut")),
        ("2026-11-16T08:00:00Z", Body::Repair(repair)),
        ("2026-11-17T08:00:00Z", Body::Lesson(lesson)),
        ("2026-11-18T08:00:00Z", Body::LeftYard(left)),
    ]);
    let words = Words::english();
    let people = BTreeMap::from([
        (learner, "Jory Example".to_owned()),
        (STEWARD, "Odalys Example".to_owned()),
    ]);
    let names = BookNames {
        book: Some(&yard.book),
        people: &people,
        now: yard.now,
        zone: &yard.zone,
    };
    let sheet = yard.sheet(&words, PaperSize::A4);
    let text = |named| {
        let made = papers::history(&sheet, &yard.machine, &yard.entries, &names, named, &|_| {
            None
        });
        Printed::of(&made.unwrap()).in_order()
    };
    let nameless = text(false);
    let order = [
        "gate key is in the hut",
        "new hose at the lift ram",
        "EUR 48",
        "first trench",
        "a farmer up the valley",
    ];
    let at: Vec<_> = order.iter().map(|said| nameless.find(said)).collect();
    assert!(at.iter().all(Option::is_some), "{at:?} {nameless}");
    assert!(at.is_sorted(), "{at:?}");
    assert!(!nameless.contains("Jory") && !nameless.contains("Odalys"));
    assert!(nameless.contains("454.6"), "hours run: {nameless}");
    assert!(text(true).contains("Jory Example"));
}

#[test]
fn the_wall_chart_has_every_machine_on_either_paper() {
    let (one, words) = (with_parts(vec![]), Words::english());
    let other = YardOfOne::of("cases/book/foreign.toml");
    for (size, points) in SIZES {
        let chart = WallChart {
            words: &words,
            size,
            now: one.now,
            zone: &one.zone,
            address: "http://yard.lan/y/0123456789",
        };
        let machines = [&one, &other].map(|yard| OnTheWall {
            book: &yard.book,
            due: vec!["Engine oil: on 3 Dec 2026".to_owned()],
            may_run: Some(vec!["Odalys".to_owned()]),
        });
        let printed = Printed::of(&papers::wall_chart(&chart, &machines).unwrap());
        assert!(printed.info("Page size").starts_with(points));
        let text = printed.in_one_line();
        for yard in [&one, &other] {
            assert!(text.contains(&yard.book.machine.name), "{text}");
            assert!(
                text.contains(&yard.book.stop.as_ref().unwrap().how),
                "{text}"
            );
        }
        assert!(text.contains("Odalys"));
    }
}
