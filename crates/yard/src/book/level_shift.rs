//! How much higher or lower the hydraulic oil stands in another pose than in its mark's: rods that are out hold room that
//! oil must fill.

use super::{About, Book, Moves, PointKind, Pose, Ram};
use crate::id::ItemId;
use quantity::Quantity;
use std::f64::consts::PI;

/// How the level stands in one pose, seen from the pose its mark belongs to.
#[derive(Clone, Debug, PartialEq)]
pub struct LevelShift {
    /// The pose.
    pub pose: ItemId,
    /// How much higher it stands there, in metres; lower where negative.
    pub higher: f64,
}

/// Fills in the shifts of every hydraulic mark. Only those poses are listed of which both the book's tank and the state of
/// every ram are known, here and in the mark's pose: the others cannot be told.
pub(super) fn fill_in(book: &mut Book) {
    let Some(area) = tank_area(book) else {
        return;
    };
    let rams: Vec<&Ram> = book
        .rams
        .iter()
        .filter(|ram| ram.work.moves != Some(Moves::Swing))
        .collect();
    // Oil behind rods for each pose; the rams of a swing leave it as it is, for one comes out as the other goes in.
    let out: Vec<(ItemId, Option<f64>)> = book
        .poses
        .iter()
        .map(|pose| (pose.id.clone(), volume_out(pose, &rams)))
        .collect();
    let of = |pose: &ItemId| out.iter().find(|(id, _)| id == pose)?.1;
    for point in &mut book.points {
        let PointKind::Level(mark) = &mut point.kind else {
            continue;
        };
        let mark_out = mark.pose.as_ref().and_then(of);
        let (Some(mark_out), About::HydraulicOil) = (mark_out, point.about) else {
            continue;
        };
        let others = out
            .iter()
            .filter(|(pose, _)| Some(pose) != mark.pose.as_ref());
        mark.elsewhere = others
            .filter_map(|(pose, out)| {
                Some(LevelShift {
                    pose: pose.clone(),
                    higher: (mark_out - (*out)?) / area,
                })
            })
            .collect();
    }
}

fn tank_area(book: &Book) -> Option<f64> {
    let tank = book.arm.oil_tank.as_ref()?;
    let length = |length: &Option<Quantity>| length.as_ref().map(Quantity::si_f64);
    match &tank.area {
        Some(area) => Some(area.si_f64()),
        None => Some(length(&tank.length)? * length(&tank.width)?),
    }
}

/// The volume of all rods that are out in this pose; nothing where one of them is not said or not measured, or where there
/// is no ram at all.
fn volume_out(pose: &Pose, rams: &[&Ram]) -> Option<f64> {
    if rams.is_empty() {
        return None;
    }
    let each = rams.iter().map(|ram| {
        if pose.rods_in.contains(&ram.id) {
            return Some(0.0);
        }
        let (rod, closed, open) = (ram.rod.as_ref()?, ram.closed.as_ref()?, ram.open.as_ref()?);
        let stroke = (open.si() - closed.si()).to_f64();
        let area = PI / 4.0 * rod.si_f64() * rod.si_f64();
        let volume = f64::from(ram.count) * area * stroke;
        pose.rods_out.contains(&ram.id).then_some(volume)
    });
    each.sum()
}
