//! Sign-ins: only the hash of what the browser holds is kept.

use crate::{Drawer, StoreError, Yard};
use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use uuid::Uuid;
use yard::id::PersonId;

/// One sign-in. Its own stored form: three plain fields.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Session {
    /// Whose it is, once somebody signed in.
    pub person: Option<Uuid>,
    /// What the server keeps with it.
    pub data: String,
    /// Until when it holds.
    pub expires: Timestamp,
}

impl Yard {
    /// Keeps a sign-in under the hash of its id.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn keep_session(&self, id_hash: &str, session: &Session) -> Result<(), StoreError> {
        self.change(Drawer::Session, id_hash, |_: Option<Session>| {
            (Some(session.clone()), ())
        })
    }

    /// A sign-in that still holds.
    ///
    /// # Errors
    /// The engine's own.
    pub fn session(&self, id_hash: &str, now: Timestamp) -> Result<Option<Session>, StoreError> {
        Ok(self
            .kept::<Session>(Drawer::Session, id_hash)?
            .filter(|session| session.expires > now))
    }

    /// Ends a sign-in.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn end_session(&self, id_hash: &str) -> Result<(), StoreError> {
        self.change(Drawer::Session, id_hash, |_: Option<Session>| (None, ()))
    }

    /// Ends all sign-ins of a person, as when the PIN is changed.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn end_sessions_of(&self, person: PersonId) -> Result<(), StoreError> {
        self.clear(Drawer::Session, |session: &Session| {
            session.person == Some(person.0)
        })
    }

    /// Takes away sign-ins that no longer hold.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn clear_sessions(&self, now: Timestamp) -> Result<(), StoreError> {
        self.clear(Drawer::Session, |session: &Session| session.expires <= now)
    }
}
