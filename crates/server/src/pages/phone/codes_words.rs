//! The words that the scripts of copying out and taking in show: one list for each, as data for the page.

use crate::page::Page;
use serde_json::{Map, Value};
use words::Arg;

/// See `renderCopyOut` in `static/copy-out.js`.
const COPY_OUT: &[&str] = &[
    "copy-out-head",
    "copy-out-text-title",
    "copy-out-text-how",
    "copy-out-text-label",
    "copy-out-copy",
    "copy-out-copied",
    "copy-out-copy-by-hand",
    "copy-out-share",
    "copy-out-save",
    "copy-out-file-name",
    "copy-out-codes-title",
    "copy-out-codes-how",
    "copy-out-codes-many",
    "copy-out-codes-show",
    "copy-out-codes-hide",
    "copy-out-place",
    "copy-out-code-title",
    "copy-out-next",
    "copy-out-back",
    "copy-out-run",
    "copy-out-pause",
    "copy-out-photos",
];

/// See `static/take-in.js`.
const TAKE_IN: &[&str] = &[
    "take-in-damaged-code",
    "take-in-part-kept",
    "take-in-done-before",
    "take-in-full",
    "take-in-text-nothing",
    "take-in-text-damaged",
    "take-in-text-missing",
    "take-in-text-read",
    "take-in-series-title",
    "take-in-have",
    "take-in-lacking",
    "take-in-not-whole",
    "take-in-cannot-unpack",
    "take-in-holds",
    "take-in-entry",
    "take-in-no-machine",
    "take-in-as-written",
    "take-in-photos",
    "take-in-forget",
    "take-in-forget-again",
    "take-in-deliver",
    "take-in-delivering",
    "take-in-delivered-title",
    "take-in-all-safe",
    "take-in-some-not",
    "take-in-no-connection",
    "take-in-not-taken",
    "take-in-sign-in",
];

/// What the scripts put into the sentences: each is handed to them as its own name in braces.
const ARGUMENTS: &[&str] = &[
    "n", "of", "parts", "name", "who", "machine", "when", "status", "address", "age", "all",
    "answer", "done", "step", "what", "why",
];

/// The sentences of copying out by their keys, for the dictionary of a page that calls `renderCopyOut`.
pub(crate) fn copy_out(p: &Page) -> Map<String, Value> {
    dictionary(p, COPY_OUT)
}

/// The sentences of taking in, as JSON for an attribute of its page.
pub(crate) fn take_in(p: &Page) -> String {
    Value::Object(dictionary(p, TAKE_IN)).to_string()
}

/// Sentences by their keys; what varies stands as its name in braces.
pub(crate) fn dictionary(p: &Page, keys: &[&str]) -> Map<String, Value> {
    let holes: Vec<(&str, Arg<'_>)> = ARGUMENTS
        .iter()
        .map(|name| (*name, Arg::from(format!("{{{name}}}"))))
        .collect();
    let said = |key: &&str| ((*key).to_owned(), Value::String(p.words.say(key, &holes)));
    keys.iter().map(said).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    /// The keys that a script names.
    fn named<'a>(script: &'a str, job: &str) -> BTreeSet<&'a str> {
        let texts = script.split('"').skip(1).step_by(2);
        texts.filter(|text| text.starts_with(job)).collect()
    }

    #[test]
    fn the_scripts_get_exactly_the_sentences_they_name() {
        for (script, job, keys) in [
            (
                include_str!("../../../static/copy-out.js"),
                "copy-out-",
                COPY_OUT,
            ),
            (
                include_str!("../../../static/take-in.js"),
                "take-in-",
                TAKE_IN,
            ),
        ] {
            assert_eq!(named(script, job), keys.iter().copied().collect());
        }
    }
}
