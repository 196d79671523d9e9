//! Pictures for the tests, built byte by byte where the bytes matter.

use image::{DynamicImage, ImageFormat, Rgb, RgbImage, codecs::jpeg::JpegEncoder};
use std::io::Cursor;

/// Red, green, blue and black corners: left top, right top, left bottom, right bottom.
pub(crate) const CORNERS: [Rgb<u8>; 4] = [
    Rgb([220, 20, 20]),
    Rgb([20, 180, 20]),
    Rgb([20, 20, 220]),
    Rgb([0, 0, 0]),
];

/// An upright picture of four coloured quarters.
pub(crate) fn quarters(width: u32, height: u32) -> RgbImage {
    RgbImage::from_fn(width, height, |x, y| {
        CORNERS[usize::from(x >= width / 2) + 2 * usize::from(y >= height / 2)]
    })
}

/// As a file of some kind.
pub(crate) fn file(pixels: impl Into<DynamicImage>, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Vec::new();
    pixels
        .into()
        .write_to(&mut Cursor::new(&mut bytes), format)
        .unwrap();
    bytes
}

/// As JPEG, with hardly any loss.
pub(crate) fn jpeg(pixels: &RgbImage) -> Vec<u8> {
    let mut bytes = Vec::new();
    JpegEncoder::new_with_quality(&mut bytes, 97)
        .encode_image(pixels)
        .unwrap();
    bytes
}

/// The JPEG with an EXIF block behind its first mark.
pub(crate) fn with_exif(jpeg: &[u8], block: &[u8]) -> Vec<u8> {
    let mut segment = b"Exif\0\0".to_vec();
    segment.extend_from_slice(block);
    let length = u16::try_from(segment.len() + 2).unwrap().to_be_bytes();
    [&jpeg[..2], &[0xFF, 0xE1], &length, &segment, &jpeg[2..]].concat()
}

/// An EXIF block, big-endian: orientation, a maker's note, a place. Laid out by hand after CIPA DC-008.
///
/// With `broken_note` the maker's note (tag 0x927C) claims to lie far outside the block, as some cameras' do once a
/// program has moved it.
pub(crate) fn exif(orientation: u16, broken_note: bool) -> Vec<u8> {
    let mut block = b"MM\0\x2a\0\0\0\x08".to_vec();
    let field = |tag: u16, kind: u16, count: u32, value: [u8; 4]| {
        let mut bytes = tag.to_be_bytes().to_vec();
        bytes.extend(kind.to_be_bytes());
        bytes.extend(count.to_be_bytes());
        bytes.extend(value);
        bytes
    };
    let short = |value: u16| {
        let [a, b] = value.to_be_bytes();
        [a, b, 0, 0]
    };
    let table = |fields: &[Vec<u8>]| {
        let mut bytes = u16::try_from(fields.len()).unwrap().to_be_bytes().to_vec();
        bytes.extend(fields.concat());
        bytes.extend([0; 4]);
        bytes
    };
    // First table of three fields: 8 + 2 + 36 + 4 = 50. Then that of the camera (18 bytes), then that of the place.
    let (camera, place) = (50_u32, 68_u32);
    block.extend(table(&[
        field(0x0112, 3, 1, short(orientation)),
        field(0x8769, 4, 1, camera.to_be_bytes()),
        field(0x8825, 4, 1, place.to_be_bytes()),
    ]));
    let (note_length, note_at) = if broken_note {
        (0x7FFF_FFFF_u32, 0xFFFF_FF00_u32)
    } else {
        (4, 0x6E6F_7465)
    };
    block.extend(table(&[field(
        0x927C,
        7,
        note_length,
        note_at.to_be_bytes(),
    )]));
    // North, 47 degrees 22 minutes 30 seconds: three fractions behind the table (68 + 2 + 24 + 4 = 98).
    block.extend(table(&[
        field(0x0001, 2, 2, *b"N\0\0\0"),
        field(0x0002, 5, 3, 98_u32.to_be_bytes()),
    ]));
    for (over, under) in [(47_u32, 1_u32), (22, 1), (30, 1)] {
        block.extend(over.to_be_bytes());
        block.extend(under.to_be_bytes());
    }
    block
}

/// A grey JPEG of one tone, laid out by hand after ITU-T T.81: each code table has one code of one bit, so a block of 64
/// pixels takes two bits and a very large picture few bytes. Sides are multiples of 8.
pub(crate) fn plain_jpeg(width: u16, height: u16) -> Vec<u8> {
    let mut bytes = vec![0xFF, 0xD8];
    let mut segment = |marker: u8, body: &[u8]| {
        bytes.extend([0xFF, marker]);
        bytes.extend(u16::try_from(body.len() + 2).unwrap().to_be_bytes());
        bytes.extend(body);
    };
    let quantisers = [vec![0], vec![1; 64]].concat();
    segment(0xDB, &quantisers);
    let [h1, h2] = height.to_be_bytes();
    let [w1, w2] = width.to_be_bytes();
    segment(0xC0, &[8, h1, h2, w1, w2, 1, 1, 0x11, 0]);
    for table in [0x00, 0x10] {
        let mut lengths = [0; 16];
        lengths[0] = 1;
        segment(0xC4, &[&[table], &lengths[..], &[0]].concat());
    }
    segment(0xDA, &[1, 1, 0x00, 0, 63, 0]);
    let blocks = usize::from(width / 8) * usize::from(height / 8);
    bytes.extend(vec![0; (blocks * 2).div_ceil(8)]);
    bytes.extend([0xFF, 0xD9]);
    bytes
}

/// A PNG chunk (ISO/IEC 15948): length, name, body, check sum.
pub(crate) fn chunk(name: &[u8; 4], body: &[u8]) -> Vec<u8> {
    let mut bytes = u32::try_from(body.len()).unwrap().to_be_bytes().to_vec();
    bytes.extend(name);
    bytes.extend(body);
    let sum = crc(&bytes[4..]);
    bytes.extend(sum.to_be_bytes());
    bytes
}

/// The head of a PNG file: sides, bits a channel, kind of colour (0 grey, 2 colours, 6 colours and alpha).
pub(crate) fn png_head(width: u32, height: u32, bits: u8, colour: u8) -> Vec<u8> {
    let mut head = width.to_be_bytes().to_vec();
    head.extend(height.to_be_bytes());
    head.extend([bits, colour, 0, 0, 0]);
    [b"\x89PNG\r\n\x1a\n", &chunk(b"IHDR", &head)[..]].concat()
}

/// CRC-32 as PNG wants it, a bit at a time.
fn crc(bytes: &[u8]) -> u32 {
    let whole = bytes.iter().fold(u32::MAX, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| {
            (sum >> 1) ^ (0xEDB8_8320 & 0_u32.wrapping_sub(sum & 1))
        })
    });
    !whole
}
