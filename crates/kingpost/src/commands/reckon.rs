//! The reckoner: its leaves listed, one leaf's page, a leaf worked out; and the documents made from the catalogue.

use crate::{Exit, files::read_text, kit::Kit, rows::rows, said::Said, trouble::Trouble};
use clap::Args;
use quantity::{Habits, Quantity, Unit, parse, parse_in};
use reckon::{Figure, FigureInput, Input, LEAVES, Leaf, Origin, Refusal, Shape, Value, validation};
use serde_json::{Map, Value as Json, json};
use std::{
    fs,
    path::{Path, PathBuf},
};

#[derive(Args)]
pub(crate) struct Reckon {
    #[arg(value_name = "LEAF")]
    name: Option<String>,
    #[arg(value_name = "INPUT=VALUE", requires = "name")]
    inputs: Vec<String>,
    #[arg(long, conflicts_with_all = ["name", "schema"])]
    validation_md: bool,
    #[arg(
        long,
        value_name = "DIR",
        default_value = "cases",
        requires = "validation_md"
    )]
    cases: PathBuf,
    #[arg(long, value_name = "LEAF", conflicts_with = "name")]
    schema: Option<String>,
}

pub(crate) fn run(kit: &Kit, asked: Reckon) -> Result<Said, Trouble> {
    if asked.validation_md {
        return validation_md(kit, &asked.cases);
    }
    if let Some(name) = &asked.schema {
        let schema = schema(kit, leaf(kit, name)?);
        return Ok(Said::new(format!("{schema:#}"), schema));
    }
    match &asked.name {
        None => Ok(list(kit)),
        Some(name) if asked.inputs.is_empty() => leaf(kit, name).map(|leaf| page(kit, leaf)),
        Some(name) => work_out(kit, leaf(kit, name)?, &asked.inputs),
    }
}

fn list(kit: &Kit) -> Said {
    let lines: Vec<_> = LEAVES
        .iter()
        .map(|leaf| (leaf.id, kit.words.leaf_name(leaf)))
        .collect();
    let told = |leaf: &&'static Leaf| json!({ "leaf": leaf.id, "name": kit.words.leaf_name(leaf), "purpose": kit.words.leaf_purpose(leaf) });
    Said::new(
        rows(&lines),
        json!({ "leaves": LEAVES.iter().map(told).collect::<Vec<_>>() }),
    )
}

/// The leaf of this name: whole, or its last part where only one leaf ends so; dashes stand for underscores.
fn leaf(kit: &Kit, name: &str) -> Result<&'static Leaf, Trouble> {
    let name = name.replace('-', "_");
    let ends_so: Vec<_> = LEAVES
        .iter()
        .filter(|leaf| {
            leaf.id == name
                || leaf
                    .id
                    .split_once('.')
                    .is_some_and(|(_, last)| last == name)
        })
        .collect();
    match ends_so.as_slice() {
        [one] => Ok(**one),
        _ => Err(kit.refused("no-such-leaf", &[("name", name.into())])),
    }
}

fn page(kit: &Kit, leaf: &'static Leaf) -> Said {
    let inputs: Vec<_> = leaf
        .inputs
        .iter()
        .map(|input| (input.name, kit.words.leaf_input(leaf, input.name)))
        .collect();
    let text = format!(
        "{} · {}\n{}\n\n{}\n{}\n{}",
        leaf.id,
        kit.words.leaf_name(leaf),
        kit.words.leaf_purpose(leaf),
        rows(&kit.words.leaf_rows(leaf)),
        kit.t("reckon-inputs-written"),
        rows(&inputs)
    );
    Said::new(text, leaf_json(kit, leaf))
}

fn leaf_json(kit: &Kit, leaf: &'static Leaf) -> Json {
    let input = |input: &Input| {
        json!({
            "name": input.name, "unit": input.unit, "shape": shape(input.shape), "optional": input.optional, "low": input.low, "high": input.high,
            "what": kit.words.leaf_input(leaf, input.name),
        })
    };
    let outputs = leaf.outputs.iter().map(|output| json!({ "name": output.name, "unit": output.unit, "what": kit.words.leaf_output(leaf, output.name) }));
    json!({
        "leaf": leaf.id, "name": kit.words.leaf_name(leaf), "purpose": kit.words.leaf_purpose(leaf), "formula": kit.words.leaf_formula(leaf),
        "caution": kit.words.leaf_caution(leaf), "source": kit.words.source(&leaf.source), "basis": leaf.source.basis.code(),
        "inputs": leaf.inputs.iter().map(input).collect::<Vec<_>>(), "outputs": outputs.collect::<Vec<_>>(),
    })
}

