//! The traps that a report on the reference machine lists, each with the wrong number it would give.

use reckon::arm::force::{Allowed, Cut, Footing, Governs, Statics, allowed, usable, whole_arm};
use reckon::arm::pose::Placed;
use reckon::arm::shape::{FourBar, Joint, Side, Stop, Turns, Vector};

use crate::forces::statics;
use crate::machine::{mini_excavator, reference};
use crate::table::{close, force};

const POSE_0: [f64; 3] = [1.29, 1.2045, 0.965_54];

#[test]
fn lifting_by_getting_shorter_uses_the_ring() {
    let machine = reference();
    assert_eq!(machine.shape.boom_triangle.turns(), Turns::Clockwise);
    assert_eq!(
        mini_excavator().shape.boom_triangle.turns(),
        Turns::CounterClockwise
    );
    let (push, pull) = machine.ram(Joint::Boom).working();
    force(push, 166_308.061_099_409_68, "push");
    force(pull, 116_827.976_805_370_43, "pull");
    let statics = statics(&machine, POSE_0);
    let lift = usable(&machine.shape, &statics, Cut::pull_up(), None);
    assert_eq!(lift.governs.what, Governs::Working(Joint::Boom));
    let Allowed::UpTo(lifts) = lift.governs.allows else {
        panic!("a limit")
    };
    let thrust = statics.with_tooth_force(Vector::new(0.0, -lifts))[0];
    force(thrust, -pull, "thrust at the limit");
}

#[test]
fn two_rams_lift_twice_as_much() {
    let machine = mini_excavator();
    let mut one = machine.shape.clone();
    one.rams[0].count = 1;
    let (two_push, two_pull) = machine.ram(Joint::Boom).working();
    let (push, pull) = one.rams[0].working();
    assert_eq!((two_push, two_pull), (2.0 * push, 2.0 * pull));
}

#[test]
fn holding_is_by_the_side_that_is_squeezed_at_work_and_not_at_rest() {
    let machine = reference();
    let statics = statics(&machine, POSE_0);
    assert!(statics.hanging[0] < 0.0, "hangs in tension");
    let curl = Cut::curl(&statics).unwrap();
    let thrust = statics.with_tooth_force(curl.direction * 8000.0);
    force(thrust[0], 27_305.689_125_415_935, "pressed by the work");
    let (pressed, pulled) = machine.ram(Joint::Boom).holding();
    force(
        pressed,
        199_569.673_319_291_6,
        "cap relief on the full side",
    );
    force(pulled, 160_221.225_333_079_46, "rod relief on the ring");
    let per_newton = statics.per_newton(statics.tooth(), curl.direction);
    let right = allowed(statics.hanging[0], per_newton[0], (pressed, pulled));
    close(
        right.rank(),
        29_218.771_052_652_44,
        1e-8,
        0.0,
        "side judged at work",
    );
}

#[test]
fn weight_is_in_the_limits_and_not_in_the_standard_figures() {
    let machine = reference();
    let mut light = reference();
    light.shape.gravity = 0.0;
    let curl = |machine: &crate::machine::Machine| {
        reckon::arm::force::standard_curl(&machine.shape, 0.85)
            .unwrap()
            .force
    };
    assert_eq!(curl(&machine), curl(&light));
    let statics_of = |machine| statics(machine, POSE_0);
    assert_eq!(statics_of(&light).hanging, [0.0; 3]);
    assert!(
        statics_of(&machine)
            .hanging
            .iter()
            .all(|thrust| thrust.abs() > 1000.0)
    );
}

#[test]
fn the_mirror_of_the_linkage_is_kept_out() {
    let machine = reference();
    let bar = &machine.shape.linkage;
    assert_eq!(bar.sides(), [1.0, 1.0, -1.0]);
    // The report prints three digits.
    let right = bar.at_angle(-1.54).unwrap().grip;
    close(right.length, 1.279, 0.0, 1e-3, "length");
    close(right.lever, -0.177, 0.0, 1e-3, "lever");
    let mirror = FourBar::near(
        [bar.barrel(), bar.lever_pin(), bar.bucket_pin()],
        bar.lever(),
        bar.link(),
        bar.link_on_bucket(),
        false,
        -1.54,
    );
    let wrong = mirror.unwrap().at_angle(-1.54).unwrap().grip;
    close(wrong.length, 1.466, 0.0, 1e-3, "the mirror's length");
    close(
        wrong.lever,
        0.041,
        0.0,
        1e-3,
        "the mirror's lever has the other sign",
    );
}

#[test]
fn a_dead_centre_within_the_stroke_is_found() {
    let machine = reference();
    let mut shape = machine.shape.clone();
    shape.rams[2].stroke += 0.12;
    assert!(
        !shape.troubles().is_empty(),
        "a stroke too long for the linkage"
    );
    let mut shape = machine.shape;
    shape.rams[0].stroke = 0.9;
    assert!(
        !shape.troubles().is_empty(),
        "a stroke too long for the triangle"
    );
}

