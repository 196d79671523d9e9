//! The greasing chart for the wall: every fitting, by pose, with how much and what to do when it refuses.

use crate::{
    PaperError, Sheet, picture, typeset,
    walkround::{Line, Piece, Row, rows},
};
use quantity::Quantity;
use reckon::{Figure, FigureInput, Origin, upkeep::grease_round_mass};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use words::{BookList, BookNames, Names};
use yard::{
    book::{GreaseUntil, GreasingRule, Point, PointKind, Safeguard},
    id::ItemId,
    upkeep::fittings,
    walkround::{Because, DuePoint, numbers},
};

/// Usual cautions at the foot of every page.
const CAUTIONS: [&str; 2] = ["caution-local-rules", "caution-pressure"];

/// The chart of all fittings, as PDF, in large type without filled areas, so that it can be covered and wiped clean.
///
/// `gun_grams`: what a stroke of the yard's gun gives, weighed; with it, strokes are also said in grams.
/// Fails only where the typesetter does, or the address is too long.
pub fn greasing_chart(sheet: &Sheet<'_>, gun_grams: Option<f64>) -> Result<Vec<u8>, PaperError> {
    let mut pictures = BTreeMap::new();
    let shown: BTreeSet<_> = sheet
        .book
        .points
        .iter()
        .filter(|p| rule(p).is_some())
        .map(|p| p.id.clone())
        .collect();
    let title = sheet.t1("paper-chart-title", "machine", &sheet.book.machine.name);
    let people = BTreeMap::new();
    let names = BookNames {
        book: Some(sheet.book),
        people: &people,
        now: sheet.now,
        zone: sheet.zone,
    };
    let count = fittings(sheet.book);
    let data = json!({
        "frame": sheet.frame(&title, &CAUTIONS),
        "code": sheet.code(sheet.address, "paper-qr-machine", &mut pictures)?,
        "drawings": picture::sides(sheet, &shown, false, &mut pictures),
        "about": about(sheet, count),
        "count": sheet.t1("paper-of-count", "of", count),
        "none": (count == 0).then(|| sheet.t("paper-chart-none")),
        "first": sheet.words.cautions(&["caution-engine-off", "caution-held"], sheet.book),
        "how": sheet.t("paper-chart-how"),
        "refused": refused_in_general(sheet),
        "adjuster": adjuster(sheet),
        "columns": (["number", "fitting", "how-much", "done"].map(|column| sheet.t(&format!("paper-column-{column}")))),
        "groups": groups(sheet).iter().map(|(pose, points)| group(sheet, pose.as_ref(), points, gun_grams, &names)).collect::<Vec<_>>(),
    });
    typeset::pdf(&typeset::Document {
        markup: include_str!("greasing_chart.typ"),
        data,
        pictures,
    })
}

fn rule(point: &Point) -> Option<&GreasingRule> {
    match &point.kind {
        PointKind::Fitting(rule) => Some(rule),
        _ => None,
    }
}

fn about(sheet: &Sheet<'_>, count: u32) -> Vec<String> {
    // Of a machine without fittings the chart says so where they would stand.
    let fittings = (count > 0).then(|| sheet.t1("paper-fittings", "n", count));
    let mut said: Vec<String> = fittings.into_iter().collect();
    said.extend(sheet.book.greasing.when.map(|when| sheet.words.name(when)));
    said
}

/// What a refusal means where the fitting says nothing of its own.
fn refused_in_general(sheet: &Sheet<'_>) -> String {
    match &sheet.book.greasing.refused_runs {
        Some(hours) => sheet.t1("paper-refused-runs", "value", hours.text()),
        None => sheet.t("paper-refused-ask"),
    }
}

/// That a track adjuster is no greasing point; left out where the machine is known to stand on anything but tracks.
fn adjuster(sheet: &Sheet<'_>) -> String {
    let gear = sheet.book.ground_gear.as_ref();
    if gear.is_some_and(|gear| !gear.tracks) {
        String::new()
    } else {
        sheet.t("paper-chart-adjuster")
    }
}

/// Fittings in walking order, by the pose they are reached in; poses in the book's order, "as found" first.
fn groups(sheet: &Sheet<'_>) -> Vec<(Option<ItemId>, Vec<DuePoint>)> {
    let numbers = numbers(sheet.book);
    let poses =
        std::iter::once(None).chain(sheet.book.poses.iter().map(|pose| Some(pose.id.clone())));
    let group = |pose: Option<ItemId>| {
        let own = sheet
            .book
            .points
            .iter()
            .filter(|p| rule(p).is_some() && p.pose == pose);
        let mut due: Vec<DuePoint> = own
            .filter_map(|p| {
                let number = *numbers.get(&p.id)?;
                Some(DuePoint {
                    point: p.id.clone(),
                    number,
                    because: Because::Whole,
                    one_tap: false,
                })
            })
            .collect();
        due.sort_by_key(|due| due.number);
        (pose, twins_together(sheet, due))
    };
    poses
        .map(group)
        .filter(|(_, points)| !points.is_empty())
        .collect()
}

