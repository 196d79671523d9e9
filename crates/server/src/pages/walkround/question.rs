//! A point as a question on the station page: its choices, fields and what was typed.

use super::form::Typed;
use crate::{desk::Desk, page::Page};
use std::collections::BTreeSet;
use words::Arg;
use yard::{
    book::{Book, LeakClass, LevelMark, MeasureLimit, OilHeat, Point, PointKind, Pose},
    code::Coded,
    entry::Hindrance,
    people::Role,
};

/// One point as the template shows it.
#[derive(Default)]
pub(crate) struct Question {
    pub(crate) id: String,
    pub(crate) number: u32,
    pub(crate) what: String,
    pub(crate) how: String,
    pub(crate) why: String,
    pub(crate) limit: String,
    pub(crate) judged: String,
    pub(crate) scale: String,
    pub(crate) earlier: String,
    /// Photos of what is open here, as markup.
    pub(crate) photos: String,
    /// Why this point is asked now, where somebody may not expect it: the other side failed, its grease is not seen.
    pub(crate) because: String,
    /// That this round asks for a photo of it; empty where it does not.
    pub(crate) show_me: String,
    /// Where the photo is taken; empty where it is taken here.
    pub(crate) show_me_link: String,
    pub(crate) kept: String,
    /// Who answered it, where that is another person.
    pub(crate) kept_by: String,
    pub(crate) asked: Vec<Asked>,
    pub(crate) values: Vec<Value>,
    pub(crate) quick: Option<Choice>,
    pub(crate) groups: Vec<Group>,
    pub(crate) groups_open: bool,
    pub(crate) hindrances: Vec<Choice>,
    pub(crate) note: String,
    pub(crate) more_open: bool,
    /// How a script reads these fields into an answer, as JSON; empty where none is to.
    pub(crate) reads: String,
    /// Fields and codes that stand the machine down: a phone out of range can tell that much by itself.
    pub(crate) worse: BTreeSet<(String, String)>,
}

impl Question {
    /// Whether this choice of this field is marked as one that stands the machine down.
    pub(crate) fn stands_down(&self, field: &str, code: &str) -> bool {
        self.worse.contains(&(field.to_owned(), code.to_owned()))
    }
}

/// Something the reader must mend in what they typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Asked {
    pub(crate) what: String,
    pub(crate) hint: String,
}

/// A field for a value.
pub(crate) struct Value {
    pub(crate) label: String,
    pub(crate) name: String,
    pub(crate) value: String,
    pub(crate) example: String,
    /// The unit that a number without one is read in, shown beside the field; empty where there is none.
    pub(crate) unit: String,
}

/// The one choice of a level that says: at the mark, clean, in the mark's own pose and heat.
pub(crate) const AS_IT_MUST_BE: &str = "as-it-must-be";

/// A row of choices.
pub(crate) struct Group {
    pub(crate) label: String,
    pub(crate) name: String,
    pub(crate) choices: Vec<Choice>,
    pub(crate) one_column: bool,
}

/// One choice.
pub(crate) struct Choice {
    pub(crate) code: String,
    pub(crate) word: String,
    pub(crate) chosen: bool,
}

/// A sentence from a word: first letter large.
pub(crate) fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters
        .next()
        .map(|first| first.to_uppercase().chain(letters).collect())
        .unwrap_or_default()
}

/// The choices of a closed set, as `prefix-code` in words.
pub(crate) fn choices<T: Coded>(p: &Page, prefix: &str, chosen: &str) -> Vec<Choice> {
    T::ALL
        .iter()
        .map(|value| choice(p, prefix, value.code(), chosen))
        .collect()
}

/// The people whose role now will do, by name.
pub(crate) fn people_with(
    desk: &Desk,
    will_do: impl Fn(Role) -> bool,
    chosen: &str,
) -> Vec<Choice> {
    let people = desk.view.yard.people.iter();
    let able = people.filter(|(_, state)| will_do(state.role_at(desk.now)));
    able.map(|(id, _)| Choice {
        code: id.to_string(),
        word: desk.view.name(*id),
        chosen: id.to_string() == chosen,
    })
    .collect()
}

fn choice(p: &Page, prefix: &str, code: &str, chosen: &str) -> Choice {
    let key = format!("{prefix}-{code}");
    Choice {
        code: code.to_owned(),
        word: capital(&p.t(&key)),
        chosen: code == chosen,
    }
}

/// Builds the question for a point, with what was typed before.
pub(crate) fn question(
    p: &Page,
    book: &Book,
    point: &Point,
    number: u32,
    typed: &Typed,
) -> Question {
    let id = point.id.to_string();
    let mut q = Question {
        number,
        what: point.what.clone(),
        how: how(p, point),
        why: point.why.clone().unwrap_or_default(),
        limit: limit_of(p, point),
        hindrances: choices::<Hindrance>(p, "hindrance", typed.get("why", &id)),
        note: typed.get("n", &id).to_owned(),
        more_open: !typed.get("why", &id).is_empty() || !typed.get("n", &id).is_empty(),
        id,
        ..Question::default()
    };
    kind(p, book, point, typed, &mut q);
    q
}

