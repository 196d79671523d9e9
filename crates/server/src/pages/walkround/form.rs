//! What was typed at a station, read into answers. Nothing is guessed: what does not read is asked about, beside its field.

use super::question::{AS_IT_MUST_BE, Asked, unit_of};
use crate::page::Page;
use std::collections::BTreeMap;
use yard::{
    book::{GreaseUntil, LeakClass, LevelMark, MeasureLimit, OilHeat, Point, PointKind},
    code::Coded,
    entry::{Answer, Answered, FluidLooks, Hindrance, LevelReads, NotChecked, Reading},
    id::ItemId,
};

/// The fields of a form as sent.
#[derive(Clone, Debug, Default)]
pub(crate) struct Typed(BTreeMap<String, String>);

impl Typed {
    /// Takes the pairs of a form; the last of a repeated name counts. At most 2,000 fields are kept; the whole form is limited by the server.
    pub(crate) fn of(pairs: Vec<(String, String)>) -> Self {
        Self(pairs.into_iter().take(2000).collect())
    }
    /// A field of a point: `what.point`. Empty where it was not sent.
    pub(crate) fn get(&self, what: &str, point: &str) -> &str {
        self.0
            .get(&format!("{what}.{point}"))
            .map_or("", |value| value.trim())
    }
    /// A text of many lines exactly as typed, line ends as on disk.
    pub(crate) fn long(&self, name: &str) -> String {
        self.0
            .get(name)
            .map_or_else(String::new, |value| value.replace("\r\n", "\n"))
    }
    /// A field by its whole name, where something was typed.
    pub(crate) fn some(&self, name: &str) -> Option<String> {
        Some(self.field(name))
            .filter(|value| !value.is_empty())
            .map(str::to_owned)
    }
    /// A field by its whole name.
    pub(crate) fn field(&self, name: &str) -> &str {
        self.0.get(name).map_or("", |value| value.trim())
    }
}

/// What a point's fields amount to.
#[derive(Debug)]
pub(crate) enum Read {
    /// An answer.
    Answered(Answered),
    /// Nothing was said.
    Nothing,
    /// It does not read.
    Asked(Vec<Asked>),
}

/// Reads one point. `rest_well`: what was not touched and allows it counts as well.
pub(crate) fn read(
    p: &Page,
    point: &Point,
    typed: &Typed,
    habits: &quantity::Habits,
    rest_well: bool,
) -> Read {
    let id = point.id.as_str();
    let note = typed.some(&format!("n.{id}"));
    if let Some(because) = Hindrance::from_code(typed.get("why", id)) {
        return Read::Answered(Answered {
            point: point.id.clone(),
            answer: Answer::NotChecked(NotChecked { because }),
            note,
            photos: vec![],
        });
    }
    match answer(p, point, typed, habits) {
        Ok(Some(answer)) => Read::Answered(Answered {
            point: point.id.clone(),
            answer,
            note,
            photos: vec![],
        }),
        Ok(None) => match well_answer(point).filter(|_| rest_well) {
            Some(answer) => Read::Answered(Answered {
                point: point.id.clone(),
                answer,
                note,
                photos: vec![],
            }),
            None => Read::Nothing,
        },
        Err(asked) => Read::Asked(asked),
    }
}

/// The answer "all well", where one tap may give it.
pub(crate) fn well_answer(point: &Point) -> Option<Answer> {
    use yard::entry::*;
    match &point.kind {
        PointKind::PinClip => Some(Answer::PinClip(ClipState::Present)),
        PointKind::Bolts => Some(Answer::Bolts {
            state: BoltState::Tight,
            how_many: 0,
        }),
        PointKind::Leak { .. } => Some(Answer::Leak(None)),
        PointKind::Hose => Some(Answer::Hose(HoseState::Sound)),
        PointKind::Structure => Some(Answer::Structure(StructureState::Sound)),
        PointKind::Function => Some(Answer::Function(FunctionState::Works)),
        PointKind::Look => Some(Answer::Look(LookState::Well)),
        PointKind::Level(_)
        | PointKind::Fitting(_)
        | PointKind::Measure(_)
        | PointKind::Crank(_) => None,
    }
}

