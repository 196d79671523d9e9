//! The shape from the book's pins, distances and rams.

use super::assembly::assembled;
use super::missing::{Missing, MissingCode, NotKnown, Told, missing};
use super::rams::{in_numbers, mass, stroke};
use crate::book::{Book, BoomRamOut, BucketRamOut, DipperRamOut, KnownBy, PinName, Ram};
use crate::code::Coded;
use reckon::arm::shape::{
    ArmShape, BucketShape, Joint, STANDARD_GRAVITY, ShapeTrouble, Triangle, Turns, Vector, Weight,
};

/// The arm's shape, weights and sizes where the book has them and not-a-number where not.
pub(super) fn shape_of(book: &Book, rams: &[Told<&Ram>; 3]) -> Told<ArmShape> {
    for joint in Joint::ALL {
        stroke(rams[joint.index()]?, joint.code())?;
    }
    let [boom_turns, dipper_turns, bucket_turns] = turns(book)?;
    let foot = pin(book, PinName::BoomFoot)?;
    let boom_length = axis(book, PinName::DipperPin)?;
    let dipper_length = axis(book, PinName::BucketPin)?;
    let tip_radius = axis(book, PinName::Tooth)?;
    let barrels = [
        pin(book, PinName::BoomRamBarrel)? - foot,
        pin(book, PinName::DipperRamBarrel)? - Vector::new(boom_length, 0.0),
    ];
    let rods = [
        pin(book, PinName::BoomRamRod)?,
        pin(book, PinName::DipperRamRod)?,
    ];
    let linkage_pins = [
        pin(book, PinName::BucketRamBarrel)?,
        pin(book, PinName::LeverPin)?,
        Vector::new(dipper_length, 0.0),
    ];
    let crank = pin(book, PinName::LinkPin)?;
    let rams = [rams[0]?, rams[1]?, rams[2]?].map(in_numbers);
    let with = |bars| assembled(linkage_pins, bars, crank, &rams[2], bucket_turns);
    // Measured bars may not fit a first guess of the pins: guessed ones do, to begin a survey from.
    let linkage = with([lever(book)?, link(book)?])
        .or_else(|why| guessed_bars(book).map_or(Err(why), with))?;
    let along = |of| match mass(book, of) {
        Some(found) => (
            found.is.si_f64(),
            found.at.first().map_or(f64::NAN, |number| number.metres),
        ),
        None => (f64::NAN, f64::NAN),
    };
    Ok(ArmShape {
        foot,
        boom_length,
        dipper_length,
        bucket: BucketShape {
            tip_radius,
            heel: pin(book, PinName::Heel).unwrap_or(NOWHERE),
            weight: weight(book, "bucket"),
            load: Weight::default(),
        },
        boom_triangle: Triangle::new(barrels[0], rods[0], boom_turns),
        dipper_triangle: Triangle::new(barrels[1], rods[1], dipper_turns),
        linkage,
        rams,
        boom_weight: weight(book, "boom"),
        dipper_weight: weight(book, "dipper"),
        lever_weight: along("lever"),
        link_weight: along("link"),
        gravity: STANDARD_GRAVITY,
    })
}

/// Everything the shape waits for.
pub(super) fn waits_for(book: &Book, rams: &[Told<&Ram>; 3]) -> Vec<Missing> {
    let mut all: Vec<Missing> = Vec::new();
    let mut note = |why: Option<NotKnown>| all.extend(why.as_ref().and_then(NotKnown::missing));
    for joint in Joint::ALL {
        match rams[joint.index()] {
            Ok(ram) => note(stroke(ram, joint.code()).err()),
            Err(why) => note(Some(why)),
        }
        note(turn(book, joint).err());
    }
    for name in PinName::ALL {
        match name {
            PinName::LinkagePin | PinName::Heel => {}
            PinName::DipperPin | PinName::BucketPin | PinName::Tooth => {
                note(axis(book, *name).err());
            }
            _ => note(pin(book, *name).err()),
        }
    }
    note(lever(book).err());
    note(link(book).err());
    all
}

