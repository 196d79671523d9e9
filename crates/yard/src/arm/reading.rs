//! From a book to the arm in numbers: the parts in order, and what is missing noted on the way.

use super::missing::{Missing, MissingCode, NotKnown, Told, missing};
use super::of_book::{ArmOfBook, Guesses, LiftingRecorded, Section};
use super::surveyed::SurveyOfArm;
use super::{pins, plant, rams, shape, standing, survey};
use crate::book::{Book, Ram, StanceName, Without};
use quantity::Quantity;
use reckon::arm::shape::{ArmShape, Joint, Vector};
use reckon::arm::swing::BoomBox;

/// The arm that a book describes. Never fails: what the book does not say stands as what is missing, at the figures that
/// rest on it and in [`ArmOfBook::missing`].
pub fn arm_of(book: &Book) -> ArmOfBook {
    if book.lacks(Without::Rams) {
        return without_an_arm();
    }
    let of_joints = rams::of_joints(book);
    let (survey, shape) = surveyed(book, &of_joints);
    let numbers = of_joints
        .each_ref()
        .map(|ram| ram.as_ref().ok().copied().map(rams::in_numbers));
    let part = |joint: Joint, told: fn(&crate::book::Ram, &'static str) -> Told<()>| {
        let ram = of_joints[joint.index()]?;
        told(ram, joint.code())
    };
    let stances = standing::stances(book);
    let estimated = rams::estimated(&of_joints);
    let guesses = pins::guesses(book, survey.as_ref());
    let mut arm = ArmOfBook {
        pins: pins::pins_of(book, shape.as_ref().ok(), survey.as_ref()),
        ram_ids: of_joints
            .each_ref()
            .map(|ram| ram.as_ref().ok().map(|ram| ram.id.to_string())),
        troubles: shape.as_ref().map(shape::troubles).unwrap_or_default(),
        longest_levers: shape.as_ref().map_or([f64::NAN; 3], shape::longest_levers),
        shape,
        weights: rams::weights_known(book, &of_joints),
        load_centre: shape::load_centre(book),
        sizes: Joint::ALL.map(|joint| part(joint, rams::sizes)),
        supplies: Joint::ALL.map(|joint| part(joint, rams::supply)),
        reliefs: Joint::ALL.map(|joint| part(joint, rams::reliefs)),
        digs_from: standing::digs_from(&stances),
        stances,
        axis: standing::axis(book),
        heading: standing::heading(book),
        swing: plant::swing(book),
        tank: plant::tank(book),
        lifting: lifting(book),
        columns: Joint::ALL.map(|joint| {
            rams::column(
                of_joints[joint.index()]?,
                numbers[joint.index()],
                joint.code(),
            )
        }),
        sections: sections(book),
        bucket_width: book
            .arm
            .manner
            .as_ref()
            .and_then(|manner| manner.bucket_width.as_ref().map(Quantity::si_f64)),
        missing: Vec::new(),
        guesses,
        estimated,
        survey,
    };
    arm.missing = all_missing(book, &of_joints, &arm);
    arm
}

/// The survey, where there is one, and the shape it gives; else the shape as the book has it.
fn surveyed(book: &Book, rams: &[Told<&Ram>; 3]) -> (Option<SurveyOfArm>, Told<ArmShape>) {
    let nominal = shape::shape_of(book, rams);
    let found = nominal
        .as_ref()
        .ok()
        .and_then(|nominal| survey::of(book, nominal));
    match found {
        Some((survey, shape)) => (Some(survey), Ok(shape)),
        None => (None, nominal),
    }
}

fn without_an_arm() -> ArmOfBook {
    let why = NotKnown::Missing(Missing::of(MissingCode::NoArm, ""));
    ArmOfBook {
        shape: Err(why),
        survey: None,
        pins: Vec::new(),
        ram_ids: [None, None, None],
        troubles: Vec::new(),
        longest_levers: [f64::NAN; 3],
        weights: Err(why),
        load_centre: Err(why),
        sizes: [Err(why); 3],
        supplies: [Err(why); 3],
        reliefs: [Err(why); 3],
        stances: Vec::new(),
        digs_from: None,
        axis: Err(why),
        heading: Err(why),
        swing: Err(why),
        tank: Err(why),
        lifting: Err(why),
        columns: [Err(why); 3],
        sections: Vec::new(),
        bucket_width: None,
        missing: vec![Missing::of(MissingCode::NoArm, "")],
        estimated: Vec::new(),
        guesses: Guesses::default(),
    }
}

