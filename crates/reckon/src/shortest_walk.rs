//! The shortest order to visit places in: proven for a few, good for many.

/// Up to so many places the order is proven to be the shortest; beyond, memory and time double with every place.
pub const PROVEN_UP_TO: usize = 17;

/// A gain smaller than this share of the walk is noise and no reason to change the order.
const NOISE: f64 = 1e-12;

/// An order to visit places in.
#[derive(Debug, Clone, PartialEq)]
pub struct Walk {
    /// Its length, in the unit of the distances.
    pub length: f64,
    /// The places in their order, counted from 0; the first is always 0.
    pub order: Vec<usize>,
    /// True where no shorter order exists; false where none was found.
    pub proven: bool,
}

/// The shortest walk from place 0 through all others, back to it where `back_to_start`.
///
/// - `places`: how many; none gives an empty walk.
/// - `between`: the distance between two places, the same both ways, finite and not negative.
///
/// Exact by dynamic programming over sets (Held and Karp 1962) up to [`PROVEN_UP_TO`]. Beyond, each place in turn
/// is tried as the second, the rest taken nearest first, then improved by turning stretches round (Croes 1958) and
/// by moving stretches of up to three (Or 1976) until nothing helps. The same distances always give the same order.
pub fn shortest_walk(
    places: usize,
    between: &impl Fn(usize, usize) -> f64,
    back_to_start: bool,
) -> Walk {
    let proven = places <= PROVEN_UP_TO;
    let order = match places {
        0..=2 => (0..places).collect(),
        _ if proven => proven_order(places, between, back_to_start),
        _ => good_order(places, between, back_to_start),
    };
    Walk {
        length: length_of(&order, between, back_to_start),
        order,
        proven,
    }
}

fn length_of(order: &[usize], between: &impl Fn(usize, usize) -> f64, back_to_start: bool) -> f64 {
    let along: f64 = order.windows(2).map(|leg| between(leg[0], leg[1])).sum();
    match (order.first(), order.last()) {
        (Some(&first), Some(&last)) if back_to_start => along + between(last, first),
        _ => along,
    }
}

/// For every set of places but the first, and every place in it, the shortest way through the set that ends there.
fn proven_order(
    places: usize,
    between: &impl Fn(usize, usize) -> f64,
    back_to_start: bool,
) -> Vec<usize> {
    let others = places - 1;
    let full = (1_usize << others) - 1;
    let mut shortest = vec![f64::INFINITY; (full + 1) * others];
    for end in 0..others {
        shortest[(1 << end) * others + end] = between(0, end + 1);
    }
    for set in 1..=full {
        for end in (0..others).filter(|end| set >> end & 1 == 1) {
            let so_far = shortest[set * others + end];
            for next in (0..others).filter(|next| set >> next & 1 == 0) {
                let place = (set | 1 << next) * others + next;
                let length = so_far + between(end + 1, next + 1);
                if length < shortest[place] {
                    shortest[place] = length;
                }
            }
        }
    }
    let homeward = |end: usize| {
        if back_to_start {
            between(end + 1, 0)
        } else {
            0.0
        }
    };
    walk_back(&shortest, others, between, homeward)
}

/// Reads the order out of the table, from the last place to the first.
fn walk_back(
    shortest: &[f64],
    others: usize,
    between: &impl Fn(usize, usize) -> f64,
    homeward: impl Fn(usize) -> f64,
) -> Vec<usize> {
    let mut set = (1_usize << others) - 1;
    let mut order = Vec::with_capacity(others + 1);
    let mut onward: Box<dyn Fn(usize) -> f64 + '_> = Box::new(homeward);
    while set != 0 {
        // Of equals the last named ends the walk, so that it begins with the first named.
        let best = (0..others)
            .rev()
            .filter(|end| set >> end & 1 == 1)
            .min_by(|&a, &b| {
                let length = |end: usize| shortest[set * others + end] + onward(end);
                length(a).total_cmp(&length(b))
            });
        let Some(end) = best else { break };
        order.push(end + 1);
        set &= !(1 << end);
        onward = Box::new(move |before| between(before + 1, end + 1));
    }
    order.push(0);
    order.reverse();
    order
}

fn good_order(
    places: usize,
    between: &impl Fn(usize, usize) -> f64,
    back_to_start: bool,
) -> Vec<usize> {
    let improved = (1..places).map(|second| {
        let mut order = nearest_first(places, second, between);
        while turn_a_stretch(&mut order, between, back_to_start)
            || move_a_stretch(&mut order, between, back_to_start)
        {}
        order
    });
    let length = |order: &Vec<usize>| length_of(order, between, back_to_start);
    improved
        .min_by(|a, b| length(a).total_cmp(&length(b)))
        .unwrap_or_default()
}

fn nearest_first(
    places: usize,
    second: usize,
    between: &impl Fn(usize, usize) -> f64,
) -> Vec<usize> {
    let mut order = vec![0, second];
    let mut left: Vec<usize> = (1..places).filter(|&place| place != second).collect();
    let mut here = second;
    while let Some(index) =
        (0..left.len()).min_by(|&a, &b| between(here, left[a]).total_cmp(&between(here, left[b])))
    {
        here = left.remove(index);
        order.push(here);
    }
    order
}

