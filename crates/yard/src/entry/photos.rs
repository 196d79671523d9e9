//! Which photos a body names.

use super::{Answered, Body};
use crate::id::PhotoId;

impl Body {
    /// The photos it names, in order; those of what a correction says instead as well. One named twice comes twice.
    pub fn photos(&self) -> Vec<PhotoId> {
        let of_answers = |answers: &[Answered]| {
            let each = answers.iter().flat_map(|answered| &answered.photos);
            each.copied().collect()
        };
        match self {
            Body::Photo(note) => vec![note.photo],
            Body::WalkRound(walk) => of_answers(&walk.answers),
            Body::Document(document) => document.photos.clone(),
            Body::Greasing(greasing) => of_answers(&greasing.fittings),
            Body::Correction(correction) => correction
                .instead
                .as_ref()
                .map_or_else(Vec::new, |body| body.photos()),
            _ => Vec::new(),
        }
    }
}
