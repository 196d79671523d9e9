//! The highest value of a function over a box, found the same way every time: a grid, then ever smaller steps.

/// The place and the height of the highest value of `height` over a box, where it has one at all.
///
/// `height` gives nothing where a place is not allowed. First `grid` places along each side; from the best of them
/// steps to all neighbours, halved where none is higher, down to 1e-13 of the box. Borders and corners are reached
/// exactly. Finds the highest of hills that are wider than a grid step.
pub(crate) fn highest<const N: usize>(
    low: [f64; N],
    high: [f64; N],
    grid: u32,
    height: impl Fn([f64; N]) -> Option<f64>,
) -> Option<([f64; N], f64)> {
    let grid = grid.max(2);
    let mut best: Option<([f64; N], f64)> = None;
    let places = u64::from(grid).pow(N as u32);
    for index in 0..places {
        let mut place = low;
        let mut rest = index;
        for side in 0..N {
            let step = rest % u64::from(grid);
            rest /= u64::from(grid);
            let share = step as f64 / f64::from(grid - 1);
            place[side] = low[side] + (high[side] - low[side]) * share;
        }
        keep_higher(&mut best, place, height(place));
    }
    let mut share = 1.0 / f64::from(grid - 1);
    while share > 1e-13 {
        let (from, was) = best?;
        for direction in 0..3_usize.pow(N as u32) {
            let mut place = from;
            let mut rest = direction;
            for side in 0..N {
                let step = (rest % 3) as f64 - 1.0;
                rest /= 3;
                let moved = from[side] + step * share * (high[side] - low[side]);
                place[side] = moved.clamp(low[side].min(high[side]), high[side].max(low[side]));
            }
            keep_higher(&mut best, place, height(place));
        }
        if best?.1 <= was {
            share /= 2.0;
        }
    }
    best
}

fn keep_higher<const N: usize>(
    best: &mut Option<([f64; N], f64)>,
    place: [f64; N],
    height: Option<f64>,
) {
    if let Some(height) = height.filter(|height| height.is_finite())
        && best.is_none_or(|(_, before)| height > before)
    {
        *best = Some((place, height));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hill_within_and_a_corner() {
        let hill = |[x, y]: [f64; 2]| Some(-(x - 0.3) * (x - 0.3) - (y + 0.2) * (y + 0.2));
        let ([x, y], _) = highest([-1.0; 2], [1.0; 2], 9, hill).unwrap();
        assert!((x - 0.3).abs() < 1e-7 && (y + 0.2).abs() < 1e-7);
        let (corner, height) = highest([-1.0; 2], [1.0; 2], 4, |[x, y]| Some(x - y)).unwrap();
        assert_eq!((corner, height), ([1.0, -1.0], 2.0));
    }

    #[test]
    fn where_nothing_is_allowed_nothing_is_found() {
        assert_eq!(highest([0.0], [1.0], 5, |_| None), None);
    }
}
