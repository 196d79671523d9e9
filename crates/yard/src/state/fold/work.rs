//! Work done and things bought, kept in order: what repeats are counted by.

use super::{
    super::{Work, WorkKind},
    Fold,
    corrections::Heard,
};
use crate::{
    entry::Body,
    id::{FaultRef, ItemId, PointId},
    people::Deed,
};

impl Fold<'_> {
    /// Notes work done or something bought, by somebody entitled to it. A point is noted by its id of today.
    pub(super) fn note_work(&mut self, heard: &Heard<'_>, deed: Deed) {
        if !self.may(heard, deed) {
            return;
        }
        let Some(mut work) = heard.body.and_then(told) else {
            return;
        };
        let today = |point: PointId| self.state.point_today(&point);
        work.point = work.point.map(today);
        for of in &mut work.mends {
            of.point = of.point.take().map(today);
        }
        work.entry = heard.entry.id;
        work.at = heard.entry.ordered_at;
        work.life_hours = self.meters.life();
        self.state.work.push(work);
    }
}

/// What an entry tells of work, but for when; none where it tells of none.
fn told(body: &Body) -> Option<Work> {
    let work = |kind, what: &str, point: Option<&PointId>, part: Option<&ItemId>| Work {
        kind,
        what: what.to_owned(),
        point: point.cloned(),
        part: part.cloned(),
        ..Work::default()
    };
    let with = |work: Work, mends: &[FaultRef], cost: Option<&String>| Work {
        mends: mends.to_vec(),
        cost: cost.cloned(),
        ..work
    };
    Some(match body {
        Body::Adjustment(done) => {
            let adjusted = work(WorkKind::Adjusted, &done.what, done.point.as_ref(), None);
            with(adjusted, &done.mends, None)
        }
        Body::Repair(done) => Work {
            cause: done.cause.clone(),
            ..with(
                work(WorkKind::Repaired, &done.what, None, None),
                &done.mends,
                done.cost.as_ref(),
            )
        },
        Body::PartFitted(done) => with(
            work(
                WorkKind::Fitted,
                &done.what,
                done.point.as_ref(),
                done.part.as_ref(),
            ),
            &[],
            done.cost.as_ref(),
        ),
        Body::Purchase(done) => with(
            work(
                WorkKind::Bought,
                &done.what,
                done.point.as_ref(),
                done.part.as_ref(),
            ),
            &[],
            done.cost.as_ref(),
        ),
        _ => return None,
    })
}
