//! Hours or calendar, whichever comes first.

use crate::leaf::leaf;

leaf! {
    "upkeep.due_first" computes due_first;
    inputs {
        hours_since: number ["h"] 0.0, 1e6;
        hours_interval: number ["h"] 0.1, 1e5;
        days_since: number ["d"] 0.0, 40000.0;
        days_interval: number ["d"] 0.1, 40000.0;
    }
    outputs |r| {
        hours_left ["h"] = r.hours_left,
        days_left ["d"] = r.days_left,
        share_used ["1"] = r.share_used,
        days_govern ["1"] = r.days_govern,
        due ["1"] = r.due,
    }
    source { "US Department of the Army, TM 5-2420-231-10 and -23-2", 0, "whichever of hours and calendar comes first", Read }
}

/// What is left of an interval given in hours and in days.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DueFirst {
    /// Hours left, h; negative where over.
    pub hours_left: f64,
    /// Days left, d; negative where over.
    pub days_left: f64,
    /// The larger share of its interval used, of hours and days.
    pub share_used: f64,
    /// True where it is the days that have used the larger share.
    pub days_govern: bool,
    /// True where either interval is used up.
    pub due: bool,
}

/// Takes whichever of hours and days comes first.
///
/// - `hours_since` \[h\], `days_since` \[d\]: since it was last done.
/// - `hours_interval` \[h\], `days_interval` \[d\]: what is allowed between.
///
/// Formula: left = interval - since, for each; used = since / interval, for each; the larger share governs, hours
/// on a tie; due where that share is 1 or more. The calendar counts even where the meter does not move.
///
/// Range: intervals from 0.1 up.
///
/// Source: US Army operator's manuals, whichever occurs first, read.
pub fn due_first(
    hours_since: f64,
    hours_interval: f64,
    days_since: f64,
    days_interval: f64,
) -> DueFirst {
    let by_hours = hours_since / hours_interval;
    let by_days = days_since / days_interval;
    let share_used = by_hours.max(by_days);
    DueFirst {
        hours_left: hours_interval - hours_since,
        days_left: days_interval - days_since,
        share_used,
        days_govern: by_days > by_hours,
        due: share_used >= 1.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_calendar_counts_where_the_meter_stands() {
        let due = due_first(6.5, 50.0, 730.0, 365.0);
        assert_eq!((due.hours_left, due.days_left), (43.5, -365.0));
        assert!(due.due && due.days_govern);
    }

    #[test]
    fn hours_govern_on_a_tie() {
        let due = due_first(25.0, 50.0, 15.0, 30.0);
        assert!(!due.days_govern && !due.due);
        assert_eq!(due.share_used, 0.5);
    }
}
