//! Cases against the world: running one, and the report over all of them.

use std::fmt::Write;

pub use crate::case::{Case, Expectation, Expected};
use crate::catalogue::{self, LEAVES};
use crate::leaf::Leaf;
use crate::value::{Output, Value};

/// What running a case showed.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// What does not agree with the case; empty where all does.
    pub failures: Vec<String>,
    /// The largest relative difference between a value and what was expected; none where nothing but a refusal or a
    /// zero was expected.
    pub worst_relative: Option<f64>,
}

/// Runs a case with the leaf it names.
pub fn run(case: &Case) -> Outcome {
    let mut outcome = Outcome {
        failures: Vec::new(),
        worst_relative: None,
    };
    let Some(leaf) = catalogue::find(&case.leaf) else {
        outcome
            .failures
            .push(format!("no leaf is called {}", case.leaf));
        return outcome;
    };
    match (&case.expectation, leaf.evaluate(&case.arguments)) {
        (Expectation::Refuses { code, input }, Err(refusal)) => {
            let right_input = input.is_none() || input.as_deref() == refusal.input();
            if refusal.code() != code || !right_input {
                outcome
                    .failures
                    .push(format!("refuses with {refusal}, not with {code}"));
            }
        }
        (Expectation::Refuses { code, .. }, Ok(_)) => outcome
            .failures
            .push(format!("gives a value and should refuse with {code}")),
        (Expectation::Outputs(_), Err(refusal)) => {
            outcome.failures.push(format!("refuses: {refusal}"))
        }
        (Expectation::Outputs(expected), Ok(outputs)) => {
            for one in expected {
                compare(one, &outputs, &mut outcome);
            }
        }
    }
    outcome
}

/// The text of `docs/validation.md`: how many cases, the worst relative error of each formula, and every case.
///
/// The cases may come in any order; the document has them in the order of the catalogue, then by name.
pub fn validation_markdown(cases: &[Case]) -> String {
    let mut text = String::from("# Numbers checked against the world\n\n");
    let failing = cases
        .iter()
        .filter(|case| !run(case).failures.is_empty())
        .count();
    let without = LEAVES
        .iter()
        .filter(|leaf| of(leaf, cases).is_empty())
        .count();
    let opening = format!(
        "Made from `cases/` and the catalogue; not written by hand. {} cases for {} formulas; {failing} cases fail, \
         {without} formulas have no case.\n\nA case marked *derived* or *definition* follows from arithmetic or \
         geometry; *memory* means the printed value was remembered and not read.\n\n",
        cases.len(),
        LEAVES.len(),
    );
    text.push_str(&opening);
    push(
        &mut text,
        "| formula | cases | of them refusals | worst relative error | source |",
    );
    push(&mut text, "|---|---|---|---|---|");
    for leaf in LEAVES {
        push(&mut text, &leaf_line(leaf, cases));
    }
    for leaf in LEAVES {
        push(&mut text, &format!("\n## {}\n", leaf.id));
        for case in of(leaf, cases) {
            push(&mut text, &case_line(case));
        }
    }
    text
}

fn compare(expected: &Expected, outputs: &[Output], outcome: &mut Outcome) {
    let name = &expected.output;
    let Some(output) = outputs.iter().find(|output| output.name == name) else {
        outcome.failures.push(format!("there is no output {name}"));
        return;
    };
    let got = if expected.is_half_width {
        output.half_width.map(Value::Number)
    } else {
        Some(output.value.clone())
    };
    let (got, wanted) = (got.unwrap_or(Value::List(Vec::new())), &expected.value);
    if got.numbers().len() != wanted.numbers().len() {
        outcome
            .failures
            .push(format!("{name}: {got:?}, expected {wanted:?}"));
        return;
    }
    for (got, wanted) in got.numbers().iter().zip(wanted.numbers()) {
        let off = (got - wanted).abs();
        // A hair more than the tolerance, so that a value at the very edge of a rounding is within it.
        if off > expected.tolerance * (1.0 + 1e-9) + f64::EPSILON * wanted.abs() * 4.0 {
            outcome.failures.push(format!(
                "{name}: {got}, expected {wanted} within {}",
                expected.tolerance
            ));
        }
        if *wanted != 0.0 {
            let relative = off / wanted.abs();
            outcome.worst_relative = Some(
                outcome
                    .worst_relative
                    .map_or(relative, |worst| worst.max(relative)),
            );
        }
    }
}

fn push(text: &mut String, line: &str) {
    text.push_str(line);
    text.push('\n');
}

fn of<'a>(leaf: &Leaf, cases: &'a [Case]) -> Vec<&'a Case> {
    let mut own: Vec<_> = cases.iter().filter(|case| case.leaf == leaf.id).collect();
    own.sort_by(|a, b| a.name.cmp(&b.name));
    own
}

fn leaf_line(leaf: &Leaf, cases: &[Case]) -> String {
    let own = of(leaf, cases);
    let refusals = own
        .iter()
        .filter(|case| matches!(case.expectation, Expectation::Refuses { .. }))
        .count();
    let worst = own
        .iter()
        .filter_map(|case| run(case).worst_relative)
        .reduce(f64::max);
    let worst = worst.map_or("none to give".to_owned(), |worst| format!("{worst:.1e}"));
    let source = &leaf.source;
    let mut from = source.title.to_owned();
    if source.year > 0 {
        // Writing to a string cannot fail.
        let _ = write!(from, " ({})", source.year);
    }
    if !source.place.is_empty() {
        let _ = write!(from, ", {}", source.place);
    }
    format!(
        "| `{}` | {} | {refusals} | {worst} | {from}; {} |",
        leaf.id,
        own.len(),
        source.basis.code()
    )
}

fn case_line(case: &Case) -> String {
    let outcome = run(case);
    let verdict = if outcome.failures.is_empty() {
        String::new()
    } else {
        format!(" **Fails:** {}.", outcome.failures.join("; "))
    };
    let errata = if case.errata.is_empty() {
        String::new()
    } else {
        format!(" Misprint: {}", case.errata)
    };
    format!(
        "- **{}** ({}): {}{errata}{verdict}",
        case.name, case.read, case.source
    )
}
