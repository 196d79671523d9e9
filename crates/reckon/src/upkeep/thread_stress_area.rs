//! The cross-section of a thread that carries the load.

use crate::leaf::leaf;
use std::f64::consts::FRAC_PI_4;

leaf! {
    "upkeep.thread_stress_area" computes thread_stress_area;
    inputs {
        diameter: number ["mm"] 1.0, 150.0;
        pitch: number ["mm"] 0.2, 8.0;
        unified: yes_no ["1"] 0.0, 1.0;
    }
    outputs |area| { area ["mm²"] = area }
    source { "ISO 898-1 (metric) and SAE J429 (inch), stress areas", 2013, "pi/4 (d - 0.9382 p)^2; inch pi/4 (d - 0.9743/n)^2", Read }
}

/// The stress area of a screw thread, mm².
///
/// - `diameter` d \[mm\]: nominal.
/// - `pitch` p \[mm\]: from thread to thread; an inch thread of n to the inch has 25.4/n.
/// - `unified`: an inch thread.
///
/// Formula: pi/4 (d - 0.9382 p)^2; inch threads 0.9743 for 0.9382.
///
/// Range: 1 to 150 mm, pitch to 8 mm.
///
/// Source: ISO 898-1 and SAE J429; the printed areas of M8 to M24 come out within 0.4 %.
pub fn thread_stress_area(diameter: f64, pitch: f64, unified: bool) -> f64 {
    let depth = if unified { 0.9743 } else { 0.9382 };
    let across = (diameter - depth * pitch).max(0.0);
    FRAC_PI_4 * across * across
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_printed_areas_come_out() {
        // ISO 898-1, coarse threads, mm².
        let printed = [
            (8.0, 1.25, 36.6),
            (10.0, 1.5, 58.0),
            (12.0, 1.75, 84.3),
            (14.0, 2.0, 115.0),
            (16.0, 2.0, 157.0),
            (18.0, 2.5, 192.0),
            (20.0, 2.5, 245.0),
            (22.0, 2.5, 303.0),
            (24.0, 3.0, 353.0),
        ];
        for (diameter, pitch, area) in printed {
            let ours = thread_stress_area(diameter, pitch, false);
            assert!((ours / area - 1.0).abs() < 0.004, "M{diameter}: {ours}");
        }
    }
}
