//! What a book does not say: ranked, with what that blocks and what would unlock it.

mod arm;
mod greasing;
mod machine;
mod points;
mod rest;

use super::Book;
use crate::id::ItemId;

/// Something the book does not say.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Gap {
    /// Its permanent name: code, or `code:subject`.
    pub id: String,
    /// What is missing.
    pub code: GapCode,
    /// The point, joint, fluid or other item it is about; a word of the format where a whole kind is missing; else empty.
    pub subject: String,
    /// Line of the subject; 0 where it has none.
    pub line: u32,
    /// A gap that bears on safety stands the machine down and is never accepted.
    pub bears_on_safety: bool,
    /// What cannot be told until it is filled.
    pub blocks: Vec<Blocks>,
    /// What would fill it.
    pub unlock: Unlock,
}

/// What would fill a gap: a key of the book, and how one comes by its value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unlock {
    /// Table.
    pub table: &'static str,
    /// Key.
    pub key: &'static str,
    /// How one comes by it.
    pub by: By,
}

/// How one comes by what is missing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum By {
    /// The steward knows or decides it.
    WritingDown,
    /// With a tape or gauge.
    Measuring,
    /// On the machine, at the next round.
    Looking,
    /// In the maker's book, on the can, from who knows the kind.
    Asking,
}

/// What cannot be told until a gap is filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Blocks {
    /// The verdict "fit".
    Verdict,
    /// The round.
    Round,
    /// Whether a level is right.
    Levels,
    /// Correcting a level read in another pose.
    LevelCorrection,
    /// Whether a measure is inside its limit.
    Limits,
    /// That every joint gets its grease.
    Greasing,
    /// Everything that is due by hours.
    Hours,
    /// That the machine is left at rest.
    Rest,
    /// What the arm can do.
    ArmFigures,
    /// How it stands.
    Stability,
    /// What to buy and pour in.
    TopUp,
    /// The shortest lap.
    Lap,
    /// The drawing.
    Drawing,
    /// Teaching.
    Teaching,
}

macro_rules! gap_codes {
    ($($(#[$doc:meta])* $name:ident = $code:literal),* $(,)?) => {
        /// What can be missing, what bears on safety first.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum GapCode {
            $($(#[$doc])* $name),*
        }

        impl GapCode {
            /// Every code.
            pub const ALL: &'static [GapCode] = &[$(GapCode::$name),*];

            /// Its permanent name; the sentences are in `words` under `gap-<code>`.
            pub fn code(self) -> &'static str {
                match self { $(GapCode::$name => $code),* }
            }
        }
    };
}

gap_codes! {
    /// How to stop the engine.
    NoStop = "no-stop",
    /// Where nobody may be.
    NoDangerZone = "no-danger-zone",
    /// What it stands on, and so whether it travels.
    NoGround = "no-ground",
    /// Any point at all.
    NoPoints = "no-points",
    /// A point for something that must work on a machine that travels (subject: what it bears on).
    NoPointFor = "no-point-for",
    /// Any pin clip, though there are joints.
    NoPinClips = "no-pin-clips",
    /// The neutral-start check of a machine that travels.
    NoCrank = "no-crank",
    /// A step of the rest order (subject: its kind).
    NoRestStep = "no-rest-step",
    /// The pose a level mark belongs to.
    LevelWithoutPose = "level-without-pose",
    /// The limit of a measure.
    MeasureWithoutLimit = "measure-without-limit",
    /// The joint that a remote grease line feeds.
    RemoteWithoutJoint = "remote-without-joint",
    /// The fitting of a joint.
    JointWithoutFitting = "joint-without-fitting",
    /// The joint that a fitting feeds.
    FittingWithoutJoint = "fitting-without-joint",
    /// The same point on the other side.
    NoTwin = "no-twin",
    /// What proves a step of the rest order.
    RestWithoutProof = "rest-without-proof",
    /// The hour meter.
    NoMeter = "no-meter",
    /// Before or after use.
    NoGreasingHabit = "no-greasing-habit",
    /// A fluid's grade.
    FluidWithoutGrade = "fluid-without-grade",
    /// How much of a fluid it holds.
    FluidWithoutQuantity = "fluid-without-quantity",
    /// Which rods are in or out in the pose of a mark.
    PoseWithoutRods = "pose-without-rods",
    /// The rams.
    NoRams = "no-rams",
    /// A ram's bore, rod, closed or open length.
    RamNotMeasured = "ram-not-measured",
    /// The measurement that unlocks most of the arm's figures (subject: table, key and which one).
    ArmLacks = "arm-lacks",
    /// The tape survey.
    NoDistances = "no-distances",
    /// The masses.
    NoMasses = "no-masses",
    /// Gauge or length of tracks or wheels.
    GroundNotMeasured = "ground-not-measured",
    /// Where one stands.
    StationWithoutPlace = "station-without-place",
    /// A point that watches a weakness.
    WeaknessNotWatched = "weakness-not-watched",
    /// What a control does.
    ControlNotKnown = "control-not-known",
    /// The starting order.
    NoStart = "no-start",
    /// When to stop and tell.
    NoStopAndTell = "no-stop-and-tell",
    /// The drawing.
    NoDrawing = "no-drawing",
}

/// What the book does not say, what bears on safety first, then by kind and by line.
pub fn gaps(book: &Book) -> Vec<Gap> {
    let mut all: Vec<Gap> = but_of_the_arm(book).chain(arm::gaps(book)).collect();
    all.sort_by(|a, b| {
        (!a.bears_on_safety, a.code, a.line, &a.subject).cmp(&(
            !b.bears_on_safety,
            b.code,
            b.line,
            &b.subject,
        ))
    });
    all
}

/// Those of them that bear on safety, in no order. None of the arm's does, and to ask for those takes a whole tape survey: folds
/// do without.
pub(crate) fn gaps_of_safety(book: &Book) -> impl Iterator<Item = Gap> {
    but_of_the_arm(book).filter(|gap| gap.bears_on_safety)
}

fn but_of_the_arm(book: &Book) -> impl Iterator<Item = Gap> {
    let of_points = machine::gaps(book).chain(points::gaps(book));
    of_points
        .chain(rest::gaps(book))
        .chain(greasing::gaps(book))
}

/// Joints that no known fitting feeds and that need one: to be found at the next round.
pub fn joints_to_find(book: &Book) -> Vec<&ItemId> {
    greasing::joints_to_find(book)
        .map(|joint| &joint.id)
        .collect()
}

/// A gap about nothing in particular.
fn of_book(code: GapCode, bears_on_safety: bool, blocks: &[Blocks], unlock: Unlock) -> Gap {
    Gap {
        id: code.code().to_owned(),
        code,
        subject: String::new(),
        line: 0,
        bears_on_safety,
        blocks: blocks.to_vec(),
        unlock,
    }
}

/// A gap about one thing.
fn of(
    code: GapCode,
    subject: &str,
    line: u32,
    bears_on_safety: bool,
    blocks: &[Blocks],
    unlock: Unlock,
) -> Gap {
    Gap {
        id: format!("{}:{subject}", code.code()),
        code,
        subject: subject.to_owned(),
        line,
        bears_on_safety,
        blocks: blocks.to_vec(),
        unlock,
    }
}

const fn unlock(table: &'static str, key: &'static str, by: By) -> Unlock {
    Unlock { table, key, by }
}
