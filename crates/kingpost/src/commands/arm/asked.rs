//! The poses that a sheet asks for.

use super::heading::{Column, Holds, columns};
use super::sheet::{Cell, cells};
use super::slip::{Slip, SlipKind};
use quantity::{Habits, Quantity, parse_in};
use reckon::arm::shape::Vector;
use yard::arm::PoseAsked;

/// A pose of the sheet.
#[derive(Clone, Debug)]
pub(super) struct Asked {
    /// Its line in the file.
    pub(super) line: usize,
    /// Its name, where the sheet gives one.
    pub(super) name: Option<String>,
    /// The pose.
    pub(super) pose: PoseAsked,
    /// On what it stands: the place in the book's order; none where the sheet does not say.
    pub(super) stance: Option<usize>,
    /// Force of the ground on the tooth, in newtons, in the arm's plane; none where the sheet does not ask.
    pub(super) force: Option<Vector>,
}

/// What the sheet's numbers stand for on this machine.
pub(super) struct Of<'a> {
    /// Closed lengths of boom, dipper and bucket ram, in metres.
    pub(super) closed: [f64; 3],
    /// Ways of standing, in the book's order.
    pub(super) stances: Vec<&'static str>,
    /// Ids of the other rams.
    pub(super) other_rams: Vec<String>,
    /// How numbers are written.
    pub(super) habits: &'a Habits,
}

/// Every pose of the sheet, or everything that is wrong with it.
pub(super) fn asked(text: &str, of: &Of<'_>) -> Result<Vec<Asked>, Vec<Slip>> {
    let lines = cells(text);
    let Some((heading, poses)) = lines.split_first() else {
        let nowhere = Cell {
            line: 1,
            column: 1,
            text: String::new(),
        };
        return Err(vec![Slip::at(&nowhere, SlipKind::Empty)]);
    };
    let mut slips = Vec::new();
    let columns = columns(heading, &of.other_rams, &mut slips);
    if poses.is_empty() {
        slips.extend(
            heading
                .first()
                .map(|cell| Slip::at(cell, SlipKind::NoPoses)),
        );
    }
    let rows: Vec<Asked> = poses
        .iter()
        .filter_map(|line| row(line, &columns, of, &mut slips))
        .collect();
    if slips.is_empty() {
        Ok(rows)
    } else {
        Err(slips)
    }
}

fn row(
    line: &[Cell],
    columns: &[Option<Column>],
    of: &Of<'_>,
    slips: &mut Vec<Slip>,
) -> Option<Asked> {
    let first = line.first()?;
    // Spreadsheets end short lines of long tables with empty cells.
    let beyond = line
        .iter()
        .skip(columns.len())
        .any(|cell| !cell.text.is_empty());
    if line.len() < columns.len() || beyond {
        let (cells, columns) = (line.len(), columns.len());
        slips.push(Slip::at(first, SlipKind::OtherCount { cells, columns }));
        return None;
    }
    let mut row = Asked {
        line: first.line,
        name: None,
        pose: PoseAsked::at([f64::NAN; 3]),
        stance: None,
        force: None,
    };
    for (cell, column) in line.iter().zip(columns) {
        let Some(column) = column else { continue };
        if let Err(kind) = row.take(cell, column, of) {
            slips.push(Slip::at(cell, kind));
        }
    }
    Some(row)
}

