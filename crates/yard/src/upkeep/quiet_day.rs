//! What can wait for a quiet day: open things that do not stand the machine down, ranked.

use super::{OpenThing, open_things, repeat_at};
use crate::{
    handover::{Judgement, Verdict},
    state::{Finding, MachineState},
};

/// One open thing that can wait.
#[derive(Clone, Debug, PartialEq)]
pub struct CanWait<'a> {
    /// The thing.
    pub thing: OpenThing<'a>,
    /// What it weighs in the verdict: fit or care, never more.
    pub weighs: Verdict,
    /// How often this point failed, this time counted.
    pub times: usize,
}

/// Open things of a machine that can wait: what is run with care first, then what failed most often, then the oldest.
pub fn can_wait<'a>(machine: &'a MachineState, judgement: &Judgement) -> Vec<CanWait<'a>> {
    let weighs = |thing: &OpenThing<'_>| {
        let names = thing.names();
        let of_thing = judgement
            .reasons
            .iter()
            .filter(|reason| reason.finding.as_ref().is_some_and(|of| names.contains(of)));
        of_thing.map(|reason| reason.weighs).max()
    };
    let times = |finding: &Finding| {
        let repeat = finding.point().and_then(|point| repeat_at(machine, point));
        repeat.map_or(1, |repeat| repeat.failures.len())
    };
    let mut waiting: Vec<CanWait<'a>> = open_things(machine, judgement)
        .into_iter()
        .filter_map(|thing| {
            let weighs = weighs(&thing).unwrap_or(Verdict::Fit);
            let times = times(thing.latest);
            (weighs < Verdict::StandDown).then_some(CanWait {
                thing,
                weighs,
                times,
            })
        })
        .collect();
    let since = |one: &CanWait<'_>| one.thing.all.first().map(|first| first.at);
    waiting.sort_by_key(|one| {
        (
            std::cmp::Reverse((one.weighs, one.times)),
            since(one),
            one.thing.latest.id.clone(),
        )
    });
    waiting
}
