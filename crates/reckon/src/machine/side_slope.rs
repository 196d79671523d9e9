//! A machine leaning on a side slope: how far from tipping, how far from sliding.

use crate::leaf::leaf;

leaf! {
    "machine.side_slope" computes side_slope;
    inputs {
        height: number ["m"] 0.01, 20.0;
        to_lower: number ["m"] 0.01, 20.0;
        to_upper: number ["m"] 0.01, 20.0;
        slope: number ["°"] 0.0, 60.0;
        friction: number ["1"] 0.01, 2.0;
    }
    outputs |r| {
        tips_at ["°"] = r.tips_at,
        slides_at ["°"] = r.slides_at,
        tipping_margin ["1"] = r.tipping_margin,
        sliding_margin ["1"] = r.sliding_margin,
        lower_share ["1"] = r.lower_share,
    }
    source { "Statics: the weight passes through the lower edge; Coulomb friction", 0, "", Definition }
}

/// A machine on a side slope.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SideSlope {
    /// The slope at which it tips, degrees.
    pub tips_at: f64,
    /// The slope at which it slides, degrees.
    pub slides_at: f64,
    /// Share of what keeps it upright that is left: 1 on the level, 0 where it tips.
    pub tipping_margin: f64,
    /// Share of its grip that is left: 1 on the level, 0 where it slides.
    pub sliding_margin: f64,
    /// Share of the load on the lower supports; above 1 it has tipped.
    pub lower_share: f64,
}

/// How near to tipping and to sliding a machine stands on a slope that falls to one side.
///
/// - `height` h \[m\]: of the centre of all weights over the ground. `to_lower` b, `to_upper` \[m\]: from it to the lines of
///   the lower and the upper supports. `slope` \[°\]. `friction`: share of the load that holds.
///
/// Formula: tips at atan(b / h), slides at atan(friction); margins 1 - h tan(slope) / b and 1 - tan(slope) / friction;
/// lower share (to_upper + h tan) / (to_lower + to_upper).
///
/// Range: standing still on ground that does not give. A wheel in a hole, a swung arm or a load take most of a margin away.
///
/// Source: statics; Coulomb friction, definition.
pub fn side_slope(
    height: f64,
    to_lower: f64,
    to_upper: f64,
    slope: f64,
    friction: f64,
) -> SideSlope {
    let fall = libm::tan(slope.to_radians());
    SideSlope {
        tips_at: libm::atan(to_lower / height).to_degrees(),
        slides_at: libm::atan(friction).to_degrees(),
        tipping_margin: 1.0 - height * fall / to_lower,
        sliding_margin: 1.0 - fall / friction,
        lower_share: (to_upper + height * fall) / (to_lower + to_upper),
    }
}
