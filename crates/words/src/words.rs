//! The messages of one language, and how one of them is said.

use crate::pseudo;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue, concurrent::FluentBundle};
use fluent_syntax::ast::{Entry, Pattern};
use std::{
    borrow::Cow,
    collections::BTreeSet,
    sync::atomic::{AtomicUsize, Ordering},
};

/// The English messages: file name and text, one file a job.
pub(crate) const ENGLISH: &[(&str, &str)] = &[
    ("access", include_str!("../lang/en/access.ftl")),
    ("api", include_str!("../lang/en/api.ftl")),
    ("arrival", include_str!("../lang/en/arrival.ftl")),
    ("arm", include_str!("../lang/en/arm.ftl")),
    ("arm-book", include_str!("../lang/en/arm-book.ftl")),
    ("arm-command", include_str!("../lang/en/arm-command.ftl")),
    ("arm-page", include_str!("../lang/en/arm-page.ftl")),
    ("book", include_str!("../lang/en/book.ftl")),
    ("caution", include_str!("../lang/en/caution.ftl")),
    ("codes", include_str!("../lang/en/codes.ftl")),
    ("command", include_str!("../lang/en/command.ftl")),
    ("errors", include_str!("../lang/en/errors.ftl")),
    ("fields", include_str!("../lang/en/fields.ftl")),
    ("handover", include_str!("../lang/en/handover.ftl")),
    ("https", include_str!("../lang/en/https.ftl")),
    ("journal", include_str!("../lang/en/journal.ftl")),
    ("meters", include_str!("../lang/en/meters.ftl")),
    ("pages", include_str!("../lang/en/pages.ftl")),
    ("kinds", include_str!("../lang/en/kinds.ftl")),
    ("kept", include_str!("../lang/en/kept.ftl")),
    ("leaves", include_str!("../lang/en/leaves.ftl")),
    ("leaves-arm", include_str!("../lang/en/leaves-arm.ftl")),
    ("papers", include_str!("../lang/en/papers.ftl")),
    ("people", include_str!("../lang/en/people.ftl")),
    ("photos", include_str!("../lang/en/photos.ftl")),
    ("pocket", include_str!("../lang/en/pocket.ftl")),
    ("quantity", include_str!("../lang/en/quantity.ftl")),
    ("reckon", include_str!("../lang/en/reckon.ftl")),
    ("repeats", include_str!("../lang/en/repeats.ftl")),
    ("honest", include_str!("../lang/en/honest.ftl")),
    ("rules", include_str!("../lang/en/rules.ftl")),
    ("time", include_str!("../lang/en/time.ftl")),
    ("together", include_str!("../lang/en/together.ftl")),
    ("upkeep", include_str!("../lang/en/upkeep.ftl")),
    ("walkround", include_str!("../lang/en/walkround.ftl")),
    ("work", include_str!("../lang/en/work.ftl")),
];

/// All messages of one language. Cheap to share: build one when the program starts.
pub struct Words {
    bundle: FluentBundle<FluentResource>,
    keys: BTreeSet<String>,
    pseudo: bool,
    missing: AtomicUsize,
}

impl Words {
    /// English, as spoken in Britain.
    pub fn english() -> Self {
        Self::of(ENGLISH, false)
    }

    /// The made-up language of the tests: every message is there, stretched, accented and between ⟦ and ⟧.
    pub fn pseudo() -> Self {
        Self::of(ENGLISH, true)
    }

    fn of(files: &[(&str, &str)], pseudo: bool) -> Self {
        let language = "en-GB".parse().expect("en-GB is a language tag");
        let mut bundle = FluentBundle::new_concurrent(vec![language]);
        bundle.set_use_isolating(false);
        if pseudo {
            bundle.set_transform(Some(pseudo::disguise));
        }
        let mut keys = BTreeSet::new();
        for (_, text) in files {
            // A message that does not parse is left out here; a test over the same files names its line.
            let resource = FluentResource::try_new((*text).to_owned())
                .unwrap_or_else(|(sound_part, _)| sound_part);
            keys.extend(resource.entries().flat_map(keys_of));
            bundle.add_resource_overriding(resource);
        }
        Self {
            bundle,
            keys,
            pseudo,
            missing: AtomicUsize::new(0),
        }
    }

