//! Whatever was written down: an answer or a fault, never a panic.

use proptest::prelude::*;
use reckon::arm::shape::Turns;
use reckon::arm::survey::{
    Assembly, Geometry, Pin, RamEnds, Reading, Survey, Taped, UNKNOWNS, solve,
};

use crate::machine::reference;
use crate::measured::everything;

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        8 => 0.0..3.0,
        1 => -3.0..3.0,
        1 => prop_oneof![Just(0.0), Just(-0.0), Just(f64::NAN), Just(f64::INFINITY), Just(1e300), Just(1e-300)],
    ]
}

fn pin() -> impl Strategy<Value = Pin> {
    let all: Vec<Pin> = Pin::all().collect();
    prop::sample::select(all)
}

fn taped() -> impl Strategy<Value = Taped> {
    let sd = prop_oneof![4 => Just(0.0015), 1 => number()];
    (pin(), pin(), number(), sd).prop_map(|(from, to, metres, sd)| Taped {
        from,
        to,
        metres,
        sd,
    })
}

fn read() -> impl Strategy<Value = Reading> {
    let maybe = || prop::option::of(number());
    ([number(), number(), number()], number(), maybe(), maybe()).prop_map(
        |(rams, rams_sd, tooth_height, reach)| Reading {
            rams,
            rams_sd,
            tooth_height,
            reach,
            tooth_sd: 0.003,
        },
    )
}

fn assembly() -> impl Strategy<Value = Assembly> {
    let turns = || prop_oneof![Just(Turns::Clockwise), Just(Turns::CounterClockwise)];
    (turns(), turns(), any::<[bool; 3]>()).prop_map(|(boom, dipper, linkage)| Assembly {
        boom,
        dipper,
        linkage,
    })
}

fn guess() -> impl Strategy<Value = Geometry> {
    let own = Geometry::of(&reference().shape);
    prop_oneof![
        2 => Just(own),
        1 => prop::collection::vec(0.0..2.0_f64, UNKNOWNS)
            .prop_map(|list| Geometry::from_list(&list.try_into().unwrap())),
        1 => Just(Geometry::from_list(&[0.0; UNKNOWNS])),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn whatever_was_written_down(
        nominal in guess(),
        assembly in assembly(),
        distances in prop::collection::vec(taped(), 0..30),
        readings in prop::collection::vec(read(), 0..3),
        open in number(),
    ) {
        let ends = RamEnds { closed: 0.9, open };
        let survey = Survey { nominal, assembly, rams: [Some(ends), None, Some(ends)], distances, readings, next_sd: 0.0015 };
        if let Ok(solved) = solve(&survey) {
            let found = solved.geometry.to_list();
            prop_assert!(found.iter().all(|number| number.is_finite()));
            prop_assert!(solved.tested.iter().all(|tested| (0.0..=1.0).contains(&tested.redundancy)));
            let sum: f64 = solved.tested.iter().map(|tested| tested.redundancy).sum();
            prop_assert!((sum - solved.overall.redundancy as f64).abs() < 1e-3);
            let _ = solved.tooth_at([1.2; 3], 0.001);
            let _ = solved.spread_of(|pins| Some(vec![pins.tip_radius * pins.lever]));
            let _ = solved.uncertain_numbers();
        }
    }

    #[test]
    fn the_order_of_writing_is_of_no_account(turn in 0usize..30) {
        let mut survey = everything(&reference().shape);
        survey.distances[5].metres += 0.003;
        let one = solve(&survey).unwrap();
        let count = survey.distances.len();
        survey.distances.rotate_left(turn % count);
        for taped in &mut survey.distances {
            (taped.from, taped.to) = (taped.to, taped.from);
        }
        let other = solve(&survey).unwrap();
        for (a, b) in one.geometry.to_list().into_iter().zip(other.geometry.to_list()) {
            prop_assert!((a - b).abs() < 1e-9);
        }
    }
}
