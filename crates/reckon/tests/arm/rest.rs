//! At rest and swung, against the reference machine and published examples.

use reckon::arm::force::{Footing, Statics};
use reckon::arm::force::{LiftLimit, lift};
use reckon::arm::pose::Placed;
use reckon::arm::rest::{
    Parked, RamColumn, Tank, TankRams, bled, flat_on_the_ground, heat_pressure, least_shut_in,
    rankine, tank_level,
};
use reckon::arm::shape::{Joint, Side, Vector, Weight};
use reckon::arm::swing::{
    BoomBox, Inertias, SwingRams, energy, spring_force, stop_forces, swing_inertia,
};

use crate::forces::statics;
use crate::machine::{Machine, number, numbers, point, reference};
use crate::table::{close, force, limit, place, rows};

#[test]
fn what_is_shut_in_while_it_hangs() {
    let (machine, mut loaded) = (reference(), reference());
    loaded.shape.bucket.load.mass = 200.0;
    for row in rows("hanging.csv") {
        let hanging = statics(&machine, row.ram_lengths());
        let parked = Parked::hanging(&machine.shape, &hanging, false);
        let pinned = Parked::hanging(&machine.shape, &hanging, true);
        let full = statics(&loaded, row.ram_lengths());
        for (ram, name) in ["boom", "dipper", "bucket"].iter().enumerate() {
            force(parked.rams[ram].thrust, row.rams("thrust")[ram], "thrust");
            force(full.hanging[ram], row.rams("loaded")[ram], "loaded");
            force(pinned.rams[ram].thrust, row.rams("pinned")[ram], "pinned");
            let both = [
                row.number(&format!("cap_{name}")),
                row.number(&format!("rod_{name}")),
            ];
            let (side, expected) = if both[0] > 0.0 {
                (Side::Cap, both[0])
            } else {
                (Side::Rod, both[1])
            };
            assert_eq!(parked.rams[ram].side, side);
            limit(parked.rams[ram].pressure, expected, "pressure");
        }
    }
}

#[test]
fn bucket_down_and_the_boom_bled_does_not_relax_the_others() {
    let machine = reference();
    for row in rows("resting.csv") {
        let angles = ["boom", "dipper", "bucket"].map(|ram| row.number(&format!("{ram}_angle")));
        let placed = Placed::at_angles(&machine.shape, angles).unwrap();
        let statics = Statics::hanging(&machine.shape, placed).unwrap();
        close(placed.tooth.z, 0.0, 0.0, 1e-12, "tooth on the ground");
        close(placed.heel.z, 0.0, 0.0, 1e-12, "heel on the ground");
        let middle = (placed.tooth + placed.heel) * 0.5;
        let after = bled(&statics, middle, Joint::Boom).unwrap();
        limit(after.load, row.number("boom_bled_load"), "load");
        for ram in 0..3 {
            force(statics.hanging[ram], row.rams("hanging")[ram], "hanging");
            force(after.thrusts[ram], row.rams("boom_bled")[ram], "boom bled");
        }
        assert!(
            after.thrusts[2] * statics.hanging[2] < 0.0,
            "the bucket ram reverses"
        );
        assert!(
            after.thrusts[2].abs() > 6.9 * statics.hanging[2].abs(),
            "and grows"
        );
        force(
            statics.gravity[0],
            row.number("pin_moment"),
            "moment that a boom pin takes",
        );
    }
}

