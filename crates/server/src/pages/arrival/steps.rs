//! Each step as the page shows it: why, how it stands, its things, its small form.

use crate::{
    desk::Desk,
    page::Page,
    pages::{
        upkeep::short::Field,
        walkround::{form::Typed, question::Choice},
    },
};
use std::collections::BTreeMap;
use words::Names;
use yard::{
    arrival::{ArrivalItem, ArrivalPlan, StepPlan},
    book::Book,
    code::Coded,
    entry::{ArrivalStep, FluidNow},
    id::PointId,
    state::MachineState,
    walkround::numbers,
};

/// One step.
pub(crate) struct StepShown {
    pub(crate) code: &'static str,
    pub(crate) title: String,
    pub(crate) why: String,
    pub(crate) how: String,
    pub(crate) done: bool,
    pub(crate) open: String,
    pub(crate) said: Vec<String>,
    pub(crate) things: Vec<Thing>,
    pub(crate) pairs: Vec<PairShown>,
    pub(crate) links: Vec<(String, String)>,
    pub(crate) fields: Vec<Field>,
    pub(crate) button: String,
}

/// A thing of a step.
pub(crate) struct Thing {
    pub(crate) name: String,
    pub(crate) says: Vec<String>,
}

/// Both sides of a pair.
pub(crate) struct PairShown {
    pub(crate) left: (String, String),
    pub(crate) right: (String, String),
    pub(crate) differs: bool,
}

/// All steps in order. Before anybody said that it came, only that can be said.
pub(super) fn shown(
    desk: &Desk,
    p: &Page,
    state: &MachineState,
    book: &Book,
    plan: &ArrivalPlan,
    typed: &Typed,
) -> Vec<StepShown> {
    let names = crate::names::names(desk, state);
    let numbers = numbers(book);
    let under_way = state
        .arrival
        .as_ref()
        .is_some_and(|arrived| arrived.over.is_none());
    let here = format!("{}/m/{}", p.home(), book.machine.id);
    let nothing = Typed::default();
    let step = |step: &StepPlan| {
        let takes = (step.step == ArrivalStep::Came) != under_way;
        let fields = if takes {
            // What did not read stands again in the form it was typed into, and in no other.
            let own = typed.field("step") == step.step.code();
            fields(p, &names, step, if own { typed } else { &nothing })
        } else {
            Vec::new()
        };
        let button = match step.step {
            ArrivalStep::Came => "arrival-begin",
            ArrivalStep::Over => "arrival-end",
            _ => "arrival-keep",
        };
        StepShown {
            code: step.step.code(),
            title: p.words.name(step.step),
            why: p.words.arrival_why(step.step),
            how: p.words.arrival_how(step.step, book),
            done: step.done,
            open: step
                .why
                .as_ref()
                .map(|open| p.words.arrival_open(open))
                .unwrap_or_default(),
            said: said(state, step.step),
            things: things(p, &names, &numbers, step),
            pairs: pairs(p, &names, &numbers, step),
            links: links(p, &here, step.step),
            fields,
            button: p.t(button),
        }
    };
    plan.steps.iter().map(step).collect()
}

/// What was said at this step, in the person's own words.
fn said(state: &MachineState, step: ArrivalStep) -> Vec<String> {
    let steps = state
        .arrival
        .iter()
        .flat_map(|arrived| arrived.steps.get(&step));
    steps
        .flatten()
        .filter_map(|said| said.says.clone())
        .collect()
}

fn numbered(
    p: &Page,
    names: &dyn Names,
    numbers: &BTreeMap<PointId, u32>,
    point: &PointId,
) -> String {
    let name = p.words.point(point, names);
    match numbers.get(point) {
        Some(number) => format!("{number} · {name}"),
        None => name,
    }
}

fn things(
    p: &Page,
    names: &dyn Names,
    numbers: &BTreeMap<PointId, u32>,
    step: &StepPlan,
) -> Vec<Thing> {
    let thing = |item: &ArrivalItem| {
        let name = match item {
            ArrivalItem::Pair(_) => return None,
            ArrivalItem::Measure { point, .. } => numbered(p, names, numbers, point),
            other => p.words.arrival_item(other, names),
        };
        let says = p.words.arrival_item_says(item, names);
        Some(Thing { name, says })
    };
    step.items.iter().filter_map(thing).collect()
}

