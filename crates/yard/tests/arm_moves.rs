//! The arm moved and shown: dragged teeth, shares of rams, strips for teaching, on the reference machine's book.
#![allow(clippy::unwrap_used)]

use quantity::Habits;
use reckon::arm::force::{Allowed, Governs};
use reckon::arm::pose::Placed;
use reckon::arm::shape::{Joint, Vector};
use yard::arm::{
    ArmOfBook, Direction, PoseAsked, arm_of, cut_lesson, drag, lengths_out, parked_lesson, pose,
};

const REFERENCE: &str = include_str!("../../../cases/arm/reference-machine-book.toml");

fn arm() -> ArmOfBook {
    arm_of(
        &yard::book::read(REFERENCE, &Habits::default())
            .book
            .unwrap(),
    )
}

/// Poses all over the strokes, ends left out.
fn poses(arm: &ArmOfBook) -> Vec<[f64; 3]> {
    const SHARES: [f64; 4] = [0.1, 0.35, 0.6, 0.85];
    let mut all = Vec::new();
    for boom in SHARES {
        for dipper in SHARES {
            for bucket in SHARES {
                all.push(lengths_out(arm, [boom, dipper, bucket]).unwrap());
            }
        }
    }
    all
}

#[test]
fn a_dragged_tooth_comes_to_where_it_once_was() {
    let arm = arm();
    let shape = arm.shape.as_ref().unwrap();
    for from in poses(&arm) {
        // The same bucket, another boom and dipper: a place that can be reached for certain.
        for to in poses(&arm).into_iter().filter(|to| to[2] == from[2]) {
            let wanted = Placed::at_lengths(shape, to).unwrap().tooth;
            let dragged = drag(&arm, from, wanted).unwrap();
            let tooth = Placed::at_lengths(shape, dragged.lengths).unwrap().tooth;
            assert!(dragged.there, "{from:?} to {wanted:?}: {tooth:?}");
            assert!(
                (tooth - wanted).length() < 1e-6,
                "{tooth:?} is not {wanted:?}"
            );
            assert_eq!(dragged.lengths[2], from[2]);
        }
    }
}

#[test]
fn wherever_it_is_dragged_the_rams_stay_within_their_strokes() {
    let arm = arm();
    let shape = arm.shape.as_ref().unwrap();
    let far = [-50.0, -3.0, 0.0, 0.24, 1.0, 4.9, 7.0, 50.0];
    for from in poses(&arm) {
        for r in far {
            for z in far {
                let dragged = drag(&arm, from, Vector::new(r, z)).unwrap();
                for joint in Joint::ALL {
                    let (ram, length) = (shape.ram(joint), dragged.lengths[joint.index()]);
                    assert!(length >= ram.closed - 1e-12 && length <= ram.extended() + 1e-12);
                }
                let tooth = Placed::at_lengths(shape, dragged.lengths).unwrap().tooth;
                let missed = (tooth - Vector::new(r, z)).length();
                assert_eq!(dragged.there, missed < 1e-3, "{missed}");
            }
        }
    }
}

/// The ram that governs is at its limit and no other is over it; where the ground governs, none is at it.
#[test]
fn the_ram_that_governs_is_loaded_to_its_limit_and_no_ram_beyond() {
    let arm = arm();
    let mut governed = [0; 2];
    for lengths in poses(&arm) {
        let record = pose(&arm, &PoseAsked::at(lengths)).unwrap();
        for way in Direction::ALL {
            for stance in [None, arm.digs_from] {
                let Ok(dig) = record.dig(&arm, way, stance) else {
                    continue;
                };
                if dig.usable.0 == Allowed::NotEvenItself {
                    continue;
                }
                let most = dig.rams.iter().map(|ram| ram.share).fold(0.0, f64::max);
                assert!(most <= 1.0 + 1e-9, "{lengths:?} {way:?} {stance:?}: {most}");
                let joint = dig.usable.1.joint();
                if let Some(joint) = joint {
                    let share = dig.rams[joint.index()].share;
                    assert!((share - 1.0).abs() < 1e-9, "{lengths:?} {way:?}: {share}");
                }
                governed[usize::from(joint.is_none())] += 1;
                let least = dig.usable.0.rank() <= dig.arm_alone.0.rank();
                assert!(least, "the ground never helps");
                if stance.is_none() {
                    assert!(matches!(
                        dig.usable.1,
                        Governs::Working(_) | Governs::Holding(_)
                    ));
                }
            }
        }
    }
    assert!(governed.iter().all(|count| *count > 20), "{governed:?}");
}

#[test]
fn the_strip_shows_what_it_says() {
    let arm = arm();
    let shape = arm.shape.as_ref().unwrap();
    let lesson = cut_lesson(&arm).unwrap();
    let tooth = |lengths| Placed::at_lengths(shape, lengths).unwrap().tooth;
    for frame in lesson.right.iter().chain(&lesson.wrong) {
        let placed = Placed::at_lengths(shape, frame.lengths).unwrap();
        assert!(placed.within_travel(), "{}", frame.code);
    }
    let right = lesson.right.each_ref().map(|frame| tooth(frame.lengths));
    // Down on the ground, then drawn nearer in the ground, scooped nearer still, then clear of it.
    assert!(right[0].z.abs() < 1e-9 && right[1].z < -0.2 && right[3].z > 0.3);
    assert!(right[0].r > right[1].r && right[1].r > right[2].r);
    for frame in &lesson.right[..3] {
        let end = frame.cut.last().unwrap();
        assert!(
            (tooth(frame.lengths) - *end).length() < 1e-6,
            "{}",
            frame.code
        );
    }
    // The wrong one begins farther out and ends with the dipper's ram on its stop.
    let wrong = lesson.wrong.each_ref().map(|frame| tooth(frame.lengths));
    assert!(wrong[0].r > right[0].r);
    let ram = shape.ram(Joint::Dipper);
    let last = lesson.wrong[3].lengths[1];
    assert!(last == ram.closed || (last - ram.extended()).abs() < 1e-12);
}

#[test]
fn parked_well_lies_flat_and_badly_hangs() {
    let arm = arm();
    let shape = arm.shape.as_ref().unwrap();
    let lesson = parked_lesson(&arm).unwrap();
    let well = Placed::at_lengths(shape, lesson.well.lengths).unwrap();
    assert!(well.tooth.z.abs() < 1e-9 && well.heel.z.abs() < 1e-9);
    assert!(well.tooth.r < well.heel.r, "the tooth towards the machine");
    assert!(
        well.along[1].r.abs() < 0.2,
        "the dipper is near plumb: {:?}",
        well.along[1]
    );
    let badly = Placed::at_lengths(shape, lesson.badly.lengths).unwrap();
    assert!(badly.tooth.z > 0.3 && badly.tooth.r > well.tooth.r);
}
