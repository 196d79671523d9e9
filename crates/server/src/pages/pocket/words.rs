//! The sentences a script says, handed over as data: no sentence stands in a script.

use crate::{page::Page, pages::phone::codes_words};
use serde_json::{Map, Value};
use words::Arg;

/// Sentences of the pocket's scripts. What varies stands as `{name}`.
const SAID: &[(&str, &[&str])] = &[
    ("phone-kept-here", &[]),
    ("phone-delivered", &[]),
    ("phone-reached", &[]),
    ("phone-not-reached", &[]),
    ("phone-nothing-waits", &[]),
    ("phone-waits-since", &["age"]),
    ("phone-aside", &["why"]),
    ("phone-not-yours", &[]),
    ("phone-photo-waits", &[]),
    ("phone-photo-aside", &["why"]),
    ("phone-old", &[]),
    ("phone-holder", &["name"]),
    ("phone-nobody", &[]),
    ("phone-photo-kept", &[]),
    ("phone-photo-not-read", &[]),
    ("phone-remove-photo", &[]),
    ("phone-age-now", &[]),
    ("phone-age-minutes", &["n"]),
    ("phone-age-hours", &["n"]),
    ("phone-age-days", &["n"]),
    ("pocket-verdict-age", &["age"]),
    ("pocket-worse", &["what"]),
    ("pocket-worse.next", &[]),
    ("pocket-progress", &["done", "all"]),
    ("pocket-stop-left", &["done", "all"]),
    ("pocket-stop-done", &[]),
    ("pocket-round-closed", &[]),
    ("pocket-held", &[]),
    ("pocket-not-held", &[]),
    ("close-round", &[]),
    ("pocket-close-unfinished", &["n"]),
    ("do-walk-round", &[]),
    ("go-on-round", &[]),
    ("point-kept", &["answer"]),
    ("pocket-answered-before", &[]),
    ("ask-not-answered", &[]),
    ("ask-not-answered.next", &[]),
    ("ask-missing-level", &[]),
    ("ask-missing-level.next", &[]),
    ("ask-missing-looks", &[]),
    ("ask-missing-looks.next", &[]),
    ("ask-missing-pose", &[]),
    ("ask-missing-pose.next", &[]),
    ("ask-missing-heat", &[]),
    ("ask-missing-heat.next", &[]),
    ("ask-missing-reading", &[]),
    ("ask-missing-reading.next", &[]),
    ("ask-missing-one-reading", &["name"]),
    ("ask-missing-one-reading.next", &[]),
    ("ask-missing-method", &[]),
    ("ask-missing-method.next", &[]),
    ("ask-missing-condition", &[]),
    ("ask-missing-condition.next", &[]),
    ("ask-missing-bypassed", &[]),
    ("ask-missing-bypassed.next", &[]),
    ("ask-whole-number", &[]),
    ("ask-whole-number.next", &[]),
    ("ask-engine", &[]),
    ("ask-engine.next", &[]),
    ("ask-rest-step", &["step"]),
    ("ask-rest-step.next", &[]),
    ("ask-hours", &[]),
    ("ask-hours.next", &[]),
    ("ask-hours-empty", &[]),
    ("ask-hours-empty.next", &[]),
    ("ask-hours-negative", &[]),
    ("ask-hours-negative.next", &[]),
    ("ask-fault-what", &[]),
    ("ask-fault-what.next", &[]),
    ("ask-fault-severity", &[]),
    ("ask-fault-severity.next", &[]),
    ("ask-quantity", &[]),
    ("ask-quantity.next", &[]),
    ("ask-empty", &[]),
    ("ask-empty.next", &[]),
    ("ask-photo", &[]),
    ("ask-photo.next", &[]),
    ("hours-not-read", &[]),
    ("kind-of-entry-walk-round", &[]),
    ("kind-of-entry-handover", &[]),
    ("kind-of-entry-run", &[]),
    ("kind-of-entry-fault", &[]),
    ("kind-of-entry-meter-reading", &[]),
    ("kind-of-entry-note", &[]),
    ("kind-of-entry-photo", &[]),
    ("kind-of-entry-stand-down", &[]),
];

/// Sentences that count: one form for 1, one for the rest.
const COUNTED: &[&str] = &["phone-unsent"];

/// The dictionary of the pocket's scripts, as JSON.
pub(crate) fn dictionary(p: &Page) -> String {
    let mut all: Map<String, Value> = SAID
        .iter()
        .map(|(key, args)| ((*key).to_owned(), Value::from(open(p, key, args))))
        .collect();
    all.extend(counted(p));
    all.extend(codes_words::copy_out(p));
    Value::Object(all).to_string()
}

/// What the script of every page says: how much waits on this phone.
pub(crate) fn of_every_page(p: &Page) -> String {
    let mut all = counted(p);
    for key in ["phone-old", "phone-look"] {
        all.insert(key.to_owned(), p.t(key).into());
    }
    Value::Object(all).to_string()
}

fn counted(p: &Page) -> Map<String, Value> {
    let both = |key: &str| {
        let one = p.words.say(key, &[("n", Arg::from(1_u32))]);
        Value::from(vec![one, p.words.say(key, &[("n", "{n}".into())])])
    };
    COUNTED
        .iter()
        .map(|key| ((*key).to_owned(), both(key)))
        .collect()
}

/// A sentence with its arguments left open.
fn open(p: &Page, key: &str, args: &[&str]) -> String {
    let open: Vec<(String, String)> = args
        .iter()
        .map(|name| ((*name).to_owned(), format!("{{{name}}}")))
        .collect();
    let args: Vec<(&str, Arg<'_>)> = open
        .iter()
        .map(|(name, value)| (name.as_str(), Arg::from(value.as_str())))
        .collect();
    p.words.say(key, &args)
}
