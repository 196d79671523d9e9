//! The rams of boom, dipper and bucket as the book has them: which they are, their numbers, and what is missing.

use super::missing::{Missing, MissingCode, NotKnown, Told, missing};
use super::reading::number;
use crate::book::{Book, KnownBy, Mass, Moves, Ram};
use quantity::Quantity;
use reckon::arm::rest::RamColumn;
use reckon::arm::shape::{self, Joint, RamSizes, RamWeights, about_weights};

/// Young's modulus of steel, in pascals. Source: textbook value.
const STEEL: f64 = 206e9;

/// The ram of each joint.
pub(super) fn of_joints(book: &Book) -> [Told<&Ram>; 3] {
    Joint::ALL.map(|joint| {
        let moves = match joint {
            Joint::Boom => Moves::Boom,
            Joint::Dipper => Moves::Dipper,
            Joint::Bucket => Moves::Bucket,
        };
        let found = book.rams.iter().find(|ram| ram.work.moves == Some(moves));
        found.map_or_else(|| missing(MissingCode::RamOf, joint.code()), Ok)
    })
}

/// Closed length and stroke, in metres.
pub(super) fn stroke(ram: &Ram, subject: &'static str) -> Told<(f64, f64)> {
    let closed = number(ram.closed.as_ref(), MissingCode::RamClosed, subject)?;
    match (&ram.closed, &ram.open) {
        (Some(from), Some(to)) => Ok((closed, (to.si() - from.si()).to_f64())),
        _ => missing(MissingCode::RamOpen, subject),
    }
}

/// The ram in numbers; what the book does not say is not-a-number, but weights are then worked out from the sizes.
pub(super) fn in_numbers(ram: &Ram) -> shape::Ram {
    let (closed, stroke) = stroke(ram, "").unwrap_or((of(&ram.closed), f64::NAN));
    let work = &ram.work;
    let about = about(ram);
    let or = |written: &Option<Quantity>, about: Option<f64>| {
        written
            .as_ref()
            .map_or(about.unwrap_or(f64::NAN), Quantity::si_f64)
    };
    shape::Ram {
        count: u8::try_from(ram.count).unwrap_or(u8::MAX),
        bore: of(&ram.bore),
        rod: of(&ram.rod),
        closed,
        stroke,
        supply: of(&work.supply),
        relief_cap: of(&work.relief_piston),
        relief_rod: of(&work.relief_rod),
        // Nothing the book could say: the side that lets oil go is taken as open to the tank.
        back: 0.0,
        barrel: (
            or(&work.barrel_mass, about.map(|about| about.barrel.0)),
            or(&work.barrel_centre, about.map(|about| about.barrel.1)),
        ),
        rod_weight: (
            or(&work.rod_mass, about.map(|about| about.rod.0)),
            or(&work.rod_centre, about.map(|about| about.rod.1)),
        ),
    }
}

fn of(quantity: &Option<Quantity>) -> f64 {
    quantity.as_ref().map_or(f64::NAN, Quantity::si_f64)
}

/// About what it weighs, by its sizes: hardly anybody can weigh a ram.
fn about(ram: &Ram) -> Option<RamWeights> {
    about_weights(&RamSizes {
        bore: of(&ram.bore),
        rod: of(&ram.rod),
        closed: of(&ram.closed),
        tube: ram.work.tube.as_ref().map(Quantity::si_f64),
        gland: ram.work.gland.as_ref().map(Quantity::si_f64),
    })
}

/// The weights of the rams that the book does not have and that stand in worked out from their sizes.
pub(super) fn estimated(of_joints: &[Told<&Ram>; 3]) -> Vec<Missing> {
    let mut all = Vec::new();
    for joint in Joint::ALL {
        let Ok(ram) = of_joints[joint.index()] else {
            continue;
        };
        if about(ram).is_some() {
            all.extend(unwritten(ram).map(|code| Missing::of(code, joint.code())));
        }
    }
    all
}

