//! Ram lengths, angles, places and reach, against the reference machine, a mini excavator and a textbook.

use reckon::arm::pose::{Elbow, Placed, bucket_volume, reach_figures, to_reach};
use reckon::arm::shape::{ArmShape, Joint, SHAPE_NUMBERS, ShapeTrouble, Stop, Triangle, Vector};

use crate::machine::{mini_excavator, reference};
use crate::table::{close, place, rows};

fn joint(name: &str) -> Joint {
    match name {
        "boom" => Joint::Boom,
        "dipper" => Joint::Dipper,
        "bucket" => Joint::Bucket,
        other => panic!("no ram {other}"),
    }
}

#[test]
fn lengths_angles_and_levers_of_the_reference_machine() {
    let shape = reference().shape;
    assert_eq!(shape.troubles(), []);
    for row in rows("ram-angles.csv") {
        let (joint, length) = (joint(row.text("ram")), row.number("length"));
        let (angle, lever) = (row.number("angle"), row.number("lever"));
        let there = match joint {
            Joint::Boom => shape.boom_triangle.at_length(joint, length),
            Joint::Dipper => shape.dipper_triangle.at_length(joint, length),
            Joint::Bucket => shape.linkage.at_length(length).map(|pose| pose.grip),
        }
        .unwrap();
        place(there.angle, angle, "angle from length");
        place(there.lever, lever, "lever from length");
        let back = match joint {
            Joint::Boom => shape.boom_triangle.at_angle(joint, angle),
            Joint::Dipper => shape.dipper_triangle.at_angle(joint, angle),
            Joint::Bucket => shape.linkage.at_angle(angle).map(|pose| pose.grip),
        }
        .unwrap();
        place(back.length, length, "length from angle");
        place(back.lever, lever, "lever from angle");
    }
}

#[test]
fn pins_of_the_linkage() {
    let shape = reference().shape;
    for row in rows("linkage.csv") {
        let pose = shape.linkage.at_length(row.number("length")).unwrap();
        place(pose.shared.r, row.number("shared_r"), "shared pin");
        place(pose.shared.z, row.number("shared_z"), "shared pin");
        place(pose.link_pin.r, row.number("link_r"), "link pin");
        place(pose.link_pin.z, row.number("link_z"), "link pin");
        // How far link and crank, and ram and lever, are from lying in line: by the pins of the table.
        let (pins, bar) = (
            Vector::new(row.number("shared_r"), row.number("shared_z")),
            &shape.linkage,
        );
        let link_pin = Vector::new(row.number("link_r"), row.number("link_z"));
        let sine = |one: Vector, other: Vector| one.cross(other) / (one.length() * other.length());
        place(
            pose.link_grip.abs(),
            sine(pins - link_pin, link_pin - bar.bucket_pin()).abs(),
            "link",
        );
        place(
            pose.ram_grip.abs(),
            sine(pins - bar.barrel(), pins - bar.lever_pin()).abs(),
            "ram",
        );
        place(pose.lever_rate, row.number("lever_rate"), "lever rate");
    }
}

#[test]
fn every_pin_of_every_pose() {
    let shape = reference().shape;
    for row in rows("poses.csv") {
        let by_length = Placed::at_lengths(&shape, row.ram_lengths()).unwrap();
        let by_angle = Placed::at_angles(&shape, by_length.angles()).unwrap();
        assert!(by_length.within_travel());
        for (ram, angle) in ["boom", "dipper", "bucket"].iter().zip(by_length.angles()) {
            place(angle, row.number(&format!("{ram}_angle")), "angle");
        }
        for placed in [by_length, by_angle] {
            for (name, found) in [
                ("tooth", placed.tooth),
                ("bucket_pin", placed.pivots[2]),
                ("dipper_pin", placed.pivots[1]),
                ("heel", placed.heel),
                ("shared", placed.rods[2]),
                ("link_pin", placed.link_pin),
            ] {
                place(found.r, row.number(&format!("{name}_r")), name);
                place(found.z, row.number(&format!("{name}_z")), name);
            }
        }
    }
}

#[test]
fn the_tooth_brought_back_to_where_it_was() {
    let shape = reference().shape;
    for row in rows("poses.csv") {
        let placed = Placed::at_lengths(&shape, row.ram_lengths()).unwrap();
        let attitude = placed.angles().iter().sum();
        let ways = to_reach(&shape, placed.tooth, attitude).unwrap();
        let back = ways.iter().find_map(|way| way.placed_within_travel(&shape));
        let lengths = back.unwrap().lengths();
        for (found, expected) in lengths.into_iter().zip(row.ram_lengths()) {
            // Of a stretched arm the angle comes from an arc cosine near 1, which costs half the digits.
            close(found, expected, 1e-9, 1e-9, "length");
        }
    }
}

