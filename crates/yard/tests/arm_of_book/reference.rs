//! The reference machine, read from its book, gives the tables that independent methods give.

use reckon::arm::force::{Allowed, Edge, Governs};
use reckon::arm::shape::Side;
use yard::arm::{ArmOfBook, Direction, PoseAsked, PoseRecord, machine, pin_forces, pose, to_reach};

use crate::table::{Row, close, force, limit, place, reference, rows};

fn at(arm: &ArmOfBook, lengths: [f64; 3]) -> PoseRecord {
    pose(arm, &PoseAsked::at(lengths)).unwrap()
}

fn direction(name: &str) -> usize {
    ["curl", "crowd", "push_down", "pull_up"]
        .iter()
        .position(|one| *one == name)
        .unwrap()
}

fn stance(name: &str) -> usize {
    ["tracks", "tracks_and_stabilisers", "bucket_and_stabilisers"]
        .iter()
        .position(|one| *one == name)
        .unwrap()
}

#[test]
fn nothing_is_missing_and_nothing_guessed() {
    let arm = reference();
    assert_eq!(arm.missing, []);
    assert_eq!(arm.troubles, []);
    assert!(!arm.guesses.any());
    assert_eq!(arm.digs_from, Some(2));
}

#[test]
fn poses() {
    let arm = reference();
    for row in rows("poses.csv") {
        let record = at(&arm, row.ram_lengths());
        for (ram, name) in ["boom", "dipper", "bucket"].iter().enumerate() {
            place(
                record.angles[ram],
                row.number(&format!("{name}_angle")),
                "angle",
            );
        }
        let heel = record.heel.unwrap();
        for (found, name) in [
            (record.tooth, "tooth"),
            (heel, "heel"),
            (record.pivots[2], "bucket_pin"),
            (record.pivots[1], "dipper_pin"),
            (record.rods[2], "shared"),
            (record.link_pin, "link_pin"),
        ] {
            place(found.r, row.number(&format!("{name}_r")), name);
            place(found.z, row.number(&format!("{name}_z")), name);
        }
        let back = to_reach(&arm, record.tooth, record.attitude).unwrap();
        let off = |lengths: &[f64; 3]| {
            let asked = row.ram_lengths();
            (0..3)
                .map(|ram| (lengths[ram] - asked[ram]).abs())
                .fold(0.0, f64::max)
        };
        assert!(back.iter().any(|lengths| off(lengths) < 1e-9));
    }
}

fn allowed(found: Allowed, expected: Option<f64>, what: &str) {
    match expected {
        Some(expected) => limit(found.newtons().unwrap(), expected, what),
        None => assert_eq!(found, Allowed::Unlimited, "{what}"),
    }
}

fn governing(governs: Governs) -> String {
    match governs {
        Governs::Working(joint) => format!("{}_ram_active", joint.code()),
        Governs::Holding(joint) => format!("{}_ram_holding", joint.code()),
        Governs::Tipping(_) => "tipping".to_owned(),
        Governs::Sliding => "sliding".to_owned(),
    }
}

