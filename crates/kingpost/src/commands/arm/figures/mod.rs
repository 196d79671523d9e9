//! A record as a list of named figures: the columns of a table and the fields of JSON are made from the same list.

mod chance;
mod force;
mod place;
mod stand;
mod still;

pub(super) use force::direction_name;

use reckon::arm::force::{Allowed, Edge, Governs};
use reckon::arm::shape::Vector;
use serde_json::{Map, Value as Json, json};
use std::collections::BTreeSet;
use yard::arm::{ArmOfBook, NotKnown, PoseRecord, Told};

/// A value of a figure.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Value {
    /// A number in the figure's unit.
    Number(f64),
    /// A word.
    Word(String),
    /// Not known, and why: a code, and of what.
    NotKnown(&'static str, String),
}

/// One figure.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Figure {
    /// Its name: small letters and dashes.
    pub(super) name: String,
    /// The unit of its numbers; empty for a plain number or a word.
    pub(super) unit: &'static str,
    /// Its value.
    pub(super) value: Value,
}

/// Figures in their order.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Figures(pub(super) Vec<Figure>);

/// Every figure of a pose.
pub(super) fn of_pose(record: &PoseRecord, arm: &ArmOfBook) -> Figures {
    let mut figures = Figures::default();
    place::add(&mut figures, record);
    force::add(&mut figures, record, arm);
    stand::add(&mut figures, record);
    still::add(&mut figures, record);
    figures
}

impl Figures {
    pub(super) fn number(&mut self, name: impl Into<String>, unit: &'static str, number: f64) {
        let value = if number.is_finite() {
            Value::Number(number)
        } else {
            Value::Word("unlimited".to_owned())
        };
        self.push(name, unit, value);
    }

    pub(super) fn word(&mut self, name: impl Into<String>, word: impl Into<String>) {
        self.push(name, "", Value::Word(word.into()));
    }

    /// A figure that may not be known.
    pub(super) fn told(&mut self, name: impl Into<String>, unit: &'static str, told: &Told<f64>) {
        match told {
            Ok(number) => self.number(name, unit, *number),
            Err(why) => self.unknown(name, unit, why),
        }
    }

    pub(super) fn unknown(&mut self, name: impl Into<String>, unit: &'static str, why: &NotKnown) {
        self.push(name, unit, not_known(why));
    }

    /// A force that a limit allows, in newtons.
    pub(super) fn allowed(&mut self, name: impl Into<String>, told: &Told<Allowed>) {
        match told {
            Ok(allowed) => self.push(name, "N", of_allowed(*allowed)),
            Err(why) => self.unknown(name, "N", why),
        }
    }

    /// A force that is allowed, and what governs it, under two names.
    pub(super) fn governed(
        &mut self,
        force: String,
        governs: String,
        told: &Told<(Allowed, Governs)>,
    ) {
        match told {
            Ok((allowed, what)) => {
                self.push(force, "N", of_allowed(*allowed));
                self.word(governs, governed_by(*what));
            }
            Err(why) => {
                self.unknown(force, "N", why);
                self.unknown(governs, "", why);
            }
        }
    }

    /// A point of the arm's plane, in metres: outwards from the swing axis, and over the ground.
    pub(super) fn point(&mut self, name: &str, point: Vector) {
        self.number(format!("{name}-r"), "m", point.r);
        self.number(format!("{name}-z"), "m", point.z);
    }

    fn push(&mut self, name: impl Into<String>, unit: &'static str, value: Value) {
        self.0.push(Figure {
            name: name.into(),
            unit,
            value,
        });
    }

    /// As fields of JSON: the value under its name, null where it is not known; those under `not_known` say why.
    pub(super) fn json(&self) -> Map<String, Json> {
        let mut fields = Map::new();
        let mut unknown = Map::new();
        for figure in &self.0 {
            let value = match &figure.value {
                Value::Number(number) => json!(number),
                Value::Word(word) => json!(word),
                Value::NotKnown(code, subject) => {
                    unknown.insert(figure.name.clone(), json!({ "code": code, "of": subject }));
                    Json::Null
                }
            };
            fields.insert(figure.name.clone(), value);
        }
        fields.insert("not_known".to_owned(), Json::Object(unknown));
        fields
    }
}

