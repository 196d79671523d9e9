//! One machine's state.

use crate::{
    book::Book,
    entry::{Answered, Cause, EngineLeft, Handover, MovePermit, RoundPurpose},
    id::{EntryId, FaultRef, ItemId, MachineId, PersonId, PhotoId, PointId, RoundId},
};
use jiff::Timestamp;
use quantity::Quantity;
use std::{
    collections::{BTreeMap, BTreeSet},
    sync::Arc,
};

/// Everything the journal says of one machine, folded.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MachineState {
    /// The machine.
    pub id: Option<MachineId>,
    /// Adopted books, in order; the last one holds.
    pub books: Vec<Adopted>,
    /// Gaps accepted: code and subject, with the entry.
    pub accepted_gaps: BTreeMap<String, EntryId>,
    /// The history of the meter that service hours come from.
    pub hours: HourHistory,
    /// Which meter that is; none = the first.
    pub hours_of: Option<ItemId>,
    /// The histories of the meters beside it, by id; none = the first.
    pub other_meters: BTreeMap<Option<ItemId>, HourHistory>,
    /// The last answer given to each point (renames followed).
    pub answers: BTreeMap<PointId, Given>,
    /// When each point was last truly done (its rhythm restarts here): a well or unwell answer, never "could not check".
    pub done: BTreeMap<PointId, Done>,
    /// When grease was last seen at the joint, for remote lines.
    pub seen_at_joint: BTreeMap<PointId, Done>,
    /// Fittings that took grease and did not show it since, by point: from when, and how often.
    pub unseen_grease: BTreeMap<PointId, UnseenGrease>,
    /// Work done and things bought, in order.
    pub work: Vec<Work>,
    /// Photos that show a point, in order.
    pub point_photos: Vec<PointPhoto>,
    /// When each event last happened.
    pub events: BTreeMap<ItemId, Done>,
    /// Rounds by id, open and closed.
    pub rounds: BTreeMap<RoundId, Round>,
    /// Everything found wrong and not yet closed for good, and what was closed (kept for history).
    pub findings: BTreeMap<FaultRef, Finding>,
    /// When each entry that mended or released something was made.
    pub closed_at: BTreeMap<EntryId, Timestamp>,
    /// Permits to move, newest last.
    pub permits: Vec<(EntryId, Timestamp, MovePermit)>,
    /// For each permit the findings accepted or corrected after it, whatever their time: whoever gave it did not know them.
    pub unseen_by_permit: BTreeMap<EntryId, BTreeSet<FaultRef>>,
    /// The last handover.
    pub handover: Option<(EntryId, Timestamp, PersonId, Handover)>,
    /// The run going on, if any: who, since when.
    pub running: Option<(PersonId, Timestamp)>,
    /// The last person who ran it, and when it was last used.
    pub last_run: Option<(PersonId, Timestamp)>,
    /// Everyone who ever ran it, with the last time.
    pub ran_by: BTreeMap<PersonId, Timestamp>,
    /// Sign-offs by person: until (none = no end), in sight only, entry.
    pub sign_offs: BTreeMap<PersonId, SignedOff>,
    /// Questions nobody has settled, by the entry that raised them: the first of each entry.
    pub questions: BTreeMap<EntryId, Question>,
    /// What else those entries ask, where one raised several (a round with two answers that misfit).
    pub more_questions: Vec<Question>,
    /// Points whose latest answer misfits and is in question: never counted as done, and not well either.
    pub misfits: BTreeMap<PointId, EntryId>,
    /// Points renamed by later books: any older id, the id of today.
    pub renamed: BTreeMap<PointId, PointId>,
    /// Entries that rival corrections speak of.
    pub rivals: BTreeMap<EntryId, Vec<EntryId>>,
    /// Entries of unknown kinds or versions: kept and passed over.
    pub unknown: Vec<(EntryId, String)>,
    /// What lies on the shelf, by part of the book. What was never counted or bought is not here.
    pub shelf: BTreeMap<ItemId, super::OnShelf>,
    /// Attachments on it now.
    pub fitted: BTreeMap<MachineId, super::Fitted>,
    /// Documents, in the order they were written down.
    pub documents: Vec<super::KeptDocument>,
    /// That it left the yard, and how; none while it is here.
    pub left: Option<super::Left>,
    /// When it came back, where it ever left and did: what was walked before says nothing any more.
    pub back_since: Option<Timestamp>,
    /// When it was last put on another machine, where it is an attachment: a round before that says nothing of how it hangs.
    pub put_on_since: Option<Timestamp>,
    /// How it was taken in, where somebody wrote that down.
    pub arrival: Option<super::Arrived>,
}