#[test]
fn flat_on_the_plate_only_an_upright_dipper_rests() {
    let machine = reference();
    for row in rows("resting.csv") {
        let angles = ["boom", "dipper", "bucket"].map(|ram| row.number(&format!("{ram}_angle")));
        let placed = Placed::at_angles(&machine.shape, angles).unwrap();
        let flat = flat_on_the_ground(&Statics::hanging(&machine.shape, placed).unwrap()).unwrap();
        limit(flat.load, row.number("all_load"), "load");
        limit(flat.level, row.number("all_level"), "level force");
        limit(
            flat.from_tooth,
            row.number("all_from_tooth"),
            "from the tooth",
        );
        place(flat.plate, row.number("plate"), "plate");
        limit(flat.friction, row.number("all_friction"), "friction");
        assert_eq!(flat.rests_on(0.5), row.text("all_rests") == "yes");
        assert!(!flat.rests_on(0.0));
    }
    // The two of the report that are true rests: dipper near plumb, friction needed 0.07 and 0.14, printed to two digits.
    let shape = &machine.shape;
    let plate = shape.bucket.heel - Vector::new(shape.bucket.tip_radius, 0.0);
    for (dipper, friction) in [(-79.8_f64, 0.07), (-100.2_f64, 0.14)] {
        let dipper = dipper.to_radians();
        let angles = [0.628, dipper - 0.628, -plate.angle() - dipper];
        let placed = Placed::at_angles(shape, angles).unwrap();
        let flat = flat_on_the_ground(&Statics::hanging(shape, placed).unwrap()).unwrap();
        close(flat.friction, friction, 0.0, 0.005, "friction");
        assert!(flat.rests_on(0.5) && !flat.rests_on(0.05));
    }
}

#[test]
fn the_arm_moves_where_the_ground_cannot_carry_it() {
    let machine = reference();
    let hanging = statics(&machine, [1.29, 1.2045, 0.965_54]);
    let inside = Vector::new(0.0, 0.0);
    assert!(bled(&hanging, inside, Joint::Boom).is_err());
    let at_the_pin = Vector::new(hanging.placed.pivots[0].r, 0.0);
    assert!(bled(&hanging, at_the_pin, Joint::Boom).is_err());
}

#[test]
fn the_least_shut_in_comes_first() {
    let machine = reference();
    let parked = |lengths| Parked::hanging(&machine.shape, &statics(&machine, lengths), false);
    let pose = [1.29, 1.2045, 0.965_54];
    let pinned = Parked::hanging(&machine.shape, &statics(&machine, pose), true);
    let ways = [parked([1.361, 0.975, 0.85]), parked(pose), pinned];
    assert_eq!(least_shut_in(&ways), [2, 1, 0]);
}

#[test]
fn heat_in_a_circuit_that_is_shut_on_both_sides() {
    // A page on fluid power: about 11 bar for each degree, read; 7e-4 x 1.6 GPa = 11.2 bar.
    close(
        heat_pressure(20.0, 7e-4, 1.6e9),
        220e5,
        0.02,
        0.0,
        "twenty degrees",
    );
}

fn column(machine: &Machine, name: &str) -> (RamColumn, Joint) {
    let joint = [Joint::Boom, Joint::Dipper, Joint::Bucket][["boom", "dipper", "bucket"]
        .iter()
        .position(|ram| *ram == name)
        .unwrap()];
    let sizes = &machine.file["rams"][name];
    let (tube, gland) = (
        number(sizes, "tube_diameter"),
        number(sizes, "barrel_pin_to_gland"),
    );
    let steel = number(&machine.file["steel"], "elasticity");
    (RamColumn::of(machine.ram(joint), tube, gland, steel), joint)
}

#[test]
fn rams_as_columns() {
    let machine = reference();
    for row in rows("buckling.csv") {
        let (column, joint) = column(&machine, row.text("ram"));
        let critical = column.critical(row.number("length")).unwrap();
        close(critical, row.number("critical"), 1e-9, 0.0, "critical");
        close(
            column.rod_only(row.number("length")),
            row.number("rod_only"),
            1e-10,
            0.0,
            "rod only",
        );
        let squash = column.squash(number(&machine.file["steel"], "rod_yield"));
        close(squash, row.number("squash"), 1e-12, 0.0, "squash");
        close(
            rankine(critical, squash),
            row.number("rankine"),
            1e-9,
            0.0,
            "rankine",
        );
        let ram = machine.ram(joint);
        close(
            critical / ram.working().0,
            row.number("margin_working"),
            1e-9,
            0.0,
            "working",
        );
        close(
            critical / ram.holding().0,
            row.number("margin_holding"),
            1e-9,
            0.0,
            "holding",
        );
    }
}