#[test]
fn forces() {
    let arm = reference();
    for row in rows("forces.csv") {
        let lengths = rows("poses.csv")[row.number("pose") as usize].ram_lengths();
        let record = at(&arm, lengths);
        let index = direction(row.text("cut"));
        let found = record.forces[index].as_ref().unwrap();
        assert_eq!(found.direction, Direction::ALL[index]);
        place(
            found.cut.direction.r,
            row.number("direction_r"),
            "direction",
        );
        place(
            found.cut.direction.z,
            row.number("direction_z"),
            "direction",
        );
        let hanging = record.hanging.unwrap();
        for (ram, name) in ["boom", "dipper", "bucket"].iter().enumerate() {
            force(hanging[ram].thrust, row.rams("hanging")[ram], "hanging");
            let per = row.rams("per_newton")[ram];
            close(found.per_newton[ram], per, 1e-10, 1e-10, "per newton");
            let of = |kind: &str| row.maybe(&format!("{kind}_{name}"));
            allowed(found.rams[ram].working.unwrap(), of("working"), "working");
            allowed(found.rams[ram].holding.unwrap(), of("holding"), "holding");
        }
        for name in ["tracks", "tracks_and_stabilisers", "bucket_and_stabilisers"] {
            let (tips, _) = found.standing[stance(name)].tips.unwrap();
            allowed(tips, row.maybe(&format!("tips_{name}")), "tips");
        }
        let slides = found.standing[2].slides.unwrap();
        allowed(slides, row.maybe("slides"), "slides");
        let (usable, governs) = found.usable.unwrap();
        limit(usable.newtons().unwrap(), row.number("usable"), "usable");
        assert_eq!(governing(governs), row.text("governs"));
        let share = found.share.unwrap();
        let most = share.iter().copied().fold(0.0, f64::max);
        match governs.joint() {
            Some(joint) => close(share[joint.index()], 1.0, 1e-9, 0.0, "share"),
            None => assert!(most <= 1.0 + 1e-9, "{share:?}"),
        }
    }
}

#[test]
fn standing() {
    let arm = reference();
    let axis = arm.axis.unwrap();
    let edge = |index: f64| {
        if index < 0.0 {
            Edge::Whole
        } else {
            Edge::From(index as usize)
        }
    };
    for row in rows("stability.csv") {
        let asked = PoseAsked {
            swing: row.number("swing_degrees").to_radians(),
            ..PoseAsked::at(row.ram_lengths())
        };
        let record = pose(&arm, &asked).unwrap();
        let index = stance(row.text("stance"));
        let found = record.footing[index].figures.as_ref().unwrap();
        force(found.load_point.load, row.number("load"), "load");
        place(found.load_point.place[0] - axis, row.number("place_x"), "x");
        place(found.load_point.place[1], row.number("place_y"), "y");
        let reactions = found.reactions.as_ref().unwrap();
        assert_eq!(reactions.len(), 4);
        for (corner, reaction) in reactions.iter().enumerate() {
            let name = |what: &str| row.number(&format!("{what}_{corner}"));
            force(found.edge_moments[corner], name("edge"), "edge");
            force(*reaction, name("reaction"), "reaction");
        }
        if index > 0 {
            // The feet are the two corners on the arm's side; in the front it stands on tracks or the loader's bucket.
            let pads = found.pad_pressure.as_ref().unwrap();
            let under = |corner: usize| Some(reactions[corner] / 0.12);
            assert_eq!(*pads, [None, under(1), under(2), None]);
        }
        let (tips, over) = found.tips_at_pin;
        limit(tips / 9.80665, row.number("tipping_kg"), "tipping load");
        assert_eq!(over, edge(row.number("tipping_edge")));
        for name in ["curl", "push_down", "pull_up"] {
            let force = record.forces[direction(name)].as_ref().unwrap();
            let (tips, over) = force.standing[index].tips.unwrap();
            let expected = row.maybe(&format!("tips_{name}"));
            allowed(tips, expected, name);
            if expected.is_some() {
                assert_eq!(over, edge(row.number(&format!("edge_{name}"))));
            }
        }
    }
}

#[test]
fn oil_in_the_tank() {
    let arm = reference();
    for row in rows("tank.csv") {
        let shares = ["boom", "dipper", "bucket"].map(|ram| row.number(&format!("{ram}_out")));
        let mut asked = PoseAsked::at(yard::arm::lengths_out(&arm, shares).unwrap());
        asked.temperature = Some(row.number("temperature"));
        for (id, column) in [
            ("loader-lift-rams", "loader_lift_out"),
            ("loader-tilt-rams", "loader_tilt_out"),
            ("feet-rams", "stabiliser_out"),
        ] {
            asked.others_out.insert(id.to_owned(), row.number(column));
        }
        let tank = pose(&arm, &asked).unwrap().tank.unwrap();
        place(tank.volume.unwrap(), row.number("tank_volume"), "volume");
        place(tank.level.unwrap(), row.number("level"), "level");
        assert_eq!(tank.taken_as_in, Vec::<String>::new());
    }
}

