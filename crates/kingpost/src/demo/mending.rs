//! What is mended: parts fitted, things set and tightened, fittings freed; released where the machine was stood down.

use super::{
    calendar::Day,
    cast::Cast,
    pen::Pen,
    tale::{Mending, Tale},
};
use store::StoreError;
use yard::{
    entry::{
        Adjustment, Answer, Answered, Body, GreaseTook, Greasing, PartFitted, Purchase, Release,
        Repair,
    },
    handover::Verdict,
    id::{FaultRef, ItemId, PointId},
    state::{Found, MachineState},
};

/// Mends what the tale says; true where anything was.
pub(crate) fn mend(
    pen: &mut Pen,
    cast: &Cast,
    tale: &mut Tale,
    day: &Day,
) -> Result<bool, StoreError> {
    let mut any = false;
    for (id, how) in tale.mends(day.index) {
        let Some(point) = PointId::new(id) else {
            continue;
        };
        let machine = pen.machine();
        let mends = open_at(&machine, &point);
        if mends.is_empty() {
            continue;
        }
        any = true;
        pen.pass(1500);
        let released = stands_down(pen, &machine, cast, &mends);
        work(pen, cast, point, how, &mends)?;
        if released {
            pen.pass(300);
            let mended = "Seen and pulled at by the steward".to_owned();
            let lifts = mends;
            pen.write(cast.odalys, Body::Release(Release { lifts, mended }))?;
        }
    }
    Ok(any)
}

/// Whether any of these findings stands the machine down.
fn stands_down(pen: &Pen, machine: &MachineState, cast: &Cast, findings: &[FaultRef]) -> bool {
    let named =
        |finding: &Option<FaultRef>| finding.as_ref().is_some_and(|of| findings.contains(of));
    let reasons = pen.judge(machine, cast.odalys).reasons;
    reasons
        .iter()
        .any(|reason| reason.weighs == Verdict::StandDown && named(&reason.finding))
}

/// The work itself, by the steward.
fn work(
    pen: &mut Pen,
    cast: &Cast,
    point: PointId,
    how: Mending,
    mends: &[FaultRef],
) -> Result<(), StoreError> {
    let body = match how {
        Mending::Part(part, what) => return fit(pen, cast, &point, (part, what), mends),
        Mending::Adjusting(what, event) => Body::Adjustment(Adjustment {
            point: Some(point),
            what: what.to_owned(),
            event: event.and_then(ItemId::new),
            mends: mends.to_vec(),
        }),
        Mending::Greasing => {
            let answered = Answered {
                point,
                answer: Answer::Fitting {
                    took: GreaseTook::Seen,
                    strokes: Some(6),
                },
                note: Some("Fitting changed, the old one was full of hard grease".to_owned()),
                photos: Vec::new(),
            };
            Body::Greasing(Greasing {
                fittings: vec![answered],
                mends: mends.to_vec(),
            })
        }
    };
    pen.write(cast.odalys, body).map(drop)
}

/// What was found at a point and is open.
fn open_at(machine: &MachineState, point: &PointId) -> Vec<FaultRef> {
    let here = |found: &Found| matches!(found, Found::Answer(answered) if answered.point == *point);
    machine
        .findings
        .values()
        .filter(|finding| finding.open() && here(&finding.what))
        .map(|finding| finding.id.clone())
        .collect()
}

fn fit(
    pen: &mut Pen,
    cast: &Cast,
    point: &PointId,
    (part, what): (&str, &str),
    mends: &[FaultRef],
) -> Result<(), StoreError> {
    if part == "hydraulic-seal" {
        let what = "Seal kit for the dipper ram".to_owned();
        pen.write(
            cast.odalys,
            Body::Purchase(Purchase {
                part: None,
                count: None,
                what,
                cost: Some("48.00 (invented)".to_owned()),
                point: None,
            }),
        )?;
    }
    let listed = pen
        .book()
        .parts
        .iter()
        .find(|known| known.id.as_str() == part)
        .map(|known| known.id.clone());
    let fitted = PartFitted {
        count: None,
        part: listed,
        what: part.replace('-', " "),
        point: Some(point.clone()),
        event: None,
        cost: None,
    };
    pen.write(cast.odalys, Body::PartFitted(fitted))?;
    pen.write(
        cast.odalys,
        Body::Repair(Repair {
            mends: mends.to_vec(),
            what: what.to_owned(),
            cost: None,
            event: None,
            cause: None,
        }),
    )?;
    Ok(())
}
