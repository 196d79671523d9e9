//! The swing in a pose, and the oil in its tank.

use super::ArmOfBook;
use super::missing::{Missing, MissingCode, NotKnown, Told};
use super::of_book::SwingOil;
use super::record::{PoseAsked, SwingRecord, TankRecord};
use reckon::arm::force::Stance;
use reckon::arm::pose::Placed;
use reckon::arm::rest::{TankRams, tank_level};
use reckon::arm::shape::{ArmShape, Joint, Weight};
use reckon::arm::swing::{Inertias, energy, swing_inertia};

/// The swing at this angle, in radians.
pub(super) fn swing(
    arm: &ArmOfBook,
    shape: &ArmShape,
    placed: &Placed,
    angle: f64,
) -> Told<SwingRecord> {
    let gear = arm.swing.as_ref().map_err(|why| *why)?;
    let unsound = NotKnown::Unsound(Missing::of(MissingCode::SwingFramePin, ""));
    let at = gear.rams.at(angle).ok_or(unsound)?;
    let torque = gear.supply.map(|supply| supply * at.towards_left);
    let speed = gear.flow.and_then(|flow| {
        let speed = flow / at.towards_left;
        if speed.is_finite() && speed > 0.0 {
            Ok(speed)
        } else {
            Err(unsound)
        }
    });
    let inertia = inertia(arm, shape, placed);
    let side_force = torque.map(|torque| (torque / placed.tooth.r).abs());
    let moving = inertia.and_then(|inertia| Ok(energy(inertia, speed?)));
    let stopped = moving.and_then(|energy| {
        let (relief, limit) = (gear.relief?, gear.limit?);
        let over = gear.rams.stop_angle(energy, relief, angle, limit);
        let over = over.filter(|over| *over > 0.0).ok_or(NotKnown::NoPose)?;
        Ok((over, (energy / over / placed.tooth.r).abs()))
    });
    Ok(SwingRecord {
        angle,
        lengths: at.lengths,
        levers: at.levers,
        towards_left: torque,
        towards_right: gear.supply.map(|supply| supply * at.towards_right),
        holds: gear.relief.map(|relief| relief * at.towards_left),
        side_force,
        dead_centre: gear.rams.dead_centre(),
        oil_per_radian: at.towards_left,
        speed,
        inertia_at_least: inertia,
        energy_at_least: moving,
        stopped_by_relief: stopped,
        sections: side_force.map(|force| {
            let each = arm.sections.iter();
            each.map(|one| one.section.under_side_force(placed, force))
                .collect()
        }),
    })
}

/// Each part as a point at its centre: what a part has about its own centre is in no book.
fn inertia(arm: &ArmOfBook, shape: &ArmShape, placed: &Placed) -> Told<f64> {
    arm.weights?;
    let post: Weight = post(arm)?;
    let points = Inertias {
        post: (post, 0.0),
        ..Inertias::default()
    };
    Ok(swing_inertia(shape, placed, &points))
}

fn post(arm: &ArmOfBook) -> Told<Weight> {
    let any = arm.stances.first();
    let stance: Told<&Stance> = any.map_or_else(
        || Err(super::standing::no_support()),
        |of_arm| of_arm.stance.as_ref().map_err(|why| *why),
    );
    Ok(stance?.post)
}

/// The oil in its tank in this pose.
pub(super) fn tank(arm: &ArmOfBook, shape: &ArmShape, asked: &PoseAsked) -> Told<TankRecord> {
    let tank = arm.tank.as_ref().map_err(|why| *why)?;
    let sizes = arm.sizes[0].and(arm.sizes[1]).and(arm.sizes[2]);
    let of_arm =
        || Joint::ALL.map(|joint| TankRams::of(shape.ram(joint), asked.lengths[joint.index()]));
    let others = tank.others.iter().map(|other| {
        let share = asked.others_out.get(&other.id).copied().unwrap_or(0.0);
        TankRams {
            cap: other.cap,
            rod: other.rod,
            stroke: other.stroke,
            out: share * other.stroke,
        }
    });
    let others: Vec<TankRams> = others.collect();
    let level = sizes.and_then(|()| {
        let oil = tank.tank?;
        if !tank.unmeasured.is_empty() {
            return Err(NotKnown::Missing(Missing::of(
                MissingCode::RamBore,
                "other",
            )));
        }
        let swing = match tank.swing? {
            Some(oil) => swing_rams(&oil, asked.swing)?.to_vec(),
            None => Vec::new(),
        };
        let rams: Vec<TankRams> = of_arm()
            .into_iter()
            .chain(others.iter().copied())
            .chain(swing)
            .collect();
        let temperature = asked.temperature.unwrap_or(oil.reference);
        let level = tank_level(&oil, &rams, temperature);
        // More oil in rams and lines than the book says there is: its numbers contradict each other.
        if level < 0.0 {
            return Err(NotKnown::Unsound(Missing::of(MissingCode::TankOil, "")));
        }
        Ok(level)
    });
    let taken_as_in = tank
        .others
        .iter()
        .filter(|other| !asked.others_out.contains_key(&other.id));
    Ok(TankRecord {
        level,
        volume: level.map(|level| level * tank.area),
        below_all_in: sizes.map(|()| {
            let rods: f64 = of_arm().iter().map(|ram| ram.rod * ram.out).sum();
            rods / tank.area
        }),
        taken_as_in: taken_as_in.map(|other| other.id.clone()).collect(),
        unmeasured: tank.unmeasured.clone(),
    })
}

/// Both rams of the swing at this angle, in radians.
fn swing_rams(oil: &SwingOil, angle: f64) -> Told<[TankRams; 2]> {
    let unsound = NotKnown::Unsound(Missing::of(MissingCode::SwingFramePin, ""));
    let at = oil.rams.at(angle).ok_or(unsound)?;
    Ok(at.lengths.map(|length| TankRams {
        cap: oil.cap,
        rod: oil.rod,
        stroke: oil.stroke,
        out: length - oil.closed,
    }))
}