fn shape(shape: Shape) -> &'static str {
    match shape {
        Shape::Number => "number",
        Shape::Whole => "whole",
        Shape::YesNo => "yes-no",
        Shape::List => "list",
    }
}

fn work_out(kit: &Kit, leaf: &'static Leaf, written: &[String]) -> Result<Said, Trouble> {
    let mut taken = Taken::default();
    for one in written {
        let (name, value) = one
            .split_once('=')
            .ok_or_else(|| kit.mistake("reckon-no-value", &[("written", one.into())]))?;
        let name = name.trim().replace('-', "_");
        let input = leaf.input(&name).ok_or_else(|| {
            refused(
                kit,
                leaf,
                &Refusal::NoSuchInput {
                    input: name.clone(),
                },
            )
        })?;
        for value in value.split(';') {
            taken.take(kit, leaf, input, value.trim())?;
        }
    }
    let figure =
        Figure::reckon(leaf, taken.inputs()).map_err(|refusal| refused(kit, leaf, &refusal))?;
    let text = format!(
        "{}\n{}",
        kit.words.leaf_name(leaf),
        rows(&kit.words.figure_rows(&figure))
    );
    Ok(Said::new(text, figure_json(&figure)))
}

fn refused(kit: &Kit, leaf: &Leaf, refusal: &Refusal) -> Trouble {
    kit.told(
        refusal.code(),
        kit.words.refusal(leaf, refusal),
        Exit::Mistakes,
    )
}

/// Values taken so far. A list may be written with `;` or by naming the input again.
#[derive(Default)]
struct Taken {
    values: Vec<(&'static Input, Vec<f64>, Option<f64>)>,
    /// The unit of the first input that takes any: its neighbours must be in the same.
    any: Option<Unit>,
}

impl Taken {
    fn take(
        &mut self,
        kit: &Kit,
        leaf: &Leaf,
        input: &'static Input,
        written: &str,
    ) -> Result<(), Trouble> {
        let (number, half) = match (input.shape, written) {
            (Shape::YesNo, "yes") => (1.0, None),
            (Shape::YesNo, "no") => (0.0, None),
            _ => self
                .number(kit, input, written)?
                .map_err(|refusal| refused(kit, leaf, &refusal))?,
        };
        match self
            .values
            .iter_mut()
            .find(|(known, ..)| known.name == input.name)
        {
            Some((_, numbers, _)) if input.shape == Shape::List => numbers.push(number),
            // Twice is the leaf's to refuse.
            _ => self.values.push((input, vec![number], half)),
        }
        Ok(())
    }

    fn number(
        &mut self,
        kit: &Kit,
        input: &Input,
        written: &str,
    ) -> Result<Result<(f64, Option<f64>), Refusal>, Trouble> {
        let habits = Habits::default();
        let of_any = input.unit == "any";
        let read = if of_any {
            parse(written, &habits, None)
                .or_else(|_| parse_in(written, Some(self.any.unwrap_or(Unit::One)), &habits))
        } else {
            parse_in(
                written,
                Some(input.known_unit().unwrap_or(Unit::One)),
                &habits,
            )
        };
        let read = read.map_err(|slip| {
            kit.told(
                slip.code(),
                kit.words.quantity_trouble(&slip),
                Exit::Mistakes,
            )
        })?;
        if !of_any {
            return Ok(input.number_of(&read));
        }
        let unit = *self.any.get_or_insert(read.unit());
        let wrong = || Refusal::WrongUnit {
            input: "",
            wanted: unit.symbol(),
        };
        let same = read
            .in_unit(unit)
            .map(|value| Quantity::from_exact(value, unit, read.plus_minus_in(unit)));
        Ok(same
            .ok_or_else(wrong)
            .and_then(|same| input.number_of(&same)))
    }

