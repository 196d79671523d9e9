//! Photos: cleaned before they are kept, shown only to people of the yard.
//!
//! What comes in is looked at before it is decoded (kind by content, size, pixels), decoded one at a time, turned upright,
//! shrunk and written anew as JPEG. So nothing of the file that was sent is ever handed out again: no place, no camera,
//! nothing hidden behind the picture.

mod address;
mod clean;
mod reading;
mod shrink;
mod small;
mod trouble;
mod whole;

pub(crate) use address::{ask_first, show};
pub use clean::{Cleaned, LONG_SIDE, MOST_BYTES, MOST_PIXELS, MOST_SIDE, clean};
pub(crate) use reading::{MOST_READ, Sent, form, whole as whole_body};
pub(crate) use small::Small;
pub use trouble::PhotoTrouble;

use crate::{desk::Desk, refusal::Refusal};
use std::sync::{Mutex, PoisonError};
use store::{Picture, PictureKept};
use yard::{id::PhotoId, people::Deed};

/// One picture in memory at a time, whoever asks: the largest takes some 250 MB while it is decoded.
static TURN: Mutex<()> = Mutex::new(());

/// Cleans a picture and keeps it under the id its phone gave. On the disk when this returns. Waits its turn: call it on a
/// thread that may wait.
///
/// The same file sent again is known, because cleaning gives the same bytes for the same file.
///
/// # Errors
/// [`Refusal::SignIn`], [`Refusal::MayNot`]; [`Refusal::Photo`] for what is no picture that can be kept; the store's own.
pub(crate) fn keep(desk: &Desk, id: PhotoId, bytes: &[u8]) -> Result<PictureKept, Refusal> {
    desk.may(Deed::Note)?;
    let cleaned = in_turn(|| clean(bytes))?;
    let picture = Picture {
        media_type: "image/jpeg".to_owned(),
        bytes: cleaned.bytes,
    };
    Ok(desk.app.yard.keep_picture(id, &picture)?)
}

/// Does work on pixels when nobody else does. A decoder that panics has met a damaged picture, no more.
fn in_turn<T>(
    work: impl FnOnce() -> Result<T, PhotoTrouble> + std::panic::UnwindSafe,
) -> Result<T, PhotoTrouble> {
    let _turn = TURN.lock().unwrap_or_else(PoisonError::into_inner);
    std::panic::catch_unwind(work).unwrap_or(Err(PhotoTrouble::Damaged))
}