impl MachineState {
    /// The book in force and its revision.
    pub fn book(&self) -> Option<&Adopted> {
        self.books.last()
    }
    /// The book of a revision, where it was adopted and read.
    pub fn revision(&self, revision: EntryId) -> Option<&Adopted> {
        self.books
            .iter()
            .find(|adopted| adopted.revision == revision)
    }
    /// Since when a round has to begin to count: it came back to the yard, or was put on another machine.
    pub fn anew_since(&self) -> Option<Timestamp> {
        self.back_since.max(self.put_on_since)
    }
    /// Today's id of a point that may have been renamed.
    pub fn point_today(&self, point: &PointId) -> PointId {
        self.renamed.get(point).unwrap_or(point).clone()
    }
    /// The finding of this name, also where the name holds a point's older id.
    pub fn finding(&self, name: &FaultRef) -> Option<&Finding> {
        let point = name.point.as_ref().map(|point| self.point_today(point));
        self.findings.get(&FaultRef {
            entry: name.entry,
            point,
        })
    }
    /// The history of one meter; none = the first.
    pub fn meter(&self, meter: Option<&ItemId>) -> Option<&HourHistory> {
        if self.hours_of.as_ref() == meter {
            return Some(&self.hours);
        }
        self.other_meters.get(&meter.cloned())
    }
    /// Everything asked and not settled, entry by entry.
    pub fn asked(&self) -> impl Iterator<Item = &Question> {
        self.questions.values().chain(&self.more_questions)
    }
}

/// A book in force from some time on.
#[derive(Clone, Debug, PartialEq)]
pub struct Adopted {
    /// The adopting entry: the revision's id.
    pub revision: EntryId,
    /// Since when.
    pub since: Timestamp,
    /// By whom.
    pub by: PersonId,
    /// The book, read.
    pub book: Arc<Book>,
}

/// An answer with its circumstances.
#[derive(Clone, Debug, PartialEq)]
pub struct Given {
    /// Entry it stands in.
    pub entry: EntryId,
    /// Round it belongs to; none for greasing outside a round.
    pub round: Option<RoundId>,
    /// Book revision it was given under.
    pub book: EntryId,
    /// When.
    pub at: Timestamp,
    /// By whom.
    pub by: PersonId,
    /// The answer.
    pub answered: Answered,
}

/// When something was done.
#[derive(Clone, Debug, PartialEq)]
pub struct Done {
    /// Entry.
    pub entry: EntryId,
    /// When.
    pub at: Timestamp,
    /// Life hours then, as far as known.
    pub life_hours: Option<LifeHours>,
}

/// Grease that went in and was not seen at the joint.
#[derive(Clone, Debug, PartialEq)]
pub struct UnseenGrease {
    /// The first time since grease was last seen there.
    pub first: Done,
    /// How often since then.
    pub times: u32,
}

/// Work done on a machine, or something bought for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Work {
    /// Entry.
    pub entry: EntryId,
    /// When.
    pub at: Timestamp,
    /// What kind.
    pub kind: WorkKind,
    /// In words.
    pub what: String,
    /// Point it names.
    pub point: Option<PointId>,
    /// Part of the book it names.
    pub part: Option<ItemId>,
    /// Findings it names.
    pub mends: Vec<FaultRef>,
    /// Cost as written.
    pub cost: Option<String>,
    /// Cause, where it was said.
    pub cause: Option<Cause>,
    /// Life hours then, as far as known.
    pub life_hours: Option<LifeHours>,
}

impl Default for Work {
    fn default() -> Self {
        Self {
            entry: EntryId(uuid::Uuid::nil()),
            at: Timestamp::UNIX_EPOCH,
            kind: WorkKind::Repaired,
            what: String::new(),
            point: None,
            part: None,
            mends: Vec::new(),
            cost: None,
            cause: None,
            life_hours: None,
        }
    }
}

