//! A figure's inputs as its command takes them, for computing it once more elsewhere.
#![allow(clippy::unwrap_used, missing_docs, unreachable_pub)]

use serde_json::Value;

/// An input as the command takes it: all digits, a list with semicolons.
pub fn argument(input: &Value) -> String {
    let value = match &input["value"] {
        Value::Array(list) => list
            .iter()
            .map(ToString::to_string)
            .collect::<Vec<_>>()
            .join(";"),
        one => one.to_string(),
    };
    format!("{}={value}", input["name"].as_str().unwrap())
}
