//! What the tape survey came to: the types, and what is asked of a fitted survey.

use crate::book::PinName;
use crate::code::Coded;
use reckon::arm::shape::{Joint, ShapeTrouble, Vector};
use reckon::arm::survey::{Pin, Solved};

/// What the tape survey came to.
#[derive(Clone, Debug)]
pub struct SurveyOfArm {
    /// What does not fit, cannot be used, or may lie on the other side.
    pub findings: Vec<SurveyFinding>,
    /// What to measure next, the most useful first: what settles open pins, then what makes the tooth's place surer.
    pub next: Vec<NextMeasure>,
    /// Pins that the measurements leave open: for them stands what the book says, a first guess where it is one.
    pub open: Vec<PinName>,
    /// Whether every pin but the heel is settled.
    pub complete: bool,
    /// How many checks there are: measurements less what they determine.
    pub checks: usize,
    /// The chance of so large a misfit if only the tape's own errors are in it; 1 where there is no check.
    pub chance: f64,
    /// What the ± were widened by, 1 where all fits.
    pub widened: f64,
    /// The lever, and half the width of its 95 % interval; none where it is open.
    pub lever: (f64, Option<f64>),
    /// The link, likewise.
    pub link: (f64, Option<f64>),
    /// Half the width of the 95 % interval of the tooth's place over the whole reach, as it is, and with the best further
    /// measurement of [`SurveyOfArm::next`], in metres.
    pub tooth: Option<(f64, f64)>,
    pub(super) solved: Box<Solved>,
}

impl PartialEq for SurveyOfArm {
    fn eq(&self, other: &Self) -> bool {
        self.findings == other.findings
            && self.next == other.next
            && self.open == other.open
            && self.solved.geometry == other.solved.geometry
    }
}

/// One measured number, by where it stands in the book.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredOne {
    /// Line in the book.
    pub line: u32,
    /// What was measured.
    pub what: MeasuredWhat,
}

/// What was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MeasuredWhat {
    /// A distance: the ids of its ends.
    Distance(&'static str, &'static str),
    /// A ram length of a reading.
    Ram(Joint),
    /// The tooth height of a reading.
    ToothHeight,
    /// The reach of a reading.
    Reach,
}

/// Something to measure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NextMeasure {
    /// A distance not taken yet: the ids of its ends.
    Distance(&'static str, &'static str),
    /// Something once more, with the tape laid on anew.
    Again(MeasuredOne),
    /// Tooth height and reach with the rams at these lengths.
    Pose([f64; 3]),
}

/// What the survey has to say of what was measured.
#[derive(Clone, Debug, PartialEq)]
pub enum SurveyFinding {
    /// The two ends sit on different parts: their distance changes with the pose. Not used.
    NotRigid(MeasuredOne),
    /// The number or its ± cannot be. Not used.
    NotALength(MeasuredOne),
    /// The ram lengths of this reading close on no arm near this one: one of them is wrong. Not used.
    NeverCloses(MeasuredOne),
    /// The first guess or a stroke cannot be used: nothing was fitted.
    NothingFitted,
    /// This measurement does not fit, and the others can tell that it is this one.
    Misfit {
        /// Which.
        one: MeasuredOne,
        /// As measured less as it should be, in metres.
        error: f64,
        /// What it should read, in metres.
        should_be: f64,
        /// Half the width of the 95 % interval of that.
        plus_minus: f64,
        /// The odds that it is this one, if it is just one.
        likelihood: f64,
    },
    /// One of these is wrong, and nothing measured can tell which.
    Suspects {
        /// All that it may be.
        all: Vec<MeasuredOne>,
        /// What would tell them apart.
        further: Option<NextMeasure>,
    },
    /// Three distances that no triangle has: the first two pins are too far apart, by so much.
    Impossible {
        /// The pins.
        pins: [&'static str; 3],
        /// By how much, in metres.
        excess: f64,
    },
    /// These pins may as well lie on the other side.
    EitherSide {
        /// The pins.
        pins: Vec<&'static str>,
        /// What would tell; where nothing measured does, one look does.
        further: Option<NextMeasure>,
    },
    /// With these pins the joint does not close over the whole stroke of its ram.
    DoesNotClose(Joint, ShapeTrouble),
}

impl SurveyFinding {
    /// The code under which the layer of words keeps a sentence for it.
    pub fn code(&self) -> &'static str {
        match self {
            SurveyFinding::NotRigid(_) => "not-rigid",
            SurveyFinding::NotALength(_) => "not-a-length",
            SurveyFinding::NeverCloses(_) => "never-closes",
            SurveyFinding::NothingFitted => "nothing-fitted",
            SurveyFinding::Misfit { .. } => "misfit",
            SurveyFinding::Suspects { .. } => "suspects",
            SurveyFinding::Impossible { .. } => "impossible",
            SurveyFinding::EitherSide { .. } => "either-side",
            SurveyFinding::DoesNotClose(..) => "does-not-close",
        }
    }
}

impl SurveyOfArm {
    /// Whether what was measured contradicts itself, or leaves open which of two mirror images the arm is: its pins are then
    /// no better than a guess.
    pub fn is_unsettled(&self) -> bool {
        // A few millimetres of tape may keep an end of a stroke from closing: that is said, and blocks nothing.
        let small = |one: &SurveyFinding| matches!(one, SurveyFinding::DoesNotClose(..));
        self.findings.iter().any(|one| !small(one))
    }

    /// A pin's place and half the width of its 95 % interval, where the measurements settle it.
    pub(super) fn settled(&self, pin: PinName) -> Option<(Vector, Vector)> {
        let fix = self.solved.pin(Pin::from_code(pin.code())?)?;
        fix.determined.then(|| (fix.at, fix.half_width()))
    }

    /// Half the width of the 95 % interval of the tooth's reach and height with the rams at these lengths, taken as exact.
    /// Nothing where the tooth depends on pins that are open.
    pub fn tooth_plus_minus(&self, lengths: [f64; 3]) -> Option<Vector> {
        let spread = self.solved.tooth_at(lengths, 0.0).ok()?;
        Some(Vector::new(spread.half_width(0)?, spread.half_width(1)?))
    }
}