fn how(p: &Page, point: &Point) -> String {
    let own = point.how.clone().unwrap_or_default();
    let added = match &point.kind {
        PointKind::Fitting(rule) => {
            let until = match rule.until {
                yard::book::GreaseUntil::Shows => p.t("grease-until-shows"),
                yard::book::GreaseUntil::Strokes(n) => {
                    p.words.say("grease-until-strokes", &[("n", Arg::from(n))])
                }
            };
            if rule.remote {
                format!("{until} {}", p.t("grease-remote"))
            } else {
                until
            }
        }
        _ => String::new(),
    };
    match (own.is_empty(), added.is_empty()) {
        (true, true) => p.words.point_question(&point.kind),
        (false, true) => own,
        (true, false) => added,
        (false, false) => format!("{own} {added}"),
    }
}

/// The limit in both units, with its method; empty where the point has none.
pub(crate) fn limit_of(p: &Page, point: &Point) -> String {
    if let PointKind::Measure(limit) = &point.kind {
        p.words.limit(limit)
    } else {
        String::new()
    }
}

fn kind(p: &Page, book: &Book, point: &Point, typed: &Typed, q: &mut Question) {
    use yard::entry::*;
    let id = q.id.clone();
    let a = typed.get("a", &id).to_owned();
    let plain = |choices: Vec<Choice>| Group {
        label: String::new(),
        name: format!("a.{id}"),
        one_column: false,
        choices,
    };
    match &point.kind {
        PointKind::Level(mark) => level(p, book, mark, typed, q),
        PointKind::Fitting(_) => {
            q.groups.push(Group {
                one_column: true,
                ..plain(choices::<GreaseTook>(p, "grease", &a))
            });
            q.values.push(Value {
                label: p.t("ask-strokes"),
                name: format!("strokes.{id}"),
                value: typed.get("strokes", &id).to_owned(),
                example: String::new(),
                unit: String::new(),
            });
        }
        PointKind::PinClip => q.groups.push(plain(choices::<ClipState>(p, "clip", &a))),
        PointKind::Bolts => {
            q.groups.push(plain(choices::<BoltState>(p, "bolts", &a)));
            if point.count > 1 {
                q.values.push(Value {
                    label: p.t("ask-how-many-bolts"),
                    name: format!("count.{id}"),
                    value: typed.get("count", &id).to_owned(),
                    example: String::new(),
                    unit: String::new(),
                });
            }
        }
        PointKind::Measure(limit) => measure(p, limit, typed, q),
        PointKind::Leak { .. } => {
            let mut all = vec![Choice {
                code: "none".to_owned(),
                word: capital(&p.t("leak-none")),
                chosen: a == "none",
            }];
            all.extend(LeakClass::ALL.iter().map(|c| Choice {
                code: c.code().to_owned(),
                word: capital(&p.words.name(*c)),
                chosen: a == c.code(),
            }));
            q.groups.push(plain(all));
        }
        PointKind::Hose => q.groups.push(plain(choices::<HoseState>(p, "hose", &a))),
        PointKind::Structure => q
            .groups
            .push(plain(choices::<StructureState>(p, "structure", &a))),
        PointKind::Function => q
            .groups
            .push(plain(choices::<FunctionState>(p, "function", &a))),
        PointKind::Look => q.groups.push(plain(choices::<LookState>(p, "look", &a))),
        PointKind::Crank(cases) => {
            for (i, case) in cases.iter().enumerate() {
                let name = format!("k{i}.{id}");
                let chosen = typed.get(&format!("k{i}"), &id).to_owned();
                let options = [
                    ("yes", "crank-turned"),
                    ("no", "crank-did-not"),
                    ("untried", "crank-not-tried"),
                ];
                let choices = options.iter().map(|(code, key)| Choice {
                    code: (*code).to_owned(),
                    word: capital(&p.t(key)),
                    chosen: chosen == *code,
                });
                q.groups.push(Group {
                    label: case.with.clone(),
                    name,
                    one_column: false,
                    choices: choices.collect(),
                });
            }
            let bypassed = typed.get("by", &id);
            let options = [("no", "ask-bypassed-no"), ("yes", "ask-bypassed-yes")];
            let choices = options.iter().map(|(code, key)| Choice {
                code: (*code).to_owned(),
                word: p.t(key),
                chosen: bypassed == *code,
            });
            q.groups.push(Group {
                label: p.t("ask-bypassed"),
                name: format!("by.{id}"),
                one_column: false,
                choices: choices.collect(),
            });
        }
    }
}

