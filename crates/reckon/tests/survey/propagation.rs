//! From uncertain pins to the tooth and the forces: derivatives, and the table of the report on the reference machine.

use reckon::arm::force::{Statics, standard_crowd, standard_curl};
use reckon::arm::pose::Placed;
use reckon::arm::survey::{Assembly, Geometry, UNKNOWNS};

use crate::machine::reference;
use crate::measured::machines;

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

/// Standard uncertainty of each number as in the report: sigma for every pin and length, half of it for lever, link
/// and the distance of the link's pin from the bucket's.
fn spread(pins: &Geometry, changes: &[f64], sigma: f64) -> f64 {
    let list = pins.to_list();
    let mut sum = 0.0;
    for at in 0..UNKNOWNS {
        let sd = match at {
            // The crank's two parts move together along the crank.
            16 | 17 => continue,
            21 | 22 => sigma / 2.0,
            _ => sigma,
        };
        sum += (changes[at] * sd).powi(2);
    }
    let crank = pins.link_pin;
    let along = (changes[16] * crank.r + changes[17] * crank.z) / crank.length();
    assert_eq!((list[16], list[17]), (crank.r, crank.z));
    (sum + (along * sigma / 2.0).powi(2)).sqrt()
}

#[test]
fn the_table_of_the_report() {
    // Section "How well must it be measured?": 2000 draws, printed to whole millimetres and tenths of a percent.
    let shape = reference().shape;
    let (pins, assembly) = (Geometry::of(&shape), Assembly::of(&shape));
    let middle = [0, 1, 2].map(|at| shape.rams[at].closed + 0.5 * shape.rams[at].stroke);
    let posed = pins.tooth(&assembly, middle).unwrap();
    let reach: Vec<f64> = posed.by.iter().map(|moved| moved.r).collect();
    let height: Vec<f64> = posed.by.iter().map(|moved| moved.z).collect();
    let of = |model: &dyn Fn(&Geometry) -> f64| -> Vec<f64> {
        let step = 1e-6;
        let at = |at: usize, by: f64| {
            let mut list = pins.to_list();
            list[at] += by;
            model(&Geometry::from_list(&list))
        };
        (0..UNKNOWNS)
            .map(|place| (at(place, step) - at(place, -step)) / (2.0 * step) / model(&pins))
            .collect()
    };
    let arm = |pins: &Geometry| pins.into_shape(assembly, shape.clone());
    let curl = of(&|pins| standard_curl(&arm(pins), pins.tip_radius).unwrap().force);
    let boom = of(&|pins| {
        let arm = arm(pins);
        let placed = Placed::at_lengths(&arm, middle).unwrap();
        Statics::hanging(&arm, placed).unwrap().hanging[0]
    });
    for (sigma, reach_mm, height_mm, curl_percent, boom_percent) in [
        (0.002, 28.0, 26.0, 0.7, 0.7),
        (0.005, 67.0, 65.0, 1.7, 1.9),
        (0.010, 136.0, 127.0, 3.4, 3.3),
    ] {
        let near = |found: f64, printed: f64, what: &str| {
            // Draws of a bent function against its tangent: to a tenth.
            assert!(
                (found / printed - 1.0).abs() < 0.1,
                "{what} at {sigma}: {found} for {printed}"
            );
        };
        near(1e3 * spread(&pins, &reach, sigma), reach_mm, "reach");
        near(1e3 * spread(&pins, &height, sigma), height_mm, "height");
        near(100.0 * spread(&pins, &curl, sigma), curl_percent, "curl");
        let hanging = 100.0 * spread(&pins, &boom, sigma);
        assert!((hanging / boom_percent - 1.0).abs() < 0.5, "boom {hanging}");
    }
    let _ = standard_crowd;
}
