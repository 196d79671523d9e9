//! What an entry can say: one variant for each kind.

use crate::{
    book::{LeakClass, OilHeat, Severity},
    id::{EntryId, FaultRef, ItemId, MachineId, PersonId, PhotoId, PointId, RoundId},
    people::Role,
};
use jiff::{Timestamp, civil::Date};
use quantity::Quantity;

/// What an entry says. Kinds that are unknown, newer or do not read are kept as they are.
#[derive(Clone, Debug, PartialEq)]
pub enum Body {
    /// A machine book taken into use, with its full text.
    BookAdopted(BookAdopted),
    /// A gap in the book accepted by the steward.
    GapAccepted(GapAccepted),
    /// An hour meter read.
    MeterReading(MeterReading),
    /// An hour meter changed or mended.
    MeterChange(MeterChange),
    /// An hour meter known not to count.
    MeterBroken(MeterBroken),
    /// Hours run, told by whoever ran it: for a machine without a meter, or while its meter is broken.
    HoursTold(HoursTold),
    /// A question settled.
    Ruling(Ruling),
    /// A walk-round, or a part of one.
    WalkRound(WalkRound),
    /// A run, or a part of one.
    Run(Run),
    /// Fittings greased outside a round.
    Greasing(Greasing),
    /// Fluid topped up.
    TopUp(TopUp),
    /// Something adjusted.
    Adjustment(Adjustment),
    /// Something wrong.
    Fault(Fault),
    /// Something mended.
    Repair(Repair),
    /// Stood down by word.
    StandDown(StandDown),
    /// Released, naming what was mended.
    Release(Release),
    /// Permit to move a stood-down machine.
    MovePermit(MovePermit),
    /// How the machine was left.
    Handover(Handover),
    /// A part fitted.
    PartFitted(PartFitted),
    /// Something bought.
    Purchase(Purchase),
    /// A part of the shelf counted.
    ShelfCount(ShelfCount),
    /// An attachment put on, or taken off.
    Attachment(AttachmentChange),
    /// A document of the machine or of the yard.
    Document(Document),
    /// A document withdrawn, or a recall answered.
    DocumentEnded(DocumentEnded),
    /// The machine left the yard.
    LeftYard(LeftYard),
    /// It came back.
    CameBack(CameBack),
    /// A step of taking in a machine that came.
    Arrival(super::Arrival),
    /// A lesson given.
    Lesson(Lesson),
    /// The steward's word that a person may run a machine.
    SignOff(SignOff),
    /// A note.
    Note(Note),
    /// A photo, by the id the phone gave it.
    Photo(PhotoNote),
    /// Voids or replaces another entry.
    Correction(Correction),
    /// A person's role in the yard.
    RoleGiven(RoleGiven),
    /// Something about signing in: a lock, a link, a PIN, a name erased. Written by the program alone.
    Access(Access),
    /// A kind or version this program does not know; kept and passed over.
    Unknown {
        /// Kind as written.
        kind: String,
        /// Version as written.
        version: u32,
    },
    /// A body that does not read as its kind; kept and asked about.
    Unreadable {
        /// Kind as written.
        kind: String,
        /// Where it stops making sense (field path), for the question.
        at: String,
    },
}

/// See [`Body::BookAdopted`].
#[derive(Clone, Debug, PartialEq)]
pub struct BookAdopted {
    /// Full text of the book.
    pub text: String,
    /// Why it changed.
    pub why: Option<String>,
}

/// See [`Body::GapAccepted`]. Only minor gaps can be accepted; the fold ignores others.
#[derive(Clone, Debug, PartialEq)]
pub struct GapAccepted {
    /// The gap's code and subject, as the gap list names it.
    pub gap: String,
    /// Reason.
    pub why: String,
}

/// See [`Body::MeterReading`].
#[derive(Clone, Debug, PartialEq)]
pub struct MeterReading {
    /// Which meter; none = the first, the book's `[meter]`.
    pub meter: Option<ItemId>,
    /// What it shows.
    pub shows: Quantity,
}

