//! The swing and the oil tank.

use super::missing::{MissingCode, NotKnown, Told, missing};
use super::of_book::{OtherRam, SwingOfArm, SwingOil, TankOfArm};
use super::rams::{in_numbers, sizes, stroke};
use super::reading::number;
use crate::book::{Book, Coordinate, Moves, OilTank, Ram, SwingKind};
use quantity::{Quantity, Unit};
use reckon::arm::rest::Tank;
use reckon::arm::shape::Vector;
use reckon::arm::swing::SwingRams;

/// Expansion of mineral oil by volume, 1/K. Source: Rabie, Fluid Power Engineering (2009), section 2.2.4.
const EXPANSION: f64 = 7e-4;

/// The swing by two rams.
pub(super) fn swing(book: &Book) -> Told<SwingOfArm> {
    let Some(gear) = &book.arm.swing else {
        return missing(MissingCode::SwingHow, "");
    };
    if gear.kind == SwingKind::Slew {
        return Err(NotKnown::SlewRing);
    }
    let ram = book
        .rams
        .iter()
        .find(|ram| ram.work.moves == Some(Moves::Swing));
    let Some(ram) = ram else {
        return missing(MissingCode::RamOf, "swing");
    };
    sizes(ram, "swing")?;
    let pin = |pin: Option<[Coordinate; 2]>, code| {
        pin.map_or_else(
            || missing(code, ""),
            |[first, second]| Ok(Vector::new(first.metres, second.metres)),
        )
    };
    let numbers = in_numbers(ram);
    Ok(SwingOfArm {
        rams: SwingRams {
            frame_pin: pin(gear.frame_pin, MissingCode::SwingFramePin)?,
            post_pin: pin(gear.post_pin, MissingCode::SwingPostPin)?,
            bore: numbers.bore,
            rod: numbers.rod,
        },
        limit: number(gear.limit.as_ref(), MissingCode::SwingLimit, ""),
        supply: number(ram.work.supply.as_ref(), MissingCode::Supply, "swing"),
        relief: number(
            gear.crossover_relief.as_ref(),
            MissingCode::CrossoverRelief,
            "",
        ),
        flow: number(gear.flow.as_ref(), MissingCode::SwingFlow, ""),
    })
}

/// The tank, and every ram but those of the arm's three joints that moves its level.
pub(super) fn tank(book: &Book) -> Told<TankOfArm> {
    let Some(tank) = &book.arm.oil_tank else {
        return missing(MissingCode::TankPlan, "");
    };
    let area = match (&tank.area, &tank.length, &tank.width) {
        (Some(area), ..) => area.si_f64(),
        (None, Some(length), Some(width)) => length.si_f64() * width.si_f64(),
        _ => return missing(MissingCode::TankPlan, ""),
    };
    let of_the_arm = [Moves::Boom, Moves::Dipper, Moves::Bucket, Moves::Swing];
    let others = book.rams.iter().filter(|ram| {
        ram.work
            .moves
            .is_none_or(|moves| !of_the_arm.contains(&moves))
    });
    let (measured, unmeasured): (Vec<&Ram>, Vec<&Ram>) =
        others.partition(|ram| sizes(ram, "").and(stroke(ram, "")).is_ok());
    Ok(TankOfArm {
        area,
        tank: all_oil(tank, area),
        others: measured.into_iter().map(other).collect(),
        swing: swing_oil(book),
        unmeasured: unmeasured.iter().map(|ram| ram.id.to_string()).collect(),
    })
}

/// The rams of the swing as vessels: how far out they are, their pins say.
fn swing_oil(book: &Book) -> Told<Option<SwingOil>> {
    let swings = |ram: &&Ram| ram.work.moves == Some(Moves::Swing);
    let Some(ram) = book.rams.iter().find(swings) else {
        return Ok(None);
    };
    let rams = match swing(book) {
        Ok(gear) => gear.rams,
        // A ram that turns a ring over a rack, or whatever it is: nothing is known of its travel.
        Err(why) => return Err(why),
    };
    let (closed, stroke) = stroke(ram, "swing")?;
    let one = reckon::arm::shape::Ram {
        count: 1,
        ..in_numbers(ram)
    };
    Ok(Some(SwingOil {
        cap: one.cap_area(),
        rod: one.rod_area(),
        closed,
        stroke,
        rams,
    }))
}

fn all_oil(tank: &OilTank, area: f64) -> Told<Tank> {
    Ok(Tank {
        area,
        oil: number(tank.oil.as_ref(), MissingCode::TankOil, "")?,
        elsewhere: number(tank.dead.as_ref(), MissingCode::TankDead, "")?,
        expansion: EXPANSION,
        reference: tank
            .temperature
            .as_ref()
            .and_then(celsius)
            .map_or_else(|| missing(MissingCode::TankTemperature, ""), Ok)?,
    })
}

fn celsius(temperature: &Quantity) -> Option<f64> {
    temperature
        .in_unit(Unit::Celsius)
        .map(|degrees| degrees.to_f64())
}

fn other(ram: &Ram) -> OtherRam {
    let numbers = in_numbers(ram);
    OtherRam {
        id: ram.id.to_string(),
        cap: numbers.cap_area(),
        rod: numbers.rod_area(),
        stroke: numbers.stroke,
    }
}
