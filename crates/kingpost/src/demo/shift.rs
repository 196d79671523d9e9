//! One day: the round, what is mended, the run, the evening's round, the handover.

use super::{
    calendar::{Day, Who, at},
    cast::Cast,
    pen::{Pen, hours, written},
    tale::{Mending, Tale},
    walk::{Going, walk},
};
use store::StoreError;
use yard::{
    book::Severity,
    entry::{
        Adjustment, Answer, Answered, Body, Correction, EngineLeft, Fault, GreaseTook, Greasing,
        Handover, Lesson, MeterReading, Note, PartFitted, Purchase, Release, Repair, RestAnswer,
        RestState, RoundPurpose, Ruling, RulingSays, Run, RunPart, SignOff, TopUp,
    },
    handover::Verdict,
    id::{FaultRef, ItemId, PersonId, PointId},
    state::{Found, MachineState},
};

/// What the meter shows at the beginning, tenths of an hour.
pub(crate) const FIRST_TENTHS: u32 = 18_426;

/// Lives through one day.
pub(crate) fn work(
    pen: &mut Pen,
    cast: &Cast,
    tale: &mut Tale,
    day: &Day,
) -> Result<(), StoreError> {
    let by = person(cast, day.who);
    let before = pen.tenths;
    let (early, minute) = (
        6 + i8::from(day.index.is_multiple_of(3)),
        10 + pen.draw(30) as i8,
    );
    pen.set(day.date, early, minute);
    before_work(pen, cast, tale, day)?;
    let going = Going {
        by,
        purpose: RoundPurpose::Start,
        day,
        tenths: before,
        on_paper: on(day, 41) || on(day, 76),
    };
    let judged = walk(pen, tale, &going)?;
    let mended = mend(pen, cast, tale, day)?;
    let stands = if mended {
        pen.judge(&pen.machine(), by).verdict
    } else {
        judged.map_or(Verdict::StandDown, |judged| judged.verdict)
    };
    if stands == Verdict::StandDown {
        return Ok(());
    }
    let after = before + day.tenths;
    run(pen, cast, day, by, (before, after))?;
    walk(
        pen,
        tale,
        &Going {
            by,
            purpose: RoundPurpose::After,
            day,
            tenths: after,
            on_paper: false,
        },
    )?;
    evening(pen, cast, day, by)?;
    pen.tenths = after;
    hand_over(pen, day, by, after)
}

fn person(cast: &Cast, who: Who) -> PersonId {
    match who {
        Who::Odalys => cast.odalys,
        Who::Bram => cast.bram,
        Who::Tamsin => cast.tamsin,
        Who::Ines => cast.ines,
        Who::Jory => cast.jory,
    }
}

/// Whether this is the day at so many hundredths of the way.
fn on(day: &Day, share: usize) -> bool {
    day.index == at(day.of, share)
}

fn last(day: &Day) -> bool {
    day.index + 1 == day.of
}

fn point(id: &str) -> Option<PointId> {
    PointId::new(id)
}

fn item(id: &str) -> Option<ItemId> {
    ItemId::new(id)
}

/// What the steward does before anybody walks: lessons, the track set in time, what was left from the evening.
fn before_work(pen: &mut Pen, cast: &Cast, tale: &mut Tale, day: &Day) -> Result<(), StoreError> {
    mend(pen, cast, tale, day)?;
    if tale.sets_track(day.index) {
        tale.sag_is_set(day.index);
        let what = "Left track set before it got slack: two strokes of the gun".to_owned();
        pen.write(
            cast.odalys,
            Body::Adjustment(Adjustment {
                point: point("track-sag-left"),
                what,
                event: None,
                mends: Vec::new(),
            }),
        )?;
    }
    let lessons = [
        (
            15,
            "The round, station by station, with the drawing in hand",
        ),
        (33, "Loader at idle: lift, lower, flat on the ground"),
        (47, "Arm: one lever at a time, swing pin out first"),
        (68, "Handing over: everything down, nothing left running"),
    ];
    for (_, what) in lessons.iter().filter(|(share, _)| on(day, *share)) {
        pen.write(
            cast.odalys,
            Body::Lesson(Lesson {
                person: cast.jory,
                what: (*what).to_owned(),
            }),
        )?;
    }
    if on(day, 85) {
        let limits = Some("loader only, flat ground".to_owned());
        pen.write(
            cast.odalys,
            Body::SignOff(SignOff {
                person: cast.jory,
                given: true,
                until: None,
                limits,
                in_sight: true,
            }),
        )?;
    }
    Ok(())
}

