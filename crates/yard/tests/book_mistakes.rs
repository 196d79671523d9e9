//! What is wrong with a book is told all at once, each mistake once, on its line.
#![allow(clippy::unwrap_used)]

use quantity::Habits;
use std::collections::BTreeSet;
use yard::book::{ReadBook, TroubleKind, read};

fn text(path: &str) -> String {
    std::fs::read_to_string(format!(
        "{}/../../cases/book/{path}",
        env!("CARGO_MANIFEST_DIR")
    ))
    .unwrap()
}

fn reading(text: &str) -> ReadBook {
    read(text, &Habits::default())
}

/// Lines that end in a comment `# <number or code>: ...`, with what stands before the colon.
fn marked(text: &str) -> Vec<(u32, String)> {
    let mark = |line: &str| {
        let (_, comment) = line.rsplit_once("  # ")?;
        comment.split_once(':').map(|(code, _)| code.to_owned())
    };
    (1u32..)
        .zip(text.lines())
        .filter_map(|(number, line)| Some((number, mark(line)?)))
        .collect()
}

#[test]
fn two_slips_and_ten_mistakes_are_twelve_diagnostics() {
    let text = text("twelve-mistakes.toml");
    let found = reading(&text);
    let lines: Vec<u32> = found.troubles.iter().map(|trouble| trouble.line).collect();
    let expected: Vec<u32> = marked(&text).into_iter().map(|(line, _)| line).collect();
    assert_eq!(expected.len(), 12, "the case marks twelve lines");
    assert_eq!(lines, expected, "{:#?}", found.troubles);
    let codes: Vec<&str> = found
        .troubles
        .iter()
        .map(|trouble| trouble.what.code())
        .collect();
    let kinds = [
        "syntax",
        "unknown-word",
        "bad-id",
        "syntax",
        "unknown-key",
        "quantity",
        "limits-crossed",
        "adjuster-greased",
        "bad-rhythm",
        "unknown-reference",
        "weaker-than-rule",
        "levers-not-said-safe",
    ];
    assert_eq!(codes, kinds);
    assert_eq!(found.book, None);
}

#[test]
fn what_would_be_right_is_told() {
    let found = reading(&text("twelve-mistakes.toml"));
    let offers = |code: &str| {
        found
            .troubles
            .iter()
            .find(|trouble| trouble.what.code() == code)
            .and_then(|trouble| match &trouble.what {
                TroubleKind::UnknownKey { nearest, .. }
                | TroubleKind::UnknownWord { nearest, .. }
                | TroubleKind::UnknownReference { nearest, .. } => nearest.clone(),
                TroubleKind::BadId { right, .. } => right.clone(),
                _ => None,
            })
    };
    assert_eq!(offers("unknown-key").as_deref(), Some("rhythm"));
    assert_eq!(offers("unknown-word").as_deref(), Some("tracks"));
    assert_eq!(offers("unknown-reference").as_deref(), Some("left"));
    assert_eq!(offers("bad-id").as_deref(), Some("right-side"));
}

#[test]
fn a_quantity_is_pointed_at_inside_its_quotes() {
    let text = text("twelve-mistakes.toml");
    let found = reading(&text);
    let unit = found
        .troubles
        .iter()
        .find(|trouble| trouble.what.code() == "quantity")
        .unwrap();
    assert_eq!(&text[unit.span.clone()], "inn");
}

/// Each file of `troubles/` holds one mistake, on the line marked with its code (a file named `x@n` has its mistake on line n,
/// where no comment can stand). The files are whole books but for that.
#[test]
fn each_kind_of_mistake_has_a_case_that_gives_it_alone() {
    let folder = format!("{}/../../cases/book/troubles", env!("CARGO_MANIFEST_DIR"));
    let mut seen = BTreeSet::new();
    for file in std::fs::read_dir(folder).unwrap() {
        let path = file.unwrap().path();
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        let text = std::fs::read_to_string(&path).unwrap();
        let found = reading(&text);
        let marks = marked(&text);
        let found: Vec<(u32, String)> = found
            .troubles
            .iter()
            .map(|trouble| (trouble.line, code(&trouble.what)))
            .collect();
        assert_eq!(found, marks, "{name}");
        seen.extend(marks.into_iter().map(|(_, code)| code));
    }
    // What no file can show: a book too long, and one with too much wrong.
    let told_elsewhere = ["too-big", "and-more", "syntax"];
    let kinds = TroubleKind::CODES
        .iter()
        .filter(|code| !told_elsewhere.contains(code));
    let missing: Vec<_> = kinds.filter(|code| !seen.contains(**code)).collect();
    assert!(missing.is_empty(), "no case for {missing:?}");
    let slips = yard::book::Slip::ALL
        .iter()
        .map(|slip| format!("syntax-{}", slip.code()));
    let missing: Vec<_> = slips
        .filter(|code| !seen.contains(code) && code != "syntax-other")
        .collect();
    assert!(missing.is_empty(), "no case for {missing:?}");
}

fn code(what: &TroubleKind) -> String {
    match what {
        TroubleKind::Syntax { slip, .. } => format!("syntax-{}", slip.code()),
        what => what.code().to_owned(),
    }
}

#[test]
fn a_book_too_long_is_refused_before_it_is_read() {
    let text = "#".repeat(yard::book::MOST_BYTES + 1);
    assert!(
        matches!(reading(&text).troubles[..], [ref one] if matches!(one.what, TroubleKind::TooBig { .. }))
    );
}

#[test]
fn more_than_anyone_reads_is_cut_short() {
    let text = format!("kingpost = 1\n{}", "[[point]]\ncount = 0\n".repeat(5000));
    let found = reading(&text);
    assert_eq!(found.troubles.len(), 201);
    assert!(matches!(
        found.troubles[200].what,
        TroubleKind::AndMore { shown: 200 }
    ));
}

#[test]
fn a_machine_is_no_attachment_of_itself_and_idles_no_more_than_always() {
    let book = |more: &str| {
        let head = "kingpost = 1\n[machine]\nid = \"m\"\nname = \"M\"\nkind = \"k\"\n";
        reading(&format!("{head}{more}"))
    };
    let told = |more: &str| -> Vec<(u32, &str)> {
        let found = book(more).troubles;
        found
            .iter()
            .map(|one| (one.line, one.what.code()))
            .collect()
    };
    let attachment =
        |id: &str| format!("[[attachment]]\nid = \"{id}\"\nlocks = \"Pins through\"\n");
    assert_eq!(told(&attachment("bucket")), []);
    assert_eq!(told(&attachment("m")), [(6, "id-twice")]);
    let share = |share: &str| {
        format!("[meter]\nkind = \"revolutions\"\nidle-share = \"{share} % ± 5 %\"\n")
    };
    assert_eq!(told(&share("100")), []);
    assert_eq!(told(&share("130")), [(6, "out-of-bounds")]);
}