/// Lever and link as a blank has them.
fn guessed_bars(book: &Book) -> Option<[f64; 2]> {
    let guess = |from, to| {
        let found = between(book, from, to, true).or_else(|| about(book, from, to));
        found.map(|(length, _)| length)
    };
    Some([
        guess(PinName::LeverPin, PinName::LinkagePin)?,
        guess(PinName::LinkagePin, PinName::LinkPin)?,
    ])
}

fn lever(book: &Book) -> Told<f64> {
    let code = MissingCode::LeverLength;
    bar(book, PinName::LeverPin, PinName::LinkagePin, code)
}

fn link(book: &Book) -> Told<f64> {
    let code = MissingCode::LinkLength;
    bar(book, PinName::LinkagePin, PinName::LinkPin, code)
}

/// A place that is not known.
const NOWHERE: Vector = Vector::new(f64::NAN, f64::NAN);

/// Which way a joint turns when its ram gets longer.
pub(super) fn turn(book: &Book, joint: Joint) -> Told<Turns> {
    let manner = book.arm.manner.as_ref();
    let inwards = match joint {
        Joint::Boom => manner
            .and_then(|manner| manner.boom_ram_out)
            .map(|out| out == BoomRamOut::Lowers),
        Joint::Dipper => manner
            .and_then(|manner| manner.dipper_ram_out)
            .map(|out| out == DipperRamOut::Crowds),
        Joint::Bucket => manner
            .and_then(|manner| manner.bucket_ram_out)
            .map(|out| out == BucketRamOut::Curls),
    };
    match inwards {
        Some(true) => Ok(Turns::Clockwise),
        Some(false) => Ok(Turns::CounterClockwise),
        None => missing(MissingCode::RamOut, joint.code()),
    }
}

/// Which way each joint turns when its ram gets longer.
fn turns(book: &Book) -> Told<[Turns; 3]> {
    Ok([
        turn(book, Joint::Boom)?,
        turn(book, Joint::Dipper)?,
        turn(book, Joint::Bucket)?,
    ])
}

/// The place of a pin in its link's frame.
fn pin(book: &Book, name: PinName) -> Told<Vector> {
    let found = book.arm.pins.iter().find(|pin| pin.id == name);
    found.map_or_else(
        || missing(MissingCode::PinPlace, name.code()),
        |pin| Ok(Vector::new(pin.at[0].metres, pin.at[1].metres)),
    )
}

/// How far a pin of an axis lies from its link's origin: as measured with the tape, else as its place says.
fn axis(book: &Book, name: PinName) -> Told<f64> {
    let placed = book
        .arm
        .pins
        .iter()
        .any(|pin| pin.id == name && pin.known != KnownBy::Guess);
    match measured_axis(book, name) {
        Some(length) if !placed => Ok(length),
        measured => pin(book, name)
            .map(|at| at.r)
            .or_else(|why| measured.ok_or(why)),
    }
}

/// The measured length of a link, for the pin at its end.
pub(super) fn measured_axis(book: &Book, name: PinName) -> Option<f64> {
    let from = match name {
        PinName::DipperPin => PinName::BoomFoot,
        PinName::BucketPin => PinName::DipperPin,
        PinName::Tooth => PinName::BucketPin,
        _ => return None,
    };
    distance(book, from, name)
        .filter(|(_, known)| *known != KnownBy::Guess)
        .map(|(length, _)| length)
}

fn bar(book: &Book, from: PinName, to: PinName, code: MissingCode) -> Told<f64> {
    distance(book, from, to).map_or_else(|| missing(code, ""), |(length, _)| Ok(length))
}

/// The distance between two pins, either way round: measured before guessed, several measured ones as their mean.
pub(super) fn distance(book: &Book, from: PinName, to: PinName) -> Option<(f64, KnownBy)> {
    between(book, from, to, false)
        .or_else(|| between(book, from, to, true))
        .or_else(|| about(book, from, to))
}

