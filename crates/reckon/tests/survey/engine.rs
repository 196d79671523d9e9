//! The adjustment against a general library: `cases/arm/survey.toml`, fitted by numpy in `cases/engines/tape_survey.py`.

use reckon::arm::survey::{Doubt, Pin, Reading, Survey, Taped, Which, solve};
use toml::{Table, Value};

use crate::machine::{number, numbers, reference, text};
use crate::measured::perfect;

fn file() -> Table {
    text("survey.toml").parse().unwrap()
}

fn survey(file: &Table) -> Survey {
    let list = |key: &str| file[key].as_array().unwrap().clone();
    let pin = |line: &Value, key: &str| Pin::from_code(line[key].as_str().unwrap()).unwrap();
    let mut survey = perfect(&reference().shape, &[]);
    for line in list("distance") {
        survey.distances.push(Taped {
            from: pin(&line, "from"),
            to: pin(&line, "to"),
            metres: number(&line, "is"),
            sd: 0.0015,
        });
    }
    for line in list("reading") {
        survey.readings.push(Reading {
            rams: numbers(&line["rams"]).try_into().unwrap(),
            rams_sd: 0.002,
            tooth_height: Some(number(&line, "height")),
            reach: Some(number(&line, "reach")),
            tooth_sd: 0.004,
        });
    }
    survey
}

fn near(found: f64, kept: f64, tolerance: f64, what: &str) {
    assert!(
        (found - kept).abs() <= tolerance,
        "{what}: {found} for {kept}"
    );
}

#[test]
fn pins_uncertainties_and_tests_are_the_librarys() {
    let file = file();
    let fitted = &file["fitted"];
    let of = |key: &str| numbers(&fitted[key]);
    let solved = solve(&survey(&file)).unwrap();
    near(
        solved.overall.squares,
        number(fitted, "squares"),
        1e-7,
        "squares",
    );
    let widened = solved.overall.widened;
    let (pins, sd) = (of("pins"), of("sd"));
    for (at, found) in solved.geometry.to_list().into_iter().enumerate() {
        near(found, pins[at], 1e-10, "pin");
        let own = solved.variance(at).sqrt() / widened;
        near(own, sd[at], 1e-8 * sd[at], "its uncertainty");
    }
    let (redundancy, normalised) = (of("redundancy"), of("normalised"));
    let (together, wrong) = (of("together"), number(fitted, "wrong") as usize);
    assert_eq!(solved.tested.len(), redundancy.len());
    for (at, tested) in solved.tested.iter().enumerate() {
        near(tested.redundancy, redundancy[at], 1e-9, "redundancy");
        near(
            tested.normalised.unwrap(),
            normalised[at],
            1e-7,
            "normalised",
        );
        near(
            solved.tests_together(wrong, at),
            together[at],
            1e-9,
            "together",
        );
    }
}

#[test]
fn the_tooths_place_is_as_sure_as_the_library_says() {
    let file = file();
    let fitted = &file["fitted"];
    let (pose, kept) = (numbers(&fitted["pose"]), numbers(&fitted["tooth"]));
    let solved = solve(&survey(&file)).unwrap();
    let widened = solved.overall.widened;
    let tooth = solved.tooth_at(pose.try_into().unwrap(), 0.0).unwrap();
    near(tooth.values[0], kept[0], 1e-9, "reach");
    near(tooth.values[1], kept[1], 1e-9, "height");
    for at in 0..2 {
        near(
            tooth.sd(at).unwrap() / widened,
            kept[2 + at],
            1e-9,
            "its uncertainty",
        );
    }
    let shared = tooth.covariance[0][1] / (widened * widened);
    near(shared, kept[4], 1e-12, "covariance");
}

#[test]
fn the_wrong_distance_is_among_the_suspects() {
    let file = file();
    let wrong = number(&file["fitted"], "wrong") as usize;
    let solved = solve(&survey(&file)).unwrap();
    // Its test and that of dipper pin to bucket ram barrel go together at 0.986: not to be told apart.
    let Some(Doubt::Suspects { which, .. }) = solved.doubts.first() else {
        panic!("{:?}", solved.doubts)
    };
    assert_eq!(which, &[Which::Distance(wrong), Which::Distance(12)]);
}
