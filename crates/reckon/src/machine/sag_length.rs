//! How much longer than its span a sagging track or chain is.

use crate::leaf::leaf;

leaf! {
    "machine.sag_length" computes sag_length;
    inputs {
        span: number ["m"] 0.01, 1000.0;
        sag: number ["m"] 0.0, 125.0;
    }
    outputs |r| { extra ["mm"] = r.extra, length ["m"] = r.length }
    source { "F. P. Beer and others, Vector Mechanics for Engineers, sample problem 7.9", 0, "L (1 + 8/3 (s / L)^2)", Read }
}

/// The length of a sagging chain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SagLength {
    /// Beyond the span, mm.
    pub extra: f64,
    /// Whole, m.
    pub length: f64,
}

/// The length of a flat chain between its two points.
///
/// - `span` L \[m\], `sag` s \[m\] in the middle.
///
/// Formula: L + 8 s^2 / (3 L).
///
/// Range: sags up to an eighth of the span; there half a percent too much of the extra.
///
/// Source: Beer and Johnston, sample problem 7.9, read.
pub fn sag_length(span: f64, sag: f64) -> SagLength {
    let extra = 8.0 * sag * sag / (3.0 * span);
    SagLength {
        extra: extra * 1000.0,
        length: span + extra,
    }
}