#[test]
fn columns_of_handbooks_and_finite_differences() {
    // Derived by the characteristic equation and by a finite-difference eigenvalue, which agree to 0.2 %.
    for (bore, tube, rod, tube_length, rod_length, critical, rod_only) in [
        (
            0.063,
            0.075,
            0.036,
            0.7,
            0.6,
            177_351.792_080_186_66,
            101_114.220_290_849_44,
        ),
        (
            0.080,
            0.095,
            0.045,
            0.9,
            0.8,
            247_695.563_480_040_73,
            144_358.097_943_081_9,
        ),
    ] {
        let column = RamColumn {
            rod,
            bore,
            tube,
            to_gland: tube_length,
            elasticity: 210e9,
        };
        let length = tube_length + rod_length;
        close(
            column.critical(length).unwrap(),
            critical,
            1e-6,
            0.0,
            "stepped",
        );
        close(column.rod_only(length), rod_only, 1e-9, 0.0, "rod only");
    }
    // Wentzell, Machine Design, ex. 3.5, read: a round link of 5/8 in, 30 in long, pinned: 2464.16 lb with E = 30e6 psi.
    let inch = 0.0254;
    let pound_per_square_inch = 6_894.757_293_168;
    let link = RamColumn {
        rod: 0.625 * inch,
        bore: 0.0,
        tube: 0.0,
        to_gland: 0.0,
        elasticity: 30e6 * pound_per_square_inch,
    };
    close(
        link.rod_only(30.0 * inch) / 4.448_221_615_260_5,
        2464.16,
        0.0,
        0.005,
        "pounds",
    );
}

#[test]
fn lifting_at_the_bucket_pin() {
    let machine = reference();
    for row in rows("lift.csv") {
        let angles = ["boom", "dipper", "bucket"].map(|ram| row.number(&format!("{ram}_angle")));
        let placed = Placed::at_angles(&machine.shape, angles).unwrap();
        let statics = Statics::hanging(&machine.shape, placed).unwrap();
        close(
            placed.pivots[2].r,
            row.number("radius"),
            1e-9,
            0.0,
            "radius",
        );
        close(
            placed.pivots[2].z,
            row.number("height"),
            1e-9,
            1e-9,
            "height",
        );
        for degrees in ["0", "75"] {
            let stance = machine.stance("bucket_and_stabilisers", degrees.parse().unwrap());
            let found = lift(
                &machine.shape,
                &statics,
                &Footing::new(&machine.shape, &placed, &stance),
            );
            limit(
                found.boom.newtons().unwrap(),
                row.number("boom_working"),
                "boom",
            );
            limit(
                found.dipper.rank(),
                row.maybe("dipper_holding").unwrap_or(f64::INFINITY),
                "dipper",
            );
            limit(found.tips, row.number(&format!("tips_{degrees}")), "tips");
            let (rated, by) = found.rated();
            limit(
                rated / machine.shape.gravity,
                row.number(&format!("rated_{degrees}")),
                "rated",
            );
            let name = match by {
                LiftLimit::Hydraulic => "hydraulic",
                LiftLimit::Tipping => "tipping",
            };
            assert_eq!(name, row.text(&format!("governs_{degrees}")));
        }
    }
}

