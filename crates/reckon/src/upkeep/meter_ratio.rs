//! How one meter runs against another, from readings of both at the same times.

use crate::leaf::leaf;
use crate::refusal::Refusal;

/// Two-sided 95 % points of Student's t for 1 to 30 degrees of freedom; beyond, 1.960 and a little more.
/// Source: the usual table, e.g. JCGM 100:2008, table G.2 (95 %), from memory.
const STUDENT: [f64; 30] = [
    12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.160,
    2.145, 2.131, 2.120, 2.110, 2.101, 2.093, 2.086, 2.080, 2.074, 2.069, 2.064, 2.060, 2.056,
    2.052, 2.048, 2.045, 2.042,
];

leaf! {
    "upkeep.meter_ratio" tries meter_ratio;
    inputs {
        from_advances: list ["h"] 0.0, 1e6;
        to_advances: list ["h"] 0.0, 1e6;
        from_step: number ["h"] 0.0, 10.0;
        to_step: number ["h"] 0.0, 10.0;
    }
    outputs |r| { ratio ["1"] = r.ratio; within r.half_width }
    source { "Cochran, Sampling Techniques: the ratio of two sums and its standard error", 1977, "sections 2.11 and 6.3", Memory }
}

/// Hours of one meter for an hour of another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeterRatio {
    /// The ratio.
    pub ratio: f64,
    /// Half the width of its 95 % interval.
    pub half_width: f64,
}

/// The ratio of two meters over the spans between readings of both.
///
/// - `from_advances`, `to_advances` \[h\]: how far each of the two meters moved in each span, in the same order.
/// - `from_step`, `to_step` \[h\]: the smallest step each shows.
///
/// Formula: R = sum of to / sum of from. Spread: s^2 = sum of (to - R from)^2 / (n - 1);
/// u^2 = n s^2 / (sum of from)^2 + 2 (to_step^2 + R^2 from_step^2) / 12 / (sum of from)^2 for the rounding of the first and
/// the last reading. Half width = t(n - 1) u, with Student's t at 95 %.
///
/// Range: two spans at least: from one nobody knows how much the ratio changes with the work.
///
/// # Errors
/// `WrongCount` where the lists differ in length or hold fewer than two spans; "meter-stands" where the first did not move.
///
/// Source: Cochran, Sampling Techniques, 3rd edition, 1977, from memory; rounding as JCGM 100:2008, 4.3.7.
pub fn meter_ratio(
    from_advances: &[f64],
    to_advances: &[f64],
    from_step: f64,
    to_step: f64,
) -> Result<MeterRatio, Refusal> {
    let count = from_advances.len();
    if count < 2 {
        return Err(Refusal::WrongCount {
            input: "from_advances",
            count,
        });
    }
    if to_advances.len() != count {
        return Err(Refusal::WrongCount {
            input: "to_advances",
            count: to_advances.len(),
        });
    }
    let moved: f64 = from_advances.iter().sum();
    if moved <= 0.0 {
        return Err(Refusal::Contradiction {
            what: "meter-stands",
        });
    }
    let ratio = to_advances.iter().sum::<f64>() / moved;
    let spans = from_advances.iter().zip(to_advances);
    let squares: f64 = spans
        .map(|(from, to)| (to - ratio * from) * (to - ratio * from))
        .sum();
    let (n, free) = (count as f64, count - 1);
    let spread = n * squares / free as f64;
    let rounding = 2.0 * (to_step * to_step + ratio * ratio * from_step * from_step) / 12.0;
    let student = STUDENT.get(free - 1).copied().unwrap_or(2.042);
    Ok(MeterRatio {
        ratio,
        half_width: student * (spread + rounding).sqrt() / moved,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_ratio_every_day_is_known_to_the_step() {
        let found = meter_ratio(&[10.0, 20.0, 30.0], &[8.0, 16.0, 24.0], 0.0, 0.0).unwrap();
        assert!((found.ratio - 0.8).abs() < 1e-12 && found.half_width < 1e-9);
        assert!(
            meter_ratio(&[10.0, 20.0], &[8.0, 16.0], 0.1, 0.1)
                .unwrap()
                .half_width
                > 0.0
        );
    }

    #[test]
    fn one_span_tells_no_ratio() {
        assert!(meter_ratio(&[10.0], &[8.0], 0.1, 0.1).is_err());
        assert!(meter_ratio(&[10.0, 2.0], &[8.0], 0.1, 0.1).is_err());
        assert!(meter_ratio(&[0.0, 0.0], &[1.0, 1.0], 0.1, 0.1).is_err());
    }
}
