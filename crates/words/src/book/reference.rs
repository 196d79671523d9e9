//! The page that says how a machine book is written, made from the format's own declaration.

use crate::Words;
use yard::book::{FORMAT, Field, FieldShape, TABLES, Table};

impl Words {
    /// The reference of the format as Markdown: the whole of `docs/book-format.md`.
    pub fn book_format(&self) -> String {
        let title = self.text("fields-title");
        let first = self.say("fields-first", &[("n", FORMAT.into())]);
        let said = [
            "fields-intro",
            "fields-unknown",
            "fields-quantities",
            "fields-ids",
        ]
        .map(|key| self.text(key));
        let intro = said.join("\n\n");
        let tables: String = TABLES
            .iter()
            .map(|table| self.format_table(table))
            .collect();
        format!(
            "# {title}\n\n{intro}\n\n{first}\n\n{}\n{tables}",
            self.text("fields-made-from")
        )
    }

    /// What a key of the format means, for editors and pages; none where the format has no such key.
    pub fn field_means(&self, table: &str, key: &str) -> Option<String> {
        let key = format!("field-{table}.{key}");
        self.has(&key).then(|| self.text(&key))
    }

    fn format_table(&self, table: &Table) -> String {
        let how_often = self.text(if table.many {
            "fields-often"
        } else {
            "fields-once"
        });
        let means = self.text(&format!("field-{}", table.name));
        let mut page = format!("\n## `{}`\n\n{means} ({how_often})\n", table.heading());
        if table.fields.is_empty() {
            return page;
        }
        let head =
            ["fields-key", "fields-value", "fields-must", "fields-means"].map(|key| self.text(key));
        page += &format!("\n| {} |\n|---|---|---|---|\n", head.join(" | "));
        table
            .fields
            .iter()
            .for_each(|field| page += &self.format_row(table, field));
        page
    }

    fn format_row(&self, table: &Table, field: &Field) -> String {
        let needed = self.text(if field.needed {
            "fields-yes"
        } else {
            "fields-no"
        });
        let mut means = self.text(&format!("field-{}.{}", table.name, field.key));
        if !field.kinds.is_empty() {
            means = format!(
                "{means} {}",
                self.say(
                    "fields-only-for",
                    &[("kinds", self.list(field.kinds).into())]
                )
            );
        }
        let kinds = table.needed_for(field);
        if !kinds.is_empty() {
            means = format!(
                "{means} {}",
                self.say("fields-needed-for", &[("kinds", self.list(&kinds).into())])
            );
        }
        format!(
            "| `{}` | {} | {needed} | {means} |\n",
            field.key,
            self.field_shape(field.shape)
        )
    }

    fn field_shape(&self, shape: FieldShape) -> String {
        let listed = |words: Vec<&str>| {
            words
                .iter()
                .map(|word| format!("`{word}`"))
                .collect::<Vec<_>>()
                .join(", ")
        };
        let thing = |code: &str| self.text(&format!("book-thing-{code}"));
        match shape {
            FieldShape::Quantity(Some(dimension)) => self.say(
                "fields-dimension",
                &[("dimension", self.dimension(dimension).into())],
            ),
            FieldShape::Quantity(None) => self.text("fields-any-dimension"),
            FieldShape::Word(words) => {
                self.say("fields-one-of", &[("allowed", listed(words()).into())])
            }
            FieldShape::Words(words) => {
                self.say("fields-some-of", &[("allowed", listed(words()).into())])
            }
            FieldShape::Count(most) => self.say("fields-count-to", &[("n", most.into())]),
            FieldShape::Ref(of) => self.say("fields-id-of", &[("table", thing(of.code()).into())]),
            FieldShape::Refs(of) => {
                self.say("fields-ids-of", &[("table", thing(of.code()).into())])
            }
            other => self.text(&format!("book-shape-{}", other.code())),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_table_and_key_is_explained() {
        let words = Words::english();
        let tables = TABLES.iter().map(|table| format!("field-{}", table.name));
        let keys = TABLES.iter().flat_map(|table| {
            table
                .fields
                .iter()
                .map(move |field| format!("field-{}.{}", table.name, field.key))
        });
        let lacking: Vec<_> = tables.chain(keys).filter(|key| !words.has(key)).collect();
        assert_eq!(lacking, Vec::<String>::new());
    }

    #[test]
    fn no_explanation_is_left_over() {
        let explained = |key: &str| {
            let (table, key) = key.split_once('.').unwrap_or((key, ""));
            Table::named(table).is_some_and(|table| key.is_empty() || table.field(key).is_some())
        };
        let words = Words::english();
        let left: Vec<_> = words
            .keys()
            .filter_map(|key| key.strip_prefix("field-"))
            .filter(|key| !explained(key))
            .collect();
        assert_eq!(left, Vec::<&str>::new());
    }

    #[test]
    fn the_reference_of_the_format() {
        insta::assert_snapshot!(Words::english().book_format());
    }
}