/// See [`Body::MeterChange`].
#[derive(Clone, Debug, PartialEq)]
pub struct MeterChange {
    /// Which meter; none = the first, the book's `[meter]`.
    pub meter: Option<ItemId>,
    /// Last reading of the old meter, where known.
    pub old_last: Option<Quantity>,
    /// First reading of the new one.
    pub new_first: Quantity,
    /// Hours run that neither counted, with ±.
    pub unmetered: Option<Quantity>,
    /// Why.
    pub why: String,
}

/// See [`Body::MeterBroken`].
#[derive(Clone, Debug, PartialEq)]
pub struct MeterBroken {
    /// Which meter; none = the first, the book's `[meter]`.
    pub meter: Option<ItemId>,
    /// Since when; none = since it last moved, by the readings.
    pub since: Option<Timestamp>,
    /// How one knows.
    pub why: String,
}

/// See [`Body::HoursTold`].
#[derive(Clone, Debug, PartialEq)]
pub struct HoursTold {
    /// Hours run that nobody told of before, with ±.
    pub ran: Quantity,
}

/// Settles a question. Only the steward or the deputy.
#[derive(Clone, Debug, PartialEq)]
pub struct Ruling {
    /// The entry that raised the question.
    pub about: EntryId,
    /// What is so.
    pub says: RulingSays,
    /// Why.
    pub why: String,
}

/// What a ruling says.
#[derive(Clone, Debug, PartialEq)]
pub enum RulingSays {
    /// The meter really was replaced: count on from here.
    MeterReplaced {
        /// Hours run that neither counted.
        unmetered: Option<Quantity>,
    },
    /// The meter rolled over.
    MeterRolledOver,
    /// The meter has stood still since it last moved.
    MeterBroken,
    /// The reading is wrong: pass over it.
    ReadingWrong,
    /// The reading is right, however odd.
    ReadingRight,
    /// Answered in words (unreadable entries, conflicts, rival corrections).
    Answered,
}

/// Why a round is walked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RoundPurpose {
    /// Before a start.
    Start,
    /// Two-minute relief check between learners on a supervised day.
    Relief,
    /// After use.
    After,
}

/// See [`Body::WalkRound`]. Parts of one round share its id; each part is kept as soon as it is submitted.
#[derive(Clone, Debug, PartialEq)]
pub struct WalkRound {
    /// Round.
    pub round: RoundId,
    /// Book revision the answers belong to.
    pub book: EntryId,
    /// Why.
    pub purpose: RoundPurpose,
    /// Typed in from a paper sheet.
    pub from_paper: bool,
    /// Answers of this part.
    pub answers: Vec<Answered>,
    /// Meter as read in this part.
    pub hours: Option<Quantity>,
    /// Present in the part that closes the round: the verdict given then, as evidence.
    pub closes: Option<Evidence>,
    /// Why there is no photo of the point that this round was asked to show.
    pub no_photo: Option<String>,
}

/// The verdict a round was given, kept as evidence; today's state does not rest on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    /// Verdict's code: `fit`, `care` or `stand-down`; `not-given` where it was closed out of range of the yard's computer.
    pub verdict: String,
    /// Reasons' codes, worst first.
    pub reasons: Vec<String>,
    /// Book revision.
    pub book: EntryId,
    /// Program version.
    pub program: String,
}

/// One point answered.
#[derive(Clone, Debug, PartialEq)]
pub struct Answered {
    /// Point.
    pub point: PointId,
    /// Answer.
    pub answer: Answer,
    /// Anything to add.
    pub note: Option<String>,
    /// Photos.
    pub photos: Vec<PhotoId>,
}

