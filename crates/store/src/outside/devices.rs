//! Devices that somebody signed in on: only the hash of what the browser holds is kept, and who signed in.

use crate::{Drawer, StoreError, Yard};
use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use uuid::Uuid;
use yard::id::PersonId;

/// One device. Its own stored form: plain fields.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Device {
    /// Who has signed in on it, the last one last.
    pub people: Vec<Uuid>,
    /// When somebody last signed in on it.
    pub seen: Timestamp,
}

impl Device {
    /// Whether this person has signed in on it.
    pub fn knows(&self, person: PersonId) -> bool {
        self.people.contains(&person.0)
    }
}

impl Yard {
    /// A device by the hash of its id; none where nobody ever signed in on it.
    ///
    /// # Errors
    /// The engine's own.
    pub fn device(&self, id_hash: &str) -> Result<Option<Device>, StoreError> {
        self.kept(Drawer::Device, id_hash)
    }

    /// Notes that a person signed in on a device.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn note_device(
        &self,
        id_hash: &str,
        person: PersonId,
        now: Timestamp,
    ) -> Result<(), StoreError> {
        self.change(Drawer::Device, id_hash, |old: Option<Device>| {
            let mut people = old.map_or_else(Vec::new, |old| old.people);
            people.retain(|known| *known != person.0);
            people.push(person.0);
            (Some(Device { people, seen: now }), ())
        })
    }

    /// Takes a person off all devices, as when their name is erased.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn forget_on_devices(&self, person: PersonId) -> Result<(), StoreError> {
        for (key, device) in self.all_kept::<Device>(Drawer::Device)? {
            if device.knows(person) {
                self.change(Drawer::Device, &key, |old: Option<Device>| {
                    let old = old.map(|mut old| {
                        old.people.retain(|known| *known != person.0);
                        old
                    });
                    (old.filter(|old| !old.people.is_empty()), ())
                })?;
            }
        }
        Ok(())
    }

    /// Takes away devices that nobody signed in on since `before`.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn clear_devices(&self, before: Timestamp) -> Result<(), StoreError> {
        self.clear(Drawer::Device, |device: &Device| device.seen < before)
    }
}
