//! A filled sheet comes back: exceptions and values by number, the rest as ticked, marked "from paper".

use super::fixture::{BOOK, Place};
use axum::http::StatusCode;
use papers::answer_words;
use words::Words;
use yard::{
    book::{Book, OilHeat, PointKind, read},
    entry::{Answer, Body, FluidLooks, LevelReads},
    walkround::numbers,
};

fn demo() -> Book {
    read(BOOK, &quantity::Habits::default()).book.unwrap()
}

/// The number of the first point that is so.
fn number(book: &Book, is: impl Fn(&PointKind) -> bool) -> u32 {
    let point = book.points.iter().find(|p| is(&p.kind)).unwrap();
    numbers(book)[&point.id]
}

/// A level whose mark holds at one oil heat only.
fn level_number(book: &Book) -> u32 {
    number(
        book,
        |kind| matches!(kind, PointKind::Level(mark) if mark.oil != OilHeat::Any && mark.pose.is_some()),
    )
}

/// Types lines of answers; what the page then says, and the answers kept, if any.
async fn typed(lines: &str) -> (String, Option<Vec<yard::entry::Answered>>) {
    let place = Place::new();
    let cookie = place.sign_in(place.deputy).await;
    let who = place.operator.to_string();
    let fields = [
        ("walker", who.as_str()),
        ("when", "2026-03-02T06:40"),
        ("hours", "812.3"),
        ("answers", lines),
    ];
    let before = place.yard.entries().unwrap().len();
    let path = format!("{}/sheet", place.machine());
    let got = place.post(&cookie, &path, &fields).await;
    let entries = place.yard.entries().unwrap();
    let kept = entries.get(before..).unwrap().iter().find_map(|entry| {
        let Body::WalkRound(round) = &entry.body else {
            return None;
        };
        Some(round.answers.clone())
    });
    (got.text, kept)
}

#[tokio::test]
async fn exceptions_are_typed_and_the_rest_counts_as_ticked() {
    let place = Place::new();
    let cookie = place.sign_in(place.deputy).await;
    let book = read(BOOK, &quantity::Habits::default()).book.unwrap();
    let numbers = numbers(&book);
    let clip = book
        .points
        .iter()
        .find(|p| matches!(p.kind, yard::book::PointKind::PinClip))
        .unwrap();
    let line = format!("{}: missing", numbers[&clip.id]);
    let fields = [
        ("walker", place.operator.to_string()),
        ("when", "2026-03-02T06:40".to_owned()),
        ("hours", "812.3".to_owned()),
        ("answers", line),
        ("rest", "well".to_owned()),
    ];
    let fields: Vec<(&str, &str)> = fields.iter().map(|(n, v)| (*n, v.as_str())).collect();
    let got = place
        .post(&cookie, &format!("{}/sheet", place.machine()), &fields)
        .await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    let entries = place.yard.entries().unwrap();
    let last = entries.last().unwrap();
    let Body::WalkRound(round) = &last.body else {
        panic!("{last:?}")
    };
    assert!(round.from_paper && round.closes.is_some());
    assert_eq!(last.by, place.operator);
    assert!(last.device.0.contains("typed by"));
    assert_eq!(round.closes.as_ref().unwrap().verdict, "stand-down");
    assert!(round.answers.iter().any(|a| a.point == clip.id));
    assert!(round.answers.len() > 10);
}

#[tokio::test]
async fn a_line_that_does_not_read_is_asked_about_and_nothing_is_kept() {
    let place = Place::new();
    let cookie = place.sign_in(place.deputy).await;
    let before = place.yard.entries().unwrap().len();
    let who = place.operator.to_string();
    let fields = [
        ("walker", who.as_str()),
        ("when", "2026-03-02T06:40"),
        ("hours", "812.3"),
        ("answers", "999: missing\nnonsense\n"),
    ];
    let got = place
        .post(&cookie, &format!("{}/sheet", place.machine()), &fields)
        .await;
    assert_eq!(got.status, StatusCode::OK);
    assert!(
        got.text.contains("999: missing") && got.text.contains("nonsense"),
        "{}",
        got.text
    );
    assert_eq!(before, place.yard.entries().unwrap().len());
}

/// Every word beside a box of every kind of point is understood; what is left to say of it may be asked.
#[tokio::test]
async fn every_printed_word_reads() {
    let (book, words) = (demo(), Words::english());
    let numbers = numbers(&book);
    let mut lines = String::new();
    for point in &book.points {
        for printed in answer_words(&words, &book, point) {
            if !matches!(point.kind, PointKind::Measure(_)) {
                let said = match &point.kind {
                    PointKind::Crank(cases) if printed.code != "bypassed" => {
                        vec![printed.word; cases.len()].join(", ")
                    }
                    _ => printed.word.to_uppercase(),
                };
                lines += &format!("{}: {said}\n", numbers[&point.id]);
            }
        }
    }
    let (said, kept) = typed(&lines).await;
    assert!(kept.is_none(), "a level's pose must still be asked for");
    let asked = said.matches("class=\"asked\"").count();
    let about_levels = said.matches("how did the machine stand?").count()
        + said.matches("what did the mark show?").count();
    assert!(asked > 0 && asked == about_levels, "{said}");
}

