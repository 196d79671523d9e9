//! A lesson given on a machine: to whom, and what it was about.

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

/// Keeps it. It lets nobody run the machine: that is the sign-off's.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    desk.may(Deed::SignOff)?;
    let (id, ..) = desk.machine(machine)?;
    let p = desk.page();
    let person = typed.field("person").parse().ok().map(PersonId);
    let person = person.filter(|who| desk.view.yard.role_at(*who, desk.now) > Role::Visitor);
    let what = typed.field("what");
    let Some(person) = person.filter(|_| !what.is_empty()) else {
        let key = match person {
            None => "ask-lesson-who",
            Some(_) => "ask-lesson-what",
        };
        return render(desk, machine, typed, vec![form::asked(&p, key)]);
    };
    let lesson = entry::Lesson {
        person,
        what: what.to_owned(),
    };
    accept::keep(desk, Some(&id), Body::Lesson(lesson))?;
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::SignOff)?;
    let mut form = ShortForm::new(desk, machine, "lesson", "lesson-title", "do-keep")?;
    let p = form.p.clone();
    form.lines = vec![p.t("lesson-intro")];
    form.asked = asked;
    let people = people_with(desk, |role| role > Role::Visitor, typed.field("person"));
    form.fields = vec![
        Field::choice(&p, "lesson-who", "person", people),
        Field::text(&p, "lesson-what", "what", typed.field("what")),
    ];
    form.show()
}
