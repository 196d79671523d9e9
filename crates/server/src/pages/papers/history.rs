//! The history paper: photos with it, for those who may see photos. People's names stay out.

use crate::desk::Desk;
use papers::{PaperError, Sheet};
use words::Names;
use yard::{id::PhotoId, state::MachineState};

/// Makes it. Photos may show people: whoever is not signed in gets it without them.
pub(super) fn made(
    desk: &Desk,
    sheet: &Sheet<'_>,
    state: &MachineState,
    names: &dyn Names,
) -> Result<Vec<u8>, PaperError> {
    let photo = |id: PhotoId| {
        desk.person?;
        let picture = desk.app.yard.picture(id).ok()??;
        Some(picture.bytes)
    };
    papers::history(sheet, state, &desk.view.entries, names, false, &photo)
}