fn answer(
    p: &Page,
    point: &Point,
    typed: &Typed,
    habits: &quantity::Habits,
) -> Result<Option<Answer>, Vec<Asked>> {
    let id = point.id.as_str();
    let a = typed.get("a", id);
    Ok(match &point.kind {
        PointKind::Level(mark) => return level(p, mark, id, typed),
        PointKind::Fitting(rule) => {
            let strokes = whole(p, typed.get("strokes", id))?;
            if let (Some(given), GreaseUntil::Strokes(most)) = (strokes, &rule.until)
                && given > *most
            {
                // More than the book allows is kept as said; the page only warns beside it.
                return Ok(Coded::from_code(a).map(|took| Answer::Fitting { took, strokes }));
            }
            Coded::from_code(a).map(|took| Answer::Fitting { took, strokes })
        }
        PointKind::PinClip => Coded::from_code(a).map(Answer::PinClip),
        PointKind::Bolts => {
            let how_many = whole(p, typed.get("count", id))?;
            Coded::from_code(a).map(|state| Answer::Bolts {
                state,
                how_many: how_many.unwrap_or(u32::from(a != "tight")),
            })
        }
        PointKind::Measure(limit) => return measure(p, limit, id, typed, habits),
        PointKind::Leak { .. } => match a {
            "none" => Some(Answer::Leak(None)),
            class => LeakClass::from_code(class).map(|class| Answer::Leak(Some(class))),
        },
        PointKind::Hose => Coded::from_code(a).map(Answer::Hose),
        PointKind::Structure => Coded::from_code(a).map(Answer::Structure),
        PointKind::Function => Coded::from_code(a).map(Answer::Function),
        PointKind::Look => Coded::from_code(a).map(Answer::Look),
        PointKind::Crank(cases) => {
            let said = |i: usize| match typed.get(&format!("k{i}"), id) {
                "yes" => Some(Some(true)),
                "no" => Some(Some(false)),
                "untried" => Some(None),
                _ => None,
            };
            let bypassed = match typed.get("by", id) {
                "yes" => Some(true),
                "no" => Some(false),
                _ => None,
            };
            let cranked: Vec<Option<Option<bool>>> = (0..cases.len()).map(said).collect();
            let untouched = cranked.iter().all(Option::is_none) && bypassed.is_none();
            if untouched {
                None
            } else if bypassed.is_none() {
                return Err(vec![asked(p, "ask-missing-bypassed")]);
            } else {
                Some(Answer::Crank {
                    cranked: cranked.into_iter().map(Option::flatten).collect(),
                    bypassed: bypassed.unwrap_or(false),
                })
            }
        }
    })
}

fn level(
    p: &Page,
    mark: &LevelMark,
    id: &str,
    typed: &Typed,
) -> Result<Option<Answer>, Vec<Asked>> {
    let wants_heat = mark.oil;
    if typed.get("a", id) == AS_IT_MUST_BE && mark.pose.is_some() {
        let oil = (mark.oil != OilHeat::Any).then_some(mark.oil);
        return Ok(Some(Answer::Level {
            reads: LevelReads::AtMark,
            pose: mark.pose.clone(),
            oil,
            looks: FluidLooks::Clean,
        }));
    }
    let reads = Coded::from_code(typed.get("a", id));
    let looks: Option<FluidLooks> = Coded::from_code(typed.get("looks", id));
    let (pose, oil) = (
        typed.get("pose", id),
        OilHeat::from_code(typed.get("oil", id)),
    );
    let Some(reads) = reads else {
        let touched = looks.is_some() || !pose.is_empty() || oil.is_some();
        return if touched {
            Err(vec![asked(p, "ask-missing-level")])
        } else {
            Ok(None)
        };
    };
    let mut missing = Vec::new();
    if looks.is_none() {
        missing.push(asked(p, "ask-missing-looks"));
    }
    if pose.is_empty() {
        missing.push(asked(p, "ask-missing-pose"));
    }
    if wants_heat != OilHeat::Any && oil.is_none() {
        missing.push(asked(p, "ask-missing-heat"));
    }
    match looks {
        Some(looks) if missing.is_empty() => {
            let pose = ItemId::new(pose).filter(|pose| pose.as_str() != "other");
            Ok(Some(Answer::Level {
                reads,
                pose,
                oil,
                looks,
            }))
        }
        _ => Err(missing),
    }
}

