//! Standing: edges, reactions, tipping loads, against the reference machine and a textbook.

use reckon::arm::force::{Edge, Footing, Wrench};
use reckon::arm::pose::Placed;
use reckon::arm::shape::Vector;

use crate::forces::{cut, statics};
use crate::machine::reference;
use crate::table::{force, limit, place, rows};

#[test]
fn edges_reactions_and_tipping_of_the_reference_machine() {
    let machine = reference();
    for row in rows("stability.csv") {
        let statics = statics(&machine, row.ram_lengths());
        let stance = machine.stance(row.text("stance"), row.number("swing_degrees"));
        let footing = Footing::new(&machine.shape, &statics.placed, &stance);
        let at = footing.load_point().unwrap();
        force(at.load, row.number("load"), "load");
        place(at.place[0], row.number("place_x"), "load point");
        place(at.place[1], row.number("place_y"), "load point");
        let reactions = footing.reactions(0.0, &Wrench::default()).unwrap();
        for (corner, moment) in footing.edge_moments().into_iter().enumerate() {
            force(moment, row.number(&format!("edge_{corner}")), "edge");
            force(
                reactions[corner],
                row.number(&format!("reaction_{corner}")),
                "reaction",
            );
        }
        let down = Vector::new(0.0, -1.0);
        let (tips, edge) = footing.tips_at(statics.placed.pivots[2], down).unwrap();
        limit(
            tips / machine.shape.gravity,
            row.number("tipping_kg"),
            "tipping load",
        );
        assert_eq!(edge, edge_of(row.number("tipping_edge")));
        for name in ["curl", "push_down", "pull_up"] {
            let cut = cut(name, &statics);
            let tips = footing.tips_at(statics.placed.tooth, cut.direction);
            let expected = row.maybe(&format!("tips_{name}"));
            assert_eq!(tips.is_some(), expected.is_some());
            if let (Some((force, edge)), Some(expected)) = (tips, expected) {
                limit(force, expected, name);
                assert_eq!(edge, edge_of(row.number(&format!("edge_{name}"))));
            }
        }
    }
}

fn edge_of(index: f64) -> Edge {
    if index < 0.0 {
        Edge::Whole
    } else {
        Edge::From(index as usize)
    }
}

