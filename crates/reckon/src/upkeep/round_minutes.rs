//! How long a walk-round takes.

use crate::leaf::leaf;

leaf! {
    "upkeep.round_minutes" computes round_minutes;
    inputs {
        point_seconds: list ["s"] 0.0, 7200.0;
        walk: number ["m"] 0.0, 10000.0;
        walking_speed: number ["m/s"] 0.1, 3.0;
    }
    outputs |minutes| { minutes ["min"] = minutes }
    source { "Time at the points and time on foot, by definition", 0, "", Definition }
}

/// Minutes one round takes.
///
/// - `point_seconds` \[s\]: time at each point due.
/// - `walk` \[m\]: length of the lap.
/// - `walking_speed` \[m/s\]: on foot, round a machine, looking.
///
/// Formula: (sum of seconds + walk / speed) / 60.
///
/// Range: speeds from 0.1 to 3 m/s.
///
/// Source: definition.
pub fn round_minutes(point_seconds: &[f64], walk: f64, walking_speed: f64) -> f64 {
    (point_seconds.iter().sum::<f64>() + walk / walking_speed) / 60.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn looking_and_walking() {
        assert!((round_minutes(&[30.0, 45.0], 21.0, 1.4) - 1.5).abs() < 1e-9);
    }
}