fn pressures(row: &Row) -> [(Side, f64); 3] {
    ["boom", "dipper", "bucket"].map(|ram| {
        let of = |side: &str| row.number(&format!("{side}_{ram}"));
        if of("cap") > 0.0 {
            (Side::Cap, of("cap"))
        } else {
            (Side::Rod, of("rod"))
        }
    })
}

#[test]
fn hanging_and_shut_in() {
    let arm = reference();
    for row in rows("hanging.csv") {
        let asked = PoseAsked::at(row.ram_lengths());
        let rest = pose(&arm, &asked).unwrap().rest.unwrap();
        let loaded = PoseAsked {
            load: 200.0,
            ..asked
        };
        let loaded = pose(&arm, &loaded).unwrap().hanging.unwrap();
        for (ram, under_load) in loaded.iter().enumerate() {
            let (side, pressure) = pressures(&row)[ram];
            force(rest.shut_in[ram].thrust, row.rams("thrust")[ram], "thrust");
            assert_eq!(rest.shut_in[ram].side, side);
            close(
                rest.shut_in[ram].pressure,
                pressure,
                1e-10,
                1e-3,
                "pressure",
            );
            force(
                rest.boom_pinned[ram].thrust,
                row.rams("pinned")[ram],
                "pinned",
            );
            force(under_load.thrust, row.rams("loaded")[ram], "loaded");
        }
    }
}

#[test]
fn bucket_down_and_the_boom_bled() {
    let arm = reference();
    for row in rows("resting.csv") {
        let rest = at(&arm, row.ram_lengths()).rest.unwrap();
        let flat = rest.flat.unwrap();
        limit(flat.load, row.number("all_load"), "load");
        limit(flat.from_tooth, row.number("all_from_tooth"), "from tooth");
        limit(flat.friction, row.number("all_friction"), "friction");
        force(rest.lock_moment, row.number("pin_moment"), "lock pin");
        let bled = rest.bled[0].unwrap();
        limit(bled.load, row.number("boom_bled_load"), "load");
        for ram in 1..3 {
            force(bled.rams[ram].thrust, row.rams("boom_bled")[ram], "bled");
        }
        assert_eq!(bled.rams[0].thrust, 0.0);
        assert!(bled.turned[2], "the bucket ram reverses");
    }
}

