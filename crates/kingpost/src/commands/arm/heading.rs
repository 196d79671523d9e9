//! The heading of a sheet of poses: what each column holds, and in which unit.

use super::sheet::Cell;
use super::slip::{Slip, SlipKind};
use quantity::{Dimension, Unit};
use reckon::arm::shape::Joint;

/// What a column holds.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Holds {
    /// A name for the pose.
    Name,
    /// Pin-to-pin length of a ram.
    Length(Joint),
    /// How far a ram is out.
    Extension(Joint),
    /// How far the arm is swung, to the left.
    Swing,
    /// What lies in the bucket.
    Load,
    /// Temperature of the oil.
    OilTemperature,
    /// Force of the ground on the tooth, outwards.
    ForceOut,
    /// Force of the ground on the tooth, upwards.
    ForceUp,
    /// On what it stands.
    Stance,
    /// How far out another ram is, as a share of its stroke: by its id.
    Out(String),
}

/// A column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Column {
    /// What it holds.
    pub(super) holds: Holds,
    /// The unit of its numbers; none where it holds words.
    pub(super) unit: Option<Unit>,
    /// Its heading, for messages.
    pub(super) written: String,
}

/// Headings, as one writes them, for messages.
pub(super) const HEADINGS: [&str; 14] = [
    "boom length [mm]",
    "boom extension [mm]",
    "dipper length [mm]",
    "dipper extension [mm]",
    "bucket length [mm]",
    "bucket extension [mm]",
    "pose",
    "swing angle [deg]",
    "load [kg]",
    "oil temperature [C]",
    "tooth force out [kN]",
    "tooth force up [kN]",
    "stance",
    "RAM-ID out [%]",
];

/// The columns of a heading, in their order, none where one does not read; what is wrong goes to `slips`.
pub(super) fn columns(
    heading: &[Cell],
    other_rams: &[String],
    slips: &mut Vec<Slip>,
) -> Vec<Option<Column>> {
    let mut columns: Vec<Option<Column>> = Vec::new();
    for cell in heading {
        let column = match column(cell, other_rams) {
            Ok(column) => {
                let twice = columns
                    .iter()
                    .flatten()
                    .any(|before| before.holds == column.holds);
                if twice {
                    slips.push(Slip::at(cell, SlipKind::HeadingTwice));
                }
                Some(column)
            }
            Err(kind) => {
                slips.push(Slip::at(cell, kind));
                None
            }
        };
        columns.push(column);
    }
    let at = heading.first().cloned().unwrap_or(Cell {
        line: 1,
        column: 1,
        text: String::new(),
    });
    for joint in Joint::ALL {
        let meant = |(cell, column): (&Cell, &Option<Column>)| {
            column.is_none() && cell.text.to_lowercase().starts_with(joint.code())
        };
        // A column that was meant for it and does not read has been spoken of.
        if heading.iter().zip(&columns).any(meant) {
            continue;
        }
        let has = |holds: Holds| columns.iter().flatten().any(|column| column.holds == holds);
        match (has(Holds::Length(joint)), has(Holds::Extension(joint))) {
            (false, false) => slips.push(Slip::at(&at, SlipKind::RamMissing(joint))),
            (true, true) => slips.push(Slip::at(&at, SlipKind::RamTwice(joint))),
            _ => {}
        }
    }
    columns
}

fn column(cell: &Cell, other_rams: &[String]) -> Result<Column, SlipKind> {
    let (name, unit) = name_and_unit(&cell.text)?;
    let holds = named(&name, other_rams).ok_or(SlipKind::HeadingUnknown)?;
    let unit = match (dimension(&holds), unit) {
        (None, None) => None,
        (None, Some(_)) => return Err(SlipKind::HeadingHasUnit),
        (Some(Dimension::Fraction), None) => Some(Unit::PartOfOne),
        (Some(wanted), None) => return Err(SlipKind::HeadingWithoutUnit(wanted)),
        (Some(wanted), Some(unit)) if unit.dimension() == wanted => Some(unit),
        (Some(wanted), Some(_)) => return Err(SlipKind::HeadingOtherUnit(wanted)),
    };
    Ok(Column {
        holds,
        unit,
        written: cell.text.clone(),
    })
}

/// The unit stands in brackets at the end, or as the last word.
fn name_and_unit(written: &str) -> Result<(String, Option<Unit>), SlipKind> {
    let plain = |text: &str| {
        let spaced = text.replace(['_', '-'], " ").to_lowercase();
        spaced.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let bracketed = written
        .strip_suffix([']', ')'])
        .and_then(|rest| rest.rsplit_once(['[', '(']));
    if let Some((name, unit)) = bracketed {
        let unit =
            Unit::find(unit.trim()).ok_or_else(|| SlipKind::UnitUnknown(unit.trim().to_owned()))?;
        return Ok((plain(name), Some(unit)));
    }
    let last = written
        .rsplit_once(' ')
        .and_then(|(name, unit)| Some((name, Unit::find(unit.trim())?)));
    Ok(match last {
        Some((name, unit)) => (plain(name), Some(unit)),
        None => (plain(written), None),
    })
}

fn named(name: &str, other_rams: &[String]) -> Option<Holds> {
    for joint in Joint::ALL {
        if let Some(what) = name.strip_prefix(joint.code()) {
            return match what.trim_start().trim_start_matches("ram ") {
                "length" => Some(Holds::Length(joint)),
                "extension" => Some(Holds::Extension(joint)),
                _ => None,
            };
        }
    }
    Some(match name {
        "pose" | "name" => Holds::Name,
        "swing" | "swing angle" => Holds::Swing,
        "load" => Holds::Load,
        "oil temperature" => Holds::OilTemperature,
        "tooth force out" => Holds::ForceOut,
        "tooth force up" => Holds::ForceUp,
        "stance" => Holds::Stance,
        other => {
            let ram = other.strip_suffix(" out")?;
            let id = other_rams.iter().find(|id| id.replace('-', " ") == ram)?;
            Holds::Out(id.clone())
        }
    })
}

fn dimension(holds: &Holds) -> Option<Dimension> {
    match holds {
        Holds::Name | Holds::Stance => None,
        Holds::Length(_) | Holds::Extension(_) => Some(Dimension::Length),
        Holds::Swing => Some(Dimension::Angle),
        Holds::Load => Some(Dimension::Mass),
        Holds::OilTemperature => Some(Dimension::Temperature),
        Holds::ForceOut | Holds::ForceUp => Some(Dimension::Force),
        Holds::Out(_) => Some(Dimension::Fraction),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_in_brackets_or_as_the_last_word() {
        let mm = Some(Unit::Millimetre);
        assert_eq!(
            name_and_unit("Boom length [mm]"),
            Ok(("boom length".to_owned(), mm))
        );
        assert_eq!(
            name_and_unit("boom_length (mm)"),
            Ok(("boom length".to_owned(), mm))
        );
        assert_eq!(
            name_and_unit("boom length mm"),
            Ok(("boom length".to_owned(), mm))
        );
        assert_eq!(name_and_unit("pose"), Ok(("pose".to_owned(), None)));
        assert_eq!(
            name_and_unit("boom length [ell]"),
            Err(SlipKind::UnitUnknown("ell".to_owned()))
        );
    }

    #[test]
    fn every_heading_of_the_messages_reads() {
        let rams = ["ram-id".to_owned()];
        for heading in HEADINGS {
            let cell = Cell {
                line: 1,
                column: 1,
                text: heading.to_owned(),
            };
            assert!(column(&cell, &rams).is_ok(), "{heading}");
        }
    }
}
