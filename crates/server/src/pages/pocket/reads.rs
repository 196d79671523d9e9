//! How a script reads the fields of a point into an answer: the point's own part of it, as data.

use crate::pages::walkround::{form::well_answer, question::unit_of};
use quantity::Quantity;
use serde_json::{Value, json};
use store::form::answer_json;
use yard::{
    book::{LevelMark, MeasureLimit, OilHeat, Point, PointKind},
    entry::{Answer, FluidLooks, LevelReads},
};

/// The data beside a point's fields. `outside` tells whether a measure over (or under) its limits stands the machine down.
pub(crate) fn reads(point: &Point, outside: (bool, bool)) -> Value {
    let well = well_answer(point).map(|answer| answer_json(&answer));
    let mut data = json!({ "kind": point.kind.code(), "well": well, "what": point.what });
    let more = match &point.kind {
        PointKind::Level(mark) => level(mark),
        PointKind::Measure(limit) => measure(limit, outside),
        PointKind::Crank(cases) => json!({ "cases": cases.len() }),
        _ => json!({}),
    };
    if let (Some(data), Value::Object(more)) = (data.as_object_mut(), more) {
        data.extend(more);
    }
    data
}

/// What the one choice "as it must be" says, and whether the oil's heat is asked.
fn level(mark: &LevelMark) -> Value {
    let heat = mark.oil != OilHeat::Any;
    let as_it_must_be = mark.pose.as_ref().map(|pose| {
        answer_json(&Answer::Level {
            reads: LevelReads::AtMark,
            pose: Some(pose.clone()),
            oil: heat.then_some(mark.oil),
            looks: FluidLooks::Clean,
        })
    });
    json!({ "asItMustBe": as_it_must_be, "heat": heat })
}

/// The readings' names, the unit a bare number is in, and the limits that a phone may compare with by itself.
fn measure(limit: &MeasureLimit, outside: (bool, bool)) -> Value {
    let number = |quantity: &Quantity| quantity::format_exact(quantity.value(), 9);
    let of = |quantity: &Option<Quantity>, stands_down: bool| {
        quantity.as_ref().filter(|_| stands_down).map(number)
    };
    let unit = unit_of(limit);
    let usual = limit
        .usual_plus_minus
        .as_ref()
        .filter(|usual| Some(usual.unit()) == unit);
    json!({
        "readings": limit.readings, "unit": unit.map(quantity::Unit::symbol), "condition": limit.condition.is_some(),
        "over": of(&limit.max, outside.0), "under": of(&limit.min, outside.1), "plusMinus": usual.map(number),
    })
}
