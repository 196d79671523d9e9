//! Leaves that take a whole arm: fed with arms that cannot be, they refuse and never break.

use std::collections::BTreeMap;

use proptest::prelude::*;
use reckon::validation::Case;
use reckon::{Argument, Value, find};

use crate::machine::folder;

/// The arguments of one case of each leaf that takes an arm.
fn arguments_by_leaf() -> BTreeMap<String, Vec<Argument>> {
    let mut found = BTreeMap::new();
    for file in std::fs::read_dir(folder()).unwrap().map(Result::unwrap) {
        if file.path().extension().is_none_or(|ending| ending != "md") {
            continue;
        }
        let text = std::fs::read_to_string(file.path()).unwrap();
        if let Some(Ok(case)) = Case::read(&text)
            && case.arguments.iter().any(|argument| argument.name == "arm")
        {
            found.insert(case.leaf, case.arguments);
        }
    }
    assert!(found.len() >= 15, "leaves with an arm: {:?}", found.keys());
    found
}

fn odd() -> impl Strategy<Value = f64> {
    prop_oneof![
        3 => prop::sample::select(vec![0.0, -0.0, 1.0, -1.0, 1e-300, 1e12, -1e12, f64::MIN_POSITIVE, 1e-9]),
        2 => -10.0..10.0_f64,
        1 => prop::sample::select(vec![f64::NAN, f64::INFINITY, 1e300]),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn an_arm_that_cannot_be_is_refused_and_never_breaks(changes in prop::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>(), odd()), 1..4)) {
        for (id, mut arguments) in arguments_by_leaf() {
            for (which, place, value) in &changes {
                let index = which.index(arguments.len());
                match &mut arguments[index].value {
                    Value::Number(number) => *number = *value,
                    Value::List(list) if list.is_empty() => {}
                    Value::List(list) => {
                        let at = place.index(list.len());
                        list[at] = *value;
                    }
                }
            }
            let leaf = find(&id).unwrap();
            let once = leaf.evaluate(&arguments);
            if let Ok(outputs) = &once {
                for output in outputs {
                    let finite = output.value.numbers().iter().all(|number| number.is_finite());
                    prop_assert!(finite, "{}: {:?}", id, output);
                }
            }
            prop_assert_eq!(once, leaf.evaluate(&arguments));
        }
    }
}
