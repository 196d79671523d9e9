//! The folds: from accepted entries to states, in the one order (ordered_at, id), whatever the order of arrival.
//!
//! One machine is folded in four steps: corrections are heard; books are put on the shelf; rulings are gathered; then every
//! entry that still says something is taken in order. Closing entries are applied last, because they may come before what
//! they name; so are photos.

mod arrival;
mod attached;
mod corrections;
mod findings;
mod harm;
mod hours;
mod kept;
mod meters;
mod order;
mod people;
mod photos;
mod roles;
mod rounds;
mod rulings;
mod shelf;
mod uncounted;
mod unseen;
mod use_of;
mod work;

pub use harm::{keeps_harm, tells_harm};
pub use kept::{document_deed, unsaying_deed};
pub use people::fold_yard;
pub use shelf::ReadText;

use super::{Asks, MachineState, PhotoOf, Question, YardState};
use crate::{
    book,
    entry::{Body, Entry},
    id::{EntryId, FaultRef, ItemId, MachineId, PersonId, PointId},
    people::Deed,
};
use attached::Attached;
use corrections::{Corrected, Heard, RoleOf};
use findings::Closing;
use hours::Read;
use jiff::Timestamp;
use meters::Meters;
use order::{Turn, in_order};
use quantity::{Habits, Quantity, Unit};
use rulings::Rulings;
use shelf::Shelf;
use std::collections::{BTreeMap, BTreeSet};

/// Folds one machine from the entries of its yard, reading adopted books as `habits` say.
pub fn fold_machine(
    machine: &MachineId,
    entries: &[Entry],
    yard: &YardState,
    habits: &Habits,
) -> MachineState {
    let read = |text: &str| {
        let read = book::read(text, habits);
        let mistakes = read
            .troubles
            .iter()
            .filter(|trouble| trouble.level == book::Level::Mistake)
            .count();
        read.book.ok_or(mistakes)
    };
    fold_machine_reading(machine, entries, yard, &read)
}

/// Folds one machine, with any way of reading a book's text.
///
/// Takes the entries of the yard or of the machine, in any order and with any repeats: the same set gives the same state. A
/// correction counts wherever it stands, its own machine is not looked at. Never panics, whatever the bodies say.
pub fn fold_machine_reading(
    machine: &MachineId,
    entries: &[Entry],
    yard: &YardState,
    read: &ReadText<'_>,
) -> MachineState {
    let ordered = in_order(entries);
    let role = |person: PersonId, on: Option<&MachineId>, when: Timestamp| match on {
        Some(machine) => yard.role_on(person, machine, when),
        None => yard.role_at(person, when),
    };
    let corrected = corrections::hear(&ordered, &role);
    let own: Vec<Heard<'_>> = corrected
        .heard
        .iter()
        .filter(|one| one.entry.machine.as_ref() == Some(machine))
        .copied()
        .collect();
    let shelf = shelf::shelf(machine, &own, &role, read);
    let rulings = rulings::gather(&corrected.heard, &role);
    let mut fold = Fold::new(machine, &shelf, &rulings, &role);
    let attached = Attached::of(&corrected, &role);
    fold.take_open(&corrected, &own);
    let moved = attached.questions(machine);
    moved.into_iter().for_each(|question| fold.raise(question));
    own.iter().for_each(|heard| fold.take(heard));
    let mut state = fold.end();
    let is_own = |heard: &Heard<'_>| heard.entry.machine.as_ref() == Some(machine);
    attached.settle(machine, &mut state);
    state.documents = kept::documents(&corrected, is_own, &role);
    state.unseen_by_permit = unseen::unseen_by_permits(&ordered, &state);
    state
}

/// A machine's state while it is being folded.
struct Fold<'f> {
    shelf: &'f Shelf,
    rulings: &'f Rulings<'f>,
    role: &'f RoleOf<'f>,
    meters: Meters,
    closings: Vec<Closing<'f>>,
    photos: Vec<(FaultRef, PhotoOf)>,
    /// The last answer by which a fitting took grease, by point.
    greased: BTreeMap<PointId, Turn>,
    state: MachineState,
}

