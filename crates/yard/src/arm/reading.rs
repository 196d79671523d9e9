//! From a book to the arm in numbers: the parts in order, and what is missing noted on the way.

use super::missing::{Missing, MissingCode, NotKnown, Told, missing};
use super::of_book::{ArmOfBook, Guesses, LiftingRecorded, PinOfArm, Section};
use super::{plant, rams, shape, standing};
use crate::book::{Book, KnownBy, PinName, StanceName, Without};
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
    let shape = shape::shape_of(book, &of_joints);
    let numbers = of_joints
        .each_ref()
        .map(|ram| ram.as_ref().ok().copied().map(|ram| rams::in_numbers(ram)));
    let part = |joint: Joint, told: fn(&crate::book::Ram, &'static str) -> Told<()>| {
        let ram = of_joints[joint.index()]?;
        told(ram, joint.code())
    };
    let stances = standing::stances(book);
    let mut arm = ArmOfBook {
        pins: pins_of(book),
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
        guesses: guesses(book),
    };
    arm.missing = all_missing(&arm);
    arm.missing.extend(shape::waits_for(book, &of_joints));
    let weights = rams::weights_missing(book, &of_joints);
    arm.missing
        .extend(weights.iter().filter_map(NotKnown::missing));
    arm.missing.sort();
    arm.missing.dedup();
    arm
}

fn without_an_arm() -> ArmOfBook {
    let why = NotKnown::Missing(Missing::of(MissingCode::NoArm, ""));
    ArmOfBook {
        shape: Err(why),
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
        guesses: Guesses::default(),
    }
}

fn pins_of(book: &Book) -> Vec<PinOfArm> {
    let pins = book.arm.pins.iter();
    pins.map(|pin| {
        let [first, second] = pin.at;
        let halves = first.plus_minus.zip(second.plus_minus);
        PinOfArm {
            id: pin.id,
            on: pin.on,
            at: Vector::new(first.metres, second.metres),
            plus_minus: halves.map(|(r, z)| Vector::new(r, z)),
            known: pin.known,
        }
    })
    .collect()
}

/// Which numbers are a blank's. A pin that only its distance from the pin before it counts of, and that was measured, is
/// none; neither is the heel, which no force rests on.
fn guesses(book: &Book) -> Guesses {
    let guessed = |known: KnownBy| known == KnownBy::Guess;
    let measured = |pin: PinName| shape::measured_axis(book, pin).is_some();
    let pins = book
        .arm
        .pins
        .iter()
        .any(|pin| guessed(pin.known) && pin.id != PinName::Heel && !measured(pin.id));
    let bars = [
        (PinName::LeverPin, PinName::LinkagePin),
        (PinName::LinkagePin, PinName::LinkPin),
    ];
    let bars = bars
        .iter()
        .any(|(from, to)| shape::distance(book, *from, *to).is_some_and(|found| guessed(found.1)));
    let mass = |of: &[&str]| {
        book.masses
            .iter()
            .any(|mass| guessed(mass.known) && of.contains(&mass.of.as_str()))
    };
    Guesses {
        shape: pins || bars,
        weights: mass(&["post", "boom", "dipper", "bucket", "lever", "link"]),
        machine: mass(&["machine"]),
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
fn all_missing(arm: &ArmOfBook) -> Vec<Missing> {
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
