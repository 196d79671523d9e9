//! What an answer means at its point: well, amiss, or not known. The one place that says so.

use super::measure;
use crate::{
    book::{CrankCase, LevelMark, OilHeat, Point, PointKind},
    entry::{
        Answer, BoltState, ClipState, FluidLooks, FunctionState, GreaseTook, HoseState, LevelReads,
        LookState, StructureState,
    },
    handover::What,
    id::ItemId,
};

/// An answer weighed at its point.
#[derive(Clone, Debug, PartialEq)]
pub enum Weighed {
    /// In order.
    Well,
    /// Not in order. How bad it is, is for the verdict's rules; what exactly, says [`says`].
    Amiss,
    /// It cannot be told from this answer, because.
    Unknown(What),
}

/// Whether an answer is the kind of answer its point wants. "Could not be checked" always is.
pub fn fits_kind(point: &Point, answer: &Answer) -> bool {
    match (&point.kind, answer) {
        (_, Answer::NotChecked(_)) => true,
        (PointKind::Level(_), Answer::Level { .. }) => true,
        (PointKind::Fitting(_), Answer::Fitting { .. }) => true,
        (PointKind::PinClip, Answer::PinClip(_)) => true,
        (PointKind::Bolts, Answer::Bolts { .. }) => true,
        (PointKind::Measure(_), Answer::Measure { .. }) => true,
        (PointKind::Leak { .. }, Answer::Leak(_)) => true,
        (PointKind::Hose, Answer::Hose(_)) => true,
        (PointKind::Structure, Answer::Structure(_)) => true,
        (PointKind::Function, Answer::Function(_)) => true,
        (PointKind::Look, Answer::Look(_)) => true,
        (PointKind::Crank(cases), Answer::Crank { cranked, .. }) => cases.len() == cranked.len(),
        _ => false,
    }
}

/// Weighs an answer at its point.
///
/// Anything but the best answer is amiss, down to a first wetness: it is then a finding, and the verdict's rules say what it
/// weighs. A remote fitting that took grease is well for the day, though nobody saw it at the joint. A misfit is
/// [`What::InQuestion`].
pub fn weigh(point: &Point, answer: &Answer) -> Weighed {
    match told(point, answer) {
        Told::Well => Weighed::Well,
        Told::Amiss(_) => Weighed::Amiss,
        Told::Unknown(what) => Weighed::Unknown(what),
    }
}

/// What exactly is amiss or unknown about an answer; none where it is well.
pub fn says(point: &Point, answer: &Answer) -> Option<What> {
    match told(point, answer) {
        Told::Well => None,
        Told::Amiss(what) | Told::Unknown(what) => Some(what),
    }
}

/// An answer weighed, with what exactly is wrong.
pub(super) enum Told {
    Well,
    Amiss(What),
    Unknown(What),
}

fn told(point: &Point, answer: &Answer) -> Told {
    if !fits_kind(point, answer) {
        return Told::Unknown(What::InQuestion);
    }
    match (&point.kind, answer) {
        (_, Answer::NotChecked(why)) => Told::Unknown(What::CouldNotCheck(why.because)),
        (
            PointKind::Level(mark),
            Answer::Level {
                reads,
                pose,
                oil,
                looks,
            },
        ) => level(mark, *reads, pose.as_ref(), *oil, *looks),
        (
            PointKind::Measure(limit),
            Answer::Measure {
                readings,
                by_method,
                condition_held,
            },
        ) => measure::told(limit, readings, *by_method, *condition_held),
        (PointKind::Crank(cases), Answer::Crank { cranked, bypassed }) => {
            crank(cases, cranked, *bypassed)
        }
        (_, Answer::Leak(Some(class))) => Told::Amiss(What::Leak(point.about, *class)),
        (_, answer) => plain(point, answer),
    }
}

/// Answers with one good value each.
fn plain(point: &Point, answer: &Answer) -> Told {
    let about = point.about;
    match *answer {
        Answer::Fitting {
            took: GreaseTook::Refused,
            ..
        } => Told::Amiss(What::Refused {
            left: None,
            allowed: None,
        }),
        Answer::PinClip(state) if state != ClipState::Present => Told::Amiss(What::PinClip(state)),
        Answer::Bolts { state, how_many } if state != BoltState::Tight => {
            Told::Amiss(What::Bolts(state, how_many))
        }
        Answer::Hose(state) if state != HoseState::Sound => Told::Amiss(What::Hose(state)),
        Answer::Structure(state) if state != StructureState::Sound => {
            Told::Amiss(What::Structure(state))
        }
        Answer::Function(state) if state != FunctionState::Works => {
            Told::Amiss(What::Function(about, state))
        }
        Answer::Look(state) if state != LookState::Well => Told::Amiss(What::Look(about, state)),
        _ => Told::Well,
    }
}

