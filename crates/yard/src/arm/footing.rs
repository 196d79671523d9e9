//! How the machine stands in a pose, on each way of standing.

use super::ArmOfBook;
use super::forces::Ground;
use super::missing::{NotKnown, Told};
use super::record::{FootingFigures, FootingRecord};
use crate::book::StanceName;
use reckon::arm::force::{Edge, Footing, LoadPoint, Wrench};
use reckon::arm::pose::Placed;
use reckon::arm::shape::Vector;

/// Every way of standing, in the order of the book.
pub(super) fn all(arm: &ArmOfBook, placed: &Placed, grounds: &[Ground<'_>]) -> Vec<FootingRecord> {
    let each = grounds.iter().enumerate();
    each.map(|(at, ground)| FootingRecord {
        stance: ground.name,
        figures: ground
            .footing
            .as_ref()
            .map_err(|why| *why)
            .and_then(|footing| figures(arm, placed, at, footing, ground.friction)),
    })
    .collect()
}

fn figures(
    arm: &ArmOfBook,
    placed: &Placed,
    at: usize,
    footing: &Footing<'_>,
    friction: Told<f64>,
) -> Told<FootingFigures> {
    let of_arm = &arm.stances[at];
    let stance = of_arm.stance.as_ref().map_err(|why| *why)?;
    let axis = arm.axis?;
    let in_machine = |[x, y]: [f64; 2]| [x + axis, y];
    let load_point = footing.load_point().ok_or(NotKnown::NoPose)?;
    let edge_moments = footing.edge_moments();
    let slopes = footing.slopes_to_tip();
    let weakest = (0..slopes.len())
        .min_by(|one, other| slopes[*one].total_cmp(&slopes[*other]))
        .ok_or(NotKnown::NoPose)?;
    let stands = edge_moments.iter().all(|moment| *moment >= 0.0);
    let reactions = if stands {
        footing
            .reactions(0.0, &Wrench::default())
            .ok_or(NotKnown::Tips)
    } else {
        Err(NotKnown::Tips)
    };
    let pad_pressure = of_arm.pad_area.and_then(|area| {
        let reactions = reactions.as_ref().map_err(|why| *why)?;
        let pads = pads(of_arm.name, &stance.contacts, arm.heading?);
        let each = reactions.iter().zip(pads);
        Ok(each
            .map(|(reaction, pad)| pad.then_some(reaction / area))
            .collect())
    });
    let down = Vector::new(0.0, -1.0);
    Ok(FootingFigures {
        corners: stance
            .contacts
            .iter()
            .map(|corner| in_machine(*corner))
            .collect(),
        load_point: LoadPoint {
            place: in_machine(load_point.place),
            ..load_point
        },
        edge_moments,
        stands,
        slopes,
        weakest,
        reactions,
        pad_pressure,
        tips_at_pin: footing
            .tips_at(placed.pivots[2], down)
            .unwrap_or((f64::INFINITY, Edge::Whole)),
        drags_at: friction.map(|friction| friction * load_point.load),
    })
}

/// Which corners stand on a pad: on feet the two on the arm's side, else all of them.
fn pads(stance: StanceName, contacts: &[[f64; 2]], heading: f64) -> Vec<bool> {
    let (sine, cosine) = {
        let unit = Vector::at_angle(heading);
        (unit.z, unit.r)
    };
    let towards_arm = |[x, y]: [f64; 2]| x * cosine + y * sine;
    let mut order: Vec<usize> = (0..contacts.len()).collect();
    order.sort_by(|one, other| {
        towards_arm(contacts[*other]).total_cmp(&towards_arm(contacts[*one]))
    });
    let feet = matches!(stance, StanceName::Feet | StanceName::LoaderAndFeet);
    (0..contacts.len())
        .map(|corner| !feet || order[..2].contains(&corner))
        .collect()
}
