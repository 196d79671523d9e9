//! The words that the scripts of copying out and taking in show: one list for each, as data for the page.

use crate::page::Page;
use serde_json::{Map, Value};
use words::Arg;

/// See `renderCopyOut` in `static/copy-out.js`.
const COPY_OUT: &[&str] = &[
    "head",
    "text-title",
    "text-how",
    "text-label",
    "copy",
    "copied",
    "copy-by-hand",
    "share",
    "save",
    "file-name",
    "codes-title",
    "codes-how",
    "codes-many",
    "codes-show",
    "codes-hide",
    "place",
    "code-title",
    "next",
    "back",
    "run",
    "pause",
    "photos",
];

/// See `static/take-in.js`.
const TAKE_IN: &[&str] = &[
    "damaged-code",
    "part-kept",
    "done-before",
    "full",
    "text-nothing",
    "text-damaged",
    "text-missing",
    "text-read",
    "series-title",
    "have",
    "lacking",
    "not-whole",
    "cannot-unpack",
    "holds",
    "entry",
    "no-machine",
    "as-written",
    "photos",
    "forget",
    "forget-again",
    "deliver",
    "delivering",
    "delivered-title",
    "all-safe",
    "some-not",
    "no-connection",
    "not-taken",
    "sign-in",
];

/// What the scripts put into the sentences: each is handed to them as its own name in braces.
const ARGUMENTS: &[&str] = &[
    "n", "of", "parts", "name", "who", "machine", "when", "status", "address",
];

/// The words of copying out, as JSON for an attribute of the page.
#[expect(
    dead_code,
    reason = "the page that shows what is on this phone only hands them to its script"
)]
pub(crate) fn copy_out(p: &Page) -> String {
    dictionary(p, "copy-out", COPY_OUT)
}

/// The words of taking in, as JSON for an attribute of the page.
pub(crate) fn take_in(p: &Page) -> String {
    dictionary(p, "take-in", TAKE_IN)
}

fn dictionary(p: &Page, job: &str, keys: &[&str]) -> String {
    let holes: Vec<(&str, Arg<'_>)> = ARGUMENTS
        .iter()
        .map(|name| (*name, Arg::from(format!("{{{name}}}"))))
        .collect();
    let said = |key: &&str| {
        let text = p.words.say(&format!("{job}-{key}"), &holes);
        (in_script(key), Value::String(text))
    };
    Value::Object(keys.iter().map(said).collect::<Map<_, _>>()).to_string()
}

/// `text-title` is `textTitle` in a script.
fn in_script(key: &str) -> String {
    let mut name = String::new();
    let mut large = false;
    for letter in key.chars() {
        match letter {
            '-' => large = true,
            _ if large => {
                name.push(letter.to_ascii_uppercase());
                large = false;
            }
            _ => name.push(letter),
        }
    }
    name
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Names after `words.` in a script, and those after `@property {string} `.
    fn asked_for(script: &str) -> std::collections::BTreeSet<String> {
        let letters = |rest: &str| -> String {
            rest.chars()
                .take_while(char::is_ascii_alphabetic)
                .collect::<String>()
        };
        let names = ["words.", "@property {string} "]
            .into_iter()
            .flat_map(|before| script.split(before).skip(1).map(letters));
        names.filter(|name| !name.is_empty()).collect()
    }

    #[test]
    fn the_scripts_get_exactly_the_words_they_ask_for() {
        for (script, keys) in [
            (include_str!("../../../static/copy-out.js"), COPY_OUT),
            (include_str!("../../../static/take-in.js"), TAKE_IN),
        ] {
            let given = keys.iter().map(|key| in_script(key)).collect();
            assert_eq!(asked_for(script), given);
        }
    }
}
