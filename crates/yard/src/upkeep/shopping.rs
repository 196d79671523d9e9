//! What to buy: parts of what is due soon, and of what is low or out on the shelf.

use super::{life_hours, next_due};
use crate::{
    book::Part,
    handover::Situation,
    id::{ItemId, PointId},
    walkround::day_of,
};
use quantity::Exact;
use std::collections::BTreeMap;

/// How far ahead is looked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ahead {
    /// Hours run.
    pub hours: u32,
    /// Days.
    pub days: u32,
}

impl Default for Ahead {
    /// Fifty hours or thirty days: common practice, no source.
    fn default() -> Self {
        Self {
            hours: 50,
            days: 30,
        }
    }
}

/// One part to buy.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ToBuy {
    /// Part of the book.
    pub part: ItemId,
    /// How many lie on the shelf; none = never counted.
    pub have: Option<u32>,
    /// How many to buy: 1 or more.
    pub buy: u32,
    /// Points it belongs to that are due within the time looked ahead.
    pub due: Vec<PointId>,
    /// Whether the shelf holds fewer than the book wants there.
    pub low: bool,
}

/// Number of each part, in the book's order from 1: the drawing, the list and the paper all use it.
pub fn part_numbers(parts: &[Part]) -> BTreeMap<ItemId, u32> {
    let numbered = (1u32..).zip(parts);
    numbered
        .map(|(number, part)| (part.id.clone(), number))
        .collect()
}

/// What is to be bought for a machine, in the book's order.
///
/// A part is due where a point of it is due within `ahead`: then the machine's whole count of it is needed. It is low where
/// fewer lie on the shelf than the book wants there. Nothing of a machine that left the yard.
pub fn shopping(situation: &Situation<'_>, ahead: &Ahead) -> Vec<ToBuy> {
    let Some(book) = situation
        .book()
        .filter(|_| situation.machine.left.is_none())
    else {
        return Vec::new();
    };
    let due = due_points(situation, ahead);
    book.parts
        .iter()
        .filter_map(|part| to_buy(situation, part, &due))
        .collect()
}

fn to_buy(situation: &Situation<'_>, part: &Part, due: &[PointId]) -> Option<ToBuy> {
    let shelf = situation.machine.shelf.get(&part.id);
    let have = shelf.map(|shelf| shelf.count);
    let due: Vec<PointId> = part
        .points
        .iter()
        .filter(|point| due.contains(point))
        .cloned()
        .collect();
    let needed = if due.is_empty() { 0 } else { part.count };
    let keep = part.keep.unwrap_or(0);
    // What is fitted soon is gone from the shelf then, and the shelf is filled up after it.
    let wanted = needed.saturating_add(keep);
    let low = keep > 0 && have.unwrap_or(0) < keep;
    let buy = wanted.saturating_sub(have.unwrap_or(0));
    (buy > 0).then(|| ToBuy {
        part: part.id.clone(),
        have,
        buy,
        due,
        low,
    })
}

fn due_points(situation: &Situation<'_>, ahead: &Ahead) -> Vec<PointId> {
    let last = day_of(situation.now, situation.zone)
        .saturating_add(jiff::Span::new().days(i64::from(ahead.days.min(3_650))));
    let hours =
        life_hours(situation.machine).map(|life| life.hours + Exact::from(i64::from(ahead.hours)));
    next_due(situation)
        .into_iter()
        .filter(|line| {
            let by_day = line.on.is_some_and(|on| on <= last);
            let by_hours = line
                .at_hours
                .as_ref()
                .zip(hours.as_ref())
                .is_some_and(|(at, end)| at <= end);
            by_day || by_hours
        })
        .map(|line| line.point)
        .collect()
}
