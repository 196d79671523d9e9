//! Whatever is written in a book, reading it neither fails nor points outside it.
#![allow(clippy::unwrap_used)]

mod blank;

use blank::blanks;
use proptest::{prelude::*, sample::Index};
use quantity::Habits;
use std::sync::LazyLock;
use yard::book::{gaps, new_from_blank, read};

static BLANKS: LazyLock<Vec<(String, String)>> = LazyLock::new(blanks);
const FOREIGN: &str = include_str!("../../../cases/book/foreign.toml");

fn reads_soundly(text: &str) -> Result<(), TestCaseError> {
    let found = read(text, &Habits::default());
    for trouble in &found.troubles {
        let span = trouble.span.clone();
        prop_assert!(
            text.get(span.clone()).is_some(),
            "{span:?} is no range of the text"
        );
        let line = text[..span.start].matches('\n').count() + 1;
        prop_assert_eq!(trouble.line as usize, line);
        prop_assert!(trouble.column >= 1);
    }
    prop_assert_eq!(found.book.is_some(), found.troubles.is_empty());
    if let Some(book) = &found.book {
        gaps(book);
    }
    prop_assert_eq!(
        read(text, &Habits::default()),
        found,
        "the same text reads the same"
    );
    Ok(())
}

/// The text of any of the blanks.
fn any_blank(index: &Index) -> &'static str {
    &index.get(&BLANKS).1
}

/// A book with a piece of it replaced, cut out, doubled, or lent from a blank.
fn mutated() -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        Just(String::new()),
        Just("\"".to_owned()),
        Just("[".to_owned()),
        Just("]]\n".to_owned()),
        Just("\"\"\"".to_owned()),
        Just("\n[[point]]\n".to_owned()),
        Just("½ = {".to_owned()),
        Just("id = \"left\"\n".to_owned()),
        "[ -~\n½]{0,12}",
    ];
    let from_blank = prop::option::of(any::<Index>());
    let cut = (from_blank, 0.0..1.0f64, 0usize..40, piece);
    prop::collection::vec(cut, 1..5).prop_map(|cuts| {
        let mut text = FOREIGN.to_owned();
        for (from_blank, place, length, piece) in cuts {
            let source = from_blank.as_ref().map_or(FOREIGN, any_blank);
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a part of a small length"
            )]
            let at = |text: &str| text.floor_char_boundary((place * text.len() as f64) as usize);
            let start = at(&text);
            let end = text.ceil_char_boundary((start + length).min(text.len()));
            let from = at(source);
            let lent = &source[from..source.ceil_char_boundary((from + length).min(source.len()))];
            text.replace_range(
                start..end,
                &if from_blank.is_some() {
                    lent.to_owned()
                } else {
                    piece
                },
            );
        }
        text
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn any_text(text in "\\PC{0,400}") {
        reads_soundly(&text)?;
    }

    #[test]
    fn any_toml_like_text(lines in prop::collection::vec("(\\[{0,2}(point|machine|station|draw|lap)\\]{0,2}|(id|kind|at|min|rhythm|cases|line) = ([0-9\\[\\]\"{}= a-z.,'#]{0,20}))", 0..30)) {
        reads_soundly(&lines.join("\n"))?;
    }

    #[test]
    fn any_damaged_book(text in mutated()) {
        reads_soundly(&text)?;
    }

    #[test]
    fn a_new_book_from_any_blank_reads_with_any_name(name in "\\PC{0,60}[A-Za-z]", like in any::<Index>()) {
        let id = yard::id::MachineId::new("new-one").unwrap();
        let new = new_from_blank(any_blank(&like), &name, &id);
        let book = read(&new, &Habits::default());
        prop_assert_eq!(&book.troubles, &vec![]);
        let machine = book.book.unwrap().machine;
        prop_assert_eq!(machine.id, id);
        prop_assert_eq!(machine.name, name.trim());
    }
}

#[test]
fn hostile_texts_end() {
    for text in [
        "[".repeat(200_000),
        "a.".repeat(100_000),
        "x = \"".repeat(40_000),
        "[[point]]\n".repeat(20_000),
        "x = [\n".repeat(30_000),
        "\"\"\"".repeat(60_000),
    ] {
        let found = read(&text, &Habits::default());
        assert!(!found.troubles.is_empty() && found.book.is_none());
    }
}
