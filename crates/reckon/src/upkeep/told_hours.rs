//! Life hours of a machine without a meter: what people told, added up.

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "upkeep.told_hours" tries told_hours;
    inputs {
        told: list ["h"] 0.0, 1e6;
        half_widths: list ["h"] 0.0, 1e6;
    }
    outputs |r| { life ["h"] = r.hours; within r.half_width }
    source { "JCGM 100:2008, Guide to the expression of uncertainty in measurement", 2008, "5.1.2 eq. 10 (sum)", Memory }
}

/// Hours told.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToldHours {
    /// The hours, h.
    pub hours: f64,
    /// Half the width of their 95 % interval, h.
    pub half_width: f64,
}

/// Adds up hours as people told them.
///
/// - `told`, `half_widths` \[h\]: the hours of each telling, and half the width of the interval the person is 95 % sure of.
///
/// Formula: life = sum of told; half width^2 = sum of half widths^2, as the tellings are independent.
///
/// Range: one telling at least.
///
/// # Errors
/// `WrongCount` where the lists differ in length or nothing was told.
///
/// Source: JCGM 100:2008, 5.1.2, from memory.
pub fn told_hours(told: &[f64], half_widths: &[f64]) -> Result<ToldHours, Refusal> {
    let count = |input, count| Err(Refusal::WrongCount { input, count });
    if told.is_empty() {
        return count("told", told.len());
    }
    if half_widths.len() != told.len() {
        return count("half_widths", half_widths.len());
    }
    let squares: f64 = half_widths.iter().map(|half| half * half).sum();
    Ok(ToldHours {
        hours: told.iter().sum(),
        half_width: squares.sqrt(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_and_four_are_known_to_five() {
        let life = told_hours(&[2.0, 6.0], &[3.0, 4.0]).unwrap();
        assert!((life.hours - 8.0).abs() < 1e-12 && (life.half_width - 5.0).abs() < 1e-12);
        assert!(told_hours(&[], &[]).is_err() && told_hours(&[1.0], &[]).is_err());
    }
}
