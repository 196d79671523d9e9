//! The form of an entry as JSON Schema (draft 2020-12), made from the forms themselves.

use super::kinds::body_schemas;
use schemars::{Schema, SchemaGenerator, json_schema};
use serde_json::{Value, json};

/// Pattern of the ids that people write: machines, points, kinds.
const WELL_FORMED: &str = "^[a-z0-9][a-z0-9-]{0,63}$";

/// The schema of a whole entry with every kind of body. `generator` collects the definitions it refers to.
///
/// A kind or version that is not in it is taken all the same, kept and asked about: phones may be newer than their yard.
pub fn entry_schema(generator: &mut SchemaGenerator) -> Schema {
    let kinds: Vec<Value> = body_schemas(generator)
        .into_iter()
        .map(|(kind, version, body)| of_kind(kind, version, &body))
        .collect();
    json_schema!({
        "type": "object",
        "description": "One line of the journal, as its writer made it. Its bytes never change again.",
        "required": ["id", "yard", "kind", "version", "at", "by", "device", "counter", "body"],
        "properties": {
            "id": { "type": "string", "format": "uuid", "description": "UUIDv7, made where and when it was submitted." },
            "yard": { "type": "string", "format": "uuid" },
            "machine": { "type": ["string", "null"], "pattern": WELL_FORMED, "description": "None for the yard as a whole." },
            "kind": { "type": "string", "pattern": WELL_FORMED },
            "version": { "type": "integer", "minimum": 0, "maximum": u32::MAX },
            "at": { "type": "string", "format": "date-time", "description": "By the writer's own clock." },
            "by": { "type": "string", "format": "uuid", "description": "The person who writes." },
            "device": { "type": "string", "maxLength": 64 },
            "counter": { "type": "integer", "minimum": 0, "maximum": u64::MAX, "description": "The device's own count of its entries." },
            "body": { "description": "What it says, by kind and version." }
        },
        "allOf": kinds
    })
}

fn of_kind(kind: &str, version: u32, body: &Schema) -> Value {
    json!({
        "if": { "properties": { "kind": { "const": kind }, "version": { "const": version } }, "required": ["kind", "version"] },
        "then": { "properties": { "body": body } }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::KINDS;

    #[test]
    fn every_kind_is_described() {
        let mut generator = SchemaGenerator::default();
        let schema = entry_schema(&mut generator);
        let all = schema.as_value()["allOf"].as_array().unwrap().clone();
        assert_eq!(all.len(), KINDS.len());
        let definitions = generator.take_definitions(true);
        for (case, (kind, version)) in all.iter().zip(KINDS) {
            assert_eq!(case["if"]["properties"]["kind"]["const"], *kind);
            assert_eq!(case["if"]["properties"]["version"]["const"], *version);
            let name = case["then"]["properties"]["body"]["$ref"].as_str().unwrap();
            let form = &definitions[name.rsplit('/').next().unwrap()];
            assert!(form["properties"].is_object(), "{kind}: {form}");
        }
    }
}
