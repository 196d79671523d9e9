//! The shortest way on foot from one station to another, round the machine and not through it.

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "machine.walk_between" tries walk_between;
    inputs {
        from_x: number ["m"] -1000.0, 1000.0;
        from_y: number ["m"] -1000.0, 1000.0;
        to_x: number ["m"] -1000.0, 1000.0;
        to_y: number ["m"] -1000.0, 1000.0;
        back_x: number ["m"] -1000.0, 1000.0;
        front_x: number ["m"] -1000.0, 1000.0;
        right_y: number ["m"] -1000.0, 1000.0;
        left_y: number ["m"] -1000.0, 1000.0;
    }
    outputs |metres| { walk ["m"] = metres }
    source { "Shortest path round a rectangle, by geometry", 0, "", Definition }
}

/// The length of the shortest walk between two points outside a rectangle, in metres.
///
/// Machine frame: x forwards, y left, metres.
/// - from, to: the two stations, outside the footprint or on its edge.
/// - `back_x` < `front_x`, `right_y` < `left_y`: the footprint.
///
/// Formula: the straight line where it does not cross the footprint, else the shortest way over one or two of its
/// corners. Along an edge is allowed.
///
/// Range: points within 1000 m.
///
/// # Errors
/// "footprint-crossed" where the footprint's sides are the wrong way round; "inside-footprint" where a point lies
/// inside it.
///
/// Source: geometry; the shortest way round a convex shape turns only at its corners.
#[expect(
    clippy::too_many_arguments,
    reason = "two points and a rectangle, each number with its own name in the leaf"
)]
pub fn walk_between(
    from_x: f64,
    from_y: f64,
    to_x: f64,
    to_y: f64,
    back_x: f64,
    front_x: f64,
    right_y: f64,
    left_y: f64,
) -> Result<f64, Refusal> {
    let footprint = Footprint {
        low: [back_x, right_y],
        high: [front_x, left_y],
    };
    let (from, to) = ([from_x, from_y], [to_x, to_y]);
    if back_x > front_x || right_y > left_y {
        return Err(Refusal::Contradiction {
            what: "footprint-crossed",
        });
    }
    if footprint.holds(from) || footprint.holds(to) {
        return Err(Refusal::Contradiction {
            what: "inside-footprint",
        });
    }
    if !footprint.crossed_by(from, to) {
        return Ok(distance(from, to));
    }
    Ok(footprint.way_over_corners(from, to))
}

/// A rectangle along the machine's axes.
struct Footprint {
    low: [f64; 2],
    high: [f64; 2],
}

impl Footprint {
    fn holds(&self, point: [f64; 2]) -> bool {
        (0..2).all(|axis| point[axis] > self.low[axis] && point[axis] < self.high[axis])
    }

    /// True where the straight line runs through the inside; touching an edge or a corner is no crossing.
    ///
    /// The line is clipped to the open rectangle axis by axis (Liang and Barsky 1984): what is left between the
    /// first and the last share of the way lies inside.
    fn crossed_by(&self, from: [f64; 2], to: [f64; 2]) -> bool {
        let (mut first, mut last) = (0.0_f64, 1.0_f64);
        for axis in 0..2 {
            let way = to[axis] - from[axis];
            if way == 0.0 {
                if from[axis] <= self.low[axis] || from[axis] >= self.high[axis] {
                    return false;
                }
                continue;
            }
            let (at_low, at_high) = (
                (self.low[axis] - from[axis]) / way,
                (self.high[axis] - from[axis]) / way,
            );
            first = first.max(at_low.min(at_high));
            last = last.min(at_low.max(at_high));
        }
        // A crossing shorter than a billionth of the way is a corner that was touched.
        last - first > 1e-9
    }

    /// Corners in the order of a walk round.
    fn corners(&self) -> [[f64; 2]; 4] {
        let ([back, right], [front, left]) = (self.low, self.high);
        [[back, right], [front, right], [front, left], [back, left]]
    }

    fn way_over_corners(&self, from: [f64; 2], to: [f64; 2]) -> f64 {
        let corners = self.corners();
        let mut shortest = f64::INFINITY;
        for start in 0..4 {
            for turn in [1, 3] {
                // One corner, then on to the next, then the third: a way round never needs more.
                let mut way = vec![from];
                for steps in 0..3 {
                    way.push(corners[(start + turn * steps) % 4]);
                    let whole = [way.as_slice(), &[to]].concat();
                    let clear = whole.windows(2).all(|leg| !self.crossed_by(leg[0], leg[1]));
                    if clear {
                        shortest = shortest
                            .min(whole.windows(2).map(|leg| distance(leg[0], leg[1])).sum());
                    }
                }
            }
        }
        shortest
    }
}

fn distance(from: [f64; 2], to: [f64; 2]) -> f64 {
    libm::hypot(to[0] - from[0], to[1] - from[1])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn round_square(from: [f64; 2], to: [f64; 2]) -> f64 {
        walk_between(from[0], from[1], to[0], to[1], -1.0, 1.0, -1.0, 1.0).unwrap()
    }

    #[test]
    fn straight_where_nothing_is_in_the_way() {
        assert!((round_square([-1.0, 2.0], [3.0, 5.0]) - 5.0).abs() < 1e-12);
        assert!((round_square([1.0, -1.0], [1.0, 1.0]) - 2.0).abs() < 1e-12);
    }

    #[test]
    fn over_two_corners_to_the_other_side() {
        let across = round_square([-2.0, 0.0], [2.0, 0.0]);
        assert!((across - (2.0 * 2.0_f64.sqrt() + 2.0)).abs() < 1e-12);
        assert!((round_square([-1.0, 0.0], [1.0, 0.0]) - 4.0).abs() < 1e-12);
    }

    #[test]
    fn nobody_stands_inside() {
        let inside = walk_between(0.0, 0.0, 3.0, 0.0, -1.0, 1.0, -1.0, 1.0);
        assert_eq!(
            inside,
            Err(Refusal::Contradiction {
                what: "inside-footprint"
            })
        );
        assert!(walk_between(5.0, 0.0, 3.0, 0.0, 1.0, -1.0, -1.0, 1.0).is_err());
    }
}
