//! People: the name behind a person's id. Roles are in the journal; what is here can be erased.

use super::Link;
use crate::{Drawer, StoreError, Yard};
use serde::{Deserialize, Serialize};
use yard::id::PersonId;

/// A person, as far as the store knows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Person {
    /// Id, as entries carry it.
    pub id: PersonId,
    /// Name; none once erased.
    pub name: Option<String>,
    /// The PIN's hash, as its maker writes it; none = cannot sign in by PIN.
    pub pin_hash: Option<String>,
    /// Whether the person may sign in.
    pub active: bool,
    /// Made up, for the demo.
    pub invented: bool,
}

#[derive(Serialize, Deserialize)]
pub(crate) struct PersonForm {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) name: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) pin_hash: Option<String>,
    pub(crate) active: bool,
    pub(crate) invented: bool,
}

impl Yard {
    /// Everybody, by id.
    ///
    /// # Errors
    /// The engine's own.
    pub fn people(&self) -> Result<Vec<Person>, StoreError> {
        let all = self.all_kept::<PersonForm>(Drawer::Person)?;
        Ok(all
            .into_iter()
            .filter_map(|(id, form)| Some(form.person(id.parse().ok()?)))
            .collect())
    }

    /// One person.
    ///
    /// # Errors
    /// The engine's own.
    pub fn person(&self, id: PersonId) -> Result<Option<Person>, StoreError> {
        Ok(self
            .kept::<PersonForm>(Drawer::Person, &id.to_string())?
            .map(|form| form.person(id)))
    }

    /// Keeps a person as given, new or changed.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn keep_person(&self, person: &Person) -> Result<(), StoreError> {
        let form = || PersonForm {
            name: person.name.clone(),
            pin_hash: person.pin_hash.clone(),
            active: person.active,
            invented: person.invented,
        };
        self.change(
            Drawer::Person,
            &person.id.to_string(),
            |_: Option<PersonForm>| (Some(form()), ()),
        )
    }

    /// Erases a person's name and PIN and ends their sign-ins, tokens and links; no device remembers them. Their entries stay, under the
    /// bare id.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn erase_person(&self, id: PersonId) -> Result<(), StoreError> {
        self.change(
            Drawer::Person,
            &id.to_string(),
            |old: Option<PersonForm>| {
                (
                    old.map(|old| PersonForm {
                        name: None,
                        pin_hash: None,
                        active: false,
                        invented: old.invented,
                    }),
                    (),
                )
            },
        )?;
        self.end_sessions_of(id)?;
        self.forget_on_devices(id)?;
        self.end_tokens_of(id)?;
        self.clear(Drawer::Link, |link: &Link| link.person == Some(id.0))?;
        self.store.to_write()?.scrub()
    }
}

impl PersonForm {
    fn person(self, id: PersonId) -> Person {
        Person {
            id,
            name: self.name,
            pin_hash: self.pin_hash,
            active: self.active,
            invented: self.invented,
        }
    }
}
