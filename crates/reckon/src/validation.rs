//! Cases against the world: running one, and the report over all of them.

pub use crate::case::{Case, Expectation, Expected};
use crate::catalogue::{self, LEAVES};
use crate::leaf::{Leaf, Source};
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
    let mut ran: Vec<Ran<'_>> = cases
        .iter()
        .map(|case| Ran {
            case,
            outcome: run(case),
        })
        .collect();
    ran.sort_by(|a, b| a.case.name.cmp(&b.case.name));
    let failing = ran
        .iter()
        .filter(|ran| !ran.outcome.failures.is_empty())
        .count();
    let without = LEAVES
        .iter()
        .filter(|leaf| of(leaf, &ran).next().is_none())
        .count();
    let mut lines = vec![
        "# Numbers checked against the world\n".to_owned(),
        format!(
            "Made from `cases/` and the catalogue; not written by hand. {} cases for {} formulas; {failing} cases \
             fail, {without} formulas have no case.\n",
            cases.len(),
            LEAVES.len(),
        ),
        "A case marked *derived* or *definition* follows from arithmetic or geometry; *memory* means the printed \
         value was remembered and not read.\n"
            .to_owned(),
        "| formula | cases | of them refusals | worst relative error | source |".to_owned(),
        "|---|---|---|---|---|".to_owned(),
    ];
    lines.extend(LEAVES.iter().map(|leaf| leaf_line(leaf, &ran)));
    for leaf in LEAVES {
        lines.push(format!("\n## {}\n", leaf.id));
        lines.extend(of(leaf, &ran).map(case_line));
    }
    lines.join("\n") + "\n"
}

/// A case and what running it showed.
struct Ran<'a> {
    case: &'a Case,
    outcome: Outcome,
}

fn of<'a>(leaf: &'a Leaf, ran: &'a [Ran<'a>]) -> impl Iterator<Item = &'a Ran<'a>> {
    ran.iter().filter(|ran| ran.case.leaf == leaf.id)
}

fn leaf_line(leaf: &Leaf, ran: &[Ran<'_>]) -> String {
    let refuses = |ran: &&Ran<'_>| matches!(ran.case.expectation, Expectation::Refuses { .. });
    let (count, refusals) = (of(leaf, ran).count(), of(leaf, ran).filter(refuses).count());
    let worst = of(leaf, ran)
        .filter_map(|ran| ran.outcome.worst_relative)
        .reduce(f64::max);
    let worst = worst.map_or("none to give".to_owned(), |worst| format!("{worst:.1e}"));
    let source = source_line(&leaf.source);
    format!(
        "| `{}` | {count} | {refusals} | {worst} | {source} |",
        leaf.id
    )
}

fn source_line(source: &Source) -> String {
    let year = if source.year > 0 {
        format!(" ({})", source.year)
    } else {
        String::new()
    };
    let place = if source.place.is_empty() {
        String::new()
    } else {
        format!(", {}", source.place)
    };
    format!("{}{year}{place}; {}", source.title, source.basis.code())
}

fn case_line(ran: &Ran<'_>) -> String {
    let (case, failures) = (ran.case, &ran.outcome.failures);
    let errata = if case.errata.is_empty() {
        String::new()
    } else {
        format!(" Misprint: {}", case.errata)
    };
    let verdict = if failures.is_empty() {
        String::new()
    } else {
        format!(" **Fails:** {}.", failures.join("; "))
    };
    format!(
        "- **{}** ({}): {}{errata}{verdict}",
        case.name, case.read, case.source
    )
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
