//! What is probably shut in in each ram of a parked arm.

use super::parked::Parked;
use crate::arm::force::hanging;
use crate::arm::shape::Side;
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.shut_in_pressures" tries shut_in_pressures;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        boom_ram: number ["m"] 0.01, 30.0;
        dipper_ram: number ["m"] 0.01, 30.0;
        bucket_ram: number ["m"] 0.01, 30.0;
        boom_pinned: yes_no ["1"] 0.0, 1.0;
    }
    outputs |r| {
        boom ["bar"] = r.bars[0],
        dipper ["bar"] = r.bars[1],
        bucket ["bar"] = r.bars[2],
        on_rod_side ["1"] = r.on_rod_side.map(|yes| f64::from(u8::from(yes))).to_vec(),
    }
    source { "Statics of the hanging arm; force over the squeezed area", 0, "", Definition }
}

/// What the arm's weight shuts in. Estimated; live until bled and gauged.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShutInPressures {
    /// Boom, dipper, bucket, in bar, the other side of each at nothing.
    pub bars: [f64; 3],
    /// True where it is the side with the rod.
    pub on_rod_side: [bool; 3],
}

/// The pressure that the weight of the hanging arm shuts in in each ram.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`](crate::arm::shape::ArmShape::to_numbers) gives it.
/// - `boom_ram`, `dipper_ram`, `bucket_ram` \[m\]: pin to pin.
/// - `boom_pinned`: the boom's transport pin is in: its ram carries nothing.
///
/// Formula: thrust over the area that is squeezed.
///
/// Range: the bucket free of the ground. A circuit may hold more, on both sides.
///
/// # Errors
/// Where a length does not close; "dead-centre" where a ram has no lever.
///
/// Source: statics, definition.
pub fn shut_in_pressures(
    arm: &[f64],
    boom_ram: f64,
    dipper_ram: f64,
    bucket_ram: f64,
    boom_pinned: bool,
) -> Result<ShutInPressures, Refusal> {
    let (shape, statics) = hanging(arm, [boom_ram, dipper_ram, bucket_ram])?;
    let parked = Parked::hanging(&shape, &statics, boom_pinned);
    Ok(ShutInPressures {
        bars: parked.rams.map(|ram| ram.pressure / 100_000.0),
        on_rod_side: parked.rams.map(|ram| ram.side == Side::Rod),
    })
}
