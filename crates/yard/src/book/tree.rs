//! The book as TOML gives it: keys and values with their places in the text, in the order written.

use std::ops::Range;
use toml::{
    Spanned,
    de::{DeTable, DeValue},
};

/// A key with its place.
#[derive(Clone, Debug)]
pub(super) struct Key {
    pub(super) text: String,
    pub(super) span: Range<usize>,
}

/// A value with its place; for a table under a heading that is the heading.
#[derive(Clone, Debug)]
pub(super) struct Node {
    pub(super) span: Range<usize>,
    pub(super) value: Value,
}

/// Keys and values of one table.
pub(super) type Entries = Vec<(Key, Node)>;

#[derive(Clone, Debug)]
pub(super) enum Value {
    Text(String),
    Whole(i64),
    Number(f64),
    Yes(bool),
    List(Vec<Node>),
    Table(Entries),
    /// A date, or a number that is none.
    Other,
}

impl Value {
    /// The type's name, for troubles.
    pub(super) fn type_code(&self) -> &'static str {
        match self {
            Value::Text(_) => "text",
            Value::Whole(_) => "whole-number",
            Value::Number(_) => "number",
            Value::Yes(_) => "yes-or-no",
            Value::List(_) => "list",
            Value::Table(_) => "table",
            Value::Other => "other",
        }
    }
}

/// The entries of a document, places brought back by `to_original`.
pub(super) fn entries(
    table: &DeTable<'_>,
    to_original: &dyn Fn(Range<usize>) -> Range<usize>,
) -> Entries {
    let mut all: Entries = table
        .iter()
        .map(|(key, value)| {
            (
                Key {
                    text: key.get_ref().to_string(),
                    span: to_original(key.span()),
                },
                node(value, to_original),
            )
        })
        .collect();
    all.sort_by_key(|(key, _)| key.span.start);
    all
}

fn node(value: &Spanned<DeValue<'_>>, to_original: &dyn Fn(Range<usize>) -> Range<usize>) -> Node {
    let read = match value.get_ref() {
        DeValue::String(text) => Value::Text(text.to_string()),
        DeValue::Integer(whole) => {
            i64::from_str_radix(whole.as_str(), whole.radix()).map_or(Value::Other, Value::Whole)
        }
        DeValue::Float(number) => number
            .as_str()
            .parse()
            .ok()
            .filter(|f: &f64| f.is_finite())
            .map_or(Value::Other, Value::Number),
        DeValue::Boolean(yes) => Value::Yes(*yes),
        DeValue::Datetime(_) => Value::Other,
        DeValue::Array(list) => {
            Value::List(list.iter().map(|item| node(item, to_original)).collect())
        }
        DeValue::Table(table) => Value::Table(entries(table, to_original)),
    };
    Node {
        span: to_original(value.span()),
        value: read,
    }
}
