//! Cleaning a photo: upright whatever the camera's way, small, on white, and nothing of the file's own words left.

use super::photo_made::{CORNERS, exif, file, jpeg, quarters, with_exif};
use image::{
    DynamicImage, GrayImage, ImageBuffer, ImageFormat, Luma, Rgb, RgbImage, Rgba, RgbaImage,
};
use server::photo::{Cleaned, clean};

fn seen(cleaned: &Cleaned) -> RgbImage {
    let image = image::load_from_memory_with_format(&cleaned.bytes, ImageFormat::Jpeg).unwrap();
    assert_eq!(
        (image.width(), image.height()),
        (cleaned.width, cleaned.height)
    );
    image.into_rgb8()
}

fn near(seen: Rgb<u8>, wanted: Rgb<u8>, within: u8, what: &str) {
    let off = seen.0.iter().zip(wanted.0).map(|(a, b)| a.abs_diff(b));
    assert!(
        off.max().unwrap() <= within,
        "{what}: {seen:?}, wanted {wanted:?}"
    );
}

fn corners(picture: &RgbImage, what: &str) {
    let (w, h) = picture.dimensions();
    let at = [
        (w / 4, h / 4),
        (w * 3 / 4, h / 4),
        (w / 4, h * 3 / 4),
        (w * 3 / 4, h * 3 / 4),
    ];
    for ((x, y), wanted) in at.into_iter().zip(CORNERS) {
        near(*picture.get_pixel(x, y), wanted, 12, what);
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Side {
    Top,
    Right,
    Bottom,
    Left,
}
use Side::{Bottom, Left, Right, Top};

/// CIPA DC-008 (Exif 2.32), tag 0x0112: on which side of the picture as seen the file's first row and first column lie.
const ORIENTATIONS: [(u16, Side, Side); 8] = [
    (1, Top, Left),
    (2, Top, Right),
    (3, Bottom, Right),
    (4, Bottom, Left),
    (5, Left, Top),
    (6, Right, Top),
    (7, Right, Bottom),
    (8, Left, Bottom),
];

/// The rows and columns a camera writes so that, with the orientation told, `upright` is seen.
fn as_written(upright: &RgbImage, first_row: Side, first_column: Side) -> RgbImage {
    let (w, h) = upright.dimensions();
    let across = matches!(first_row, Left | Right);
    let (width, height) = if across { (h, w) } else { (w, h) };
    // How far `n` steps from a side are, counted from left or top.
    let place = |side: Side, n: u32| match side {
        Top | Left => n,
        Right => w - 1 - n,
        Bottom => h - 1 - n,
    };
    RgbImage::from_fn(width, height, |column, row| {
        let (by_row, by_column) = (place(first_row, row), place(first_column, column));
        let (x, y) = if across {
            (by_row, by_column)
        } else {
            (by_column, by_row)
        };
        *upright.get_pixel(x, y)
    })
}

#[test]
fn all_eight_orientations_come_out_upright() {
    let upright = quarters(96, 64);
    for (value, first_row, first_column) in ORIENTATIONS {
        let written = jpeg(&as_written(&upright, first_row, first_column));
        for broken_note in [false, true] {
            let cleaned = clean(&with_exif(&written, &exif(value, broken_note))).unwrap();
            let what = format!("orientation {value}, broken note: {broken_note}");
            assert_eq!((cleaned.width, cleaned.height), (96, 64), "{what}");
            corners(&seen(&cleaned), &what);
        }
    }
}

#[test]
fn an_orientation_that_is_none_is_left_alone() {
    let upright = jpeg(&quarters(96, 64));
    for block in [
        exif(0, false),
        exif(9, false),
        exif(1, false)[..20].to_vec(),
        b"MM".to_vec(),
    ] {
        corners(
            &seen(&clean(&with_exif(&upright, &block)).unwrap()),
            "as it lies",
        );
    }
}

#[test]
fn nothing_of_the_files_own_words_is_left() {
    let sent = with_exif(&jpeg(&quarters(64, 48)), &exif(1, false));
    let place = |bytes: &[u8]| {
        exif::Reader::new()
            .read_from_container(&mut std::io::Cursor::new(bytes))
            .map(|exif| {
                exif.get_field(exif::Tag::GPSLatitude, exif::In::PRIMARY)
                    .is_some()
            })
    };
    assert!(place(&sent).unwrap(), "the place is in what is sent");
    let kept = clean(&sent).unwrap().bytes;
    assert!(matches!(place(&kept), Err(exif::Error::NotFound(_))));
    for word in [&b"Exif"[..], b"note", b"MM\0\x2a"] {
        assert!(sent.windows(word.len()).any(|w| w == word));
        assert!(!kept.windows(word.len()).any(|w| w == word), "{word:?}");
    }
    // What hides behind the picture's end is gone as well.
    let hidden = [&sent[..], b"PK\x03\x04 a whole archive"].concat();
    assert_eq!(clean(&hidden).unwrap().bytes, kept);
    // Only segments a picture needs: frame, tables, scan, and the head that says it is a JPEG.
    assert_eq!(clean(&kept).unwrap().width, 64);
}

#[test]
fn the_same_file_gives_the_same_bytes() {
    let sent = jpeg(&quarters(2000, 900));
    let kept = clean(&sent).unwrap();
    assert_eq!(kept, clean(&sent).unwrap());
    assert_eq!((kept.width, kept.height), (1600, 720));
}

#[test]
fn only_what_is_larger_is_shrunk_and_the_shape_stays() {
    for (sent, kept) in [
        ((1600, 1200), (1600, 1200)),
        ((1601, 1200), (1600, 1199)),
        ((900, 1800), (800, 1600)),
        ((5000, 2), (1600, 1)),
        ((1, 1), (1, 1)),
    ] {
        let grey = GrayImage::from_pixel(sent.0, sent.1, Luma([90]));
        let cleaned = clean(&file(grey, ImageFormat::Png)).unwrap();
        assert_eq!((cleaned.width, cleaned.height), kept, "{sent:?}");
        near(*seen(&cleaned).get_pixel(0, 0), Rgb([90; 3]), 2, "tone");
    }
}

#[test]
fn shrinking_means_the_area() {
    // Lines one pixel wide, black and white: half of each is seen, however they fall on the small pixels.
    let lines = GrayImage::from_fn(3200, 40, |x, _| Luma([if x % 2 == 0 { 0 } else { 255 }]));
    let small = seen(&clean(&file(lines, ImageFormat::Png)).unwrap());
    for x in [0, 1, 799, 1599] {
        near(*small.get_pixel(x, 10), Rgb([128; 3]), 2, "lines");
    }
    // A ramp stays a ramp, with its ends where they were: value = x / 4800 of 255.
    let ramp = GrayImage::from_fn(4800, 8, |x, _| {
        Luma([u8::try_from(x * 255 / 4799).unwrap()])
    });
    let small = seen(&clean(&file(ramp, ImageFormat::Png)).unwrap());
    for x in [0_u32, 400, 800, 1200, 1599] {
        let wanted = u8::try_from(x * 255 / 1599).unwrap();
        near(*small.get_pixel(x, 1), Rgb([wanted; 3]), 3, "ramp");
    }
}

#[test]
fn every_depth_and_kind_of_colour_is_read() {
    let grey = GrayImage::from_pixel(40, 40, Luma([120]));
    let deep = ImageBuffer::from_pixel(40, 40, Luma([120 * 257_u16]));
    let deep_colour = ImageBuffer::from_pixel(40, 40, Rgb([120 * 257_u16; 3]));
    let webp = RgbImage::from_pixel(40, 40, Rgb([120; 3]));
    let all: [(DynamicImage, ImageFormat); 5] = [
        (grey.clone().into(), ImageFormat::Png),
        (grey.into(), ImageFormat::Jpeg),
        (deep.into(), ImageFormat::Png),
        (deep_colour.into(), ImageFormat::Png),
        (webp.into(), ImageFormat::WebP),
    ];
    for (picture, format) in all {
        let what = format!("{:?} {format:?}", picture.color());
        let cleaned = clean(&file(picture, format)).unwrap();
        near(*seen(&cleaned).get_pixel(20, 20), Rgb([120; 3]), 2, &what);
    }
}

#[test]
fn what_is_seen_through_lies_on_white() {
    for (alpha, wanted) in [(0, 255), (255, 40), (128, 147)] {
        // 40 at 128/255 on white: 40 * 0.502 + 255 * 0.498 = 147.
        let glass = RgbaImage::from_pixel(24, 24, Rgba([40, 40, 40, alpha]));
        for format in [ImageFormat::Png, ImageFormat::WebP] {
            let cleaned = clean(&file(glass.clone(), format)).unwrap();
            near(
                *seen(&cleaned).get_pixel(12, 12),
                Rgb([wanted; 3]),
                2,
                "glass",
            );
        }
    }
}
