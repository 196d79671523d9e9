//! The reference of the format, as Markdown: every table and key, made from the declaration. The sentences come from
//! `words`.

use super::fields::{Field, Shape, TABLES, Table};
use std::fmt::Write;

/// The reference. `say` gives the sentence for a key of words:
///
/// - `book-format-title`, `book-format-intro`; the headings of columns `book-format-key`, `book-format-value`,
///   `book-format-needed`, `book-format-meaning`; `book-format-yes`, `book-format-for` (before kinds of points);
/// - `book-shape-<shape>` for what a value looks like; `book-table-<table>`; `book-field-<table>-<key>`.
pub fn reference(say: &dyn Fn(&str) -> String) -> String {
    let mut page = format!(
        "# {}\n\n{}\n",
        say("book-format-title"),
        say("book-format-intro")
    );
    for table in TABLES {
        of_table(&mut page, table, say);
    }
    page
}

/// Every key of words that the reference and the schema ask for.
pub fn reference_keys() -> Vec<String> {
    let asked = std::cell::RefCell::new(std::collections::BTreeSet::new());
    let note = |key: &str| {
        asked.borrow_mut().insert(key.to_owned());
        String::new()
    };
    reference(&note);
    super::schema(&note);
    asked.into_inner().into_iter().collect()
}

fn of_table(page: &mut String, table: &Table, say: &dyn Fn(&str) -> String) {
    let mut line = |text: String| {
        // Writing to a String does not fail.
        let _ = writeln!(page, "{text}");
    };
    line(format!(
        "\n## `{}`\n\n{}",
        table.heading(),
        say(&format!("book-table-{}", table.name))
    ));
    if table.fields.is_empty() {
        return;
    }
    let columns =
        ["key", "value", "needed", "meaning"].map(|column| say(&format!("book-format-{column}")));
    line(format!(
        "\n| {} |\n| --- | --- | --- | --- |",
        columns.join(" | ")
    ));
    for field in table.fields {
        let meaning = say(&format!("book-field-{}-{}", table.name, field.key));
        line(format!(
            "| `{}` | {} | {} | {meaning} |",
            field.key,
            value(field, say),
            needed(field, say)
        ));
    }
}

fn value(field: &Field, say: &dyn Fn(&str) -> String) -> String {
    let shape = say(&format!("book-shape-{}", field.shape.code()));
    match field.shape {
        Shape::Word(words) | Shape::Words(words) => format!("{shape}: {}", coded(words())),
        Shape::Ref(named) | Shape::Refs(named) => format!("{shape}: `{}`", named.code()),
        Shape::Quantity(Some(dimension)) => format!("{shape} ({})", dimension.si_symbol()),
        Shape::Count(most) => format!("{shape}, 1–{most}"),
        _ => shape,
    }
}

fn needed(field: &Field, say: &dyn Fn(&str) -> String) -> String {
    let yes = if field.needed {
        say("book-format-yes")
    } else {
        String::new()
    };
    if field.kinds.is_empty() {
        return yes;
    }
    let kinds = format!("{} {}", say("book-format-for"), coded(field.kinds.to_vec()));
    if yes.is_empty() {
        kinds
    } else {
        format!("{yes}, {kinds}")
    }
}

fn coded(words: Vec<&str>) -> String {
    words
        .iter()
        .map(|word| format!("`{word}`"))
        .collect::<Vec<_>>()
        .join(", ")
}
