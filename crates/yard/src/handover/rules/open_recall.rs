//! A recall nobody has answered.
//!
//! What: a recall or warning of the maker that was written down is run with care until the steward
//! says what was done.
//!
//! Why: somebody found out the hard way, and told.
//!
//! Source: common practice, no source.
//!
//! Example: case `open-recall`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What, weight};
use crate::state::Standing;
use crate::walkround::day_of;

pub(super) const RULE: Rule = Rule {
    id: "open-recall",
    looks_at: LooksAt::Journal,
    source: Source::CommonPractice,
    example: "open-recall",
    check,
};

fn check(situation: &Situation, _: &Context) -> Vec<Reason> {
    let today = day_of(situation.now, situation.zone);
    let documents = situation.machine.documents.iter();
    documents
        .filter(|kept| kept.standing(today) == Standing::Open)
        .map(|kept| {
            let title = kept.document.title.clone();
            Weight::care(weight::MACHINE, What::OpenRecall { title }).plain(RULE.id)
        })
        .collect()
}
