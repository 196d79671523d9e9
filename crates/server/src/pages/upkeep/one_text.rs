//! Forms of one text: a note for whoever comes next, and standing a machine down by word.

use super::short::{Field, ShortForm};
use crate::{
    accept,
    desk::{Answer, Desk, go},
    pages::walkround::form::{self, Typed},
};
use yard::{
    entry::{self, Body},
    people::Deed,
};

/// Which form.
#[derive(Clone, Copy)]
pub(crate) enum OneText {
    /// A note for whoever comes next.
    Note,
    /// Stands the machine down: anybody who works here may.
    StandDown,
}

impl OneText {
    /// The form's part of the address.
    fn address(self) -> &'static str {
        match self {
            OneText::Note => "note",
            OneText::StandDown => "stand-down",
        }
    }
    fn deed(self) -> Deed {
        match self {
            OneText::Note => Deed::Note,
            OneText::StandDown => Deed::StandDown,
        }
    }
    fn body(self, text: String) -> Body {
        match self {
            OneText::Note => Body::Note(entry::Note { point: None, text }),
            OneText::StandDown => Body::StandDown(entry::StandDown { why: text }),
        }
    }

    /// Shows the form.
    pub(crate) fn show(self, desk: &Desk, machine: &str) -> Answer {
        self.render(desk, machine, false)
    }

    /// Keeps the text; an empty one is asked for.
    pub(crate) fn keep(self, desk: &Desk, machine: &str, typed: &Typed) -> Answer {
        desk.may(self.deed())?;
        let (id, ..) = desk.machine(machine)?;
        let text = typed.field("text");
        if text.is_empty() {
            return self.render(desk, machine, true);
        }
        accept::keep(desk, Some(&id), self.body(text.to_owned()))?;
        go(&format!("/y/{}/m/{id}", desk.app.tag()))
    }

    fn render(self, desk: &Desk, machine: &str, empty: bool) -> Answer {
        desk.may(self.deed())?;
        let address = self.address();
        let (title, button) = (format!("{address}-title"), format!("{address}-do"));
        let mut form = ShortForm::new(desk, machine, address, &title, &button)?;
        let p = form.p.clone();
        form.lines = vec![p.t(&format!("{address}-intro"))];
        if empty {
            form.asked = vec![form::asked(&p, "ask-empty")];
        }
        form.fields = vec![Field::long(&p, &format!("{address}-text"), "text", "")];
        form.show()
    }
}
