//! The verdict: fit to run, run with care, stand down. Always with reasons, a time, and what it holds for.

use crate::{
    book::{Book, Severity},
    id::{EntryId, FaultRef, ItemId, MachineId, PersonId, PointId, RoundId},
    state::{MachineState, YardState},
};
use jiff::{Timestamp, tz::TimeZone};
use quantity::Exact;
use reckon::Figure;

/// The three verdicts, best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    /// Fit to run.
    Fit,
    /// Run with care.
    Care,
    /// Stand down.
    StandDown,
}

impl Verdict {
    /// The word of the journal, JSON and addresses.
    pub fn code(self) -> &'static str {
        match self {
            Verdict::Fit => "fit",
            Verdict::Care => "care",
            Verdict::StandDown => "stand-down",
        }
    }
}

/// Everything a verdict is computed from.
#[derive(Clone, Copy, Debug)]
pub struct Situation<'a> {
    /// The machine.
    pub machine: &'a MachineState,
    /// The yard, for roles.
    pub yard: &'a YardState,
    /// Who asks to run it.
    pub person: PersonId,
    /// Now.
    pub now: Timestamp,
    /// The yard's time zone.
    pub zone: &'a TimeZone,
    /// The yard's own rules.
    pub habits: &'a YardHabits,
    /// The other machines: an attachment is one of them.
    pub others: &'a dyn super::OtherMachines,
}

/// What the steward has settled for the whole yard.
#[derive(Clone, Debug, PartialEq)]
pub struct YardHabits {
    /// How long a finished round holds, hours.
    pub round_holds_hours: u32,
    /// Hours a machine may run after a fitting refused grease, where the book says nothing; none = stand down at once.
    pub refused_runs_hours: Option<u32>,
    /// Whether the two-minute relief check is allowed today (a supervised day).
    pub relief_allowed: bool,
    /// Whether a comma is the decimal sign here.
    pub decimal_comma: bool,
    /// First days of the seasons, month and day.
    pub seasons: Vec<(i8, i8)>,
    /// Grams a stroke of the yard's gun gives.
    pub gun_grams: Option<f64>,
}

impl Default for YardHabits {
    fn default() -> Self {
        Self {
            round_holds_hours: 12,
            refused_runs_hours: None,
            relief_allowed: false,
            decimal_comma: false,
            seasons: vec![(3, 1), (10, 1)],
            gun_grams: None,
        }
    }
}

/// A verdict with its reasons.
#[derive(Clone, Debug, PartialEq)]
pub struct Judgement {
    /// The verdict: the worst of its reasons, fit where there is none.
    pub verdict: Verdict,
    /// Worst first; within a verdict by rank, then along the lap.
    pub reasons: Vec<Reason>,
    /// What it holds for.
    pub holds: Holds,
    /// When it was computed.
    pub at: Timestamp,
    /// Book revision it rests on.
    pub book: Option<EntryId>,
}

impl Judgement {
    /// Whether it is stood down only because something is not known yet: "walk it round first".
    pub fn only_unknown(&self) -> bool {
        self.verdict == Verdict::StandDown
            && self
                .reasons
                .iter()
                .filter(|r| r.weighs == Verdict::StandDown)
                .all(|r| r.unknown)
    }

    /// Whether walking it round tells any of what stands it down: no walk cures a gap of the book.
    pub fn walking_helps(&self) -> bool {
        let told_elsewhere = |what: &What| {
            matches!(
                what,
                What::NoBook
                    | What::Gap { .. }
                    | What::AttachmentNotKnown { .. }
                    | What::Refused { .. }
            )
        };
        let mut down = self
            .reasons
            .iter()
            .filter(|one| one.weighs == Verdict::StandDown);
        down.any(|one| !told_elsewhere(&one.what))
    }
}

