//! Which part of the arm plane a drawing shows: all that any pose needs, or what one pose needs.

use super::super::ink::PER_METRE;
use reckon::arm::{
    pose::Placed,
    shape::{ArmShape, Vector},
};

/// A part of the page, in hundredths of a metre, y downwards, 0 on the ground under the swing axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// Left edge.
    pub left: f64,
    /// Right edge.
    pub right: f64,
    /// Upper edge.
    pub top: f64,
    /// Lower edge.
    pub bottom: f64,
}

/// Lengths of each ram that are looked at for the extent of all poses.
const STEPS: usize = 9;

/// How much of the machine is shown behind the swing axis, in metres.
const BEHIND: f64 = 1.7;

impl Window {
    /// Holds every pose of the arm, with room for three rows of words of this height at the top.
    pub fn of_all(shape: &ArmShape, letters: f64) -> Window {
        let share = |step: usize| step as f64 / (STEPS - 1) as f64;
        let mut all: Option<Window> = None;
        for pose in 0..STEPS * STEPS * STEPS {
            let at = [pose % STEPS, pose / STEPS % STEPS, pose / STEPS / STEPS].map(share);
            let lengths =
                [0, 1, 2].map(|ram| shape.rams[ram].closed + at[ram] * shape.rams[ram].stroke);
            if let Ok(placed) = Placed::at_lengths(shape, lengths) {
                all = Some(around(all, &placed));
            }
        }
        Self::dressed(all, letters, BEHIND)
    }

    /// Holds these poses and a little of the machine, without room for words.
    pub fn of_poses<'a>(poses: impl IntoIterator<Item = &'a Placed>) -> Window {
        let all = poses
            .into_iter()
            .fold(None, |all, placed| Some(around(all, placed)));
        Self::dressed(all, 0.0, 1.0)
    }

    /// A point of the page in the arm plane, in metres.
    pub fn plane(x: f64, y: f64) -> Vector {
        Vector::new(x / PER_METRE, -y / PER_METRE)
    }

    fn dressed(all: Option<Window>, letters: f64, behind: f64) -> Window {
        let edge = letters.max(14.0);
        let all = all.unwrap_or(Window {
            left: 0.0,
            right: 100.0,
            top: -100.0,
            bottom: 0.0,
        });
        Window {
            left: (all.left - edge).min(-behind * PER_METRE),
            right: all.right + edge,
            top: all.top - edge - letters * 5.0,
            bottom: all.bottom.max(0.0) + edge,
        }
    }
}

fn around(so_far: Option<Window>, placed: &Placed) -> Window {
    let points = placed
        .pivots
        .iter()
        .chain(&placed.barrels)
        .chain(&placed.rods)
        .chain([&placed.tooth, &placed.heel, &placed.link_pin]);
    points.fold(
        so_far.unwrap_or(Window {
            left: f64::INFINITY,
            right: f64::NEG_INFINITY,
            top: f64::INFINITY,
            bottom: f64::NEG_INFINITY,
        }),
        |window, point| {
            let (x, y) = super::page(*point);
            Window {
                left: window.left.min(x),
                right: window.right.max(x),
                top: window.top.min(y),
                bottom: window.bottom.max(y),
            }
        },
    )
}
