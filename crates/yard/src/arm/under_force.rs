//! What the rams carry under a force that is asked for.

use super::ArmOfBook;
use super::missing::Told;
use super::pose::loaded;
use super::record::PoseAsked;
use reckon::arm::force::Statics;
use reckon::arm::pose::Placed;
use reckon::arm::shape::Vector;

/// The thrust in boom, dipper and bucket ram with this force of the ground on the tooth, in newtons, in the arm's plane:
/// r outwards, z up. Whether rams, ground and weight could really stand against it is not asked here.
///
/// # Errors
/// Where shape or weights are not known, or the shape does not close in this pose.
pub fn thrusts_under(arm: &ArmOfBook, asked: &PoseAsked, force: Vector) -> Told<[f64; 3]> {
    let shape = loaded(arm, asked)?;
    let placed = Placed::at_lengths(&shape, asked.lengths)?;
    arm.weights?;
    Ok(Statics::hanging(&shape, placed)?.with_tooth_force(force))
}
