//! What the rules look at, worked out once: the round that counts, what is needed of it, and what is still open.

use super::{Situation, is_must_work, own_round};
use crate::{
    book::{About, Book, Point, PointKind, Severity},
    entry::{Answer, Fault},
    id::{EntryId, FaultRef, PointId},
    people::Role,
    state::{Finding, Found, LifeHours, MachineState, Round},
    upkeep,
    walkround::{self, Weighed},
};
use std::collections::BTreeMap;

/// Everything the rules look at that is not plain in the situation itself.
#[derive(Clone, Debug)]
pub struct Context<'a> {
    /// The book in force.
    pub book: Option<&'a Book>,
    /// Its revision.
    pub revision: Option<EntryId>,
    /// The role of the person who asks, now.
    pub role: Role,
    /// The latest round before a start that this person walked, closed or not; none where it is past and another's is later.
    pub own: Option<&'a Round>,
    /// Points that were due in that round and that nobody answered before it was closed. Empty while it is not closed.
    pub unanswered: Vec<Wanting<'a>>,
    /// Answers of that round, each weighed by today's book. Empty while it is not closed.
    pub answered: Vec<Seen<'a>>,
    /// What was found and not yet closed, to be weighed by the rules.
    pub open: Vec<Seen<'a>>,
    /// What was mended and not yet released.
    pub mended: Vec<Seen<'a>>,
    /// What was released after the round that counts was closed.
    pub released_since: Vec<Seen<'a>>,
    /// Number of each point along the lap.
    pub numbers: BTreeMap<PointId, u32>,
    /// Life hours now, as far as known.
    pub life: Option<LifeHours>,
}

/// A point that should have been answered.
#[derive(Clone, Debug)]
pub struct Wanting<'a> {
    /// Its id.
    pub id: PointId,
    /// The point; none for a joint's fitting that is still to be found.
    pub point: Option<&'a Point>,
}

/// One thing that was said of the machine, with the point it is about.
#[derive(Clone, Debug)]
pub struct Seen<'a> {
    /// Its name for closing entries.
    pub finding: FaultRef,
    /// The point, in today's book or in the one it was found under.
    pub point: Option<&'a Point>,
    /// What was said.
    pub said: Said<'a>,
    /// What the book makes of an answer; none for what is no answer, or where no book has the point.
    pub weighed: Option<Weighed>,
    /// Life hours then, as far as known.
    pub hours: Option<&'a LifeHours>,
    /// The entry that gave the hours, for the figures.
    pub entry: EntryId,
}

/// What was said.
#[derive(Clone, Copy, Debug)]
pub enum Said<'a> {
    /// An answer to a point.
    Answer(&'a Answer),
    /// A fault reported.
    Fault(&'a Fault),
    /// Stood down by word.
    StoodDown(&'a str),
}

impl<'a> Context<'a> {
    /// Works it out.
    pub fn of(situation: &Situation<'a>) -> Self {
        let machine = situation.machine;
        let own = own_round(situation);
        let closed = own.filter(|round| round.closed.is_some());
        let answered = closed.map_or_else(Vec::new, |round| answered(situation, round));
        let mut context = Self {
            book: situation.book(),
            revision: machine.book().map(|book| book.revision),
            role: role(situation),
            own,
            unanswered: closed.map_or_else(Vec::new, |round| unanswered(situation, round)),
            answered,
            open: Vec::new(),
            mended: Vec::new(),
            released_since: Vec::new(),
            numbers: situation.book().map(walkround::numbers).unwrap_or_default(),
            life: upkeep::life_hours(machine),
        };
        context.sort_findings(machine);
        context
    }

    /// The round that counts: this person's, closed.
    pub fn closed_round(&self) -> Option<&'a Round> {
        self.own.filter(|round| round.closed.is_some())
    }

    /// The same context as if exactly `open` were found, and nothing closed.
    pub fn with_open(&self, open: &[Seen<'a>]) -> Self {
        Self {
            open: open.to_vec(),
            mended: Vec::new(),
            released_since: Vec::new(),
            ..self.clone()
        }
    }

    /// Findings to those open, those mended, and those released since the round; released before, they are closed. An answer of the round that is amiss and that
    /// no fold made a finding of counts as one all the same.
    fn sort_findings(&mut self, machine: &'a MachineState) {
        let walked = self.closed_round().and_then(|round| round.closed);
        for finding in machine.findings.values() {
            if let Some(release) = finding.released {
                let at = machine.closed_at.get(&release);
                if walked.is_some_and(|(walked, ..)| at.is_some_and(|at| *at > walked)) {
                    self.released_since.push(Seen::then(machine, finding));
                }
            } else if finding.mended.is_empty() {
                self.open.push(Seen::today(machine, finding));
            } else {
                self.mended.push(Seen::then(machine, finding));
            }
        }
        let amiss = |seen: &&Seen| seen.weighed == Some(Weighed::Amiss);
        let new = |seen: &&Seen| !machine.findings.contains_key(&seen.finding);
        self.open
            .extend(self.answered.iter().filter(amiss).filter(new).cloned());
    }
}

/// The round's answers: whoever walked it together with others takes all of them, theirs and the others'.
fn answered<'a>(situation: &Situation<'a>, round: &'a Round) -> Vec<Seen<'a>> {
    let seen = round.answers.iter().map(|(id, given)| {
        let point = situation.book().and_then(|book| point_of(book, id));
        let answer = &given.answered.answer;
        Seen {
            finding: FaultRef {
                entry: given.entry,
                point: Some(id.clone()),
            },
            point,
            said: Said::Answer(answer),
            weighed: point.map(|point| walkround::weigh(point, answer)),
            hours: None,
            entry: given.entry,
        }
    });
    seen.collect()
}

/// Points due for this person when the round was closed and not answered by then. Those answered need no looking up: what
/// is done in a round falls due again no sooner than their absence shows. What came after the closing answers nothing.
fn unanswered<'a>(situation: &Situation<'a>, round: &Round) -> Vec<Wanting<'a>> {
    let at = round.closed.map_or(round.last, |(at, ..)| at);
    let Some(plan) = walkround::plan_at(situation, round.purpose, at) else {
        return Vec::new();
    };
    let due = plan
        .legs
        .into_iter()
        .flat_map(|leg| leg.stops)
        .flat_map(|stop| stop.points);
    let wanting = due
        .filter(|due| !round.in_time.contains(&due.point))
        .map(|due| Wanting {
            point: situation.book().and_then(|book| point_of(book, &due.point)),
            id: due.point,
        });
    wanting.collect()
}

