//! A document that the machine needs is not in force.
//!
//! What: a document of the book that is said to be needed, and that nobody wrote down, that ended,
//! or whose first day is still to come: the machine stands down where the book says so, else it
//! runs with care. One in force that nobody wrote a last day for is run with care: it may be over.
//!
//! Why: an examination that is overdue was asked for by law or insurance, and for a reason.
//!
//! Source: common practice, no source; the duty itself differs from place to place.
//!
//! Example: case `needed-document`.

use super::{LooksAt, Rule, Source};
use crate::book::DocumentWanted;
use crate::entry::DocumentKind;
use crate::handover::{
    Context, Reason, Situation, Verdict, Weight, What,
    documents::{needed, written_for},
    weight,
};
use crate::state::Standing;
use crate::walkround::day_of;

pub(super) const RULE: Rule = Rule {
    id: "needed-document",
    looks_at: LooksAt::Book,
    source: Source::CommonPractice,
    example: "needed-document",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    needed(context)
        .filter_map(|wanted| lacking(situation, wanted))
        .collect()
}

fn lacking(situation: &Situation, wanted: &DocumentWanted) -> Option<Reason> {
    let today = day_of(situation.now, situation.zone);
    let standing: Vec<_> = written_for(situation, wanted)
        .map(|kept| (kept.standing(today), kept.document.until))
        .collect();
    let in_force = |(standing, _): &(Standing, _)| {
        matches!(standing, Standing::Holds | Standing::EndsSoon)
    };
    let mut holding = standing.iter().filter(|one| in_force(one)).peekable();
    let title = wanted.title.clone();
    if holding.peek().is_some() {
        // A manual is never over.
        let dated = wanted.what == DocumentKind::Manual || holding.any(|(_, until)| until.is_some());
        let undated = Weight::care(weight::FORMAL, What::DocumentUndated { title });
        return (!dated).then(|| undated.plain(RULE.id));
    }
    let ended = standing
        .iter()
        .filter(|(standing, _)| *standing == Standing::Expired)
        .filter_map(|(_, until)| *until)
        .max();
    let weight = Weight {
        weighs: Verdict::from(wanted.bad_is),
        ..Weight::down(weight::FORMAL, What::NoDocument { title, ended })
    };
    Some(weight.plain(RULE.id))
}
