//! Photos of findings: those of the answer that told of one, and those that name it, wherever they stand in order.

use super::{
    super::{Found, PhotoOf, PointPhoto},
    Fold,
    corrections::Heard,
};
use crate::{
    entry::{Entry, PhotoNote},
    id::PhotoId,
    people::Deed,
};

/// The photos that came with what was found.
pub(super) fn photos_of(entry: &Entry, what: &Found) -> Vec<PhotoOf> {
    let mut photos: Vec<PhotoOf> = Vec::new();
    if let Found::Answer(answered) = what {
        for photo in &answered.photos {
            if photos.iter().all(|one| one.photo != *photo) {
                photos.push(taken(entry, *photo, None));
            }
        }
    }
    photos
}

fn taken(entry: &Entry, photo: PhotoId, text: Option<String>) -> PhotoOf {
    PhotoOf {
        photo,
        entry: entry.id,
        at: entry.ordered_at,
        by: entry.by,
        text,
    }
}

impl Fold<'_> {
    /// Takes a photo that names a finding. It may come before what it names, so it is kept to the end of the fold.
    pub(super) fn photo(&mut self, heard: &Heard<'_>, note: &PhotoNote) {
        if !self.may(heard, Deed::Note) {
            return;
        }
        if let Some(point) = &note.point {
            self.state.point_photos.push(PointPhoto {
                point: self.state.point_today(point),
                by: heard.entry.by,
                at: heard.entry.ordered_at,
            });
        }
        if let Some(of) = &note.of {
            let photo = taken(heard.entry, note.photo, note.text.clone());
            self.photos.push((of.clone(), photo));
        }
    }

    /// Hangs photos beside what they name. One of something that is no finding stays in the journal alone.
    pub(super) fn hang_photos(&mut self) {
        for (mut of, photo) in std::mem::take(&mut self.photos) {
            of.point = of.point.map(|point| self.state.point_today(&point));
            let Some(finding) = self.state.findings.get_mut(&of) else {
                continue;
            };
            match finding
                .photos
                .iter_mut()
                .find(|one| one.photo == photo.photo)
            {
                // Named twice, it hangs where it was named first, with the first words said of it.
                Some(there) => there.text = there.text.take().or(photo.text),
                None => finding.photos.push(photo),
            }
        }
    }
}