/// The person's role on this machine, now.
fn role(situation: &Situation) -> Role {
    match &situation.machine.id {
        Some(machine) => situation
            .yard
            .role_on(situation.person, machine, situation.now),
        None => situation.yard.role_at(situation.person, situation.now),
    }
}

fn point_of<'a>(book: &'a Book, id: &PointId) -> Option<&'a Point> {
    book.points.iter().find(|point| point.id == *id)
}

impl<'a> Seen<'a> {
    /// A finding as today's book sees it; a point that is gone from it is taken from the book it was found under.
    fn today(machine: &'a MachineState, finding: &'a Finding) -> Self {
        let books = machine.books.iter().rev();
        Self::of(machine, finding, books.map(|adopted| adopted.book.as_ref()))
    }

    /// A finding as the book saw it under which it was found, so that a later book does not reopen what was mended.
    fn then(machine: &'a MachineState, finding: &'a Finding) -> Self {
        let then = finding.book.and_then(|revision| machine.revision(revision));
        let books = then.into_iter().chain(machine.books.iter().rev());
        Self::of(machine, finding, books.map(|adopted| adopted.book.as_ref()))
    }

    /// The first of these books that has the point, by its name of then or of today, says what it is.
    fn of(
        machine: &MachineState,
        finding: &'a Finding,
        mut books: impl Iterator<Item = &'a Book>,
    ) -> Self {
        let (id, said) = match &finding.what {
            Found::Answer(answered) => (Some(&answered.point), Said::Answer(&answered.answer)),
            Found::Fault(fault) => (fault.point.as_ref(), Said::Fault(fault)),
            Found::StoodDown(why) => (None, Said::StoodDown(why)),
        };
        let point = id.and_then(|id| {
            let today = machine.point_today(id);
            books.find_map(|book| point_of(book, &today).or_else(|| point_of(book, id)))
        });
        let weighed = match (point, said) {
            (Some(point), Said::Answer(answer)) => Some(walkround::weigh(point, answer)),
            _ => None,
        };
        Self {
            finding: finding.id.clone(),
            point,
            said,
            weighed,
            hours: finding.life_hours.as_ref(),
            entry: finding.id.entry,
        }
    }

    /// The answer, where it is one.
    pub fn answer(&self) -> Option<&'a Answer> {
        match self.said {
            Said::Answer(answer) => Some(answer),
            _ => None,
        }
    }

    /// What it bears on; none where no book has the point.
    pub fn about(&self) -> Option<About> {
        self.point.map(|point| point.about)
    }

    /// The id of the point it is about.
    pub fn point_id(&self) -> Option<PointId> {
        match self.said {
            Said::Fault(fault) => fault.point.clone(),
            _ => self.finding.point.clone(),
        }
    }
}

/// Whether the machine must stand while this point is unknown: what kind it is, what it bears on, or the book's own word says
/// that a bad answer would stand it down. Where the book says that a bad answer would not, and no rule says that it would at
/// once, not knowing does not either. A point that no book has is taken as one that does not.
pub fn bears_on_safety(point: Option<&Point>) -> bool {
    let Some(point) = point else { return false };
    match (&point.kind, point.bad_is) {
        (PointKind::PinClip | PointKind::Structure | PointKind::Hose | PointKind::Crank(_), _) => {
            true
        }
        (_, Some(Severity::StandDown)) => true,
        (_, None) => point.about.bears_on_safety(),
        (_, Some(Severity::Note | Severity::Care)) => {
            point.about.bears_on_safety() && at_once(point)
        }
    }
}

/// Whether some answer to this point stands the machine down whatever the book says.
fn at_once(point: &Point) -> bool {
    let by_kind = matches!(
        point.kind,
        PointKind::Level(_) | PointKind::Leak { .. } | PointKind::Bolts
    );
    by_kind
        || is_must_work(Some(point.about))
        || matches!(point.about, About::Levers | About::OilPressure)
}
