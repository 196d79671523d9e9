//! What is not kept as a photo, and that bad bytes harm nothing.

use super::photo_made::{chunk, exif, file, jpeg, plain_jpeg, png_head, quarters, with_exif};
use image::{GrayImage, ImageFormat, Luma, RgbImage};
use server::photo::{MOST_BYTES, PhotoTrouble, clean};

fn trouble(bytes: &[u8]) -> PhotoTrouble {
    clean(bytes).unwrap_err()
}

#[test]
fn what_is_no_picture_is_known_by_its_bytes() {
    assert_eq!(trouble(b""), PhotoTrouble::Empty);
    assert_eq!(trouble(&vec![0; MOST_BYTES + 1]), PhotoTrouble::TooLarge);
    for program in [
        &b"\x7fELF\x02\x01\x01"[..],
        b"MZ\x90\0\x03",
        b"#!/bin/sh\necho",
        b"%PDF-1.7\n",
        b"<svg/>",
        b"PK\x03\x04",
        &[0; 64],
        &[0xFF; 64],
    ] {
        assert_eq!(trouble(program), PhotoTrouble::NotAPicture, "{program:?}");
    }
}

#[test]
fn other_kinds_are_asked_for_as_jpeg() {
    for other in [
        &b"\0\0\0\x18ftypheic\0\0\0\0mif1heic"[..],
        b"\0\0\0\x1cftypmif1\0\0\0\0mif1heicmiaf",
        b"\0\0\0\x20ftypavif\0\0\0\0avifmif1",
        b"GIF89a\x01\0\x01\0",
        b"II*\0\x08\0\0\0",
        b"BM\x3a\0\0\0\0\0\0\0",
    ] {
        assert_eq!(trouble(other), PhotoTrouble::OtherKind, "{other:?}");
    }
}

#[test]
fn moving_pictures_are_not_kept() {
    let still = file(quarters(8, 8), ImageFormat::Png);
    // acTL before the first IDAT: two frames, played once.
    let at = still.windows(4).position(|w| w == b"IDAT").unwrap() - 4;
    let moving = [
        &still[..at],
        &chunk(b"acTL", &[0, 0, 0, 2, 0, 0, 0, 1]),
        &still[at..],
    ]
    .concat();
    assert_eq!(trouble(&moving), PhotoTrouble::Moving);
    // RIFF container with the bit for movement set, an ANIM chunk and one frame.
    let frame = file(RgbImage::new(4, 4), ImageFormat::WebP)[12..].to_vec();
    let mut body =
        b"WEBPVP8X\x0a\0\0\0\x02\0\0\0\x03\0\0\x03\0\0ANIM\x06\0\0\0\0\0\0\0\0\0".to_vec();
    body.extend(b"ANMF");
    body.extend(u32::try_from(16 + frame.len()).unwrap().to_le_bytes());
    body.extend([0, 0, 0, 0, 0, 0, 3, 0, 0, 3, 0, 0, 100, 0, 0, 0]);
    body.extend(frame);
    let moving = [
        b"RIFF",
        &u32::try_from(body.len()).unwrap().to_le_bytes()[..],
        &body,
    ]
    .concat();
    assert_eq!(trouble(&moving), PhotoTrouble::Moving);
}

#[test]
fn a_picture_cut_off_is_not_kept() {
    let whole = with_exif(&jpeg(&quarters(200, 160)), &exif(6, true));
    for share in [10, 50, 90, 99] {
        let cut = &whole[..whole.len() * share / 100];
        assert_eq!(trouble(cut), PhotoTrouble::CutOff, "{share} %");
    }
    assert_eq!(trouble(&whole[..whole.len() - 1]), PhotoTrouble::CutOff);
    let noise = RgbImage::from_fn(64, 64, |x, y| {
        image::Rgb([x * 37 + y * 11, x * y, x * 5 + y * y].map(|v| u8::try_from(v % 256).unwrap()))
    });
    for format in [ImageFormat::Png, ImageFormat::WebP] {
        let whole = file(noise.clone(), format);
        for share in [10, 50, 90] {
            let cut = &whole[..whole.len() * share / 100];
            let why = trouble(cut);
            assert!(
                matches!(why, PhotoTrouble::CutOff | PhotoTrouble::Damaged),
                "{format:?} {share} %: {why:?}"
            );
        }
    }
}

#[test]
fn a_few_bytes_that_claim_to_be_a_giant_are_refused_unread() {
    for (width, height) in [
        (100_000, 100_000),
        (20_000, 4_000),
        (1, 12_001),
        (12_000, 5_001),
        (u32::MAX, 1),
    ] {
        let claim = [
            png_head(width, height, 8, 2),
            chunk(b"IDAT", b""),
            chunk(b"IEND", b""),
        ]
        .concat();
        assert!(claim.len() < 80);
        let why = trouble(&claim);
        assert!(
            matches!(why, PhotoTrouble::TooManyPixels | PhotoTrouble::Damaged),
            "{width} {why:?}"
        );
    }
    // 60 megapixels, but at eight bytes each.
    let deep = [
        png_head(12_000, 5_000, 16, 6),
        chunk(b"IDAT", b""),
        chunk(b"IEND", b""),
    ]
    .concat();
    assert_eq!(trouble(&deep), PhotoTrouble::TooManyPixels);
    assert_eq!(trouble(&plain_jpeg(12_008, 8)), PhotoTrouble::TooManyPixels);
    assert_eq!(
        trouble(&plain_jpeg(8_000, 7_504)),
        PhotoTrouble::TooManyPixels
    );
    // Built up in passes, it would be held twice: 25 megapixels are too many then.
    let mut passes = plain_jpeg(5_000, 5_000);
    let frame = passes.windows(2).position(|w| w == [0xFF, 0xC0]).unwrap();
    passes[frame + 1] = 0xC2;
    assert_eq!(trouble(&passes), PhotoTrouble::TooManyPixels);
}

