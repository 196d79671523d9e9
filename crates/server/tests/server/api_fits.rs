//! Whether a JSON value fits a schema of the API's description: as much of JSON Schema as the description uses.

use serde_json::Value;

/// Where and how `value` departs from `schema`; nothing where it fits. References lead into `document`.
pub(crate) fn trouble(document: &Value, schema: &Value, value: &Value) -> Option<String> {
    let Value::Object(said) = schema else {
        return (schema == &Value::Bool(false)).then(|| format!("{value} is not wanted"));
    };
    said.iter()
        .find_map(|(word, wants)| one(document, schema, word, wants, value))
}

fn one(
    document: &Value,
    whole: &Value,
    word: &str,
    wants: &Value,
    value: &Value,
) -> Option<String> {
    let fits = |schema: &Value| trouble(document, schema, value).is_none();
    match word {
        "$ref" => {
            let at = wants.as_str().unwrap().trim_start_matches('#');
            let target = document.pointer(at).unwrap_or_else(|| panic!("no {wants}"));
            trouble(document, target, value)
        }
        "type" => {
            let right = match wants {
                Value::Array(all) => all.iter().any(|one| is_of(one, value)),
                one => is_of(one, value),
            };
            (!right).then(|| format!("{value} is no {wants}"))
        }
        "enum" => {
            (!wants.as_array().unwrap().contains(value)).then(|| format!("{value} not of {wants}"))
        }
        "const" => (wants != value).then(|| format!("{value} is not {wants}")),
        "required" => {
            let lacks = |name: &&Value| value.get(name.as_str().unwrap()).is_none();
            let lacking = wants.as_array().unwrap().iter().find(lacks);
            lacking
                .filter(|_| value.is_object())
                .map(|name| format!("no {name} in {value}"))
        }
        "properties" => wants
            .as_object()
            .unwrap()
            .iter()
            .find_map(|(name, schema)| {
                let inside = value.get(name)?;
                trouble(document, schema, inside).map(|why| format!("{name}: {why}"))
            }),
        "items" => value
            .as_array()?
            .iter()
            .find_map(|item| trouble(document, wants, item)),
        "anyOf" | "oneOf" => (!wants.as_array().unwrap().iter().any(fits))
            .then(|| format!("{value} fits none of {wants}")),
        "allOf" => wants
            .as_array()
            .unwrap()
            .iter()
            .find_map(|schema| trouble(document, schema, value)),
        "if" => match whole.get("then") {
            Some(then) if fits(wants) => trouble(document, then, value),
            _ => None,
        },
        "minimum" => (value.as_f64()? < wants.as_f64()?).then(|| format!("{value} below {wants}")),
        "format" if wants == "uuid" => value
            .as_str()?
            .parse::<uuid::Uuid>()
            .is_err()
            .then(|| format!("{value} is no uuid")),
        "maxLength" => (value.as_str()?.chars().count() as u64 > wants.as_u64()?)
            .then(|| format!("{value} too long")),
        "then"
        | "title"
        | "description"
        | "format"
        | "default"
        | "pattern"
        | "maximum"
        | "maxItems"
        | "contentMediaType"
        | "contentSchema"
        | "additionalProperties" => None,
        other => panic!("the description uses {other:?}, which this check does not know"),
    }
}

fn is_of(kind: &Value, value: &Value) -> bool {
    match kind.as_str().unwrap() {
        "null" => value.is_null(),
        "boolean" => value.is_boolean(),
        "integer" => value.is_i64() || value.is_u64(),
        "number" => value.is_number(),
        "string" => value.is_string(),
        "array" => value.is_array(),
        "object" => value.is_object(),
        other => panic!("type {other}"),
    }
}

#[test]
fn the_check_itself_finds_what_does_not_fit() {
    use serde_json::json;
    let document = json!({ "d": { "type": "object", "required": ["a"], "properties": { "a": { "type": ["string", "null"] } } } });
    let schema = json!({ "$ref": "#/d" });
    assert_eq!(trouble(&document, &schema, &json!({ "a": "x" })), None);
    assert_eq!(trouble(&document, &schema, &json!({ "a": null })), None);
    for wrong in [json!({}), json!({ "a": 1 }), json!("a"), Value::Null] {
        assert!(trouble(&document, &schema, &wrong).is_some(), "{wrong}");
    }
}