#[test]
fn angles_are_within_half_a_turn() {
    let machine = reference();
    for step in 0..=20 {
        let share = f64::from(step) / 20.0;
        for joint in Joint::ALL {
            let ram = machine.ram(joint);
            let angle = machine
                .shape
                .angle_at(joint, ram.closed + share * ram.stroke)
                .unwrap();
            assert!(angle.abs() <= 2.5, "{joint:?} {angle}");
        }
    }
}

#[test]
fn no_memory_of_the_pose_before() {
    let shape = reference().shape;
    let there = Placed::at_lengths(&shape, POSE_0).unwrap();
    for lengths in [
        [0.935, 0.975, 0.85],
        [1.645, 1.65, 1.395],
        [0.94, 1.64, 1.39],
    ] {
        let _elsewhere = Placed::at_lengths(&shape, lengths).unwrap();
        assert_eq!(Placed::at_lengths(&shape, POSE_0).unwrap(), there);
    }
}

#[test]
fn a_rams_own_weight_is_neither_lumped_nor_left_out() {
    let machine = reference();
    let mut lumped = reference();
    for ram in &mut lumped.shape.rams {
        // Half of the whole ram at each of its pins.
        let half = (ram.barrel.0 + ram.rod_weight.0) / 2.0;
        (ram.barrel, ram.rod_weight) = ((half, 0.0), (half, 0.0));
    }
    let mut worst = [0.0_f64; 3];
    for row in crate::table::rows("hanging.csv") {
        let (whole, half) = (
            statics(&machine, row.ram_lengths()),
            statics(&lumped, row.ram_lengths()),
        );
        for ram in 0..3 {
            worst[ram] = worst[ram].max((whole.hanging[ram] - half.hanging[ram]).abs());
        }
    }
    // 332, 61 and 54 N over the ten hanging poses of the report, of which six are kept here.
    assert!(worst[0] > 100.0 && worst[0] < 333.0, "{worst:?}");
    assert!(worst[1] > 20.0 && worst[1] < 61.2, "{worst:?}");
    assert!(worst[2] > 10.0 && worst[2] < 54.0, "{worst:?}");
}

#[test]
fn on_its_stop_a_ram_is_said_to_be() {
    let placed = Placed::at_lengths(&reference().shape, [0.935, 1.65, 1.0]).unwrap();
    assert_eq!(placed.stops, [Stop::FullyIn, Stop::FullyOut, Stop::Between]);
}

#[test]
fn pressing_down_lifts_the_machine_and_the_front_support_matters() {
    let machine = reference();
    let statics = statics(&machine, [1.2545, 1.008_75, 0.9045]);
    let tips = |stance| {
        let stance = machine.stance(stance, 0.0);
        let footing = Footing::new(&machine.shape, &statics.placed, &stance);
        footing
            .tips_at(statics.placed.tooth, Vector::new(0.0, 1.0))
            .unwrap()
            .0
    };
    let (tracks, bucket) = (
        tips("tracks_and_stabilisers"),
        tips("bucket_and_stabilisers"),
    );
    assert_eq!((tracks / 100.0).round() / 10.0, 12.0);
    assert_eq!((bucket / 100.0).round() / 10.0, 18.8);
}

#[test]
fn left_and_right_differ_where_the_weight_is_off_the_middle() {
    let machine = reference();
    let statics = statics(&machine, [1.2545, 1.008_75, 0.9045]);
    let tipping = |degrees| {
        let stance = machine.stance("bucket_and_stabilisers", degrees);
        let footing = Footing::new(&machine.shape, &statics.placed, &stance);
        let down = Vector::new(0.0, -1.0);
        footing.tips_at(statics.placed.pivots[2], down).unwrap().0 / machine.shape.gravity
    };
    assert_eq!(
        (tipping(-75.0).round(), tipping(75.0).round()),
        (2099.0, 2017.0)
    );
}

#[test]
fn a_pressure_stands_on_the_side_that_is_squeezed() {
    let machine = reference();
    let ram = machine.ram(Joint::Boom);
    let (side, pressure) = ram.pressure_for(-42_599.435_628_504_87);
    assert_eq!(side, Side::Rod);
    close(pressure, 6_381_092.473_601_46, 1e-10, 0.0, "rod side");
    let (side, pressure) = ram.pressure_for(ram.working().0);
    assert_eq!(side, Side::Cap);
    close(pressure, ram.supply, 1e-12, 0.0, "cap side");
}

#[test]
fn the_arm_weighs_what_its_parts_weigh() {
    let machine = reference();
    let placed = Placed::at_lengths(&machine.shape, POSE_0).unwrap();
    let arm = whole_arm(&machine.shape, &placed);
    force(
        arm.mass,
        320.0 + 175.0 + 120.0 + 14.0 + 12.0 + 38.0 + 24.0 + 30.0 + 17.0 + 22.0 + 12.0,
        "mass",
    );
    // Turning the whole arm about its foot lifts its centre: the boom's moment is all weight but the boom's barrel part.
    let hanging = Statics::hanging(&machine.shape, placed).unwrap();
    assert!(
        hanging.gravity[0] > 0.0
            && hanging.gravity[0] < arm.mass * 9.81 * (arm.centre.r - 0.24) * 1.1
    );
}
