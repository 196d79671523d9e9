//! How far the idler must go, and how much grease that takes, to change a track's sag.

use core::f64::consts::PI;

use crate::leaf::leaf;

leaf! {
    "machine.track_adjuster" computes track_adjuster;
    inputs {
        span: number ["m"] 0.05, 20.0;
        spans: whole ["1"] 1.0, 12.0;
        sag_before: number ["mm"] 0.0, 2000.0;
        sag_after: number ["mm"] 0.0, 2000.0;
        piston: number ["mm"] 5.0, 500.0;
        density: number ["kg/L"] 0.5, 2.0;
        grams_per_stroke: number ["g"] 0.05, 50.0;
    }
    outputs |r| { slack ["mm"] = r.slack, idler ["mm"] = r.idler, grease ["g"] = r.grease, strokes ["1"] = r.strokes }
    source { "Length of a flat sagging chain; volume of a cylinder", 0, "", Definition }
}

/// What it takes to bring a track to another sag. Negative: grease is let out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrackAdjuster {
    /// Chain taken out of the hanging spans, mm.
    pub slack: f64,
    /// How far the idler goes out, mm.
    pub idler: f64,
    /// Grease that takes, g.
    pub grease: f64,
    /// Strokes of the gun.
    pub strokes: f64,
}

/// Travel of the idler, grease and strokes for a change of sag.
///
/// - `span` L \[m\] between rollers, `spans`: how many equal ones hang. `sag_before`, `sag_after` \[mm\].
/// - `piston` \[mm\]: of the adjuster. `density` \[kg/L\]: grease about 0.9. `grams_per_stroke`: of this gun, weighed.
///
/// Formula: slack = spans x 8 (s1^2 - s2^2) / (3 L); the idler goes half of it, for the chain runs over it and back;
/// grease = pi/4 d^2 x idler x density.
///
/// Range: flat sags, nothing packed between the teeth. The grease in an adjuster is under pressure: never loosen its fitting
/// further than its book allows.
///
/// Source: definition; the adjuster's fitting is for tension only: TM 5-3805-280-10, p. 11-6, read.
pub fn track_adjuster(
    span: f64,
    spans: u32,
    sag_before: f64,
    sag_after: f64,
    piston: f64,
    density: f64,
    grams_per_stroke: f64,
) -> TrackAdjuster {
    let squares = sag_before * sag_before - sag_after * sag_after;
    let slack = f64::from(spans) * 8.0 * squares / (3.0 * span * 1000.0);
    let idler = slack / 2.0;
    // A cubic millimetre is a thousandth of a millilitre; a kilogram a litre is a gram a millilitre.
    let grease = PI / 4.0 * piston * piston * idler / 1000.0 * density;
    TrackAdjuster {
        slack,
        idler,
        grease,
        strokes: grease / grams_per_stroke,
    }
}
