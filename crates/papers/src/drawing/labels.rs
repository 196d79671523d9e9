//! Where the numbers go: rows above and below the machine, each number as near its point as its neighbours allow.

/// A number waiting for a place.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wanted {
    /// Number to write.
    pub(super) number: u32,
    /// Point on the page, drawing units.
    pub(super) at: (f64, f64),
    /// Drawn strong (this is being answered) or quiet.
    pub(super) strong: bool,
}

/// A number with its place.
#[derive(Clone, Copy, Debug)]
pub(super) struct Placed {
    pub(super) wanted: Wanted,
    /// Middle of the number's circle.
    pub(super) middle: (f64, f64),
    /// Where its leader turns towards the point; the middle where it goes there straight.
    pub(super) elbow: (f64, f64),
}

/// Room for numbers: the page between `left` and `right`, the machine between `top` and `bottom` (y downwards).
#[derive(Clone, Copy, Debug)]
pub(super) struct Room {
    pub(super) left: f64,
    pub(super) right: f64,
    pub(super) top: f64,
    pub(super) bottom: f64,
    /// Radius of a number's circle.
    pub(super) radius: f64,
}

impl Room {
    /// How many numbers stand side by side in one row.
    fn in_a_row(&self) -> usize {
        (((self.right - self.left) / self.pitch()).floor() as usize).max(1)
    }
    /// Rows for so many numbers: a row by itself is not filled beyond three fifths, so that leaders stay steep.
    fn rows_for(&self, numbers: usize) -> usize {
        if numbers * 5 > self.in_a_row() * 3 {
            numbers.div_ceil(self.in_a_row()).max(2)
        } else {
            1
        }
    }
    /// From one number's middle to the next in a row.
    fn pitch(&self) -> f64 {
        self.radius * 2.3
    }
}

/// Places all numbers; returns them with the y of the highest and lowest row's outer edge.
///
/// Points in the upper half go above, the others below, as long as the rows fill evenly; within a side the numbers keep
/// the order of their points from left to right and are dealt over as many rows as are needed.
pub(super) fn place(mut wanted: Vec<Wanted>, room: Room) -> (Vec<Placed>, f64, f64) {
    wanted.sort_by(|a, b| a.at.1.total_cmp(&b.at.1).then(a.number.cmp(&b.number)));
    let middle = (room.top + room.bottom) / 2.0;
    let natural = wanted.iter().filter(|w| w.at.1 < middle).count();
    let least = wanted.len().saturating_sub(wanted.len() * 2 / 3);
    let above = natural.clamp(least.min(wanted.len()), (wanted.len() * 2).div_ceil(3));
    let below = wanted.split_off(above);
    let (mut placed, top) = one_side(wanted, room, true);
    let (under, bottom) = one_side(below, room, false);
    placed.extend(under);
    (placed, top, bottom)
}

fn one_side(mut wanted: Vec<Wanted>, room: Room, above: bool) -> (Vec<Placed>, f64) {
    let edge = if above { room.top } else { room.bottom };
    let away = if above { -1.0 } else { 1.0 };
    if wanted.is_empty() {
        return (Vec::new(), edge);
    }
    wanted.sort_by(|a, b| a.at.0.total_cmp(&b.at.0).then(a.number.cmp(&b.number)));
    let rows = room.rows_for(wanted.len());
    let y = |row: usize| edge + away * room.radius * (1.6 + 2.5 * row as f64);
    // Up to two rows the numbers of the outer stand over the gaps of the inner, and their leaders go straight through the gaps.
    // More rows than that are dealt out each by itself.
    let placed = if rows <= 2 {
        let xs = spread(&wishes(&wanted), room.pitch() / rows as f64, room);
        let gap = edge + away * room.radius * 0.4;
        let label = |(i, (wanted, x)): (usize, (Wanted, f64))| Placed {
            wanted,
            middle: (x, y(i % rows)),
            elbow: (x, gap),
        };
        wanted.into_iter().zip(xs).enumerate().map(label).collect()
    } else {
        let deal = |row: usize| {
            let own: Vec<Wanted> = wanted.iter().copied().skip(row).step_by(rows).collect();
            let xs = spread(&wishes(&own), room.pitch(), room);
            let label = move |(wanted, x)| Placed {
                wanted,
                middle: (x, y(row)),
                elbow: (x, y(row)),
            };
            own.into_iter().zip(xs).map(label).collect::<Vec<_>>()
        };
        (0..rows).flat_map(deal).collect()
    };
    (placed, y(rows - 1) + away * room.radius * 1.3)
}

