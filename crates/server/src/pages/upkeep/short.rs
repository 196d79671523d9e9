//! The frame of a short form: fields in a row, one button.

use crate::{
    desk::{Answer, Desk, page},
    page::Page,
    pages::walkround::question::{Asked, Choice},
};
use askama::Template;
use std::borrow::Cow;

/// See the template.
#[derive(Template)]
#[template(path = "upkeep/form.html")]
pub(crate) struct ShortForm {
    pub(crate) p: Page,
    pub(crate) title: String,
    pub(crate) machine: String,
    pub(crate) here: String,
    pub(crate) stop: Option<String>,
    pub(crate) cautions: Vec<String>,
    pub(crate) lines: Vec<String>,
    pub(crate) asked: Vec<Asked>,
    pub(crate) action: String,
    pub(crate) fields: Vec<Field>,
    pub(crate) button: String,
}

impl ShortForm {
    /// An empty form of a machine, to be filled with fields.
    pub(crate) fn new(
        desk: &Desk,
        machine: &str,
        action: &str,
        title: &str,
        button: &str,
    ) -> Result<Self, crate::refusal::Refusal> {
        let p = desk.page();
        let (_, _, book) = desk.machine_and_book(machine)?;
        let here = format!("{}/m/{machine}", p.home());
        Ok(Self {
            title: p.t(title),
            button: p.t(button),
            machine: book.machine.name.clone(),
            action: format!("{here}/{action}"),
            here,
            stop: None,
            cautions: Vec::new(),
            lines: Vec::new(),
            asked: Vec::new(),
            fields: Vec::new(),
            p,
        })
    }
    /// Renders it.
    pub(crate) fn show(self) -> Answer {
        page(&self)
    }
}

/// One field: text, or choices.
pub(crate) struct Field {
    pub(crate) label: String,
    pub(crate) hint: String,
    pub(crate) name: Cow<'static, str>,
    pub(crate) kind: &'static str,
    pub(crate) value: String,
    pub(crate) long: bool,
    pub(crate) choices: Vec<Choice>,
    pub(crate) many: bool,
    pub(crate) one_column: bool,
}

impl Field {
    /// A text field; its label and hint are `key` and `key.hint` where there is one.
    pub(crate) fn text(
        p: &Page,
        key: &str,
        name: impl Into<Cow<'static, str>>,
        value: &str,
    ) -> Self {
        let hint_key = format!("{key}.hint");
        let hint = if p.words.has(&hint_key) {
            p.t(&hint_key)
        } else {
            String::new()
        };
        Self {
            label: p.t(key),
            hint,
            name: name.into(),
            kind: "text",
            value: value.to_owned(),
            long: false,
            choices: Vec::new(),
            many: false,
            one_column: false,
        }
    }
    /// A secret: never sent back to the page.
    pub(crate) fn secret(p: &Page, key: &str, name: &'static str) -> Self {
        Self {
            kind: "password",
            ..Self::text(p, key, name, "")
        }
    }
    /// A text of several lines.
    pub(crate) fn long(p: &Page, key: &str, name: &'static str, value: &str) -> Self {
        Self {
            long: true,
            ..Self::text(p, key, name, value)
        }
    }
    /// A choice.
    pub(crate) fn choice(
        p: &Page,
        key: &str,
        name: impl Into<Cow<'static, str>>,
        choices: Vec<Choice>,
    ) -> Self {
        Self {
            choices,
            ..Self::text(p, key, name, "")
        }
    }
}