#[test]
fn swing_buckling_and_lift() {
    let arm = reference();
    for row in rows("swing.csv") {
        let asked = PoseAsked {
            swing: row.number("angle"),
            ..PoseAsked::at([1.29, 1.2045, 0.96554])
        };
        let swing = pose(&arm, &asked).unwrap().swing.unwrap();
        place(swing.lengths[0], row.number("length_first"), "length");
        force(
            swing.towards_left.unwrap(),
            row.number("torque_plus"),
            "left",
        );
        force(
            swing.towards_right.unwrap(),
            row.number("torque_minus"),
            "right",
        );
        place(
            swing.oil_per_radian,
            row.number("volume_per_radian_plus"),
            "oil",
        );
        force(swing.holds.unwrap(), row.number("torque_hold"), "holds");
    }
    for row in rows("swing-poses.csv") {
        let swing = at(&arm, row.ram_lengths()).swing.unwrap();
        place(swing.speed.unwrap(), row.number("speed"), "speed");
        force(swing.side_force.unwrap(), row.number("side_force"), "side");
        // What the parts have about their own centres is not in a book: less, by no more than a tenth.
        let share = swing.inertia_at_least.unwrap() / row.number("inertia");
        assert!((0.9..1.0).contains(&share), "{share}");
        let root = swing.sections.unwrap()[0];
        limit(root.mises, row.number("root_mises"), "mises");
    }
    for row in rows("buckling.csv") {
        let ram = ["boom", "dipper", "bucket"]
            .iter()
            .position(|name| *name == row.text("ram"))
            .unwrap();
        let mut lengths = yard::arm::lengths_out(&arm, [0.5; 3]).unwrap();
        lengths[ram] = row.number("length");
        let column = at(&arm, lengths).columns[ram].unwrap();
        close(
            column.critical,
            row.number("critical"),
            1e-9,
            0.0,
            "critical",
        );
        close(column.rankine, row.number("rankine"), 1e-9, 0.0, "rankine");
        let reserve = column.reserve_working.unwrap();
        close(reserve, row.number("margin_working"), 1e-9, 0.0, "reserve");
        let reserve = column.reserve_holding.unwrap();
        close(reserve, row.number("margin_holding"), 1e-9, 0.0, "reserve");
    }
    for row in rows("lift.csv") {
        let shape = arm.shape.as_ref().unwrap();
        let angles = ["boom", "dipper", "bucket"].map(|ram| row.number(&format!("{ram}_angle")));
        let lengths = reckon::arm::pose::Placed::at_angles(shape, angles)
            .unwrap()
            .lengths();
        let lift = at(&arm, lengths).lift.unwrap();
        limit(
            lift.boom.newtons().unwrap(),
            row.number("boom_working"),
            "boom",
        );
        limit(lift.standing[2].tips.unwrap(), row.number("tips_0"), "tips");
        let (rated, _) = lift.standing[2].rated.unwrap();
        limit(rated / 9.80665, row.number("rated_0"), "rated");
    }
}

#[test]
fn standard_forces_of_the_best_pose() {
    let record = machine(&reference());
    let standard = record.standard.unwrap();
    // Computed beside the tables: SAE J1179 by its definition, at the tooth's tip.
    limit(standard.curl.force, 28_948.887_019_617_923, "curl");
    limit(standard.crowd.force, 23_600.319_881_090_13, "crowd");
    assert_eq!(standard.at.code(), "tooth-tip");
    // The same source: by formula and by search over the strokes.
    let reach = record.reach.unwrap();
    let farthest = reach.farthest_on_ground.unwrap().placed;
    let dump = reach.highest_dump.unwrap().placed;
    close(
        reach.deepest.placed.tooth.z,
        -3.646_641_809_631_885,
        1e-9,
        0.0,
        "depth",
    );
    close(farthest.tooth.r, 4.881_701_022_024_005, 1e-9, 0.0, "reach");
    close(dump.pivots[2].z, 3.980_913_813_456_164, 1e-9, 0.0, "dump");
}

#[test]
fn pins_under_a_curl_and_where_a_ram_would_buckle() {
    let arm = reference();
    for row in rows("pin-forces.csv") {
        let lengths = rows("poses.csv")[row.number("pose") as usize].ram_lengths();
        let record = at(&arm, lengths);
        let curl = record.forces[0].as_ref().unwrap();
        let asked = PoseAsked::at(lengths);
        let pins = pin_forces(&arm, &asked, curl.cut.direction * 8000.0).unwrap();
        force(pins.foot.r, row.number("foot_r"), "foot");
        force(pins.foot.z, row.number("foot_z"), "foot");
        for (ram, limit) in curl.rams.iter().enumerate() {
            let critical = record.columns[ram].unwrap().critical;
            match limit.buckles.unwrap() {
                Allowed::UpTo(at) => {
                    let thrust = record.hanging.unwrap()[ram].thrust + at * curl.per_newton[ram];
                    close(thrust, critical, 1e-9, 0.0, "thrust");
                }
                // A pull never buckles.
                allowed => assert!(curl.per_newton[ram] <= 0.0, "{allowed:?}"),
            }
        }
    }
}