    fn inputs(self) -> Vec<FigureInput> {
        let input = |(input, numbers, half): (&'static Input, Vec<f64>, Option<f64>)| {
            let value = match (input.shape, numbers.as_slice()) {
                (Shape::List, _) => Value::List(numbers),
                (_, [one]) => Value::Number(*one),
                _ => Value::List(numbers),
            };
            let taken = FigureInput::new(input.name, value, Origin::Given);
            half.map_or_else(|| taken.clone(), |half| taken.clone().within(half))
        };
        self.values.into_iter().map(input).collect()
    }
}

/// A figure as JSON: the leaf, every input with its origin, every output.
pub(crate) fn figure_json(figure: &Figure) -> Json {
    let inputs = figure.inputs().iter().map(|input| {
        json!({ "name": input.name(), "value": numbers(input.value()), "half_width": input.half_width(), "origin": origin(input.origin()) })
    });
    let outputs = figure.outputs().iter().map(|output| {
        json!({ "name": output.name, "unit": output.unit, "value": numbers(&output.value), "half_width": output.half_width })
    });
    json!({ "leaf": figure.leaf().id, "inputs": inputs.collect::<Vec<_>>(), "outputs": outputs.collect::<Vec<_>>() })
}

fn numbers(value: &Value) -> Json {
    match value {
        Value::Number(number) => json!(number),
        Value::List(numbers) => json!(numbers),
    }
}

fn origin(origin: &Origin) -> Json {
    match origin {
        Origin::Entry(entry) => json!({ "entry": entry }),
        Origin::BookLine { revision, line } => json!({ "revision": revision, "line": line }),
        Origin::Default => json!("default"),
        Origin::Setting => json!("setting"),
        Origin::Figure(below) => json!({ "figure": figure_json(below) }),
        Origin::Given => json!("given"),
    }
}

/// A leaf's inputs as a JSON schema, in the units the leaf declares.
fn schema(kit: &Kit, leaf: &'static Leaf) -> Json {
    let property = |input: &Input| {
        let number = match input.shape {
            Shape::Whole => {
                json!({ "type": "integer", "minimum": input.low, "maximum": input.high })
            }
            Shape::YesNo => json!({ "enum": [0, 1] }),
            _ => json!({ "type": "number", "minimum": input.low, "maximum": input.high }),
        };
        let mut whole = if input.shape == Shape::List {
            json!({ "type": "array", "items": number })
        } else {
            number
        };
        whole["description"] = json!(kit.words.leaf_input(leaf, input.name));
        whole["unit"] = json!(input.unit);
        whole
    };
    let properties: Map<String, Json> = leaf
        .inputs
        .iter()
        .map(|input| (input.name.to_owned(), property(input)))
        .collect();
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema", "title": leaf.id, "description": kit.words.leaf_purpose(leaf), "type": "object",
        "properties": properties, "additionalProperties": false,
        "required": leaf.inputs.iter().filter(|input| !input.optional).map(|input| input.name).collect::<Vec<_>>(),
    })
}

/// The document of all cases, from the texts in a folder.
fn validation_md(kit: &Kit, folder: &Path) -> Result<Said, Trouble> {
    let mut paths = Vec::new();
    pages_below(kit, folder, &mut paths)?;
    paths.sort();
    let mut cases = Vec::new();
    for path in paths {
        match validation::Case::read(&read_text(kit, &path)?) {
            Some(Ok(case)) => cases.push(case),
            Some(Err(why)) => {
                return Err(kit.mistake(
                    "case-does-not-read",
                    &[
                        ("path", path.display().to_string().into()),
                        ("detail", why.into()),
                    ],
                ));
            }
            None => {}
        }
    }
    let page = validation::validation_markdown(&cases);
    Ok(Said::new(
        page.clone(),
        json!({ "cases": cases.len(), "markdown": page }),
    ))
}

fn pages_below(kit: &Kit, folder: &Path, found: &mut Vec<PathBuf>) -> Result<(), Trouble> {
    let shown = || ("path", folder.display().to_string().into());
    let entries = fs::read_dir(folder).map_err(|_| kit.refused("file-not-found", &[shown()]))?;
    for entry in entries.flatten() {
        let path = entry.path();
        if path.is_dir() {
            pages_below(kit, &path, found)?;
        } else if path.extension().is_some_and(|ending| ending == "md") {
            found.push(path);
        }
    }
    Ok(())
}
