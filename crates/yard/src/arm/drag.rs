//! Dragging the tooth: the ram lengths that bring it nearest to a place, the bucket's ram left as it is.

use super::ArmOfBook;
use super::missing::Told;
use reckon::arm::pose::Placed;
use reckon::arm::shape::{ArmShape, Joint, Vector, circles_meet, wrapped};

/// Where a dragged arm came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dragged {
    /// Ram lengths, each within its stroke.
    pub lengths: [f64; 3],
    /// Whether the tooth is where it was wanted, to within a millimetre; else as near as boom and dipper got it.
    pub there: bool,
}

/// The tooth is there when it is nearer than this, in metres.
const THERE: f64 = 1e-3;
/// A place out of reach is aimed at so far within, as a share: there the two circles still meet.
const JUST_WITHIN: f64 = 1e-9;

/// Brings the tooth to a place of P by boom and dipper alone, from the pose with these ram lengths.
///
/// With the bucket's angle kept, dipper pin and tooth are at a fixed distance, so that two circles meet where the dipper's
/// pin can be: the way nearer to the arm as it stands is taken. Out of reach, the arm points at the place; a ram that would
/// leave its stroke stops at its end, as on the machine.
///
/// # Errors
/// Where there is no shape, or it does not close at the lengths it is dragged from.
pub fn drag(arm: &ArmOfBook, from: [f64; 3], wanted: Vector) -> Told<Dragged> {
    let shape = arm.shape.as_ref().map_err(|why| *why)?;
    let stands = Placed::at_lengths(shape, from)?;
    let rigid = (stands.tooth - stands.pivots[1]).turned_back(stands.along[1]);
    let (inner, outer) = (shape.boom_length, rigid.length());
    let to = wanted - shape.foot;
    let least = (inner - outer).abs() * (1.0 + JUST_WITHIN);
    let most = (inner + outer) * (1.0 - JUST_WITHIN);
    let far = to.length().clamp(least.min(most), most);
    let aimed = shape.foot + Vector::at_angle(to.angle()) * far;
    let way = |on_the_left| {
        let pin = circles_meet(shape.foot, inner, aimed, outer, on_the_left)?;
        let boom = (pin - shape.foot).angle();
        let dipper = (aimed - pin).angle() - rigid.angle() - boom;
        Some([wrapped(boom), wrapped(dipper), stands.angles()[2]])
    };
    let ways: Vec<[f64; 3]> = [true, false].into_iter().filter_map(way).collect();
    // Beyond a dead centre a ram has the same length once more: where the tooth really comes to decides.
    let missed = |lengths: &[f64; 3]| {
        let placed = Placed::at_lengths(shape, *lengths);
        placed.map_or(f64::INFINITY, |placed| (placed.tooth - wanted).length())
    };
    let turned = |lengths: &[f64; 3]| (lengths[0] - from[0]).abs() + (lengths[1] - from[1]).abs();
    let rank = |lengths: &[f64; 3]| (missed(lengths).max(THERE), turned(lengths));
    let lengths = ways
        .iter()
        .map(|way| within(shape, *way, from))
        .min_by(|one, other| {
            let ((near, little), (far, much)) = (rank(one), rank(other));
            near.total_cmp(&far).then(little.total_cmp(&much))
        })
        .unwrap_or(from);
    let placed = Placed::at_lengths(shape, lengths)?;
    Ok(Dragged {
        lengths,
        there: (placed.tooth - wanted).length() < THERE,
    })
}

/// The ram lengths of these angles, each kept within its stroke; the bucket's as it was.
fn within(shape: &ArmShape, angles: [f64; 3], from: [f64; 3]) -> [f64; 3] {
    let clamped = |joint: Joint, length: f64| {
        let ram = shape.ram(joint);
        length.clamp(ram.closed, ram.extended())
    };
    let boom = shape.boom_triangle.at_angle(Joint::Boom, angles[0]);
    let dipper = shape.dipper_triangle.at_angle(Joint::Dipper, angles[1]);
    [
        clamped(Joint::Boom, boom.map_or(from[0], |grip| grip.length)),
        clamped(Joint::Dipper, dipper.map_or(from[1], |grip| grip.length)),
        clamped(Joint::Bucket, from[2]),
    ]
}