/// The weights and centres that are not written.
fn unwritten(ram: &Ram) -> impl Iterator<Item = MissingCode> {
    let work = &ram.work;
    let each = [
        (work.barrel_mass.is_none(), MissingCode::BarrelMass),
        (work.barrel_centre.is_none(), MissingCode::BarrelCentre),
        (work.rod_mass.is_none(), MissingCode::RodMass),
        (work.rod_centre.is_none(), MissingCode::RodCentre),
    ];
    each.into_iter()
        .filter_map(|(not_there, code)| not_there.then_some(code))
}

pub(super) fn sizes(ram: &Ram, subject: &'static str) -> Told<()> {
    number(ram.bore.as_ref(), MissingCode::RamBore, subject)?;
    number(ram.rod.as_ref(), MissingCode::RamRod, subject)?;
    Ok(())
}

pub(super) fn supply(ram: &Ram, subject: &'static str) -> Told<()> {
    number(ram.work.supply.as_ref(), MissingCode::Supply, subject)?;
    Ok(())
}

pub(super) fn reliefs(ram: &Ram, subject: &'static str) -> Told<()> {
    let work = &ram.work;
    number(
        work.relief_piston.as_ref(),
        MissingCode::ReliefPiston,
        subject,
    )?;
    number(work.relief_rod.as_ref(), MissingCode::ReliefRod, subject)?;
    Ok(())
}

/// The ram as a column.
pub(super) fn column(
    ram: &Ram,
    numbers: Option<shape::Ram>,
    subject: &'static str,
) -> Told<RamColumn> {
    sizes(ram, subject)?;
    let gland = number(ram.work.gland.as_ref(), MissingCode::Gland, subject)?;
    let tube = number(ram.work.tube.as_ref(), MissingCode::Tube, subject)?;
    let numbers = numbers.ok_or(NotKnown::NoPose)?;
    Ok(RamColumn::of(&numbers, tube, gland, STEEL))
}

/// The mass of this part; a guessed one gives way to one that is none.
pub(super) fn mass<'a>(book: &'a Book, of: &str) -> Option<&'a Mass> {
    let of_it = || book.masses.iter().filter(|mass| mass.of == of);
    let known = of_it().find(|mass| mass.known != KnownBy::Guess);
    known.or_else(|| of_it().next())
}

/// Mass and place of a part, with as many numbers as its frame has.
pub(super) fn placed_mass<const N: usize>(book: &Book, of: &'static str) -> Told<(f64, [f64; N])> {
    let Some(found) = mass(book, of) else {
        return missing(MissingCode::MassOf, of);
    };
    let at: Vec<f64> = found.at.iter().map(|number| number.metres).collect();
    match <[f64; N]>::try_from(at) {
        Ok(at) => Ok((found.is.si_f64(), at)),
        Err(_) => missing(MissingCode::MassPlace, of),
    }
}

/// Whether every weight of the arm is there: links, linkage and rams.
pub(super) fn weights_known(book: &Book, of_joints: &[Told<&Ram>; 3]) -> Told<()> {
    match weights_missing(book, of_joints).first() {
        Some(why) => Err(*why),
        None => Ok(()),
    }
}

/// Every weight of the arm that is not there.
pub(super) fn weights_missing(book: &Book, of_joints: &[Told<&Ram>; 3]) -> Vec<NotKnown> {
    let mut all = Vec::new();
    for link in ["boom", "dipper", "bucket"] {
        all.extend(placed_mass::<2>(book, link).err());
    }
    for bar in ["lever", "link"] {
        all.extend(placed_mass::<1>(book, bar).err());
    }
    for joint in Joint::ALL {
        let ram = match of_joints[joint.index()] {
            Ok(ram) => ram,
            Err(why) => {
                all.push(why);
                continue;
            }
        };
        // From the sizes they can be worked out; without those it is the sizes that are missing.
        if unwritten(ram).next().is_some() && about(ram).is_none() {
            let sizes = sizes(ram, joint.code());
            let first = Missing::of(MissingCode::BarrelMass, joint.code());
            all.push(sizes.err().unwrap_or(NotKnown::Unsound(first)));
        }
    }
    all
}