/// A machine of one weight, with an arm that weighs nothing.
fn footing_of(mass: f64, x: f64, contacts: Vec<[f64; 2]>, test: impl Fn(&Footing<'_>)) {
    let mut shape = reference().shape;
    for weight in [
        &mut shape.boom_weight,
        &mut shape.dipper_weight,
        &mut shape.bucket.weight,
    ] {
        weight.mass = 0.0;
    }
    for ram in &mut shape.rams {
        (ram.barrel.0, ram.rod_weight.0) = (0.0, 0.0);
    }
    (shape.lever_weight.0, shape.link_weight.0) = (0.0, 0.0);
    shape.gravity = 9.81;
    let mut stance = reference().stance("tracks", 0.0);
    stance.contacts = contacts;
    stance.base = (mass, [x, 0.0, 0.6]);
    stance.post.mass = 0.0;
    stance.heading = 0.0;
    let placed = Placed::at_lengths(&shape, [1.29, 1.2045, 0.965_54]).unwrap();
    test(&Footing::new(&shape, &placed, &stance));
}

#[test]
fn wheels_of_a_small_loader() {
    // Hibbeler, Statics, problem 6-108, equation and data read: 1180 kg with its centre 0.6 m before the rear axle at B's
    // side, load 300 kg carried 1.5 m out on the other side of A, axles 0.75 m apart: N_B = 3374.64 N, N_A = 11 144.16 N;
    // it tips at 472 kg. Here x counts from A towards B; the load hangs at -1.5 m.
    let contacts = vec![[0.0, -0.5], [0.75, -0.5], [0.75, 0.5], [0.0, 0.5]];
    footing_of(1180.0, 0.6, contacts, |footing| {
        let (at, down) = (Vector::new(-1.5, 0.3), Vector::new(0.0, -1.0));
        let load = footing.one_newton(at, down);
        let wheels = footing.reactions(300.0 * 9.81, &load).unwrap();
        limit(wheels[1] + wheels[2], 3_374.64, "B");
        limit(wheels[0] + wheels[3], 11_144.16, "A");
        let (tips, edge) = footing.tips_at(at, down).unwrap();
        limit(tips / 9.81, 472.0, "tips");
        assert_eq!(edge, Edge::From(3));
        assert!(
            footing.reactions(480.0 * 9.81, &load).is_none(),
            "it has tipped"
        );
    });
}

#[test]
fn a_support_that_would_pull_is_let_go_of() {
    // A load right above one corner: that corner carries it all, the one across from it nothing.
    let contacts = vec![[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]];
    footing_of(100.0, 0.0, contacts, |footing| {
        let load = footing.one_newton(Vector::new(0.5, 0.0), Vector::new(0.0, -1.0));
        let carried = footing.reactions(1000.0, &load).unwrap();
        let sum: f64 = carried.iter().sum();
        limit(sum, 1981.0, "all of it");
        limit(carried[1] - carried[0], 250.0, "more where the load is");
        assert!(carried.iter().all(|reaction| *reaction >= 0.0));
    });
}

#[test]
fn sliding_takes_the_upward_part_off_the_load() {
    // Coulomb: with mu = 0.5 and 100 kg a level pull slides at 490.5 N; pulled up at 3 : 4 at 490.5 / (0.6 + 0.5 x 0.8).
    let contacts = vec![[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]];
    footing_of(100.0, 0.0, contacts, |footing| {
        limit(
            footing.slides_at(Vector::new(-1.0, 0.0)).unwrap(),
            490.5,
            "level",
        );
        limit(
            footing.slides_at(Vector::new(0.6, 0.8)).unwrap(),
            490.5,
            "upwards",
        );
        limit(
            footing.slides_at(Vector::new(0.6, -0.8)).unwrap(),
            490.5 / 0.2,
            "downwards",
        );
        assert_eq!(footing.slides_at(Vector::new(0.0, -1.0)), None);
    });
}

#[test]
fn moments_are_the_cross_product_of_place_and_force() {
    // Heading 0.5 rad: force (0.6, 0.8) of the arm plane at (3, -1) of it.
    let mut stance = reference().stance("tracks", 0.0);
    stance.heading = 0.5;
    let machine = reference();
    let placed = Placed::at_lengths(&machine.shape, [1.29, 1.2045, 0.965_54]).unwrap();
    let footing = Footing::new(&machine.shape, &placed, &stance);
    let found = footing.one_newton(Vector::new(3.0, -1.0), Vector::new(0.6, 0.8));
    let (sine, cosine) = (0.479_425_538_604_203, 0.877_582_561_890_372_8);
    // In the arm plane only the moment square to it is there: z F_r - r F_z = -0.6 - 2.4 = -3, about (-sin, cos, 0).
    for (found, expected) in found
        .moment
        .into_iter()
        .zip([3.0 * sine, -3.0 * cosine, 0.0])
    {
        place(found + 1.0, expected + 1.0, "moment");
    }
    place(found.force[1], 0.6 * sine, "force");
}

#[test]
fn a_slope_tips_where_the_weight_passes_through_the_edge() {
    // A weight 0.6 m over the ground, 0.5 m from the edge before it, 1.5 m from the one behind, 1 m from each side.
    let contacts = vec![[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]];
    footing_of(100.0, 0.5, contacts, |footing| {
        let found = footing.slopes_to_tip();
        for (slope, across) in found.iter().zip([1.0_f64, 0.5, 1.0, 1.5]) {
            limit(libm::tan(*slope) * 0.6, across, "slope");
        }
    });
    // On level ground the reference machine's slopes are its edge moments over weight and height.
    let machine = reference();
    let statics = statics(&machine, [1.29, 1.2045, 0.965_54]);
    let stance = machine.stance("tracks", 0.0);
    let footing = Footing::new(&machine.shape, &statics.placed, &stance);
    let arm = reckon::arm::force::whole_arm(&machine.shape, &statics.placed);
    let mass = arm.mass + 145.0 + 5000.0;
    let height = (arm.mass * arm.centre.z + 145.0 * 0.75 + 5000.0 * 0.86) / mass;
    for (slope, moment) in footing.slopes_to_tip().iter().zip(footing.edge_moments()) {
        limit(
            libm::tan(*slope),
            moment / (mass * machine.shape.gravity) / height,
            "slope",
        );
    }
}

#[test]
fn three_supports_round_the_weight_carry_a_third_each() {
    // Statics: the weight stands at the mean of three points, none of them beside an axis.
    let contacts = vec![[0.2, -0.4], [1.4, 0.3], [-0.1, 0.1]];
    footing_of(100.0, 0.5, contacts, |footing| {
        for reaction in footing.reactions(0.0, &Wrench::default()).unwrap() {
            limit(reaction, 327.0, "a third");
        }
    });
}
