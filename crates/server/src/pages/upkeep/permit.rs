//! Permit to move a stood-down machine: this far, by this person, until then.

use super::short::{Field, ShortForm};
use crate::{
    accept,
    desk::{Answer, Desk, go},
    pages::walkround::{
        form::{self, Typed},
        question::{Asked, people_with},
    },
};
use yard::{
    entry::{self, Body},
    id::PersonId,
    people::{Deed, Role},
};

/// Shows the form.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, &Typed::default(), Vec::new())
}

/// Keeps the permit.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    let (id, ..) = desk.machine(machine)?;
    let p = desk.page();
    let mut asked = Vec::new();
    let who = typed
        .field("who")
        .parse()
        .ok()
        .map(PersonId)
        .filter(|who| desk.view.yard.role_at(*who, desk.now) >= Role::Operator);
    if who.is_none() {
        asked.push(form::asked(&p, "ask-permit-who"));
    }
    let how_far = match quantity::parse(
        typed.field("far"),
        &desk.reading(),
        Some(quantity::Dimension::Length),
    ) {
        Ok(far) => Some(far),
        Err(trouble) => {
            let told = p.words.quantity_trouble(&trouble);
            asked.push(Asked {
                what: told.what,
                hint: told.next,
            });
            None
        }
    };
    let hours: Option<i64> = typed
        .field("hours")
        .parse()
        .ok()
        .filter(|h| (1..=72).contains(h));
    if hours.is_none() {
        asked.push(form::asked(&p, "ask-permit-hours"));
    }
    let (Some(who), Some(how_far), Some(hours)) = (who, how_far, hours) else {
        return render(desk, machine, typed, asked);
    };
    let until = desk.now + jiff::SignedDuration::from_hours(hours);
    accept::keep(
        desk,
        Some(&id),
        Body::MovePermit(entry::MovePermit {
            who,
            how_far,
            until,
            how: typed.field("how").to_owned(),
        }),
    )?;
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::PermitMove)?;
    let mut form = ShortForm::new(desk, machine, "permit", "permit-title", "permit-keep")?;
    let p = form.p.clone();
    form.cautions = vec![p.t("permit-never"), p.t("caution-zone")];
    form.lines = vec![p.t("permit-intro")];
    form.asked = asked;
    let people = people_with(desk, |role| role >= Role::Operator, typed.field("who"));
    form.fields = vec![
        Field::choice(&p, "permit-who", "who", people),
        Field::text(&p, "permit-far", "far", typed.field("far")),
        Field::text(&p, "permit-hours", "hours", typed.field("hours")),
        Field::text(&p, "permit-how", "how", typed.field("how")),
    ];
    form.show()
}
