//! From uncertain pins to the tooth and the forces: derivatives, and the table of the report on the reference machine.

use reckon::arm::force::{Statics, standard_crowd, standard_curl};
use reckon::arm::pose::Placed;
use reckon::arm::shape::{ArmShape, Vector};
use reckon::arm::survey::{Assembly, Closing, Geometry, Pin, RamEnds, Survey, UNKNOWNS, solve};

use crate::machine::reference;
use crate::measured::{POSES, everything, machines, ram_ends, reading};

#[test]
fn derivatives_are_those_of_the_arm_itself() {
    for (name, shape) in machines() {
        let (pins, assembly) = (Geometry::of(&shape), Assembly::of(&shape));
        for shares in [[0.5; 3], [0.15, 0.8, 0.3], [0.9, 0.2, 0.75]] {
            let lengths =
                [0, 1, 2].map(|at| shape.rams[at].closed + shares[at] * shape.rams[at].stroke);
            let posed = pins.tooth(&assembly, lengths).unwrap();
            let tooth = Placed::at_lengths(&shape, lengths).unwrap().tooth;
            assert!((posed.tooth - tooth).length() < 1e-12, "{name}");
            for at in 0..UNKNOWNS + 3 {
                let step = 1e-5;
                let moved = |by: f64| {
                    let (mut list, mut lengths) = (pins.to_list(), lengths);
                    if at < UNKNOWNS {
                        list[at] += by;
                    } else {
                        lengths[at - UNKNOWNS] += by;
                    }
                    // The arm's own kinematics, which takes another way.
                    let moved = Geometry::from_list(&list).into_shape(assembly, shape.clone());
                    Placed::at_lengths(&moved, lengths).unwrap().tooth
                };
                let change = (moved(step) - moved(-step)) * (0.5 / step);
                let off = (change - posed.by[at]).length();
                assert!(
                    off < 1e-7,
                    "{name}, number {at}: {change:?} {:?}",
                    posed.by[at]
                );
            }
        }
    }
}

/// The covariance of the report's draws: sigma for every pin coordinate and length; half of it for lever, link and the
/// distance of the link's pin from the bucket's, whose direction is exact; nothing for the heel.
fn drawn(pins: &Geometry, sigma: f64) -> Vec<Vec<f64>> {
    let mut covariance = vec![vec![0.0; UNKNOWNS]; UNKNOWNS];
    for at in 0..UNKNOWNS {
        covariance[at][at] = match at {
            16 | 17 | 19 | 20 => 0.0,
            21 | 22 => sigma * sigma / 4.0,
            _ => sigma * sigma,
        };
    }
    let crank = pins.link_pin * (0.5 * sigma / pins.link_pin.length());
    let parts = [crank.r, crank.z];
    for (row, one) in parts.iter().enumerate() {
        for (column, other) in parts.iter().enumerate() {
            covariance[16 + row][16 + column] = one * other;
        }
    }
    covariance
}

/// The standard uncertainty of what changes so.
fn spread(changes: &[f64], covariance: &[Vec<f64>]) -> f64 {
    let rows = changes.iter().zip(covariance);
    let sum: f64 = rows
        .map(|(one, row)| {
            let moved: f64 = row.iter().zip(changes).map(|(a, b)| a * b).sum();
            one * moved
        })
        .sum();
    sum.sqrt()
}

/// Half way out, all three.
fn middle(shape: &ArmShape) -> [f64; 3] {
    [0, 1, 2].map(|at| shape.rams[at].closed + 0.5 * shape.rams[at].stroke)
}

/// Curl force, crowd force with the bucket where it curls hardest, and what the boom ram carries when all hangs half way.
fn forces(shape: &ArmShape) -> [f64; 3] {
    let curl = standard_curl(shape, shape.bucket.tip_radius).unwrap();
    let crowd = standard_crowd(shape, curl.angle).unwrap();
    let placed = Placed::at_lengths(shape, middle(shape)).unwrap();
    let hanging = Statics::hanging(shape, placed).unwrap().hanging[0];
    [curl.force, crowd.force, hanging]
}

/// How the forces change with every number, in shares of themselves for a metre.
fn changes_of_forces(shape: &ArmShape) -> Vec<[f64; 3]> {
    let (pins, assembly) = (Geometry::of(shape), Assembly::of(shape));
    let own = forces(shape);
    let step = 1e-6;
    let with = |at: usize, by: f64| {
        let mut list = pins.to_list();
        list[at] += by;
        forces(&Geometry::from_list(&list).into_shape(assembly, shape.clone()))
    };
    let change = |at: usize| {
        let (high, low) = (with(at, step), with(at, -step));
        [0, 1, 2].map(|which| (high[which] - low[which]) / (2.0 * step * own[which].abs()))
    };
    (0..UNKNOWNS).map(change).collect()
}