/// What a verdict holds for.
#[derive(Clone, Debug, PartialEq)]
pub struct Holds {
    /// This person.
    pub person: PersonId,
    /// The round it rests on.
    pub round: Option<RoundId>,
    /// Until when; none = nothing to expire.
    pub until: Option<Timestamp>,
    /// Until how many life hours, where a refused fitting sets an end.
    pub until_hours: Option<Exact>,
    /// A permit to move, where the verdict is stand down and one is in force.
    pub permit: Option<EntryId>,
}

/// One reason of a verdict.
#[derive(Clone, Debug, PartialEq)]
pub struct Reason {
    /// Rule that gave it (the rule's file name with dashes).
    pub rule: &'static str,
    /// What it weighs.
    pub weighs: Verdict,
    /// Rank within its verdict: lower is worse. Danger to life 0, to the machine 20, unknown 40, formal 60.
    pub rank: u8,
    /// True where it is an unknown, not a finding.
    pub unknown: bool,
    /// Point it is about.
    pub point: Option<PointId>,
    /// Finding it is about.
    pub finding: Option<FaultRef>,
    /// What exactly.
    pub what: What,
    /// Figure behind it, where a number was computed.
    pub figure: Option<Figure>,
}

/// What a reason says: a code with arguments; the sentence is in `words` under `reason-<code>`.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// No book adopted, or it does not read.
    NoBook,
    /// The book does not say how to stop the engine.
    NoStop,
    /// Never walked round by this person for this start, or the round is not finished.
    NotWalked,
    /// The round holds no longer.
    RoundExpired {
        /// When it ended to hold.
        at: Timestamp,
    },
    /// Handed over since the round.
    HandedOverSince,
    /// What stood it down was released since the round.
    ReleasedSinceRound,
    /// Another person walked it.
    OtherPersonsRound {
        /// Who closed it.
        by: PersonId,
        /// When it was closed.
        at: Timestamp,
    },
    /// The round rests on an older book.
    BookChanged,
    /// A needed point has no answer.
    NotAnswered,
    /// A point could not be checked.
    CouldNotCheck(crate::entry::Hindrance),
    /// An answer does not fit its point or is in question.
    InQuestion,
    /// Pin clip missing or loose.
    PinClip(crate::entry::ClipState),
    /// Bolts.
    Bolts(crate::entry::BoltState, u32),
    /// A function fails or is weak.
    Function(crate::book::About, crate::entry::FunctionState),
    /// Something looked at is not in order.
    Look(crate::book::About, crate::entry::LookState),
    /// Structure.
    Structure(crate::entry::StructureState),
    /// Hose.
    Hose(crate::entry::HoseState),
    /// Leak.
    Leak(crate::book::About, crate::book::LeakClass),
    /// Fluid milky or wrong.
    Fluid(crate::entry::FluidLooks),
    /// Level.
    Level(crate::entry::LevelReads),
    /// Level read in another pose than its mark's, or the pose not said.
    LevelPose {
        /// Pose it was read in.
        read_in: Option<ItemId>,
        /// Pose the mark belongs to.
        mark_is_for: Option<ItemId>,
        /// How much higher the level stands in the pose it was read in, in millimetres, lower where negative; none where
        /// that cannot be worked out.
        higher_by: Option<i32>,
    },
    /// Level read at another oil temperature than its mark's.
    LevelHeat,
    /// Measure outside its limit.
    Outside {
        /// Readings as written.
        read: Vec<String>,
        /// Under the lower or over the upper limit.
        side: quantity::Side,
        /// The limit as written.
        limit: String,
    },
    /// Measure too close to its limit to call.
    TooClose {
        /// Readings as written.
        read: Vec<String>,
        /// Which limit.
        side: quantity::Side,
        /// The limit as written.
        limit: String,
    },
    /// Measure not taken by the limit's method.
    OtherMethod,
    /// The limit's condition did not hold or was not said.
    ConditionNotHeld,
    /// Unit of a reading cannot be compared with the limit.
    NotComparable,
    /// It cranked where it must not.
    CrankedIn {
        /// Combination as the book words it.
        with: String,
    },
    /// It did not crank where it must.
    DidNotCrankIn {
        /// Combination as the book words it.
        with: String,
    },
    /// A combination was not tried.
    CrankNotTried,
    /// Starting switch bypassed.
    SwitchBypassed,
    /// Fitting refused grease; hours left of the steward's allowance (none = no allowance).
    Refused {
        /// Hours left, in life hours; may be zero or less.
        left: Option<Exact>,
        /// Allowed.
        allowed: Option<Exact>,
    },
    /// Fitting of a remote line took grease but it was not seen at the joint.
    NotSeenAtJoint,
    /// Grease goes in and does not seem to reach the joint.
    NotReaching(crate::upkeep::NotReaching),
    /// A side adjusted again and again, the other side never.
    OneSided {
        /// The side that is not adjusted.
        twin: PointId,
        /// How often in four weeks.
        times: u32,
    },
    /// A fault reported.
    Fault {
        /// As reported.
        what: String,
        /// As reported.
        severity: Severity,
    },
    /// Mended, not yet released by steward or deputy.
    NotReleased,
    /// Stood down by word.
    StoodDown {
        /// As said.
        why: String,
    },
    /// A joint with no known fitting.
    JointWithoutFitting {
        /// Joint's id.
        joint: ItemId,
    },
    /// A gap of the book that bears on safety.
    Gap {
        /// Code and subject.
        gap: String,
    },
    /// The hours are in question.
    HoursInQuestion,
    /// Rest step not proven at the last handover.
    LeftNotAtRest {
        /// Step.
        step: ItemId,
    },
    /// Nobody ever handed it over.
    NotHandedOver,
    /// It was used after the last handover.
    UsedSinceHandover,
    /// Engine was left running.
    LeftRunning,
    /// Nobody said whether the engine was off when the machine was left.
    EngineNotSaid,
    /// A rest step was answered that today's book does not have.
    StepNotInBook {
        /// Step.
        step: ItemId,
    },
    /// A lock pin is in its state for the other occasion: in when about to dig, stowed when left at rest.
    LockWrong {
        /// Step of the rest order that names the lock.
        step: ItemId,
        /// What is right now, as the book words it; none where the book only names the step.
        right_is: Option<String>,
    },
    /// Found earlier and never closed; by today's book it would be well or cannot be weighed.
    StillOpen,
    /// An entry that this program cannot read, or of a kind it does not know.
    Unread {
        /// Kind as written.
        kind: String,
    },
    /// The person may not run machines.
    MayNotRun,
    /// The person is not signed off on this machine.
    NotSignedOff,
    /// Only with the steward or deputy in sight.
    InSightOnly,
    /// The machine left the yard.
    LeftYard {
        /// How.
        how: crate::entry::LeftHow,
    },
    /// An attachment on it stands down by its own book.
    AttachmentStandsDown {
        /// The attachment.
        attachment: MachineId,
        /// Its name.
        name: String,
    },
    /// An attachment on it runs with care by its own book.
    AttachmentWithCare {
        /// The attachment.
        attachment: MachineId,
        /// Its name.
        name: String,
    },
    /// An attachment is on it that the yard does not know.
    AttachmentNotKnown {
        /// The attachment.
        attachment: MachineId,
    },
    /// A document that the machine needs is not there, or is over.
    NoDocument {
        /// Its title in the book.
        title: String,
        /// Its last day, where there was one.
        ended: Option<jiff::civil::Date>,
    },
    /// A document that the machine needs is there, but nobody wrote its last day.
    DocumentUndated {
        /// Its title in the book.
        title: String,
    },
    /// A recall that nobody has answered.
    OpenRecall {
        /// Its title.
        title: String,
    },
    /// A level read with another attachment on than its mark belongs to.
    LevelAttachment,
    /// Fluids of a machine that is being taken in, neither changed nor analysed.
    UnknownFluid {
        /// Their ids, in the book's order.
        fluids: Vec<ItemId>,
    },
}

/// Today's book of a situation, where there is one.
impl<'a> Situation<'a> {
    /// The book in force.
    pub fn book(&self) -> Option<&'a Book> {
        self.machine.book().map(|adopted| adopted.book.as_ref())
    }
}
