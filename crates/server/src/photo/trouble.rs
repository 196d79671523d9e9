//! Why a file sent as a photo is not kept: a code each; the sentences are `photo-<code>` in `words`.

use axum::http::StatusCode;

/// Why a file was not kept as a photo. Nothing of it was.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PhotoTrouble {
    /// No bytes at all.
    Empty,
    /// More bytes than are taken.
    TooLarge,
    /// Its first bytes are those of no kind of picture, whatever its name says.
    NotAPicture,
    /// A picture, but of a kind that is not read here: HEIC, AVIF, GIF, TIFF, BMP.
    OtherKind,
    /// Several pictures that move.
    Moving,
    /// More pixels, or more bytes a pixel, than are decoded.
    TooManyPixels,
    /// Its end is missing.
    CutOff,
    /// It does not decode.
    Damaged,
}

impl PhotoTrouble {
    /// All of them.
    pub const ALL: &'static [Self] = &[
        Self::Empty,
        Self::TooLarge,
        Self::NotAPicture,
        Self::OtherKind,
        Self::Moving,
        Self::TooManyPixels,
        Self::CutOff,
        Self::Damaged,
    ];

    /// The code for programs.
    pub fn code(self) -> &'static str {
        self.key().trim_start_matches("photo-")
    }

    /// The key of its sentence; `<key>.next` says what to do.
    pub fn key(self) -> &'static str {
        match self {
            Self::Empty => "photo-empty",
            Self::TooLarge => "photo-too-large",
            Self::NotAPicture => "photo-not-a-picture",
            Self::OtherKind => "photo-other-kind",
            Self::Moving => "photo-moving",
            Self::TooManyPixels => "photo-too-many-pixels",
            Self::CutOff => "photo-cut-off",
            Self::Damaged => "photo-damaged",
        }
    }

    /// The status it is answered with.
    pub fn status(self) -> StatusCode {
        match self {
            Self::TooLarge => StatusCode::PAYLOAD_TOO_LARGE,
            _ => StatusCode::UNPROCESSABLE_ENTITY,
        }
    }
}