/// The answer to a point. Which one fits is given by the point's kind; a misfit is asked about, never counted.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// A level.
    Level {
        /// Against the mark.
        reads: LevelReads,
        /// Pose it was read in; none = not said.
        pose: Option<ItemId>,
        /// Oil temperature by hand; none = not said.
        oil: Option<OilHeat>,
        /// What the fluid looks like.
        looks: FluidLooks,
    },
    /// A fitting, or several behind one point.
    Fitting {
        /// What became of it.
        took: GreaseTook,
        /// Strokes given.
        strokes: Option<u32>,
    },
    /// A pin clip.
    PinClip(ClipState),
    /// A group of bolts.
    Bolts {
        /// Worst found.
        state: BoltState,
        /// How many so.
        how_many: u32,
    },
    /// Readings, in the order the limit names them.
    Measure {
        /// Readings.
        readings: Vec<Reading>,
        /// Whether the limit's method was used; none = not said.
        by_method: Option<bool>,
        /// Whether the limit's condition held; none = not said.
        condition_held: Option<bool>,
    },
    /// A leak: none or its class.
    Leak(Option<LeakClass>),
    /// A hose.
    Hose(HoseState),
    /// Structure.
    Structure(StructureState),
    /// Something that must work.
    Function(FunctionState),
    /// Something to look at.
    Look(LookState),
    /// For each combination of the truth table: whether it cranked; none = not tried.
    Crank {
        /// In the book's order.
        cranked: Vec<Option<bool>>,
        /// Whether the starting switch was found bypassed.
        bypassed: bool,
    },
    /// Could not be checked.
    NotChecked(NotChecked),
}

impl Answer {
    /// What became of the grease, where a fitting was answered.
    pub fn took(&self) -> Option<GreaseTook> {
        match self {
            Answer::Fitting { took, .. } => Some(*took),
            _ => None,
        }
    }
}

/// Level against the mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LevelReads {
    /// Nothing on the stick or glass.
    Nothing,
    /// Below the mark.
    Below,
    /// At or over the mark (and under the upper one).
    AtMark,
    /// Over the upper mark.
    TooFull,
}

/// What a fluid looks like.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FluidLooks {
    /// Clean.
    Clean,
    /// Dark, as oil gets.
    Dark,
    /// Milky: water in it.
    Milky,
    /// The wrong fluid, by smell or colour.
    Wrong,
}

/// What became of the grease.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum GreaseTook {
    /// Fresh grease seen at the joint.
    Seen,
    /// Took grease; nothing seen at the joint.
    Took,
    /// Refused.
    Refused,
}

/// A pin clip.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ClipState {
    /// There and tight.
    Present,
    /// There but loose, worn or makeshift.
    Loose,
    /// Missing.
    Missing,
}

/// Bolts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum BoltState {
    /// All tight.
    Tight,
    /// A paint stripe has turned.
    StripeTurned,
    /// Loose.
    Loose,
    /// Missing or broken.
    Missing,
}

/// One reading of a measure.
#[derive(Clone, Debug, PartialEq)]
pub enum Reading {
    /// A value, with ± where given.
    Value(Quantity),
    /// Between two gauges: over the first, under the second.
    Between {
        /// It was over this.
        over: Option<Quantity>,
        /// It was under this.
        under: Option<Quantity>,
    },
}

/// A hose.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum HoseState {
    /// Sound.
    Sound,
    /// Cover rubbed, wire not seen.
    Rubbed,
    /// Worn through to the wire.
    WornThrough,
    /// Bulged.
    Bulged,
}

/// Structure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StructureState {
    /// Sound.
    Sound,
    /// Bent, not cracked.
    Bent,
    /// Cracked, bright metal: new.
    Cracked,
    /// Cracked, with rust in it: missed before.
    RustInCrack,
}

/// Something that must work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FunctionState {
    /// Works.
    Works,
    /// Works, but weak, stiff or slow.
    Weak,
    /// Does not work, or does not return.
    Fails,
}

/// Something to look at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LookState {
    /// In order.
    Well,
    /// Worn or dirty; can wait.
    Worn,
    /// Damaged.
    Damaged,
    /// Missing.
    Missing,
}