/// Turns the first stretch round that makes the walk shorter that way.
fn turn_a_stretch(
    order: &mut [usize],
    between: &impl Fn(usize, usize) -> f64,
    back_to_start: bool,
) -> bool {
    let count = order.len();
    for first in 1..count {
        for last in first + 1..count {
            let (before, start, end) = (order[first - 1], order[first], order[last]);
            let after = if last + 1 < count {
                Some(order[last + 1])
            } else {
                back_to_start.then_some(order[0])
            };
            let old = between(before, start) + after.map_or(0.0, |after| between(end, after));
            let new = between(before, end) + after.map_or(0.0, |after| between(start, after));
            if new < old - NOISE * (old + new) {
                order[first..=last].reverse();
                return true;
            }
        }
    }
    false
}

/// Moves the first stretch of up to three places that makes the walk shorter elsewhere, either way round.
fn move_a_stretch(
    order: &mut Vec<usize>,
    between: &impl Fn(usize, usize) -> f64,
    back_to_start: bool,
) -> bool {
    let old = length_of(order, between, back_to_start);
    for size in 1..=3 {
        for first in 1..(order.len() + 1).saturating_sub(size) {
            let mut rest = order.clone();
            let mut stretch: Vec<usize> = rest.drain(first..first + size).collect();
            for _ in 0..2 {
                for place in 1..=rest.len() {
                    let moved = [&rest[..place], &stretch, &rest[place..]].concat();
                    let new = length_of(&moved, between, back_to_start);
                    if new < old - NOISE * (old + new) {
                        *order = moved;
                        return true;
                    }
                }
                stretch.reverse();
            }
        }
    }
    false
}

#[cfg(test)]
mod tests {
    use super::*;

    /// All orders, one after the other: slow, and surely right.
    fn by_trying_all(
        places: usize,
        between: &impl Fn(usize, usize) -> f64,
        back_to_start: bool,
    ) -> f64 {
        fn go(order: &mut Vec<usize>, left: &mut Vec<usize>, visit: &mut impl FnMut(&[usize])) {
            if left.is_empty() {
                visit(order);
            }
            for index in 0..left.len() {
                let place = left.remove(index);
                order.push(place);
                go(order, left, visit);
                order.pop();
                left.insert(index, place);
            }
        }
        let mut best = f64::INFINITY;
        go(&mut vec![0], &mut (1..places).collect(), &mut |order| {
            best = best.min(length_of(order, between, back_to_start));
        });
        best
    }

    /// Invented distances: whole numbers from a small mixing of the two places.
    fn invented(seed: usize) -> impl Fn(usize, usize) -> f64 {
        move |a, b| {
            let (low, high) = (a.min(b), a.max(b));
            if low == high {
                0.0
            } else {
                ((low * 7919 + high * 104_729 + seed * 1_299_709) % 997) as f64 + 1.0
            }
        }
    }

    #[test]
    fn proven_is_what_trying_all_orders_gives() {
        for places in 1..=9 {
            for seed in 0..3 {
                for back in [false, true] {
                    let walk = shortest_walk(places, &invented(seed), back);
                    assert_eq!(
                        walk.length,
                        by_trying_all(places, &invented(seed), back),
                        "{places} {seed} {back}"
                    );
                    let mut sorted = walk.order.clone();
                    sorted.sort_unstable();
                    assert_eq!(sorted, (0..places).collect::<Vec<_>>());
                    assert!(walk.proven);
                }
            }
        }
    }

    #[test]
    fn good_is_near_proven_where_both_can_be_had() {
        for seed in 0..4 {
            for back in [false, true] {
                let proven = shortest_walk(12, &invented(seed), back).length;
                let good = length_of(
                    &good_order(12, &invented(seed), back),
                    &invented(seed),
                    back,
                );
                assert!(
                    good >= proven && good <= 1.06 * proven,
                    "{seed} {back}: {good} against {proven}"
                );
            }
        }
    }

    #[test]
    fn places_on_a_circle_are_visited_in_order() {
        // The shortest lap of points in convex position runs along their hull (Barachet 1957).
        let count = 24;
        let step = core::f64::consts::TAU / count as f64;
        let shuffled = |place: usize| (place * 7 % count) as f64 * step;
        let chord =
            |a: usize, b: usize| 2.0 * libm::sin((shuffled(a) - shuffled(b)).abs() / 2.0).abs();
        let walk = shortest_walk(count, &chord, true);
        assert!(!walk.proven);
        assert!((walk.length - count as f64 * 2.0 * libm::sin(step / 2.0)).abs() < 1e-9);
    }

    #[test]
    fn the_same_distances_give_the_same_order() {
        assert_eq!(
            shortest_walk(20, &invented(5), false),
            shortest_walk(20, &invented(5), false)
        );
    }
}
