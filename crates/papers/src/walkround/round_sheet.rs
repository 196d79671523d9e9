//! The walk-round on paper: the machine with its numbered points, then the points along the lap with limits and boxes.

use super::{Row, found::found, rows};
use crate::{PaperError, Sheet, picture, typeset};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use words::{BookList, BookNames, Names};
use yard::{
    book::{Engine, GreaseUntil, MeasureLimit, OilHeat, Point, PointKind, Without},
    id::{ItemId, PointId},
    walkround::{Leg, RoundPlan, Stop},
};

/// Usual cautions at the foot of every page.
const CAUTIONS: [&str; 3] = ["caution-local-rules", "caution-held", "caution-pressure"];

/// The sheet of a round as planned, as PDF: drawings with the points of this round, the points along the lap with limits in
/// both units, boxes to tick, and a square code that leads to the same round on a phone.
///
/// Points not due are not on it; their numbers stay free. Fails only where the typesetter does, or the address is too long.
pub fn round_sheet(sheet: &Sheet<'_>, plan: &RoundPlan) -> Result<Vec<u8>, PaperError> {
    typeset::pdf(&document(sheet, plan)?)
}

fn document(sheet: &Sheet<'_>, plan: &RoundPlan) -> Result<typeset::Document<'static>, PaperError> {
    let mut pictures = BTreeMap::new();
    let due = plan
        .legs
        .iter()
        .flat_map(|leg| &leg.stops)
        .flat_map(|stop| &stop.points);
    let shown: BTreeSet<PointId> = due.map(|due| due.point.clone()).collect();
    let title = sheet.t1("paper-round-title", "machine", &sheet.book.machine.name);
    let people = BTreeMap::new();
    let names = BookNames {
        book: Some(sheet.book),
        people: &people,
        now: sheet.now,
        zone: sheet.zone,
    };
    let data = json!({
        "frame": sheet.frame(&title, &CAUTIONS),
        "code": sheet.code(&format!("{}/round", sheet.address), "paper-qr", &mut pictures)?,
        "drawings": picture::sides(sheet, &shown, true, &mut pictures),
        "about": about(sheet, plan),
        "fields": fields(sheet),
        "columns": (["number", "what", "how", "limit", "found"].map(|column| sheet.t(&format!("paper-column-{column}")))),
        "legs": plan.legs.iter().map(|leg| leg_data(sheet, leg, &names)).collect::<Vec<_>>(),
        "key": ([key_of_bold(sheet), "paper-key-as-above"].map(|key| sheet.t(key))),
        "finds": finds(sheet, &plan.finds, &names),
        "legend": (["paper-legend-not-checked", "paper-legend-leaks"].map(|key| sheet.t(key))),
        "note": sheet.t("paper-note"),
        "verdict": sheet.t("paper-not-proof"),
        "back": sheet.t("paper-bring-back"),
    });
    Ok(typeset::Document {
        markup: include_str!("round_sheet.typ"),
        data,
        pictures,
    })
}

/// What is written at the head: who, when, the hour meter where there is one.
fn fields(sheet: &Sheet<'_>) -> Vec<String> {
    let meter = (!sheet.book.is_without_meter()).then_some("paper-hours");
    let keys = ["paper-who", "paper-when"].into_iter().chain(meter);
    keys.map(|key| sheet.t(key)).collect()
}

/// What a bold answer means for this machine.
fn key_of_bold(sheet: &Sheet<'_>) -> &'static str {
    if sheet.book.lacks(Without::Engine) {
        "paper-key-bold-no-engine"
    } else {
        "paper-key-bold"
    }
}

/// Purpose, time it takes, how many points and fittings.
fn about(sheet: &Sheet<'_>, plan: &RoundPlan) -> Vec<String> {
    let points: usize = plan
        .legs
        .iter()
        .flat_map(|leg| &leg.stops)
        .map(|stop| stop.points.len())
        .sum();
    let mut said = vec![
        sheet.words.name(plan.purpose),
        sheet.words.span(plan.seconds),
        sheet.t1("paper-points", "n", points),
    ];
    if plan.fittings > 0 {
        said.push(sheet.t1("paper-fittings", "n", plan.fittings));
    }
    said
}

fn leg_data(sheet: &Sheet<'_>, leg: &Leg, names: &dyn Names) -> Value {
    json!({
        "engine": sheet.words.leg_state(leg.engine, sheet.book),
        "pose": leg.pose.as_ref().map(|pose| sheet.words.listed(BookList::Poses, pose, names)),
        "guards": first(sheet, leg),
        "stops": leg.stops.iter().map(|stop| stop_data(sheet, leg, stop, names)).collect::<Vec<_>>(),
    })
}

/// What comes before the leg's first point: what must be in place, how to stop an engine that runs, hands off leaks.
fn first(sheet: &Sheet<'_>, leg: &Leg) -> Vec<String> {
    let guards = leg.guards.iter();
    let mut said: Vec<String> = guards.map(|guard| sheet.words.safeguard(*guard)).collect();
    if matches!(leg.engine, Engine::Idle | Engine::Working) {
        said.push(match &sheet.book.stop {
            Some(stop) => sheet.t1("paper-stop-in-leg", "how", stop.how.trim_end_matches('.')),
            None => format!(
                "{} {}",
                sheet.t("paper-stop"),
                sheet.t("paper-stop-unknown")
            ),
        });
    }
    let is_leak = |id: &PointId| {
        let point = sheet.book.points.iter().find(|p| p.id == *id);
        point.is_some_and(|p| matches!(p.kind, PointKind::Leak { .. }))
    };
    let mut due = leg.stops.iter().flat_map(|stop| &stop.points);
    if due.any(|due| is_leak(&due.point)) {
        said.extend(sheet.words.cautions(&["caution-leak"], sheet.book));
    }
    said
}

fn stop_data(sheet: &Sheet<'_>, leg: &Leg, stop: &Stop, names: &dyn Names) -> Value {
    let rows = rows(sheet.book, &stop.points);
    json!({
        "station": names.station(&stop.station).unwrap_or_else(|| stop.station.to_string()),
        "rows": rows.iter().map(|row| row_data(sheet, leg, row, names)).collect::<Vec<_>>(),
    })
}

fn row_data(sheet: &Sheet<'_>, leg: &Leg, row: &Row<'_>, names: &dyn Names) -> Value {
    let numbers = match row {
        Row::One(_, number) => vec![*number],
        Row::Both { left, right, .. } => vec![left.1, right.1],
    };
    let found = found(sheet, row);
    json!({
        "numbers": numbers,
        "what": row.what(),
        "times": (row.point().count > 1).then(|| sheet.t1("paper-times", "n", row.point().count)),
        "how": how(row.point()),
        "limit": limit(sheet, leg, row, names),
        "found": found.iter().map(|line| line.iter().map(super::Piece::data).collect::<Vec<_>>()).collect::<Vec<_>>(),
    })
}

/// How to check it; for a measure also the method that its limit belongs to.
fn how(point: &Point) -> Vec<&str> {
    let method = match &point.kind {
        PointKind::Measure(limit) => Some(limit.method.as_str()),
        _ => None,
    };
    point.how.as_deref().into_iter().chain(method).collect()
}

/// What the answer is held against, short enough for a column.
fn limit(sheet: &Sheet<'_>, leg: &Leg, row: &Row<'_>, names: &dyn Names) -> Vec<String> {
    match &row.point().kind {
        PointKind::Measure(limit) => vec![range(sheet, limit)],
        PointKind::Level(mark) => {
            let between = if mark.upper {
                "paper-mark-upper"
            } else {
                "paper-mark"
            };
            let mut said = vec![sheet.t(between)];
            if mark.oil != OilHeat::Any {
                let heat = sheet.words.name(mark.oil);
                said.push(sheet.t1("paper-oil-heat", "oil", heat));
            }
            if mark.pose != leg.pose {
                said.push(sheet.words.pose(mark.pose.as_ref(), names));
            }
            said
        }
        PointKind::Fitting(rule) => {
            let mut said = vec![match rule.until {
                GreaseUntil::Shows => sheet.t("paper-grease-shows"),
                GreaseUntil::Strokes(n) if row.point().count > 1 => {
                    sheet.t1("paper-grease-strokes-each", "n", n)
                }
                GreaseUntil::Strokes(n) => sheet.t1("paper-grease-strokes", "n", n),
            }];
            said.extend(rule.remote.then(|| sheet.t("paper-grease-remote")));
            said
        }
        _ => Vec::new(),
    }
}

/// A measure's limits, both systems side by side.
fn range(sheet: &Sheet<'_>, limit: &MeasureLimit) -> String {
    let (low, high) = (
        limit.min.as_ref().map(|min| sheet.words.quantity(min)),
        limit.max.as_ref().map(|max| sheet.words.quantity(max)),
    );
    match (low, high) {
        (Some(low), Some(high)) => sheet.words.say(
            "limit-between",
            &[("low", low.into()), ("high", high.into())],
        ),
        (Some(low), None) => sheet.t1("limit-at-least", "low", low),
        (None, Some(high)) => sheet.t1("limit-at-most", "high", high),
        (None, None) => sheet.t("unknown"),
    }
}

fn finds(sheet: &Sheet<'_>, finds: &[ItemId], names: &dyn Names) -> Value {
    json!({
        "title": sheet.t("paper-finds"),
        "joints": finds.iter().map(|joint| sheet.words.listed(BookList::Joints, joint, names)).collect::<Vec<_>>(),
        "found": sheet.t("paper-found-fitting"),
    })
}
