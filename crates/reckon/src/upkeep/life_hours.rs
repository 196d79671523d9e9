//! Life hours: all meters a machine ever had, and the hours no meter saw.

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "upkeep.life_hours" tries life_hours;
    inputs {
        starts: list ["h"] 0.0, 1e7;
        ends: list ["h"] 0.0, 1e7;
        steps: list ["h"] 0.0, 10.0;
        unmetered: list ["h"] 0.0, 1e6;
        unmetered_half_widths: list ["h"] 0.0, 1e6;
    }
    outputs |r| { life ["h"] = r.hours; within r.half_width }
    source { "JCGM 100:2008, Guide to the expression of uncertainty in measurement", 2008, "4.3.7 (a reading rounded to a step), 5.1.2 eq. 10 (sum)", Memory }
}

/// Hours run since new, or since the book began.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LifeHours {
    /// The hours, h.
    pub hours: f64,
    /// Half the width of their 95 % interval, h.
    pub half_width: f64,
}

/// Adds up meter segments and declared unmetered hours.
///
/// - `starts`, `ends` \[h\]: first and last reading of each meter, in order; a meter that ran over is two segments.
/// - `steps` \[h\]: the smallest step each meter shows.
/// - `unmetered`, `unmetered_half_widths` \[h\]: hours run with no meter as somebody estimated them, and half the
///   width of the interval the person is 95 % sure of.
///
/// Formula: life = sum of (end - start) + sum of unmetered. A reading may be off by half a step either way, evenly
/// spread: u = step / sqrt(12) for each of the two readings. Half width = 2 u for all of it, added as squares:
/// U^2 = sum of (2^2 x 2 x step^2 / 12) + sum of unmetered half widths^2.
///
/// Range: any number of segments from one on; readings 0 to 10^7 h.
///
/// # Errors
/// `WrongCount` where lists that belong together differ in length or there is no segment at all;
/// "reading-below-last" where a segment ends below its start.
///
/// Source: JCGM 100:2008, 4.3.7 and 5.1.2, from memory; the sum itself is a definition.
pub fn life_hours(
    starts: &[f64],
    ends: &[f64],
    steps: &[f64],
    unmetered: &[f64],
    unmetered_half_widths: &[f64],
) -> Result<LifeHours, Refusal> {
    same_count("ends", ends, starts)?;
    same_count("steps", steps, starts)?;
    same_count("unmetered_half_widths", unmetered_half_widths, unmetered)?;
    if starts.is_empty() {
        return Err(Refusal::WrongCount {
            input: "starts",
            count: 0,
        });
    }
    if starts.iter().zip(ends).any(|(start, end)| end < start) {
        return Err(Refusal::Contradiction {
            what: "reading-below-last",
        });
    }
    let metered: f64 = starts
        .iter()
        .zip(ends)
        .map(|(start, end)| end - start)
        .sum();
    let declared: f64 = unmetered.iter().sum();
    let from_steps: f64 = steps
        .iter()
        .map(|step| 4.0 * 2.0 * step * step / 12.0)
        .sum();
    let from_estimates: f64 = unmetered_half_widths.iter().map(|half| half * half).sum();
    Ok(LifeHours {
        hours: metered + declared,
        half_width: (from_steps + from_estimates).sqrt(),
    })
}

fn same_count(input: &'static str, list: &[f64], other: &[f64]) -> Result<(), Refusal> {
    if list.len() == other.len() {
        Ok(())
    } else {
        Err(Refusal::WrongCount {
            input,
            count: list.len(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_replaced_meter_goes_on_counting() {
        let life = life_hours(&[0.0, 0.0], &[700.4, 88.2], &[0.1, 0.1], &[12.0], &[6.0]).unwrap();
        assert!((life.hours - 800.6).abs() < 1e-9);
        assert!((life.half_width - 6.0).abs() < 0.002);
    }

    #[test]
    fn an_hour_is_not_lost_between_segments() {
        let whole = life_hours(&[0.0], &[700.4], &[0.1], &[], &[])
            .unwrap()
            .hours;
        let split = life_hours(&[0.0, 312.7], &[312.7, 700.4], &[0.1, 0.1], &[], &[])
            .unwrap()
            .hours;
        assert!((whole - split).abs() < 1e-9);
    }

    #[test]
    fn a_segment_that_falls_is_refused() {
        let fallen = life_hours(&[700.4], &[0.0], &[0.1], &[], &[]);
        assert_eq!(
            fallen,
            Err(Refusal::Contradiction {
                what: "reading-below-last"
            })
        );
        assert!(life_hours(&[], &[], &[], &[], &[]).is_err());
    }
}
