//! One round: planned for who walks it, kept stop by stop, closed with the verdict it was given.

use super::{calendar::Day, pen::Pen, sketch, tale::Tale};
use store::StoreError;
use yard::{
    entry::{Answered, Body, Evidence, RoundPurpose, WalkRound},
    handover::{Judgement, Verdict},
    id::{EntryId, PersonId, PointId, RoundId},
    walkround::plan,
};

/// From stop to stop on foot, and to write it down, seconds.
const BETWEEN: i64 = 25;

/// What a round needs to know.
pub(crate) struct Going<'a> {
    /// Who walks.
    pub(crate) by: PersonId,
    /// Why.
    pub(crate) purpose: RoundPurpose,
    /// The day.
    pub(crate) day: &'a Day,
    /// Walked on paper, and typed in at the yard's computer.
    pub(crate) on_paper: bool,
}

/// Walks the round that is due; gives the verdict it ended with, none where nothing was due.
pub(crate) fn walk(
    pen: &mut Pen,
    tale: &mut Tale,
    going: &Going<'_>,
) -> Result<Option<Judgement>, StoreError> {
    let machine = pen.machine();
    let Some(book) = machine.book().map(|book| book.revision) else {
        return Ok(None);
    };
    let planned = plan(&pen.situation(&machine, going.by), going.purpose);
    let stops: Vec<Vec<PointId>> = planned
        .into_iter()
        .flat_map(|plan| plan.legs)
        .flat_map(|leg| leg.stops)
        .map(|stop| stop.points.into_iter().map(|due| due.point).collect())
        .collect();
    if stops.is_empty() {
        return Ok(None);
    }
    let round = RoundId(pen.fresh());
    // The one photo that a round asks for is declined in the demo, for one reason or another.
    let why = [
        "Hands full of grease",
        "Its glass was wet",
        "Battery of the phone low",
    ];
    let no_photo = (!going.on_paper).then(|| why[going.day.index % why.len()]);
    let part = |answers, hours, closes: Option<Evidence>| {
        Body::WalkRound(WalkRound {
            round,
            book,
            purpose: going.purpose,
            from_paper: going.on_paper,
            answers,
            hours,
            no_photo: no_photo.filter(|_| closes.is_some()).map(str::to_owned),
            closes,
        })
    };
    let mut all = Vec::new();
    for stop in stops {
        let answers = answers(pen, tale, going, &stop)?;
        if going.on_paper {
            all.extend(answers);
        } else {
            keep(pen, going, part(answers, None, None))?;
        }
    }
    let shows = pen.shows();
    let last = |closes| part(all.clone(), shows.clone(), Some(closes));
    let as_if = pen.machine_with(going.by, last(evidence(None, book)));
    let judged = pen.judge(&as_if, going.by);
    keep(pen, going, last(evidence(Some(&judged), book)))?;
    Ok(Some(judged))
}

fn keep(pen: &mut Pen, going: &Going<'_>, body: Body) -> Result<EntryId, StoreError> {
    if going.on_paper {
        pen.write_on("paper, typed at the yard computer", going.by, true, body)
    } else {
        pen.write(going.by, body)
    }
}

fn answers(
    pen: &mut Pen,
    tale: &mut Tale,
    going: &Going<'_>,
    stop: &[PointId],
) -> Result<Vec<Answered>, StoreError> {
    let mut answers = Vec::new();
    let mut seconds = BETWEEN;
    for point in pen
        .book()
        .points
        .iter()
        .filter(|point| stop.contains(&point.id))
    {
        seconds += i64::from(point.seconds);
        let answer = tale.answer(going.day.index, going.purpose, point);
        let photos = if going.on_paper {
            Vec::new()
        } else {
            sketch::photos(pen, &answer)?
        };
        answers.push(Answered {
            point: point.id.clone(),
            answer,
            note: None,
            photos,
        });
    }
    pen.pass(seconds);
    Ok(answers)
}

fn evidence(judged: Option<&Judgement>, book: EntryId) -> Evidence {
    let verdict = judged.map_or(Verdict::StandDown, |judged| judged.verdict);
    let mut reasons: Vec<String> = Vec::new();
    for reason in judged.iter().flat_map(|judged| &judged.reasons) {
        let code = reason.what.code().to_owned();
        if !reasons.contains(&code) {
            reasons.push(code);
        }
    }
    Evidence {
        verdict: verdict.code().to_owned(),
        reasons,
        book,
        program: env!("CARGO_PKG_VERSION").to_owned(),
    }
}