/// On the wall a fitting's twin stands beside it, though on the lap it comes later.
fn twins_together(sheet: &Sheet<'_>, mut due: Vec<DuePoint>) -> Vec<DuePoint> {
    let mut sorted = Vec::new();
    while !due.is_empty() {
        let first = due.remove(0);
        let twin = sheet
            .book
            .points
            .iter()
            .find(|p| p.id == first.point)
            .and_then(|p| p.mirror.clone());
        let place = due.iter().position(|d| Some(&d.point) == twin.as_ref());
        sorted.push(first);
        sorted.extend(place.map(|place| due.remove(place)));
    }
    sorted
}

fn group(
    sheet: &Sheet<'_>,
    pose: Option<&ItemId>,
    due: &[DuePoint],
    gun: Option<f64>,
    names: &dyn Names,
) -> Value {
    let of_points = due
        .iter()
        .filter_map(|due| sheet.book.points.iter().find(|p| p.id == due.point))
        .flat_map(|p| p.guards.clone());
    let of_pose = sheet
        .book
        .poses
        .iter()
        .filter(|known| Some(&known.id) == pose)
        .flat_map(|pose| pose.guards.clone());
    let guards: BTreeSet<Safeguard> = of_points.chain(of_pose).collect();
    json!({
        "pose": sheet.words.pose(pose, names),
        "guards": guards.into_iter().map(|guard| sheet.words.safeguard(guard)).collect::<Vec<_>>(),
        "rows": rows(sheet.book, due).iter().filter_map(|row| row_data(sheet, row, gun, names)).collect::<Vec<_>>(),
    })
}

fn row_data(
    sheet: &Sheet<'_>,
    row: &Row<'_>,
    gun: Option<f64>,
    names: &dyn Names,
) -> Option<Value> {
    let point = row.point();
    let rule = rule(point)?;
    let (numbers, joints) = match row {
        Row::One(point, number) => (vec![*number], vec![*point]),
        Row::Both { left, right, .. } => (vec![left.1, right.1], vec![left.0, right.0]),
    };
    let joints: Vec<String> = joints
        .into_iter()
        .filter_map(|p| self::rule(p)?.joint.as_ref())
        .map(|joint| sheet.words.listed(BookList::Joints, joint, names))
        .collect();
    Some(json!({
        "numbers": numbers,
        "what": row.what(),
        "joint": (joints.len() == 1 && rule.remote).then(|| joints.concat()),
        "times": (point.count > 1).then(|| sheet.t1("paper-times", "n", point.count)),
        "until": until(sheet, rule, point.count, gun),
        "remote": rule.remote.then(|| sheet.t("paper-grease-remote")),
        "refused": own_refusal(sheet, rule),
        "found": boxes(sheet, row).iter().map(|line| line.iter().map(Piece::data).collect::<Vec<_>>()).collect::<Vec<_>>(),
    }))
}

/// When to stop pumping; with the gun's dose, grams beside the strokes.
fn until(sheet: &Sheet<'_>, rule: &GreasingRule, count: u32, gun: Option<f64>) -> String {
    match rule.until {
        GreaseUntil::Shows => sheet.t("paper-grease-shows"),
        GreaseUntil::Strokes(n) => match gun.and_then(|gun| grams(n, gun)) {
            Some(grams) => sheet.words.say(
                "paper-grease-strokes-grams",
                &[("n", n.into()), ("value", grams.into())],
            ),
            None if count > 1 => sheet.t1("paper-grease-strokes-each", "n", n),
            None => sheet.t1("paper-grease-strokes", "n", n),
        },
    }
}

/// Grams in so many strokes, to a tenth; by the reckoner's leaf.
fn grams(strokes: u32, gun: f64) -> Option<String> {
    let inputs = vec![
        FigureInput::new("fittings", 1_u32, Origin::Given),
        FigureInput::new("strokes", f64::from(strokes), Origin::Given),
        FigureInput::new("grams_per_stroke", gun, Origin::Setting),
    ];
    let figure = Figure::reckon(&grease_round_mass::LEAF, inputs).ok()?;
    figure.number("mass").map(|mass| format!("{mass:.1}"))
}

fn own_refusal(sheet: &Sheet<'_>, rule: &GreasingRule) -> Option<String> {
    let own: &Quantity = rule.refused_runs.as_ref()?;
    let general = sheet.book.greasing.refused_runs.as_ref();
    let differs = general.is_none_or(|general| !general.same_value(own));
    differs.then(|| sheet.t1("paper-refused-runs-own", "value", own.text()))
}

/// A box for each fitting of the row.
fn boxes(sheet: &Sheet<'_>, row: &Row<'_>) -> Vec<Line> {
    let each = |count: u32| (0..count.min(12)).map(|_| Piece::Tick(String::new()));
    match row {
        Row::One(point, _) => vec![each(point.count).collect()],
        Row::Both { left, right, .. } => {
            let side = |key: &str, count| {
                std::iter::once(Piece::Strong(sheet.t(key)))
                    .chain(each(count))
                    .collect::<Line>()
            };
            let (left, right) = (
                side("paper-left", left.0.count),
                side("paper-right", right.0.count),
            );
            // With one fitting a side they stand side by side; with more, each side has a line, so that no line breaks within a side.
            if left.len() + right.len() <= 4 {
                vec![[left, right].concat()]
            } else {
                vec![left, right]
            }
        }
    }
}
