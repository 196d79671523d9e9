//! What bleeding one circuit does to the other two while the bucket rests on the ground.

use crate::arm::force::{LinkPoint, Statics};
use crate::arm::shape::{Joint, ShapeTrouble, Vector};

/// The arm after one circuit was bled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bled {
    /// The load on the ground, in newtons, straight up on the bucket.
    pub load: f64,
    /// The thrust in each ram; nothing in the one that was bled.
    pub thrusts: [f64; 3],
}

/// The thrust in each ram once this joint's circuit is bled, the bucket touching the ground at `contact` (P).
///
/// The bled ram carries nothing, so the ground must: N = (dV/d theta) / (x_contact - x_pivot). The other two then hold the
/// weights and this load. **Bucket down and one circuit bled does not relax the others**: on the reference machine the
/// bucket's ram reverses and its thrust grows seven to fourteen times.
///
/// Frictionless ground, contact in one point.
///
/// # Errors
/// `DeadCentre` of the joint where the ground cannot carry it from there: the load would have to pull, or has no lever. The
/// arm moves until something else holds it.
///
/// Source: principle of virtual work, definition.
pub fn bled(statics: &Statics, contact: Vector, joint: Joint) -> Result<Bled, ShapeTrouble> {
    let index = joint.index();
    let lever = contact.r - statics.placed.pivots[index].r;
    let load = statics.gravity[index] / lever;
    if !load.is_finite() || load < 0.0 {
        return Err(ShapeTrouble::DeadCentre { joint });
    }
    let point = LinkPoint {
        joint: Joint::Bucket,
        place: contact,
    };
    let added = statics.per_newton(point, Vector::new(0.0, load));
    let mut thrusts = [0, 1, 2].map(|ram| statics.hanging[ram] + added[ram]);
    // What is left of the bled one is rounding.
    thrusts[index] = 0.0;
    Ok(Bled { load, thrusts })
}
