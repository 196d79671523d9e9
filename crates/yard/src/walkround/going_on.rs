//! A round that has begun: its plan keeps the points it has answered, so that the list never changes under the walker.

use super::{
    due::because,
    make::lay_out,
    order::walking_order,
    plan,
    plan::{Because, RoundPlan},
    today::Today,
};
use crate::{entry::RoundPurpose, handover::Situation, state::Round};

/// The plan of a round: what is due now, and what this round has answered already, in the one walking order.
///
/// Without a round it is [`plan`]. A relief check that has begun keeps its own short list.
pub fn plan_round(
    situation: &Situation<'_>,
    purpose: RoundPurpose,
    round: Option<&Round>,
) -> Option<RoundPlan> {
    let due_now = plan(situation, purpose)?;
    let Some(round) = round.filter(|round| !round.answers.is_empty()) else {
        return Some(due_now);
    };
    let planned: Vec<_> = due_now
        .legs
        .iter()
        .flat_map(|leg| &leg.stops)
        .flat_map(|stop| &stop.points)
        .map(|due| &due.point)
        .collect();
    let today = Today::of(situation)?;
    let points = walking_order(today.book)
        .into_iter()
        .filter(|(_, point)| planned.contains(&&point.id) || round.answers.contains_key(&point.id))
        .map(|(_, point)| {
            (
                point,
                because(&today, point, due_now.purpose).unwrap_or(Because::InThisRound),
            )
        })
        .collect();
    Some(RoundPlan {
        finds: due_now.finds,
        ..lay_out(&today, due_now.purpose, points)
    })
}
