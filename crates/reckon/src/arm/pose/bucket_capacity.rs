//! What a bucket holds, struck and heaped, in litres.

use super::bucket_volume::bucket_volume;
use crate::arm::shape::Vector;
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.bucket_capacity" tries bucket_capacity;
    inputs {
        profile: list ["m"] -10.0, 10.0;
        width: number ["m"] 0.01, 10.0;
    }
    outputs |r| { struck ["L"] = r.struck, heaped ["L"] = r.heaped }
    source { "ISO 7451 and SAE J296: strike plane, heap of 1:1", 0, "read in excerpts; the heap by geometry", Read }
}

/// What a bucket holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BucketCapacity {
    /// Level with the strike plane, litres.
    pub struck: f64,
    /// With the heap, litres.
    pub heaped: f64,
}

/// What a bucket holds, struck and heaped.
///
/// - `profile` \[m\]: the inside of the side plate, point by point (two numbers each), from the cutting edge round the bottom
///   to the top of the back. `width` \[m\]: between the side plates.
///
/// Formula: profile x width; the heap with slopes of 1:1 on opening and width: a^2 b / 4 - a^3 / 12, a the shorter.
///
/// # Errors
/// `WrongCount` where there are fewer than three points or half of one; "encloses-nothing" where the profile does so.
///
/// Source: ISO 7451 and SAE J296, read in excerpts.
pub fn bucket_capacity(profile: &[f64], width: f64) -> Result<BucketCapacity, Refusal> {
    if profile.len() < 6 || !profile.len().is_multiple_of(2) {
        return Err(Refusal::WrongCount {
            input: "profile",
            count: profile.len(),
        });
    }
    let points: Vec<Vector> = profile
        .chunks_exact(2)
        .map(|pair| Vector::new(pair[0], pair[1]))
        .collect();
    let volume = bucket_volume(&points, width).ok_or(Refusal::Contradiction {
        what: "encloses-nothing",
    })?;
    Ok(BucketCapacity {
        struck: volume.struck * 1000.0,
        heaped: volume.heaped * 1000.0,
    })
}