fn pairs(
    p: &Page,
    names: &dyn Names,
    numbers: &BTreeMap<PointId, u32>,
    step: &StepPlan,
) -> Vec<PairShown> {
    let pair = |item: &ArrivalItem| match item {
        ArrivalItem::Pair(pair) => Some(PairShown {
            left: (
                numbered(p, names, numbers, &pair.left),
                p.words.arrival_side(pair.of_left.as_ref(), names),
            ),
            right: (
                numbered(p, names, numbers, &pair.right),
                p.words.arrival_side(pair.of_right.as_ref(), names),
            ),
            differs: pair.differs,
        }),
        _ => None,
    };
    step.items.iter().filter_map(pair).collect()
}

fn links(p: &Page, here: &str, step: ArrivalStep) -> Vec<(String, String)> {
    let to = |page: &str, key: &str| (format!("{here}/{page}"), p.t(key));
    match step {
        ArrivalStep::Stop | ArrivalStep::FittingsSecond => vec![to("book", "arrival-to-book")],
        ArrivalStep::Plates => vec![to("photo", "arrival-to-photo")],
        ArrivalStep::Sides => vec![to("round", "arrival-to-round")],
        ArrivalStep::Measures => vec![
            to("round", "arrival-to-round"),
            to("book", "arrival-to-book"),
        ],
        _ => Vec::new(),
    }
}

/// The step's small form. What is known is not asked again.
fn fields(p: &Page, names: &dyn Names, step: &StepPlan, typed: &Typed) -> Vec<Field> {
    let says = |key: &str| Field::text(p, key, "says", typed.field("says"));
    match step.step {
        ArrivalStep::Came => vec![says("arrival-from")],
        ArrivalStep::Plates => vec![Field::long(
            p,
            "arrival-plates-say",
            "says",
            typed.field("says"),
        )],
        ArrivalStep::Over => vec![says("arrival-end-why")],
        ArrivalStep::Fluids => {
            let unknown = step.items.iter().filter_map(|item| match item {
                ArrivalItem::Fluid { fluid, now: None } => {
                    let name = format!("f.{fluid}");
                    let choices = fluid_choices(p, typed.field(&name));
                    let label = p.words.arrival_item(item, names);
                    Some(Field {
                        label,
                        ..Field::choice(p, "arrival-fluid-is", name, choices)
                    })
                }
                _ => None,
            });
            let mut fields: Vec<Field> = unknown.collect();
            if !step.done {
                fields.push(says("arrival-says"));
            }
            fields
        }
        ArrivalStep::FittingsFirst | ArrivalStep::FittingsSecond => vec![
            Field {
                kind: "number",
                ..Field::text(p, "arrival-count", "count", typed.field("count"))
            },
            says("arrival-says"),
        ],
        ArrivalStep::Weaknesses => {
            let mut fields: Vec<Field> = step
                .items
                .iter()
                .filter_map(|item| match item {
                    ArrivalItem::Weakness {
                        weakness, looked, ..
                    } if !looked => {
                        let name = format!("w.{weakness}");
                        let value = typed.field(&name).to_owned();
                        Some(Field {
                            label: p.words.arrival_item(item, names),
                            ..Field::text(p, "arrival-says", name, &value)
                        })
                    }
                    _ => None,
                })
                .collect();
            if step.items.is_empty() {
                fields.push(says("arrival-says"));
            }
            fields
        }
        ArrivalStep::Stop | ArrivalStep::Sides | ArrivalStep::Measures => {
            vec![says("arrival-says")]
        }
    }
}

fn fluid_choices(p: &Page, chosen: &str) -> Vec<Choice> {
    let unknown = Choice {
        code: String::new(),
        word: p.words.fluid_now(None),
        chosen: chosen.is_empty(),
    };
    let known = FluidNow::ALL.iter().map(|now| Choice {
        code: now.code().to_owned(),
        word: p.words.fluid_now(Some(*now)),
        chosen: chosen == now.code(),
    });
    std::iter::once(unknown).chain(known).collect()
}
