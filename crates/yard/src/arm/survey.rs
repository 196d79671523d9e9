//! The tape survey of a book: distances, readings and first guesses fitted together, and what came of it.

use super::assembly::assembled;
use super::shape::turn;
use super::surveyed::{MeasuredOne, MeasuredWhat, NextMeasure, SurveyFinding, SurveyOfArm};
use crate::book::{Book, Distance, KnownBy, PinName, PoseReading};
use crate::code::Coded;
use quantity::Quantity;
use reckon::arm::shape::{ArmShape, Joint, Turns, Vector};
use reckon::arm::survey::{
    Assembly, Closing, Doubt, Fault, Further, Geometry, Part, Pin, RamEnds, Reading, Solved,
    Survey, Taped, Which, Z95, solve,
};

/// Standard uncertainty of a distance written without ±, in metres: a tape from pin to pin is good to 3 mm in 19 of 20
/// cases. Common practice, no source.
const TAPE: f64 = 0.0015;
/// Standard uncertainty of tooth height and reach written without ±, in metres: 1 cm in 19 of 20 cases. Common practice,
/// no source.
const TOOTH: f64 = 0.005;
/// Standard uncertainty of a distance read off a drawing, in metres.
const DRAWN: f64 = 0.0005;

/// What was taken from the book, with the lines it stands on.
struct Taken<'b> {
    distances: Vec<(&'b Distance, Pin, Pin)>,
    readings: Vec<&'b PoseReading>,
}

/// The survey, and the shape with its pins. Nothing where there is nothing to fit: every pin is known otherwise and no
/// tape was held.
///
/// `nominal`: the shape to begin from.
pub(super) fn of(book: &Book, nominal: &ArmShape) -> Option<(SurveyOfArm, ArmShape)> {
    let guessed = book.arm.pins.iter().any(|pin| pin.known == KnownBy::Guess);
    let taped = |distance: &&Distance| distance.known != KnownBy::Guess;
    let by_tape = |distance: &Distance| distance.known == KnownBy::Measured;
    let wanted = guessed || book.distances.iter().any(by_tape) || !book.arm.readings.is_empty();
    if !wanted {
        return None;
    }
    let ends = |distance: &'_ Distance| {
        Some((
            Pin::from_code(&distance.from)?,
            Pin::from_code(&distance.to)?,
        ))
    };
    let taken = Taken {
        distances: book
            .distances
            .iter()
            .filter(taped)
            .filter_map(|one| ends(one).map(|(from, to)| (one, from, to)))
            .collect(),
        readings: book.arm.readings.iter().collect(),
    };
    let mut survey = asked(&taken, nominal);
    let mut solved = match solve(&survey) {
        Ok(solved) => solved,
        Err(_) => return None,
    };
    // The solved pins may show that the linkage is the other mirror image of what the first guess let suppose.
    let turns = turn(book, Joint::Bucket).ok()?;
    let again = assembly_of(&solved.geometry, nominal, turns);
    if let Some(again) = again.filter(|again| *again != survey.assembly) {
        survey.assembly = again;
        solved = solve(&survey).unwrap_or(solved);
    }
    let mut shape = solved.geometry.into_shape(solved.assembly, nominal.clone());
    if !nominal.bucket.heel.is_finite() && solved.lacking.pins.contains(&Pin::Heel) {
        shape.bucket.heel = nominal.bucket.heel;
    }
    Some((told(&taken, &survey, solved), shape))
}

fn assembly_of(geometry: &Geometry, nominal: &ArmShape, turns: Turns) -> Option<Assembly> {
    let pins = [
        geometry.bucket_barrel,
        geometry.lever_pin,
        Vector::new(geometry.dipper_length, 0.0),
    ];
    let bars = [geometry.lever, geometry.link];
    let bar = assembled(pins, bars, geometry.link_pin, &nominal.rams[2], turns).ok()?;
    Some(Assembly {
        linkage: bar.sides().map(|side| side > 0.0),
        ..Assembly::of(nominal)
    })
}

/// The survey as it is asked.
fn asked(taken: &Taken<'_>, nominal: &ArmShape) -> Survey {
    let mut geometry = Geometry::of(nominal);
    if !geometry.heel.is_finite() {
        // Somewhere behind the pin, under it: only where to begin from.
        geometry.heel = Vector::new(0.35, 0.45) * nominal.bucket.tip_radius;
    }
    Survey {
        nominal: geometry,
        assembly: Assembly::of(nominal),
        rams: nominal.rams.each_ref().map(|ram| {
            Some(RamEnds {
                closed: ram.closed,
                open: ram.extended(),
            })
        }),
        distances: taken
            .distances
            .iter()
            .map(|(one, from, to)| Taped {
                from: *from,
                to: *to,
                metres: one.is.si_f64(),
                sd: sd_of(&one.is, usual(one)),
            })
            .collect(),
        readings: taken.readings.iter().map(|one| reading(one)).collect(),
        next_sd: TAPE,
    }
}

fn usual(distance: &Distance) -> f64 {
    if distance.known == KnownBy::Drawing {
        DRAWN
    } else {
        TAPE
    }
}

fn reading(one: &PoseReading) -> Reading {
    let rams = [&one.boom_ram, &one.dipper_ram, &one.bucket_ram];
    let widest = |all: &[&Quantity], usual: f64| {
        let sds = all.iter().map(|length| sd_of(length, usual));
        sds.fold(0.0, f64::max)
    };
    let tooth: Vec<&Quantity> = one.tooth_height.iter().chain(&one.reach).collect();
    Reading {
        rams: rams.map(Quantity::si_f64),
        rams_sd: widest(&rams, TAPE),
        tooth_height: one.tooth_height.as_ref().map(Quantity::si_f64),
        reach: one.reach.as_ref().map(Quantity::si_f64),
        tooth_sd: widest(&tooth, TOOTH),
    }
}

