//! What a book says of an arm, as numbers: the types. `reading.rs` and its neighbours fill them.

use super::missing::{Missing, Told};
use super::surveyed::SurveyOfArm;
use crate::book::{ArmLink, KnownBy, PinName, StanceName};
use reckon::arm::force::Stance;
use reckon::arm::rest::{RamColumn, Tank};
use reckon::arm::shape::{ArmShape, ShapeTrouble, Vector};
use reckon::arm::swing::{BoomBox, SwingRams};

/// The arm of one book, ready to reckon with, and everything the book does not say of it.
#[derive(Clone, Debug, PartialEq)]
pub struct ArmOfBook {
    /// The shape. Masses, sizes and pressures that the book does not say are not-a-number in it, so that no figure can
    /// come of them by mistake: look at [`ArmOfBook::weights`], `sizes`, `supplies` and `reliefs`.
    pub shape: Told<ArmShape>,
    /// Every pin the shape rests on, with its place, how it is known and its ±.
    pub pins: Vec<PinOfArm>,
    /// What the tape survey came to; nothing where nothing was measured with a tape and no pin is a guess.
    pub survey: Option<SurveyOfArm>,
    /// Ids of the rams that move boom, dipper and bucket.
    pub ram_ids: [Option<String>; 3],
    /// What is wrong with the shape over the strokes: it does not close somewhere, or lies on a dead centre.
    pub troubles: Vec<ShapeTrouble>,
    /// Whether every weight of the arm is known: without them, geometry only.
    pub weights: Told<()>,
    /// Whether bore and rod of boom, dipper and bucket ram are known.
    pub sizes: [Told<()>; 3],
    /// Whether the pump's pressure for boom, dipper and bucket ram is known.
    pub supplies: [Told<()>; 3],
    /// Whether the port reliefs of boom, dipper and bucket ram are known.
    pub reliefs: [Told<()>; 3],
    /// Where what lies in the bucket has its centre, in the bucket's frame.
    pub load_centre: Told<Vector>,
    /// The longest lever of each ram over its stroke, in metres.
    pub longest_levers: [f64; 3],
    /// Where the swing axis stands along x of the machine frame, in metres.
    pub axis: Told<f64>,
    /// The angle of the arm's plane from straight ahead when it is not swung, counter-clockwise, in radians.
    pub heading: Told<f64>,
    /// The ways of standing, in the order of the book.
    pub stances: Vec<StanceOfArm>,
    /// Which of them it digs from: on loader and feet, feet, blade, tracks, wheels, the first there is.
    pub digs_from: Option<usize>,
    /// The swing.
    pub swing: Told<SwingOfArm>,
    /// The oil tank.
    pub tank: Told<TankOfArm>,
    /// Whether it may lift: point, load holding and authority.
    pub lifting: Told<LiftingRecorded>,
    /// Boom, dipper and bucket ram as columns.
    pub columns: [Told<RamColumn>; 3],
    /// Sections of the boom's box, for teaching.
    pub sections: Vec<Section>,
    /// Width of the bucket, in metres.
    pub bucket_width: Option<f64>,
    /// Everything missing, each once, what unlocks most first.
    pub missing: Vec<Missing>,
    /// Weights of rams that the book does not have and that stand in worked out from their sizes. To be said wherever
    /// forces are shown; no guess of a blank, since the sizes are this machine's.
    pub estimated: Vec<Missing>,
    /// What rests on the nominal shape of a blank and not on this machine.
    pub guesses: Guesses,
}

/// Which numbers are a blank's first guess. A figure that rests on one must never be shown as this machine's without
/// saying so.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Guesses {
    /// A pin, the lever or the link.
    pub shape: bool,
    /// A mass of the arm or of what swings with it. A ram's weight worked out from its own sizes is none: it is this machine's.
    pub weights: bool,
    /// The mass of the machine.
    pub machine: bool,
    /// What was measured contradicts itself, or does not say which of two mirror images the arm is. No guess of a blank, and
    /// no better than one.
    pub unsettled: bool,
}

impl Guesses {
    /// Whether anything is guessed.
    pub fn any(self) -> bool {
        self.shape || self.weights || self.machine || self.unsettled
    }
}

/// A pin of the arm.
#[derive(Clone, Debug, PartialEq)]
pub struct PinOfArm {
    /// Which one.
    pub id: PinName,
    /// The link in whose frame `at` is.
    pub on: ArmLink,
    /// Its place, metres.
    pub at: Vector,
    /// Half width of the 95 % interval of each number, metres, where it is known: written, or from the survey.
    pub plus_minus: Option<Vector>,
    /// How it is known. Where the survey moved it, [`KnownBy::Measured`].
    pub known: KnownBy,
}

/// A way of standing.
#[derive(Clone, Debug, PartialEq)]
pub struct StanceOfArm {
    /// Which.
    pub name: StanceName,
    /// Supports and weights, the arm not swung. Frame: as the machine's, but the origin at the foot of the swing axis.
    /// Its friction is not-a-number where the book has none.
    pub stance: Told<Stance>,
    /// Whether friction is known.
    pub friction: Told<f64>,
    /// Area of each foot's pad, in square metres; on tracks, wheels or a blade of each corner's.
    pub pad_area: Told<f64>,
}

/// The swing by two rams.
#[derive(Clone, Debug, PartialEq)]
pub struct SwingOfArm {
    /// The two rams.
    pub rams: SwingRams,
    /// How far it swings to each side, in radians.
    pub limit: Told<f64>,
    /// Pressure the pump gives them, in pascals.
    pub supply: Told<f64>,
    /// Relief between the two lines, in pascals.
    pub relief: Told<f64>,
    /// Flow, in cubic metres a second.
    pub flow: Told<f64>,
}

/// The oil tank and the rams that move its level.
#[derive(Clone, Debug, PartialEq)]
pub struct TankOfArm {
    /// Plan area, in square metres.
    pub area: f64,
    /// All oil, expansion and the rest; not known where the book does not say how much there is. Levels from one pose to
    /// another at one temperature can still be compared.
    pub tank: Told<Tank>,
    /// Rams other than those of boom, dipper and bucket whose sizes are known.
    pub others: Vec<OtherRam>,
    /// The rams of the swing, which move the level a little as it swings; nothing where it has none.
    pub swing: Told<Option<SwingOil>>,
    /// Ids of rams that move the level too but whose bore, rod or lengths the book does not say.
    pub unmeasured: Vec<String>,
}

/// One of the two rams of the swing, as a vessel of oil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SwingOil {
    /// Area of its piston, in square metres.
    pub cap: f64,
    /// Area of its rod, in square metres.
    pub rod: f64,
    /// Pin to pin when fully in, in metres.
    pub closed: f64,
    /// Stroke, in metres.
    pub stroke: f64,
    /// The pins of both.
    pub rams: SwingRams,
}

/// A ram of the machine that is none of the arm's three.
#[derive(Clone, Debug, PartialEq)]
pub struct OtherRam {
    /// Its id in the book.
    pub id: String,
    /// Area of all its pistons, in square metres.
    pub cap: f64,
    /// Area of all its rods, in square metres.
    pub rod: f64,
    /// Stroke, in metres.
    pub stroke: f64,
}

/// What makes it a lifting machine.
#[derive(Clone, Debug, PartialEq)]
pub struct LiftingRecorded {
    /// The lifting point, as written.
    pub point: String,
    /// What holds the load.
    pub load_holding: String,
    /// Who allows it.
    pub authority: String,
}

/// A section of the boom's box.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Its sizes.
    pub section: BoomBox,
    /// Line in the book.
    pub line: u32,
}