/// Why a point could not be checked.
#[derive(Clone, Debug, PartialEq)]
pub struct NotChecked {
    /// Why.
    pub because: Hindrance,
}

/// What hindered a check.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hindrance {
    /// Cannot get at it in this pose.
    OutOfReach,
    /// Too dark, wet, dirty or iced over.
    CannotSee,
    /// No tool for it here.
    NoTool,
    /// Not safe now.
    NotSafe,
    /// Does not know how.
    DoesNotKnowHow,
    /// The point was not found.
    NotFound,
    /// Another reason (in the note).
    Other,
}

/// Part of a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RunPart {
    /// Started.
    Start,
    /// Something during it.
    During,
    /// Ended.
    End,
}

/// See [`Body::Run`].
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Part.
    pub part: RunPart,
    /// Meter as read.
    pub hours: Option<Quantity>,
    /// What work, in the operator's words.
    pub work: Option<String>,
    /// Short checks of the shift that were not well: list and item number in the book, and what was seen.
    pub amiss: Vec<String>,
    /// Person who had a learner in sight.
    pub in_sight_of: Option<PersonId>,
}

/// See [`Body::Greasing`].
#[derive(Clone, Debug, PartialEq)]
pub struct Greasing {
    /// Fittings.
    pub fittings: Vec<Answered>,
    /// What this closes (refusals that now take grease).
    pub mends: Vec<FaultRef>,
}

/// See [`Body::TopUp`].
#[derive(Clone, Debug, PartialEq)]
pub struct TopUp {
    /// Fluid of the book.
    pub fluid: Option<ItemId>,
    /// How much.
    pub added: Quantity,
    /// Grade, as on the can.
    pub grade: Option<String>,
    /// What this closes.
    pub mends: Vec<FaultRef>,
}

/// See [`Body::Adjustment`].
#[derive(Clone, Debug, PartialEq)]
pub struct Adjustment {
    /// Point adjusted.
    pub point: Option<PointId>,
    /// What was done.
    pub what: String,
    /// Event it restarts.
    pub event: Option<ItemId>,
    /// What this closes.
    pub mends: Vec<FaultRef>,
}

/// See [`Body::Fault`].
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// Point, where it is one.
    pub point: Option<PointId>,
    /// What is wrong.
    pub what: String,
    /// How bad, as the reporter sees it; the steward may correct it.
    pub severity: Severity,
    /// Told by the blameless way: it happened while the reporter had the machine.
    pub told: Option<Told>,
}

/// How something that happened was told. Nobody is blamed for telling it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Told {
    /// With the name of whoever tells it.
    Named,
    /// The pages keep the name from everybody but the steward, the deputy and whoever told it.
    Unnamed,
}

/// See [`Body::Repair`].
#[derive(Clone, Debug, PartialEq)]
pub struct Repair {
    /// What this closes.
    pub mends: Vec<FaultRef>,
    /// What was done.
    pub what: String,
    /// Cost as written, with its currency.
    pub cost: Option<String>,
    /// Event it restarts.
    pub event: Option<ItemId>,
    /// Why it failed, where that was asked or is known.
    pub cause: Option<Cause>,
}

/// Why something failed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cause {
    /// Found: this is it.
    Found(String),
    /// Looked for and not found, because.
    NotFound(String),
}

/// See [`Body::StandDown`].
#[derive(Clone, Debug, PartialEq)]
pub struct StandDown {
    /// Why.
    pub why: String,
}

/// See [`Body::Release`]. Only by steward or deputy.
#[derive(Clone, Debug, PartialEq)]
pub struct Release {
    /// What it lifts, each named.
    pub lifts: Vec<FaultRef>,
    /// What was mended and how it was proven.
    pub mended: String,
}

/// See [`Body::MovePermit`]. Only by steward or deputy.
#[derive(Clone, Debug, PartialEq)]
pub struct MovePermit {
    /// Who may move it.
    pub who: PersonId,
    /// How far.
    pub how_far: Quantity,
    /// Until when.
    pub until: Timestamp,
    /// Where to, and how.
    pub how: String,
}

