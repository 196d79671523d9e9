//! Standing a machine down by word: anybody who works here may.

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

/// Shows the form.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, false)
}

/// Stands it down.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    let (id, ..) = desk.machine(machine)?;
    let why = typed.field("why");
    if why.is_empty() {
        return render(desk, machine, true);
    }
    accept::keep(
        desk,
        Some(&id),
        Body::StandDown(entry::StandDown {
            why: why.to_owned(),
        }),
    )?;
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

fn render(desk: &Desk, machine: &str, empty: bool) -> Answer {
    desk.may(Deed::StandDown)?;
    let mut form = ShortForm::new(
        desk,
        machine,
        "stand-down",
        "stand-down-title",
        "stand-down-do",
    )?;
    let p = form.p.clone();
    form.lines = vec![p.t("stand-down-intro")];
    if empty {
        form.asked = vec![form::asked(&p, "ask-empty")];
    }
    form.fields = vec![Field::long(&p, "stand-down-why", "why", "")];
    form.show()
}
