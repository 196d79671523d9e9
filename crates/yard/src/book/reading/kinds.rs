//! One point: what its kind alone has.

use crate::book::coded::KindWord;
use crate::book::section::Section;
use crate::book::tree::{Node, Value};
use crate::book::trouble::TroubleKind;
use crate::book::{
    About, CrankCase, GreaseUntil, GreasingRule, LeakClass, LevelMark, MeasureLimit, OilHeat,
    PointKind,
};
use crate::id::ItemId;
use quantity::{Dimension, Quantity, Take};

/// Reads what belongs to the kind; none where that does not read.
pub(super) fn kind(
    section: &Section<'_, '_>,
    word: KindWord,
    about: Option<About>,
) -> Option<PointKind> {
    Some(match word {
        KindWord::Level => PointKind::Level(level(section)),
        KindWord::Fitting => PointKind::Fitting(fitting(section, about)),
        KindWord::Measure => PointKind::Measure(measure(section)?),
        KindWord::Leak => leak(section, about),
        KindWord::Crank => PointKind::Crank(cases(section)?),
        KindWord::PinClip => PointKind::PinClip,
        KindWord::Bolts => PointKind::Bolts,
        KindWord::Hose => PointKind::Hose,
        KindWord::Structure => PointKind::Structure,
        KindWord::Function => PointKind::Function,
        KindWord::Look => PointKind::Look,
    })
}

fn item(section: &Section<'_, '_>, key: &'static str) -> Option<ItemId> {
    section.reference(key).and_then(|id| ItemId::new(&id))
}

fn level(section: &Section<'_, '_>) -> LevelMark {
    LevelMark {
        fluid: item(section, "fluid"),
        pose: section.peek("pose").and_then(|id| ItemId::new(&id)),
        attachments: section.texts("attachments"),
        oil: section.word("oil").unwrap_or(OilHeat::Any),
        upper: section.yes("upper-mark"),
        elsewhere: Vec::new(),
    }
}

fn fitting(section: &Section<'_, '_>, about: Option<About>) -> GreasingRule {
    if about == Some(About::Tracks) {
        // The adjuster's fitting sets the track; greasing it with the others would stretch the track a little each time.
        section
            .desk
            .mistake(section.place_of("about"), TroubleKind::AdjusterGreased);
    }
    GreasingRule {
        joint: item(section, "joint"),
        remote: section.yes("remote"),
        until: until(section).unwrap_or(GreaseUntil::Shows),
        refused_runs: section.positive("refused-runs"),
        seen_within: section.count("seen-within-days"),
    }
}

/// `fresh grease shows`, or so many strokes.
fn until(section: &Section<'_, '_>) -> Option<GreaseUntil> {
    let text = section.text("until")?;
    if text.eq_ignore_ascii_case("fresh grease shows") {
        return Some(GreaseUntil::Shows);
    }
    let strokes = quantity::parse(&text, section.desk.habits, Some(Dimension::Strokes)).ok();
    let strokes = strokes
        .and_then(|read| read.value().to_i64())
        .and_then(|n| u32::try_from(n).ok())
        .filter(|n| (1..=100).contains(n));
    if strokes.is_none() {
        section.desk.mistake(
            section.place_of("until"),
            TroubleKind::BadUntil {
                found: text.chars().take(80).collect(),
            },
        );
    }
    strokes.map(GreaseUntil::Strokes)
}

fn measure(section: &Section<'_, '_>) -> Option<MeasureLimit> {
    let (min, max, plus_minus) = (
        section.quantity("min"),
        section.quantity("max"),
        section.quantity("plus-minus"),
    );
    let method = section.text("method");
    let limited = section.has("min") || section.has("max");
    if method.is_none() && !section.has("method") && limited {
        section
            .desk
            .mistake(section.span.clone(), TroubleKind::NoMethod);
    }
    note_limits(section, min.as_ref(), max.as_ref(), plus_minus.as_ref());
    note_plus_minus(section, "min", min.as_ref());
    note_plus_minus(section, "max", max.as_ref());
    let readings = section.texts("readings");
    note_twice(section, &readings);
    let take = section.word("take").unwrap_or(Take::Each);
    let condition = section.text("condition");
    Some(MeasureLimit {
        min,
        max,
        method: method.or_else(|| (!limited).then(String::new))?,
        readings: if readings.is_empty() {
            vec![String::new()]
        } else {
            readings
        },
        take,
        usual_plus_minus: plus_minus,
        condition,
        joint: item(section, "joint"),
    })
}

