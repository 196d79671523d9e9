//! A whole arm as a list of numbers and back: for leaves, which take numbers, and for comparing two arms.

use super::arm_shape::{ArmShape, BucketShape, Weight};
use super::four_bar::FourBar;
use super::ram::Ram;
use super::triangle::{Triangle, Turns};
use super::vector::Vector;
use crate::refusal::Refusal;

/// How many numbers an arm is.
pub const SHAPE_NUMBERS: usize = 86;

impl ArmShape {
    /// The arm as numbers: frame and lengths, weights, triangles, linkage, then thirteen of each ram. Units SI.
    ///
    /// In order: foot (r, z), gravity, boom length, dipper length, tip radius, heel (r, z); mass and centre (r, z) of boom,
    /// dipper, bucket and load; mass and place along of lever and link; of the boom's and the dipper's triangle barrel pin,
    /// rod pin and 1 or -1 for the turn; of the linkage barrel pin, lever's pin, bucket's pin, lever, link, link's pin on the
    /// bucket and the three sides as 1 or -1; of each ram count, bore, rod, closed length, stroke, supply, cap relief, rod
    /// relief, back pressure, barrel mass and centre, rod mass and centre.
    pub fn to_numbers(&self) -> Vec<f64> {
        let mut all = vec![self.foot.r, self.foot.z, self.gravity];
        all.extend([self.boom_length, self.dipper_length, self.bucket.tip_radius]);
        all.extend([self.bucket.heel.r, self.bucket.heel.z]);
        for weight in [
            self.boom_weight,
            self.dipper_weight,
            self.bucket.weight,
            self.bucket.load,
        ] {
            all.extend([weight.mass, weight.centre.r, weight.centre.z]);
        }
        for (mass, along) in [self.lever_weight, self.link_weight] {
            all.extend([mass, along]);
        }
        for triangle in [&self.boom_triangle, &self.dipper_triangle] {
            let (barrel, rod) = (triangle.barrel(), triangle.rod());
            all.extend([barrel.r, barrel.z, rod.r, rod.z, triangle.turns().sign()]);
        }
        let bar = &self.linkage;
        for pin in [bar.barrel(), bar.lever_pin(), bar.bucket_pin()] {
            all.extend([pin.r, pin.z]);
        }
        let crank = bar.link_on_bucket();
        all.extend([bar.lever(), bar.link(), crank.r, crank.z]);
        all.extend(bar.sides());
        for ram in &self.rams {
            all.extend(of_ram(ram));
        }
        all
    }

    /// The arm that these numbers are.
    ///
    /// # Errors
    /// `WrongCount` where there are more or fewer; `NotANumber` where one is not finite. Whether it closes is for
    /// [`ArmShape::troubles`] to say.
    pub fn from_numbers(input: &'static str, numbers: &[f64]) -> Result<Self, Refusal> {
        if numbers.len() != SHAPE_NUMBERS {
            return Err(Refusal::WrongCount {
                input,
                count: numbers.len(),
            });
        }
        if numbers.iter().any(|number| !number.is_finite()) {
            return Err(Refusal::NotANumber { input });
        }
        let mut rest = Rest(numbers.iter());
        let (foot, gravity) = (rest.pin(), rest.one());
        let [boom_length, dipper_length, tip_radius] = rest.three();
        let heel = rest.pin();
        let [boom_weight, dipper_weight, weight, load] = [(); 4].map(|()| rest.weight());
        let lever_weight = (rest.one(), rest.one());
        let link_weight = (rest.one(), rest.one());
        let [boom_triangle, dipper_triangle] = [(); 2].map(|()| rest.triangle());
        let pins = [rest.pin(), rest.pin(), rest.pin()];
        let (lever, link, crank) = (rest.one(), rest.one(), rest.pin());
        let sides = rest.three().map(|side| side > 0.0);
        Ok(ArmShape {
            foot,
            boom_length,
            dipper_length,
            bucket: BucketShape {
                tip_radius,
                heel,
                weight,
                load,
            },
            boom_triangle,
            dipper_triangle,
            linkage: FourBar::assembled(pins, lever, link, crank, sides),
            rams: [(); 3].map(|()| rest.ram()),
            boom_weight,
            dipper_weight,
            lever_weight,
            link_weight,
            gravity,
        })
    }
}

fn of_ram(ram: &Ram) -> [f64; 13] {
    [
        f64::from(ram.count),
        ram.bore,
        ram.rod,
        ram.closed,
        ram.stroke,
        ram.supply,
        ram.relief_cap,
        ram.relief_rod,
        ram.back,
        ram.barrel.0,
        ram.barrel.1,
        ram.rod_weight.0,
        ram.rod_weight.1,
    ]
}

/// The numbers not yet read.
struct Rest<'a>(std::slice::Iter<'a, f64>);

impl Rest<'_> {
    fn one(&mut self) -> f64 {
        // The count was checked: there is always one more.
        self.0.next().copied().unwrap_or(f64::NAN)
    }

    fn three(&mut self) -> [f64; 3] {
        [self.one(), self.one(), self.one()]
    }

    fn pin(&mut self) -> Vector {
        Vector::new(self.one(), self.one())
    }

    fn weight(&mut self) -> Weight {
        Weight {
            mass: self.one(),
            centre: self.pin(),
        }
    }

    fn triangle(&mut self) -> Triangle {
        let (barrel, rod) = (self.pin(), self.pin());
        let turns = if self.one() > 0.0 {
            Turns::CounterClockwise
        } else {
            Turns::Clockwise
        };
        Triangle::new(barrel, rod, turns)
    }

    fn ram(&mut self) -> Ram {
        Ram {
            // A cast brings what is no small whole number to the nearest end; `troubles` refuses none at all.
            count: self.one() as u8,
            bore: self.one(),
            rod: self.one(),
            closed: self.one(),
            stroke: self.one(),
            supply: self.one(),
            relief_cap: self.one(),
            relief_rod: self.one(),
            back: self.one(),
            barrel: (self.one(), self.one()),
            rod_weight: (self.one(), self.one()),
        }
    }
}