#[tokio::test]
async fn a_level_does_not_take_its_pose_for_granted() {
    let book = demo();
    let n = level_number(&book);
    for (line, question) in [
        ("at mark", "how did the machine stand?"),
        ("below, clean", "how did the machine stand?"),
        ("as above", "what did the mark show?"),
        ("below, other", "what did the fluid look like?"),
        ("below, other, dark", "was the oil cold, warm or hot?"),
        ("at mark, below, as above", "not an answer"),
        ("at mark, nonsense", "not an answer"),
    ] {
        let (said, kept) = typed(&format!("{n}: {line}")).await;
        assert!(kept.is_none() && said.contains(question), "{line}: {said}");
    }
    let (said, _) = typed(&format!("{n}: at mark")).await;
    assert!(said.contains("Write: as above, or the pose:"), "{said}");
}

#[tokio::test]
async fn as_above_is_the_marks_pose_and_heat_and_clean() {
    let book = demo();
    let n = level_number(&book);
    let level = |line: &'static str| {
        let text = format!("{n}: {line}");
        async move {
            let (said, kept) = typed(&text).await;
            let kept = kept.unwrap_or_else(|| panic!("{line}: {said}"));
            kept.first().unwrap().answer.clone()
        }
    };
    let point = book.points.iter().find(|p| numbers(&book)[&p.id] == n);
    let PointKind::Level(mark) = &point.unwrap().kind else {
        panic!("{point:?}")
    };
    let as_above = |reads, looks| Answer::Level {
        reads,
        pose: mark.pose.clone(),
        oil: Some(mark.oil),
        looks,
    };
    let (at, clean) = (LevelReads::AtMark, FluidLooks::Clean);
    assert_eq!(level("at mark, as above").await, as_above(at, clean));
    assert_eq!(level("At-Mark, As above").await, as_above(at, clean));
    let below = as_above(LevelReads::Below, FluidLooks::Milky);
    assert_eq!(level("below, milky, as above").await, below);
    let elsewhere = Answer::Level {
        reads: LevelReads::Below,
        pose: None,
        oil: Some(OilHeat::Hot),
        looks: FluidLooks::Dark,
    };
    assert_eq!(level("below, other, dark, hot").await, elsewhere);
}

#[tokio::test]
async fn a_condition_and_each_combination_must_be_said() {
    let book = demo();
    let sag = number(
        &book,
        |kind| matches!(kind, PointKind::Measure(limit) if limit.condition.is_some()),
    );
    let start = number(&book, |kind| matches!(kind, PointKind::Crank(_)));
    let (said, _) = typed(&format!("{sag}: 1 1/2 in, 1 3/8 in\n{start}: did not")).await;
    assert!(said.contains("was the condition beside it met?"), "{said}");
    assert!(said.contains("what did each combination do?"), "{said}");
    let lines = format!("{sag}: 1 1/2 in, 1 3/8 in, not met\n{start}: bypassed");
    let (said, kept) = typed(&lines).await;
    let kept = kept.unwrap_or_else(|| panic!("{said}"));
    let held = |a: &Answer| matches!(a, Answer::Measure { condition_held, .. } if *condition_held == Some(false));
    assert!(kept.iter().any(|a| held(&a.answer)), "{kept:?}");
    let bypassed = |a: &Answer| matches!(a, Answer::Crank { bypassed: true, .. });
    assert!(kept.iter().any(|a| bypassed(&a.answer)), "{kept:?}");
}

#[tokio::test]
async fn why_it_was_not_checked_is_kept_in_the_walkers_words() {
    let book = demo();
    let n = number(&book, |kind| matches!(kind, PointKind::Hose));
    let (said, kept) = typed(&format!("{n}: – snow on it")).await;
    let kept = kept.unwrap_or_else(|| panic!("{said}"));
    assert_eq!(kept[0].note.as_deref(), Some("snow on it"));
    assert!(matches!(kept[0].answer, Answer::NotChecked(_)));
}

/// The example on the page is a line each, with this machine's own numbers, and reads.
#[tokio::test]
async fn the_examples_on_the_page_read() {
    let place = Place::new();
    let cookie = place.sign_in(place.deputy).await;
    let page = place
        .get(&cookie, &format!("{}/sheet", place.machine()))
        .await;
    let shown = page.text.split("<small>").skip(2);
    let shown: Vec<&str> = shown
        .filter_map(|rest| rest.split_once("</small>"))
        .map(|(line, _)| line)
        .collect();
    let lines: Vec<&str> = shown
        .into_iter()
        .filter(|line| line.contains(": "))
        .collect();
    assert!(lines.len() >= 4, "{lines:?}");
    let (said, kept) = typed(&lines.join("\n")).await;
    assert_eq!(kept.map(|kept| kept.len()), Some(lines.len()), "{said}");
}

/// The lines in the guide read as they stand there.
#[tokio::test]
async fn the_guides_lines_read() {
    let guide = include_str!("../../../../docs/guide/07-paper.md");
    let lines: Vec<&str> = guide
        .lines()
        .filter(|line| line.starts_with("       "))
        .map(str::trim)
        .collect();
    assert!(lines.len() >= 7, "{lines:?}");
    let (said, kept) = typed(&lines.join("\n")).await;
    assert_eq!(kept.map(|kept| kept.len()), Some(lines.len()), "{said}");
}