#[test]
fn how_deep_far_and_high() {
    // Envelope of the reference machine: closed form and a search by differential evolution agree to 1e-13.
    let figures = reach_figures(&reference().shape).unwrap();
    assert!(figures.deepest.by_formula);
    place(
        figures.deepest.placed.tooth.z,
        -3.646_641_809_631_885_3,
        "depth",
    );
    place(
        figures.deepest.placed.tooth.r,
        1.613_760_171_850_839_6,
        "depth, reach",
    );
    let far = figures.farthest_on_ground.unwrap();
    assert!(far.by_formula);
    place(
        far.placed.tooth.r,
        4.881_701_022_024_005,
        "reach on the ground",
    );
    place(far.placed.tooth.z, 0.0, "reach on the ground, height");
    place(
        far.placed.lengths()[0],
        1.403_240_804_066_520_7,
        "boom ram at full reach",
    );
    let dump = figures.highest_dump.unwrap().placed;
    close(
        dump.tooth.z,
        3.130_913_813_456_164,
        1e-9,
        0.0,
        "dump height",
    );
    close(
        dump.pivots[2].z,
        3.980_913_813_456_164,
        1e-9,
        0.0,
        "bucket pin",
    );
    place(dump.tooth.r, dump.pivots[2].r, "tooth plumb below the pin");
}

#[test]
fn where_the_plain_formula_does_not_hold_a_search_takes_its_place() {
    let mut shape = reference().shape;
    let whole = reach_figures(&shape).unwrap();
    // A dipper ram that cannot come out far: the dipper cannot hang plumb below the lowered boom.
    shape.rams[1].stroke = 0.05;
    // A bucket ram that cannot stretch the bucket in line with the arm.
    shape.rams[2].closed += 0.3;
    shape.rams[2].stroke -= 0.3;
    let less = reach_figures(&shape).unwrap();
    let (far, all_far) = (
        less.farthest_on_ground.unwrap(),
        whole.farthest_on_ground.unwrap(),
    );
    assert!(!less.deepest.by_formula && !far.by_formula);
    assert!(less.deepest.placed.tooth.z > whole.deepest.placed.tooth.z);
    assert!(far.placed.tooth.r < all_far.placed.tooth.r);
    close(far.placed.tooth.z, 0.0, 0.0, 1e-12, "on the ground");
    assert!(far.placed.within_travel() && less.deepest.placed.within_travel());
}

#[test]
fn the_six_pairs_printed_for_the_mini_excavator() {
    // Read: an open model of a mini excavator's arm, comment of its demonstration: six pairs, four digits.
    let shape = mini_excavator().shape;
    assert_eq!(shape.troubles(), []);
    for (joint, length, angle) in [
        (Joint::Boom, 0.905, -0.4737),
        (Joint::Boom, 1.305, 1.0923),
        (Joint::Dipper, 1.556, -2.5848),
        (Joint::Dipper, 1.046, -0.5103),
        (Joint::Bucket, 1.26, -2.8659),
        (Joint::Bucket, 0.84, 0.7839),
    ] {
        close(
            shape.angle_at(joint, length).unwrap(),
            angle,
            0.0,
            1e-4,
            "angle",
        );
    }
    // The same model prints a cubic for the bucket's lever, good to 0.0033 m between -2.6 and 0.73 rad.
    for angle in [-1.666, -0.666, 0.134] {
        let fit = 0.0192 * angle * angle * angle + 0.0864 * angle * angle + 0.045 * angle - 0.1695;
        let lever = shape.linkage.at_angle(angle).unwrap().grip.lever;
        close(lever, fit, 0.0, 0.004, "lever");
    }
}

#[test]
fn a_textbook_arm_of_three_links() {
    // Craig, Introduction to Robotics, exercise of chapter 4: links 4, 3 and 2; read. Angles in degrees.
    let mut shape = reference().shape;
    shape.foot = Vector::default();
    (
        shape.boom_length,
        shape.dipper_length,
        shape.bucket.tip_radius,
    ) = (4.0, 3.0, 2.0);
    let reach = |r, z, attitude: f64| to_reach(&shape, Vector::new(r, z), attitude.to_radians());
    for (r, z, attitude, elbow, angles, within) in [
        (9.0, 0.0, 0.0, Elbow::Down, [0.0, 0.0, 0.0], 1e-5),
        (7.5373, 3.9266, 60.0, Elbow::Down, [10.0, 20.0, 30.0], 0.02),
        (
            7.5373,
            3.9266,
            60.0,
            Elbow::Up,
            [27.1146, -20.0020, 52.8874],
            0.02,
        ),
        (-3.0, 2.0, -90.0, Elbow::Down, [90.0, 90.0, 90.0], 1e-6),
        (
            -3.0,
            2.0,
            -90.0,
            Elbow::Up,
            [163.739_795_3, -90.0, -163.739_795_3],
            1e-4,
        ),
    ] {
        let ways = reach(r, z, attitude).unwrap();
        let way = ways.iter().find(|way| way.elbow == elbow).unwrap();
        for (found, expected) in way.angles.iter().zip(angles) {
            close(found.to_degrees(), expected, 0.0, within, "angle");
        }
    }
    let ShapeTrouble::OutOfReach { needed, between } = reach(-3.1245, 9.1674, -30.0).unwrap_err()
    else {
        panic!("out of reach")
    };
    close(needed, 11.267_746_380_998_195, 1e-9, 0.0, "distance needed");
    assert_eq!(between, (1.0, 7.0));
}

