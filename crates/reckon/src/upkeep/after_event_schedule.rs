//! Checks that start again with an event: close together at first, then further apart.

use crate::leaf::leaf;
use crate::refusal::Refusal;
use crate::whole::wholes_in;

/// More checks than this in the first stretch is a slip in the book.
const MOST_FIRST: f64 = 1000.0;

leaf! {
    "upkeep.after_event_schedule" tries after_event_schedule;
    inputs {
        event: number ["h"] 0.0, 1e7;
        first_interval: number ["h"] 0.1, 1e5;
        first_span: number ["h"] 0.0, 1e5;
        then_interval: number ["h"] 0.1, 1e5;
        later: whole ["1"] 0.0, 100.0;
    }
    outputs |checks| { checks ["h"] = checks }
    source { "Maker's rule for wheel nuts: every 10 h for the first 50 h, then each 100 to 150 h", 0, "", Read }
}

/// The life hours at which a thing is to be checked after an event such as a wheel put back.
///
/// - `event` \[h\]: life hours at the event.
/// - `first_interval` \[h\]: between the first checks; `first_span` \[h\]: for how long.
/// - `then_interval` \[h\]: between the later checks, from the last of the first ones on.
/// - `later`: how many of the later checks to give.
///
/// Formula: event + k x first interval for k = 1 .. floor(first span / first interval), then that last one
/// + m x then interval for m = 1 .. later.
///
/// Range: intervals from 0.1 h up.
///
/// # Errors
/// "too-many-checks" where the first stretch would hold more than 1000.
///
/// Source: a tractor maker's rule for wheel nuts, read; name of the maker withheld.
pub fn after_event_schedule(
    event: f64,
    first_interval: f64,
    first_span: f64,
    then_interval: f64,
    later: u32,
) -> Result<Vec<f64>, Refusal> {
    let first = wholes_in(first_span / first_interval);
    if first > MOST_FIRST {
        return Err(Refusal::Contradiction {
            what: "too-many-checks",
        });
    }
    let mut checks: Vec<f64> = (1..=first as u32)
        .map(|k| event + f64::from(k) * first_interval)
        .collect();
    let from = event + first * first_interval;
    checks.extend((1..=later).map(|m| from + f64::from(m) * then_interval));
    Ok(checks)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wheel_nuts() {
        let checks = after_event_schedule(640.0, 10.0, 50.0, 100.0, 1).unwrap();
        assert_eq!(checks, [650.0, 660.0, 670.0, 680.0, 690.0, 790.0]);
    }

    #[test]
    fn tenths_do_not_lose_a_check() {
        assert_eq!(
            after_event_schedule(0.0, 0.1, 0.3, 1.0, 0).unwrap().len(),
            3
        );
        assert!(after_event_schedule(0.0, 0.1, 1e5, 1.0, 0).is_err());
    }
}