fn measure(
    p: &Page,
    limit: &MeasureLimit,
    id: &str,
    typed: &Typed,
    habits: &quantity::Habits,
) -> Result<Option<Answer>, Vec<Asked>> {
    let texts: Vec<&str> = (0..limit.readings.len())
        .map(|i| typed.get(&format!("v{i}"), id))
        .collect();
    let yes = |field: &str| match typed.get(field, id) {
        "yes" => Some(true),
        "no" => Some(false),
        _ => None,
    };
    let (by_method, condition_held) = (yes("m"), yes("c"));
    if texts.iter().all(|t| t.is_empty()) {
        return if by_method.is_some() || condition_held.is_some() {
            Err(vec![asked(p, "ask-missing-reading")])
        } else {
            Ok(None)
        };
    }
    let unit = unit_of(limit);
    let mut troubles = Vec::new();
    let mut readings = Vec::new();
    for (text, name) in texts.iter().zip(&limit.readings) {
        if text.is_empty() {
            troubles.push(Asked {
                what: p.t1("ask-missing-one-reading", "name", name),
                hint: p.t("ask-missing-one-reading.next"),
            });
            continue;
        }
        match reading(text, habits, unit) {
            Ok(reading) if contradicts(&reading) => troubles.push(asked(p, "ask-over-under")),
            Ok(reading) => readings.push(reading),
            Err(trouble) => {
                let told = p.words.quantity_trouble(&trouble);
                troubles.push(Asked {
                    what: told.what,
                    hint: told.next,
                });
            }
        }
    }
    if by_method.is_none() {
        troubles.push(asked(p, "ask-missing-method"));
    }
    if limit.condition.is_some() && condition_held.is_none() {
        troubles.push(asked(p, "ask-missing-condition"));
    }
    if troubles.is_empty() {
        Ok(Some(Answer::Measure {
            readings,
            by_method,
            condition_held,
        }))
    } else {
        Err(troubles)
    }
}

/// Whether a finding by gauges says over more than it is under.
fn contradicts(reading: &Reading) -> bool {
    match reading {
        Reading::Between {
            over: Some(over),
            under: Some(under),
        } => over.si() >= under.si(),
        _ => false,
    }
}

/// A reading: a value with or without ±, or `over 88.9 mm`, `under 101.6 mm`, `over … under …` for go/no-go findings. A number
/// without a unit is in `unit`, which stands beside the field.
fn reading(
    text: &str,
    habits: &quantity::Habits,
    unit: Option<quantity::Unit>,
) -> Result<Reading, quantity::Trouble> {
    let read = |text: &str| quantity::parse_in(text.trim(), unit, habits);
    let over = after(text, "over ").or_else(|| after(text, ">"));
    let under = after(text, "under ").or_else(|| after(text, "<"));
    match (over, under) {
        (Some(rest), _) => {
            let cut = rest.to_ascii_lowercase().find("under");
            let (low, high) = match cut {
                Some(cut) => (&rest[..cut], Some(&rest[cut + "under".len()..])),
                None => (rest, None),
            };
            Ok(Reading::Between {
                under: high.map(read).transpose()?,
                over: Some(read(low)?),
            })
        }
        (_, Some(rest)) => Ok(Reading::Between {
            over: None,
            under: Some(read(rest)?),
        }),
        _ => read(text).map(Reading::Value),
    }
}

/// What follows a word at the beginning, in large or small letters.
fn after<'a>(text: &'a str, word: &str) -> Option<&'a str> {
    let head = text.get(..word.len())?;
    head.eq_ignore_ascii_case(word).then(|| &text[word.len()..])
}

fn whole(p: &Page, text: &str) -> Result<Option<u32>, Vec<Asked>> {
    if text.is_empty() {
        return Ok(None);
    }
    text.parse()
        .map(Some)
        .map_err(|_| vec![asked(p, "ask-whole-number")])
}

/// A question with its hint, by key.
pub(crate) fn asked(p: &Page, key: &str) -> Asked {
    Asked {
        what: p.t(key),
        hint: p.t(&format!("{key}.next")),
    }
}

/// Hours as typed: a bare number means hours; empty means not read.
pub(crate) fn hours(
    p: &Page,
    text: &str,
    habits: &quantity::Habits,
) -> Result<Option<quantity::Quantity>, Asked> {
    let text = text.trim();
    if text.is_empty() || text.eq_ignore_ascii_case(&p.t("hours-not-read")) {
        return Ok(None);
    }
    let read = quantity::parse_in(text, Some(quantity::Unit::Hour), habits);
    if read.as_ref().is_ok_and(|hours| hours.value().is_negative()) {
        return Err(asked(p, "ask-hours-negative"));
    }
    read.map(Some).map_err(|trouble| {
        let told = p.words.quantity_trouble(&trouble);
        Asked {
            what: told.what,
            hint: told.next,
        }
    })
}
