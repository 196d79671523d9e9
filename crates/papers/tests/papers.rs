//! The papers as they come out of the printer: size, fonts, ruler, square code, signs, text.
#![allow(clippy::unwrap_used)]

mod boxes;
mod printed;
mod yard_of_one;

use jiff::civil::date;
use papers::{PaperError, PaperSize, PrintedFinding};
use printed::Printed;
use quantity::Exact;
use std::collections::BTreeMap;
use words::{BookNames, Words, plain_runs};
use yard::{
    book::{Point, PointKind, Rhythm},
    id::{EntryId, FaultRef, PointId},
    state::{Finding, Found},
    upkeep::DueLine,
    walkround::RoundPlan,
};
use yard_of_one::{ADDRESS, STEWARD, YardOfOne, project_file};

const BOOKS: [&str; 2] = ["demo/marigold.toml", "cases/book/foreign.toml"];
const FOREIGN: &str = BOOKS[1];
const SIZES: [(PaperSize, &str, f64); 2] = [
    (PaperSize::A4, "595.276 x 841.89 pts", 297.0),
    (PaperSize::Letter, "612 x 792 pts", 279.4),
];
const FOUND: &str = "Pin clips: missing (washer gone, pin has moved 5 mm)";
const FINDER: &str = "Odalys";

fn finding(yard: &YardOfOne) -> Finding {
    let id = FaultRef {
        entry: EntryId(uuid::Uuid::from_u128(9)),
        point: None,
    };
    Finding {
        id,
        what: Found::StoodDown(FOUND.to_owned()),
        at: yard.now,
        by: STEWARD,
        life_hours: None,
        book: None,
        mended: vec![],
        released: None,
        photos: vec![],
    }
}

fn printed_finding(yard: &YardOfOne) -> PrintedFinding<'static> {
    PrintedFinding {
        what: FOUND,
        found_by: FINDER,
        at: yard.now,
        done: &[],
        photos: &[],
        awaited: 0,
        withheld: false,
        address: ADDRESS,
    }
}

/// What comes next: all fittings at one reading, the first bolts and the first measure at another, the first two things to look
/// at on a date, the starting check today.
fn due_lines(yard: &YardOfOne) -> Vec<DueLine> {
    let line = |point: &Point, hours: Option<&str>, on| {
        let hours = hours.map(|hours| Exact::parse(hours).unwrap());
        DueLine {
            point: point.id.clone(),
            at_hours: hours.clone(),
            meter_shows: hours,
            on,
            figure: None,
        }
    };
    let of = |is: fn(&PointKind) -> bool, most: usize| {
        yard.book
            .points
            .iter()
            .filter(move |p| is(&p.kind))
            .take(most)
    };
    let greasing =
        of(|kind| matches!(kind, PointKind::Fitting(_)), 100).map(|p| line(p, Some("462.6"), None));
    let bolts = of(|kind| matches!(kind, PointKind::Bolts), 1).map(|p| line(p, Some("490"), None));
    let measure =
        of(|kind| matches!(kind, PointKind::Measure(_)), 1).map(|p| line(p, Some("490"), None));
    let looks = of(|kind| matches!(kind, PointKind::Look), 2)
        .map(|p| line(p, None, Some(date(2026, 11, 27))));
    let crank = of(|kind| matches!(kind, PointKind::Crank(_)), 1)
        .map(|p| line(p, None, Some(date(2026, 11, 20))));
    greasing
        .chain(bolts)
        .chain(measure)
        .chain(looks)
        .chain(crank)
        .collect()
}

/// All papers of a yard by name.
fn papers(yard: &YardOfOne, words: &Words, size: PaperSize) -> Vec<(&'static str, Vec<u8>)> {
    let sheet = yard.sheet(words, size);
    let people = BTreeMap::new();
    let names = BookNames {
        book: Some(&yard.book),
        people: &people,
        now: yard.now,
        zone: &yard.zone,
    };
    vec![
        (
            "round-sheet",
            papers::round_sheet(&sheet, &yard.due()).unwrap(),
        ),
        (
            "greasing-chart",
            papers::greasing_chart(&sheet, Some(1.28)).unwrap(),
        ),
        (
            "stand-down-tag",
            papers::stand_down_tag(&sheet, &finding(yard), FOUND, FINDER).unwrap(),
        ),
        (
            "finding-sheet",
            papers::finding_sheet(&sheet, &printed_finding(yard)).unwrap(),
        ),
        (
            "due-strip",
            papers::due_strip(&sheet, &due_lines(yard), &names).unwrap(),
        ),
    ]
}

