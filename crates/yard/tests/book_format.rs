//! The declared format is the one that is read: every key is looked at, by its declared shape.
#![allow(clippy::unwrap_used)]

use quantity::Habits;
use serde_json::Value;
use std::collections::BTreeSet;
use yard::book::{Field, FieldShape, TABLES, Table, read, schema};

/// A value that no shape takes: a date.
const NOBODYS: &str = "1979-05-27";

fn codes(text: &str) -> Vec<(u32, &'static str)> {
    read(text, &Habits::default())
        .troubles
        .iter()
        .map(|trouble| (trouble.line, trouble.what.code()))
        .collect()
}

/// A table with one key that has a value of no shape: its line must be told, by a code of its shape.
fn told_for(table: &Table, field: &Field) -> bool {
    let kind = field
        .kinds
        .first()
        .map_or(String::new(), |kind| format!("kind = \"{kind}\"\n"));
    let text = format!(
        "kingpost = 1\n{}\n{kind}{} = {NOBODYS}\n",
        table.heading(),
        field.key
    );
    let line = text.lines().count() as u32;
    codes(&text)
        .iter()
        .any(|(at, code)| *at == line && matches!(*code, "wrong-type" | "bad-place" | "bad-stroke"))
}

#[test]
fn every_declared_key_is_read() {
    for table in TABLES {
        for field in table
            .fields
            .iter()
            .filter(|field| field.key != "kind" || table.name != "point")
        {
            assert!(told_for(table, field), "{} {}", table.name, field.key);
        }
    }
}

#[test]
fn every_needed_key_is_missed() {
    for table in TABLES {
        let text = format!("kingpost = 1\n{}\n", table.heading());
        let read = read(&text, &Habits::default());
        for field in table
            .fields
            .iter()
            .filter(|field| field.needed && field.kinds.is_empty())
        {
            let missed = |trouble: &yard::book::Trouble| matches!(&trouble.what, yard::book::TroubleKind::MissingKey { key, .. } if key == field.key);
            assert!(
                read.troubles.iter().any(missed),
                "{} {}",
                table.name,
                field.key
            );
        }
    }
}

#[test]
fn the_schema_has_every_table_and_key() {
    let schema = schema(&|key| key.to_owned());
    for table in TABLES {
        let of_table = &schema["properties"][table.name];
        let one = if table.many {
            &of_table["items"]
        } else {
            of_table
        };
        for field in table.fields {
            assert!(
                one["properties"][field.key]["description"].is_string(),
                "{} {}",
                table.name,
                field.key
            );
        }
    }
    let kinds = &schema["properties"]["point"]["items"]["properties"]["kind"]["enum"];
    assert!(kinds.as_array().unwrap().contains(&Value::from("pin-clip")));
}

#[test]
fn shapes_have_words_of_their_own() {
    let codes: BTreeSet<&str> = TABLES
        .iter()
        .flat_map(|table| table.fields)
        .map(|field| field.shape.code())
        .collect();
    assert_eq!(codes.len(), 19, "{codes:?}");
    assert_eq!(FieldShape::Yes.code(), "yes-or-no");
}
