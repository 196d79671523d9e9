//! Changes at a point that tell of what comes back: grease that is not seen, play that grows, one side adjusted.
//!
//! - `at <fitting>: took 12 times in 40 days, never seen`.
//! - `at <fitting>: took 3 times while belt-play grew from 1/16 in`: the joint's play is what `belt-play` measures.
//! - `at <point>: adjusted 4 times in four weeks, belt-play never`: the one is the other side of the other; or
//!   `..., belt-play once`, `..., then repaired`.
//! - `at <fitting>: seen within 30 days is enough`: what the book says of a remote line.

use super::{
    answers::answer_from,
    machine::point_id,
    scene::{Person, REVISION, Scene, hours_ago, id, round},
};
use yard::{
    book::PointKind,
    entry::RoundPurpose,
    id::{PointId, RoundId},
    state::{Done, Given, UnseenGrease, Work, WorkKind},
};

impl Scene {
    /// Makes such a change; false where it is none of them.
    pub(super) fn comes_back(&mut self, point: &str, says: &str) -> bool {
        let at = point_id(point);
        if let Some(says) = says.strip_prefix("took ") {
            let (times, says) = says.split_once(" times ").expect("how many times");
            let times = times.parse().unwrap();
            match (says.strip_prefix("in "), says.strip_prefix("while ")) {
                (Some(days), _) => {
                    let days = days.strip_suffix(" days, never seen").expect("days");
                    self.took_unseen(at, times, days.parse().unwrap());
                }
                (_, Some(play)) => {
                    let (play, from) = play.split_once(" grew from ").expect("a play");
                    self.play_grew(&at, play, from);
                    self.took_unseen(at, times, 20);
                }
                _ => panic!("took grease how? {says:?}"),
            }
        } else if let Some(says) = says.strip_prefix("adjusted ") {
            let (times, other) = says
                .split_once(" times in four weeks, ")
                .expect("how many times");
            self.adjusted(&at, times.parse().unwrap(), other);
        } else if let Some(days) = says
            .strip_prefix("seen within ")
            .and_then(|says| says.strip_suffix(" days is enough"))
        {
            let book = self.book.as_mut().unwrap();
            let point = book.points.iter_mut().find(|known| known.id == at).unwrap();
            let PointKind::Fitting(rule) = &mut point.kind else {
                panic!("no fitting: {at}")
            };
            rule.seen_within = Some(days.parse().unwrap());
        } else {
            return false;
        }
        true
    }

    fn took_unseen(&mut self, point: PointId, times: u32, days: i64) {
        self.machine.seen_at_joint.remove(&point);
        let first = Done {
            entry: id(140),
            at: hours_ago(24 * days),
            life_hours: None,
        };
        let unseen = UnseenGrease { first, times };
        self.machine.unseen_grease.insert(point, unseen);
    }

    /// A round before, after use, in which the play was this.
    fn play_grew(&mut self, fitting: &PointId, play: &str, from: &str) {
        let book = self.book.as_mut().unwrap();
        let fed = book.points.iter().find_map(|known| match &known.kind {
            PointKind::Fitting(rule) if known.id == *fitting => rule.joint.clone(),
            _ => None,
        });
        let play = book
            .points
            .iter_mut()
            .find(|known| known.id.as_str() == play)
            .unwrap();
        let answer = answer_from(play, from);
        let PointKind::Measure(limit) = &mut play.kind else {
            panic!("no measure: {}", play.id)
        };
        limit.joint = fed;
        let play = play.id.clone();
        let mut before = round(Person::Other);
        before.id = RoundId(uuid::Uuid::from_u128(510));
        before.purpose = RoundPurpose::After;
        (before.begun, before.last) = (hours_ago(24 * 25), hours_ago(24 * 25));
        before.closed = Some((before.last, Person::Other.id(), id(210)));
        let given = Given {
            entry: id(210),
            round: Some(before.id),
            book: id(REVISION),
            at: before.last,
            by: Person::Other.id(),
            answered: self.as_answered(&play, &answer),
        };
        before.answers.insert(play, given);
        self.machine.rounds.insert(before.id, before);
    }

    fn adjusted(&mut self, point: &PointId, times: i64, other: &str) {
        let work = |scene: &mut Self, point: &PointId, kind, days: i64| Work {
            entry: scene.entry(),
            at: hours_ago(24 * days),
            kind,
            what: "2 strokes".into(),
            point: Some(point.clone()),
            ..Work::default()
        };
        let mut done: Vec<Work> = (0..times)
            .map(|n| work(self, point, WorkKind::Adjusted, 7 * n + 1))
            .collect();
        let (twin, how) = match other {
            "then repaired" => ("belt-play", "repaired"),
            other => other.split_once(' ').expect("the other side"),
        };
        match how {
            "never" => {}
            "once" => done.push(work(self, &point_id(twin), WorkKind::Adjusted, 3)),
            "repaired" => done.push(work(self, point, WorkKind::Repaired, 0)),
            other => panic!("the other side {other:?}?"),
        }
        self.machine.work.extend(done);
        let book = self.book.as_mut().unwrap();
        let sided = book.points.iter_mut().find(|known| known.id == *point);
        sided.unwrap().mirror = Some(point_id(twin));
    }
}