#[test]
fn the_table_of_the_report() {
    // Report on the reference machine, "How well must it be measured?": 2000 draws, printed to whole millimetres and
    // tenths of a percent. Draws of a bent function against its tangent: to an eighth, and the rounding of the print.
    let shape = reference().shape;
    let (pins, assembly) = (Geometry::of(&shape), Assembly::of(&shape));
    let posed = pins.tooth(&assembly, middle(&shape)).unwrap();
    let reach: Vec<f64> = posed.by.iter().map(|moved| moved.r).collect();
    let height: Vec<f64> = posed.by.iter().map(|moved| moved.z).collect();
    let changes = changes_of_forces(&shape);
    for (sigma, tooth_mm, percent) in [
        (0.002, [28.0, 26.0], [0.7, 0.5, 0.7]),
        (0.005, [67.0, 65.0], [1.7, 1.3, 1.9]),
        (0.010, [136.0, 127.0], [3.4, 2.5, 3.3]),
    ] {
        let covariance = drawn(&pins, sigma);
        let near = |found: f64, printed: f64, last: f64, what: &str| {
            let off = (found - printed).abs();
            assert!(
                off < 0.12 * printed + last,
                "{what} at {sigma}: {found} for {printed}"
            );
        };
        let tooth =
            [&reach, &height].map(|changes| 1e3 * spread(&changes[..UNKNOWNS], &covariance));
        near(tooth[0], tooth_mm[0], 0.5, "reach");
        near(tooth[1], tooth_mm[1], 0.5, "height");
        for which in 0..3 {
            let one: Vec<f64> = changes.iter().map(|all| all[which]).collect();
            near(
                100.0 * spread(&one, &covariance),
                percent[which],
                0.05,
                "force",
            );
        }
    }
}

#[test]
fn the_chance_of_closing_is_that_of_the_longest_reach() {
    // Strokes well inside what the linkages allow, but for the boom's: 2 mm short of both its pins in line. The distances
    // of foot pin to barrel and to rod vary by sigma sqrt 2 (both ends) and sigma: their sum is normal.
    let shape = reference().shape;
    let pins = Geometry::of(&shape);
    let mut rams = ram_ends(&shape);
    for ends in &mut rams {
        let quarter = 0.25 * (ends.open - ends.closed);
        (ends.closed, ends.open) = (ends.closed + quarter, ends.open - quarter);
    }
    rams[0].open = shape.boom_triangle.between().1 - 0.002;
    let assembly = Assembly::of(&shape);
    for sigma in [0.001, 0.002] {
        let covariance = drawn(&pins, sigma);
        let draws = (2000, 1);
        let found = pins.closing_chance((&assembly, rams), &covariance, draws);
        let wanted = reckon::normal_cumulative(0.002 / (sigma * 3.0_f64.sqrt()));
        // Four standard deviations of a share of so many draws.
        let off = 4.0 * (wanted * (1.0 - wanted) / 2000.0).sqrt();
        assert!(
            (found.clone().unwrap() - wanted).abs() < off,
            "{found:?} {wanted}"
        );
    }
}

#[test]
fn where_it_ceases_to_close_is_said() {
    let shape = reference().shape;
    let mut survey = everything(&shape);
    // Both ends do not close: the worse one is told.
    let (shortest, longest) = shape.boom_triangle.between();
    survey.rams[0] = Some(RamEnds {
        closed: shortest - 0.002,
        open: longest + 0.004,
    });
    let part = |survey: &Survey, joint: usize| match solve(survey).unwrap().closing[joint] {
        Closing::Part(part) => part,
        other => panic!("{other:?}"),
    };
    let boom = part(&survey, 0);
    assert!((boom.missing - 0.004).abs() < 1e-5 && (boom.closes_to - longest).abs() < 1e-5);
    assert_eq!(boom.trouble.code(), "triangle-open");
    // The linkage stretched out: ram barrel, lever's pin and shared pin in line.
    let bar = &shape.linkage;
    let stretched = (bar.lever_pin() - bar.barrel()).length() + bar.lever();
    survey.rams[2].as_mut().unwrap().open = stretched + 0.01;
    let bucket = part(&survey, 2);
    assert!(bucket.missing >= 0.01 - 1e-5 && bucket.closes_to <= stretched + 1e-5);
    // Without the lever's length nothing is said of the linkage, and all of the boom.
    survey.distances.retain(|taped| taped.to != Pin::LinkagePin);
    let closing = solve(&survey).unwrap().closing;
    assert!(matches!(
        closing,
        [Closing::Part(_), Closing::Whole, Closing::NotKnown]
    ));
}

