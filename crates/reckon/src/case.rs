//! One case, as it stands in its file: front matter in TOML between lines of `+++`, then a paragraph.

use toml::{Table, Value as Item};

use crate::case_units::in_unit_of_leaf;
use crate::catalogue;
use crate::leaf::Leaf;
use crate::value::{Argument, Value};

/// How well a case's figures are known; the words front matter may use.
const READ: [&str; 5] = ["read", "memory", "common practice", "definition", "derived"];

/// The keys front matter may have.
const KEYS: [&str; 10] = [
    "name",
    "leaf",
    "source",
    "read",
    "why",
    "errata",
    "inputs",
    "expect",
    "refuses",
    "refuses_input",
];

/// A check of one leaf against something outside the project.
#[derive(Debug, Clone, PartialEq)]
pub struct Case {
    /// What it is called.
    pub name: String,
    /// The id of the leaf.
    pub leaf: String,
    /// Author, year, table, page.
    pub source: String,
    /// How well the figures are known: read, memory, common practice, definition or derived.
    pub read: String,
    /// Why it matters.
    pub why: String,
    /// Known misprints of the source; empty where there are none.
    pub errata: String,
    /// The inputs, in the units of the leaf.
    pub arguments: Vec<Argument>,
    /// What should come out.
    pub expectation: Expectation,
    /// The paragraph below the front matter.
    pub text: String,
}

/// What should come out of a case.
#[derive(Debug, Clone, PartialEq)]
pub enum Expectation {
    /// These outputs.
    Outputs(Vec<Expected>),
    /// A refusal of this code, for this input where one is named.
    Refuses {
        /// The code of [`crate::Refusal::code`].
        code: String,
        /// The input at fault.
        input: Option<String>,
    },
}

/// One expected output, in the unit of the leaf.
#[derive(Debug, Clone, PartialEq)]
pub struct Expected {
    /// The output's name.
    pub output: String,
    /// True where it is the output's half width that is expected, written `name_half_width`.
    pub is_half_width: bool,
    /// The value.
    pub value: Value,
    /// How far off it may be, at most the rounding of the source.
    pub tolerance: f64,
}

impl Case {
    /// Reads a case; nothing where the text has no front matter of ours or names no leaf, for other tests read those.
    ///
    /// # Errors
    /// What is wrong with the text, in one sentence.
    pub fn read(text: &str) -> Option<Result<Case, String>> {
        let rest = text.strip_prefix("+++\n")?;
        let (matter, below) = rest.split_once("\n+++")?;
        let table = match matter.parse::<Table>() {
            Ok(table) => table,
            Err(error) => return Some(Err(format!("the front matter is no TOML: {error}"))),
        };
        table
            .contains_key("leaf")
            .then(|| case(&table, below.trim()))
    }
}

fn case(table: &Table, text: &str) -> Result<Case, String> {
    if let Some(unknown) = table.keys().find(|key| !KEYS.contains(&key.as_str())) {
        return Err(format!("the key {unknown} is not known here"));
    }
    let leaf_id = string(table, "leaf")?;
    let leaf = catalogue::find(&leaf_id).ok_or_else(|| format!("no leaf is called {leaf_id}"))?;
    let read = string(table, "read")?;
    if !READ.contains(&read.as_str()) {
        return Err(format!(
            "read is {read}; it must be one of {}",
            READ.join(", ")
        ));
    }
    if text.is_empty() {
        return Err("there is no paragraph of explanation".to_owned());
    }
    Ok(Case {
        name: string(table, "name")?,
        leaf: leaf_id,
        source: string(table, "source")?,
        read,
        why: string(table, "why")?,
        errata: table
            .get("errata")
            .and_then(Item::as_str)
            .unwrap_or_default()
            .to_owned(),
        arguments: arguments(table, leaf)?,
        expectation: expectation(table, leaf)?,
        text: text.to_owned(),
    })
}

fn string(table: &Table, key: &str) -> Result<String, String> {
    let found = table
        .get(key)
        .and_then(Item::as_str)
        .filter(|text| !text.trim().is_empty());
    found
        .map(str::to_owned)
        .ok_or_else(|| format!("{key} is missing"))
}

fn arguments(table: &Table, leaf: &Leaf) -> Result<Vec<Argument>, String> {
    let Some(inputs) = table.get("inputs").and_then(Item::as_table) else {
        return Err("[inputs] is missing".to_owned());
    };
    let mut arguments = Vec::new();
    for (name, item) in inputs {
        let wanted = leaf.input(name).map_or("1", |input| input.unit);
        arguments.push(Argument::new(name, quantity(name, item, wanted)?));
    }
    Ok(arguments)
}