/// Mends what the tale says; true where anything was.
fn mend(pen: &mut Pen, cast: &Cast, tale: &mut Tale, day: &Day) -> Result<bool, StoreError> {
    let mut any = false;
    for (id, how) in tale.mends(day.index) {
        let Some(point) = point(id) else { continue };
        let machine = pen.machine();
        let mends = open_at(&machine, &point);
        if mends.is_empty() {
            continue;
        }
        any = true;
        pen.pass(1500);
        let stands_down = pen
            .judge(&machine, cast.odalys)
            .reasons
            .iter()
            .any(|reason| {
                reason.weighs == Verdict::StandDown
                    && reason
                        .finding
                        .as_ref()
                        .is_some_and(|finding| mends.contains(finding))
            });
        match how {
            Mending::Part(part, what) => fit(pen, cast, &point, (part, what), &mends)?,
            Mending::Adjusting(what, event) => {
                let body = Adjustment {
                    point: Some(point),
                    what: what.to_owned(),
                    event: event.and_then(item),
                    mends: mends.clone(),
                };
                pen.write(cast.odalys, Body::Adjustment(body))?;
            }
            Mending::Greasing => {
                let answer = Answer::Fitting {
                    took: GreaseTook::Seen,
                    strokes: Some(6),
                };
                let note = Some("Fitting changed, the old one was full of hard grease".to_owned());
                let fittings = vec![Answered {
                    point,
                    answer,
                    note,
                    photos: Vec::new(),
                }];
                pen.write(
                    cast.odalys,
                    Body::Greasing(Greasing {
                        fittings,
                        mends: mends.clone(),
                    }),
                )?;
            }
        }
        if stands_down {
            pen.pass(300);
            let mended = "Seen and pulled at by the steward".to_owned();
            pen.write(
                cast.odalys,
                Body::Release(Release {
                    lifts: mends,
                    mended,
                }),
            )?;
        }
    }
    Ok(any)
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
                what,
                cost: Some("48.00 (invented)".to_owned()),
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
        part: listed,
        what: part.replace('-', " "),
        point: Some(point.clone()),
        event: None,
    };
    pen.write(cast.odalys, Body::PartFitted(fitted))?;
    pen.write(
        cast.odalys,
        Body::Repair(Repair {
            mends: mends.to_vec(),
            what: what.to_owned(),
            cost: None,
            event: None,
        }),
    )?;
    Ok(())
}

fn run(
    pen: &mut Pen,
    cast: &Cast,
    day: &Day,
    by: PersonId,
    (before, after): (u32, u32),
) -> Result<(), StoreError> {
    let in_sight_of = (day.who == Who::Jory).then_some(cast.odalys);
    let part = |part, tenths, work: Option<&str>, amiss| {
        Body::Run(Run {
            part,
            hours: Some(hours(tenths)),
            work: work.map(str::to_owned),
            amiss,
            in_sight_of,
        })
    };
    pen.pass(240);
    pen.write(by, part(RunPart::Start, before, Some(day.work), Vec::new()))?;
    // Engine hours, and as long again for breaks and for the work between them that is done by hand.
    let half = i64::from(day.tenths) * 180 + 8100;
    pen.pass(half);
    at_noon(pen, cast, day, by)?;
    pen.pass(half);
    pen.write(by, part(RunPart::End, after, None, Vec::new()))?;
    Ok(())
}

/// The meter shows nothing once, and the deputy says so.
fn at_noon(pen: &mut Pen, cast: &Cast, day: &Day, by: PersonId) -> Result<(), StoreError> {
    if on(day, 55) {
        let about = pen.write(
            by,
            Body::MeterReading(MeterReading {
                shows: written("0.0 h"),
            }),
        )?;
        pen.pass(900);
        let why = "Loose plug behind the dash: it showed nothing for a moment, then its old reading again".to_owned();
        pen.write(
            cast.bram,
            Body::Ruling(Ruling {
                about,
                says: RulingSays::ReadingWrong,
                why,
            }),
        )?;
    }
    Ok(())
}

fn evening(pen: &mut Pen, cast: &Cast, day: &Day, by: PersonId) -> Result<(), StoreError> {
    if day.index % 3 == 1 || on(day, 62) {
        refuel(pen, day, by)?;
    }
    if on(day, 27) || on(day, 71) {
        let added = written("0.5 L");
        pen.write(
            by,
            Body::TopUp(TopUp {
                fluid: item("engine-oil"),
                added,
                grade: Some("15W-40".to_owned()),
                mends: Vec::new(),
            }),
        )?;
    }
    if on(day, 20) {
        let text = "The swing pin goes in more easily with the arm a hand's breadth to the left"
            .to_owned();
        pen.write(
            by,
            Body::Note(Note {
                point: point("swing-lock"),
                text,
            }),
        )?;
    }
    if on(day, 70) {
        let text = "Split pins: two left in the box. More are on order.".to_owned();
        pen.write(cast.bram, Body::Note(Note { point: None, text }))?;
    }
    if last(day) {
        let what = "Work lamp on the left flickers when the boom moves".to_owned();
        pen.write(
            by,
            Body::Fault(Fault {
                point: point("horn-lights"),
                what,
                severity: Severity::Care,
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
            fluid: item("fuel"),
            added: written(&format!("{litres} L")),
            grade: Some("diesel".to_owned()),
            mends: Vec::new(),
        })
    };
    let slip = on(day, 62);
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

/// Every step proven; clay stays in the tracks now and then, with the reason why.
fn hand_over(pen: &mut Pen, day: &Day, by: PersonId, tenths: u32) -> Result<(), StoreError> {
    let Some(book) = pen.revision else {
        return Ok(());
    };
    pen.pass(420);
    let muddy = pen.draw(9) == 0 && !last(day);
    let step = |step: &yard::book::RestStep| {
        let left = muddy && step.id.as_str() == "clean";
        RestAnswer {
            step: step.id.clone(),
            state: if left {
                RestState::NotDone
            } else {
                RestState::Proven
            },
            note: left.then(|| "Too dark, first thing tomorrow".to_owned()),
        }
    };
    let steps = pen.book().rest.iter().map(step).collect();
    let next = match (muddy, last(day)) {
        (true, _) => Some("Clay still in the tracks".to_owned()),
        (_, true) => {
            Some("Left work lamp flickers; the heap at the gate is soft after the rain".to_owned())
        }
        _ => None,
    };
    pen.write(
        by,
        Body::Handover(Handover {
            book,
            hours: Some(hours(tenths)),
            engine: EngineLeft::Off,
            steps,
            next,
        }),
    )?;
    Ok(())
}
