//! The mean of several spans, as a track rule asks for it.

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "machine.span_mean" tries span_mean;
    inputs {
        spans: list ["mm"] 0.0, 100000.0;
        reading_half_width: number ["mm"] 0.0, 1000.0;
    }
    outputs |r| { mean ["mm"] = r.mean; within r.half_width, least ["mm"] = r.least, greatest ["mm"] = r.greatest }
    source { "US Department of the Army, TM 5-2410-240-10", 0, "track adjustment, mean of two spans", Read }
}

/// The mean of spans, and the two that lie furthest apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpanMean {
    /// The mean, mm.
    pub mean: f64,
    /// Half the width of the mean's 95 % interval, from reading alone, mm.
    pub half_width: f64,
    /// The least span, mm.
    pub least: f64,
    /// The greatest span, mm.
    pub greatest: f64,
}

/// The mean of spans, with what reading them adds to its uncertainty.
///
/// - `spans` \[mm\]: one reading for each span.
/// - `reading_half_width` \[mm\]: half the width of the 95 % interval of one reading.
///
/// Formula: mean = sum / n; half width = that of one reading / sqrt(n), the readings being independent. That the
/// spans really differ is no error of measurement and does not widen it.
///
/// Range: one span or more.
///
/// # Errors
/// `WrongCount` where there is no span.
///
/// Source: TM 5-2410-240-10 for the rule, read; JCGM 100:2008, 5.1.2, from memory.
pub fn span_mean(spans: &[f64], reading_half_width: f64) -> Result<SpanMean, Refusal> {
    if spans.is_empty() {
        return Err(Refusal::WrongCount {
            input: "spans",
            count: 0,
        });
    }
    let count = spans.len() as f64;
    Ok(SpanMean {
        mean: spans.iter().sum::<f64>() / count,
        half_width: reading_half_width / count.sqrt(),
        least: spans.iter().copied().fold(f64::INFINITY, f64::min),
        greatest: spans.iter().copied().fold(f64::NEG_INFINITY, f64::max),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_span_under_the_limit_may_have_a_good_mean() {
        let mean = span_mean(&[25.4, 38.1], 1.0).unwrap();
        assert!((mean.mean - 31.75).abs() < 1e-9);
        assert!((mean.half_width - core::f64::consts::FRAC_1_SQRT_2).abs() < 1e-9);
        assert_eq!((mean.least, mean.greatest), (25.4, 38.1));
    }

    #[test]
    fn no_span_no_mean() {
        assert!(span_mean(&[], 1.0).is_err());
    }
}
