//! The cases of `cases/handover`: verdict and reasons, in order; and that each rule is needed.
#![allow(clippy::unwrap_used)]

mod verdict_bench;

use verdict_bench::{Scene, cases};
use yard::handover::{RULES, Rule, Verdict};

#[test]
fn the_bench_machine_is_fit() {
    let said = Scene::fit().judge();
    assert_eq!((said.verdict, said.reasons), (Verdict::Fit, Vec::new()));
}

#[test]
fn every_case_holds() {
    let cases = cases();
    assert!(cases.len() > 60, "only {} cases were found", cases.len());
    for case in cases {
        case.hold();
    }
}

/// Each rule has a case that only it catches: without it the machine would pass as fit.
#[test]
fn every_rule_is_needed() {
    let cases = cases();
    for rule in RULES {
        let case = cases.iter().find(|case| case.name == rule.example);
        let case = case.unwrap_or_else(|| panic!("{} names no case: {}", rule.id, rule.example));
        let with = case.scene().judge();
        assert!(
            with.verdict > Verdict::Fit,
            "{}: its case must not be fit",
            rule.id
        );
        assert!(
            with.reasons.iter().all(|reason| reason.rule == rule.id),
            "{}: {:?}",
            rule.id,
            with.reasons
        );
        let others: Vec<Rule> = RULES
            .iter()
            .filter(|other| other.id != rule.id)
            .copied()
            .collect();
        let without = case.scene().judge_by(&others);
        assert_eq!(
            (without.verdict, without.reasons),
            (Verdict::Fit, Vec::new()),
            "{} is not needed",
            rule.id
        );
    }
}

/// Each cause of a case is needed: with one change left out, and what rests on it, something else comes out.
#[test]
fn every_change_of_a_case_tells() {
    for case in cases() {
        let whole = case.scene().judge();
        // Where all that was found is closed again, there is nothing to tell.
        if whole.reasons.is_empty() {
            continue;
        }
        for left_out in &case.change {
            if left_out.starts_with("mended: ") {
                continue;
            }
            let mut scene = Scene::fit();
            let kept = case
                .change
                .iter()
                .filter(|line| *line != left_out && !rests_on(line, left_out));
            kept.for_each(|line| scene.change(line));
            assert_ne!(
                scene.judge(),
                whole,
                "{}: {left_out:?} changes nothing",
                case.name
            );
        }
    }
}

/// Whether a change mends or releases what the other one found.
fn rests_on(line: &str, found: &str) -> bool {
    let closed = line
        .strip_prefix("mended: ")
        .or_else(|| line.strip_prefix("released: "))
        .or_else(|| line.strip_prefix("released since: "));
    closed.is_some_and(|point| {
        found
            .strip_prefix("earlier ")
            .unwrap_or(found)
            .starts_with(point)
    })
}
