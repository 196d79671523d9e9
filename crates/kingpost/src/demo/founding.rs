//! How it began: people get their roles on the first evening; each machine's book is adopted, its meter read, and those who run
//! it are signed off, on its own.

use super::{
    calendar::Who,
    cast::Cast,
    fleet::{MARIGOLD, Member},
    pen::Pen,
};
use jiff::{Span, civil::Date};
use store::StoreError;
use yard::{
    entry::{Body, Lesson, MeterReading, Note, RoleGiven, SignOff},
    id::PersonId,
};

/// Everybody's role, written on the first evening.
pub(crate) fn roles(pen: &mut Pen, cast: &Cast, day: Date) -> Result<(), StoreError> {
    pen.set(day, 17, 5);
    for (person, _, role) in cast.all() {
        pen.write_of_yard(
            cast.odalys,
            Body::RoleGiven(RoleGiven {
                person,
                role: Some(role),
                machines: Vec::new(),
            }),
        )?;
    }
    let text = "Everything in this yard is invented: machines, people, entries.".to_owned();
    pen.write_of_yard(cast.odalys, Body::Note(Note { point: None, text }))?;
    Ok(())
}

/// A machine's first evening.
pub(crate) fn machine(
    pen: &mut Pen,
    cast: &Cast,
    member: &Member,
    day: Date,
) -> Result<(), StoreError> {
    pen.set(day, 17, 30);
    let why = "First book of this machine, measured on the invented ground of the invented yard";
    pen.adopt(cast.odalys, member.first_book(), why)?;
    if let Some(shows) = pen.shows() {
        pen.write(
            cast.odalys,
            Body::MeterReading(MeterReading { meter: None, shows }),
        )?;
    }
    let mut people = member.people.to_vec();
    people.dedup();
    for who in people {
        let person = cast.of(who);
        match who {
            Who::Bram | Who::Odalys => {}
            Who::Jory | Who::Sefa => teach(pen, cast, person)?,
            _ => {
                let limits = (who == Who::Ines).then_some("not on slopes");
                pen.write(cast.odalys, sign_off(person, day, limits))?;
            }
        }
    }
    if member.id == MARIGOLD {
        teach(pen, cast, cast.jory)?;
    }
    Ok(())
}

fn teach(pen: &mut Pen, cast: &Cast, person: PersonId) -> Result<(), StoreError> {
    let what = "How its engine is stopped; where nobody may be; how one gets hold of it".to_owned();
    pen.write(cast.odalys, Body::Lesson(Lesson { person, what }))?;
    Ok(())
}

fn sign_off(person: PersonId, day: Date, limits: Option<&str>) -> Body {
    // Three years: nobody's ends within the demo.
    let until = day.checked_add(Span::new().days(1095)).ok();
    Body::SignOff(SignOff {
        person,
        given: true,
        until,
        limits: limits.map(str::to_owned),
        in_sight: false,
    })
}