fn expectation(table: &Table, leaf: &Leaf) -> Result<Expectation, String> {
    let outputs = table.get("expect").and_then(Item::as_table);
    let refuses = table.get("refuses").and_then(Item::as_str);
    match (outputs, refuses) {
        (Some(outputs), None) if !outputs.is_empty() => {
            let read = outputs
                .iter()
                .map(|(name, item)| expected(name, item, leaf));
            read.collect::<Result<_, _>>().map(Expectation::Outputs)
        }
        (None, Some(code)) => Ok(Expectation::Refuses {
            code: code.to_owned(),
            input: table
                .get("refuses_input")
                .and_then(Item::as_str)
                .map(str::to_owned),
        }),
        _ => Err("either [expect] or refuses must say what should come out".to_owned()),
    }
}

fn expected(name: &str, item: &Item, leaf: &Leaf) -> Result<Expected, String> {
    let of_half_width = name.strip_suffix("_half_width");
    let output = of_half_width.unwrap_or(name);
    let unit = leaf
        .outputs
        .iter()
        .find(|kind| kind.name == output)
        .map(|kind| kind.unit);
    let unit = unit.ok_or_else(|| format!("{} has no output {output}", leaf.id))?;
    let tolerance = item
        .get("tol")
        .and_then(number)
        .ok_or_else(|| format!("{name} has no tol"))?;
    let tolerance = in_unit_of_leaf(tolerance, unit_of(name, item)?, unit)?;
    if !tolerance.is_finite() || tolerance < 0.0 {
        return Err(format!("{name}: tol cannot be {tolerance}"));
    }
    let value = quantity(name, item, unit)?;
    Ok(Expected {
        output: output.to_owned(),
        is_half_width: of_half_width.is_some(),
        value,
        tolerance,
    })
}

/// A table of value and unit, in the unit the leaf wants.
fn quantity(name: &str, item: &Item, wanted: &str) -> Result<Value, String> {
    let unit = unit_of(name, item)?;
    let convert = |item: &Item| {
        let number = number(item).ok_or_else(|| format!("{name}: the value is no number"))?;
        in_unit_of_leaf(number, unit, wanted).map_err(|error| format!("{name}: {error}"))
    };
    match item.get("value") {
        Some(Item::Array(list)) => list
            .iter()
            .map(convert)
            .collect::<Result<Vec<f64>, _>>()
            .map(Value::List),
        Some(one) => convert(one).map(Value::Number),
        None => Err(format!("{name} has no value")),
    }
}

fn unit_of<'a>(name: &str, item: &'a Item) -> Result<&'a str, String> {
    item.get("unit")
        .and_then(Item::as_str)
        .ok_or_else(|| format!("{name} has no unit"))
}

fn number(item: &Item) -> Option<f64> {
    item.as_float()
        .or_else(|| item.as_integer().map(|whole| whole as f64))
}

#[cfg(test)]
mod tests {
    use super::*;

    const GOOD: &str = "+++\nname = \"n\"\nleaf = \"upkeep.due_hours\"\nsource = \"s\"\nread = \"derived\"\nwhy = \"w\"\n\
        [inputs]\nlast = { value = 1.0, unit = \"h\" }\n[expect]\ndue = { value = 60, unit = \"min\", tol = 6 }\n+++\nText.\n";

    #[test]
    fn a_case_is_read_in_the_units_of_the_leaf() {
        let case = Case::read(GOOD).unwrap().unwrap();
        assert_eq!(case.arguments, [Argument::new("last", 1.0)]);
        let Expectation::Outputs(expected) = case.expectation else {
            panic!("expected outputs")
        };
        assert_eq!(
            (&expected[0].value, expected[0].tolerance),
            (&Value::Number(1.0), 0.1)
        );
    }

    #[test]
    fn what_is_wrong_is_said() {
        let said = |from: &str, to: &str| Case::read(&GOOD.replace(from, to)).unwrap().unwrap_err();
        assert!(said("why = \"w\"\n", "").contains("why"));
        assert!(said("derived", "rumour").contains("rumour"));
        assert!(said("\"min\"", "\"mm\"").contains("mm"));
        assert!(said(", tol = 6", "").contains("tol"));
        assert!(said("due =", "do =").contains("do"));
        assert!(said("name =", "nome =").contains("nome"));
        assert!(said("upkeep.due_hours", "upkeep.undone").contains("undone"));
        assert!(said("Text.", "").contains("paragraph"));
    }

    #[test]
    fn other_texts_are_for_others() {
        assert!(Case::read("# Cases\n").is_none());
        assert!(Case::read("+++\nname = \"n\"\n+++\n").is_none());
        assert!(Case::read("---\nleaf: x\n---\n").is_none());
    }
}
