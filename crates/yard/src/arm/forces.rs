//! What the tooth can do in a pose: every limit by itself, tipping and sliding, the usable force, lifting.

use super::ArmOfBook;
use super::missing::{NotKnown, Told};
use super::pose::{dug_from, loaded};
use super::record::{
    ColumnRecord, Direction, ForceRecord, LiftRecord, LimitRecord, PartRecord, PoseAsked,
    PoseRecord, StanceForce, StanceLift,
};
use crate::book::StanceName;
use reckon::arm::force::{
    Allowed, Cut, Edge, Footing, Governs, Lift, PinForces, Statics, allowed, hard_part_first,
};
use reckon::arm::pose::Placed;
use reckon::arm::shape::{ArmShape, Joint, Vector};

/// One way of standing in the pose.
pub(super) struct Ground<'a> {
    pub(super) name: StanceName,
    pub(super) footing: Told<Footing<'a>>,
    pub(super) friction: Told<f64>,
}

/// Curl, crowd, push-down and pull-up.
pub(super) fn in_all_directions(
    arm: &ArmOfBook,
    shape: &ArmShape,
    statics: &Told<Statics>,
    grounds: &[Ground<'_>],
    buckling: &[Told<ColumnRecord>; 3],
) -> [Told<ForceRecord>; 4] {
    Direction::ALL.map(|direction| {
        let statics = statics.as_ref().map_err(|why| *why)?;
        let cut = cut(direction, statics).ok_or(NotKnown::NoPose)?;
        Ok(force(
            arm,
            shape,
            statics,
            grounds,
            (direction, cut),
            buckling,
        ))
    })
}

fn cut(direction: Direction, statics: &Statics) -> Option<Cut> {
    match direction {
        Direction::Curl => Cut::curl(statics),
        Direction::Crowd => Cut::crowd(statics),
        Direction::PushDown => Some(Cut::push_down()),
        Direction::PullUp => Some(Cut::pull_up()),
    }
}

fn force(
    arm: &ArmOfBook,
    shape: &ArmShape,
    statics: &Statics,
    grounds: &[Ground<'_>],
    (direction, cut): (Direction, Cut),
    buckling: &[Told<ColumnRecord>; 3],
) -> ForceRecord {
    let per_newton = statics.per_newton(statics.tooth(), cut.direction);
    let rams = Joint::ALL.map(|joint| {
        let which = (joint, cut.working);
        limit(arm, shape, statics, per_newton, which, buckling)
    });
    let arm_alone = least_of_rams(&rams, cut.working);
    let standing: Vec<StanceForce> = grounds
        .iter()
        .map(|ground| on(ground, statics, cut.direction, arm_alone))
        .collect();
    let usable = dug_from(arm).and_then(|at| standing[at].usable);
    let order = order(arm, shape, statics, grounds, cut.direction);
    ForceRecord {
        direction,
        cut: super::record::Cut {
            working: cut.working,
            direction: cut.direction,
        },
        per_newton,
        lever_alone: rams[cut.working.index()].counts,
        share: usable.and_then(|(force, _)| {
            let force = force.newtons().ok_or(NotKnown::NoPose)?;
            Ok(shares(shape, statics, per_newton, cut.working, force))
        }),
        rams,
        arm_alone,
        standing,
        usable,
        order,
    }
}

fn limit(
    arm: &ArmOfBook,
    shape: &ArmShape,
    statics: &Statics,
    per_newton: [f64; 3],
    (joint, works): (Joint, Joint),
    buckling: &[Told<ColumnRecord>; 3],
) -> LimitRecord {
    let (index, ram) = (joint.index(), shape.ram(joint));
    let of = |limits| allowed(statics.hanging[index], per_newton[index], limits);
    let known = arm.weights.and(arm.sizes[index]);
    let buckling = buckling[index].map(|column| column.critical);
    let working = known.and(arm.supplies[index]).map(|()| of(ram.working()));
    let holding = known.and(arm.reliefs[index]).map(|()| of(ram.holding()));
    LimitRecord {
        joint,
        working,
        holding,
        counts: if joint == works { working } else { holding },
        buckles: arm.weights.and(buckling).map(|critical| {
            // Only a thrust that pushes buckles.
            match of((critical, f64::INFINITY)) {
                Allowed::UpTo(force) if force.is_infinite() => Allowed::Unlimited,
                force => force,
            }
        }),
    }
}

fn least_of_rams(rams: &[LimitRecord; 3], works: Joint) -> Told<(Allowed, Governs)> {
    let mut least: Option<(Allowed, Governs)> = None;
    for ram in rams {
        let what = if ram.joint == works {
            Governs::Working(ram.joint)
        } else {
            Governs::Holding(ram.joint)
        };
        let allows = ram.counts?;
        if least.is_none_or(|(before, _)| allows.rank() < before.rank()) {
            least = Some((allows, what));
        }
    }
    least.ok_or(NotKnown::NoPose)
}

fn on(
    ground: &Ground<'_>,
    statics: &Statics,
    direction: Vector,
    arm_alone: Told<(Allowed, Governs)>,
) -> StanceForce {
    let footing = ground.footing.as_ref().map_err(|why| *why);
    let tips = footing.map(
        |footing| match footing.tips_at(statics.placed.tooth, direction) {
            Some((force, edge)) => (Allowed::UpTo(force), edge),
            None => (Allowed::Unlimited, Edge::Whole),
        },
    );
    let slides = ground.friction.and(footing).map(|footing| {
        footing
            .slides_at(direction)
            .map_or(Allowed::Unlimited, Allowed::UpTo)
    });
    let usable = || {
        let mut least = arm_alone?;
        let (tips, edge) = tips?;
        for (allows, what) in [(tips, Governs::Tipping(edge)), (slides?, Governs::Sliding)] {
            if allows.rank() < least.0.rank() {
                least = (allows, what);
            }
        }
        Ok(least)
    };
    StanceForce {
        stance: ground.name,
        tips,
        slides,
        usable: usable(),
    }
}

/// Each ram's thrust at this force, as a share of what it may carry that way.
fn shares(
    shape: &ArmShape,
    statics: &Statics,
    per_newton: [f64; 3],
    works: Joint,
    force: f64,
) -> [f64; 3] {
    Joint::ALL.map(|joint| {
        let (index, ram) = (joint.index(), shape.ram(joint));
        let thrust = statics.hanging[index] + force * per_newton[index];
        let (push, pull) = if joint == works {
            ram.working()
        } else {
            ram.holding()
        };
        if thrust >= 0.0 {
            thrust / push
        } else {
            -thrust / pull
        }
    })
}

/// What each ram could do alone; not known where any number of it is not.
fn order(
    arm: &ArmOfBook,
    shape: &ArmShape,
    statics: &Statics,
    grounds: &[Ground<'_>],
    direction: Vector,
) -> Told<[PartRecord; 3]> {
    arm.weights?;
    for index in 0..3 {
        arm.sizes[index]
            .and(arm.supplies[index])
            .and(arm.reliefs[index])?;
    }
    let ground = &grounds[dug_from(arm)?];
    ground.friction?;
    let footing = ground.footing.as_ref().map_err(|why| *why)?;
    let parts = hard_part_first(shape, statics, direction, Some(footing));
    Ok(parts.map(|part| PartRecord {
        joint: part.working,
        usable: (part.usable.governs.allows, part.usable.governs.what),
        advance: part.advance,
    }))
}

/// What is lifted at the bucket's pin: the boom ram working, the dipper ram holding.
pub(super) fn lift(
    arm: &ArmOfBook,
    shape: &ArmShape,
    statics: &Told<Statics>,
    grounds: &[Ground<'_>],
) -> Told<LiftRecord> {
    if let Err(why) = &arm.lifting {
        return Err(*why);
    }
    let statics = statics.as_ref().map_err(|why| *why)?;
    arm.weights?;
    arm.sizes[0].and(arm.supplies[0])?;
    arm.sizes[1].and(arm.reliefs[1])?;
    let down = Vector::new(0.0, -1.0);
    let per_newton = statics.per_newton(statics.bucket_pin(), down);
    let of = |index: usize, limits| allowed(statics.hanging[index], per_newton[index], limits);
    let boom = of(0, shape.ram(Joint::Boom).working());
    let dipper = of(1, shape.ram(Joint::Dipper).holding());
    let standing = grounds.iter().map(|ground| {
        let tips = ground.footing.as_ref().map_err(|why| *why).map(|footing| {
            footing
                .tips_at(statics.placed.pivots[2], down)
                .map_or(f64::INFINITY, |(load, _)| load)
        });
        StanceLift {
            stance: ground.name,
            tips,
            rated: tips.map(|tips| Lift { boom, dipper, tips }.rated()),
        }
    });
    Ok(LiftRecord {
        boom,
        dipper,
        hydraulic: Lift {
            boom,
            dipper,
            tips: f64::INFINITY,
        }
        .hydraulic(),
        standing: standing.collect(),
    })
}

/// The force in every pin with this force of the ground on the tooth, in newtons, in the arm plane: that of the inner part
/// on the outer.
///
/// # Errors
/// As [`super::pose`]; where a weight is not known, or a ram lies on its dead centre.
pub fn pin_forces(arm: &ArmOfBook, asked: &PoseAsked, tooth_force: Vector) -> Told<PinForces> {
    let shape = loaded(arm, asked)?;
    arm.weights?;
    let placed = Placed::at_lengths(&shape, asked.lengths)?;
    let statics = Statics::hanging(&shape, placed)?;
    Ok(reckon::arm::force::pin_forces(
        &shape,
        &statics,
        tooth_force,
    ))
}

/// Whether a limit of this ram is passed before any force is asked for.
pub(super) fn cannot_hold_itself(record: &PoseRecord, joint: Joint) -> bool {
    record.forces.iter().flatten().any(|force| {
        let limit = &force.rams[joint.index()];
        matches!(limit.counts, Ok(Allowed::NotEvenItself))
    })
}