#[test]
fn every_paper_of_every_book_fits_its_paper_and_has_its_fonts() {
    let words = Words::english();
    for book in BOOKS {
        let yard = YardOfOne::of(book);
        for (size, points, _) in SIZES {
            for (name, pdf) in papers(&yard, &words, size) {
                let printed = Printed::of(&pdf);
                let what = format!("{name} of {book}");
                assert!(
                    printed.info("Page size").starts_with(points),
                    "{what}: {}",
                    printed.info("Page size")
                );
                assert_eq!(printed.info("Tagged"), "yes", "{what}");
                assert!(
                    printed.info("Title").contains(&yard.book.machine.name),
                    "{what}"
                );
                let fonts = printed.fonts();
                assert!(
                    fonts.iter().all(|font| font.starts_with("DejaVuSans")),
                    "{what}: {fonts:?}"
                );
                assert!(
                    !fonts.iter().any(|font| font.contains("Mono")),
                    "{what}: {fonts:?}"
                );
            }
        }
    }
}

#[test]
fn the_same_pages_on_a4_and_letter_and_no_more_than_needed() {
    let (yard, words) = (YardOfOne::of(BOOKS[0]), Words::english());
    let pages = SIZES.map(|(size, ..)| {
        let sheet = yard.sheet(&words, size);
        Printed::of(&papers::round_sheet(&sheet, &yard.whole()).unwrap())
    });
    assert_eq!(pages[0].in_order(), pages[1].in_order());
    // Every point of the demo's book, a hundred of them; all that was never done; and an ordinary morning.
    assert!(pages[0].pages() <= 4, "{} pages", pages[0].pages());
    let sheet = yard.sheet(&words, PaperSize::Letter);
    let long = |plan: &RoundPlan| Printed::of(&papers::round_sheet(&sheet, plan).unwrap()).pages();
    let due = yard.due();
    assert!(long(&due) <= 4, "{} pages", long(&due));
    let morning = every_start(&yard, yard.due());
    assert!(long(&morning) <= 3, "{} pages", long(&morning));
}

/// The points of a round that come before every start.
fn every_start(yard: &YardOfOne, mut plan: RoundPlan) -> RoundPlan {
    let comes = |id: &PointId| {
        let point = yard.book.points.iter().find(|p| p.id == *id).unwrap();
        point.rhythms.contains(&Rhythm::EveryStart)
    };
    for stop in plan.legs.iter_mut().flat_map(|leg| &mut leg.stops) {
        stop.points.retain(|due| comes(&due.point));
    }
    plan.legs
        .iter_mut()
        .for_each(|leg| leg.stops.retain(|stop| !stop.points.is_empty()));
    plan.legs.retain(|leg| !leg.stops.is_empty());
    plan
}

#[test]
fn the_ruler_measures_100_mm_on_both_papers() {
    const DOTS: u32 = 300;
    let (yard, words) = (YardOfOne::of(FOREIGN), Words::english());
    for (size, _, high) in SIZES {
        for (name, pdf) in papers(&yard, &words, size) {
            let page = Printed::of(&pdf).page(1, DOTS);
            let dots_per_mm = f64::from(DOTS) / 25.4;
            // The foot: under the body, over the printer's edge.
            let edge = if size == PaperSize::A4 { 18.8 } else { 10.0 };
            let rows = [high - edge - 12.5, high - edge].map(|mm| (mm * dots_per_mm) as u32);
            let longest = (rows[0]..rows[1])
                .map(|y| longest_dark_run(&page, y))
                .max()
                .unwrap();
            let mm = f64::from(longest) / dots_per_mm;
            assert!(
                (mm - 100.0).abs() <= 0.5,
                "{name}: the ruler measures {mm:.2} mm on {size:?}"
            );
        }
    }
}

