//! Cleaning a picture: limits before decoding, upright, small, written anew.

use super::{PhotoTrouble, shrink, whole};
use image::{
    DynamicImage, ImageDecoder, ImageError, ImageFormat, Limits, RgbImage,
    codecs::{
        jpeg::{JpegDecoder, JpegEncoder},
        png::PngDecoder,
        webp::WebPDecoder,
    },
    metadata::Orientation,
};
use std::io::Cursor;

/// Most bytes of an upload: 12 MiB.
pub const MOST_BYTES: usize = 12 << 20;
/// Most pixels along one side.
pub const MOST_SIDE: u32 = 12_000;
/// Most pixels in all.
pub const MOST_PIXELS: u64 = 60_000_000;
/// Most pixels where the decoder must hold the whole picture twice: JPEG built up in passes, WebP.
const MOST_PIXELS_TWICE: u64 = 24_000_000;
/// Most bytes of pixels while decoding: 60 megapixels at four bytes.
const MOST_MEMORY: u64 = 256 << 20;
/// Most bytes a PNG file may swell to beside its pixels: texts, a colour profile.
const MOST_BESIDE: u64 = 8 << 20;
/// The long side of what is kept, pixels.
pub const LONG_SIDE: u32 = 1600;
/// Quality of what is kept, of 100: no difference to be seen on a screen at arm's length.
const QUALITY: u8 = 82;

/// A picture as it is kept: a JPEG file of pixels and nothing else.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cleaned {
    /// The file.
    pub bytes: Vec<u8>,
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
}

/// Cleans a picture. The same bytes give the same bytes.
///
/// Colours are taken as sRGB: a colour profile goes with the rest of what the file says about itself.
///
/// # Errors
/// See [`PhotoTrouble`].
pub fn clean(bytes: &[u8]) -> Result<Cleaned, PhotoTrouble> {
    let (pixels, turn) = decode(bytes)?;
    let mut upright = DynamicImage::ImageRgb8(shrink::within(&pixels, LONG_SIDE));
    drop(pixels);
    upright.apply_orientation(turn);
    encode(&upright.into_rgb8())
}

/// A picture that was kept, smaller still: `long_side` pixels at most.
///
/// # Errors
/// See [`PhotoTrouble`].
pub(super) fn smaller(bytes: &[u8], long_side: u32) -> Result<Cleaned, PhotoTrouble> {
    let (pixels, _) = decode(bytes)?;
    encode(&shrink::within(&pixels, long_side))
}

fn encode(pixels: &RgbImage) -> Result<Cleaned, PhotoTrouble> {
    let mut bytes = Vec::new();
    JpegEncoder::new_with_quality(&mut bytes, QUALITY)
        .encode_image(pixels)
        .map_err(|_| PhotoTrouble::Damaged)?;
    Ok(Cleaned {
        bytes,
        width: pixels.width(),
        height: pixels.height(),
    })
}

fn decode(bytes: &[u8]) -> Result<(DynamicImage, Orientation), PhotoTrouble> {
    let from = Cursor::new(bytes);
    match kind(bytes)? {
        ImageFormat::Jpeg => {
            let most = match whole::walk(bytes)?.in_passes {
                true => MOST_PIXELS_TWICE,
                false => MOST_PIXELS,
            };
            pixels(JpegDecoder::new(from).map_err(trouble)?, most)
        }
        ImageFormat::Png => {
            let decoder = PngDecoder::with_limits(from, limits(MOST_BESIDE)).map_err(trouble)?;
            if decoder.is_apng().map_err(trouble)? {
                return Err(PhotoTrouble::Moving);
            }
            pixels(decoder, MOST_PIXELS)
        }
        _ => {
            let decoder = WebPDecoder::new(from).map_err(trouble)?;
            if decoder.has_animation() {
                return Err(PhotoTrouble::Moving);
            }
            pixels(decoder, MOST_PIXELS_TWICE)
        }
    }
}

/// The kind of picture by its first bytes: one that is read here.
fn kind(bytes: &[u8]) -> Result<ImageFormat, PhotoTrouble> {
    match bytes.len() {
        0 => return Err(PhotoTrouble::Empty),
        n if n > MOST_BYTES => return Err(PhotoTrouble::TooLarge),
        _ => {}
    }
    match image::guess_format(bytes) {
        Ok(format @ (ImageFormat::Jpeg | ImageFormat::Png | ImageFormat::WebP)) => Ok(format),
        Ok(_) => Err(PhotoTrouble::OtherKind),
        // Phones' newer kinds share one box format and differ in a name that grows longer every year.
        Err(_) if bytes.get(4..8) == Some(b"ftyp") => Err(PhotoTrouble::OtherKind),
        Err(_) => Err(PhotoTrouble::NotAPicture),
    }
}

fn limits(most: u64) -> Limits {
    let mut limits = Limits::default();
    limits.max_image_width = Some(MOST_SIDE);
    limits.max_image_height = Some(MOST_SIDE);
    limits.max_alloc = Some(most);
    limits
}

fn pixels(
    mut decoder: impl ImageDecoder,
    most: u64,
) -> Result<(DynamicImage, Orientation), PhotoTrouble> {
    let mut limits = limits(MOST_MEMORY);
    let (width, height) = decoder.dimensions();
    if u64::from(width) * u64::from(height) > most {
        return Err(PhotoTrouble::TooManyPixels);
    }
    if width == 0 || height == 0 {
        return Err(PhotoTrouble::Damaged);
    }
    limits.reserve(decoder.total_bytes()).map_err(trouble)?;
    decoder.set_limits(limits).map_err(trouble)?;
    let turn = turn(&mut decoder);
    let pixels = DynamicImage::from_decoder(decoder).map_err(trouble)?;
    Ok((pixels, turn))
}

/// How it has to be turned; as it lies where the file does not say, or says it unreadably.
fn turn(decoder: &mut impl ImageDecoder) -> Orientation {
    let said = decoder.exif_metadata().ok().flatten();
    let said = said.as_deref().and_then(|block| {
        // Some writers leave the mark in that JPEG puts before the block.
        Orientation::from_exif_chunk(block.strip_prefix(b"Exif\0\0").unwrap_or(block))
    });
    said.unwrap_or(Orientation::NoTransforms)
}

fn trouble(error: ImageError) -> PhotoTrouble {
    match error {
        ImageError::Limits(_) => PhotoTrouble::TooManyPixels,
        ImageError::IoError(why) if why.kind() == std::io::ErrorKind::UnexpectedEof => {
            PhotoTrouble::CutOff
        }
        _ => PhotoTrouble::Damaged,
    }
}