#[test]
fn a_stream_that_swells_is_not_followed() {
    // 8 x 8 grey pixels need 72 bytes; the stream behind them swells to 256 MiB.
    let swollen = deflated_zeros(256 << 20);
    assert!(swollen.len() < 2 << 20, "{}", swollen.len());
    let bomb = [
        png_head(8, 8, 8, 0),
        chunk(b"IDAT", &swollen),
        chunk(b"IEND", b""),
    ]
    .concat();
    // It is read as far as the picture goes: the pixels are all that is ever held.
    assert_eq!(clean(&bomb).unwrap().width, 8);
    // The same behind a text and a colour profile.
    let mut note = b"Comment\0\0".to_vec();
    note.extend(&swollen);
    let still = file(GrayImage::from_pixel(8, 8, Luma([9])), ImageFormat::Png);
    for name in [b"zTXt", b"iCCP"] {
        let bomb = [&still[..33], &chunk(name, &note), &still[33..]].concat();
        assert_eq!(clean(&bomb).unwrap().width, 8, "{name:?}");
    }
}

/// A zlib stream (RFC 1950, 1951) of zeros: one block of fixed codes, each copying 258 bytes from one byte back. Its check
/// sum is left wrong: a reader that gets so far has read it all.
fn deflated_zeros(length: usize) -> Vec<u8> {
    let mut bits: Vec<bool> = Vec::new();
    let mut low_first =
        |value: u32, count: u32| bits.extend((0..count).map(|n| value >> n & 1 == 1));
    low_first(1, 1); // last block
    low_first(1, 2); // fixed codes
    // Literal 0: code 0x30 of eight bits, highest first.
    low_first(0x0C, 8);
    for _ in 0..length / 258 {
        // Length 258 is symbol 285: code 0xC5 of eight bits; distance 1 is code 0 of five bits.
        low_first(0xA3, 8);
        low_first(0, 5);
    }
    low_first(0, 7); // end of block
    let mut bytes = vec![0x78, 0x01];
    bytes.extend(bits.chunks(8).map(|byte| {
        byte.iter()
            .enumerate()
            .fold(0_u8, |sum, (n, bit)| sum | u8::from(*bit) << n)
    }));
    bytes.extend([0; 4]);
    bytes
}

#[test]
fn forty_eight_megapixels_are_kept() {
    let large = plain_jpeg(8_000, 6_000);
    assert!(large.len() < 200_000);
    let kept = clean(&large).unwrap();
    assert_eq!((kept.width, kept.height), (1600, 1200));
}

/// A plain congruential row of numbers (D. E. Knuth's MMIX constants): the same every time.
struct Row(u64);

impl Row {
    fn next(&mut self, below: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % below
    }
}

#[test]
fn changed_bytes_never_panic() {
    let picture = quarters(24, 16);
    let seeds = [
        with_exif(&jpeg(&picture), &exif(6, false)),
        file(picture.clone(), ImageFormat::Png),
        file(picture, ImageFormat::WebP),
        plain_jpeg(16, 16),
    ];
    let mut row = Row(1);
    let (mut kept, mut refused) = (0, 0);
    for n in 0..4_000 {
        let mut bytes = seeds[n % seeds.len()].clone();
        for _ in 0..=row.next(4) {
            let at = row.next(bytes.len());
            match row.next(4) {
                0 => bytes[at] ^= 1 << row.next(8),
                1 => bytes[at] = u8::try_from(row.next(256)).unwrap(),
                2 => bytes.truncate(at.max(1)),
                _ => {
                    let piece = bytes[at..(at + 8).min(bytes.len())].to_vec();
                    bytes.splice(at..at, piece);
                }
            }
        }
        match clean(&bytes) {
            Ok(_) => kept += 1,
            Err(_) => refused += 1,
        }
    }
    assert!(
        kept > 100 && refused > 100,
        "{kept} kept, {refused} refused: the changes try both"
    );
}

#[test]
fn chance_bytes_never_panic() {
    let mut row = Row(2);
    let heads: [&[u8]; 5] = [
        b"",
        b"\xff\xd8\xff\xe0",
        b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR",
        b"RIFF\x40\0\0\0WEBPVP8L",
        b"RIFF\x40\0\0\0WEBPVP8 ",
    ];
    for n in 0..2_000 {
        let mut bytes = heads[n % heads.len()].to_vec();
        for _ in 0..row.next(200) {
            bytes.push(u8::try_from(row.next(256)).unwrap());
        }
        let _ = clean(&bytes);
    }
}