/// Kinds of work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum WorkKind {
    /// Adjusted.
    Adjusted,
    /// Repaired.
    Repaired,
    /// A part fitted.
    Fitted,
    /// Something bought.
    Bought,
}

/// A photo that shows a point.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PointPhoto {
    /// The point.
    pub point: PointId,
    /// By whom.
    pub by: PersonId,
    /// When.
    pub at: Timestamp,
}

/// Hours run since new or since the book began, through every meter change.
#[derive(Clone, Debug, PartialEq)]
pub struct LifeHours {
    /// Hours.
    pub hours: quantity::Exact,
    /// ± from unmetered spans.
    pub plus_minus: quantity::Exact,
}

impl LifeHours {
    /// No hours at all, surely.
    pub fn none() -> Self {
        Self {
            hours: quantity::Exact::zero(),
            plus_minus: quantity::Exact::zero(),
        }
    }
    /// Both together; the ±s add up as they stand.
    #[must_use]
    pub fn and(&self, other: &Self) -> Self {
        Self {
            hours: &self.hours + &other.hours,
            plus_minus: &self.plus_minus + &other.plus_minus,
        }
    }
}

/// The hour meter's history: segments counted by one meter, and what lies between.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HourHistory {
    /// Segments, in order; the last one is running.
    pub segments: Vec<Segment>,
    /// Time of the last accepted reading.
    pub last_at: Option<Timestamp>,
    /// Entry of the last accepted reading, for figures' origins.
    pub last_entry: Option<EntryId>,
    /// Entries whose readings are in question and after which no reading has fitted the old line again. While there is
    /// one, nobody can tell the hours.
    pub doubted: Vec<EntryId>,
    /// Accepted readings, in order: the history one looks back on.
    pub readings: Vec<HoursRead>,
    /// Known not to count.
    pub broken: Option<Broken>,
    /// Hours since the last reading that no meter counted, as far as anybody can tell.
    pub uncounted: Option<Uncounted>,
    /// Life hours whenever somebody told of such hours, in order.
    pub estimates: Vec<HoursEstimated>,
    /// Running hours for an hour it counts, where they are estimated from its revolutions.
    pub scale: Option<LifeHours>,
}

/// A meter known not to count.
#[derive(Clone, Debug, PartialEq)]
pub struct Broken {
    /// Entry that said so.
    pub entry: EntryId,
    /// Since when.
    pub since: Timestamp,
}

/// Hours that the meter did not count, with their ±.
#[derive(Clone, Debug, PartialEq)]
pub struct Uncounted {
    /// The hours.
    pub hours: LifeHours,
    /// Each telling of them with its entry; one where they come from another meter.
    pub told: Vec<(EntryId, LifeHours)>,
    /// The meter they were estimated from (none inside = the first); none = told by people.
    pub by_meter: Option<Option<ItemId>>,
}

/// Life hours at a moment, estimated.
#[derive(Clone, Debug, PartialEq)]
pub struct HoursEstimated {
    /// Entry they rest on.
    pub entry: EntryId,
    /// When.
    pub at: Timestamp,
    /// Life hours then.
    pub life: LifeHours,
}

impl HourHistory {
    /// Whether the hours of today rest on a question that nobody has settled.
    pub fn in_question(&self) -> bool {
        !self.doubted.is_empty()
    }
}

/// One accepted reading of the hour meter.
#[derive(Clone, Debug, PartialEq)]
pub struct HoursRead {
    /// Entry it stands in.
    pub entry: EntryId,
    /// When.
    pub at: Timestamp,
    /// What the meter showed, hours.
    pub shows: quantity::Exact,
    /// Life hours then.
    pub life: LifeHours,
}

/// Hours counted by one meter without a break.
#[derive(Clone, Debug, PartialEq)]
pub struct Segment {
    /// Reading it counts from. Zero for the first meter, which is taken to have come with the machine: life hours are then
    /// what it shows, until it is changed.
    pub first: quantity::Exact,
    /// Last reading.
    pub last: quantity::Exact,
    /// Whole turns of a meter that rolls over, in hours.
    pub rolled: quantity::Exact,
    /// Hours nobody counted before this segment, with ±.
    pub unmetered_before: Option<Quantity>,
    /// Entry that began it.
    pub begun_by: EntryId,
    /// Entry of its last reading.
    pub last_by: EntryId,
}

