//! What may be wrong in a sheet of poses, each with its place and what would be right.

use super::{heading::HEADINGS, sheet::Cell};
use crate::{Exit, kit::Kit, trouble::Trouble};
use quantity::{Dimension, Unit};
use reckon::arm::shape::Joint;
use words::{Arg, Told};

/// Something wrong in a sheet.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Slip {
    /// Where.
    cell: Cell,
    /// What.
    kind: SlipKind,
}

/// What is wrong.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum SlipKind {
    /// Nothing is in the file.
    Empty,
    /// There is a heading and no pose under it.
    NoPoses,
    /// No such column.
    HeadingUnknown,
    /// A column twice.
    HeadingTwice,
    /// Words stand in this column, no numbers.
    HeadingHasUnit,
    /// Its numbers need a unit.
    HeadingWithoutUnit(Dimension),
    /// A unit of something else.
    HeadingOtherUnit(Dimension),
    /// No such unit.
    UnitUnknown(String),
    /// Neither length nor extension of a ram.
    RamMissing(Joint),
    /// Both of them.
    RamTwice(Joint),
    /// More or fewer cells than the heading has.
    OtherCount { cells: usize, columns: usize },
    /// A cell that must not be empty.
    CellEmpty(String),
    /// A number that does not read.
    Number(quantity::Trouble),
    /// A length that is not above nothing, a load below nothing.
    TooSmall,
    /// A share that is not from 0 to 1.
    NoShare,
    /// No such way of standing; those of the book.
    StanceUnknown(Vec<&'static str>),
}

impl Slip {
    /// Wrong at this cell.
    pub(super) fn at(cell: &Cell, kind: SlipKind) -> Self {
        Slip {
            cell: cell.clone(),
            kind,
        }
    }

    fn told(&self, kit: &Kit) -> Told {
        let say = |key: &str, args: &[(&str, Arg<'_>)]| {
            let key = format!("poses-{key}");
            Told {
                what: kit.words.say(&key, args),
                next: kit.words.say(&format!("{key}.next"), args),
            }
        };
        let written = ("written", self.cell.text.as_str().into());
        let headings = || kit.words.list(&HEADINGS.map(str::to_owned));
        match &self.kind {
            SlipKind::Empty => say("empty", &[("headings", headings().into())]),
            SlipKind::NoPoses => say("no-poses", &[]),
            SlipKind::HeadingUnknown => say(
                "heading-unknown",
                &[written, ("headings", headings().into())],
            ),
            SlipKind::HeadingTwice => say("heading-twice", &[written]),
            SlipKind::HeadingHasUnit => say("heading-has-unit", &[written]),
            SlipKind::HeadingWithoutUnit(wanted) => say(
                "heading-without-unit",
                &[written, ("units", units(kit, *wanted).into())],
            ),
            SlipKind::HeadingOtherUnit(wanted) => say(
                "heading-other-unit",
                &[written, ("units", units(kit, *wanted).into())],
            ),
            SlipKind::UnitUnknown(unit) => say("unit-unknown", &[("unit", unit.as_str().into())]),
            SlipKind::RamMissing(joint) => say("ram-missing", &[("joint", joint.code().into())]),
            SlipKind::RamTwice(joint) => say("ram-twice", &[("joint", joint.code().into())]),
            SlipKind::OtherCount { cells, columns } => say(
                "other-count",
                &[("n", (*cells).into()), ("of", (*columns).into())],
            ),
            SlipKind::CellEmpty(heading) => {
                say("cell-empty", &[("heading", heading.as_str().into())])
            }
            SlipKind::Number(slip) => kit.words.quantity_trouble(slip),
            SlipKind::TooSmall => say("too-small", &[written]),
            SlipKind::NoShare => say("no-share", &[written]),
            SlipKind::StanceUnknown(known) => {
                let known: Vec<String> = known.iter().map(|name| (*name).to_owned()).collect();
                say(
                    "stance-unknown",
                    &[written, ("stances", kit.words.list(&known).into())],
                )
            }
        }
    }
}

fn units(kit: &Kit, dimension: Dimension) -> String {
    let some: Vec<String> = Unit::of(dimension)
        .take(4)
        .map(|unit| unit.symbol().to_owned())
        .collect();
    kit.words.list(&some)
}

/// All slips of a file as one trouble.
pub(super) fn trouble(kit: &Kit, file: &str, mut slips: Vec<Slip>) -> Trouble {
    slips.sort_by_key(|slip| (slip.cell.line, slip.cell.column));
    let lines: String = slips
        .iter()
        .map(|slip| {
            let Told { what, next } = slip.told(kit);
            let Cell { line, column, .. } = slip.cell;
            format!("{file}:{line}:{column} · {what}\n  {next}\n")
        })
        .collect();
    let told = Told {
        what: lines,
        next: kit.t("poses-mend-first"),
    };
    kit.told("poses-have-mistakes", told, Exit::Mistakes)
}