#[test]
fn a_linkage_that_closes_past_its_dead_centre_does_not_count() {
    // Lever and link in line at 92 % of the stroke: beyond it every pin still has a place, but the bucket turns back.
    let reference = reference().shape;
    let mut pins = Geometry::of(&reference);
    pins.link_pin = pins.link_pin * (0.4 / pins.link_pin.length());
    (pins.lever, pins.link) = (0.3, 0.25);
    let shape = pins.into_shape(Assembly::of(&reference), reference);
    let ram = &shape.rams[2];
    let end = shape.linkage.at_length(ram.extended());
    assert!(end.is_ok());
    let Closing::Part(part) = solve(&everything(&shape)).unwrap().closing[2] else {
        panic!("closes")
    };
    assert_eq!(part.trouble.code(), "dead-centre");
    let share = (part.closes_to - ram.closed) / ram.stroke;
    assert!((0.92..0.93).contains(&share), "{share}");
    let straight = shape.linkage.at_length(part.closes_to).unwrap();
    let reach = (straight.link_pin - shape.linkage.lever_pin()).length();
    assert!((reach - 0.55).abs() < 1e-6, "{reach}");
}

#[test]
fn the_rams_own_uncertainty_reaches_the_tooth() {
    let shape = reference().shape;
    let solved = solve(&everything(&shape)).unwrap();
    let lengths = middle(&shape);
    let (pins, rams) = (
        solved.tooth_at(lengths, 0.0).unwrap(),
        solved.tooth_at(lengths, 0.003).unwrap(),
    );
    // Slopes of the arm itself, by differences.
    let slope = |ram: usize| {
        let at = |by: f64| {
            let mut moved = lengths;
            moved[ram] += by;
            Placed::at_lengths(&shape, moved).unwrap().tooth
        };
        (at(1e-5) - at(-1e-5)) * 5e4
    };
    let slopes = [slope(0), slope(1), slope(2)];
    let sum =
        |part: &dyn Fn(Vector) -> f64| 9e-6 * slopes.iter().map(|slope| part(*slope)).sum::<f64>();
    for (row, column, wanted) in [
        (0, 0, sum(&|slope| slope.r * slope.r)),
        (0, 1, sum(&|slope| slope.r * slope.z)),
        (1, 1, sum(&|slope| slope.z * slope.z)),
    ] {
        let gained = rams.covariance[row][column] - pins.covariance[row][column];
        assert!((gained - wanted).abs() < 1e-9, "{gained} for {wanted}");
    }
}

#[test]
fn forces_are_forgiving_and_the_tooth_is_not() {
    // A tape good to 3 mm: forces within 2 %, the tooth tens of millimetres off, until poses are read.
    let shape = reference().shape;
    let mut survey = everything(&shape);
    for taped in &mut survey.distances {
        taped.sd = 0.003;
    }
    let solved = solve(&survey).unwrap();
    let force =
        |pins: &Geometry| Some(forces(&pins.into_shape(solved.assembly, shape.clone())).to_vec());
    let spread = solved.spread_of(force).unwrap();
    for which in 0..3 {
        let share = spread.sd(which).unwrap() / spread.values[which].abs();
        assert!((0.001..0.02).contains(&share), "force {which}: {share}");
    }
    let tooth = solved.tooth_at(middle(&shape), 0.0).unwrap();
    let sure = (tooth.sd(0).unwrap(), tooth.sd(1).unwrap());
    assert!(sure.0 > 0.02 && sure.1 > 0.02, "{sure:?}");
    survey.readings = POSES.map(|shares| reading(&shape, shares, 0.003)).to_vec();
    let solved = solve(&survey).unwrap();
    let tooth = solved.tooth_at(middle(&shape), 0.0).unwrap();
    assert!(
        tooth.sd(0).unwrap() < 0.5 * sure.0 && tooth.sd(1).unwrap() < 0.6 * sure.1,
        "{tooth:?} {sure:?}"
    );
}
