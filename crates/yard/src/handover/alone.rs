//! What a device out of range can tell by itself: whether an answer, found now, would stand the machine down.
//!
//! A phone that is handed these marks can make a verdict worse before the yard's computer hears of it. It can never grant one:
//! that an answer is not marked says nothing.

use super::{Context, Said, Seen, Situation, as_if_open::stood_down};
use crate::{
    book::Point,
    entry::Answer,
    id::{EntryId, FaultRef},
    walkround::{Weighed, weigh},
};
use uuid::Uuid;

/// What stands in place of a verdict where a round was closed out of range: nobody gave one.
pub const NOT_GIVEN: &str = "not-given";

/// The rules, ready to be asked about one answer after another.
#[derive(Debug)]
pub struct Alone<'a> {
    situation: Situation<'a>,
    context: Context<'a>,
}

impl<'a> Alone<'a> {
    /// Makes ready for a situation.
    pub fn of(situation: Situation<'a>) -> Self {
        Self {
            context: Context::of(&situation),
            situation,
        }
    }

    /// Whether this answer to this point of the book in force would stand the machine down, were it found now.
    pub fn stands_down(&self, point: &Point, answer: &Answer) -> bool {
        let weighed = weigh(point, answer);
        if weighed != Weighed::Amiss {
            return false;
        }
        // It has no entry yet.
        let entry = EntryId(Uuid::nil());
        let seen = Seen {
            finding: FaultRef {
                entry,
                point: Some(point.id.clone()),
            },
            point: Some(point),
            said: Said::Answer(answer),
            weighed: Some(weighed),
            hours: None,
            entry,
        };
        !stood_down(&self.situation, &self.context, &[seen]).is_empty()
    }
}