impl Asked {
    fn take(&mut self, cell: &Cell, column: &Column, of: &Of<'_>) -> Result<(), SlipKind> {
        if cell.text.is_empty() {
            return match column.holds {
                Holds::Length(_) | Holds::Extension(_) => {
                    Err(SlipKind::CellEmpty(column.written.clone()))
                }
                _ => Ok(()),
            };
        }
        match &column.holds {
            Holds::Name => self.name = Some(cell.text.clone()),
            Holds::Stance => {
                let named = of.stances.iter().position(|stance| *stance == cell.text);
                self.stance =
                    Some(named.ok_or_else(|| SlipKind::StanceUnknown(of.stances.clone()))?);
            }
            Holds::Length(joint) => self.pose.lengths[joint.index()] = length(cell, column, of)?,
            Holds::Extension(joint) => {
                self.pose.lengths[joint.index()] =
                    of.closed[joint.index()] + number(cell, column, of)?.si_f64();
            }
            Holds::Swing => self.pose.swing = number(cell, column, of)?.si_f64(),
            Holds::Load => {
                let load = number(cell, column, of)?.si_f64();
                self.pose.load = if load >= 0.0 {
                    load
                } else {
                    return Err(SlipKind::TooSmall);
                };
            }
            Holds::OilTemperature => {
                let celsius = number(cell, column, of)?.in_unit(quantity::Unit::Celsius);
                self.pose.temperature = celsius.map(|celsius| celsius.to_f64());
            }
            Holds::ForceOut => self.force().r = number(cell, column, of)?.si_f64(),
            Holds::ForceUp => self.force().z = number(cell, column, of)?.si_f64(),
            Holds::Out(id) => {
                let share = number(cell, column, of)?.si_f64();
                if !(0.0..=1.0).contains(&share) {
                    return Err(SlipKind::NoShare);
                }
                self.pose.others_out.insert(id.clone(), share);
            }
        }
        Ok(())
    }

    fn force(&mut self) -> &mut Vector {
        self.force.get_or_insert_default()
    }
}

fn length(cell: &Cell, column: &Column, of: &Of<'_>) -> Result<f64, SlipKind> {
    let length = number(cell, column, of)?.si_f64();
    if length > 0.0 {
        Ok(length)
    } else {
        Err(SlipKind::TooSmall)
    }
}

/// A bare number is in the column's unit; a cell may name another of the same kind.
fn number(cell: &Cell, column: &Column, of: &Of<'_>) -> Result<Quantity, SlipKind> {
    parse_in(&cell.text, column.unit, of.habits).map_err(SlipKind::Number)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Vec<Asked>, Vec<Slip>> {
        asked(
            text,
            &Of {
                closed: [0.7, 0.75, 0.65],
                stances: vec!["tracks", "blade"],
                other_rams: vec!["blade-ram".to_owned()],
                habits: &Habits::default(),
            },
        )
    }

    #[test]
    fn lengths_and_extensions_in_any_unit() {
        let text = "pose,Boom length [mm],dipper_extension (cm),bucket length m,swing angle [deg],load [t],blade-ram out [%],stance\n\
                    reach,1000,10,39 3/8 in,-90,0.1,50,blade\n";
        let rows = read(text).unwrap();
        let Asked {
            line,
            name,
            pose,
            stance,
            force,
        } = &rows[0];
        assert_eq!(
            (*line, name.as_deref(), *stance, *force),
            (2, Some("reach"), Some(1), None)
        );
        let close =
            |found: f64, wanted: f64| assert!((found - wanted).abs() < 1e-15, "{found} {wanted}");
        close(pose.lengths[0], 1.0);
        close(pose.lengths[1], 0.85);
        close(pose.lengths[2], 1.000125);
        close(pose.swing, -std::f64::consts::FRAC_PI_2);
        close(pose.load, 100.0);
        close(pose.others_out["blade-ram"], 0.5);
    }

    #[test]
    fn a_digit_is_kept() {
        let rows = read(
            "boom length [m],dipper length [m],bucket length [m]\n0.8123456789012345,0.9,0.7\n",
        )
        .unwrap();
        assert_eq!(rows[0].pose.lengths, [0.8123456789012345, 0.9, 0.7]);
    }

    #[test]
    fn everything_wrong_at_once() {
        let text =
            "boom length,dipper length [bar],bucket lenght [mm],stance\n1,2,3,rocks\n1,2,3\n";
        let slips = read(text).unwrap_err();
        assert_eq!(slips.len(), 5, "{slips:#?}");
        assert_eq!(read("").unwrap_err().len(), 1);
        let head = "boom length [m],dipper length [m],bucket length [m]";
        assert_eq!(read(head).unwrap_err().len(), 1);
        assert_eq!(read(&format!("{head}\n,x,-1\n")).unwrap_err().len(), 3);
    }
}
