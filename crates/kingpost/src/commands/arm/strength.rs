//! The strength over the whole reach, and the strongest pose in each direction.

use super::figures::{Figures, csv, direction_name, governed_by};
use super::missing::{no_answer, provisos};
use super::{Arm, Subject};
use crate::{kit::Kit, rows::rows, said::Said, trouble::Trouble};
use reckon::arm::shape::{Joint, Vector};
use serde_json::{Value as Json, json};
use words::Arg;
use yard::{
    arm::{ArmOfBook, Direction, MapGrid, Strongest, strength_map, strongest},
    code::Coded,
};

/// Ram lengths tried of each ram where nothing else is asked: 250,047 poses for a map.
const STEPS: usize = 63;
/// Side of a square of the map where nothing else is asked, in metres.
const SQUARE: f64 = 0.1;

/// The words for the directions.
pub(super) fn directions() -> [&'static str; 4] {
    Direction::ALL.map(direction_name)
}

fn direction(asked: Option<&str>) -> Direction {
    let named = |direction: &Direction| Some(direction_name(*direction)) == asked;
    Direction::ALL
        .into_iter()
        .find(named)
        .unwrap_or(Direction::Curl)
}

fn steps(asked: &Arm) -> usize {
    asked.steps.map_or(STEPS, usize::from)
}

/// No square so small that the map is longer than the poses tried.
fn square(kit: &Kit, subject: &Subject, written: &str) -> Result<f64, Trouble> {
    let side = super::length(kit, subject, written)?;
    if side >= 0.001 {
        return Ok(side);
    }
    Err(kit.mistake("arm-told-square-too-small", &[("written", written.into())]))
}

/// The way of standing that was asked for, or the one it digs from: its place in the book's order.
fn stance(kit: &Kit, arm: &ArmOfBook, asked: Option<&str>) -> Result<Option<usize>, Trouble> {
    let Some(asked) = asked else {
        return Ok(arm.digs_from);
    };
    let known: Vec<String> = arm
        .stances
        .iter()
        .map(|stance| stance.name.code().to_owned())
        .collect();
    let at = known.iter().position(|name| name == asked);
    at.map(Some).ok_or_else(|| {
        let args = [
            ("written", asked.into()),
            ("stances", kit.words.list(&known).into()),
        ];
        kit.mistake("poses-stance-unknown", &args)
    })
}

fn stance_name(arm: &ArmOfBook, stance: Option<usize>) -> Option<&'static str> {
    stance.map(|at| arm.stances[at].name.code())
}

pub(super) fn map(kit: &Kit, subject: &Subject, asked: &Arm) -> Result<Said, Trouble> {
    let arm = &subject.arm;
    let direction = direction(asked.direction.as_deref());
    let stance = stance(kit, arm, asked.stance.as_deref())?;
    let grid = MapGrid {
        steps: steps(asked),
        square: match &asked.square {
            Some(written) => square(kit, subject, written)?,
            None => SQUARE,
        },
    };
    let cells =
        strength_map(arm, direction, stance, grid).map_err(|why| no_answer(kit, subject, &why))?;
    let squares: Vec<Figures> = cells
        .iter()
        .map(|cell| {
            let mut row = Figures::default();
            row.number("r-from", "m", begins(cell.column, grid.square));
            row.number("z-from", "m", begins(cell.row, grid.square));
            row.number("usable", "N", cell.force);
            row.word("governs", governed_by(cell.governs));
            row.lengths(cell.lengths);
            row
        })
        .collect();
    let json = json!({
        "machine": subject.name,
        "direction": direction_name(direction),
        "stance": stance_name(arm, stance),
        "square": grid.square,
        "rests_on_guess": arm.guesses.any(),
        "units": { "r-from": "m", "z-from": "m", "usable": "N", "boom-length": "m", "dipper-length": "m", "bucket-length": "m", "square": "m" },
        "squares": squares.iter().map(|row| Json::Object(row.json())).collect::<Vec<_>>(),
    });
    Ok(Said::new(csv(&squares), json))
}