#[test]
fn the_oil_in_the_tank() {
    let machine = reference();
    let file = &machine.file["tank"];
    let tank = Tank {
        area: number(file, "length") * number(file, "width"),
        oil: number(file, "oil_at_reference"),
        elsewhere: number(file, "dead_volume"),
        expansion: number(file, "expansion"),
        reference: number(file, "reference_temperature"),
    };
    for row in rows("tank.csv") {
        let mut rams: Vec<TankRams> = Joint::ALL
            .iter()
            .map(|joint| {
                let (ram, name) = (
                    machine.ram(*joint),
                    ["boom", "dipper", "bucket"][joint.index()],
                );
                TankRams::of(
                    ram,
                    ram.closed + row.number(&format!("{name}_out")) * ram.stroke,
                )
            })
            .collect();
        for other in file["other_rams"].as_array().unwrap() {
            let out = row.number(&format!("{}_out", other["name"].as_str().unwrap()));
            let count = number(other, "count");
            let area =
                |key| std::f64::consts::PI / 4.0 * number(other, key) * number(other, key) * count;
            let stroke = number(other, "stroke");
            rams.push(TankRams {
                cap: area("bore"),
                rod: area("rod"),
                stroke,
                out: out * stroke,
            });
        }
        let swing = &machine.file["swing"];
        let straight = swing_rams(&machine).at(0.0).unwrap();
        for length in straight.lengths {
            let area = |key| std::f64::consts::PI / 4.0 * number(swing, key) * number(swing, key);
            let out = length - number(swing, "closed");
            rams.push(TankRams {
                cap: area("bore"),
                rod: area("rod"),
                stroke: number(swing, "stroke"),
                out,
            });
        }
        let level = tank_level(&tank, &rams, row.number("temperature"));
        place(level, row.number("level"), "level");
        place(level * tank.area, row.number("tank_volume"), "volume");
    }
}

fn swing_rams(machine: &Machine) -> SwingRams {
    let file = &machine.file["swing"];
    SwingRams {
        frame_pin: point(&file["frame_pin"]),
        post_pin: point(&file["post_pin"]),
        bore: number(file, "bore"),
        rod: number(file, "rod"),
    }
}

#[test]
fn torque_of_the_swing_rams_with_signed_levers() {
    let machine = reference();
    let rams = swing_rams(&machine);
    let supply = number(&machine.file["swing"], "supply");
    let relief = number(&machine.file["swing"], "crossover_relief");
    for row in rows("swing.csv") {
        let pose = rams.at(row.number("angle")).unwrap();
        place(pose.lengths[0], row.number("length_first"), "length");
        place(pose.lengths[1], row.number("length_second"), "length");
        close(
            pose.levers[0],
            row.number("lever_first"),
            1e-10,
            1e-12,
            "lever",
        );
        close(
            pose.levers[1],
            row.number("lever_second"),
            1e-10,
            1e-12,
            "lever",
        );
        force(
            supply * pose.towards_left,
            row.number("torque_plus"),
            "torque",
        );
        force(
            supply * pose.towards_right,
            row.number("torque_minus"),
            "torque",
        );
        force(
            relief * pose.towards_left,
            row.number("torque_hold"),
            "torque held",
        );
        place(
            pose.towards_left,
            row.number("volume_per_radian_plus"),
            "volume",
        );
    }
    close(
        rams.dead_centre().to_degrees(),
        70.880_273_670_068_86,
        1e-10,
        0.0,
        "dead centre",
    );
    let beyond = rams.at(75_f64.to_radians()).unwrap();
    let before = rams.at(65_f64.to_radians()).unwrap();
    assert!(
        beyond.levers[0] * before.levers[0] < 0.0,
        "beyond it the ram pushes the wrong way"
    );
}

#[test]
fn one_pushes_and_one_pulls() {
    // A service manual's principle, read: T = p (A_bore r1 + A_ring r2); arms of 0.21 m, 90 / 50 mm, 180 bar: 40 672.6 N m.
    // Rams square on their arms, far away: each lever is the arm.
    let rams = SwingRams {
        frame_pin: Vector::new(-1e6, 0.21),
        post_pin: Vector::new(0.0, 0.21),
        bore: 0.09,
        rod: 0.05,
    };
    let torque = 180e5 * rams.at(0.0).unwrap().towards_left;
    close(torque, 40_672.629_289_700_26, 1e-9, 0.0, "torque");
    close(
        torque / 4.2,
        9_683.959_354_690_536,
        1e-9,
        0.0,
        "side force at 4.2 m",
    );
}

