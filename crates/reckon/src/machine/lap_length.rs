//! The shortest lap through all stations of a machine.

use crate::leaf::leaf;
use crate::refusal::Refusal;
use crate::shortest_walk::{Walk, shortest_walk};

leaf! {
    "machine.lap_length" tries lap_length;
    inputs {
        distances: list ["m"] 0.0, 1e7;
        back_to_start: yes_no ["1"] 0.0, 1.0;
    }
    outputs |walk| {
        length ["m"] = walk.length,
        order ["1"] = walk.order.iter().map(|&station| station as f64 + 1.0).collect::<Vec<f64>>(),
        proven ["1"] = walk.proven,
    }
    source { "M. Held, R. M. Karp, A dynamic programming approach to sequencing problems", 1962, "J. SIAM 10, 196-210", Memory }
}

/// The shortest walk from the first station through all others.
///
/// - `distances` \[m\]: the way between each two stations, row by row, n x n numbers, the same both ways; the first
///   station is where the lap starts.
/// - `back_to_start`: must the lap end where it began?
///
/// Formula: the shortest of all orders, proven (Held and Karp 1962) up to [`crate::PROVEN_UP_TO`] stations; above
/// that a good order that is not proven to be the shortest, and says so.
///
/// Range: 1 to 64 stations.
///
/// # Errors
/// `WrongCount` where the numbers make no square of 1 to 64; "distance-to-itself" where a station is away from
/// itself; "distances-one-way" where there and back differ.
///
/// Source: Held and Karp 1962, J. SIAM 10, 196-210, from memory.
pub fn lap_length(distances: &[f64], back_to_start: bool) -> Result<Walk, Refusal> {
    let count = distances.len();
    let wrong = Refusal::WrongCount {
        input: "distances",
        count,
    };
    let stations = (1..=64).find(|n| n * n == count).ok_or(wrong)?;
    let between = |from: usize, to: usize| distances[from * stations + to];
    for from in 0..stations {
        if between(from, from) != 0.0 {
            return Err(Refusal::Contradiction {
                what: "distance-to-itself",
            });
        }
        if (0..from).any(|to| between(from, to) != between(to, from)) {
            return Err(Refusal::Contradiction {
                what: "distances-one-way",
            });
        }
    }
    Ok(shortest_walk(stations, &between, back_to_start))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn round_a_square_and_along_it() {
        let side = [
            0.0, 1.0, 2.0, 1.0, 1.0, 0.0, 1.0, 2.0, 2.0, 1.0, 0.0, 1.0, 1.0, 2.0, 1.0, 0.0,
        ];
        assert_eq!(lap_length(&side, true).unwrap().length, 4.0);
        let open = lap_length(&side, false).unwrap();
        assert_eq!(
            (open.length, open.order.as_slice()),
            (3.0, [0, 1, 2, 3].as_slice())
        );
    }

    #[test]
    fn what_is_no_table_of_distances_is_refused() {
        assert!(lap_length(&[], true).is_err());
        assert!(lap_length(&[0.0, 1.0], true).is_err());
        assert!(lap_length(&[0.0, 1.0, 2.0, 0.0], true).is_err());
        assert!(lap_length(&[1.0], true).is_err());
    }
}