#[test]
fn beyond_the_stroke_is_said_and_not_clamped() {
    let shape = reference().shape;
    let placed = Placed::at_lengths(&shape, [0.925, 0.975, 1.395]).unwrap();
    assert!(!placed.within_travel());
    let Stop::TooShort(by) = placed.stops[0] else {
        panic!("{:?}", placed.stops[0])
    };
    close(by, 0.01, 0.0, 1e-12, "too short");
    assert_eq!(placed.stops[1..], [Stop::FullyIn, Stop::FullyOut]);
    assert_eq!(placed.lengths()[0], 0.925);
}

#[test]
fn an_arm_as_numbers_and_back() {
    for machine in [reference(), mini_excavator()] {
        let numbers = machine.shape.to_numbers();
        assert_eq!(numbers.len(), SHAPE_NUMBERS);
        assert_eq!(
            ArmShape::from_numbers("shape", &numbers).unwrap(),
            machine.shape
        );
        let short = ArmShape::from_numbers("shape", &numbers[1..]).unwrap_err();
        assert_eq!(
            (short.code(), short.input()),
            ("wrong-count", Some("shape"))
        );
        let mut broken = numbers;
        broken[7] = f64::NAN;
        assert_eq!(
            ArmShape::from_numbers("shape", &broken).unwrap_err().code(),
            "not-a-number"
        );
    }
}

#[test]
fn an_arm_that_can_stretch_straight_reaches_by_pythagoras() {
    let mut shape = reference().shape;
    let triangle = shape.dipper_triangle;
    let rod = triangle.rod().turned(Vector::at_angle(-0.6));
    shape.dipper_triangle = Triangle::new(triangle.barrel(), rod, triangle.turns());
    let far = reach_figures(&shape).unwrap().farthest_on_ground.unwrap();
    assert!(far.by_formula);
    close(far.placed.angles()[1], 0.0, 0.0, 1e-12, "dipper in line");
    let straight: f64 = 2.35 + 1.55 + 0.85;
    place(
        far.placed.tooth.r,
        0.24 + (straight * straight - 0.66 * 0.66).sqrt(),
        "reach",
    );
}

#[test]
fn what_a_bucket_holds_struck_and_heaped() {
    // By geometry: a half round of radius 0.3 m, close to pi r^2 / 2 x W, and on its opening of 0.6 m a heap of 1:1. For a
    // width of 0.6 m that is a pyramid of 0.3 m: 0.036 m3; for 0.9 m and 0.4 m hip roofs, cut into prism and two halves.
    let round: Vec<Vector> = (0..=2000)
        .map(|step| Vector::at_angle(std::f64::consts::PI * (1.0 + f64::from(step) / 2000.0)) * 0.3)
        .collect();
    for (width, heap) in [
        (0.6, 0.6 * 0.6 * 0.3 / 3.0),
        (0.9, 0.3 * 0.09 + 0.6 * 0.6 * 0.3 / 3.0),
        (0.4, 0.2 * 0.04 + 0.4 * 0.4 * 0.2 / 3.0),
    ] {
        let volume = bucket_volume(&round, width).unwrap();
        close(
            volume.struck,
            std::f64::consts::PI * 0.045 * width,
            1e-6,
            0.0,
            "struck",
        );
        close(volume.heaped - volume.struck, heap, 1e-12, 0.0, "heap");
    }
}

#[test]
fn a_point_of_the_bucket_in_the_arm_plane() {
    let shape = reference().shape;
    let placed = Placed::at_lengths(&shape, [1.29, 1.2045, 0.965_54]).unwrap();
    assert_eq!(placed.on_bucket(shape.bucket.heel), placed.heel);
    let tooth = placed.on_bucket(Vector::new(shape.bucket.tip_radius, 0.0));
    close((tooth - placed.tooth).length(), 0.0, 0.0, 1e-12, "tooth");
}
