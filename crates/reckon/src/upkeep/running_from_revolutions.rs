//! Running hours from a counter of revolutions, by the share of the time at idle.

use crate::leaf::leaf;

leaf! {
    "upkeep.running_from_revolutions" computes running_from_revolutions;
    inputs {
        counted: number ["h"] 0.0, 1e7;
        base_speed: number ["rpm"] 100.0, 10000.0;
        idle_speed: number ["rpm"] 100.0, 10000.0;
        working_speed: number ["rpm"] 100.0, 10000.0;
        idle_share: number ["1"] 0.0, 1.0;
    }
    outputs |hours| { life ["h"] = hours }
    source { "A counter of revolutions shows an hour for as many turns as the engine makes in an hour at its base speed, by definition", 0, "", Definition }
}

/// Running hours behind the hours of a counter of revolutions.
///
/// - `counted` \[h\]: what the counter shows.
/// - `base_speed` \[rpm\]: the speed at which it counts an hour in an hour.
/// - `idle_speed`, `working_speed` \[rpm\]: what the engine turns at idle and at work.
/// - `idle_share`: share of the running time at idle, 0 to 1, with its ±.
///
/// Formula: counted in a running hour = (share x idle + (1 - share) x working) / base; running = counted / that.
///
/// Range: speeds 100 to 10 000 rpm.
///
/// Source: definition of the instrument. Between idle and work there are other speeds; the ± of the share must hold them.
pub fn running_from_revolutions(
    counted: f64,
    base_speed: f64,
    idle_speed: f64,
    working_speed: f64,
    idle_share: f64,
) -> f64 {
    let mean = idle_share * idle_speed + (1.0 - idle_share) * working_speed;
    counted * base_speed / mean
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_hour_at_base_speed_is_an_hour() {
        assert!((running_from_revolutions(1.0, 1500.0, 800.0, 1500.0, 0.0) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_day_at_idle_counts_half() {
        assert!((running_from_revolutions(4.0, 1500.0, 750.0, 2000.0, 1.0) - 8.0).abs() < 1e-12);
    }
}
