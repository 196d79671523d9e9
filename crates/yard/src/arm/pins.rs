//! Every pin with its place and how it is known, and what of an arm is still a first guess.

use super::of_book::{Guesses, PinOfArm};
use super::surveyed::SurveyOfArm;
use super::{rams, shape};
use crate::book::{Book, KnownBy, PinName};
use crate::code::Coded;
use reckon::arm::shape::{ArmShape, Vector};

/// Every pin with a place: as the survey settled it, else as the book has it.
pub(super) fn pins_of(
    book: &Book,
    shape: Option<&ArmShape>,
    survey: Option<&SurveyOfArm>,
) -> Vec<PinOfArm> {
    let written = |name: PinName| book.arm.pins.iter().find(|pin| pin.id == name);
    let each = PinName::ALL.iter().filter_map(|name| {
        let on = name.link()?;
        let pin = written(*name);
        if let Some((at, half)) = survey.and_then(|survey| survey.settled(*name)) {
            return Some(PinOfArm {
                id: *name,
                on,
                at,
                plus_minus: Some(half),
                known: KnownBy::Measured,
            });
        }
        let halves = pin.and_then(|pin| pin.at[0].plus_minus.zip(pin.at[1].plus_minus));
        let placed = shape.map(|shape| place_in(shape, *name));
        Some(PinOfArm {
            id: *name,
            on,
            at: placed
                .filter(|at| at.is_finite())
                .or_else(|| pin.map(|pin| Vector::new(pin.at[0].metres, pin.at[1].metres)))?,
            plus_minus: halves.map(|(r, z)| Vector::new(r, z)),
            known: pin.map_or(KnownBy::Measured, |pin| pin.known),
        })
    });
    each.collect()
}

/// The place of a pin in its link's frame, as the shape has it.
fn place_in(shape: &ArmShape, name: PinName) -> Vector {
    let bar = &shape.linkage;
    let along = |length: f64| Vector::new(length, 0.0);
    match name {
        PinName::BoomFoot => shape.foot,
        PinName::BoomRamBarrel => shape.foot + shape.boom_triangle.barrel(),
        PinName::BoomRamRod => shape.boom_triangle.rod(),
        PinName::DipperRamBarrel => shape.dipper_triangle.barrel() + along(shape.boom_length),
        PinName::DipperPin => along(shape.boom_length),
        PinName::DipperRamRod => shape.dipper_triangle.rod(),
        PinName::BucketRamBarrel => bar.barrel(),
        PinName::LeverPin => bar.lever_pin(),
        PinName::BucketPin => along(shape.dipper_length),
        PinName::LinkPin => bar.link_on_bucket(),
        PinName::Tooth => along(shape.bucket.tip_radius),
        PinName::Heel => shape.bucket.heel,
        PinName::LinkagePin => Vector::new(f64::NAN, f64::NAN),
    }
}

/// Which numbers are a blank's. A pin that the survey settled is none, nor is one of which only its distance counts and
/// was measured; neither is the heel, which no force rests on.
pub(super) fn guesses(book: &Book, survey: Option<&SurveyOfArm>) -> Guesses {
    let guessed = |known: KnownBy| known == KnownBy::Guess;
    let open = |pin: PinName| survey.is_none_or(|survey| survey.open.contains(&pin));
    let pins = book.arm.pins.iter().any(|pin| {
        guessed(pin.known)
            && pin.id != PinName::Heel
            && open(pin.id)
            && shape::measured_axis(book, pin.id).is_none()
    });
    let bars = [
        (PinName::LeverPin, PinName::LinkagePin),
        (PinName::LinkagePin, PinName::LinkPin),
    ];
    let bars = open(PinName::LinkagePin)
        && bars.iter().any(|(from, to)| {
            shape::distance(book, *from, *to).is_some_and(|found| guessed(found.1))
        });
    let mass = |of: &[&str]| {
        let mut parts = of.iter().filter_map(|part| rams::mass(book, part));
        parts.any(|mass| guessed(mass.known))
    };
    Guesses {
        shape: pins || bars,
        weights: mass(&["post", "boom", "dipper", "bucket", "lever", "link"]),
        machine: mass(&["machine"]),
        unsettled: survey.is_some_and(SurveyOfArm::is_unsettled),
    }
}
