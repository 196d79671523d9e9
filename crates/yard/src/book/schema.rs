//! The format as a JSON schema (draft 2020-12), for editors that check a book while it is written.

use super::fields::{FORMAT, Field, MOST_ITEMS, MOST_TEXT, Shape, TABLES, Table};
use serde_json::{Map, Value, json};

/// The schema. `say` gives the sentence for a key of words: `book-table-<table>` and `book-field-<table>-<key>`.
pub fn schema(say: &dyn Fn(&str) -> String) -> Value {
    let mut properties = Map::new();
    properties.insert(
        "kingpost".to_owned(),
        json!({ "const": FORMAT, "description": say("book-field-kingpost") }),
    );
    for table in TABLES {
        properties.insert(table.name.to_owned(), of_table(table, say));
    }
    let needed = TABLES
        .iter()
        .filter(|table| table.needed)
        .map(|table| table.name);
    let required: Vec<&str> = std::iter::once("kingpost").chain(needed).collect();
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": say("book-format-title"),
        "type": "object",
        "properties": properties,
        "required": required,
        "additionalProperties": false,
    })
}

fn of_table(table: &Table, say: &dyn Fn(&str) -> String) -> Value {
    let description = say(&format!("book-table-{}", table.name));
    if table.fields.is_empty() {
        return json!({ "description": description, "type": "object", "propertyNames": id(), "additionalProperties": id() });
    }
    let properties: Map<String, Value> = table
        .fields
        .iter()
        .map(|field| (field.key.to_owned(), of_field(table, field, say)))
        .collect();
    let required: Vec<&str> = table
        .fields
        .iter()
        .filter(|field| field.needed && field.kinds.is_empty())
        .map(|field| field.key)
        .collect();
    let mut one = json!({ "type": "object", "properties": properties, "required": required, "additionalProperties": false });
    let by_kind = by_kind(table);
    if !by_kind.is_empty() {
        one["allOf"] = Value::Array(by_kind);
    }
    if table.many {
        return json!({ "description": description, "type": "array", "items": one });
    }
    one["description"] = Value::String(description);
    one
}

/// What a point or a part must and may have by its kind.
fn by_kind(table: &Table) -> Vec<Value> {
    let of_kinds = |kinds: &[&str]| json!({ "properties": { "kind": { "enum": kinds } }, "required": ["kind"] });
    let all = table.fields.iter().flat_map(|field| {
        let must =
            |kinds: &[&str]| json!({ "if": of_kinds(kinds), "then": { "required": [field.key] } });
        let tied = (!field.kinds.is_empty())
            .then(|| json!({ "if": { "required": [field.key] }, "then": of_kinds(field.kinds) }));
        let needed = table.needed_for(field);
        let always = (!field.kinds.is_empty() && field.needed).then(|| must(field.kinds));
        let for_some = (!needed.is_empty()).then(|| must(&needed));
        tied.into_iter().chain(always).chain(for_some)
    });
    all.collect()
}

fn of_field(table: &Table, field: &Field, say: &dyn Fn(&str) -> String) -> Value {
    let mut shape = of_shape(field.shape);
    shape["description"] = Value::String(say(&format!("book-field-{}-{}", table.name, field.key)));
    shape
}

fn of_shape(shape: Shape) -> Value {
    let text = || json!({ "type": "string", "minLength": 1, "maxLength": MOST_TEXT });
    let list = |items: Value| json!({ "type": "array", "minItems": 1, "maxItems": MOST_ITEMS, "items": items });
    match shape {
        Shape::Text | Shape::Quantity(_) | Shape::Until => text(),
        Shape::Texts => list(text()),
        Shape::Id | Shape::Ref(_) => id(),
        Shape::Refs(_) => list(id()),
        Shape::Count(most) => json!({ "type": "integer", "minimum": 1, "maximum": most }),
        Shape::Yes => json!({ "type": "boolean" }),
        Shape::Word(words) => json!({ "enum": words() }),
        Shape::Words(words) => {
            json!({ "anyOf": [{ "enum": words() }, list(json!({ "enum": words() }))] })
        }
        Shape::Rhythm => json!({ "anyOf": [text(), list(text())] }),
        Shape::Place => {
            json!({ "type": "array", "minItems": 2, "maxItems": 3, "items": { "type": ["number", "string"] } })
        }
        Shape::Lengths(least, most) => lengths(least, most),
        Shape::Corners => {
            json!({ "type": "array", "minItems": 3, "maxItems": MOST_ITEMS, "items": lengths(2, 2) })
        }
        Shape::Cases => list(json!({
            "type": "object",
            "properties": { "with": text(), "may-crank": { "type": "boolean" } },
            "required": ["with", "may-crank"],
            "additionalProperties": false,
        })),
        Shape::Instead => list(json!({
            "type": "object",
            "properties": { "what": text(), "number": text(), "said-by": text(), "on": { "type": "string", "format": "date" } },
            "required": ["what", "said-by", "on"],
            "additionalProperties": false,
        })),
        Shape::Line => {
            json!({ "type": "array", "minItems": 2, "maxItems": MOST_ITEMS, "items": numbers(2) })
        }
        Shape::Circle => numbers(3),
    }
}

fn lengths(least: usize, most: usize) -> Value {
    json!({ "type": "array", "minItems": least, "maxItems": most, "items": { "type": ["number", "string"] } })
}

fn numbers(count: usize) -> Value {
    json!({ "type": "array", "minItems": count, "maxItems": count, "items": { "type": "number" } })
}

fn id() -> Value {
    json!({ "type": "string", "pattern": "^[a-z0-9][a-z0-9-]{0,63}$" })
}
