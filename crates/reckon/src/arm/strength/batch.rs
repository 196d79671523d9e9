//! Many poses at once, with the widest registers the processor at hand has. The digits are the same with any.

use super::kernel::{CROWD, CURL, Direction, Kernel, PULL_UP, PUSH_DOWN};
use crate::arm::shape::Vector;

/// Which registers the poses are worked out in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum InstructionSet {
    /// What every processor of the kind has.
    Baseline,
    /// Four numbers at once.
    Avx2,
    /// Eight numbers at once.
    Avx512,
}

impl InstructionSet {
    /// The widest that this processor has.
    pub fn widest() -> Self {
        #[cfg(target_arch = "x86_64")]
        {
            if std::arch::is_x86_feature_detected!("avx512f")
                && std::arch::is_x86_feature_detected!("avx512dq")
            {
                return InstructionSet::Avx512;
            }
            if std::arch::is_x86_feature_detected!("avx2") {
                return InstructionSet::Avx2;
            }
        }
        InstructionSet::Baseline
    }

    /// Every one that this processor has, the plainest first.
    pub fn at_hand() -> Vec<Self> {
        match InstructionSet::widest() {
            InstructionSet::Baseline => vec![InstructionSet::Baseline],
            InstructionSet::Avx2 => vec![InstructionSet::Baseline, InstructionSet::Avx2],
            InstructionSet::Avx512 => vec![
                InstructionSet::Baseline,
                InstructionSet::Avx2,
                InstructionSet::Avx512,
            ],
        }
    }
}

/// What the kernel gives for many poses, one column a number. See [`super::Strength`].
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Columns {
    /// The tooth's r.
    pub tooth_r: Vec<f64>,
    /// The tooth's z.
    pub tooth_z: Vec<f64>,
    /// The direction's r.
    pub direction_r: Vec<f64>,
    /// The direction's z.
    pub direction_z: Vec<f64>,
    /// What the rams of boom, dipper and bucket allow.
    pub allows: [Vec<f64>; 3],
    /// The arm's moment of mass.
    pub moment: Vec<f64>,
}

impl Columns {
    /// Columns of this many poses.
    pub fn of_length(count: usize) -> Self {
        let column = || vec![0.0; count];
        Columns {
            tooth_r: column(),
            tooth_z: column(),
            direction_r: column(),
            direction_z: column(),
            allows: [column(), column(), column()],
            moment: column(),
        }
    }

    fn resize(&mut self, count: usize) {
        let [boom, dipper, bucket] = &mut self.allows;
        let (r, z) = (&mut self.tooth_r, &mut self.tooth_z);
        let (dr, dz) = (&mut self.direction_r, &mut self.direction_z);
        for column in [r, z, dr, dz, boom, dipper, bucket, &mut self.moment] {
            column.resize(count, 0.0);
        }
    }

    /// The tooth of one pose.
    pub fn tooth(&self, pose: usize) -> Vector {
        Vector::new(self.tooth_r[pose], self.tooth_z[pose])
    }
}

impl Kernel {
    /// Works out as many poses as the shortest of the three columns of ram lengths has, into `into`.
    pub fn batch(&self, lengths: [&[f64]; 3], into: &mut Columns) {
        self.batch_with(InstructionSet::widest(), lengths, into);
    }

    /// The same with registers of one's choice, narrower ones where the processor lacks them.
    pub fn batch_with(&self, wanted: InstructionSet, lengths: [&[f64]; 3], into: &mut Columns) {
        into.resize(lengths.iter().map(|column| column.len()).min().unwrap_or(0));
        let run = if InstructionSet::at_hand().contains(&wanted) {
            wanted
        } else {
            InstructionSet::Baseline
        };
        match self.direction() {
            Direction::Curl => run_with::<CURL>(run, self, lengths, into),
            Direction::Crowd => run_with::<CROWD>(run, self, lengths, into),
            Direction::PushDown => run_with::<PUSH_DOWN>(run, self, lengths, into),
            Direction::PullUp => run_with::<PULL_UP>(run, self, lengths, into),
        }
    }
}