fn inertias(machine: &Machine) -> Inertias {
    let file = &machine.file["inertia"];
    let post = &machine.file["weights"]["post"];
    let link = |name: &str| {
        let own = numbers(&file[name]);
        (own[0], own[2])
    };
    let bar = |name: &str| (number(&file[name], "along"), number(&file[name], "across"));
    let ram = |name: &str| {
        let own = &file[&format!("{name}_ram")];
        (
            number(own, "along"),
            number(own, "barrel_across"),
            number(own, "rod_across"),
        )
    };
    Inertias {
        post: (
            Weight {
                mass: number(post, "mass"),
                centre: point(&post["centre"]),
            },
            numbers(&file["post"])[2],
        ),
        links: ["boom", "dipper", "bucket"].map(link),
        linkage: ["lever", "link"].map(bar),
        rams: ["boom", "dipper", "bucket"].map(ram),
    }
}

#[test]
fn the_swinging_arm_and_what_stopping_it_does() {
    let machine = reference();
    let (rams, inertias) = (swing_rams(&machine), inertias(&machine));
    let file = &machine.file["swing"];
    let (supply, relief) = (number(file, "supply"), number(file, "crossover_relief"));
    for row in rows("swing-poses.csv") {
        let placed = Placed::at_lengths(&machine.shape, row.ram_lengths()).unwrap();
        let inertia = swing_inertia(&machine.shape, &placed, &inertias);
        close(inertia, row.number("inertia"), 1e-10, 0.0, "inertia");
        let straight = rams.at(0.0).unwrap();
        let speed = number(file, "pump_flow") / straight.towards_left;
        place(speed, row.number("speed"), "speed");
        let energy = energy(inertia, speed);
        close(energy, row.number("energy"), 1e-10, 0.0, "energy");
        let side = supply * straight.towards_left / placed.tooth.r;
        force(side, row.number("side_force"), "side force");
        let (mean, peak) = stop_forces(energy, 0.05).unwrap();
        limit(mean, row.number("mean_over_5cm"), "mean");
        limit(peak, row.number("spring_over_5cm"), "peak");
        let spring = spring_force(inertia, speed, row.number("stiffness"));
        limit(spring, row.number("stiffness_force"), "spring");
        let angle = rams.stop_angle(energy, relief, 0.0, 1.0).unwrap();
        close(angle, row.number("stop_angle"), 1e-9, 0.0, "stop angle");
        limit(
            energy / angle / placed.tooth.r,
            row.number("stop_force"),
            "stop force",
        );
        for name in ["root", "mid"] {
            let stress = boom_box(&machine, name).under_side_force(&placed, side);
            for (found, column) in [
                (stress.bending, "bending"),
                (stress.torsion, "torsion"),
                (stress.normal, "normal"),
                (stress.shear, "shear"),
                (stress.mises, "mises"),
            ] {
                // Sizes only: which side is pulled follows from the side of the force.
                limit(found, row.number(&format!("{name}_{column}")).abs(), column);
            }
        }
    }
}

fn boom_box(machine: &Machine, name: &str) -> BoomBox {
    let file = &machine.file["boom_box"][name];
    BoomBox {
        place: Vector::new(number(file, "x"), number(file, "z")),
        height: number(file, "height"),
        width: number(file, "width"),
        flange: number(file, "t_flange"),
        web: number(file, "t_web"),
    }
}