/// Whether the engine runs at handover.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum EngineLeft {
    /// Off.
    Off,
    /// Running. Can never be "at rest".
    Running,
    /// Not said.
    NotSaid,
}

/// One step of the rest order, as left.
#[derive(Clone, Debug, PartialEq)]
pub struct RestAnswer {
    /// Step of the book.
    pub step: ItemId,
    /// Whether it is done and proven.
    pub state: RestState,
    /// Why not, or what was seen.
    pub note: Option<String>,
}

/// How a rest step was left.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RestState {
    /// Done, and the proof seen.
    Proven,
    /// Done, proof not seen.
    Done,
    /// Not done.
    NotDone,
    /// Raised, on its proven mechanical lock (only for lowering).
    OnLock,
}

/// See [`Body::Handover`].
#[derive(Clone, Debug, PartialEq)]
pub struct Handover {
    /// Book revision.
    pub book: EntryId,
    /// Meter as read.
    pub hours: Option<Quantity>,
    /// Engine.
    pub engine: EngineLeft,
    /// Rest steps.
    pub steps: Vec<RestAnswer>,
    /// What the next person must know.
    pub next: Option<String>,
}

/// See [`Body::PartFitted`].
#[derive(Clone, Debug, PartialEq)]
pub struct PartFitted {
    /// Part of the book, where listed.
    pub part: Option<ItemId>,
    /// What, in words.
    pub what: String,
    /// Point it belongs to.
    pub point: Option<PointId>,
    /// Event it restarts.
    pub event: Option<ItemId>,
    /// Cost as written, with its currency.
    pub cost: Option<String>,
    /// How many were taken from the shelf; none = one, where the book lists the part.
    pub count: Option<u32>,
}

/// See [`Body::Purchase`].
#[derive(Clone, Debug, PartialEq)]
pub struct Purchase {
    /// What.
    pub what: String,
    /// Cost as written, with its currency.
    pub cost: Option<String>,
    /// Part of the book, where listed.
    pub part: Option<ItemId>,
    /// Point it was bought for.
    pub point: Option<PointId>,
    /// How many went on the shelf; none = one, where the book lists the part.
    pub count: Option<u32>,
}

/// See [`Body::ShelfCount`].
#[derive(Clone, Debug, PartialEq)]
pub struct ShelfCount {
    /// Part of the book.
    pub part: ItemId,
    /// How many lie there.
    pub count: u32,
}

/// See [`Body::Attachment`]. An entry of the machine that carries it.
#[derive(Clone, Debug, PartialEq)]
pub struct AttachmentChange {
    /// The attachment, by its own id as a machine.
    pub attachment: MachineId,
    /// Put on (its lock proven), or taken off.
    pub fitted: bool,
    /// Anything to add.
    pub note: Option<String>,
}

/// See [`Body::Document`]. Of the yard where the entry names no machine.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// What kind.
    pub what: DocumentKind,
    /// Title.
    pub title: String,
    /// Number, as written.
    pub number: Option<String>,
    /// From when it holds.
    pub from: Option<Date>,
    /// The last day it holds; none = no end.
    pub until: Option<Date>,
    /// Where it is kept.
    pub kept: Option<String>,
    /// Anything to add.
    pub note: Option<String>,
    /// The document of the machine's book that it is.
    pub of_book: Option<ItemId>,
    /// The document it stands in for from now on.
    pub renews: Option<EntryId>,
    /// Photos of it.
    pub photos: Vec<PhotoId>,
}

/// What kind of document.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DocumentKind {
    /// Maker's book or parts book.
    Manual,
    /// Certificate.
    Certificate,
    /// Insurance.
    Insurance,
    /// Report of an examination, e.g. of a lifting device.
    TestReport,
    /// Registration for the road.
    Registration,
    /// The maker calls the machine back, or warns of it. Open until the steward says what was done.
    Recall,
    /// Anything else.
    Other,
}

