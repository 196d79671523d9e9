//! Photos for the demo: line drawings on paper, marked as invented, the same bytes every time.
//!
//! Each hangs at the first answer of its kind. Its id is not drawn, so that the rest of the journal is the same with it.

use super::pen::Pen;
use image::{Rgb, RgbImage, codecs::jpeg::JpegEncoder};
use store::{Picture, StoreError};
use yard::{
    book::LeakClass,
    entry::{Answer, BoltState, ClipState},
    id::PhotoId,
};

const WIDE: u32 = 640;
const HIGH: u32 = 480;
const PAPER: Rgb<u8> = Rgb([251, 248, 241]);
const INK: Rgb<u8> = Rgb([33, 30, 25]);
const PENCIL: Rgb<u8> = Rgb([150, 141, 124]);
const RED: Rgb<u8> = Rgb([140, 42, 28]);

/// What is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sketch {
    /// A pin whose clip is gone: the hole is empty.
    EmptyHole,
    /// A bolt whose paint stripe no longer meets the one on the plate.
    TurnedStripe,
    /// A ram whose rod is wet, and drops under it.
    Drops,
}

/// Photos of an answer: one, where it is the first of its kind to be worth one.
pub(crate) fn photos(pen: &Pen, answer: &Answer) -> Result<Vec<PhotoId>, StoreError> {
    let (sketch, number) = match answer {
        Answer::PinClip(ClipState::Missing) => (Sketch::EmptyHole, 1),
        Answer::Bolts {
            state: BoltState::Loose,
            ..
        } => (Sketch::TurnedStripe, 2),
        Answer::Leak(Some(LeakClass::II)) => (Sketch::Drops, 3),
        _ => return Ok(Vec::new()),
    };
    // Version 8 of RFC 9562: an id made up by the writer.
    let id = PhotoId(uuid::Builder::from_custom_bytes([number; 16]).into_uuid());
    let yard = pen.yard();
    if yard.has_picture(id)? {
        return Ok(Vec::new());
    }
    let picture = Picture {
        media_type: "image/jpeg".to_owned(),
        bytes: drawn(sketch),
    };
    yard.keep_picture(id, &picture)?;
    Ok(vec![id])
}

fn drawn(sketch: Sketch) -> Vec<u8> {
    let mut paper = Paper::new();
    match sketch {
        Sketch::EmptyHole => paper.empty_hole(),
        Sketch::TurnedStripe => paper.turned_stripe(),
        Sketch::Drops => paper.drops(),
    }
    paper.invented();
    let mut bytes = Vec::new();
    JpegEncoder::new_with_quality(&mut bytes, 82)
        .encode_image(&paper.0)
        .expect("a picture in memory of a plain size is written");
    bytes
}

/// A point on the paper.
type At = (f64, f64);

struct Paper(RgbImage);

impl Paper {
    fn new() -> Self {
        Self(RgbImage::from_pixel(WIDE, HIGH, PAPER))
    }

    fn empty_hole(&mut self) {
        self.path(
            &[(40.0, 110.0), (250.0, 110.0), (250.0, 370.0), (40.0, 370.0)],
            4.0,
            INK,
        );
        self.path(
            &[
                (250.0, 180.0),
                (480.0, 180.0),
                (500.0, 200.0),
                (500.0, 280.0),
                (480.0, 300.0),
                (250.0, 300.0),
            ],
            4.0,
            INK,
        );
        self.ring((420.0, 240.0), 26.0, 4.0, INK);
        // Where the clip was, in pencil; and what to look at.
        self.path(
            &[
                (420.0, 130.0),
                (420.0, 350.0),
                (470.0, 372.0),
                (530.0, 330.0),
                (530.0, 160.0),
            ],
            2.0,
            PENCIL,
        );
        self.ring((420.0, 240.0), 46.0, 3.0, RED);
        self.path(&[(560.0, 90.0), (458.0, 204.0), (462.0, 182.0)], 3.0, RED);
    }

    fn turned_stripe(&mut self) {
        self.path(
            &[
                (40.0, 80.0),
                (600.0, 80.0),
                (600.0, 400.0),
                (40.0, 400.0),
                (40.0, 80.0),
            ],
            4.0,
            INK,
        );
        let head = [
            (320.0, 140.0),
            (407.0, 190.0),
            (407.0, 290.0),
            (320.0, 340.0),
            (233.0, 290.0),
            (233.0, 190.0),
            (320.0, 140.0),
        ];
        self.path(&head, 5.0, INK);
        self.ring((320.0, 240.0), 118.0, 3.0, INK);
        // The stripe on the plate lies level; the one on the head has turned.
        self.path(&[(445.0, 240.0), (570.0, 240.0)], 9.0, RED);
        self.path(&[(320.0, 240.0), (385.0, 300.0)], 9.0, RED);
    }

