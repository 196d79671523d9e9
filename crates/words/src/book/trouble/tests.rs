//! One of every kind of trouble, and a faulty book at the terminal.

use super::*;
use quantity::Habits;
use yard::book::{Slip, read};

#[test]
fn every_code_has_its_sentence() {
    let words = Words::english();
    let slips = Slip::ALL
        .iter()
        .map(|slip| format!("syntax-{}", slip.code()));
    let codes = TroubleKind::CODES
        .iter()
        .filter(|code| **code != "syntax")
        .map(|code| (*code).to_owned());
    let lacking: Vec<_> = slips
        .chain(codes)
        .filter(|code| !words.has(&format!("book-trouble-{code}.next")))
        .collect();
    assert_eq!(lacking, Vec::<String>::new());
}

/// Every kind of trouble can be said without a missing argument: a debug build stops where one is.
#[test]
fn every_kind_can_be_said() {
    let text = |s: &str| s.to_owned();
    let words = Words::english();
    let kinds = [
        TroubleKind::TooBig { bytes: 9, most: 8 },
        TroubleKind::AndMore { shown: 50 },
        TroubleKind::Format {
            found: None,
            known: 1,
        },
        TroubleKind::Format {
            found: Some(2),
            known: 1,
        },
        TroubleKind::TableForm {
            table: "point",
            right: text("[[point]]"),
        },
        TroubleKind::TableTwice {
            table: text("stop"),
            first_line: 4,
        },
        TroubleKind::MissingTable { table: "machine" },
        TroubleKind::KeyOfOtherKind {
            key: text("min"),
            kind: text("look"),
            belongs_to: text("measure"),
        },
        TroubleKind::TooLong {
            key: text("how"),
            most: 2000,
        },
        TroubleKind::OutOfBounds {
            key: text("count"),
            least: 1,
            most: 200,
        },
        TroubleKind::NotPositive { key: text("bore") },
        TroubleKind::UnknownReference {
            to: "station",
            found: text("rare"),
            nearest: Some(text("rear")),
        },
        TroubleKind::LimitsCrossed {
            min: text("2 in"),
            max: text("1 in"),
        },
        TroubleKind::LimitsDiffer {
            min: text("2 in"),
            max: text("1 L"),
        },
        TroubleKind::NoMethod,
        TroubleKind::MirrorOneSided {
            twin: text("sag-right"),
        },
        TroubleKind::MirrorOtherKind {
            twin: text("sag-right"),
        },
        TroubleKind::MirrorItself,
        TroubleKind::AdjusterGreased,
        TroubleKind::BadUntil {
            found: text("enough"),
        },
        TroubleKind::LapMisses {
            station: text("rear"),
        },
        TroubleKind::LapTwice {
            station: text("rear"),
        },
        TroubleKind::BadPlace,
        TroubleKind::BadStroke,
        TroubleKind::RenameStillThere { old: text("clip") },
        TroubleKind::WeakerThanRule {
            key: "bad-is",
            rule: "pin-clip",
        },
        TroubleKind::LeversNotSaidSafe,
        TroubleKind::RodFillsBore,
        TroubleKind::RamDoesNotOpen,
        TroubleKind::RodInAndOut { ram: text("boom") },
        TroubleKind::LimitWithPlusMinus {
            key: "min",
            limit: text("13 mm ± 1"),
        },
        TroubleKind::ReadingTwice { name: text("left") },
        TroubleKind::PinOnOtherPart {
            pin: text("lever-pin"),
            right: "dipper",
        },
        TroubleKind::PinOffAxis { pin: text("tooth") },
        TroubleKind::PinNotKnown {
            found: text("bom-foot"),
            nearest: Some(text("boom-foot")),
            known: text("boom-foot, tooth"),
        },
        TroubleKind::ReadingWithoutTooth,
        TroubleKind::MassPlace {
            of: text("machine"),
            wanted: 3,
        },
        TroubleKind::LengthsCount { least: 2, most: 2 },
        TroubleKind::LengthsCount { least: 1, most: 3 },
        TroubleKind::CornersEncloseNothing,
        TroubleKind::Twice {
            word: text("boom"),
            first_line: 12,
        },
    ];
    let told: Vec<String> = kinds
        .iter()
        .map(|kind| words.trouble_kind(kind))
        .map(|told| format!("{} {}", told.what, told.next))
        .collect();
    insta::assert_snapshot!(told.join("\n"));
}

const FAULTY: &str = r#"kingpost = 1
[machine]
id = "Old Digger"
name = "Old digger
kind = "tracked loader-backhoe"
colour = "red"
[[station]]
id = "rear"
name = "Behind"
[[point]]
id = "sag"
station = "raer"
kind = "mesure"
what = "Track sag"
rhythm = "every often"
[danger]
reach = "4.5 metrs"
"#;

#[test]
fn a_faulty_book_is_told_line_by_line() {
    let read = read(FAULTY, &Habits::default());
    insta::assert_snapshot!(Words::english().diagnostics(&read.troubles, "machine.toml", FAULTY));
}

#[test]
fn a_long_line_is_cut_round_its_mistake() {
    let text = format!("{}x = wrong{}", " ".repeat(200), "y".repeat(200));
    let trouble = Trouble {
        line: 1,
        column: 205,
        span: 204..209,
        level: Level::Mistake,
        what: TroubleKind::NoMethod,
    };
    let (line, carets) = pointed(&trouble, &text);
    assert_eq!(line.chars().count(), WIDTH);
    let under: String = line
        .chars()
        .zip(carets.chars())
        .filter(|(_, caret)| *caret == '^')
        .map(|(c, _)| c)
        .collect();
    assert_eq!(under, "wrong");
}

#[test]
fn a_span_outside_the_text_does_no_harm() {
    let trouble = Trouble {
        line: 3,
        column: 1,
        span: 40..50,
        level: Level::Warning,
        what: TroubleKind::NoMethod,
    };
    assert_eq!(
        pointed(&trouble, "short\n"),
        (String::new(), "^".to_owned())
    );
}