/// One walk-round.
#[derive(Clone, Debug, PartialEq)]
pub struct Round {
    /// Id.
    pub id: RoundId,
    /// Book revision.
    pub book: EntryId,
    /// Why it is walked.
    pub purpose: RoundPurpose,
    /// Who walks it: everybody who wrote a part before it was closed.
    pub by: Vec<PersonId>,
    /// When it began.
    pub begun: Timestamp,
    /// When its last part came.
    pub last: Timestamp,
    /// When it was closed, by whom, in which entry.
    pub closed: Option<(Timestamp, PersonId, EntryId)>,
    /// Answers in it. A later one of the same person replaces theirs; of two people's, what is amiss stands. The finding stays.
    pub answers: BTreeMap<PointId, Given>,
    /// Who looked at one of its points at least before it was closed. "Could not check" is no look.
    pub looked: BTreeSet<PersonId>,
    /// Points that were answered before it was closed, whoever's answer stands now.
    pub in_time: BTreeSet<PointId>,
    /// Typed in from paper.
    pub from_paper: bool,
    /// Why there is no photo of the point it was asked to show, as said first.
    pub no_photo: Option<String>,
}

impl Round {
    /// Whether this person walked it: looked at a point of it, or began it while nobody looked at any. Whoever only joined
    /// did not.
    pub fn walked_by(&self, person: PersonId) -> bool {
        self.looked.contains(&person)
            || (self.looked.is_empty() && self.by.first() == Some(&person))
    }

    /// Who speaks for it, once it is closed: who closed it, or else the first who walked it.
    pub fn walker(&self) -> Option<PersonId> {
        let (_, closer, _) = self.closed?;
        let walked = |person: &&PersonId| self.walked_by(**person);
        let first = self.by.iter().find(walked).copied();
        Some(if self.walked_by(closer) {
            closer
        } else {
            first.unwrap_or(closer)
        })
    }
}

/// Something found wrong.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Its name for closing entries.
    pub id: FaultRef,
    /// What was said.
    pub what: Found,
    /// When.
    pub at: Timestamp,
    /// By whom.
    pub by: PersonId,
    /// Life hours then.
    pub life_hours: Option<LifeHours>,
    /// Book revision then.
    pub book: Option<EntryId>,
    /// Entries that mended it, by people entitled to; of a fitting that refused only those with grease that went in, by
    /// them or after them.
    pub mended: Vec<EntryId>,
    /// Entry that released it, by somebody entitled to.
    pub released: Option<EntryId>,
    /// Its photos: those of the answer that told of it, then those taken of it later, in order; each once.
    pub photos: Vec<PhotoOf>,
}

/// A photo of a finding. Whether its picture has arrived is for the store to say.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PhotoOf {
    /// The photo.
    pub photo: PhotoId,
    /// Entry that names it.
    pub entry: EntryId,
    /// When.
    pub at: Timestamp,
    /// By whom.
    pub by: PersonId,
    /// Caption.
    pub text: Option<String>,
}

impl Finding {
    /// The point it is about, by its id of then.
    pub fn point(&self) -> Option<&PointId> {
        match &self.what {
            Found::Answer(answered) => Some(&answered.point),
            Found::Fault(fault) => fault.point.as_ref(),
            Found::StoodDown(_) => None,
        }
    }
    /// Whether nobody has mended or released it.
    pub fn open(&self) -> bool {
        self.mended.is_empty() && self.released.is_none()
    }
}

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub enum Found {
    /// An answer at a point that is not well.
    Answer(Answered),
    /// A fault reported.
    Fault(crate::entry::Fault),
    /// Stood down by word.
    StoodDown(String),
}

/// A sign-off in force.
#[derive(Clone, Debug, PartialEq)]
pub struct SignedOff {
    /// Entry.
    pub entry: EntryId,
    /// Until when.
    pub until: Option<jiff::civil::Date>,
    /// Only with steward or deputy in sight.
    pub in_sight: bool,
    /// Limits in words.
    pub limits: Option<String>,
}

