//! The kernel without angles against the statics with them, its batches, and the map.

use proptest::prelude::*;
use reckon::arm::force::{Cut, Footing, Statics, usable, whole_arm};
use reckon::arm::pose::Placed;
use reckon::arm::shape::{ArmShape, Joint, Vector};
use reckon::arm::strength::{
    Columns, Direction, InstructionSet, Kernel, MapGrid, strength_map, strongest,
};

use crate::machine::{mini_excavator, reference};
use crate::table::{close, limit, place, rows};

fn cut(direction: Direction, statics: &Statics) -> Cut {
    match direction {
        Direction::Curl => Cut::curl(statics).unwrap(),
        Direction::Crowd => Cut::crowd(statics).unwrap(),
        Direction::PushDown => Cut::push_down(),
        Direction::PullUp => Cut::pull_up(),
    }
}

fn of_row(name: &str) -> Direction {
    let at = ["curl", "crowd", "push_down", "pull_up"]
        .iter()
        .position(|one| *one == name);
    Direction::ALL[at.unwrap()]
}

#[test]
fn the_kernel_gives_the_limits_of_the_reference_machine() {
    let (machine, poses) = (reference(), rows("poses.csv"));
    for row in rows("forces.csv") {
        let pose = poses
            .iter()
            .find(|pose| pose.text("pose") == row.text("pose"))
            .unwrap();
        let direction = of_row(row.text("cut"));
        let found = Kernel::new(&machine.shape, direction).at(pose.ram_lengths());
        place(found.tooth.r, pose.number("tooth_r"), "tooth");
        place(found.tooth.z, pose.number("tooth_z"), "tooth");
        place(found.direction.r, row.number("direction_r"), "direction");
        place(found.direction.z, row.number("direction_z"), "direction");
        for joint in Joint::ALL {
            let kind = if joint == direction.working() {
                "working"
            } else {
                "holding"
            };
            let name = ["boom", "dipper", "bucket"][joint.index()];
            let expected = row
                .maybe(&format!("{kind}_{name}"))
                .unwrap_or(f64::INFINITY);
            if expected.is_finite() {
                limit(found.allows[joint.index()], expected, "allows");
            } else {
                assert!(found.allows[joint.index()].is_infinite());
            }
        }
    }
}

fn kernel_is_the_statics(shape: &ArmShape, lengths: [f64; 3]) -> Result<(), TestCaseError> {
    let placed = Placed::at_lengths(shape, lengths).unwrap();
    let statics = Statics::hanging(shape, placed).unwrap();
    let arm = whole_arm(shape, &placed);
    for direction in Direction::ALL {
        let kernel = Kernel::new(shape, direction).at(lengths);
        let slow = usable(shape, &statics, cut(direction, &statics), None);
        prop_assert!((kernel.tooth - placed.tooth).length() < 1e-12);
        prop_assert!((kernel.moment - arm.mass * arm.centre.r).abs() < 1e-9 * (1.0 + arm.mass));
        for ram in 0..3 {
            let (fast, slow) = (kernel.allows[ram], slow.limits[ram].allows.rank());
            // Where the force hardly works the ram, the limit is a quotient by almost nothing.
            let sound = slow.abs() < 1e8;
            let off = (fast - slow).abs() <= 1e-7 * (1.0 + slow.abs());
            prop_assert!(!sound || off, "{direction:?} {ram} {fast} {slow}");
        }
    }
    Ok(())
}

proptest! {
    #[test]
    fn the_kernel_is_the_statics_for_either_sign_of_the_levers(
        excavator in any::<bool>(),
        shares in prop::array::uniform3(0.0..1.0_f64),
        load in 0.0..900.0_f64,
        weak in prop_oneof![Just(1.0), 0.001..0.3_f64],
    ) {
        let mut machine = if excavator { mini_excavator() } else { reference() };
        machine.shape.bucket.load.mass = load;
        // Rams so weak that some do not even hold the arm.
        for ram in &mut machine.shape.rams {
            (ram.supply, ram.relief_cap) = (ram.supply * weak, ram.relief_cap * weak);
            ram.relief_rod *= weak;
        }
        if excavator {
            for ram in &mut machine.shape.rams {
                (ram.barrel, ram.rod_weight) = ((20.0, 0.35), (11.0, 0.3));
            }
            (machine.shape.lever_weight, machine.shape.link_weight) = ((6.0, 0.1), (5.0, 0.07));
        }
        let lengths = Joint::ALL.map(|joint| {
            let ram = machine.ram(joint);
            ram.closed + shares[joint.index()] * ram.stroke
        });
        kernel_is_the_statics(&machine.shape, lengths)?;
    }
}