fn wishes(wanted: &[Wanted]) -> Vec<f64> {
    wanted.iter().map(|w| w.at.0).collect()
}

/// Moves sorted wishes apart to at least `pitch`, as little as possible, inside the room: pooled averages, then clamped.
fn spread(wishes: &[f64], pitch: f64, room: Room) -> Vec<f64> {
    // Subtracting i pitches turns "at least a pitch apart" into "not decreasing": isotonic regression by pooling.
    let mut pools: Vec<(f64, usize)> = Vec::new();
    for (i, wish) in wishes.iter().enumerate() {
        pools.push((wish - pitch * i as f64, 1));
        while pools.len() > 1 && pools[pools.len() - 2].0 > pools[pools.len() - 1].0 {
            let (later, n) = pools.pop().expect("two pools are there");
            let (earlier, m) = pools.pop().expect("two pools are there");
            pools.push((
                (earlier * m as f64 + later * n as f64) / (m + n) as f64,
                m + n,
            ));
        }
    }
    let low = room.left + room.radius * 1.2;
    let high = (room.right - room.radius * 1.2 - pitch * (wishes.len() as f64 - 1.0)).max(low);
    let levels = pools
        .into_iter()
        .flat_map(|(level, n)| std::iter::repeat_n(level, n));
    levels
        .enumerate()
        .map(|(i, level)| level.clamp(low, high) + pitch * i as f64)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const ROOM: Room = Room {
        left: 0.0,
        right: 1000.0,
        top: 0.0,
        bottom: 400.0,
        radius: 20.0,
    };

    #[test]
    fn numbers_never_touch_and_stay_in_the_room() {
        let wanted: Vec<Wanted> = (0..60u32)
            .map(|n| Wanted {
                number: n,
                at: (500.0 + f64::from(n % 7), f64::from(n * 7 % 400)),
                strong: false,
            })
            .collect();
        let (placed, ..) = place(wanted, ROOM);
        assert_eq!(placed.len(), 60);
        for (i, a) in placed.iter().enumerate() {
            assert!(a.middle.0 >= 20.0 && a.middle.0 <= 980.0, "{a:?}");
            for b in &placed[i + 1..] {
                let (dx, dy) = (a.middle.0 - b.middle.0, a.middle.1 - b.middle.1);
                assert!(
                    dx * dx + dy * dy >= (2.0 * 20.0f64) * (2.0 * 20.0),
                    "{a:?} touches {b:?}"
                );
            }
        }
    }

    #[test]
    fn leaders_of_the_outer_row_pass_between_the_numbers_of_the_inner() {
        let wanted: Vec<Wanted> = (0..60u32)
            .map(|n| Wanted {
                number: n,
                at: (f64::from(n * 37 % 1000), f64::from(n * 7 % 400)),
                strong: false,
            })
            .collect();
        let (placed, ..) = place(wanted, ROOM);
        for outer in &placed {
            let passes = |other: &&Placed| {
                let between =
                    (other.middle.1 - outer.middle.1) * (other.middle.1 - outer.elbow.1) < 0.0;
                between && (other.middle.0 - outer.middle.0).abs() < 20.0
            };
            assert!(!placed.iter().any(|other| passes(&other)), "{outer:?}");
        }
    }

    #[test]
    fn a_lone_number_stands_straight_over_its_point() {
        let (placed, top, _) = place(
            vec![Wanted {
                number: 1,
                at: (300.0, 100.0),
                strong: true,
            }],
            ROOM,
        );
        assert_eq!(placed[0].middle, (300.0, -32.0));
        assert!(top < -32.0);
    }
}
