//! Sign-ins: only the hash of what the browser holds is kept.

use crate::{Drawer, StoreError, Yard};
use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use uuid::Uuid;
use yard::id::PersonId;

/// One sign-in. Its own stored form: plain fields; what older programs did not write is empty.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Session {
    /// Whose it is, once somebody signed in.
    pub person: Option<Uuid>,
    /// Until when it holds.
    pub expires: Timestamp,
    /// When it began.
    #[serde(default)]
    pub since: Option<Timestamp>,
    /// The device it is on: a few letters to tell it from others.
    #[serde(default)]
    pub device: String,
    /// Whether the device is used by several people, so that it ends after a while without a request.
    #[serde(default)]
    pub shared: bool,
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

    /// Lets a sign-in that is still there hold until `expires`. One that was ended meanwhile stays ended.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn prolong_session(&self, id_hash: &str, expires: Timestamp) -> Result<(), StoreError> {
        self.change(Drawer::Session, id_hash, |held: Option<Session>| {
            (held.map(|held| Session { expires, ..held }), ())
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

    /// All sign-ins of a person that still hold, each with the hash of its id.
    ///
    /// # Errors
    /// The engine's own.
    pub fn sessions_of(
        &self,
        person: PersonId,
        now: Timestamp,
    ) -> Result<Vec<(String, Session)>, StoreError> {
        let all = self.all_kept::<Session>(Drawer::Session)?;
        let holds = |session: &Session| session.person == Some(person.0) && session.expires > now;
        Ok(all
            .into_iter()
            .filter(|(_, session)| holds(session))
            .collect())
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