fn not_known(why: &NotKnown) -> Value {
    let subject = why.missing().map_or("", |missing| missing.subject);
    Value::NotKnown(why.code(), subject.to_owned())
}

fn of_allowed(allowed: Allowed) -> Value {
    match allowed {
        Allowed::UpTo(force) => Value::Number(force),
        Allowed::Unlimited => Value::Word("unlimited".to_owned()),
        Allowed::NotEvenItself => Value::Word("cannot-hold-itself".to_owned()),
    }
}

/// `working bucket`, `holding boom`, `tipping`, `sliding`.
pub(super) fn governed_by(governs: Governs) -> String {
    match governs.joint() {
        Some(joint) => format!("{} {}", governs.code(), joint.code()),
        None => governs.code().to_owned(),
    }
}

/// The corner at which an edge begins, counted from 1; `whole` where the machine as a whole is lifted.
pub(super) fn edge(edge: Edge) -> String {
    match edge {
        Edge::From(corner) => (corner + 1).to_string(),
        Edge::Whole => "whole".to_owned(),
    }
}

/// Rows of figures as a table: headings with units, a column for each name that any row has, in the order of first sight.
pub(super) fn csv(rows: &[Figures]) -> String {
    let (mut seen, mut columns) = (BTreeSet::new(), Vec::new());
    for figure in rows.iter().flat_map(|row| &row.0) {
        if seen.insert(figure.name.as_str()) {
            columns.push((figure.name.as_str(), figure.unit));
        }
    }
    let heading = columns.iter().map(|(name, unit)| match *unit {
        "" => (*name).to_owned(),
        unit => format!("{name} [{unit}]"),
    });
    let mut table = line(heading);
    for row in rows {
        let of_name: std::collections::BTreeMap<_, _> = row
            .0
            .iter()
            .map(|figure| (figure.name.as_str(), &figure.value))
            .collect();
        table += &line(columns.iter().map(|(name, _)| {
            of_name
                .get(name)
                .map_or_else(String::new, |value| cell(value))
        }));
    }
    table
}

fn line(cells: impl Iterator<Item = String>) -> String {
    cells.collect::<Vec<_>>().join(",") + "\n"
}

/// A cell; a word that a spreadsheet would take for a formula or a separator is put in quotes.
fn cell(value: &Value) -> String {
    match value {
        Value::Number(number) => number.to_string(),
        Value::NotKnown(..) => String::new(),
        Value::Word(word)
            if word.contains([',', '"', '\n']) || word.starts_with(['=', '+', '-', '@']) =>
        {
            let safe = if word.starts_with(['=', '+', '-', '@']) {
                "'"
            } else {
                ""
            };
            format!("\"{safe}{}\"", word.replace('"', "\"\""))
        }
        Value::Word(word) => word.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_has_each_column_once_and_empty_cells_where_a_row_has_none() {
        let (mut one, mut two) = (Figures::default(), Figures::default());
        one.number("a", "m", 0.1);
        two.word("says", "a, \"b\"");
        two.number("a", "m", f64::INFINITY);
        two.unknown("c", "N", &NotKnown::NoPose);
        assert_eq!(
            csv(&[one, two]),
            "a [m],says,c [N]\n0.1,,\nunlimited,\"a, \"\"b\"\"\",\n"
        );
    }

    #[test]
    fn no_word_becomes_a_formula() {
        let mut row = Figures::default();
        row.word("pose", "=1+1");
        assert_eq!(csv(&[row]), "pose\n\"'=1+1\"\n");
    }

    #[test]
    fn what_is_not_known_is_null_and_says_why() {
        let mut row = Figures::default();
        row.unknown("lift", "N", &NotKnown::SlewRing);
        let json = row.json();
        assert_eq!(json["lift"], Json::Null);
        assert_eq!(json["not_known"]["lift"]["code"], "slew-ring");
    }
}
