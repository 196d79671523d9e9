//! The same cut in the right order and in the wrong one, and the arm parked well and badly: poses for teaching.

use super::ArmOfBook;
use super::missing::{NotKnown, Told};
use super::record::Direction;
use reckon::arm::pose::{Placed, reach_figures, to_reach};
use reckon::arm::shape::{ArmShape, Joint, Vector};

/// One frame of a strip.
#[derive(Clone, Debug, PartialEq)]
pub struct Frame {
    /// The ram lengths.
    pub lengths: [f64; 3],
    /// The ram that works in it; none where nothing is moved.
    pub works: Option<Joint>,
    /// The direction whose force belongs to it, where the ground is met.
    pub against: Option<Direction>,
    /// The tooth's way in the ground up to here.
    pub cut: Vec<Vector>,
    /// What it shows: the layer of words keeps a sentence for it.
    pub code: &'static str,
}

/// A strip told twice: as it should be, and as it should not.
#[derive(Clone, Debug, PartialEq)]
pub struct CutLesson {
    /// Dipper first, bucket at its end, boom only clears.
    pub right: [Frame; 4],
    /// Bucket first at full reach, boom tearing it out, dipper against its stop.
    pub wrong: [Frame; 4],
}

/// One way of leaving the arm.
#[derive(Clone, Debug, PartialEq)]
pub struct ParkedLesson {
    /// Bucket flat on the ground, the dipper as plumb as it gets.
    pub well: Frame,
    /// Bucket hanging far out over the ground.
    pub badly: Frame,
}

/// Attitudes are tried so far to both sides of the one wished for, in steps of five degrees.
const TRIES: i32 = 14;
const STEP: f64 = std::f64::consts::PI / 36.0;
/// The bucket's line from pin to tooth over level when a cut begins, in its middle, at its end, curled; an arm that digs
/// towards its machine.
const BEGINS: f64 = -100.0;
const MIDDLE: f64 = -112.0;
const SCOOPS: f64 = -170.0;
const CURLED: f64 = -215.0;

/// The cut, from the shape alone.
///
/// # Errors
/// Where there is no shape, or the arm does not reach what the strip shows.
pub fn cut_lesson(arm: &ArmOfBook) -> Told<CutLesson> {
    let shape = arm.shape.as_ref().map_err(|why| *why)?;
    let figures = reach_figures(shape)?;
    let far = figures.farthest_on_ground.ok_or(NotKnown::NoPose)?.placed;
    let reach = far.tooth.r;
    let deep = (reach * 0.09).min(0.45);
    let place = |share: f64, down: f64| Vector::new(reach * share, -deep * down);
    let begin = place(0.80, 0.0);
    let way = [
        begin,
        place(0.76, 0.6),
        place(0.70, 1.0),
        place(0.60, 1.0),
        place(0.50, 0.95),
        place(0.44, 0.5),
    ];
    let down = with_attitude(shape, begin, BEGINS)?;
    let drawn = with_attitude(shape, way[3], MIDDLE)?;
    let scooped = with_attitude(shape, way[5], SCOOPS)?;
    let clear = with_attitude(shape, place(0.52, -2.6), CURLED)?;
    let frame = |placed: Placed, works, against, cut: &[Vector], code| Frame {
        lengths: placed.lengths(),
        works: Some(works),
        against,
        cut: cut.to_vec(),
        code,
    };
    let right = [
        frame(down, Joint::Boom, None, &way[..1], "set-down"),
        frame(
            drawn,
            Joint::Dipper,
            Some(Direction::Crowd),
            &way[..4],
            "dipper-draws",
        ),
        frame(
            scooped,
            Joint::Bucket,
            Some(Direction::Curl),
            &way,
            "bucket-scoops",
        ),
        frame(clear, Joint::Boom, None, &way, "boom-clears"),
    ];
    let wrong = wrong_order(shape, reach, deep)?;
    Ok(CutLesson { right, wrong })
}