fn longest_dark_run(page: &image::GrayImage, y: u32) -> u32 {
    let (mut longest, mut run) = (0, 0);
    for x in 0..page.width() {
        run = if page.get_pixel(x, y).0[0] < 140 {
            run + 1
        } else {
            0
        };
        longest = longest.max(run);
    }
    longest
}

#[test]
fn square_codes_read_and_lead_where_they_should() {
    let (yard, words) = (YardOfOne::of(FOREIGN), Words::english());
    for (size, ..) in SIZES {
        for (name, pdf) in papers(&yard, &words, size) {
            let wanted = match name {
                "round-sheet" => vec![format!("{ADDRESS}/round")],
                "due-strip" => continue,
                _ => vec![ADDRESS.to_owned()],
            };
            assert_eq!(Printed::of(&pdf).codes(1), wanted, "{name} on {size:?}");
        }
    }
}

#[test]
fn a_tag_may_lead_to_its_finding() {
    let (yard, words) = (YardOfOne::of(FOREIGN), Words::english());
    let sheet = yard.sheet(&words, PaperSize::A4);
    let page = format!("{ADDRESS}/findings/9");
    let tag = papers::stand_down_tag_to(&sheet, &finding(&yard), FOUND, FINDER, Some(&page));
    assert_eq!(Printed::of(&tag.unwrap()).codes(1), [page]);
}

