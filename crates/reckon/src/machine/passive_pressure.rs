//! The most that soil pushes back before it gives way.

use crate::leaf::leaf;

leaf! {
    "machine.passive_pressure" computes passive_pressure;
    inputs {
        from_above: number ["kPa"] 0.0, 10000.0;
        friction_angle: number ["°"] 0.0, 60.0;
        cohesion: number ["kPa"] 0.0, 2000.0;
    }
    outputs |kilopascals| { pressure ["kPa"] = kilopascals }
    source { "B. M. Das, Principles of Foundation Engineering", 0, "ex. 7.7, p. 342: Rankine's passive pressure", Read }
}

/// Rankine's passive pressure of soil on an upright face, in kilopascals.
///
/// - `from_above` \[kPa\]: weight of what lies above. `friction_angle` \[°\], `cohesion` \[kPa\]: of the soil.
///
/// Formula: K = tan^2(45 + angle / 2); from above x K + 2 cohesion sqrt(K).
///
/// Range: level ground, smooth face, soil that does not flow: an upper bound for a foot, a blade or a bucket.
///
/// Source: Das, ex. 7.7, read.
pub fn passive_pressure(from_above: f64, friction_angle: f64, cohesion: f64) -> f64 {
    let root = libm::tan((45.0 + friction_angle / 2.0).to_radians());
    from_above * root * root + 2.0 * cohesion * root
}
