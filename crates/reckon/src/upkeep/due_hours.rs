//! At which reading something is due again, and how far off that is.

use crate::leaf::leaf;

leaf! {
    "upkeep.due_hours" computes due_hours;
    inputs {
        last: number ["h"] 0.0, 1e7;
        interval: number ["h"] 0.0, 1e5;
        now: number ["h"] 0.0, 1e7;
    }
    outputs |r| { due ["h"] = r.due, remaining ["h"] = r.remaining }
    source { "Due from when it was last done, by definition", 0, "", Definition }
}

/// When something is due by the meter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DueHours {
    /// The life hours at which it is due, h.
    pub due: f64,
    /// Hours left, h; negative where overdue.
    pub remaining: f64,
}

/// Adds an interval to when a thing was last done.
///
/// - `last` \[h\]: life hours when it was really done, not when it should have been.
/// - `interval` \[h\]: hours between; 0 means at once.
/// - `now` \[h\]: life hours now.
///
/// Formula: due = last + interval; remaining = due - now.
///
/// Range: hours 0 to 10^7.
///
/// Source: definition; done late restarts from when it was done.
pub fn due_hours(last: f64, interval: f64, now: f64) -> DueHours {
    let due = last + interval;
    DueHours {
        due,
        remaining: due - now,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wet_day_halves_the_interval() {
        let due = due_hours(812.3, 4.0, 816.9);
        assert!((due.due - 816.3).abs() < 1e-9);
        assert!((due.remaining + 0.6).abs() < 1e-9);
    }

    #[test]
    fn late_restarts_from_when_it_was_done() {
        assert_eq!(due_hours(78.0, 50.0, 78.0).due, 128.0);
    }
}
