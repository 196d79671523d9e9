//! A machine on which everything was done on one day, and why its points are due later.

use super::*;
use yard::walkround::{Because, due};

/// Why a point is due before a start.
pub fn because(yard: &SmallYard, person: PersonId, now: &str, id: &str) -> Option<Because> {
    yard.sees(person, now, |situation| due(situation, find(situation, id)))
}

pub fn find<'a>(situation: &Situation<'a>, id: &str) -> &'a yard::book::Point {
    situation
        .book()
        .unwrap()
        .points
        .iter()
        .find(|known| known.id == point(id))
        .unwrap()
}

/// A yard in which the operator did everything on that day, at so many hours, and ran the machine.
pub fn done_on(when: &str, hours: &str) -> SmallYard {
    let mut yard = SmallYard::new();
    done(&mut yard, when, hours);
    yard
}

pub fn done(yard: &mut SmallYard, when: &str, hours: &str) {
    yard.reads(OPERATOR, when, hours);
    let n = yard.entries.len() as u64;
    yard.closes(OPERATOR, when, n, all_well());
    yard.runs(OPERATOR, when);
}
