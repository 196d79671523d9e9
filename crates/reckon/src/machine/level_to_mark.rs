//! An oil level brought to the pose, warmth and attachments its mark belongs to; and whether the tank runs over.

use core::f64::consts::PI;

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "machine.level_to_mark" tries level_to_mark;
    inputs {
        over_mark: number ["mm"] -10000.0, 10000.0;
        tank_length: number ["mm"] 10.0, 10000.0;
        tank_width: number ["mm"] 10.0, 10000.0;
        rod_diameters: list ["mm"] 1.0, 1000.0;
        out_now: list ["mm"] 0.0, 20000.0;
        out_at_mark: list ["mm"] 0.0, 20000.0;
        oil: number ["L"] 0.0, 100000.0;
        warmer: number ["K"] -150.0, 150.0;
        expansion: number ["1/K"] 0.0, 0.01;
        in_attachments: number ["L"] -10000.0, 10000.0;
        top_over_mark: number ["mm"] 0.0, 10000.0;
    }
    outputs |r| {
        drop_by_rods ["mm"] = r.drop_by_rods,
        rise_by_warmth ["mm"] = r.rise_by_warmth,
        over_mark_at_reference ["mm"] = r.over_mark,
        oil_over_mark ["L"] = r.litres,
        with_rods_in ["mm"] = r.with_rods_in,
        runs_over ["1"] = r.runs_over,
    }
    source { "Volume of a cylinder; expansion of mineral oil: M. G. Rabie, Fluid Power Engineering", 2009, "p. 37", Read }
}

/// A level as it would be where the mark belongs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LevelToMark {
    /// How far the level fell because rods came out since the mark's pose, mm.
    pub drop_by_rods: f64,
    /// How far it rose because the oil is warmer than the mark wants, mm.
    pub rise_by_warmth: f64,
    /// Over the mark in its own pose, warmth and with its own attachments, mm.
    pub over_mark: f64,
    /// Oil over the mark there, L; negative for what is missing.
    pub litres: f64,
    /// Over the mark when every rod comes in now, as warm as it is, mm.
    pub with_rods_in: f64,
    /// True where that is over the top.
    pub runs_over: bool,
}

/// Corrects a level to its mark, and tells how high it would stand with all rods in.
///
/// - `over_mark` \[mm\]: as read. `tank_length`, `tank_width` \[mm\]: plan at the mark.
/// - `rod_diameters`, `out_now`, `out_at_mark` \[mm\]: rod by rod, twins twice; how far out now and in the mark's pose.
/// - `oil` \[L\]: all oil of the system. `warmer` \[K\]: than the mark wants. `expansion` \[1/K\]: mineral oil 0.0007.
/// - `in_attachments` \[L\]: oil that went into attachments the mark does not count on.
/// - `top_over_mark` \[mm\]: from the mark to where it runs over.
///
/// Formula: at reference = read + rods' volume out / plan + attachments / plan - oil x expansion x warmer / plan; with rods
/// in = read + all rods' volume still out / plan.
///
/// Range: upright walls, rams with one rod.
///
/// # Errors
/// `WrongCount` where the lists differ in length.
///
/// Source: definition; expansion: Rabie 2009, p. 37, read.
#[expect(
    clippy::too_many_arguments,
    reason = "a tank, its rods and its oil, each number with its own name in the leaf"
)]
pub fn level_to_mark(
    over_mark: f64,
    tank_length: f64,
    tank_width: f64,
    rod_diameters: &[f64],
    out_now: &[f64],
    out_at_mark: &[f64],
    oil: f64,
    warmer: f64,
    expansion: f64,
    in_attachments: f64,
    top_over_mark: f64,
) -> Result<LevelToMark, Refusal> {
    for (input, list) in [("out_now", out_now), ("out_at_mark", out_at_mark)] {
        if list.len() != rod_diameters.len() {
            return Err(Refusal::WrongCount {
                input,
                count: list.len(),
            });
        }
    }
    let plan = tank_length * tank_width;
    let height_of = |out: &[f64]| {
        let rods = rod_diameters.iter().zip(out);
        rods.map(|(rod, out)| PI / 4.0 * rod * rod * out / plan)
            .sum::<f64>()
    };
    let (now, at_mark) = (height_of(out_now), height_of(out_at_mark));
    let of_litres = |litres: f64| litres * 1e6 / plan;
    let rise_by_warmth = of_litres(oil * expansion * warmer);
    let reference = over_mark + (now - at_mark) + of_litres(in_attachments) - rise_by_warmth;
    let with_rods_in = over_mark + now;
    Ok(LevelToMark {
        drop_by_rods: now - at_mark,
        rise_by_warmth,
        over_mark: reference,
        litres: reference * plan / 1e6,
        with_rods_in,
        runs_over: with_rods_in > top_over_mark,
    })
}
