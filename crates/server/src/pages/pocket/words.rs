//! The sentences a script says, handed over as data: no sentence stands in a script.

use crate::{page::Page, pages::phone::codes_words};
use serde_json::{Map, Value};
use words::Arg;

/// Sentences of the pocket's scripts.
const SAID: &[&str] = &[
    "phone-kept-here",
    "phone-delivered",
    "phone-reached",
    "phone-not-reached",
    "phone-nothing-waits",
    "phone-waits-since",
    "phone-aside",
    "phone-not-yours",
    "phone-photo-waits",
    "phone-photo-aside",
    "phone-old",
    "phone-worse",
    "pocket-left-running",
    "pocket-left-unlocked",
    "pocket-signed-out",
    "phone-holder",
    "phone-nobody",
    "phone-photo-kept",
    "phone-photo-not-read",
    "phone-remove-photo",
    "phone-age-now",
    "phone-age-minutes",
    "phone-age-hours",
    "phone-age-days",
    "pocket-verdict-age",
    "pocket-worse",
    "pocket-worse.next",
    "pocket-progress",
    "pocket-stop-left",
    "pocket-stop-done",
    "pocket-round-closed",
    "pocket-held",
    "pocket-not-held",
    "close-round",
    "pocket-close-unfinished",
    "do-walk-round",
    "go-on-round",
    "point-kept",
    "pocket-answered-before",
    "ask-not-answered",
    "ask-not-answered.next",
    "ask-missing-level",
    "ask-missing-level.next",
    "ask-missing-looks",
    "ask-missing-looks.next",
    "ask-missing-pose",
    "ask-missing-pose.next",
    "ask-missing-heat",
    "ask-missing-heat.next",
    "ask-missing-reading",
    "ask-missing-reading.next",
    "ask-missing-one-reading",
    "ask-missing-one-reading.next",
    "ask-missing-method",
    "ask-missing-method.next",
    "ask-missing-condition",
    "ask-missing-condition.next",
    "ask-missing-bypassed",
    "ask-missing-bypassed.next",
    "ask-whole-number",
    "ask-whole-number.next",
    "ask-engine",
    "ask-engine.next",
    "ask-rest-step",
    "ask-rest-step.next",
    "ask-hours",
    "ask-hours.next",
    "ask-hours-empty",
    "ask-hours-empty.next",
    "ask-hours-negative",
    "ask-hours-negative.next",
    "ask-fault-what",
    "ask-fault-what.next",
    "ask-fault-severity",
    "ask-fault-severity.next",
    "ask-quantity",
    "ask-quantity.next",
    "ask-empty",
    "ask-empty.next",
    "ask-photo",
    "ask-photo.next",
    "hours-not-read",
    "kind-of-entry-walk-round",
    "kind-of-entry-handover",
    "kind-of-entry-run",
    "kind-of-entry-fault",
    "kind-of-entry-meter-reading",
    "kind-of-entry-note",
    "kind-of-entry-photo",
    "kind-of-entry-stand-down",
];

/// Sentences that count: one form for 1, one for the rest.
const COUNTED: &[&str] = &["phone-unsent"];

/// The dictionary of the pocket's scripts, as JSON.
pub(crate) fn dictionary(p: &Page) -> String {
    let mut all = codes_words::dictionary(p, SAID);
    all.extend(counted(p));
    all.extend(codes_words::copy_out(p));
    Value::Object(all).to_string()
}

/// What the script of every page says: how much waits on this phone.
pub(crate) fn of_every_page(p: &Page) -> String {
    let mut all = codes_words::dictionary(p, &["phone-old", "phone-look", "phone-worse"]);
    all.extend(counted(p));
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
