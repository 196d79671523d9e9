//! Small pictures of lists, made once and held while there is room.

use super::PhotoTrouble;
use axum::body::Bytes;
use std::{
    collections::{BTreeMap, VecDeque},
    sync::{Mutex, PoisonError},
};
use yard::id::PhotoId;

/// Most bytes held: some four hundred small pictures.
const MOST: usize = 8 << 20;

/// The small pictures held; the one made first goes first.
#[derive(Debug, Default)]
pub(crate) struct Small(Mutex<Held>);

#[derive(Debug, Default)]
struct Held {
    pictures: BTreeMap<PhotoId, Bytes>,
    in_order: VecDeque<PhotoId>,
    bytes: usize,
}

impl Small {
    /// The small picture of a photo, made now where it is not held. What could not be made is tried again the next time.
    pub(crate) fn of(
        &self,
        id: PhotoId,
        make: impl FnOnce() -> Result<Vec<u8>, PhotoTrouble>,
    ) -> Result<Bytes, PhotoTrouble> {
        let held = |small: &Self| small.lock().pictures.get(&id).cloned();
        if let Some(bytes) = held(self) {
            return Ok(bytes);
        }
        let bytes = Bytes::from(make()?);
        self.lock().keep(id, bytes.clone());
        Ok(bytes)
    }

    fn lock(&self) -> std::sync::MutexGuard<'_, Held> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Held {
    fn keep(&mut self, id: PhotoId, bytes: Bytes) {
        self.bytes += bytes.len();
        self.in_order.push_back(id);
        // Two may have made it at once.
        if let Some(before) = self.pictures.insert(id, bytes) {
            self.bytes -= before.len();
            self.in_order.pop_back();
        }
        while self.bytes > MOST {
            let Some(first) = self.in_order.pop_front() else {
                return;
            };
            if let Some(gone) = self.pictures.remove(&first) {
                self.bytes -= gone.len();
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    fn id(n: usize) -> PhotoId {
        format!("018f0000-0000-7000-8000-{n:012}").parse().unwrap()
    }

    #[test]
    fn one_is_made_once() {
        let (small, made) = (Small::default(), Cell::new(0));
        for _ in 0..3 {
            let bytes = small.of(id(1), || {
                made.set(made.get() + 1);
                Ok(vec![7; 9])
            });
            assert_eq!(bytes.unwrap(), vec![7; 9]);
        }
        assert_eq!(made.get(), 1);
    }

    #[test]
    fn what_failed_is_tried_again() {
        let small = Small::default();
        assert!(small.of(id(1), || Err(PhotoTrouble::Damaged)).is_err());
        assert!(small.of(id(1), || Ok(vec![1])).is_ok());
    }

    #[test]
    fn it_holds_no_more_than_there_is_room_for() {
        let small = Small::default();
        for n in 0..40 {
            small.of(id(n), || Ok(vec![0; 1 << 20])).unwrap();
        }
        let held = small.lock();
        assert_eq!(held.bytes, MOST);
        assert_eq!(held.pictures.len(), MOST >> 20);
        assert_eq!(held.in_order.len(), held.pictures.len());
        assert!(held.pictures.contains_key(&id(39)));
        assert!(!held.pictures.contains_key(&id(0)));
    }
}