/// A level belongs to its mark's pose and oil temperature: read otherwise it says nothing, but where rods and tank show that
/// it holds in the mark's pose all the more. What the fluid looks like, it says in any pose.
fn level(
    mark: &LevelMark,
    reads: LevelReads,
    pose: Option<&ItemId>,
    oil: Option<OilHeat>,
    looks: FluidLooks,
) -> Told {
    if matches!(looks, FluidLooks::Milky | FluidLooks::Wrong) {
        return Told::Amiss(What::Fluid(looks));
    }
    if mark.pose.is_none() || pose != mark.pose.as_ref() {
        let higher = higher_there(mark, pose);
        let told = higher.map(|higher| corrected(mark, reads, higher));
        // What holds all the more in the mark's pose is weighed on as if it were read there, the oil's heat with it.
        if told != Some(Corrected::Compares) {
            return Told::Unknown(What::LevelPose {
                read_in: pose.cloned(),
                mark_is_for: mark.pose.clone(),
                higher_by: higher.map(millimetres),
            });
        }
    }
    if mark.oil != OilHeat::Any && oil != Some(mark.oil) {
        return Told::Unknown(What::LevelHeat);
    }
    match reads {
        LevelReads::AtMark => Told::Well,
        LevelReads::TooFull if !mark.upper => Told::Well,
        LevelReads::Below | LevelReads::Nothing | LevelReads::TooFull => {
            Told::Amiss(What::Level(reads))
        }
    }
}

/// Whether a level read in another pose still tells something about the mark.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Corrected {
    /// What it reads there holds in the mark's pose all the more.
    Compares,
    /// It cannot be told.
    Open,
}

/// A stick or glass is read to this, in metres. Common practice, no source.
const READ_TO: f64 = 0.005;
/// A shift below this is none, in metres.
const NO_SHIFT: f64 = 0.001;

/// How much higher the level stands in this pose than in the mark's, in metres, where that can be worked out.
fn higher_there(mark: &LevelMark, pose: Option<&ItemId>) -> Option<f64> {
    let shift = mark
        .elsewhere
        .iter()
        .find(|shift| Some(&shift.pose) == pose)?;
    Some(shift.higher)
}

/// What a reading in another pose says of the mark. Only what holds all the more in the mark's own pose is taken: below
/// the mark where the oil stands higher than it would there, at or over it where it stands lower. A level that might come
/// out either way stays unknown, whatever the sums say.
fn corrected(mark: &LevelMark, reads: LevelReads, higher: f64) -> Corrected {
    let same = higher.abs() < NO_SHIFT;
    let all_the_more = match reads {
        LevelReads::Below | LevelReads::Nothing => higher > READ_TO,
        LevelReads::TooFull => higher < -READ_TO,
        LevelReads::AtMark => higher < -READ_TO && !mark.upper,
    };
    if same || all_the_more {
        Corrected::Compares
    } else {
        Corrected::Open
    }
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a tank's level moves by less than a few metres"
)]
fn millimetres(metres: f64) -> i32 {
    (metres * 1000.0).clamp(-1e6, 1e6).round() as i32
}

/// The starting truth table: worst first; a combination not tried is unknown.
fn crank(cases: &[CrankCase], cranked: &[Option<bool>], bypassed: bool) -> Told {
    let tried = || cases.iter().zip(cranked);
    if bypassed {
        return Told::Amiss(What::SwitchBypassed);
    }
    if let Some((case, _)) =
        tried().find(|(case, cranked)| !case.may_crank && **cranked == Some(true))
    {
        return Told::Amiss(What::CrankedIn {
            with: case.with.clone(),
        });
    }
    if let Some((case, _)) =
        tried().find(|(case, cranked)| case.may_crank && **cranked == Some(false))
    {
        return Told::Amiss(What::DidNotCrankIn {
            with: case.with.clone(),
        });
    }
    if cranked.iter().any(Option::is_none) {
        Told::Unknown(What::CrankNotTried)
    } else {
        Told::Well
    }
}
