//! Every figure of the poses of a sheet, a row each.

use super::Subject;
use super::asked::{Asked, Of, asked};
use super::figures::{Figures, csv, of_pose};
use super::missing::{beyond_stroke, impossible, no_answer};
use super::slip;
use crate::{files::read_text, kit::Kit, said::Said, trouble::Trouble};
use reckon::arm::shape::{Joint, Stop};
use serde_json::{Map, Value as Json, json};
use std::path::Path;
use yard::{
    arm::{ArmOfBook, PoseRecord, pose, thrusts_under},
    code::Coded,
};

pub(super) fn run(
    kit: &Kit,
    subject: &Subject,
    file: &Path,
    draws: Option<usize>,
) -> Result<Said, Trouble> {
    let text = read_text(kit, file)?;
    let arm = &subject.arm;
    let shape = match &arm.shape {
        Ok(shape) => shape,
        Err(why) => return Err(no_answer(kit, subject, why)),
    };
    let of = Of {
        closed: Joint::ALL.map(|joint| shape.ram(joint).closed),
        stances: arm
            .stances
            .iter()
            .map(|stance| stance.name.code())
            .collect(),
        other_rams: other_rams(arm),
        habits: &subject.habits,
    };
    let poses = asked(&text, &of)
        .map_err(|slips| slip::trouble(kit, &file.display().to_string(), slips))?;
    let standing: Vec<ArmOfBook> = (0..arm.stances.len())
        .map(|stance| ArmOfBook {
            digs_from: Some(stance),
            ..arm.clone()
        })
        .collect();
    let rows: Vec<Row> = poses
        .iter()
        .map(|asked| {
            Row::of(
                kit,
                asked.stance.map_or(arm, |stance| &standing[stance]),
                asked,
                draws,
            )
        })
        .collect();
    let json = json!({
        "machine": subject.name,
        "units": units(&rows),
        "poses": rows.iter().map(|row| Json::Object(row.json())).collect::<Vec<_>>(),
    });
    let figures: Vec<Figures> = rows.into_iter().map(|row| row.figures).collect();
    Ok(Said::new(csv(&figures), json))
}

fn other_rams(arm: &ArmOfBook) -> Vec<String> {
    arm.tank.as_ref().map_or_else(
        |_| Vec::new(),
        |tank| tank.others.iter().map(|ram| ram.id.clone()).collect(),
    )
}

/// A row of the answer.
struct Row {
    figures: Figures,
}

impl Row {
    /// The figures of a pose; of an impossible one what was asked, and why it is none.
    fn of(kit: &Kit, arm: &ArmOfBook, asked: &Asked, draws: Option<usize>) -> Row {
        let mut figures = Figures::default();
        figures.number("line", "", asked.line as f64);
        if let Some(name) = &asked.name {
            figures.word("pose", name);
        }
        match possible(kit, arm, asked) {
            Ok(record) => {
                figures.word("impossible", "");
                figures.0.extend(of_pose(&record, arm).0);
                if let Some(draws) = draws {
                    figures.likely(arm, &asked.pose, draws);
                }
                if let Some(force) = asked.force {
                    figures.under_force(force, &thrusts_under(arm, &asked.pose, force));
                }
            }
            Err(why) => {
                figures.word("impossible", why);
                for joint in Joint::ALL {
                    let length = asked.pose.lengths[joint.index()];
                    figures.number(format!("{}-length", joint.code()), "m", length);
                }
            }
        }
        Row { figures }
    }

    fn json(&self) -> Map<String, Json> {
        self.figures.json()
    }
}

/// How far it swings, where the pose is swung further.
fn beyond_swing(arm: &ArmOfBook, asked: &Asked) -> Option<f64> {
    let limit = arm.swing.as_ref().ok()?.limit.as_ref().ok()?;
    (asked.pose.swing.abs() > limit + 1e-9).then_some(*limit)
}

/// The record of a pose that the arm can take, or why it cannot.
fn possible(kit: &Kit, arm: &ArmOfBook, asked: &Asked) -> Result<PoseRecord, String> {
    if let Some(limit) = beyond_swing(arm, asked) {
        let degrees = format!("{:.1}°", limit.to_degrees());
        return Err(kit.t1("poses-impossible-swing", "most", degrees));
    }
    let record = pose(arm, &asked.pose).map_err(|why| impossible(kit, &why))?;
    let beyond = record
        .rams
        .iter()
        .find(|ram| matches!(ram.stop, Stop::TooShort(_) | Stop::TooLong(_)));
    match (beyond, &arm.shape) {
        (Some(ram), Ok(shape)) => Err(beyond_stroke(kit, shape, ram.joint, ram.length)),
        _ => Ok(record),
    }
}

/// The unit of every figure that has one.
fn units(rows: &[Row]) -> Json {
    let with_unit = rows
        .iter()
        .flat_map(|row| &row.figures.0)
        .filter(|figure| !figure.unit.is_empty());
    Json::Object(
        with_unit
            .map(|figure| (figure.name.clone(), json!(figure.unit)))
            .collect(),
    )
}