/// Set down at full reach, curled there, torn out with the boom, the dipper run onto its stop.
fn wrong_order(shape: &ArmShape, reach: f64, deep: f64) -> Told<[Frame; 4]> {
    let place = |share: f64, down: f64| Vector::new(reach * share, -deep * down);
    let way = [
        place(0.97, 0.0),
        place(0.93, 0.9),
        place(0.88, 1.2),
        place(0.86, 0.4),
    ];
    let down = with_attitude(shape, way[0], BEGINS + 25.0)?;
    let curled = with_attitude(shape, way[2], SCOOPS + 40.0)?;
    let torn = with_attitude(shape, way[3], SCOOPS + 20.0)?;
    let ram = shape.ram(Joint::Dipper);
    let inwards_out = shape.angle_at(Joint::Dipper, ram.extended())?
        < shape.angle_at(Joint::Dipper, ram.closed)?;
    let end = if inwards_out {
        ram.extended()
    } else {
        ram.closed
    };
    let stopped = [torn.lengths()[0], end, torn.lengths()[2]];
    let frame = |lengths, works, against, cut: &[Vector], code| Frame {
        lengths,
        works: Some(works),
        against,
        cut: cut.to_vec(),
        code,
    };
    Ok([
        frame(down.lengths(), Joint::Boom, None, &way[..1], "too-far-out"),
        frame(
            curled.lengths(),
            Joint::Bucket,
            Some(Direction::Curl),
            &way[..3],
            "bucket-first",
        ),
        frame(
            torn.lengths(),
            Joint::Boom,
            Some(Direction::PullUp),
            &way,
            "boom-tears",
        ),
        frame(stopped, Joint::Dipper, None, &way, "onto-the-stop"),
    ])
}

/// The arm parked well and badly, from the shape alone. The order of resting of the book stands above it.
///
/// # Errors
/// Where there is no shape, the heel is not known, or the bucket cannot lie flat.
pub fn parked_lesson(arm: &ArmOfBook) -> Told<ParkedLesson> {
    let shape = arm.shape.as_ref().map_err(|why| *why)?;
    let figures = reach_figures(shape)?;
    let far = figures.farthest_on_ground.ok_or(NotKnown::NoPose)?.placed;
    let flat = flat_on_the_ground(shape, far.tooth.r).ok_or(NotKnown::NoPose)?;
    let high = Vector::new(far.tooth.r * 0.93, far.tooth.r * 0.14);
    let hangs = with_attitude(shape, high, -60.0)?;
    let frame = |placed: Placed, code| Frame {
        lengths: placed.lengths(),
        works: None,
        against: None,
        cut: Vec::new(),
        code,
    };
    Ok(ParkedLesson {
        well: frame(flat, "parked-flat"),
        badly: frame(hangs, "parked-hanging"),
    })
}

/// Tooth and heel on the ground, the tooth towards the machine, the dipper as plumb as it gets.
fn flat_on_the_ground(shape: &ArmShape, reach: f64) -> Option<Placed> {
    let plate = Vector::new(shape.bucket.tip_radius, 0.0) - shape.bucket.heel;
    if !plate.is_finite() || shape.bucket.heel.length() == 0.0 {
        return None;
    }
    let attitude = std::f64::consts::PI - plate.angle();
    let mut best: Option<(f64, Placed)> = None;
    for step in 10..60 {
        let tooth = Vector::new(reach * f64::from(step) / 60.0, 0.0);
        let ways = to_reach(shape, tooth, attitude).ok();
        for way in ways.iter().flatten() {
            let stands = way.placed_within_travel(shape);
            if let Some(placed) = stands.filter(|placed| is_there(shape, placed, tooth)) {
                let lean = placed.along[1].r.abs();
                let hangs = placed.along[1].z < 0.0;
                if hangs && best.as_ref().is_none_or(|(least, _)| lean < *least) {
                    best = Some((lean, placed));
                }
            }
        }
    }
    best.map(|(_, placed)| placed)
}

/// The pose with the tooth there and the bucket as near to this attitude, in degrees, as the rams allow.
fn with_attitude(shape: &ArmShape, tooth: Vector, wish: f64) -> Told<Placed> {
    let wish = wish.to_radians();
    for turn in 0..=TRIES {
        for side in [1.0, -1.0] {
            let attitude = wish + side * f64::from(turn) * STEP;
            let ways = to_reach(shape, tooth, attitude).ok();
            let stands = ways
                .iter()
                .flatten()
                .find_map(|way| way.placed_within_travel(shape))
                .filter(|placed| is_there(shape, placed, tooth));
            if let Some(placed) = stands {
                return Ok(placed);
            }
        }
    }
    Err(NotKnown::NoPose)
}

/// Whether these ram lengths really put the tooth there: beyond a dead centre a ram has the same length once more.
fn is_there(shape: &ArmShape, placed: &Placed, tooth: Vector) -> bool {
    Placed::at_lengths(shape, placed.lengths())
        .is_ok_and(|stands| (stands.tooth - tooth).length() < 1e-6)
}
