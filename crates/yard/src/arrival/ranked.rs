//! The gaps of a book in the order one fills them: what bears on safety, then by what they block, then by how much.

use crate::{
    book::{Blocks, Gap, gaps},
    handover::Situation,
};

/// A gap with its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RankedGap {
    /// Its place, from 1.
    pub rank: u32,
    /// The gap.
    pub gap: Gap,
    /// Whether the steward accepted it; such gaps come last.
    pub accepted: bool,
}

/// Every gap of the book once; nothing without a book.
pub fn ranked(situation: &Situation<'_>) -> Vec<RankedGap> {
    let Some(book) = situation.book() else {
        return Vec::new();
    };
    let accepted = &situation.machine.accepted_gaps;
    let mut all: Vec<(bool, Gap)> = gaps(book)
        .into_iter()
        .map(|gap| (accepted.contains_key(&gap.id), gap))
        .collect();
    // The sort is stable: within a place the book's own order of gaps holds.
    all.sort_by_key(|(accepted, gap)| {
        let worst = gap.blocks.iter().map(|blocks| weight(*blocks)).min();
        (
            *accepted,
            !gap.bears_on_safety,
            worst.unwrap_or(u8::MAX),
            usize::MAX - gap.blocks.len(),
        )
    });
    (1..)
        .zip(all)
        .map(|(rank, (accepted, gap))| RankedGap {
            rank,
            gap,
            accepted,
        })
        .collect()
}

/// What is blocked, what hinders soonest first: starting, walking round, leaving, then upkeep, then figures and teaching.
fn weight(blocks: Blocks) -> u8 {
    match blocks {
        Blocks::Verdict => 0,
        Blocks::Round => 1,
        Blocks::Rest => 2,
        Blocks::Levels => 3,
        Blocks::Limits => 4,
        Blocks::Greasing => 5,
        Blocks::Hours => 6,
        Blocks::TopUp => 7,
        Blocks::Stability => 8,
        Blocks::LevelCorrection => 9,
        Blocks::ArmFigures => 10,
        Blocks::Teaching => 11,
        Blocks::Lap => 12,
        Blocks::Drawing => 13,
    }
}
