//! A level read with another attachment on than its mark belongs to.
//!
//! What: where the book says which attachments the machine takes and with which of them a mark
//! holds, a level read with none of those on, or with another besides, cannot be compared.
//!
//! Why: a heavier attachment holds the arm otherwise, and its rams hold oil.
//!
//! Source: the yard's own rule, as for the pose of a mark.
//!
//! Example: case `level-attachment`.

use super::{LooksAt, Rule, Source};
use crate::book::PointKind;
use crate::entry::Answer;
use crate::handover::{Context, Reason, Seen, Situation, Weight, What};

pub(super) const RULE: Rule = Rule {
    id: "level-attachment",
    looks_at: LooksAt::Round,
    source: Source::YardsOwn,
    example: "level-attachment",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    if context.book.is_none_or(|book| book.attachments.is_empty()) {
        return Vec::new();
    }
    let on: Vec<&str> = situation.machine.fitted.keys().map(|id| id.as_str()).collect();
    let other = |seen: &Seen| {
        let point = seen.point?;
        let PointKind::Level(mark) = &point.kind else {
            return None;
        };
        let level = matches!(seen.answer(), Some(Answer::Level { .. }));
        let holds = !on.is_empty() && on.iter().all(|id| mark.attachments.iter().any(|of| of == id));
        (level && !mark.attachments.is_empty() && !holds)
            .then(|| Weight::unknown(Some(point), What::LevelAttachment).of(RULE.id, seen))
    };
    context.answered.iter().filter_map(other).collect()
}