#[cfg(target_arch = "x86_64")]
#[allow(unsafe_code)]
fn run_with<const D: u8>(
    set: InstructionSet,
    kernel: &Kernel,
    lengths: [&[f64]; 3],
    into: &mut Columns,
) {
    match set {
        // SAFETY: the only demand of these functions is that the processor has the instructions they are compiled for,
        // and `batch_with` takes a set only where the processor was found to have it. They touch nothing but slices.
        InstructionSet::Avx512 => unsafe { avx512::<D>(kernel, lengths, into) },
        // SAFETY: as above.
        InstructionSet::Avx2 => unsafe { avx2::<D>(kernel, lengths, into) },
        InstructionSet::Baseline => poses::<D>(kernel, lengths, into),
    }
}

#[cfg(not(target_arch = "x86_64"))]
fn run_with<const D: u8>(
    _: InstructionSet,
    kernel: &Kernel,
    lengths: [&[f64]; 3],
    into: &mut Columns,
) {
    poses::<D>(kernel, lengths, into);
}

#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx512f,avx512dq,avx512vl")]
fn avx512<const D: u8>(kernel: &Kernel, lengths: [&[f64]; 3], into: &mut Columns) {
    poses::<D>(kernel, lengths, into);
}

#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx2")]
fn avx2<const D: u8>(kernel: &Kernel, lengths: [&[f64]; 3], into: &mut Columns) {
    poses::<D>(kernel, lengths, into);
}

#[inline(always)]
fn poses<const D: u8>(kernel: &Kernel, lengths: [&[f64]; 3], into: &mut Columns) {
    let [boom, dipper, bucket] = &mut into.allows;
    // A copy of its own, so that the constants are known not to change while the results are written.
    let kernel = kernel.clone();
    columns::<D>(
        &kernel,
        (lengths[0], lengths[1], lengths[2]),
        &mut into.tooth_r,
        &mut into.tooth_z,
        &mut into.direction_r,
        &mut into.direction_z,
        boom,
        dipper,
        bucket,
        &mut into.moment,
    );
}

/// One loop over columns of one length. Each column is a parameter of its own, for only so does the compiler know that no
/// two of them overlap, and works out several poses at once.
#[inline(always)]
#[allow(clippy::too_many_arguments)]
fn columns<const D: u8>(
    kernel: &Kernel,
    lengths: (&[f64], &[f64], &[f64]),
    tooth_r: &mut [f64],
    tooth_z: &mut [f64],
    direction_r: &mut [f64],
    direction_z: &mut [f64],
    boom: &mut [f64],
    dipper: &mut [f64],
    bucket: &mut [f64],
    moment: &mut [f64],
) {
    let count = moment.len();
    let (booms, dippers, buckets) = (
        &lengths.0[..count],
        &lengths.1[..count],
        &lengths.2[..count],
    );
    let (tooth_r, tooth_z) = (&mut tooth_r[..count], &mut tooth_z[..count]);
    let (direction_r, direction_z) = (&mut direction_r[..count], &mut direction_z[..count]);
    let (boom, dipper, bucket) = (
        &mut boom[..count],
        &mut dipper[..count],
        &mut bucket[..count],
    );
    for pose in 0..count {
        let strength = kernel.strength::<D>([booms[pose], dippers[pose], buckets[pose]]);
        tooth_r[pose] = strength.tooth.r;
        tooth_z[pose] = strength.tooth.z;
        direction_r[pose] = strength.direction.r;
        direction_z[pose] = strength.direction.z;
        boom[pose] = strength.allows[0];
        dipper[pose] = strength.allows[1];
        bucket[pose] = strength.allows[2];
        moment[pose] = strength.moment;
    }
}