/// A level: one choice says all that must be said where it is as it must be; otherwise each thing is asked by itself.
fn level(p: &Page, book: &Book, mark: &LevelMark, typed: &Typed, q: &mut Question) {
    use yard::entry::{FluidLooks, LevelReads};
    let id = q.id.clone();
    let a = typed.get("a", &id).to_owned();
    let asked = |label: String, what: &str, choices: Vec<Choice>| Group {
        label,
        name: format!("{what}.{id}"),
        one_column: false,
        choices,
    };
    q.quick = mark.pose.as_ref().map(|pose| {
        let pose = book
            .poses
            .iter()
            .find(|known| known.id == *pose)
            .map_or("", |known| known.what.as_str());
        let heat = p.words.name(mark.oil);
        let word = p.words.say(
            "level-as-it-must-be",
            &[("pose", pose.into()), ("oil", heat.into())],
        );
        Choice {
            code: AS_IT_MUST_BE.to_owned(),
            word,
            chosen: a == AS_IT_MUST_BE,
        }
    });
    q.groups_open = q.quick.is_none()
        || (!a.is_empty() && a != AS_IT_MUST_BE)
        || !typed.get("looks", &id).is_empty()
        || !typed.get("pose", &id).is_empty();
    q.groups.push(asked(
        String::new(),
        "a",
        choices::<LevelReads>(p, "level", &a),
    ));
    q.groups.push(poses(p, book, &id, mark, typed));
    if mark.oil != OilHeat::Any {
        let heats = choices::<OilHeat>(p, "oil", typed.get("oil", &id));
        q.groups.push(asked(
            p.t("ask-oil-heat"),
            "oil",
            heats.into_iter().filter(|c| c.code != "any").collect(),
        ));
    }
    q.groups.push(asked(
        p.t("ask-looks"),
        "looks",
        choices::<FluidLooks>(p, "looks", typed.get("looks", &id)),
    ));
}

fn poses(p: &Page, book: &Book, id: &str, mark: &LevelMark, typed: &Typed) -> Group {
    let chosen = typed.get("pose", id).to_owned();
    let mut all: Vec<Choice> = book
        .poses
        .iter()
        .map(|pose| Choice {
            code: pose.id.to_string(),
            word: there(p, mark, pose),
            chosen: chosen == pose.id.as_str(),
        })
        .collect();
    // The pose that the mark belongs to is offered first, but never chosen for the reader.
    let of_mark = mark.pose.as_ref().map(ToString::to_string);
    all.sort_by_key(|c| Some(&c.code) != of_mark.as_ref());
    all.push(Choice {
        code: "other".to_owned(),
        word: p.t("pose-other"),
        chosen: chosen == "other",
    });
    Group {
        label: p.t("ask-pose"),
        name: format!("pose.{id}"),
        one_column: true,
        choices: all,
    }
}

/// A pose, with how much higher or lower the oil stands in it than where the mark holds, where that is known.
fn there(p: &Page, mark: &LevelMark, pose: &Pose) -> String {
    let what = capital(&pose.what);
    let shift = mark.elsewhere.iter().find(|shift| shift.pose == pose.id);
    let millimetres = shift.map_or(0.0, |shift| shift.higher * 1000.0).round() as i32;
    let key = match millimetres {
        0 => return what,
        ..0 => "pose-level-lower",
        1.. => "pose-level-higher",
    };
    let far = p.words.level_shift(millimetres);
    p.words
        .say(key, &[("pose", what.into()), ("far", far.into())])
}

fn measure(p: &Page, limit: &MeasureLimit, typed: &Typed, q: &mut Question) {
    let id = q.id.clone();
    let unit = unit_of(limit).map_or("", quantity::Unit::symbol);
    for (i, reading) in limit.readings.iter().enumerate() {
        let label = if unit.is_empty() {
            capital(reading)
        } else {
            p.t1("ask-reading", "name", &capital(reading))
        };
        let value = typed.get(&format!("v{i}"), &id).to_owned();
        q.values.push(Value {
            label,
            name: format!("v{i}.{id}"),
            value,
            example: String::new(),
            unit: unit.to_owned(),
        });
    }
    q.groups.push(yes_no(
        p,
        p.t1("ask-method", "method", &limit.method),
        format!("m.{id}"),
        typed.get("m", &id),
    ));
    if let Some(condition) = &limit.condition {
        q.groups.push(yes_no(
            p,
            capital(&format!("{condition}?")),
            format!("c.{id}"),
            typed.get("c", &id),
        ));
    }
}

/// The unit that readings of a measure are in where none is written: that of its limit.
pub(crate) fn unit_of(limit: &MeasureLimit) -> Option<quantity::Unit> {
    let end = limit.max.as_ref().or(limit.min.as_ref());
    end.map(quantity::Quantity::unit)
}

fn yes_no(p: &Page, label: String, name: String, chosen: &str) -> Group {
    let options = [("yes", "yes"), ("no", "no")];
    let choices = options
        .iter()
        .map(|(code, key)| Choice {
            code: (*code).to_owned(),
            word: capital(&p.t(key)),
            chosen: chosen == *code,
        })
        .collect();
    Group {
        label,
        name,
        one_column: false,
        choices,
    }
}
