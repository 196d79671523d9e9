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

/// Poses in a block, so that the block's columns are arrays of a known length.
const BLOCK: usize = 64;

type Block = [f64; BLOCK];

#[inline(always)]
fn poses<const D: u8>(kernel: &Kernel, lengths: [&[f64]; 3], into: &mut Columns) {
    let count = into.moment.len();
    let mut start = 0;
    while start < count {
        let here = start..count.min(start + BLOCK);
        let mut inputs = [[1.0; BLOCK]; 3];
        for (block, column) in inputs.iter_mut().zip(lengths) {
            block[..here.len()].copy_from_slice(&column[here.clone()]);
        }
        let mut outputs = [[0.0; BLOCK]; 8];
        block::<D>(kernel, &inputs, &mut outputs);
        let [boom, dipper, bucket] = &mut into.allows;
        let columns = [
            &mut into.tooth_r,
            &mut into.tooth_z,
            &mut into.direction_r,
            &mut into.direction_z,
            boom,
            dipper,
            bucket,
            &mut into.moment,
        ];
        for (column, block) in columns.into_iter().zip(&outputs) {
            column[here.clone()].copy_from_slice(&block[..here.len()]);
        }
        start = here.end;
    }
}

#[inline(always)]
fn block<const D: u8>(kernel: &Kernel, inputs: &[Block; 3], outputs: &mut [Block; 8]) {
    // A copy of its own, so that the constants are known not to change while the outputs are written.
    let kernel = kernel.clone();
    for pose in 0..BLOCK {
        let strength = kernel.strength::<D>([inputs[0][pose], inputs[1][pose], inputs[2][pose]]);
        outputs[0][pose] = strength.tooth.r;
        outputs[1][pose] = strength.tooth.z;
        outputs[2][pose] = strength.direction.r;
        outputs[3][pose] = strength.direction.z;
        outputs[4][pose] = strength.allows[0];
        outputs[5][pose] = strength.allows[1];
        outputs[6][pose] = strength.allows[2];
        outputs[7][pose] = strength.moment;
    }
}
