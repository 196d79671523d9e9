//! Walk-rounds and greasing: answers, what they find, and what counts as done.

use super::{
    super::{Asks, Done, Found, Given, PointPhoto, Round, UnseenGrease},
    Fold,
    corrections::Heard,
    order::turn,
    shelf::Shelf,
};
use crate::{
    entry::{Answer, Answered, GreaseTook, Greasing, WalkRound},
    id::{EntryId, PointId, RoundId},
    people::Deed,
    walkround::{Weighed, fits_kind, weigh},
};
use std::collections::BTreeSet;

/// Where answers stand: the round, the revision they belong to, and whether their writer may answer.
#[derive(Clone, Copy, Debug)]
struct Place {
    round: Option<RoundId>,
    book: Option<EntryId>,
    entitled: bool,
}

impl<'f> Fold<'f> {
    /// A part of a walk-round. By somebody who may not walk rounds nothing in it counts as done, yet what it found is kept.
    pub(super) fn walk(&mut self, heard: &Heard<'_>, walk: &WalkRound) {
        let entitled = self.may(heard, Deed::WalkRound);
        if entitled {
            self.hours_read(heard, walk.hours.as_ref());
            self.round_part(heard, walk);
        } else {
            self.ask_not_entitled(heard.entry);
        }
        self.answers(
            heard,
            Place {
                round: Some(walk.round),
                book: Some(walk.book),
                entitled,
            },
            &walk.answers,
        );
    }

    /// Fittings greased outside a round.
    pub(super) fn grease(&mut self, heard: &Heard<'f>, greasing: &Greasing) {
        let entitled = self.may(heard, Deed::Service);
        if !entitled && greasing.mends.is_empty() {
            self.ask_not_entitled(heard.entry);
        }
        self.answers(
            heard,
            Place {
                round: None,
                book: None,
                entitled,
            },
            &greasing.fittings,
        );
        self.mend(heard, Deed::Service, &greasing.mends);
    }

    fn round_part(&mut self, heard: &Heard<'_>, walk: &WalkRound) {
        let (at, by) = (heard.entry.ordered_at, heard.entry.by);
        let round = self
            .state
            .rounds
            .entry(walk.round)
            .or_insert_with(|| Round {
                id: walk.round,
                book: walk.book,
                purpose: walk.purpose,
                by: Vec::new(),
                begun: at,
                last: at,
                closed: None,
                answers: Default::default(),
                looked: BTreeSet::new(),
                in_time: BTreeSet::new(),
                from_paper: false,
                no_photo: None,
            });
        // Whoever writes a part only after the closing did not walk this round.
        if round.closed.is_none() && !round.by.contains(&by) {
            round.by.push(by);
        }
        round.last = at;
        round.from_paper |= walk.from_paper;
        if round.no_photo.is_none() {
            round.no_photo.clone_from(&walk.no_photo);
        }
        // A round is closed once: closing it again makes it no younger.
        if walk.closes.is_some() && round.closed.is_none() {
            round.closed = Some((at, by, heard.entry.id));
        }
    }

    fn answers(&mut self, heard: &Heard<'_>, place: Place, answers: &[Answered]) {
        let mut answered_here: BTreeSet<PointId> = BTreeSet::new();
        for answered in answers {
            let once = answered_here.insert(answered.point.clone());
            self.answer(heard, place, answered, once);
        }
    }

    /// One answer. A misfit, or a point answered twice in one entry, is asked about and never counted as done.
    fn answer(&mut self, heard: &Heard<'_>, place: Place, answered: &Answered, once: bool) {
        let shelf = self.shelf;
        let Some((point, today)) = shelf.point(place.book, heard.entry.ordered_at, &answered.point)
        else {
            self.ask(
                heard.entry,
                Asks::NoSuchPoint {
                    point: answered.point.clone(),
                },
            );
            return;
        };
        let answered = Answered {
            point: today.clone(),
            ..answered.clone()
        };
        let weighed = weigh(point, &answered.answer);
        if weighed == Weighed::Amiss {
            self.find(heard, Some(today.clone()), Found::Answer(answered.clone()));
        }
        if !once || !fits_kind(point, &answered.answer) {
            self.ask(
                heard.entry,
                Asks::Misfit {
                    point: today.clone(),
                },
            );
            self.state.misfits.insert(today, heard.entry.id);
        } else if place.entitled {
            self.state.misfits.remove(&today);
            self.keep_answer(heard, place, answered, &weighed);
        }
    }

