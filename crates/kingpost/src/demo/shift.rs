//! One day: the round, what is mended, the run, the evening's round, the handover.

use super::{
    calendar::{Day, Who},
    cast::Cast,
    evening::evening,
    mending::mend,
    pen::{Pen, hours, written},
    tale::Tale,
    walk::{Going, walk},
};
use store::StoreError;
use yard::{
    entry::{
        Adjustment, Body, EngineLeft, Handover, Lesson, MeterReading, RestAnswer, RestState,
        RoundPurpose, Ruling, RulingSays, Run, RunPart, SignOff,
    },
    handover::Verdict,
    id::{PersonId, PointId},
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
        on_paper: day.is_at(41) || day.is_at(76),
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

/// What the steward does before anybody walks: lessons, the track set in time, what was left from the evening.
fn before_work(pen: &mut Pen, cast: &Cast, tale: &mut Tale, day: &Day) -> Result<(), StoreError> {
    mend(pen, cast, tale, day)?;
    if tale.sets_track(day.index) {
        tale.sag_is_set(day.index);
        let what = "Left track set before it got slack: two strokes of the gun".to_owned();
        pen.write(
            cast.odalys,
            Body::Adjustment(Adjustment {
                point: PointId::new("track-sag-left"),
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
    for (_, what) in lessons.iter().filter(|(share, _)| day.is_at(*share)) {
        pen.write(
            cast.odalys,
            Body::Lesson(Lesson {
                person: cast.jory,
                what: (*what).to_owned(),
            }),
        )?;
    }
    if day.is_at(85) {
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
    if day.is_at(55) {
        let about = pen.write(
            by,
            Body::MeterReading(MeterReading {
                meter: None,
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

/// Every step proven; clay stays in the tracks now and then, with the reason why.
fn hand_over(pen: &mut Pen, day: &Day, by: PersonId, tenths: u32) -> Result<(), StoreError> {
    let Some(book) = pen.revision else {
        return Ok(());
    };
    pen.pass(420);
    let muddy = pen.draw(9) == 0 && !day.is_last();
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
    let next = match (muddy, day.is_last()) {
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