fn lifting(book: &Book) -> Told<LiftingRecorded> {
    let none = |code| NotKnown::NotALiftingMachine(Missing::of(code, ""));
    let lifting = book.arm.lifting.as_ref();
    let text = |text: Option<&String>, code| text.cloned().ok_or(none(code));
    Ok(LiftingRecorded {
        point: text(
            lifting.and_then(|l| l.point.as_ref()),
            MissingCode::LiftingPoint,
        )?,
        load_holding: text(
            lifting.and_then(|l| l.load_holding.as_ref()),
            MissingCode::LoadHolding,
        )?,
        authority: text(
            lifting.and_then(|l| l.authority.as_ref()),
            MissingCode::LiftingAuthority,
        )?,
    })
}

/// The sections whose sizes are all there and leave a hollow.
fn sections(book: &Book) -> Vec<Section> {
    let whole = book.arm.boom_sections.iter().filter_map(|section| {
        let size = |size: &Option<Quantity>| size.as_ref().map(Quantity::si_f64);
        let found = BoomBox {
            place: Vector::new(section.at[0].metres, section.at[1].metres),
            height: size(&section.height)?,
            width: size(&section.width)?,
            flange: size(&section.flange)?,
            web: size(&section.web)?,
        };
        let hollow = found.height > 2.0 * found.flange && found.width > 2.0 * found.web;
        hollow.then_some(Section {
            section: found,
            line: section.line,
        })
    });
    whole.collect()
}

/// Everything that stands in the way of a figure, each once, what unlocks most first.
fn all_missing(book: &Book, rams: &[Told<&Ram>; 3], arm: &ArmOfBook) -> Vec<Missing> {
    fn note<T>(all: &mut Vec<Missing>, told: &Told<T>) {
        all.extend(told.as_ref().err().and_then(NotKnown::missing));
    }
    let mut all = Vec::new();
    note(&mut all, &arm.shape);
    for joint in 0..3 {
        note(&mut all, &arm.sizes[joint]);
        note(&mut all, &arm.supplies[joint]);
        note(&mut all, &arm.reliefs[joint]);
        note(&mut all, &arm.columns[joint]);
    }
    if arm.stances.is_empty() {
        all.push(Missing::of(MissingCode::SupportAny, ""));
    }
    for stance in &arm.stances {
        note(&mut all, &stance.stance);
        note(&mut all, &stance.friction);
        if matches!(stance.name, StanceName::Feet | StanceName::LoaderAndFeet) {
            note(&mut all, &stance.pad_area);
        }
    }
    note(&mut all, &arm.swing);
    if let Ok(swing) = &arm.swing {
        note(&mut all, &swing.limit);
        note(&mut all, &swing.supply);
        note(&mut all, &swing.relief);
        note(&mut all, &swing.flow);
    }
    note(&mut all, &arm.tank);
    if let Ok(tank) = &arm.tank {
        note(&mut all, &tank.tank);
    }
    all.extend(shape::waits_for(book, rams));
    let weights = super::rams::weights_missing(book, rams);
    all.extend(weights.iter().filter_map(NotKnown::missing));
    all.sort();
    all.dedup();
    all
}

/// The number of a quantity, or what is missing.
pub(super) fn number(
    quantity: Option<&Quantity>,
    code: MissingCode,
    subject: &'static str,
) -> Told<f64> {
    quantity.map_or_else(|| missing(code, subject), |found| Ok(found.si_f64()))
}

/// The shape, or why there is none.
pub(super) fn shape(arm: &ArmOfBook) -> Told<&ArmShape> {
    arm.shape.as_ref().map_err(|why| *why)
}