#[test]
fn cautions_come_first_on_the_chart_and_in_the_legs_that_need_them() {
    let (yard, words) = (YardOfOne::of(FOREIGN), Words::english());
    let sheet = yard.sheet(&words, PaperSize::A4);
    let said = |pdf: Vec<u8>| {
        let text = Printed::of(&pdf).in_order();
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let chart = said(papers::greasing_chart(&sheet, None).unwrap());
    let place = |what: &str| {
        chart
            .find(what)
            .unwrap_or_else(|| panic!("{what}: {chart}"))
    };
    assert!(place("Engine off. Key in your pocket.") < place("Wipe the fitting."));
    assert!(place("Nobody goes under anything") < place("Wipe the fitting."));
    let round = said(papers::round_sheet(&sheet, &yard.due()).unwrap());
    let stop = yard.book.stop.as_ref().unwrap().how.clone();
    let after = |head: &str| round.split(head).nth(1).unwrap().to_owned();
    for head in ["engine at low idle", "engine running, machine moving"] {
        let leg: String = after(head).chars().take(400).collect();
        assert!(leg.contains(&stop), "{leg}");
    }
    assert!(round.contains("No hand near a leak."), "{round}");
}

#[test]
fn every_sign_of_the_trade_is_printed() {
    const SIGNS: &str = "½ ¾ ° – ✓ ☐ ≤ ≥ ± ′ ″ ø ł ⁶ Ж Ω μ → №";
    let text =
        project_file(FOREIGN).replace("what = \"Engine oil\"", &format!("what = \"Oil {SIGNS}\""));
    let (yard, words) = (YardOfOne::with(&text, Vec::new()), Words::english());
    let said = Printed::of(&papers(&yard, &words, PaperSize::A4)[0].1).in_order();
    for sign in SIGNS.split(' ') {
        assert!(said.contains(sign), "{sign} is missing");
    }
}

#[test]
fn a_sign_that_no_font_has_shows_as_a_frame_and_the_tag_is_printed_all_the_same() {
    let (yard, words) = (YardOfOne::of(FOREIGN), Words::english());
    let sheet = yard.sheet(&words, PaperSize::A4);
    let tag =
        papers::stand_down_tag(&sheet, &finding(&yard), "leak 漏 #strong[x] $1$", FINDER).unwrap();
    let said = Printed::of(&tag).in_order();
    assert!(said.contains("leak ▯ #strong[x] $1$"), "{said}");
}

#[test]
fn a_long_report_leaves_the_tag_whole() {
    let (yard, words) = (YardOfOne::of(FOREIGN), Words::english());
    let sheet = yard.sheet(&words, PaperSize::A4);
    let report = "The weld of the left spar foot has opened and wanders. ".repeat(40);
    let tag = papers::stand_down_tag(&sheet, &finding(&yard), &report, FINDER).unwrap();
    let printed = Printed::of(&tag);
    assert_eq!(printed.pages(), 1);
    assert_eq!(printed.codes(1), [ADDRESS]);
    let (said, end) = (printed.in_order(), "takes this off.");
    assert!(said.contains('…') && said.contains(end), "{said}");
}

#[test]
fn the_same_paper_is_the_same_bytes() {
    let words = Words::english();
    let twice = [(); 2].map(|()| papers(&YardOfOne::of(FOREIGN), &words, PaperSize::A4));
    for (one, other) in twice[0].iter().zip(&twice[1]) {
        assert!(one.1 == other.1, "{} differs", one.0);
    }
}

#[test]
fn an_address_too_long_for_a_code_is_said() {
    let (yard, words) = (YardOfOne::of(FOREIGN), Words::english());
    let address = format!("http://{}", "long".repeat(60));
    let sheet = papers::Sheet {
        address: &address,
        ..yard.sheet(&words, PaperSize::A4)
    };
    let error = papers::greasing_chart(&sheet, None).unwrap_err();
    assert_eq!(error, PaperError::AddressTooLong(247));
    assert!(error.to_string().contains("247 letters"), "{error}");
}

#[test]
fn what_stands_on_each_paper() {
    let (yard, words) = (YardOfOne::of(FOREIGN), Words::english());
    for (name, pdf) in papers(&yard, &words, PaperSize::A4) {
        insta::assert_snapshot!(name, Printed::of(&pdf).laid_out());
    }
}

/// In the made-up language only the book's own words, names, units and numbers are plain.
#[test]
fn no_sentence_bypasses_the_messages() {
    let words = Words::pseudo();
    for book in BOOKS {
        let yard = YardOfOne::of(book);
        let own = own_words(&yard);
        let allowed: Vec<&str> = own.iter().map(String::as_str).collect();
        for (name, pdf) in papers(&yard, &words, PaperSize::A4) {
            let said = Printed::of(&pdf)
                .in_order()
                .split_whitespace()
                .collect::<Vec<_>>()
                .join(" ");
            assert_eq!(
                plain_runs(&said, &allowed),
                Vec::<String>::new(),
                "{name} of {book}: {said}"
            );
        }
    }
}

/// Every text between quotes in the book, and what twins share of their names.
fn own_words(yard: &YardOfOne) -> Vec<String> {
    let mut own: Vec<String> = yard
        .text
        .split('"')
        .skip(1)
        .step_by(2)
        .map(str::to_owned)
        .collect();
    let shared = |what: &String| {
        what.rsplit_once([',', ' '])
            .map(|(shared, _)| shared.trim_end_matches(',').to_owned())
    };
    own.extend(yard.book.points.iter().filter_map(|p| shared(&p.what)));
    own.extend([FOUND, FINDER, "in", "mm", "bar", "kPa", "psi"].map(str::to_owned));
    own
}

/// With another version of it in the tree the typesetter's memory is never emptied.
#[test]
fn there_is_one_comemo() {
    let lock = project_file("Cargo.lock");
    assert_eq!(lock.matches("name = \"comemo\"\n").count(), 1);
}

/// Makes the pictures of `docs/pictures` again: `cargo test -p papers -- --ignored pictures`.
#[test]
#[ignore = "writes pictures for the documents"]
fn pictures_for_the_documents() {
    let (yard, words) = (YardOfOne::of(BOOKS[0]), Words::english());
    for (name, pdf) in papers(&yard, &words, PaperSize::A4) {
        let printed = Printed::of(&pdf);
        for page in 1..=printed.pages().min(2) {
            let more = if page == 1 {
                String::new()
            } else {
                format!("-{page}")
            };
            printed.keep_picture(page, 66, &format!("paper-{name}{more}.png"));
        }
    }
}