impl<'f> Fold<'f> {
    fn new(
        machine: &MachineId,
        shelf: &'f Shelf,
        rulings: &'f Rulings<'f>,
        role: &'f RoleOf<'f>,
    ) -> Self {
        let meters = Meters::new(&shelf.adopted);
        let state = MachineState {
            id: Some(machine.clone()),
            books: shelf.adopted.clone(),
            renamed: shelf.renamed(),
            ..MachineState::default()
        };
        Self {
            shelf,
            rulings,
            role,
            meters,
            closings: Vec::new(),
            photos: Vec::new(),
            greased: BTreeMap::new(),
            state,
        }
    }

    /// Takes what corrections, rulings and books leave open about this machine's entries.
    fn take_open(&mut self, corrected: &Corrected<'_>, own: &[Heard<'_>]) {
        let own: BTreeSet<EntryId> = own.iter().map(|one| one.entry.id).collect();
        let about_own = corrected
            .questions
            .iter()
            .filter(|(_, of)| own.contains(of))
            .map(|(question, _)| question);
        let refused = self
            .rulings
            .refused
            .iter()
            .filter(|question| own.contains(&question.entry));
        let raised: Vec<Question> = about_own
            .chain(refused)
            .chain(&self.shelf.questions)
            .cloned()
            .collect();
        raised.into_iter().for_each(|question| self.raise(question));
        self.state.rivals = corrected
            .rivals
            .iter()
            .filter(|(of, _)| own.contains(of))
            .map(|(of, all)| (*of, all.clone()))
            .collect();
    }

    /// Takes one entry. Kinds that change nothing of a machine are named, so that a new kind cannot be forgotten here.
    fn take(&mut self, heard: &Heard<'f>) {
        let Some(body) = heard.body else { return };
        if let Some(letters) = body.too_long() {
            self.ask(heard.entry, Asks::TextTooLong { letters });
        }
        match body {
            Body::GapAccepted(accepted) if self.may(heard, Deed::AdoptBook) => {
                self.state
                    .accepted_gaps
                    .insert(accepted.gap.clone(), heard.entry.id);
            }
            Body::MeterReading(reading) if self.may(heard, Deed::ReadMeter) => {
                self.meter_read(heard, reading.meter.as_ref(), Some(&reading.shows))
            }
            Body::MeterChange(change) if self.may(heard, Deed::ReadMeter) => {
                let asks = self.meters.change(read(heard.entry, self.rulings), change);
                self.ask_all(heard.entry, asks);
            }
            Body::MeterBroken(broken) if self.may(heard, Deed::ReadMeter) => {
                let asks = self
                    .meters
                    .said_broken(read(heard.entry, self.rulings), broken);
                self.ask_all(heard.entry, asks);
            }
            Body::HoursTold(told) if self.may(heard, Deed::ReadMeter) => {
                let asks = self.meters.told(read(heard.entry, self.rulings), told);
                self.ask_all(heard.entry, asks);
            }
            Body::GapAccepted(_)
            | Body::MeterReading(_)
            | Body::MeterChange(_)
            | Body::MeterBroken(_)
            | Body::HoursTold(_) => self.ask_not_entitled(heard.entry),
            Body::WalkRound(walk) => self.walk(heard, walk),
            Body::Fault(fault) => self.fault(heard, fault),
            Body::StandDown(down) => {
                self.find(heard, None, super::Found::StoodDown(down.why.clone()))
            }
            Body::Release(release) => self.release(heard, release),
            Body::Photo(photo) => self.photo(heard, photo),
            Body::Unknown { kind, .. } => self.state.unknown.push((heard.entry.id, kind.clone())),
            Body::Unreadable { kind, at } => {
                self.state.unknown.push((heard.entry.id, kind.clone()));
                let (kind, at) = (kind.clone(), at.clone());
                self.ask(heard.entry, Asks::Unreadable { kind, at });
            }
            // Heard before the fold, or the yard's.
            Body::BookAdopted(_) | Body::Ruling(_) | Body::Correction(_) | Body::RoleGiven(_) => {}
            Body::Lesson(_) | Body::Note(_) | Body::Access(_) => {}
            Body::Purchase(_) => {
                self.take_kept(heard, body);
                self.note_work(heard, Deed::SignOff);
            }
            Body::Arrival(said) => self.arrive(heard, said),
            Body::ShelfCount(_)
            | Body::Attachment(_)
            | Body::Document(_)
            | Body::DocumentEnded(_)
            | Body::LeftYard(_)
            | Body::CameBack(_) => self.take_kept(heard, body),
            _ => self.take_use(heard, body),
        }
    }

    /// Use of the machine, or work done on it.
    fn take_use(&mut self, heard: &Heard<'f>, body: &Body) {
        match body {
            Body::Run(run) => self.run(heard, run),
            Body::Handover(handover) => self.hand_over(heard, handover),
            Body::MovePermit(permit) => self.permit(heard, permit),
            Body::SignOff(sign_off) => self.sign_off(heard, sign_off),
            _ => self.take_work(heard, body),
        }
    }

    /// Work done on the machine: what it mends, and the rhythms it restarts.
    fn take_work(&mut self, heard: &Heard<'f>, body: &Body) {
        let (deed, mends, event) = match body {
            Body::Greasing(greasing) => return self.grease(heard, greasing),
            Body::TopUp(top_up) => (Deed::Service, top_up.mends.as_slice(), None),
            Body::Adjustment(adjustment) => (
                Deed::Service,
                adjustment.mends.as_slice(),
                adjustment.event.as_ref(),
            ),
            Body::Repair(repair) => (Deed::Repair, repair.mends.as_slice(), repair.event.as_ref()),
            Body::PartFitted(fitted) => {
                self.off_the_shelf(heard, fitted);
                (Deed::Repair, [].as_slice(), fitted.event.as_ref())
            }
            _ => return,
        };
        if mends.is_empty() && !self.may(heard, deed) {
            self.ask_not_entitled(heard.entry);
        }
        self.note_work(heard, deed);
        self.mend(heard, deed, mends);
        // An event restarts closer checks, which is the careful side: it counts from whomever it comes.
        self.event(heard, event);
    }

    /// Takes what the first meter showed, where an entry says so.
    fn hours_read(&mut self, heard: &Heard<'_>, shows: Option<&Quantity>) {
        self.meter_read(heard, None, shows);
    }

    /// Takes what a meter showed, where an entry says so.
    fn meter_read(&mut self, heard: &Heard<'_>, meter: Option<&ItemId>, shows: Option<&Quantity>) {
        let Some(shows) = shows else { return };
        let asks = match shows.in_unit(Unit::Hour) {
            Some(hours) => self
                .meters
                .read(read(heard.entry, self.rulings), meter, hours),
            None => Some(Asks::Unreadable {
                kind: "meter-reading".to_owned(),
                at: "shows".to_owned(),
            }),
        };
        self.ask_all(heard.entry, asks);
    }

    fn ask_all(&mut self, entry: &Entry, asks: Option<Asks>) {
        asks.into_iter().for_each(|asks| self.ask(entry, asks));
    }

    fn may(&self, heard: &Heard<'_>, deed: Deed) -> bool {
        heard.may(deed, self.role)
    }

    fn ask_not_entitled(&mut self, entry: &Entry) {
        self.raise(Question::not_entitled(entry));
    }

    fn ask(&mut self, entry: &Entry, asks: Asks) {
        self.raise(Question::by(entry, asks));
    }

    /// Keeps a question, unless it was settled or was just asked.
    fn raise(&mut self, question: Question) {
        if self.rulings.settle(&question) {
            return;
        }
        match self.state.questions.get(&question.entry) {
            None => {
                self.state.questions.insert(question.entry, question);
            }
            Some(first)
                if *first == question || self.state.more_questions.last() == Some(&question) => {}
            Some(_) => self.state.more_questions.push(question),
        }
    }

    fn end(mut self) -> MachineState {
        self.apply_closings();
        self.hang_photos();
        self.keep_minor_gaps();
        self.meters.end(&mut self.state);
        self.state
    }
}

impl Fold<'_> {
    /// A gap that bears on safety cannot be accepted away, whoever accepts it.
    fn keep_minor_gaps(&mut self) {
        let accepted = &mut self.state.accepted_gaps;
        if let Some(book) = self.shelf.book().filter(|_| !accepted.is_empty()) {
            for gap in book::gaps_of_safety(book) {
                accepted.remove(&gap.id);
            }
        }
    }
}

/// A reading's entry, time and ruling.
fn read<'a>(entry: &Entry, rulings: &Rulings<'a>) -> Read<'a> {
    Read {
        entry: entry.id,
        at: entry.ordered_at,
        ruled: rulings.about(entry.id),
    }
}