/// The standard uncertainty of a length: a written ± is half of an interval that holds in 19 of 20 cases.
fn sd_of(length: &Quantity, usual: f64) -> f64 {
    let written = length.plus_minus_si().map(|half| half.to_f64() / Z95);
    written.filter(|sd| *sd > 0.0).unwrap_or(usual).max(1e-5)
}

fn told(taken: &Taken<'_>, survey: &Survey, solved: Solved) -> SurveyOfArm {
    let advice = solved.advice(survey);
    let settle = solved.lacking.unlock.iter();
    let surer = advice.iter().map(|advice| &advice.further);
    SurveyOfArm {
        findings: findings(taken, &solved),
        next: settle.chain(surer).map(|one| taken.next(one)).collect(),
        open: open(&solved),
        complete: solved.complete(),
        checks: solved.overall.redundancy,
        chance: solved.overall.chance,
        widened: solved.overall.widened,
        lever: bar(&solved, 0),
        link: bar(&solved, 1),
        tooth: advice
            .first()
            .map(|best| (Z95 * best.tooth_sd, Z95 * best.tooth_sd_then)),
        solved: Box::new(solved),
    }
}

fn findings(taken: &Taken<'_>, solved: &Solved) -> Vec<SurveyFinding> {
    let faults = solved.faults.iter().map(|fault| taken.fault(fault));
    let impossible = solved.impossible.iter();
    let impossible = impossible.map(|triangle| SurveyFinding::Impossible {
        pins: triangle.pins.map(Pin::code),
        excess: triangle.excess,
    });
    let doubts = solved.doubts.iter().map(|doubt| taken.doubt(doubt));
    let sides = solved.either_side.iter();
    let sides = sides.map(|side| SurveyFinding::EitherSide {
        pins: side.pins.iter().map(|pin| pin.code()).collect(),
        further: side.further.as_ref().map(|one| taken.next(one)),
    });
    let closing = Joint::ALL.into_iter().zip(solved.closing);
    let closing = closing.filter_map(|(joint, closing)| match closing {
        Closing::Part(part) => Some(SurveyFinding::DoesNotClose(joint, part.trouble)),
        Closing::Whole | Closing::NotKnown => None,
    });
    faults
        .chain(impossible)
        .chain(doubts)
        .chain(sides)
        .chain(closing)
        .collect()
}

fn open(solved: &Solved) -> Vec<PinName> {
    let codes = solved.lacking.pins.iter().map(|pin| pin.code());
    codes.filter_map(PinName::from_code).collect()
}

/// Lever or link, with half its interval where it is settled.
fn bar(solved: &Solved, index: usize) -> (f64, Option<f64>) {
    let lengths = [solved.geometry.lever, solved.geometry.link];
    let fix = solved.pin(Pin::LinkagePin);
    let half = fix.filter(|fix| fix.determined).map(|fix| {
        let half = fix.half_width();
        [half.r, half.z][index]
    });
    (lengths[index], half)
}

impl Taken<'_> {
    fn one(&self, which: Which) -> MeasuredOne {
        match which {
            Which::Distance(at) => {
                let (one, from, to) = self.distances[at];
                MeasuredOne {
                    line: one.line,
                    what: MeasuredWhat::Distance(from.code(), to.code()),
                }
            }
            Which::Reading(at, part) => MeasuredOne {
                line: self.readings[at].line,
                what: match part {
                    Part::Ram(joint) => MeasuredWhat::Ram(joint),
                    Part::ToothHeight => MeasuredWhat::ToothHeight,
                    Part::Reach => MeasuredWhat::Reach,
                },
            },
        }
    }

    fn next(&self, further: &Further) -> NextMeasure {
        match further {
            Further::Distance { from, to } => NextMeasure::Distance(from.code(), to.code()),
            Further::Again(which) => NextMeasure::Again(self.one(*which)),
            Further::Pose { rams } => NextMeasure::Pose(*rams),
        }
    }

    fn doubt(&self, doubt: &Doubt) -> SurveyFinding {
        match doubt {
            Doubt::Misfit {
                which,
                error,
                should_be,
                should_be_sd,
                likelihood,
                ..
            } => SurveyFinding::Misfit {
                one: self.one(*which),
                error: *error,
                should_be: *should_be,
                plus_minus: Z95 * should_be_sd,
                likelihood: *likelihood,
            },
            Doubt::Suspects { which, further, .. } => SurveyFinding::Suspects {
                all: which.iter().map(|which| self.one(*which)).collect(),
                further: further.as_ref().map(|one| self.next(one)),
            },
        }
    }

    fn fault(&self, fault: &Fault) -> SurveyFinding {
        match fault {
            Fault::NotRigid { distance } => {
                SurveyFinding::NotRigid(self.one(Which::Distance(*distance)))
            }
            Fault::NotALength(which) | Fault::NotAnUncertainty(which) => {
                SurveyFinding::NotALength(self.one(*which))
            }
            Fault::NeverCloses { reading, joint } => {
                SurveyFinding::NeverCloses(self.one(Which::Reading(*reading, Part::Ram(*joint))))
            }
            Fault::NominalNotALength | Fault::NotAStroke(_) => SurveyFinding::NothingFitted,
        }
    }
}
