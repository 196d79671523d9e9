//! What is written down in the evening: fuel and oil, notes, the fault of the last day.

use super::{
    calendar::Day,
    cast::Cast,
    pen::{Pen, written},
};
use store::StoreError;
use yard::{
    book::Severity,
    entry::{Body, Correction, Fault, Note, TopUp},
    id::{ItemId, PersonId, PointId},
};

/// Writes what there is to write after the evening's round.
pub(crate) fn evening(
    pen: &mut Pen,
    cast: &Cast,
    day: &Day,
    by: PersonId,
) -> Result<(), StoreError> {
    if day.index % 3 == 1 || day.is_at(62) {
        refuel(pen, day, by)?;
    }
    if day.is_at(27) || day.is_at(71) {
        let added = written("0.5 L");
        pen.write(
            by,
            Body::TopUp(TopUp {
                fluid: ItemId::new("engine-oil"),
                added,
                grade: Some("15W-40".to_owned()),
                mends: Vec::new(),
            }),
        )?;
    }
    if day.is_at(20) {
        let text = "The swing pin goes in more easily with the arm a hand's breadth to the left"
            .to_owned();
        pen.write(
            by,
            Body::Note(Note {
                point: PointId::new("swing-lock"),
                text,
            }),
        )?;
    }
    if day.is_at(70) {
        let text = "Split pins: two left in the box. More are on order.".to_owned();
        pen.write(cast.bram, Body::Note(Note { point: None, text }))?;
    }
    if day.is_last() {
        let what = "Work lamp on the left flickers when the boom moves".to_owned();
        pen.write(
            by,
            Body::Fault(Fault {
                point: PointId::new("horn-lights"),
                what,
                severity: Severity::Care,
                told: None,
            }),
        )?;
    }
    Ok(())
}

/// Fuel; once with a slip of the thumb, put right by the one who made it.
fn refuel(pen: &mut Pen, day: &Day, by: PersonId) -> Result<(), StoreError> {
    let litres = 15 + pen.draw(20);
    let fuel = |litres: u32| {
        Body::TopUp(TopUp {
            fluid: ItemId::new("fuel"),
            added: written(&format!("{litres} L")),
            grade: Some("diesel".to_owned()),
            mends: Vec::new(),
        })
    };
    let slip = day.is_at(62);
    let of = pen.write(by, fuel(if slip { litres * 10 } else { litres }))?;
    if slip {
        let why = "One nought too many: the tank holds 70 L".to_owned();
        pen.write(
            by,
            Body::Correction(Correction {
                of,
                instead: Some(Box::new(fuel(litres))),
                why,
            }),
        )?;
    }
    Ok(())
}
