//! What must hold for any arm: power in is power out, mirrors, no weight, no panic.

use proptest::prelude::*;
use reckon::arm::force::{Cut, Footing, Statics, gravity_moments, usable, whole_arm};
use reckon::arm::pose::{Placed, reach_figures, to_reach};
use reckon::arm::shape::{ArmShape, FourBar, Joint, Triangle, Vector};

use crate::machine::{Machine, mini_excavator, reference};

fn at_shares(machine: &Machine, shares: [f64; 3]) -> [f64; 3] {
    Joint::ALL.map(|joint| {
        let ram = machine.ram(joint);
        ram.closed + shares[joint.index()] * ram.stroke
    })
}

fn either() -> impl Strategy<Value = bool> {
    any::<bool>()
}

fn machine(excavator: bool) -> Machine {
    let mut machine = if excavator {
        mini_excavator()
    } else {
        reference()
    };
    if excavator {
        // Rams with weights, so that their part is tested here, too.
        for ram in &mut machine.shape.rams {
            (ram.barrel, ram.rod_weight) = ((20.0, 0.35), (11.0, 0.3));
        }
        (machine.shape.lever_weight, machine.shape.link_weight) = ((6.0, 0.1), (5.0, 0.1));
    }
    machine
}

/// The height of the centre of all weights times their sum: potential energy over gravity.
fn lifted(shape: &ArmShape, lengths: [f64; 3]) -> f64 {
    let arm = whole_arm(shape, &Placed::at_lengths(shape, lengths).unwrap());
    arm.mass * arm.centre.z * shape.gravity
}

fn upside_down(shape: &ArmShape) -> ArmShape {
    let flip = |point: Vector| Vector::new(point.r, -point.z);
    let mirrored = |triangle: &Triangle, angle: f64| {
        Triangle::near(flip(triangle.barrel()), flip(triangle.rod()), -angle)
    };
    let bar = &shape.linkage;
    let ends = shape.angles_at_the_ends().unwrap();
    let middle = |joint: Joint| (ends[joint.index()].0 + ends[joint.index()].1) / 2.0;
    let mut other = shape.clone();
    other.foot = flip(shape.foot);
    other.boom_triangle = mirrored(&shape.boom_triangle, middle(Joint::Boom));
    other.dipper_triangle = mirrored(&shape.dipper_triangle, middle(Joint::Dipper));
    other.linkage = FourBar::near(
        [flip(bar.barrel()), flip(bar.lever_pin()), bar.bucket_pin()],
        bar.lever(),
        bar.link(),
        flip(bar.link_on_bucket()),
        false,
        -middle(Joint::Bucket),
    )
    .unwrap();
    other.bucket.heel = flip(shape.bucket.heel);
    for weight in [
        &mut other.boom_weight,
        &mut other.dipper_weight,
        &mut other.bucket.weight,
        &mut other.bucket.load,
    ] {
        weight.centre = flip(weight.centre);
    }
    other.gravity = -shape.gravity;
    other
}