    /// The language's tag, for a page's `lang`; the made-up one has the tag kept for such.
    pub fn language(&self) -> &'static str {
        if self.pseudo { "en-XA" } else { "en-GB" }
    }

    /// Says a message. `key` names a message, or a part of one as `message.part`.
    ///
    /// A key that does not exist, or an argument that is not given, is our mistake: it stops a debug build. A release
    /// build shows the key between ⟦ and ⟧ and counts it, see [`Words::missing`].
    pub fn say(&self, key: &str, args: &[(&str, Arg<'_>)]) -> String {
        let Some(pattern) = self.pattern(key) else {
            return self.note_missing(key);
        };
        let args: FluentArgs<'_> = args
            .iter()
            .map(|(name, arg)| (*name, arg.fluent()))
            .collect();
        let mut errors = Vec::new();
        let said = self
            .bundle
            .format_pattern(pattern, Some(&args), &mut errors)
            .into_owned();
        if !errors.is_empty() {
            debug_assert!(errors.is_empty(), "message {key}: {errors:?}");
            self.missing.fetch_add(1, Ordering::Relaxed);
        }
        if self.pseudo {
            format!("⟦{said}⟧")
        } else {
            said
        }
    }

    /// Says a message that needs no argument.
    pub fn text(&self, key: &str) -> String {
        self.say(key, &[])
    }

    /// Whether there is such a message, or such a part of one.
    pub fn has(&self, key: &str) -> bool {
        self.keys.contains(key)
    }

    /// All keys, in alphabetical order; parts as `message.part`.
    pub fn keys(&self) -> impl Iterator<Item = &str> {
        self.keys.iter().map(String::as_str)
    }

    /// How many times a message or an argument was missing since the start. More than zero is a bug to report.
    pub fn missing(&self) -> usize {
        self.missing.load(Ordering::Relaxed)
    }

    /// What and what next: the message `key`, and its part `next`.
    pub(crate) fn told(&self, key: &str, args: &[(&str, Arg<'_>)]) -> Told {
        Told {
            what: self.say(key, args),
            next: self.say(&format!("{key}.next"), args),
        }
    }

    /// Says a message with every argument the messages know, each the number 2.
    #[cfg(test)]
    pub(crate) fn say_with_everything(&self, key: &str) -> String {
        let names: BTreeSet<&str> = ENGLISH
            .iter()
            .flat_map(|(_, text)| text.split('$').skip(1))
            .filter_map(|rest| {
                rest.split(|c: char| !c.is_ascii_alphanumeric() && c != '-')
                    .next()
            })
            .collect();
        let args: Vec<(&str, Arg<'_>)> = names.into_iter().map(|name| (name, 2.into())).collect();
        self.say(key, &args)
    }

    fn pattern(&self, key: &str) -> Option<&Pattern<&str>> {
        match key.split_once('.') {
            Some((message, part)) => Some(
                self.bundle
                    .get_message(message)?
                    .get_attribute(part)?
                    .value(),
            ),
            None => self.bundle.get_message(key)?.value(),
        }
    }

    fn note_missing(&self, key: &str) -> String {
        debug_assert!(false, "no message {key}");
        self.missing.fetch_add(1, Ordering::Relaxed);
        format!("⟦{key}⟧")
    }
}

impl std::fmt::Debug for Words {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Words")
            .field("messages", &self.keys.len())
            .field("pseudo", &self.pseudo)
            .finish_non_exhaustive()
    }
}

/// What is so, and what to do next. Neither is empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Told {
    /// What is so.
    pub what: String,
    /// What to do next, or what would be right.
    pub next: String,
}

/// One argument of a message.
#[derive(Clone, Debug, PartialEq)]
pub enum Arg<'a> {
    /// A text: a name, the person's own words, or a piece that was said before.
    Text(Cow<'a, str>),
    /// A number to count with; chooses between one and many.
    Number(f64),
}

impl Arg<'_> {
    fn fluent(&self) -> FluentValue<'_> {
        match self {
            Arg::Text(text) => FluentValue::String(Cow::Borrowed(text)),
            Arg::Number(number) => FluentValue::from(*number),
        }
    }
}

impl<'a> From<&'a str> for Arg<'a> {
    fn from(text: &'a str) -> Self {
        Arg::Text(Cow::Borrowed(text))
    }
}

impl<'a> From<&'a String> for Arg<'a> {
    fn from(text: &'a String) -> Self {
        Arg::Text(Cow::Borrowed(text))
    }
}

impl From<String> for Arg<'_> {
    fn from(text: String) -> Self {
        Arg::Text(Cow::Owned(text))
    }
}

macro_rules! counts {
    ($($kind:ty)*) => {$(
        impl From<$kind> for Arg<'_> {
            #[allow(clippy::cast_precision_loss, clippy::cast_lossless)]
            fn from(count: $kind) -> Self {
                Arg::Number(count as f64)
            }
        }
    )*};
}
counts! { i32 i64 u8 u32 u64 usize f64 }

fn keys_of(entry: &Entry<&str>) -> Vec<String> {
    let Entry::Message(message) = entry else {
        return Vec::new();
    };
    let whole = message.value.iter().map(|_| message.id.name.to_owned());
    let parts = message
        .attributes
        .iter()
        .map(|part| format!("{}.{}", message.id.name, part.id.name));
    whole.chain(parts).collect()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    const MESSAGES: &[(&str, &str)] = &[(
        "made-up",
        "clips = { $n ->\n    [one] one clip\n   *[other] { $n } clips\n }\n    .next = Fit { $what }.\n",
    )];

    #[test]
    fn is_shared_between_threads() {
        fn shared<T: Send + Sync>() {}
        shared::<Words>();
    }

    #[test]
    fn says_messages_and_their_parts() {
        let words = Words::of(MESSAGES, false);
        assert_eq!(words.say("clips", &[("n", 1.into())]), "one clip");
        assert_eq!(words.say("clips", &[("n", 3.into())]), "3 clips");
        assert_eq!(
            words.say("clips.next", &[("what", "a ring".into())]),
            "Fit a ring."
        );
        assert_eq!(words.keys().collect::<Vec<_>>(), ["clips", "clips.next"]);
        assert!(words.has("clips.next") && !words.has("clips.after"));
    }

    #[test]
    #[cfg_attr(debug_assertions, should_panic(expected = "no message clip"))]
    fn a_missing_message_is_ours_to_mend() {
        let words = Words::of(MESSAGES, false);
        assert_eq!(words.text("clip"), "⟦clip⟧");
        assert_eq!(words.missing(), 1);
    }

    #[test]
    #[cfg_attr(debug_assertions, should_panic(expected = "message clips.next"))]
    fn a_missing_argument_is_ours_to_mend() {
        let words = Words::of(MESSAGES, false);
        words.text("clips.next");
        assert_eq!(words.missing(), 1);
    }

    #[test]
    fn the_made_up_language_says_the_same_in_disguise() {
        let words = Words::of(MESSAGES, true);
        assert_eq!(
            words.say("clips.next", &[("what", "a <b>ring</b>".into())]),
            "⟦Ƒîîţ a <b>ring</b>.⟧"
        );
    }
}
