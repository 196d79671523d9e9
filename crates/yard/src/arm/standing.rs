//! What the machine stands on, in the frame of the mechanics: origin at the foot of the swing axis.

use super::missing::{MissingCode, NotKnown, Told, missing};
use super::of_book::StanceOfArm;
use super::rams::placed_mass;
use crate::book::{Book, Points, StanceName, Support, SwingKind};
use crate::code::Coded;
use reckon::arm::force::Stance;
use reckon::arm::shape::{Vector, Weight};
use std::f64::consts::PI;

/// Every way of standing of the book, in its order.
pub(super) fn stances(book: &Book) -> Vec<StanceOfArm> {
    let supports = book.arm.supports.iter();
    supports
        .map(|support| {
            let friction = friction(book);
            StanceOfArm {
                name: support.stance,
                stance: stance(book, support, friction),
                friction,
                pad_area: support.pad_area.as_ref().map_or_else(
                    || missing(MissingCode::PadArea, support.stance.code()),
                    |area| Ok(area.si_f64()),
                ),
            }
        })
        .collect()
}

/// Which it digs from: the way of standing that holds it best of those there are.
pub(super) fn digs_from(stances: &[StanceOfArm]) -> Option<usize> {
    let order = [
        StanceName::LoaderAndFeet,
        StanceName::Feet,
        StanceName::Blade,
        StanceName::Tracks,
        StanceName::Wheels,
    ];
    order
        .iter()
        .find_map(|name| stances.iter().position(|stance| stance.name == *name))
}

/// The angle of the arm's plane from straight ahead when it is not swung.
pub(super) fn heading(book: &Book) -> Told<f64> {
    match book.arm.manner.as_ref().and_then(|manner| manner.points) {
        Some(Points::Backwards) => Ok(PI),
        Some(Points::Forwards) => Ok(0.0),
        None => missing(MissingCode::PointsWhere, ""),
    }
}

/// Where the swing axis stands, along x of the machine frame. A machine that slews has it in the middle where the book
/// does not say otherwise.
pub(super) fn axis(book: &Book) -> Told<f64> {
    let heading = heading(book)?;
    let manner = book.arm.manner.as_ref();
    let from_middle = manner.and_then(|manner| manner.axis_from_middle.as_ref());
    let slews = book
        .arm
        .swing
        .as_ref()
        .is_some_and(|swing| swing.kind == SwingKind::Slew);
    match from_middle {
        Some(distance) if heading == 0.0 => Ok(distance.si_f64()),
        Some(distance) => Ok(-distance.si_f64()),
        None if slews => Ok(0.0),
        None => missing(MissingCode::AxisFromMiddle, ""),
    }
}

fn friction(book: &Book) -> Told<f64> {
    let gear = book.ground_gear.as_ref();
    gear.and_then(|gear| gear.friction.as_ref()).map_or_else(
        || missing(MissingCode::Friction, ""),
        |friction| Ok(friction.si_f64()),
    )
}

fn stance(book: &Book, support: &Support, friction: Told<f64>) -> Told<Stance> {
    let axis = axis(book)?;
    let (post, [post_r, post_z]) = placed_mass::<2>(book, "post")?;
    let (base, [x, y, z]) = placed_mass::<3>(book, "machine")?;
    let mut contacts: Vec<[f64; 2]> = support
        .corners
        .iter()
        .map(|[x, y]| [x - axis, *y])
        .collect();
    if turns_clockwise(&contacts) {
        contacts.reverse();
    }
    if contacts.len() < 3 {
        return missing(MissingCode::SupportCorners, support.stance.code());
    }
    Ok(Stance {
        contacts,
        friction: friction.unwrap_or(f64::NAN),
        base: (base, [x - axis, y, z]),
        post: Weight {
            mass: post,
            centre: Vector::new(post_r, post_z),
        },
        heading: heading(book)?,
    })
}

fn turns_clockwise(corners: &[[f64; 2]]) -> bool {
    let next = corners.iter().cycle().skip(1);
    let area: f64 = corners
        .iter()
        .zip(next)
        .map(|(a, b)| a[0] * b[1] - a[1] * b[0])
        .sum();
    area < 0.0
}

/// Why a machine whose supports the book does not say stands nowhere.
pub(super) fn no_support() -> NotKnown {
    NotKnown::Missing(super::Missing::of(MissingCode::SupportAny, ""))
}
