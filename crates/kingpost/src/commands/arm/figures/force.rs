//! What the rams carry, what the tooth can do, what is lifted.

use super::{Figures, edge, governed_by};
use reckon::arm::force::LiftLimit;
use reckon::arm::shape::{Joint, Vector};
use yard::{
    arm::{
        ArmOfBook, Direction, ForceRecord, LimitRecord, NotKnown, PoseRecord, StanceForce, Told,
    },
    code::Coded,
};

pub(super) fn add(figures: &mut Figures, record: &PoseRecord, arm: &ArmOfBook) {
    hanging(figures, record);
    for (direction, force) in Direction::ALL.into_iter().zip(&record.forces) {
        let name = direction_name(direction);
        match force {
            Ok(force) => tooth(figures, name, force, arm),
            Err(why) => figures.unknown(format!("{name}-usable"), "N", why),
        }
    }
    lift(figures, record, arm);
}

/// The word for a direction in columns and on the command line.
pub(in super::super) fn direction_name(direction: Direction) -> &'static str {
    match direction {
        Direction::Curl => "curl",
        Direction::Crowd => "crowd",
        Direction::PushDown => "push-down",
        Direction::PullUp => "pull-up",
    }
}

impl Figures {
    /// The thrust of each ram under a force of the ground on the tooth that was asked for.
    pub(in super::super) fn under_force(&mut self, force: Vector, thrusts: &Told<[f64; 3]>) {
        self.number("tooth-force-out", "N", force.r);
        self.number("tooth-force-up", "N", force.z);
        for joint in Joint::ALL {
            let thrust = thrusts.map(|thrusts| thrusts[joint.index()]);
            self.told(format!("{}-thrust", joint.code()), "N", &thrust);
        }
    }
}

fn hanging(figures: &mut Figures, record: &PoseRecord) {
    for joint in Joint::ALL {
        let name = joint.code();
        let (thrust, pressure, side) = (
            format!("{name}-hanging-thrust"),
            format!("{name}-hanging-pressure"),
            format!("{name}-hanging-side"),
        );
        match &record.hanging {
            Ok(rams) => {
                let ram = &rams[joint.index()];
                figures.number(thrust, "N", ram.thrust);
                figures.shut_in(pressure, side, &ram.shut_in);
            }
            Err(why) => {
                figures.unknown(thrust, "N", why);
                figures.unknown(pressure, "Pa", why);
                figures.unknown(side, "", why);
            }
        }
    }
}

fn tooth(figures: &mut Figures, name: &str, force: &ForceRecord, arm: &ArmOfBook) {
    figures.number(format!("{name}-direction-r"), "", force.cut.direction.r);
    figures.number(format!("{name}-direction-z"), "", force.cut.direction.z);
    for (joint, each) in Joint::ALL.into_iter().zip(force.per_newton) {
        figures.number(format!("{name}-per-newton-{}", joint.code()), "", each);
    }
    for LimitRecord {
        joint,
        working,
        holding,
        counts,
    } in &force.rams
    {
        let joint = joint.code();
        figures.allowed(format!("{name}-{joint}-working"), working);
        figures.allowed(format!("{name}-{joint}-holding"), holding);
        figures.allowed(format!("{name}-{joint}-counts"), counts);
    }
    figures.governed(
        format!("{name}-arm-alone"),
        format!("{name}-arm-alone-governs"),
        &force.arm_alone,
    );
    for standing in &force.standing {
        on_stance(figures, name, standing);
    }
    figures.governed(
        format!("{name}-usable"),
        format!("{name}-governs"),
        &force.usable,
    );
    let stance = arm
        .digs_from
        .map_or("none", |at| arm.stances[at].name.code());
    figures.word(format!("{name}-stance"), stance);
    for joint in Joint::ALL {
        let share = force
            .share
            .as_ref()
            .map(|share| share[joint.index()])
            .map_err(NotKnown::clone);
        figures.told(format!("{name}-share-{}", joint.code()), "", &share);
    }
    figures.allowed(format!("{name}-lever-alone"), &force.lever_alone);
    order(figures, name, force);
}

fn on_stance(figures: &mut Figures, name: &str, standing: &StanceForce) {
    let stance = standing.stance.code();
    let (tips, over) = (
        format!("{name}-tips-{stance}"),
        format!("{name}-tips-edge-{stance}"),
    );
    match &standing.tips {
        Ok((force, at)) => {
            figures.allowed(tips, &Ok(*force));
            figures.word(over, edge(*at));
        }
        Err(why) => {
            figures.unknown(tips, "N", why);
            figures.unknown(over, "", why);
        }
    }
    figures.allowed(format!("{name}-slides-{stance}"), &standing.slides);
    figures.governed(
        format!("{name}-usable-{stance}"),
        format!("{name}-governs-{stance}"),
        &standing.usable,
    );
}

/// Which ram should do the hard part: best first.
fn order(figures: &mut Figures, name: &str, force: &ForceRecord) {
    let column = |what: &str, joint: Joint| format!("{name}-{what}-{}", joint.code());
    let all = match &force.order {
        Ok(parts) => parts,
        Err(why) => return figures.unknown(format!("{name}-order"), "", why),
    };
    let order: Vec<&str> = all.iter().map(|part| part.joint.code()).collect();
    figures.word(format!("{name}-order"), order.join(" "));
    for joint in Joint::ALL {
        for part in all.iter().filter(|part| part.joint == joint) {
            let (force, governs) = part.usable;
            figures.allowed(column("alone", joint), &Ok(force));
            figures.word(column("alone-governs", joint), governed_by(governs));
            figures.number(column("advance", joint), "", part.advance);
        }
    }
}

fn lift(figures: &mut Figures, record: &PoseRecord, arm: &ArmOfBook) {
    let lift = match &record.lift {
        Ok(lift) => lift,
        Err(why) => {
            figures.unknown("lift-hydraulic", "N", why);
            for stance in &arm.stances {
                figures.unknown(format!("lift-rated-{}", stance.name.code()), "N", why);
            }
            return;
        }
    };
    figures.allowed("lift-boom", &Ok(lift.boom));
    figures.allowed("lift-dipper", &Ok(lift.dipper));
    figures.number("lift-hydraulic", "N", lift.hydraulic);
    for standing in &lift.standing {
        let stance = standing.stance.code();
        figures.told(format!("lift-tips-{stance}"), "N", &standing.tips);
        let rated: Told<f64> = standing
            .rated
            .as_ref()
            .map(|(load, _)| *load)
            .map_err(NotKnown::clone);
        figures.told(format!("lift-rated-{stance}"), "N", &rated);
        if let Ok((_, limit)) = standing.rated {
            let limit = match limit {
                LiftLimit::Hydraulic => "hydraulic",
                LiftLimit::Tipping => "tipping",
            };
            figures.word(format!("lift-limit-{stance}"), limit);
        }
    }
}