    fn drops(&mut self) {
        self.path(
            &[(30.0, 150.0), (330.0, 150.0), (330.0, 290.0), (30.0, 290.0)],
            4.0,
            INK,
        );
        self.path(&[(330.0, 190.0), (600.0, 190.0)], 4.0, INK);
        self.path(&[(330.0, 250.0), (600.0, 250.0)], 4.0, INK);
        self.path(
            &[(350.0, 262.0), (390.0, 262.0), (430.0, 258.0)],
            7.0,
            PENCIL,
        );
        for (x, y) in [(345.0, 315.0), (352.0, 365.0), (339.0, 410.0)] {
            self.ring((x, y), 9.0, 6.0, RED);
            self.path(
                &[(x - 6.0, y - 8.0), (x, y - 24.0), (x + 6.0, y - 8.0)],
                4.0,
                RED,
            );
        }
    }

    /// Straight strokes from point to point.
    fn path(&mut self, points: &[At], wide: f64, ink: Rgb<u8>) {
        for ends in points.windows(2) {
            self.where_near(wide / 2.0, ink, |at| to_stroke(at, ends[0], ends[1]));
        }
    }

    fn ring(&mut self, middle: At, radius: f64, wide: f64, ink: Rgb<u8>) {
        self.where_near(wide / 2.0, ink, |at| (apart(at, middle) - radius).abs());
    }

    /// Inks every pixel at most so far away; at the edge half.
    fn where_near(&mut self, far: f64, ink: Rgb<u8>, away: impl Fn(At) -> f64) {
        for (x, y, pixel) in self.0.enumerate_pixels_mut() {
            let away = away((f64::from(x), f64::from(y)));
            if away <= far {
                *pixel = ink;
            } else if away <= far + 1.0 {
                for (under, over) in pixel.0.iter_mut().zip(ink.0) {
                    *under = u8::midpoint(*under, over);
                }
            }
        }
    }

    /// The word INVENTED in the corner, letters of five by seven dots.
    fn invented(&mut self) {
        const DOT: u32 = 4;
        let letters = [&I, &N, &V, &E, &N, &T, &E, &D];
        for (place, letter) in (0_u32..).zip(letters) {
            for (row, bits) in (0_u32..).zip(letter) {
                for column in (0..5_u32).filter(|column| bits >> (4 - column) & 1 == 1) {
                    let (x, y) = (24 + (place * 6 + column) * DOT, 432 + row * DOT);
                    for n in 0..DOT * DOT {
                        self.0.put_pixel(x + n % DOT, y + n / DOT, INK);
                    }
                }
            }
        }
    }
}

const I: [u8; 7] = [
    0b01110, 0b00100, 0b00100, 0b00100, 0b00100, 0b00100, 0b01110,
];
const N: [u8; 7] = [
    0b10001, 0b11001, 0b10101, 0b10101, 0b10011, 0b10001, 0b10001,
];
const V: [u8; 7] = [
    0b10001, 0b10001, 0b10001, 0b10001, 0b10001, 0b01010, 0b00100,
];
const E: [u8; 7] = [
    0b11111, 0b10000, 0b10000, 0b11110, 0b10000, 0b10000, 0b11111,
];
const T: [u8; 7] = [
    0b11111, 0b00100, 0b00100, 0b00100, 0b00100, 0b00100, 0b00100,
];
const D: [u8; 7] = [
    0b11110, 0b10001, 0b10001, 0b10001, 0b10001, 0b10001, 0b11110,
];

fn apart((x, y): At, (to_x, to_y): At) -> f64 {
    ((x - to_x) * (x - to_x) + (y - to_y) * (y - to_y)).sqrt()
}

/// How far a point is from a straight stroke.
fn to_stroke(at: At, from: At, to: At) -> f64 {
    let (along_x, along_y) = (to.0 - from.0, to.1 - from.1);
    let long = along_x * along_x + along_y * along_y;
    let share = ((at.0 - from.0) * along_x + (at.1 - from.1) * along_y) / long;
    let share = share.clamp(0.0, 1.0);
    apart(at, (from.0 + share * along_x, from.1 + share * along_y))
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    const ALL: [Sketch; 3] = [Sketch::EmptyHole, Sketch::TurnedStripe, Sketch::Drops];

    #[test]
    fn each_is_small_its_own_and_the_same_every_time() {
        for (n, sketch) in ALL.into_iter().enumerate() {
            let bytes = drawn(sketch);
            assert!(bytes.len() < 40_000, "{sketch:?}: {} bytes", bytes.len());
            assert_eq!(bytes, drawn(sketch));
            assert!(ALL[..n].iter().all(|other| drawn(*other) != bytes));
        }
    }

    #[test]
    fn each_is_a_picture_that_a_phone_could_have_sent() {
        for sketch in ALL {
            let cleaned = server::photo::clean(&drawn(sketch)).unwrap();
            assert_eq!((cleaned.width, cleaned.height), (WIDE, HIGH));
        }
    }
}
