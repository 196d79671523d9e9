//! The catalogue holds what the folders hold, and no leaf breaks whatever it is fed.

use std::collections::BTreeSet;
use std::path::Path;

use proptest::prelude::*;
use quantity::{Habits, Unit, parse};
use reckon::catalogue::{LEAVES, find};
use reckon::{Argument, Leaf, Shape, Value};

/// The formulas below a job's folder: every file right in it, and every one further down that declares a leaf; there the
/// parts lie that formulas are made of.
fn formulas_below(folder: &Path, job: &str, nested: bool, found: &mut Vec<String>) {
    for file in std::fs::read_dir(folder).expect("a folder can be read") {
        let path = file.expect("an entry can be read").path();
        if path.is_dir() {
            formulas_below(&path, job, true, found);
            continue;
        }
        let text = std::fs::read_to_string(&path).expect("a source can be read");
        let stem = path.file_stem().unwrap_or_default().to_string_lossy();
        if stem != "mod" && (text.contains("leaf! {") || !nested) {
            found.push(format!("{job}.{stem}"));
        }
    }
}

#[test]
fn the_list_and_the_folders_agree() {
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    for job in std::fs::read_dir(source)
        .unwrap()
        .map(Result::unwrap)
        .filter(|entry| entry.path().is_dir())
    {
        let name = job.file_name();
        formulas_below(&job.path(), name.to_str().unwrap(), false, &mut found);
    }
    let in_folders: BTreeSet<String> = found.iter().cloned().collect();
    assert_eq!(
        in_folders.len(),
        found.len(),
        "two files of one job have the same name"
    );
    let listed: BTreeSet<String> = LEAVES.iter().map(|leaf| leaf.id.to_owned()).collect();
    assert_eq!(listed, in_folders);
    assert_eq!(listed.len(), LEAVES.len(), "a leaf is listed twice");
}

#[test]
fn the_list_is_in_order_and_found_by_id() {
    let ids: Vec<_> = LEAVES.iter().map(|leaf| leaf.id).collect();
    let mut sorted = ids.clone();
    sorted.sort_unstable();
    assert_eq!(ids, sorted);
    for leaf in LEAVES {
        assert_eq!(find(leaf.id).unwrap().id, leaf.id);
    }
    assert!(find("upkeep.nothing").is_none());
}

#[test]
fn declarations_are_sound() {
    for leaf in LEAVES {
        assert!(
            !leaf.outputs.is_empty() && !leaf.source.title.is_empty(),
            "{}",
            leaf.id
        );
        let names: BTreeSet<_> = leaf.inputs.iter().map(|input| input.name).collect();
        assert_eq!(
            names.len(),
            leaf.inputs.len(),
            "{}: an input is named twice",
            leaf.id
        );
        for input in leaf.inputs {
            assert!(input.low < input.high, "{}: {}", leaf.id, input.name);
            let whole =
                input.low >= 0.0 && input.high <= f64::from(u32::MAX) && input.high.fract() == 0.0;
            assert!(
                whole || !matches!(input.shape, Shape::Whole | Shape::YesNo),
                "{}: {}",
                leaf.id,
                input.name
            );
        }
    }
}

#[test]
fn a_leaf_says_which_input_is_at_fault() {
    let leaf = find("upkeep.due_hours").unwrap();
    let given = |last: f64| {
        [
            Argument::new("last", last),
            Argument::new("interval", 8.0),
            Argument::new("now", 9.0),
        ]
    };
    let code = |arguments: &[Argument]| {
        let refusal = leaf.evaluate(arguments).unwrap_err();
        (refusal.code(), refusal.input().map(str::to_owned))
    };
    assert_eq!(
        code(&given(-1.0)),
        ("out-of-range", Some("last".to_owned()))
    );
    assert_eq!(
        code(&given(f64::NAN)),
        ("not-a-number", Some("last".to_owned()))
    );
    assert_eq!(
        code(&given(1.0)[..2]),
        ("not-known", Some("now".to_owned()))
    );
    assert_eq!(
        code(&[Argument::new("lost", 1.0)]),
        ("no-such-input", Some("lost".to_owned()))
    );
    let twice = [given(1.0).to_vec(), given(1.0).to_vec()].concat();
    assert_eq!(code(&twice), ("given-twice", Some("last".to_owned())));
    assert_eq!(
        code(&[Argument::new("last", vec![1.0])]),
        ("wrong-shape", Some("last".to_owned()))
    );
    let long = find("upkeep.round_minutes")
        .unwrap()
        .evaluate(&[Argument::new("point_seconds", vec![1.0; 5000])]);
    assert_eq!(long.unwrap_err().code(), "wrong-count");
    let part = find("upkeep.grease_round_mass")
        .unwrap()
        .evaluate(&[Argument::new("fittings", 1.5)]);
    assert_eq!(part.unwrap_err().code(), "not-whole");
}

