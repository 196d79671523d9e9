//! The first evening: people get their roles, the book is adopted, the meter is read, operators are signed off.

use super::{
    BOOK,
    cast::Cast,
    pen::{Pen, hours},
    shift::FIRST_TENTHS,
};
use jiff::{Span, civil::Date};
use store::StoreError;
use yard::{
    entry::{Body, BookAdopted, Lesson, MeterReading, Note, RoleGiven, SignOff},
    id::PersonId,
    people::Role,
};

/// Writes the first evening.
pub(crate) fn write(pen: &mut Pen, cast: &Cast, day: Date) -> Result<(), StoreError> {
    pen.set(day, 17, 5);
    let roles = [
        (cast.odalys, Role::Steward),
        (cast.bram, Role::Deputy),
        (cast.tamsin, Role::Operator),
        (cast.ines, Role::Operator),
        (cast.jory, Role::Learner),
    ];
    for (person, role) in roles {
        pen.write_of_yard(
            cast.odalys,
            Body::RoleGiven(RoleGiven {
                person,
                role: Some(role),
                machines: Vec::new(),
            }),
        )?;
    }
    pen.pass(900);
    let why = Some(
        "First book of this machine, measured on the invented ground of the invented yard"
            .to_owned(),
    );
    let revision = pen.write(
        cast.odalys,
        Body::BookAdopted(BookAdopted {
            text: BOOK.to_owned(),
            why,
        }),
    )?;
    pen.revision = Some(revision);
    pen.write(
        cast.odalys,
        Body::MeterReading(MeterReading {
            meter: None,
            shows: hours(FIRST_TENTHS),
        }),
    )?;
    pen.write(cast.odalys, sign_off(cast.tamsin, day, None))?;
    pen.write(cast.odalys, sign_off(cast.ines, day, Some("not on slopes")))?;
    let what =
        "How its engine is stopped; where nobody may be; getting on from the left".to_owned();
    pen.write(
        cast.odalys,
        Body::Lesson(Lesson {
            person: cast.jory,
            what,
        }),
    )?;
    let text = "Everything in this yard is invented: machine, people, entries.".to_owned();
    pen.write(cast.odalys, Body::Note(Note { point: None, text }))?;
    Ok(())
}

fn sign_off(person: PersonId, day: Date, limits: Option<&str>) -> Body {
    let until = day.checked_add(Span::new().days(365)).ok();
    Body::SignOff(SignOff {
        person,
        given: true,
        until,
        limits: limits.map(str::to_owned),
        in_sight: false,
    })
}