    fn keep_answer(
        &mut self,
        heard: &Heard<'_>,
        place: Place,
        answered: Answered,
        weighed: &Weighed,
    ) {
        let point = answered.point.clone();
        let done = self.done(heard);
        let took = answered.answer.took();
        // A refusal was looked at but not greased, and what cannot be told was not done.
        if took != Some(GreaseTook::Refused) && !matches!(weighed, Weighed::Unknown(_)) {
            self.state.done.insert(point.clone(), done.clone());
        }
        if matches!(took, Some(GreaseTook::Seen | GreaseTook::Took)) {
            self.greased.insert(point.clone(), turn(heard.entry));
        }
        let at = heard.entry.ordered_at;
        self.grease_shows(&point, took, done);
        self.state
            .point_photos
            .extend(answered.photos.first().map(|_| PointPhoto {
                point: point.clone(),
                by: heard.entry.by,
                at,
            }));
        let book = place
            .book
            .or_else(|| self.shelf.in_force(at))
            .unwrap_or(heard.entry.id);
        let given = Given {
            entry: heard.entry.id,
            round: place.round,
            book,
            at,
            by: heard.entry.by,
            answered,
        };
        if let Some(round) = place
            .round
            .and_then(|round| self.state.rounds.get_mut(&round))
        {
            if stands(round, &given, self.shelf, weighed) {
                round.answers.insert(point.clone(), given.clone());
            }
            if !closed_before(round, &given) {
                round.in_time.insert(point.clone());
                if !matches!(given.answered.answer, Answer::NotChecked(_)) {
                    round.looked.insert(given.by);
                }
            }
        }
        self.state.answers.insert(point, given);
    }

    /// Whether the grease that went in was seen at the joint.
    fn grease_shows(&mut self, point: &PointId, took: Option<GreaseTook>, done: Done) {
        match took {
            Some(GreaseTook::Seen) => {
                self.state.unseen_grease.remove(point);
                self.state.seen_at_joint.insert(point.clone(), done);
            }
            Some(GreaseTook::Took) => {
                let unseen = self.state.unseen_grease.entry(point.clone());
                let unseen = unseen.or_insert(UnseenGrease {
                    first: done,
                    times: 0,
                });
                unseen.times = unseen.times.saturating_add(1);
            }
            Some(GreaseTook::Refused) | None => {}
        }
    }

    /// Now, by the meter as far as it is known.
    pub(super) fn done(&self, heard: &Heard<'_>) -> Done {
        Done {
            entry: heard.entry.id,
            at: heard.entry.ordered_at,
            life_hours: self.meters.life(),
        }
    }
}

/// Whether an answer stands in its round instead of what the round held for the point before.
///
/// After the closing only what is amiss still enters: nothing makes a closed round better. Before it, whoever answers a
/// point again replaces their own answer; of two people's answers what is amiss stands, then what was looked at and well.
fn stands(round: &Round, given: &Given, shelf: &Shelf, weighed: &Weighed) -> bool {
    if closed_before(round, given) {
        return *weighed == Weighed::Amiss;
    }
    let Some(held) = round.answers.get(&given.answered.point) else {
        return true;
    };
    let point = shelf.point(Some(held.book), held.at, &held.answered.point);
    let held_weighs = point.map(|(point, _)| weigh(point, &held.answered.answer));
    held.by == given.by
        || held_weighs.map_or(*weighed == Weighed::Amiss, |held| {
            rank(weighed) >= rank(&held)
        })
}

/// Whether the round was closed before this answer. What the closing part itself answers is of the round.
fn closed_before(round: &Round, given: &Given) -> bool {
    round
        .closed
        .is_some_and(|(.., closing)| closing != given.entry)
}

/// What outweighs what where two people answered one point.
fn rank(weighed: &Weighed) -> u8 {
    match weighed {
        Weighed::Unknown(_) => 0,
        Weighed::Well => 1,
        Weighed::Amiss => 2,
    }
}
