//! A remote grease line was not seen to deliver for a week.
//!
//! What: a fitting that feeds its joint through a line must have been seen to deliver at the
//! joint within seven days, or within what the book says (thirty at most), else the machine is
//! run with care.
//!
//! Why: a chafed line takes all the grease and the joint gets none; nobody looks.
//!
//! Source: an owner's account of a slewing ring that ran dry behind a broken line; weekly is
//! common practice.
//!
//! Example: case `not-seen-at-joint`.

use super::{LooksAt, Rule, Source};
use crate::book::{Point, PointKind};
use crate::handover::{Context, Reason, Situation, Weight, What, weight};
use jiff::{SignedDuration, Timestamp};

pub(super) const RULE: Rule = Rule {
    id: "not-seen-at-joint",
    looks_at: LooksAt::Round,
    source: Source::CommonPractice,
    example: "not-seen-at-joint",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    let remote = |point: &&Point| matches!(&point.kind, PointKind::Fitting(rule) if rule.remote);
    let points = context.book.map_or(&[][..], |book| &book.points);
    let unseen = points
        .iter()
        .filter(remote)
        .filter(|point| !seen_lately(situation, point));
    let weight = || Weight {
        unknown: true,
        ..Weight::care(weight::UNKNOWN, What::NotSeenAtJoint)
    };
    unseen
        .map(|point| weight().at(RULE.id, point.id.clone()))
        .collect()
}

fn seen_lately(situation: &Situation, point: &Point) -> bool {
    let PointKind::Fitting(rule) = &point.kind else {
        return true;
    };
    let holds = SignedDuration::from_hours(i64::from(rule.seen_every()) * 24);
    let seen = |at: Timestamp| situation.now.duration_since(at) <= holds;
    situation
        .machine
        .seen_at_joint
        .get(&point.id)
        .is_some_and(|done| seen(done.at))
}