pub(super) fn best(kit: &Kit, subject: &Subject, asked: &Arm) -> Result<Said, Trouble> {
    let arm = &subject.arm;
    let stance = stance(kit, arm, asked.stance.as_deref())?;
    let wanted: Vec<Direction> = match asked.direction.as_deref() {
        Some(one) => vec![direction(Some(one))],
        None => Direction::ALL.to_vec(),
    };
    let (mut lines, mut told) = (Vec::new(), Vec::new());
    for direction in wanted {
        let name = direction_name(direction);
        let heading = kit.t(&format!("arm-told-way-{name}"));
        match strongest(arm, direction, stance, steps(asked)) {
            Ok(best) => {
                lines.push((heading, line(kit, &best)));
                told.push(as_json(name, &best));
            }
            Err(yard::arm::NotKnown::NoPose) => {
                lines.push((heading, kit.t("arm-told-no-pose")));
                told.push(json!({ "direction": name, "usable": null }));
            }
            Err(why) => return Err(no_answer(kit, subject, &why)),
        }
    }
    let stands = match stance_name(arm, stance) {
        Some(name) => kit.t1("arm-told-stands-on", "written", name),
        None => kit.t("arm-told-held-down"),
    };
    let mut text = format!(
        "{}{stands}\n{}\n",
        rows(&lines),
        kit.t("arm-told-statics-only")
    );
    text += &provisos(kit, arm);
    let json = json!({
        "machine": subject.name,
        "stance": stance_name(arm, stance),
        "units": { "usable": "N", "tooth-r": "m", "tooth-z": "m", "boom-length": "m", "dipper-length": "m", "bucket-length": "m" },
        "rests_on_guess": arm.guesses.any(),
        "strongest": told,
        "caution": kit.t("arm-told-statics-only"),
    });
    Ok(Said::new(text, json))
}

fn as_json(direction: &str, best: &Strongest) -> Json {
    let mut row = Figures::default();
    row.word("direction", direction);
    row.number("usable", "N", best.force);
    row.word("governs", governed_by(best.governs));
    row.lengths(best.lengths);
    row.point("tooth", best.tooth);
    Json::Object(row.json())
}

fn line(kit: &Kit, best: &Strongest) -> String {
    let [boom, dipper, bucket] = best.lengths.map(|length| format!("{length:.3} m"));
    let Vector { r, z } = best.tooth;
    let governs = kit.words.say(
        &format!("arm-told-governs-{}", best.governs.code()),
        &[(
            "joint",
            best.governs.joint().map_or("none", Joint::code).into(),
        )],
    );
    let args: [(&str, Arg<'_>); 7] = [
        ("force", format!("{:.1} kN", best.force / 1000.0).into()),
        ("reason", governs.into()),
        ("boom", boom.into()),
        ("dipper", dipper.into()),
        ("bucket", bucket.into()),
        ("out", format!("{r:.2} m").into()),
        ("up", height(kit, z).into()),
    ];
    kit.words.say("arm-told-strongest-line", &args)
}

fn height(kit: &Kit, z: f64) -> String {
    let key = if z < 0.0 {
        "arm-told-down"
    } else {
        "arm-told-up"
    };
    kit.t1(key, "length", format!("{:.2} m", z.abs()))
}

/// Where a square begins, to the nanometre: a whole number of sides, without the last digits of the multiplication.
fn begins(count: i32, side: f64) -> f64 {
    (f64::from(count) * side * 1e9).round() / 1e9
}

impl Figures {
    fn lengths(&mut self, lengths: [f64; 3]) {
        for (joint, length) in Joint::ALL.into_iter().zip(lengths) {
            self.number(format!("{}-length", joint.code()), "m", length);
        }
    }
}
