//! One point: what every kind has in common.

use super::kinds;
use crate::book::coded::KindWord;
use crate::book::fields::{Named, usual_about};
use crate::book::rhythm::{NoRhythm, rhythm};
use crate::book::section::Section;
use crate::book::tree::{Node, Value};
use crate::book::trouble::TroubleKind;
use crate::book::{About, Engine, Point, Rhythm, Severity};
use crate::code::Coded;
use crate::id::{ItemId, PointId, StationId};
use std::ops::Range;

/// A point with the places where it names its twin and attachments.
pub(in crate::book) struct ReadPoint {
    pub(in crate::book) point: Point,
    pub(in crate::book) mirror_at: Range<usize>,
    /// Where a level says with which attachments its mark holds.
    pub(in crate::book) attachments_at: Range<usize>,
}

/// Reads a point.
pub(super) fn point(mut section: Section<'_, '_>) -> Option<ReadPoint> {
    let id = section.id(Named::Point);
    let station = section
        .reference("station")
        .and_then(|id| StationId::new(&id));
    let word: Option<KindWord> = section.word("kind");
    if let Some(word) = word {
        section.of_kind(word.code());
    }
    let about = about(&section, word);
    let bad_is = section.word("bad-is");
    let kind = word.and_then(|word| kinds::kind(&section, word, about));
    if let Some(word) = word {
        note_weaker(&section, word, about, bad_is);
    }
    let common = (
        section.text("what"),
        section.text("how"),
        section.text("why"),
        section.text("source"),
    );
    let (what, how, why, source) = common;
    let rhythms = rhythms(&section);
    let (at, pose) = (
        section.place("at"),
        section.reference("pose").and_then(|id| ItemId::new(&id)),
    );
    let engine = section.word("engine").unwrap_or(Engine::Off);
    let guards = section.words("guards");
    let mirror = section.reference("mirror").and_then(|id| PointId::new(&id));
    let (count, seconds) = (
        section.count("count").unwrap_or(1),
        section.count("seconds"),
    );
    let mirror_at = section.place_of("mirror");
    let attachments_at = section.place_of("attachments");
    let point = Point {
        id: PointId::new(&id?.0)?,
        station: station?,
        what: what?,
        how,
        why,
        kind: kind?,
        about: about?,
        rhythms: Some(rhythms).filter(|rhythms| !rhythms.is_empty())?,
        at,
        pose,
        engine,
        guards,
        mirror,
        count,
        seconds: seconds.unwrap_or_else(|| usual_seconds(word, count)),
        bad_is,
        source,
        line: section.line,
    };
    Some(ReadPoint {
        point,
        mirror_at,
        attachments_at,
    })
}

/// Seconds a point takes where the book does not say. Common practice, no source.
fn usual_seconds(word: Option<KindWord>, count: u32) -> u32 {
    match word {
        Some(KindWord::Level | KindWord::Function | KindWord::Structure) => 20,
        Some(KindWord::Measure) => 90,
        Some(KindWord::Crank) => 60,
        Some(KindWord::Fitting | KindWord::Bolts) => count.saturating_mul(15),
        Some(KindWord::PinClip) => count.saturating_mul(5),
        _ => 10,
    }
}

fn about(section: &Section<'_, '_>, word: Option<KindWord>) -> Option<About> {
    let said = section.word("about");
    let usual = word.and_then(usual_about);
    if said.is_none() && usual.is_none() && word.is_some() && !section.has("about") {
        section.note_missing("about");
    }
    if section.has("about") { said } else { usual }
}

fn rhythms(section: &Section<'_, '_>) -> Vec<Rhythm> {
    let items = section.list("rhythm", true).unwrap_or_default();
    items
        .iter()
        .filter_map(|item| one_rhythm(section, item))
        .collect()
}

fn one_rhythm(section: &Section<'_, '_>, node: &Node) -> Option<Rhythm> {
    let Value::Text(text) = &node.value else {
        section.wrong_type("rhythm", node);
        return None;
    };
    let trouble = match rhythm(text, section.desk.habits) {
        Ok(read) => return Some(read),
        Err(trouble) => trouble,
    };
    let inside = |place: Range<usize>| {
        let plain = node.span.len() == text.len() + 2 && !place.is_empty();
        if plain {
            node.span.start + 1 + place.start..node.span.start + 1 + place.end
        } else {
            node.span.clone()
        }
    };
    match trouble {
        NoRhythm::Form => section.desk.mistake(
            node.span.clone(),
            TroubleKind::BadRhythm {
                found: text.chars().take(80).collect(),
            },
        ),
        NoRhythm::Zero => section.desk.mistake(
            node.span.clone(),
            TroubleKind::NotPositive {
                key: "rhythm".to_owned(),
            },
        ),
        NoRhythm::Hours(place, trouble) => section.desk.mistake(
            inside(place),
            TroubleKind::Quantity {
                key: "rhythm".to_owned(),
                trouble,
            },
        ),
    }
    None
}

/// A book may make a finding weigh more than the rules do, never less than one that stands down at once.
fn note_weaker(
    section: &Section<'_, '_>,
    word: KindWord,
    about: Option<About>,
    bad_is: Option<Severity>,
) {
    let Some(rule) = stands_down_at_once(word, about) else {
        return;
    };
    if bad_is.is_some_and(|bad_is| bad_is < Severity::StandDown) {
        section.desk.mistake(
            section.place_of("bad-is"),
            TroubleKind::WeakerThanRule {
                key: "bad-is",
                rule,
            },
        );
    }
}

/// The rule that stands a machine down at once for what such a point finds, by its word.
fn stands_down_at_once(word: KindWord, about: Option<About>) -> Option<&'static str> {
    match (word, about) {
        (KindWord::PinClip, _) => Some("pin-clip"),
        (KindWord::Hose, _) => Some("hose"),
        (KindWord::Structure, _) => Some("crack"),
        (KindWord::Crank, _) => Some("crank"),
        (KindWord::Leak, Some(About::Fuel)) => Some("fuel-leak"),
        (KindWord::Leak, Some(About::BrakeFluid)) => Some("brake-fluid-leak"),
        (KindWord::Leak, _) => Some("leak"),
        (_, Some(About::Brakes)) => Some("brakes"),
        (_, Some(About::Steering)) => Some("steering"),
        (_, Some(About::SeatBelt)) => Some("seat-belt"),
        (_, Some(About::Guards)) => Some("guards"),
        (_, Some(About::Coupling)) => Some("coupling"),
        (_, Some(About::Shock)) => Some("shock"),
        (_, Some(About::Structure)) => Some("crack"),
        (_, Some(About::OilPressure)) => Some("oil-pressure"),
        (KindWord::Function, Some(About::Levers)) => Some("levers"),
        _ => None,
    }
}