#[test]
fn who_cannot_hold_itself_and_what_does_not_close() {
    let mut machine = reference();
    machine.shape.rams[0].relief_rod = 1e5;
    let found = Kernel::new(&machine.shape, Direction::Curl).at([1.29, 1.2045, 0.965_54]);
    assert_eq!(found.allows[0], -1.0);
    assert!(found.allows[2] > 0.0);
    let open = Kernel::new(&machine.shape, Direction::Curl).at([2.5, 1.2045, 0.965_54]);
    assert!(open.tooth.r.is_nan() && open.allows.iter().any(|force| force.is_nan()));
}

#[test]
fn every_instruction_set_gives_the_same_digits() {
    let machine = reference();
    let shares: Vec<f64> = (0..1000).map(|step| f64::from(step % 37) / 36.0).collect();
    let columns = Joint::ALL.map(|joint| {
        let ram = machine.ram(joint);
        let stride = [1, 5, 11][joint.index()];
        (0..shares.len())
            .map(|at| ram.closed + ram.stroke * shares[at * stride % shares.len()])
            .collect::<Vec<f64>>()
    });
    let lengths = [&columns[0][..], &columns[1][..], &columns[2][..]];
    for direction in Direction::ALL {
        let kernel = Kernel::new(&machine.shape, direction);
        let mut plain = Columns::default();
        kernel.batch_with(InstructionSet::Baseline, lengths, &mut plain);
        for pose in 0..shares.len() {
            let one = kernel.at([columns[0][pose], columns[1][pose], columns[2][pose]]);
            assert_eq!(plain.tooth(pose), one.tooth);
            for ram in 0..3 {
                assert_eq!(plain.allows[ram][pose].to_bits(), one.allows[ram].to_bits());
            }
        }
        for set in InstructionSet::at_hand() {
            let mut wide = Columns::of_length(3);
            kernel.batch_with(set, lengths, &mut wide);
            assert_eq!(wide, plain, "{set:?}");
        }
    }
}

#[test]
fn the_map_holds_the_strongest_and_says_what_governs() {
    let machine = reference();
    // Swung, so that no edge lies square to the arm.
    let stance = machine.stance("bucket_and_stabilisers", 40.0);
    let placed = Placed::at_lengths(&machine.shape, [1.29, 1.2045, 0.965_54]).unwrap();
    let footing = Footing::new(&machine.shape, &placed, &stance);
    let grid = MapGrid {
        steps: 13,
        square: 0.25,
    };
    for direction in Direction::ALL {
        let map = strength_map(&machine.shape, direction, Some(&footing), grid);
        assert!(map.len() > 50);
        for cell in &map {
            let placed = Placed::at_lengths(&machine.shape, cell.lengths).unwrap();
            let inside = |value: f64, index: i32| (value / grid.square).floor() as i32 == index;
            assert!(inside(placed.tooth.r, cell.column) && inside(placed.tooth.z, cell.row));
            let statics = Statics::hanging(&machine.shape, placed).unwrap();
            let there = footing.with(&machine.shape, &placed);
            let slow = usable(
                &machine.shape,
                &statics,
                cut(direction, &statics),
                Some(&there),
            );
            limit(cell.force, slow.governs.allows.rank(), "usable");
            assert_eq!(cell.governs, slow.governs.what);
        }
        let best = map.iter().map(|cell| cell.force).fold(0.0, f64::max);
        let top = strongest(&machine.shape, direction, Some(&footing), 13).unwrap();
        assert!(top.force >= best, "{direction:?}");
    }
}

#[test]
fn held_down_the_strongest_curl_is_the_standard_one_but_for_the_weight() {
    // The report: a search over all arrangements with the others holding finds the standard figure, 28 948.887 N.
    let mut machine = reference();
    machine.shape.gravity = 0.0;
    let top = strongest(&machine.shape, Direction::Curl, None, 25).unwrap();
    close(
        top.force,
        28_948.887_019_617_945,
        1e-6,
        0.0,
        "strongest curl",
    );
    assert!(
        Placed::at_lengths(&machine.shape, top.lengths)
            .unwrap()
            .within_travel()
    );
    assert_ne!(top.tooth, Vector::default());
}
