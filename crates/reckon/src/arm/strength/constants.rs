//! What of an arm does not change with the pose, gathered once for the kernel.

use crate::arm::shape::{ArmShape, Joint, Triangle, Vector};

/// One triangle: a^2 + b^2, 1 / (2 a b), a b with the sign of the turn, and the constant part of the link's direction.
#[derive(Debug, Clone, Copy)]
pub(super) struct Corner {
    pub(super) squares: f64,
    pub(super) over_twice_product: f64,
    pub(super) signed_product: f64,
    pub(super) sign: f64,
    pub(super) start: Vector,
    pub(super) barrel: Vector,
    pub(super) rod: Vector,
}

/// One ram's weights: mass of the rods, and barrel mass x its arm less rod mass x its arm.
#[derive(Debug, Clone, Copy)]
pub(super) struct RamWeight {
    pub(super) rod: f64,
    pub(super) difference: f64,
}

/// Everything the kernel needs of an arm. The weights' moments are gathered by what they turn with.
#[derive(Debug, Clone, Copy)]
pub(super) struct Constants {
    pub(super) foot: Vector,
    pub(super) boom: f64,
    pub(super) dipper: f64,
    pub(super) tip: f64,
    pub(super) gravity: f64,
    pub(super) corners: [Corner; 2],
    pub(super) rams: [RamWeight; 3],
    /// Pins of the linkage in D: barrel, lever's pin, bucket's pin; and the two circles' constants.
    pub(super) barrel: Vector,
    pub(super) lever_pin: Vector,
    pub(super) bucket_pin: Vector,
    pub(super) to_lever: Vector,
    pub(super) to_lever_square: f64,
    pub(super) over_to_lever_square: f64,
    pub(super) lever_square: f64,
    pub(super) crank_square: f64,
    pub(super) link_square: f64,
    pub(super) over_crank_square: f64,
    pub(super) link_on_bucket: Vector,
    pub(super) shared_side: f64,
    pub(super) link_side: f64,
    /// Moments of mass, kg m: fixed to the dipper; and masses that ride on the shared pin and on the link's pin.
    pub(super) on_dipper: Vector,
    pub(super) on_shared: f64,
    pub(super) on_link_pin: f64,
    pub(super) on_bucket: Vector,
    /// Of the shared pin's masses the part that turns with the lever about its pin.
    pub(super) turning_lever: f64,
    /// Moment of mass fixed to the boom, everything beyond the dipper's pin gathered there.
    pub(super) on_boom: Vector,
    /// Moment of mass of the boom ram's barrel side about the swing axis, and all masses on the foot.
    pub(super) boom_barrel: f64,
    pub(super) mass_from_foot: f64,
}

