//! Shrinking by area: each pixel of the small picture is the mean of what it covers. Whole numbers only, one row of the
//! large picture at a time, so that the digits are the same everywhere and no second large picture is needed.

use image::{DynamicImage, GenericImageView, RgbImage};

/// The picture on white, with its long side at most `long_side` pixels; never enlarged.
pub(super) fn within(from: &DynamicImage, long_side: u32) -> RgbImage {
    let (width, height) = from.dimensions();
    let long = width.max(height).max(1);
    if long <= long_side {
        return to_size(from, width, height);
    }
    let side = |side: u32| {
        let scaled =
            (u64::from(side) * u64::from(long_side) + u64::from(long / 2)) / u64::from(long);
        u32::try_from(scaled).map_or(long_side, |side| side.clamp(1, long_side))
    };
    to_size(from, side(width), side(height))
}

/// The mean over each small pixel's area. A large pixel is `to` units wide and a small one `from` units, so that a share
/// of a pixel is a whole number.
fn to_size(from: &DynamicImage, width: u32, height: u32) -> RgbImage {
    let mut small = RgbImage::new(width, height);
    let (from_width, from_height) = from.dimensions();
    if width == 0 || height == 0 {
        return small;
    }
    let area = u64::from(from_width) * u64::from(from_height);
    let mut row = vec![0_u8; from_width as usize * 3];
    let mut narrow = vec![0_u64; width as usize * 3];
    let mut sums = narrow.clone();
    let mut out = small.rows_mut();
    // How much of the row being made is filled, units.
    let mut filled = 0;
    for y in 0..from_height {
        read_row(from, y, &mut row);
        narrow_row(&row, from_width, width, &mut narrow);
        let mut left = height;
        while left > 0 {
            let share = left.min(from_height - filled);
            for (sum, value) in sums.iter_mut().zip(&narrow) {
                *sum += value * u64::from(share);
            }
            (left, filled) = (left - share, filled + share);
            if filled == from_height {
                filled = 0;
                for (pixel, sum) in out.next().into_iter().flatten().zip(sums.chunks_exact(3)) {
                    let mean = |sum: u64| u8::try_from((sum + area / 2) / area).unwrap_or(u8::MAX);
                    pixel.0 = [mean(sum[0]), mean(sum[1]), mean(sum[2])];
                }
                sums.fill(0);
            }
        }
    }
    small
}

/// Sums of one row's pixels over each small pixel's width, in units.
fn narrow_row(row: &[u8], from_width: u32, width: u32, narrow: &mut [u64]) {
    narrow.fill(0);
    let (mut at, mut filled) = (0, 0);
    for pixel in row.chunks_exact(3) {
        let mut left = width;
        while left > 0 {
            let share = left.min(from_width - filled);
            for (sum, value) in narrow[at..at + 3].iter_mut().zip(pixel) {
                *sum += u64::from(*value) * u64::from(share);
            }
            (left, filled) = (left - share, filled + share);
            if filled == from_width {
                (filled, at) = (0, at + 3);
            }
        }
    }
}

/// One row as red, green, blue on white paper.
fn read_row(from: &DynamicImage, y: u32, row: &mut [u8]) {
    let width = from.width() as usize;
    let at = y as usize * width;
    match from {
        DynamicImage::ImageRgb8(pixels) => {
            row.copy_from_slice(&pixels.as_raw()[at * 3..(at + width) * 3]);
        }
        DynamicImage::ImageLuma8(pixels) => {
            let grey = &pixels.as_raw()[at..at + width];
            for (pixel, value) in row.chunks_exact_mut(3).zip(grey) {
                pixel.fill(*value);
            }
        }
        other => {
            for (pixel, x) in row.chunks_exact_mut(3).zip(0..) {
                let [r, g, b, alpha] = other.get_pixel(x, y).0;
                pixel.copy_from_slice(&[r, g, b].map(|value| on_white(value, alpha)));
            }
        }
    }
}

/// A value as seen through on white.
fn on_white(value: u8, alpha: u8) -> u8 {
    let (value, alpha) = (u32::from(value), u32::from(alpha));
    let seen = (value * alpha + 255 * (255 - alpha) + 127) / 255;
    u8::try_from(seen).unwrap_or(u8::MAX)
}
