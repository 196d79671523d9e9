//! The arm left in a pose: what is shut in, what bleeding one circuit does, and each ram as a column.

use super::ArmOfBook;
use super::missing::{Missing, MissingCode, NotKnown, Told};
use super::record::{AtRest, BledRam, ColumnRecord};
use reckon::arm::force::Statics;
use reckon::arm::pose::Placed;
use reckon::arm::rest::{Parked, bled, flat_on_the_ground, rankine};
use reckon::arm::shape::{ArmShape, Joint, Vector};

/// So near the ground counts as touching it, in metres.
const TOUCHES: f64 = 0.02;
/// Where the steel of a chromed rod yields, in pascals. Common practice, from memory.
const ROD_YIELDS: f64 = 420e6;

/// The arm left so.
pub(super) fn left_so(arm: &ArmOfBook, shape: &ArmShape, statics: &Told<Statics>) -> Told<AtRest> {
    arm.weights?;
    arm.sizes[0].and(arm.sizes[1]).and(arm.sizes[2])?;
    let statics = statics.as_ref().map_err(|why| *why)?;
    let hanging = Parked::hanging(shape, statics, false);
    let touches = touches(&statics.placed);
    let both =
        touches.is_some() && on_ground(statics.placed.tooth) && on_ground(statics.placed.heel);
    Ok(AtRest {
        shut_in: hanging.rams,
        boom_pinned: Parked::hanging(shape, statics, true).rams,
        highest: hanging.highest(),
        lock_moment: statics.gravity[0],
        touches,
        bled: Joint::ALL.map(|joint| {
            let contact = touches.ok_or(NotKnown::NotOnTheGround)?;
            after(shape, statics, contact, joint)
        }),
        flat: both.then(|| flat_on_the_ground(statics)).flatten(),
    })
}

fn on_ground(point: Vector) -> bool {
    point.z.abs() <= TOUCHES
}

/// Where the bucket touches: the tooth, the heel, or the middle of the plate between them.
fn touches(placed: &Placed) -> Option<Vector> {
    let (tooth, heel) = (placed.tooth, placed.heel);
    match (on_ground(tooth), on_ground(heel)) {
        (true, true) => Some((tooth + heel) * 0.5),
        (true, false) => Some(tooth),
        (false, true) => Some(heel),
        (false, false) => None,
    }
}

fn after(shape: &ArmShape, statics: &Statics, contact: Vector, joint: Joint) -> Told<BledRam> {
    let bled = bled(statics, contact, joint).map_err(|_| NotKnown::ArmWouldMove)?;
    let turned = [0, 1, 2].map(|ram| statics.hanging[ram] * bled.thrusts[ram] < 0.0);
    Ok(BledRam {
        joint,
        load: bled.load,
        rams: Parked::with_thrusts(shape, bled.thrusts).rams,
        turned,
    })
}

/// A ram as a column at its length.
pub(super) fn column(
    arm: &ArmOfBook,
    shape: &ArmShape,
    joint: Joint,
    placed: &Placed,
) -> Told<ColumnRecord> {
    let (index, ram) = (joint.index(), shape.ram(joint));
    let column = arm.columns[index].as_ref().map_err(|why| *why)?;
    let length = placed.grips[index].length;
    let unsound = NotKnown::Unsound(Missing::of(MissingCode::Gland, joint.code()));
    // Of rams side by side each carries its share.
    let critical = column.critical(length).ok_or(unsound)? * f64::from(ram.count);
    Ok(ColumnRecord {
        critical,
        rod_only: column.rod_only(length) * f64::from(ram.count),
        rankine: rankine(critical, column.squash(ROD_YIELDS) * f64::from(ram.count)),
        reserve_working: arm.supplies[index].map(|()| critical / ram.working().0),
        reserve_holding: arm.reliefs[index].map(|()| critical / ram.holding().0),
    })
}