/// A question that only steward or deputy can settle.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// Entry that raised it.
    pub entry: EntryId,
    /// What is asked.
    pub asks: Asks,
    /// When.
    pub at: Timestamp,
}

impl Question {
    /// What an entry asks.
    pub(super) fn by(entry: &crate::entry::Entry, asks: Asks) -> Self {
        Self {
            entry: entry.id,
            asks,
            at: entry.ordered_at,
        }
    }

    /// Whether the writer of an entry may have written it.
    pub(super) fn not_entitled(entry: &crate::entry::Entry) -> Self {
        Self::by(
            entry,
            Asks::NotEntitled {
                of: FaultRef {
                    entry: entry.id,
                    point: None,
                },
            },
        )
    }
}

impl Asks {
    /// Whether it is asked about a meter or the hours: while it is open, what is due by hours is not sure.
    pub fn is_of_hours(&self) -> bool {
        matches!(
            self,
            Asks::MeterFell { .. }
                | Asks::MeterJumped { .. }
                | Asks::MeterStuck { .. }
                | Asks::MeterSaidBroken { .. }
                | Asks::BrokenMeterMoved { .. }
                | Asks::ToldTooMuch { .. }
        )
    }
}

/// What a question asks.
#[derive(Clone, Debug, PartialEq)]
pub enum Asks {
    /// The meter shows less than before.
    MeterFell {
        /// Before.
        from: quantity::Exact,
        /// Now.
        to: quantity::Exact,
    },
    /// The meter ran more than the hours that passed allow.
    MeterJumped {
        /// Before.
        from: quantity::Exact,
        /// Now.
        to: quantity::Exact,
        /// Hours that passed.
        passed: quantity::Exact,
        /// What it may have been, digits swapped.
        perhaps: Vec<quantity::Exact>,
    },
    /// The meter shows the same although the machine was run.
    MeterStuck {
        /// What it shows.
        shows: quantity::Exact,
        /// Hours run by the entries since it last moved.
        ran: quantity::Exact,
    },
    /// A meter that is said to be broken.
    MeterSaidBroken {
        /// Since when.
        since: Timestamp,
    },
    /// A meter known to be broken shows something else.
    BrokenMeterMoved {
        /// Before.
        from: quantity::Exact,
        /// Now.
        to: quantity::Exact,
    },
    /// More hours told than time has passed.
    ToldTooMuch {
        /// Hours told.
        told: quantity::Exact,
        /// Hours that passed.
        passed: quantity::Exact,
    },
    /// A meter was read where the book says that there is none. It is not counted.
    NoMeterToRead {
        /// What was read.
        shows: quantity::Exact,
    },
    /// The body does not read.
    Unreadable {
        /// Kind as written.
        kind: String,
        /// Where.
        at: String,
    },
    /// A text longer than any of a form may be. It is kept whole.
    TextTooLong {
        /// How many letters.
        letters: usize,
    },
    /// An answer does not fit its point.
    Misfit {
        /// Point.
        point: PointId,
    },
    /// An answer or entry names a point the book does not have.
    NoSuchPoint {
        /// Point.
        point: PointId,
    },
    /// An entry by somebody not entitled to write it; it has no effect.
    NotEntitled {
        /// What it wanted to close or settle; the entry itself where it wanted neither.
        of: FaultRef,
    },
    /// A correction by somebody not entitled.
    CorrectionNotEntitled {
        /// What it wanted to correct.
        of: EntryId,
    },
    /// Two corrections of one entry.
    Rivals {
        /// The entry.
        of: EntryId,
    },
    /// A book that no longer reads with this program.
    BookUnread {
        /// How many mistakes.
        mistakes: usize,
    },
    /// An attachment was put on while it still hung on another machine. The later place holds.
    AttachmentMoved {
        /// The attachment.
        attachment: MachineId,
        /// Where it hung.
        from: MachineId,
    },
    /// An attachment was put on that the machine's book does not name.
    AttachmentNotTaken {
        /// The attachment.
        attachment: MachineId,
    },
    /// Engine left running at handover.
    LeftRunning {
        /// As said.
        engine: EngineLeft,
    },
}