/// Lever or link as the arm's own table has it: a first guess where a pin is one, else taken as it stands.
fn about(book: &Book, from: PinName, to: PinName) -> Option<(f64, KnownBy)> {
    let manner = book.arm.manner.as_ref()?;
    let length = match (from, to) {
        (PinName::LeverPin, PinName::LinkagePin) => manner.lever.as_ref()?,
        (PinName::LinkagePin, PinName::LinkPin) => manner.link.as_ref()?,
        _ => return None,
    };
    let guessed = book.arm.pins.iter().any(|pin| pin.known == KnownBy::Guess);
    let known = if guessed {
        KnownBy::Guess
    } else {
        KnownBy::Drawing
    };
    Some((length.si_f64(), known))
}

fn between(book: &Book, from: PinName, to: PinName, guess: bool) -> Option<(f64, KnownBy)> {
    let (from, to) = (from.code(), to.code());
    let lengths: Vec<(f64, KnownBy)> = book
        .distances
        .iter()
        .filter(|one| (one.from == from && one.to == to) || (one.from == to && one.to == from))
        .filter(|one| (one.known == KnownBy::Guess) == guess)
        .map(|one| (one.is.si_f64(), one.known))
        .collect();
    let (_, known) = *lengths.first()?;
    let sum: f64 = lengths.iter().map(|(length, _)| length).sum();
    #[expect(
        clippy::cast_precision_loss,
        reason = "a book has at most 1000 of them"
    )]
    let count = lengths.len() as f64;
    Some((sum / count, known))
}

fn weight(book: &Book, of: &str) -> Weight {
    let Some(found) = mass(book, of) else {
        return Weight {
            mass: f64::NAN,
            centre: NOWHERE,
        };
    };
    let centre = match found.at[..] {
        [r, z] => Vector::new(r.metres, z.metres),
        _ => NOWHERE,
    };
    Weight {
        mass: found.is.si_f64(),
        centre,
    }
}

/// Where what lies in the bucket has its centre, in the bucket's frame.
pub(super) fn load_centre(book: &Book) -> Told<Vector> {
    match mass(book, "load").map(|load| &load.at[..]) {
        Some([r, z]) => Ok(Vector::new(r.metres, z.metres)),
        _ => missing(MissingCode::MassPlace, "load"),
    }
}

/// What is wrong with the shape over the strokes, whatever its weights, sizes and pressures.
pub(super) fn troubles(shape: &ArmShape) -> Vec<ShapeTrouble> {
    let mut bare = shape.clone();
    for ram in &mut bare.rams {
        (ram.bore, ram.rod) = (1.0, 0.5);
        (ram.supply, ram.relief_cap, ram.relief_rod) = (0.0, 0.0, 0.0);
        (ram.barrel, ram.rod_weight) = ((0.0, 0.0), (0.0, 0.0));
    }
    bare.boom_weight = Weight::default();
    bare.dipper_weight = Weight::default();
    bare.bucket.weight = Weight::default();
    (bare.lever_weight, bare.link_weight) = ((0.0, 0.0), (0.0, 0.0));
    bare.troubles()
}

/// The longest lever of each ram over its stroke, in metres; not-a-number where it closes nowhere.
pub(super) fn longest_levers(shape: &ArmShape) -> [f64; 3] {
    Joint::ALL.map(|joint| {
        let ram = shape.ram(joint);
        let lever = |step: u8| {
            let length = ram.closed + ram.stroke * f64::from(step) / 64.0;
            let grip = match joint {
                Joint::Boom => shape.boom_triangle.at_length(joint, length).ok()?,
                Joint::Dipper => shape.dipper_triangle.at_length(joint, length).ok()?,
                Joint::Bucket => shape.linkage.at_length(length).ok()?.grip,
            };
            Some(grip.lever.abs())
        };
        (0..=64).filter_map(lever).fold(f64::NAN, f64::max)
    })
}

/// Why a shape that does not close anywhere is none.
pub(super) fn open_linkage() -> NotKnown {
    NotKnown::Shape(ShapeTrouble::LinkageOpen {
        length: None,
        angle: None,
    })
}
