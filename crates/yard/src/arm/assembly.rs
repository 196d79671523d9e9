//! Which of its mirror assemblies the bucket's linkage is, from what one sees when the ram gets longer.

use super::missing::Told;
use super::shape::open_linkage;
use reckon::arm::shape::{FourBar, Ram, Turns, Vector};

/// Ram lengths tried over the stroke.
const STEPS: u32 = 24;
/// Angles of the bucket tried for an assembly.
const ANGLES: u32 = 72;

/// The linkage, assembled so that a longer ram turns the bucket this way.
///
/// Pins and lengths alone allow up to eight assemblies. Taken is the one that closes over most of the stroke with the
/// lever turning the bucket the right way; of those the one with the shared pin on the side of the dipper where the ram
/// lies, and lever and crank not crossed.
///
/// # Errors
/// Where lever and link do not meet at any angle of the bucket.
pub(super) fn assembled(
    pins: [Vector; 3],
    [lever, link]: [f64; 2],
    crank: Vector,
    ram: &Ram,
    turns: Turns,
) -> Told<FourBar> {
    let mut best: Option<([u32; 3], FourBar)> = None;
    let mut seen: Vec<[bool; 3]> = Vec::new();
    for step in 0..ANGLES {
        let angle = std::f64::consts::TAU * f64::from(step) / f64::from(ANGLES);
        for left in [true, false] {
            let Ok(bar) = FourBar::near(pins, lever, link, crank, left, angle) else {
                continue;
            };
            let sides = bar.sides().map(|side| side > 0.0);
            if seen.contains(&sides) {
                continue;
            }
            seen.push(sides);
            let rank = rank(&bar, ram, turns);
            if best.as_ref().is_none_or(|(before, _)| rank > *before) {
                best = Some((rank, bar));
            }
        }
    }
    best.map(|(_, bar)| bar).ok_or_else(open_linkage)
}

/// Lengths at which it closes and turns the right way, then on which side it lies, then whether it is uncrossed.
fn rank(bar: &FourBar, ram: &Ram, turns: Turns) -> [u32; 3] {
    let dipper = bar.bucket_pin() - bar.lever_pin();
    let ram_side = dipper.cross(bar.barrel() - bar.lever_pin());
    let mut counts = [0; 3];
    for step in 0..=STEPS {
        let length = ram.closed + ram.stroke * f64::from(step) / f64::from(STEPS);
        let Ok(pose) = bar.at_length(length) else {
            continue;
        };
        let beside = (pose.link_pin - bar.lever_pin()).cross(pose.shared - bar.lever_pin());
        let as_assembled = beside * bar.sides()[0] >= 0.0;
        if !(as_assembled && pose.grip.lever * turns.sign() > 0.0) {
            continue;
        }
        counts[0] += 1;
        let shared = dipper.cross(pose.shared - bar.lever_pin());
        counts[1] += u32::from(shared * ram_side >= 0.0);
        // Lever and crank turn the same way: uncrossed.
        counts[2] += u32::from(pose.lever_rate > 0.0);
    }
    counts
}
