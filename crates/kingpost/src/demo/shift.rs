//! One day: the round, what is mended, the run, the evening's round, the handover.

use super::{
    calendar::Day,
    cast::Cast,
    mending::mend,
    pen::{Pen, written},
    tale::Tale,
    walk::{Going, walk},
};
use store::StoreError;
use yard::{
    entry::{
        Body, EngineLeft, Handover, HoursTold, RestAnswer, RestState, RoundPurpose, Run, RunPart,
    },
    handover::Verdict,
    id::PersonId,
};

/// What the meter shows at the beginning, tenths of an hour.
pub(crate) const FIRST_TENTHS: u32 = 18_426;

/// What a story adds to the days of its machine.
pub(crate) trait Asides {
    /// Before anybody walks round it.
    fn before(
        &self,
        pen: &mut Pen,
        cast: &Cast,
        tale: &mut Tale,
        day: &Day,
    ) -> Result<(), StoreError>;
    /// Between the beginning of the run and its end.
    fn at_noon(
        &self,
        pen: &mut Pen,
        cast: &Cast,
        day: &Day,
        by: PersonId,
    ) -> Result<(), StoreError>;
    /// After the evening's round.
    fn evening(
        &self,
        pen: &mut Pen,
        cast: &Cast,
        day: &Day,
        by: PersonId,
    ) -> Result<(), StoreError>;
    /// Whether the round is walked on paper.
    fn on_paper(&self, day: &Day) -> bool;
    /// Whether the evening's round is.
    fn evening_on_paper(&self, day: &Day) -> bool;
    /// What is said to the next person at the handover, where all was put in order.
    fn tells_next(&self, day: &Day) -> Option<&'static str>;
    /// At which hour the day begins.
    fn begins(&self, day: &Day) -> i8;
}

/// Lives through one day.
pub(crate) fn work(
    pen: &mut Pen,
    cast: &Cast,
    tale: &mut Tale,
    day: &Day,
    asides: &dyn Asides,
) -> Result<(), StoreError> {
    let by = cast.of(day.who);
    let minute = 10 + pen.draw(30) as i8;
    pen.set(day.date, asides.begins(day), minute);
    mend(pen, cast, tale, day)?;
    asides.before(pen, cast, tale, day)?;
    let going = |purpose, on_paper| Going {
        by,
        purpose,
        day,
        on_paper,
    };
    let judged = walk(pen, tale, &going(RoundPurpose::Start, asides.on_paper(day)))?;
    let mended = mend(pen, cast, tale, day)?;
    let stands = if mended {
        pen.judge(&pen.machine(), by).verdict
    } else {
        judged.map_or(Verdict::StandDown, |judged| judged.verdict)
    };
    if stands == Verdict::StandDown {
        return Ok(());
    }
    run(pen, cast, day, by, asides)?;
    walk(
        pen,
        tale,
        &going(RoundPurpose::After, asides.evening_on_paper(day)),
    )?;
    asides.evening(pen, cast, day, by)?;
    hand_over(pen, day, by, asides)
}

/// The run; where no meter tells the hours, the one who ran it does.
fn run(
    pen: &mut Pen,
    cast: &Cast,
    day: &Day,
    by: PersonId,
    asides: &dyn Asides,
) -> Result<(), StoreError> {
    let in_sight_of = cast.in_sight_of(day.who);
    let part = |part, hours, work: Option<&str>| {
        Body::Run(Run {
            part,
            hours,
            work: work.map(str::to_owned),
            amiss: Vec::new(),
            in_sight_of,
        })
    };
    pen.pass(240);
    pen.write(by, part(RunPart::Start, pen.shows(), Some(day.work)))?;
    // Engine hours, and as long again for breaks and for the work between them that is done by hand.
    let half = i64::from(day.tenths) * 180 + 8100;
    pen.pass(half);
    asides.at_noon(pen, cast, day, by)?;
    pen.pass(half);
    pen.tenths = pen.tenths.map(|before| before + day.tenths);
    pen.write(by, part(RunPart::End, pen.shows(), None))?;
    if pen.tenths.is_none() {
        let ran = written(&format!(
            "{}.{} h ± 0.5 h",
            day.tenths / 10,
            day.tenths % 10
        ));
        pen.write(by, Body::HoursTold(HoursTold { ran }))?;
    }
    Ok(())
}

/// Every step proven; clay stays in the tracks now and then, with the reason why.
fn hand_over(
    pen: &mut Pen,
    day: &Day,
    by: PersonId,
    asides: &dyn Asides,
) -> Result<(), StoreError> {
    let Some(book) = pen.revision else {
        return Ok(());
    };
    pen.pass(420);
    let on_tracks = pen
        .book()
        .ground_gear
        .as_ref()
        .is_some_and(|ground| ground.tracks);
    let muddy = pen.draw(9) == 0 && on_tracks && !day.is_last();
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
    let next = if muddy {
        Some("Clay still in the tracks")
    } else {
        asides.tells_next(day)
    };
    let next = next.map(str::to_owned);
    pen.write(
        by,
        Body::Handover(Handover {
            book,
            hours: pen.shows(),
            engine: EngineLeft::Off,
            steps,
            next,
        }),
    )?;
    Ok(())
}
