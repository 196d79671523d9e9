//! Raising bodies written by older programs to the newest version of their kind. The bytes on disk stay as they are.

use super::kinds::Json;
use serde_json::Value;

/// From one version of a kind to the next: kind, version it starts from, how.
type Raiser = (&'static str, u32, fn(Value) -> Option<Value>);

/// One line for every step there ever was.
const RAISERS: &[Raiser] = &[
    // Version 2 can name a meter; without a name it is the first, as it always was.
    ("meter-reading", 1, Some),
    ("meter-change", 1, Some),
    // Version 2 may say how many, and of a purchase which part.
    ("part-fitted", 1, Some),
    ("purchase", 1, Some),
    // Version 2 has one more word, for a meter that stood still.
    ("ruling", 1, Some),
];

/// What raising came to.
pub(super) enum Raised<'a> {
    /// JSON of the newest version.
    Newest(Json<'a>),
    /// A version that never was, or is newer than this program.
    NotKnown,
    /// The body does not read as its version.
    Unreadable,
}

/// Raises a body's JSON from `version` to `newest`, step by step.
pub(super) fn raise<'a>(kind: &str, version: u32, newest: u32, json: &'a str) -> Raised<'a> {
    raise_by(RAISERS, kind, version, newest, json)
}

fn raise_by<'a>(
    raisers: &[Raiser],
    kind: &str,
    version: u32,
    newest: u32,
    json: &'a str,
) -> Raised<'a> {
    if version == newest {
        return Raised::Newest(json.into());
    }
    if version == 0 || version > newest {
        return Raised::NotKnown;
    }
    let Ok(mut body) = serde_json::from_str::<Value>(json) else {
        return Raised::Unreadable;
    };
    for from in version..newest {
        let Some((_, _, step)) = raisers
            .iter()
            .find(|(of, at, _)| *of == kind && *at == from)
        else {
            return Raised::NotKnown;
        };
        let Some(raised) = step(body) else {
            return Raised::Unreadable;
        };
        body = raised;
    }
    Raised::Newest(body.to_string().into())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A made-up history of a kind: version 2 renamed `words` to `text`, version 3 put it in a list.
    const HISTORY: &[Raiser] = &[
        ("note", 1, |mut body| {
            Some(serde_json::json!({ "text": body.get_mut("words")?.take() }))
        }),
        ("note", 2, |body| {
            Some(serde_json::json!({ "texts": [body.get("text")?] }))
        }),
    ];

    fn raised(version: u32, json: &str) -> Option<String> {
        match raise_by(HISTORY, "note", version, 3, json) {
            Raised::Newest(json) => Some(json.into_owned()),
            Raised::NotKnown => None,
            Raised::Unreadable => Some("unreadable".to_owned()),
        }
    }

    #[test]
    fn every_old_version_comes_up_step_by_step() {
        assert_eq!(
            raised(1, r#"{"words":"é"}"#).as_deref(),
            Some(r#"{"texts":["é"]}"#)
        );
        assert_eq!(
            raised(2, r#"{"text":"é"}"#).as_deref(),
            Some(r#"{"texts":["é"]}"#)
        );
        assert_eq!(
            raised(3, r#" {"texts": []}"#).as_deref(),
            Some(r#" {"texts": []}"#)
        );
        assert_eq!(raised(1, r#"{"text":"é"}"#).as_deref(), Some("unreadable"));
        assert_eq!(raised(4, "{}"), None);
        assert_eq!(raised(0, "{}"), None);
    }
}