proptest! {
    #[test]
    fn power_in_is_power_out(
        excavator in either(),
        shares in prop::array::uniform3(0.02..0.98_f64),
        speeds in prop::array::uniform3(-1.0..1.0_f64),
        push in prop::array::uniform2(-2e4..2e4_f64),
        load in 0.0..500.0_f64,
    ) {
        let mut machine = machine(excavator);
        machine.shape.bucket.load.mass = load;
        let shape = &machine.shape;
        let lengths = at_shares(&machine, shares);
        let statics = Statics::hanging(shape, Placed::at_lengths(shape, lengths).unwrap()).unwrap();
        let force = Vector::new(push[0], push[1]);
        let thrusts = statics.with_tooth_force(force);
        let step = 1e-6;
        let moved = |by: f64| [0, 1, 2].map(|ram| lengths[ram] + by * speeds[ram]);
        let rate = |f: &dyn Fn([f64; 3]) -> f64| (f(moved(step)) - f(moved(-step))) / (2.0 * step);
        let tooth = |lengths: [f64; 3]| Placed::at_lengths(shape, lengths).unwrap().tooth;
        let rams: f64 = (0..3).map(|ram| thrusts[ram] * speeds[ram]).sum();
        let at_tooth = rate(&|lengths| tooth(lengths).dot(force));
        let lifting = rate(&|lengths| lifted(shape, lengths));
        // Work of the rams and of the ground lifts the weights. Central differences: good to about 1e-7.
        let size = 1.0 + rams.abs() + at_tooth.abs() + lifting.abs()
            + (0..3).map(|ram| (thrusts[ram] * speeds[ram]).abs()).sum::<f64>();
        prop_assert!((rams + at_tooth - lifting).abs() < 1e-6 * size, "{rams} {at_tooth} {lifting}");
    }

    #[test]
    fn upside_down_everything_is_the_same(excavator in either(), shares in prop::array::uniform3(0.02..0.98_f64)) {
        let machine = machine(excavator);
        let lengths = at_shares(&machine, shares);
        let other = upside_down(&machine.shape);
        let here = Placed::at_lengths(&machine.shape, lengths).unwrap();
        let there = Placed::at_lengths(&other, lengths).unwrap();
        prop_assert!((here.tooth.r - there.tooth.r).abs() < 1e-12);
        prop_assert!((here.tooth.z + there.tooth.z).abs() < 1e-12);
        let thrusts = Statics::hanging(&machine.shape, here).unwrap().hanging;
        let mirrored = Statics::hanging(&other, there).unwrap().hanging;
        for ram in 0..3 {
            prop_assert!((thrusts[ram] - mirrored[ram]).abs() < 1e-6 * (1.0 + thrusts[ram].abs()));
        }
    }

    #[test]
    fn swung_to_the_other_side_the_other_edge_gives(degrees in 0.0..75.0_f64, shares in prop::array::uniform3(0.02..0.98_f64)) {
        let machine = reference();
        let placed = Placed::at_lengths(&machine.shape, at_shares(&machine, shares)).unwrap();
        let moments = |degrees: f64, middle: f64| {
            let mut stance = machine.stance("bucket_and_stabilisers", degrees);
            stance.base.1[1] *= middle;
            Footing::new(&machine.shape, &placed, &stance).edge_moments()
        };
        let (right, left) = (moments(degrees, 1.0), moments(-degrees, -1.0));
        // Edges 0 and 2 run along the sides, 1 and 3 across.
        for (one, other) in [(0, 2), (1, 1), (2, 0), (3, 3)] {
            prop_assert!((right[one] - left[other]).abs() < 1e-7 * (1.0 + right[one].abs()));
        }
    }

    #[test]
    fn no_weight_no_thrust(excavator in either(), shares in prop::array::uniform3(0.0..1.0_f64)) {
        let mut machine = machine(excavator);
        machine.shape.gravity = 0.0;
        let placed = Placed::at_lengths(&machine.shape, at_shares(&machine, shares)).unwrap();
        prop_assert_eq!(gravity_moments(&machine.shape, &placed), [0.0; 3]);
    }

    #[test]
    fn what_governs_is_the_least_and_is_reached(excavator in either(), shares in prop::array::uniform3(0.0..1.0_f64)) {
        let machine = machine(excavator);
        let placed = Placed::at_lengths(&machine.shape, at_shares(&machine, shares)).unwrap();
        let statics = Statics::hanging(&machine.shape, placed).unwrap();
        let cuts = [Cut::curl(&statics).unwrap(), Cut::crowd(&statics).unwrap(), Cut::push_down(), Cut::pull_up()];
        for cut in cuts {
            let found = usable(&machine.shape, &statics, cut, None);
            prop_assert!(found.limits.iter().all(|limit| limit.allows.rank() >= found.governs.allows.rank()));
            prop_assert!(found.lever_alone.rank() >= found.governs.allows.rank());
            let Some(force) = found.governs.allows.newtons().filter(|force| *force > 0.0) else { continue };
            let thrusts = statics.with_tooth_force(cut.direction * force);
            let at_limit = Joint::ALL.iter().any(|joint| {
                let ram = machine.ram(*joint);
                let (push, pull) = if *joint == cut.working { ram.working() } else { ram.holding() };
                let thrust = thrusts[joint.index()];
                (thrust - push).abs() < 1e-6 * push || (thrust + pull).abs() < 1e-6 * pull
            });
            prop_assert!(at_limit);
        }
    }

    #[test]
    fn degenerate_arms_never_panic(
        excavator in either(),
        which in 0..14_usize,
        value in prop_oneof![Just(0.0), Just(-1.0), Just(f64::NAN), Just(f64::INFINITY), Just(1e-300), Just(1e300), -3.0..3.0_f64],
        lengths in prop::array::uniform3(prop_oneof![Just(0.0), Just(f64::NAN), -1.0..3.0_f64]),
    ) {
        let machine = machine(excavator);
        let mut shape = machine.shape.clone();
        match which {
            0 => shape.boom_length = value,
            1 => shape.dipper_length = value,
            2 => shape.bucket.tip_radius = value,
            3 => shape.rams[0].bore = value,
            4 => shape.rams[1].closed = value,
            5 => shape.rams[2].stroke = value,
            6 => shape.foot.z = value,
            7 => shape.boom_weight.mass = value,
            8 => shape.gravity = value,
            9 => shape.boom_triangle = Triangle::near(Vector::new(value, value), Vector::new(value, value), value),
            10 => shape.dipper_triangle = Triangle::near(Vector::default(), Vector::new(1.0, value), value),
            11 => shape.lever_weight = (value, value),
            12 => shape.rams[2].closed = value,
            _ => shape.rams[0].stroke = value,
        }
        let _troubles = shape.troubles();
        let _reach = reach_figures(&shape).map(|figures| figures.deepest.by_formula);
        let _inverse = to_reach(&shape, Vector::new(value, 1.0), value);
        let _bar = FourBar::near([Vector::new(value, 0.0); 3], value, value, Vector::new(0.0, value), true, value);
        for lengths in [lengths, at_shares(&machine, [0.5; 3])] {
            let Ok(placed) = Placed::at_lengths(&shape, lengths) else { continue };
            let Ok(statics) = Statics::hanging(&shape, placed) else { continue };
            let stance = reference().stance("tracks", value);
            let footing = Footing::new(&shape, &placed, &stance);
            let _all = usable(&shape, &statics, Cut::push_down(), Some(&footing));
        }
    }
}
