//! The strength map: for each square of the reach the largest usable force, and the strongest pose of all.

use super::batch::Columns;
use super::kernel::{Direction, Kernel};
use crate::arm::force::{Cut, Footing, Governs, Ladder, Statics, usable};
use crate::arm::pose::Placed;
use crate::arm::shape::{ArmShape, Joint, Vector};

/// How finely the reach is looked at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MapGrid {
    /// Lengths tried of each ram, from fully in to fully out: 63 of each make 250,047 poses.
    pub steps: usize,
    /// The side of a square, in metres.
    pub square: f64,
}

/// One square of the map.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cell {
    /// The square's column: r of its inner side over the side's length.
    pub column: i32,
    /// Its row: z of its lower side over the side's length.
    pub row: i32,
    /// The largest usable force of the poses whose tooth lies in it, in newtons.
    pub force: f64,
    /// What governs there.
    pub governs: Governs,
    /// The ram lengths of that pose.
    pub lengths: [f64; 3],
}

/// The pose with the largest usable force.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strongest {
    /// The usable force, in newtons.
    pub force: f64,
    /// What governs there.
    pub governs: Governs,
    /// The ram lengths.
    pub lengths: [f64; 3],
    /// The tooth.
    pub tooth: Vector,
}

/// The largest usable force in every square that the tooth reaches, rows from below, columns from within.
///
/// All limits are in it: working and holding rams, and with a footing tipping and sliding. A square is as strong as its
/// strongest pose among those tried; with more steps it can only grow.
pub fn strength_map(
    shape: &ArmShape,
    direction: Direction,
    footing: Option<&Footing<'_>>,
    grid: MapGrid,
) -> Vec<Cell> {
    let mut best = std::collections::BTreeMap::<(i32, i32), Cell>::new();
    over_grid(
        shape,
        direction,
        footing,
        grid.steps,
        &mut |found: Strongest| {
            let (column, row) = (
                (found.tooth.r / grid.square).floor() as i32,
                (found.tooth.z / grid.square).floor() as i32,
            );
            let cell = Cell {
                column,
                row,
                force: found.force,
                governs: found.governs,
                lengths: found.lengths,
            };
            let before = best.entry((row, column)).or_insert(cell);
            if cell.force > before.force {
                *before = cell;
            }
        },
    );
    best.into_values().collect()
}

/// The pose with the largest usable force in this direction: the best of the grid, then climbed to the top from there.
///
/// Nothing where no pose can use any force. Its force is good to about 1e-9; where a limit is flat the pose is one of many.
pub fn strongest(
    shape: &ArmShape,
    direction: Direction,
    footing: Option<&Footing<'_>>,
    steps: usize,
) -> Option<Strongest> {
    let mut best: Option<Strongest> = None;
    over_grid(shape, direction, footing, steps, &mut |found: Strongest| {
        if best.is_none_or(|before| found.force > before.force) {
            best = Some(found);
        }
    });
    climb(shape, direction, best?, steps, footing)
}

fn climb(
    shape: &ArmShape,
    direction: Direction,
    from: Strongest,
    steps: usize,
    footing: Option<&Footing<'_>>,
) -> Option<Strongest> {
    let step = Joint::ALL.map(|joint| shape.ram(joint).stroke / steps.max(2) as f64);
    let side = |sign: f64| {
        Joint::ALL.map(|joint| {
            let (ram, index) = (shape.ram(joint), joint.index());
            (from.lengths[index] + sign * step[index]).clamp(ram.closed, ram.extended())
        })
    };
    let force = |lengths| Some(at(shape, direction, footing, lengths)?.force);
    let (lengths, _) = crate::arm::pose::highest(side(-1.0), side(1.0), 5, force)?;
    let found = at(shape, direction, footing, lengths)?;
    Some(if found.force > from.force {
        found
    } else {
        from
    })
}

/// The cut in this direction; nothing where the tooth lies on the joint that works.
pub(super) fn cut_in(direction: Direction, statics: &Statics) -> Option<Cut> {
    match direction {
        Direction::Curl => Cut::curl(statics),
        Direction::Crowd => Cut::crowd(statics),
        Direction::PushDown => Some(Cut::push_down()),
        Direction::PullUp => Some(Cut::pull_up()),
    }
}

/// The usable force of one pose, by the statics and not by the kernel.
fn at(
    shape: &ArmShape,
    direction: Direction,
    footing: Option<&Footing<'_>>,
    lengths: [f64; 3],
) -> Option<Strongest> {
    let placed = Placed::at_lengths(shape, lengths).ok()?;
    let statics = Statics::hanging(shape, placed).ok()?;
    let cut = cut_in(direction, &statics)?;
    let footing = footing.map(|footing| footing.with(shape, &placed));
    let found = usable(shape, &statics, cut, footing.as_ref());
    let force = found.governs.allows.rank();
    (force.is_finite() && force > 0.0).then_some(Strongest {
        force,
        governs: found.governs.what,
        lengths,
        tooth: placed.tooth,
    })
}

/// Every pose of the grid that can use a force, to `see`.
fn over_grid(
    shape: &ArmShape,
    direction: Direction,
    footing: Option<&Footing<'_>>,
    steps: usize,
    see: &mut impl FnMut(Strongest),
) {
    let kernel = Kernel::new(shape, direction);
    let ladder = footing.map(Footing::ladder);
    let steps = steps.max(2);
    let lengths = Joint::ALL.map(|joint| {
        let ram = shape.ram(joint);
        let length = |step: usize| ram.closed + ram.stroke * step as f64 / (steps - 1) as f64;
        (0..steps).map(length).collect::<Vec<f64>>()
    });
    let names = Joint::ALL.map(|joint| {
        if joint == direction.working() {
            Governs::Working(joint)
        } else {
            Governs::Holding(joint)
        }
    });
    let pairs = lengths[1]
        .iter()
        .flat_map(|dipper| lengths[2].iter().map(move |bucket| (*dipper, *bucket)));
    let (dippers, buckets): (Vec<f64>, Vec<f64>) = pairs.unzip();
    let mut into = Columns::default();
    for boom in &lengths[0] {
        let booms = vec![*boom; dippers.len()];
        kernel.batch([&booms, &dippers, &buckets], &mut into);
        for (pose, (dipper, bucket)) in dippers.iter().zip(&buckets).enumerate() {
            let (force, governs) = least_of(&into, pose, names, ladder.as_ref());
            let tooth = into.tooth(pose);
            if force.is_finite() && force > 0.0 && tooth.is_finite() {
                let lengths = [*boom, *dipper, *bucket];
                see(Strongest {
                    force,
                    governs,
                    lengths,
                    tooth,
                });
            }
        }
    }
}

/// The least that one pose's limits allow, and which of them it is.
fn least_of(
    into: &Columns,
    pose: usize,
    names: [Governs; 3],
    ladder: Option<&Ladder>,
) -> (f64, Governs) {
    let mut least = (f64::INFINITY, names[0]);
    for (column, name) in into.allows.iter().zip(names) {
        let allows = column[pose];
        if allows < least.0 {
            least = (allows, name);
        }
    }
    if let Some(ladder) = ladder {
        let direction = Vector::new(into.direction_r[pose], into.direction_z[pose]);
        ladder.lower(&mut least, into.tooth(pose), direction, into.moment[pose]);
    }
    least
}