impl Constants {
    pub(super) fn of(shape: &ArmShape) -> Self {
        let bar = &shape.linkage;
        let [boom_ram, dipper_ram, bucket_ram] = Joint::ALL.map(|joint| {
            let ram = shape.ram(joint);
            let count = f64::from(ram.count);
            let (barrel, rod) = (ram.barrel, ram.rod_weight);
            (
                count * barrel.0,
                RamWeight {
                    rod: count * rod.0,
                    difference: count * (barrel.0 * barrel.1 - rod.0 * rod.1),
                },
            )
        });
        let lever_share = shape.lever_weight.1 / bar.lever();
        let link_share = shape.link_weight.1 / bar.link();
        let (lever, link) = (shape.lever_weight.0, shape.link_weight.0);
        let bucket = shape.bucket.weight.mass + shape.bucket.load.mass;
        let turning_lever = lever * lever_share + link * (1.0 - link_share);
        let dipper = shape.dipper_weight;
        let boom = shape.boom_weight;
        let to_lever = bar.lever_pin() - bar.barrel();
        let beyond = dipper.mass + bucket + lever + link + bucket_ram.0 + bucket_ram.1.rod;
        Constants {
            foot: shape.foot,
            boom: shape.boom_length,
            dipper: shape.dipper_length,
            tip: shape.bucket.tip_radius,
            gravity: shape.gravity,
            corners: [corner(&shape.boom_triangle), corner(&shape.dipper_triangle)],
            rams: [boom_ram.1, dipper_ram.1, bucket_ram.1],
            barrel: bar.barrel(),
            lever_pin: bar.lever_pin(),
            bucket_pin: bar.bucket_pin(),
            to_lever,
            to_lever_square: to_lever.dot(to_lever),
            over_to_lever_square: 1.0 / to_lever.dot(to_lever),
            lever_square: bar.lever() * bar.lever(),
            crank_square: bar.link_on_bucket().dot(bar.link_on_bucket()),
            link_square: bar.link() * bar.link(),
            over_crank_square: 1.0 / bar.link_on_bucket().dot(bar.link_on_bucket()),
            link_on_bucket: bar.link_on_bucket(),
            shared_side: bar.sides()[1],
            link_side: bar.sides()[2],
            on_dipper: dipper.centre * dipper.mass
                + bar.bucket_pin() * bucket
                + bar.lever_pin() * (lever * (1.0 - lever_share))
                + bar.barrel() * bucket_ram.0,
            on_shared: turning_lever + bucket_ram.1.rod,
            on_link_pin: link * link_share,
            on_bucket: shape.bucket.weight.centre * shape.bucket.weight.mass
                + shape.bucket.load.centre * shape.bucket.load.mass,
            turning_lever,
            on_boom: boom.centre * boom.mass
                + (Vector::new(shape.boom_length, 0.0) + shape.dipper_triangle.barrel())
                    * dipper_ram.0
                + Vector::new(shape.boom_length, 0.0) * (beyond + dipper_ram.1.rod),
            boom_barrel: boom_ram.0 * (shape.foot.r + shape.boom_triangle.barrel().r),
            mass_from_foot: boom.mass + beyond + dipper_ram.0 + dipper_ram.1.rod + boom_ram.1.rod,
        }
    }
}

impl Constants {
    /// All of them in the order they are declared, for a kernel of the same arithmetic in another language.
    pub(super) fn in_order(&self) -> Vec<f64> {
        let mut all = vec![
            self.foot.r,
            self.foot.z,
            self.boom,
            self.dipper,
            self.tip,
            self.gravity,
        ];
        for corner in &self.corners {
            all.extend([
                corner.squares,
                corner.over_twice_product,
                corner.signed_product,
                corner.sign,
            ]);
            all.extend(
                [corner.start, corner.barrel, corner.rod]
                    .iter()
                    .flat_map(|pin| [pin.r, pin.z]),
            );
        }
        all.extend(self.rams.iter().flat_map(|ram| [ram.rod, ram.difference]));
        let pins = [self.barrel, self.lever_pin, self.bucket_pin, self.to_lever];
        all.extend(pins.iter().flat_map(|pin| [pin.r, pin.z]));
        all.extend([
            self.to_lever_square,
            self.over_to_lever_square,
            self.lever_square,
            self.crank_square,
            self.link_square,
            self.over_crank_square,
            self.link_on_bucket.r,
            self.link_on_bucket.z,
            self.shared_side,
            self.link_side,
            self.on_dipper.r,
            self.on_dipper.z,
            self.on_shared,
            self.on_link_pin,
            self.on_bucket.r,
            self.on_bucket.z,
            self.turning_lever,
            self.on_boom.r,
            self.on_boom.z,
            self.boom_barrel,
            self.mass_from_foot,
        ]);
        all
    }
}

fn corner(triangle: &Triangle) -> Corner {
    let (barrel, rod) = (triangle.barrel(), triangle.rod());
    let product = barrel.length() * rod.length();
    let sign = triangle.turns().sign();
    Corner {
        squares: barrel.dot(barrel) + rod.dot(rod),
        over_twice_product: 0.5 / product,
        signed_product: sign * product,
        sign,
        start: barrel.turned_back(rod) * (1.0 / product),
        barrel,
        rod,
    }
}