#[test]
fn thrust_and_pressure_of_handbooks() {
    // Sullivan, Fluid Power Theory and Applications, read. Ex. 8.3: 3 in at 2000 psi, 14 140 lbf (areas rounded).
    // Ex. 8.6: 3 in bore, 1.5 in rod, 7500 lbf of pull: 1414.7 psi (1413.711 printed, a slip of 0.07 %).
    let (inch, psi, pound) = (0.0254, 6_894.757_293_168, 4.448_221_615_260_5);
    let mut ram = *reference().ram(Joint::Boom);
    (ram.bore, ram.rod, ram.supply) = (3.0 * inch, 1.5 * inch, 2000.0 * psi);
    close(ram.working().0 / pound, 14_140.0, 0.001, 0.0, "push");
    let (side, pressure) = ram.pressure_for(-7500.0 * pound);
    assert_eq!(side, Side::Rod);
    close(pressure / psi, 1414.71, 0.0, 0.01, "pull");
    // With the rod's side shut the full side's pressure grows by the ratio of the areas, here 4 / 3.
    close(ram.intensified(1e6), 4e6 / 3.0, 1e-12, 0.0, "intensified");
}

#[test]
fn oil_that_rods_push_out() {
    // Sullivan ex. 4.1, read: piston 12.56, rod 3.14 square inches, 24 in of stroke: out and back 527.52 cubic inches, the
    // rod's volume 75.36.
    let at = |out| {
        TankRams {
            cap: 12.56,
            rod: 3.14,
            stroke: 24.0,
            out,
        }
        .oil()
    };
    close(at(24.0) - at(0.0), 75.36, 1e-9, 0.0, "rod");
    close(at(24.0) + at(0.0), 527.52, 1e-9, 0.0, "out and back");
    // Five rams all in and all out over 0.18 m2: 39.208 mm. Numbers chosen, principle read.
    let tank = Tank {
        area: 0.18,
        oil: 0.1,
        elsewhere: 0.0,
        expansion: 7e-4,
        reference: 20.0,
    };
    let sizes = [
        (56.0, 0.8),
        (56.0, 0.75),
        (50.0, 0.65),
        (50.0, 0.5),
        (50.0, 0.5),
    ];
    let level = |share: f64| {
        let rams = sizes.map(|(rod, stroke)| {
            let rod = std::f64::consts::PI / 4.0 * rod * rod * 1e-6;
            TankRams {
                cap: 0.0,
                rod,
                stroke,
                out: share * stroke,
            }
        });
        tank_level(&tank, &rams, 20.0)
    };
    close(
        level(0.0) - level(1.0),
        0.039_207_948_981_426_62,
        1e-9,
        0.0,
        "drop",
    );
    // Rabie (2009), p. 37, read: 60 l and 45 K grow by 1.89 l.
    let warm = Tank {
        area: 1.0,
        oil: 0.06,
        ..tank
    };
    close(
        tank_level(&warm, &[], 65.0) - tank_level(&warm, &[], 20.0),
        0.00189,
        1e-9,
        0.0,
        "warm",
    );
}

#[test]
fn back_pressure_takes_its_share() {
    // Esposito ex. 9-1, read: piston 25, rod 7 square inches, 1000 psi. Joined on both sides (regeneration) it pushes with
    // the rod's area alone, 7000 lb; pulling with nothing behind the piston 18 000 lb.
    let (inch, psi, pound) = (0.0254, 6_894.757_293_168, 4.448_221_615_260_5);
    let diameter = |area: f64| (area * 4.0 / std::f64::consts::PI).sqrt() * inch;
    let mut ram = *reference().ram(Joint::Boom);
    (ram.bore, ram.rod, ram.supply) = (diameter(25.0), diameter(7.0), 1000.0 * psi);
    (ram.relief_cap, ram.relief_rod) = (ram.supply, ram.supply);
    close(ram.working().1 / pound, 18_000.0, 1e-9, 0.0, "pull");
    ram.back = ram.supply;
    close(ram.working().0 / pound, 7_000.0, 1e-9, 0.0, "regeneration");
    close(ram.holding().0 / pound, 7_000.0, 1e-9, 0.0, "pressed");
    // With a tenth behind it: 18 000 - 2500, 25 000 - 1800.
    ram.back = ram.supply / 10.0;
    for (push, pull) in [ram.working(), ram.holding()] {
        close(push / pound, 23_200.0, 1e-9, 0.0, "push");
        close(pull / pound, 15_500.0, 1e-9, 0.0, "pull");
    }
}
