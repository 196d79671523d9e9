//! Checks of the messages themselves: that they parse, that none is there twice, that they are short and plain.

use crate::words::ENGLISH;
use fluent_syntax::{
    ast::{Entry, Expression, InlineExpression, Message, Pattern, PatternElement, Resource},
    parser::parse,
};
use std::collections::{BTreeMap, BTreeSet};

/// A sentence with more words than this tires a reader who stands in the rain.
const MOST_WORDS: usize = 25;

/// Words that help nobody, and spellings of another country. Whole words, small letters.
const BANNED: &[&str] = &[
    "please",
    "sorry",
    "oops",
    "invalid",
    "successfully",
    "utilize",
    "utilise",
    "kindly",
    "simply",
    "click",
    "abort",
    "aborted",
    "fatal",
    "illegal",
    "color",
    "center",
    "tire",
    "tires",
    "gray",
    "labor",
    "liter",
    "liters",
    "aluminum",
    "program's user",
    "user-friendly",
    "etc",
    "e.g",
    "i.e",
];

/// Phrases that help nobody.
const BANNED_PHRASES: &[&str] = &[
    "error occurred",
    "went wrong",
    "something happened",
    "in order to",
    "failed to",
    "unable to",
    "are you sure",
];

fn resources() -> Vec<(&'static str, Resource<&'static str>)> {
    ENGLISH
        .iter()
        .map(|(file, text)| match parse(*text) {
            Ok(resource) => (*file, resource),
            Err((_, errors)) => panic!("{file}.ftl: {}", told(text, &errors)),
        })
        .collect()
}

fn told(text: &str, errors: &[fluent_syntax::parser::ParserError]) -> String {
    let line = |at: usize| text[..at].lines().count() + 1;
    errors
        .iter()
        .map(|error| format!("line {}: {error:?}", line(error.pos.start)))
        .collect::<Vec<_>>()
        .join("; ")
}

fn messages<'a>(
    resource: &'a Resource<&'static str>,
) -> impl Iterator<Item = &'a Message<&'static str>> {
    resource.body.iter().filter_map(|entry| match entry {
        Entry::Message(message) => Some(message),
        _ => None,
    })
}

/// A message's patterns, each with its key.
fn patterns<'a>(
    message: &'a Message<&'static str>,
) -> impl Iterator<Item = (String, &'a Pattern<&'static str>)> {
    let name = message.id.name;
    let parts = message
        .attributes
        .iter()
        .map(move |part| (format!("{name}.{}", part.id.name), &part.value));
    message
        .value
        .iter()
        .map(move |value| (name.to_owned(), value))
        .chain(parts)
}

/// Every text a pattern can come to, placeables as a word of their own; and the arguments it uses.
fn unfold(pattern: &Pattern<&'static str>, arguments: &mut BTreeSet<&'static str>) -> Vec<String> {
    let mut texts = vec![String::new()];
    for element in &pattern.elements {
        let pieces = match element {
            PatternElement::TextElement { value } => vec![(*value).to_owned()],
            PatternElement::Placeable {
                expression: Expression::Inline(inline),
            } => {
                note_argument(inline, arguments);
                vec!["so-and-so".to_owned()]
            }
            PatternElement::Placeable {
                expression: Expression::Select { selector, variants },
            } => {
                note_argument(selector, arguments);
                variants
                    .iter()
                    .flat_map(|variant| unfold(&variant.value, arguments))
                    .collect()
            }
        };
        texts = texts
            .iter()
            .flat_map(|text| pieces.iter().map(move |piece| format!("{text}{piece}")))
            .collect();
    }
    texts
}

fn note_argument(inline: &InlineExpression<&'static str>, arguments: &mut BTreeSet<&'static str>) {
    if let InlineExpression::VariableReference { id } = inline {
        arguments.insert(id.name);
    }
}

/// Calls `check` with file, key and every text a message can come to.
fn each_text(mut check: impl FnMut(&str, &str, &str)) {
    for (file, resource) in resources() {
        for message in messages(&resource) {
            for (key, pattern) in patterns(message) {
                for text in unfold(pattern, &mut BTreeSet::new()) {
                    check(file, &key, &text);
                }
            }
        }
    }
}

