//! A finding on one page with its photos, whatever their shape and number.
#![allow(clippy::unwrap_used)]

mod printed;
mod yard_of_one;

use image::{Rgb, RgbImage, codecs::jpeg::JpegEncoder};
use papers::{PaperSize, PrintedFinding, PrintedPhoto};
use printed::Printed;
use words::Words;
use yard_of_one::{ADDRESS, YardOfOne};

/// A plain picture of one colour.
fn plain(width: u32, height: u32, colour: [u8; 3]) -> Vec<u8> {
    let mut bytes = Vec::new();
    JpegEncoder::new_with_quality(&mut bytes, 82)
        .encode_image(&RgbImage::from_pixel(width, height, Rgb(colour)))
        .unwrap();
    bytes
}

const COLOURS: [[u8; 3]; 5] = [
    [200, 30, 30],
    [30, 160, 30],
    [30, 30, 200],
    [180, 160, 20],
    [150, 20, 150],
];

fn printed(count: usize, awaited: usize, size: PaperSize, long: usize) -> Printed {
    let (yard, words) = (YardOfOne::of("demo/marigold.toml"), Words::english());
    let pictures: Vec<Vec<u8>> = (0..count)
        // Wide and tall ones in turn, as phones are held.
        .map(|n| [(800, 600), (600, 800)][n % 2])
        .zip(COLOURS)
        .map(|((width, height), colour)| plain(width, height, colour))
        .collect();
    let captions: Vec<String> = (1..=count)
        .map(|n| format!("Caption {n}{}", " and more of it".repeat(long)))
        .collect();
    let photos: Vec<PrintedPhoto<'_>> = pictures
        .iter()
        .zip(&captions)
        .map(|(jpeg, caption)| PrintedPhoto { jpeg, caption })
        .collect();
    let done: Vec<String> = (1..=long)
        .map(|n| {
            format!(
                "Done {n}: {}",
                "the pin was driven out and a new one fitted. ".repeat(8)
            )
        })
        .collect();
    let what = "Pin clips: missing. ".repeat(1 + long * 4);
    let finding = PrintedFinding {
        what: what.trim(),
        found_by: "Odalys",
        at: yard.now,
        done: &done,
        photos: &photos,
        awaited,
        withheld: false,
        address: &format!("{ADDRESS}/finding/9"),
    };
    Printed::of(&papers::finding_sheet(&yard.sheet(&words, size), &finding).unwrap())
}

fn said(printed: &Printed) -> String {
    printed
        .in_order()
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}

#[test]
fn it_is_one_page_with_up_to_four_photos_whatever_is_said() {
    for size in [PaperSize::A4, PaperSize::Letter] {
        for count in [0, 1, 3, 5] {
            for long in [0, 12] {
                let printed = printed(count, 0, size, long);
                assert_eq!(printed.pages(), 1, "{count} photos, {long} long, {size:?}");
            }
        }
    }
}

#[test]
fn the_photos_are_on_it_and_the_captions_under_them() {
    for size in [PaperSize::A4, PaperSize::Letter] {
        let printed = printed(5, 0, size, 0);
        let page = printed.colours(1, 60);
        let near = |wanted: [u8; 3]| {
            let close = |p: &&Rgb<u8>| p.0.iter().zip(wanted).all(|(a, b)| a.abs_diff(b) < 12);
            page.pixels().filter(close).count()
        };
        // Each is 41 mm by 55 mm or larger: at 60 dots an inch some 12,000 dots.
        for colour in &COLOURS[..4] {
            assert!(near(*colour) > 9_000, "{colour:?}: {}", near(*colour));
        }
        assert_eq!(near(COLOURS[4]), 0, "the fifth is not printed");
        let text = said(&printed);
        for n in 1..=4 {
            assert!(text.contains(&format!("Caption {n}")), "{text}");
        }
        assert!(
            text.contains("One more photo is on the finding's page."),
            "{text}"
        );
        assert_eq!(printed.codes(1), [format!("{ADDRESS}/finding/9")]);
    }
}

#[test]
fn without_photos_it_says_so() {
    assert!(said(&printed(0, 0, PaperSize::A4, 0)).contains("No photo was taken."));
    let awaited = said(&printed(0, 2, PaperSize::A4, 0));
    assert!(
        awaited.contains("2 photos have not arrived yet."),
        "{awaited}"
    );
    assert!(!awaited.contains("No photo was taken."), "{awaited}");
}

#[test]
fn what_is_no_jpeg_makes_no_paper() {
    let (yard, words) = (YardOfOne::of("demo/marigold.toml"), Words::english());
    let photos = [PrintedPhoto {
        jpeg: b"no picture",
        caption: "none",
    }];
    let finding = PrintedFinding {
        what: "x",
        found_by: "Odalys",
        at: yard.now,
        done: &[],
        photos: &photos,
        awaited: 0,
        withheld: false,
        address: ADDRESS,
    };
    assert!(papers::finding_sheet(&yard.sheet(&words, PaperSize::A4), &finding).is_err());
}