fn note_limits(
    section: &Section<'_, '_>,
    min: Option<&Quantity>,
    max: Option<&Quantity>,
    plus_minus: Option<&Quantity>,
) {
    let differ = |a: &Quantity, b: &Quantity| TroubleKind::LimitsDiffer {
        min: a.text().to_owned(),
        max: b.text().to_owned(),
    };
    match (min, max) {
        (Some(min), Some(max)) if min.dimension() != max.dimension() => section
            .desk
            .mistake(section.place_of("max"), differ(min, max)),
        (Some(min), Some(max)) if min.si() > max.si() => {
            let crossed = TroubleKind::LimitsCrossed {
                min: min.text().to_owned(),
                max: max.text().to_owned(),
            };
            section.desk.mistake(section.place_of("min"), crossed);
        }
        _ => {}
    }
    if let (Some(limit), Some(half)) = (max.or(min), plus_minus)
        && limit.dimension() != half.dimension()
    {
        section
            .desk
            .mistake(section.place_of("plus-minus"), differ(limit, half));
    }
}

/// A limit is exact: what it is compared with carries the ±, and one at the limit would not be counted.
fn note_plus_minus(section: &Section<'_, '_>, key: &'static str, limit: Option<&Quantity>) {
    if let Some(limit) = limit.filter(|limit| limit.plus_minus().is_some()) {
        section.desk.warning(
            section.place_of(key),
            TroubleKind::LimitWithPlusMinus {
                key,
                limit: limit.text().to_owned(),
            },
        );
    }
}

fn note_twice(section: &Section<'_, '_>, readings: &[String]) {
    let twice = (1..readings.len()).find(|at| readings[..*at].contains(&readings[*at]));
    if let Some(at) = twice {
        let name = readings[at].clone();
        section.desk.warning(
            section.place_of("readings"),
            TroubleKind::ReadingTwice { name },
        );
    }
}

fn leak(section: &Section<'_, '_>, about: Option<About>) -> PointKind {
    let said: Option<LeakClass> = section.word("out-from");
    let any = matches!(about, Some(About::Fuel | About::BrakeFluid));
    if any && said.is_some_and(|class| class > LeakClass::I) {
        section.desk.mistake(
            section.place_of("out-from"),
            TroubleKind::WeakerThanRule {
                key: "out-from",
                rule: "fuel-leak",
            },
        );
    }
    PointKind::Leak {
        fluid: item(section, "fluid"),
        out_from: said.unwrap_or(if any { LeakClass::I } else { LeakClass::III }),
    }
}

fn cases(section: &Section<'_, '_>) -> Option<Vec<CrankCase>> {
    let items = section.list("cases", false)?;
    let cases: Vec<CrankCase> = items
        .iter()
        .filter_map(|item| case(section, item))
        .collect();
    (cases.len() == items.len()).then_some(cases)
}

/// `{ with = "...", may-crank = true }`.
fn case(section: &Section<'_, '_>, node: &Node) -> Option<CrankCase> {
    let read = match &node.value {
        Value::Table(entries) => {
            let get = |key: &str| {
                entries
                    .iter()
                    .find(|(k, _)| k.text == key)
                    .map(|(_, node)| &node.value)
            };
            match (get("with"), get("may-crank")) {
                (Some(Value::Text(with)), Some(Value::Yes(may_crank))) if entries.len() == 2 => {
                    Some(CrankCase {
                        with: with.clone(),
                        may_crank: *may_crank,
                    })
                }
                _ => None,
            }
        }
        _ => None,
    };
    if read.is_none() {
        section.wrong_type("cases", node);
    }
    read
}