#[test]
fn every_message_parses_and_none_is_there_twice() {
    let mut seen: BTreeMap<String, &str> = BTreeMap::new();
    let mut twice = Vec::new();
    for (file, resource) in resources() {
        for key in messages(&resource)
            .flat_map(|message| patterns(message).map(|(key, _)| key).collect::<Vec<_>>())
        {
            if let Some(other) = seen.insert(key.clone(), file) {
                twice.push(format!("{key} in {other}.ftl and {file}.ftl"));
            }
        }
    }
    assert_eq!(twice, Vec::<String>::new());
    assert!(seen.len() > 500);
}

#[test]
fn every_file_opens_with_its_subject_and_names_its_arguments() {
    let mut undeclared = Vec::new();
    for (file, resource) in resources() {
        let head: String = resource.body.iter().map_while(head_comment).collect();
        assert!(
            !head.is_empty(),
            "{file}.ftl has no ### line saying what it holds"
        );
        let declared: BTreeSet<&str> = head
            .split(|c: char| !c.is_alphanumeric() && c != '$' && c != '-')
            .filter_map(|word| word.strip_prefix('$'))
            .collect();
        for message in messages(&resource) {
            let mut used = BTreeSet::new();
            patterns(message).for_each(|(_, pattern)| drop(unfold(pattern, &mut used)));
            undeclared.extend(
                used.into_iter()
                    .filter(|name| !declared.contains(name))
                    .map(|name| format!("{file}.ftl: {} uses ${name}", message.id.name)),
            );
        }
    }
    assert_eq!(undeclared, Vec::<String>::new());
}

fn head_comment(entry: &Entry<&'static str>) -> Option<String> {
    match entry {
        Entry::ResourceComment(comment) => Some(comment.content.join(" ") + " "),
        _ => None,
    }
}

#[test]
fn sentences_are_short() {
    let mut long = Vec::new();
    each_text(|file, key, text| {
        for sentence in text
            .split_inclusive(['.', '?', '!', ':', ';'])
            .filter(|sentence| sentence.split_whitespace().count() > MOST_WORDS)
        {
            long.push(format!("{file}.ftl: {key}: {}", sentence.trim()));
        }
    });
    assert_eq!(long, Vec::<String>::new());
}

#[test]
fn words_are_plain() {
    let mut found = Vec::new();
    each_text(|file, key, text| {
        let text = text.to_lowercase();
        let words = text
            .split(|c: char| !c.is_alphanumeric() && !"-.'’".contains(c))
            .map(|word| word.trim_matches('.'));
        found.extend(
            words
                .filter(|word| BANNED.contains(word))
                .map(|word| format!("{file}.ftl: {key}: {word}")),
        );
        found.extend(
            BANNED_PHRASES
                .iter()
                .filter(|phrase| text.contains(*phrase))
                .map(|phrase| format!("{file}.ftl: {key}: {phrase}")),
        );
    });
    assert_eq!(found, Vec::<String>::new());
}

#[test]
fn sentences_with_a_next_step_end_like_sentences() {
    let mut open_ended = Vec::new();
    for (file, resource) in resources() {
        for message in messages(&resource)
            .filter(|message| message.attributes.iter().any(|part| part.id.name == "next"))
        {
            // A gap's name is a piece of a sentence and a page's a heading; only their next steps are whole ones.
            for (key, pattern) in patterns(message).filter(|(key, _)| {
                key.ends_with(".next") || !(key.starts_with("gap-") || file == "pages")
            }) {
                let texts = unfold(pattern, &mut BTreeSet::new());
                let closed =
                    |text: &String| text.ends_with(['.', '?', '!']) || text.ends_with("so-and-so");
                open_ended.extend(
                    texts
                        .iter()
                        .filter(|text| !closed(text))
                        .map(|text| format!("{file}.ftl: {key}: {text}")),
                );
            }
        }
    }
    assert_eq!(open_ended, Vec::<String>::new());
}

/// The made-up language has every message, and no message of it shows plain English.
#[test]
fn no_message_is_plain_in_the_made_up_language() {
    let words = crate::Words::pseudo();
    let mut plain = Vec::new();
    for key in words.keys() {
        let said = words.say_with_everything(key);
        let kept = crate::plain_runs(
            &said.replace(['⟦', '⟧'], " "),
            &["kingpost", "kingpost serve"],
        );
        let in_code: Vec<&str> = said.split('`').skip(1).step_by(2).collect();
        plain.extend(
            kept.into_iter()
                .filter(|run| !in_code.iter().any(|code| code.contains(run.as_str())))
                .map(|run| format!("{key}: {run}")),
        );
    }
    assert_eq!(plain, Vec::<String>::new());
}