#[test]
fn units_are_those_a_person_may_write() {
    // Rates nobody writes by hand, and the unit that only has to agree with its neighbours.
    let special = [
        "any", "1/s", "1/L", "N/m", "1/K", "kg m²", "rad/s", "J", "kJ", "mm⁴", "mL/h",
    ];
    for leaf in LEAVES {
        for input in leaf.inputs {
            let known = input.known_unit().is_some() != special.contains(&input.unit);
            assert!(known, "{}: {} in {}", leaf.id, input.name, input.unit);
        }
        for output in leaf.outputs {
            let known = output.unit == "1"
                || special.contains(&output.unit)
                || Unit::find(output.unit).is_some();
            assert!(known, "{}: {} in {}", leaf.id, output.name, output.unit);
        }
    }
}

#[test]
fn a_written_quantity_comes_in_the_unit_of_the_leaf() {
    let written = |text: &str| parse(text, &Habits::default(), None).unwrap();
    let sag = find("machine.sag_tension_ratio")
        .unwrap()
        .input("sag_before")
        .unwrap();
    assert_eq!(
        sag.number_of(&written("1 1/4 in ± 1/16 in")),
        Ok((31.75, Some(1.5875)))
    );
    assert_eq!(sag.number_of(&written("19 mm")), Ok((19.0, None)));
    assert_eq!(
        sag.number_of(&written("180 bar")).unwrap_err().code(),
        "wrong-unit"
    );
    let measured = find("machine.conformity_probability")
        .unwrap()
        .input("measured")
        .unwrap();
    assert_eq!(measured.number_of(&written("180 bar")), Ok((180.0, None)));
    let days = find("upkeep.due_days").unwrap().input("interval").unwrap();
    assert_eq!(days.number_of(&written("2 weeks")), Ok((14.0, None)));
}

/// Numbers that break formulas: edges of the bounds, of the floats, and beyond both.
fn hostile(low: f64, high: f64, whole: bool) -> impl Strategy<Value = f64> {
    let middle = (low + high) / 2.0;
    let within = if whole {
        (low..=high).prop_map(f64::round).boxed()
    } else {
        (low..=high).boxed()
    };
    let edges = vec![
        low,
        high,
        middle,
        0.0,
        -0.0,
        1.0,
        low.next_up(),
        high.next_down(),
        f64::MIN_POSITIVE,
    ];
    let beyond = vec![
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        f64::MAX,
        f64::MIN,
        -1.0,
    ];
    prop_oneof![6 => within, 4 => prop::sample::select(edges), 1 => prop::sample::select(beyond)]
}

fn argument(leaf: &'static Leaf, index: usize) -> BoxedStrategy<Option<Argument>> {
    let input = &leaf.inputs[index];
    let number = || {
        hostile(
            input.low,
            input.high,
            matches!(input.shape, Shape::Whole | Shape::YesNo),
        )
    };
    let value = match input.shape {
        Shape::List => prop::collection::vec(number(), 0..10)
            .prop_map(Value::List)
            .boxed(),
        _ => number().prop_map(Value::Number).boxed(),
    };
    let name = input.name;
    prop::option::weighted(
        0.95,
        value.prop_map(move |value| Argument {
            name: name.to_owned(),
            value,
        }),
    )
    .boxed()
}

fn leaf_and_arguments() -> impl Strategy<Value = (&'static Leaf, Vec<Argument>)> {
    (0..LEAVES.len()).prop_flat_map(|index| {
        let leaf = LEAVES[index];
        let arguments: Vec<_> = (0..leaf.inputs.len())
            .map(|index| argument(leaf, index))
            .collect();
        arguments.prop_map(move |arguments| (leaf, arguments.into_iter().flatten().collect()))
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 8_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn whatever_goes_in_nothing_breaks((leaf, arguments) in leaf_and_arguments()) {
        let once = leaf.evaluate(&arguments);
        if let Ok(outputs) = &once {
            prop_assert_eq!(outputs.len(), leaf.outputs.len());
            for output in outputs {
                let all_finite = output.value.numbers().iter().chain(&output.half_width).all(|number| number.is_finite());
                prop_assert!(all_finite, "{}: {:?}", leaf.id, output);
                prop_assert!(output.half_width.is_none_or(|half| half >= 0.0));
            }
            let names_odd = arguments.iter().any(|one| one.value.numbers().iter().any(|number| !number.is_finite()));
            prop_assert!(!names_odd, "{} took what is no number", leaf.id);
        }
        // Same input, same digits.
        prop_assert_eq!(once, leaf.evaluate(&arguments));
    }
}
