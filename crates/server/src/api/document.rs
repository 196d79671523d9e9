//! The description of the API as an OpenAPI 3.1 document, made from the table of operations.

use super::{
    asked::{Asked, say},
    operation::{Kind, Method, Operation, Parameter, Sent, Who},
    refused::{CODES, Refused},
    shapes::Refusal,
    table::OPERATIONS,
};
use axum::{http::StatusCode, response::Response};
use schemars::{SchemaGenerator, generate::SchemaSettings};
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;
use words::Words;

/// The whole document.
pub fn document(words: &Words) -> Value {
    let mut settings = SchemaSettings::draft2020_12();
    settings.definitions_path = "/components/schemas".into();
    let mut generator = settings.into_generator();
    let mut paths: BTreeMap<&str, Map<String, Value>> = BTreeMap::new();
    for operation in OPERATIONS {
        let method = match operation.method {
            Method::Get => "get",
            Method::Post => "post",
            Method::Put => "put",
        };
        let described = described(operation, words, &mut generator);
        paths
            .entry(operation.path)
            .or_default()
            .insert(method.to_owned(), described);
    }
    json!({
        "openapi": "3.1.0",
        "info": {
            "title": words.text("api-title"),
            "description": words.text("api-about"),
            "version": env!("CARGO_PKG_VERSION"),
        },
        "paths": paths,
        "components": {
            "schemas": generator.take_definitions(true),
            "securitySchemes": {
                "token": { "type": "http", "scheme": "bearer", "description": words.text("api-by-token") },
                "sign-in": { "type": "apiKey", "in": "cookie", "name": crate::session::COOKIE, "description": words.text("api-by-sign-in") },
            },
        },
    })
}

/// The document as an answer.
pub(super) fn serve(asked: &Asked) -> Result<Response, Refused> {
    say(StatusCode::OK, document(&asked.app.words))
}

fn described(operation: &Operation, words: &Words, generator: &mut SchemaGenerator) -> Value {
    let mut said = json!({
        "operationId": operation.name,
        "summary": words.text(&format!("api-do-{}", operation.name)),
        "parameters": operation.parameters.iter().map(|one| parameter(one, words)).collect::<Vec<_>>(),
        "responses": responses(operation, words, generator),
        "security": security(operation.who),
    });
    if let Some(sent) = &operation.sent {
        let (most, content) = match sent {
            Sent::Json { most, schema } => (
                *most,
                json!({ "application/json": { "schema": schema(generator) } }),
            ),
            Sent::Picture => (crate::photo::MOST_BYTES, json!({ "image/*": {} })),
        };
        said["requestBody"] = json!({
            "required": true,
            "description": words.say("api-sent-most", &[("most", (most >> 20).into())]),
            "content": content,
        });
    }
    said
}

/// A sign-in will do, or a token of the scope named.
fn security(who: Who) -> Value {
    match who {
        Who::Anybody => json!([]),
        Who::Known => json!([{ "sign-in": [] }, { "token": [] }]),
        Who::Reads(_) => json!([{ "sign-in": [] }, { "token": ["read"] }]),
        Who::Delivers(_) => json!([{ "sign-in": [] }, { "token": ["deliver"] }]),
    }
}

fn parameter(parameter: &Parameter, words: &Words) -> Value {
    let schema = match parameter.kind {
        Kind::Tag => json!({ "type": "string", "pattern": "^[0-9a-f]{10}$" }),
        Kind::Machine => json!({ "type": "string", "pattern": "^[a-z0-9][a-z0-9-]{0,63}$" }),
        Kind::Entry | Kind::Photo => json!({ "type": "string", "format": "uuid" }),
        Kind::Number(least, most, unsaid) => {
            json!({ "type": "integer", "minimum": least, "maximum": most, "default": unsaid })
        }
        Kind::Word(words) => {
            json!({ "type": "string", "enum": words, "default": words.first() })
        }
    };
    let in_path = parameter.kind.in_path();
    json!({
        "name": parameter.name,
        "in": if in_path { "path" } else { "query" },
        "required": in_path,
        "description": words.text(&format!("api-part-{}", parameter.name)),
        "schema": schema,
    })
}

fn responses(operation: &Operation, words: &Words, generator: &mut SchemaGenerator) -> Value {
    let mut all: Map<String, Value> = Map::new();
    for answer in operation.answers {
        let described = json!({
            "description": words.text(&format!("api-says-{}", answer.key)),
            "content": { "application/json": { "schema": (answer.schema)(generator) } },
        });
        all.insert(answer.status.as_str().to_owned(), described);
    }
    let mut refusals: BTreeMap<StatusCode, Vec<&str>> = BTreeMap::new();
    for (code, status) in CODES.iter().filter(|(code, _)| can_refuse(operation, code)) {
        refusals.entry(*status).or_default().push(*code);
    }
    let schema = generator.subschema_for::<Refusal>();
    for (status, codes) in refusals {
        let described = json!({
            "description": words.say("api-refuses", &[("codes", codes.join(", ").into())]),
            "content": { "application/json": { "schema": schema } },
        });
        all.entry(status.as_str().to_owned()).or_insert(described);
    }
    Value::Object(all)
}

/// Whether an operation can end with this code; what every operation has follows from what it takes and who may ask.
fn can_refuse(operation: &Operation, code: &str) -> bool {
    match code {
        "sign-in" | "token" => operation.who != Who::Anybody,
        "scope" | "may-not" => matches!(operation.who, Who::Reads(_) | Who::Delivers(_)),
        "slow-down" => operation.who != Who::Anybody,
        "cross-site" => operation.method != Method::Get,
        "not-found" => operation.parameters.iter().any(|part| part.kind.in_path()),
        "parameter" => operation.parameters.iter().any(|part| !part.kind.in_path()),
        "media-type" | "too-large" | "cut-off" | "not-json" | "shape" => {
            matches!(operation.sent, Some(Sent::Json { .. }))
        }
        photo if photo.starts_with("photo-") => matches!(operation.sent, Some(Sent::Picture)),
        "method" | "ours" => false,
        own => operation.refuses.contains(&own),
    }
}