/// See [`Body::DocumentEnded`].
#[derive(Clone, Debug, PartialEq)]
pub struct DocumentEnded {
    /// The document.
    pub of: EntryId,
    /// Why it holds no longer; of a recall, what was done.
    pub why: String,
}

/// See [`Body::LeftYard`].
#[derive(Clone, Debug, PartialEq)]
pub struct LeftYard {
    /// How.
    pub how: LeftHow,
    /// On which day, where not today.
    pub on: Option<Date>,
    /// To whom, in words.
    pub to: Option<String>,
    /// Meter as read.
    pub hours: Option<Quantity>,
    /// Anything to add.
    pub note: Option<String>,
}

/// How a machine left the yard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LeftHow {
    /// Sold.
    Sold,
    /// Scrapped.
    Scrapped,
    /// Given back to whom it belongs, or given away.
    GivenBack,
}

/// See [`Body::CameBack`].
#[derive(Clone, Debug, PartialEq)]
pub struct CameBack {
    /// Why.
    pub why: String,
}

/// See [`Body::Lesson`].
#[derive(Clone, Debug, PartialEq)]
pub struct Lesson {
    /// Who was taught.
    pub person: PersonId,
    /// What.
    pub what: String,
}

/// See [`Body::SignOff`]. About the entry's machine.
#[derive(Clone, Debug, PartialEq)]
pub struct SignOff {
    /// Who.
    pub person: PersonId,
    /// Given, or withdrawn.
    pub given: bool,
    /// Until when; none = until withdrawn.
    pub until: Option<Date>,
    /// Limits in words, e.g. "not on slopes".
    pub limits: Option<String>,
    /// Only with the steward or deputy in sight.
    pub in_sight: bool,
}

/// See [`Body::Note`].
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    /// Point, where it is about one.
    pub point: Option<PointId>,
    /// Text.
    pub text: String,
}

/// See [`Body::Photo`].
#[derive(Clone, Debug, PartialEq)]
pub struct PhotoNote {
    /// Photo.
    pub photo: PhotoId,
    /// The finding it shows, where it shows one.
    pub of: Option<FaultRef>,
    /// The point it shows, where it shows one.
    pub point: Option<PointId>,
    /// Caption.
    pub text: Option<String>,
}

/// See [`Body::Correction`]. Of rival corrections the later in order shows; both are flagged.
#[derive(Clone, Debug, PartialEq)]
pub struct Correction {
    /// Entry it corrects.
    pub of: EntryId,
    /// What it says instead; none = voided.
    pub instead: Option<Box<Body>>,
    /// Why.
    pub why: String,
}

/// See [`Body::RoleGiven`]. An entry of the yard, by the steward (the first one by the person it names).
#[derive(Clone, Debug, PartialEq)]
pub struct RoleGiven {
    /// Who.
    pub person: PersonId,
    /// Role; none = taken away.
    pub role: Option<Role>,
    /// Named deputy for these machines only; empty = all.
    pub machines: Vec<MachineId>,
}

/// See [`Body::Access`]. An entry of the yard; nobody writes one by a form or from a phone, and nobody corrects one.
#[derive(Clone, Debug, PartialEq)]
pub struct Access {
    /// What happened.
    pub what: AccessWhat,
    /// Whom it concerns; none where it concerns a device alone.
    pub of: Option<PersonId>,
    /// More about it, e.g. which device, or what a token is for.
    pub note: Option<String>,
}

/// What happened about signing in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum AccessWhat {
    /// Signing in was stopped after wrong PINs.
    Locked,
    /// It was opened again.
    Unlocked,
    /// A one-time link to choose a PIN was given.
    LinkGiven,
    /// A PIN was set.
    PinSet,
    /// A name was erased.
    NameErased,
    /// A token for another program was made.
    TokenMade,
    /// A token was ended.
    TokenEnded,
    /// Entries of others were taken in from a device.
    TakenIn,
}
