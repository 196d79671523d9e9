//! What a bucket holds, struck and heaped.

use crate::arm::shape::Vector;

/// What a bucket holds, in cubic metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BucketVolume {
    /// Level with the plane from cutting edge to the top of the back.
    pub struck: f64,
    /// Struck, and the heap on it with slopes of 1:1.
    pub heaped: f64,
}

/// What a bucket holds, struck and heaped.
///
/// - `profile`: the inside of the side plate as points in metres, in order, from the cutting edge round the bottom to
///   the top of the back; the closing line is the strike plane. Without teeth, side cutters and spill guards.
/// - `width`: between the side plates, in metres.
///
/// `V_s = area x W`; the heap is a hip roof with slopes of 1:1 on the opening of length D and width W: with a the
/// shorter and b the longer of them `V_e = a^2 b / 4 - a^3 / 12`.
///
/// Nothing where a number is not finite, the profile encloses nothing or the width is none. Does not hold where the
/// sides are cut out by more than a twelfth of D: there the standard strikes along a curve.
///
/// Source: ISO 7451 and SAE J296: strike plane, inside dimensions, heap of 1:1, read in excerpts; the heap by geometry.
pub fn bucket_volume(profile: &[Vector], width: f64) -> Option<BucketVolume> {
    let (edge, back) = (*profile.first()?, *profile.last()?);
    let after = profile.iter().skip(1).chain([&edge]);
    let area = profile
        .iter()
        .zip(after)
        .map(|(here, next)| here.cross(*next))
        .sum::<f64>()
        .abs()
        / 2.0;
    let opening = (back - edge).length();
    let struck = area * width;
    let (short, long) = (opening.min(width), opening.max(width));
    let heap = short * short * long / 4.0 - short * short * short / 12.0;
    let possible = struck.is_finite() && struck > 0.0 && width > 0.0 && heap.is_finite();
    possible.then_some(BucketVolume {
        struck,
        heaped: struck + heap,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: [Vector; 4] = [
        Vector::new(0.0, 0.0),
        Vector::new(0.0, -2.0),
        Vector::new(2.0, -2.0),
        Vector::new(2.0, 0.0),
    ];

    #[test]
    fn a_box_with_a_pyramid_on_it() {
        // 2 x 2 x 2, and a pyramid of height 1 on a base of 4: 4/3.
        let volume = bucket_volume(&SQUARE, 2.0).unwrap();
        assert!((volume.struck - 8.0).abs() < 1e-15);
        assert!((volume.heaped - 8.0 - 4.0 / 3.0).abs() < 1e-15);
    }

    #[test]
    fn a_long_heap_is_a_roof_between_two_half_pyramids() {
        // On 2 x 5: a roof 3 long with a section of 1, and a pyramid of 4/3. Which side is longer does not matter.
        let wide = bucket_volume(&SQUARE, 5.0).unwrap();
        assert!((wide.heaped - wide.struck - 3.0 - 4.0 / 3.0).abs() < 1e-14);
        let narrow = bucket_volume(&SQUARE, 1.0).unwrap();
        assert!((narrow.heaped - narrow.struck - (0.25 + 1.0 / 6.0)).abs() < 1e-15);
    }

    #[test]
    fn nothing_holds_nothing() {
        assert_eq!(bucket_volume(&[], 1.0), None);
        assert_eq!(bucket_volume(&SQUARE[..2], 1.0), None);
        assert_eq!(bucket_volume(&SQUARE, -1.0), None);
        assert_eq!(bucket_volume(&SQUARE, f64::NAN), None);
    }
}
