//! How many days are left until something is due by the calendar.

use crate::leaf::leaf;

leaf! {
    "upkeep.due_days" computes due_days;
    inputs {
        days_since: number ["d"] 0.0, 40000.0;
        interval: number ["d"] 0.0, 40000.0;
    }
    outputs |days| { remaining ["d"] = days }
    source { "Due from when it was last done, by definition", 0, "", Definition }
}

/// Days left until something is due; negative where overdue.
///
/// - `days_since` \[d\]: days since it was really done.
/// - `interval` \[d\]: days between.
///
/// Formula: remaining = interval - days since. Days are counted by the calendar, above this layer.
///
/// Range: 0 to 40 000 days.
///
/// Source: definition.
pub fn due_days(days_since: f64, interval: f64) -> f64 {
    interval - days_since
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_month_unseen_is_due() {
        assert_eq!(due_days(30.0, 30.0), 0.0);
        assert_eq!(due_days(31.0, 30.0), -1.0);
    }
}
