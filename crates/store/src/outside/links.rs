//! One-time links: only the hash of what is in the link is kept, and it opens once.

use crate::{Drawer, StoreError, Yard};
use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use uuid::Uuid;
use yard::id::PersonId;

/// What a one-time link is for. Its own stored form: three plain fields.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Link {
    /// What it opens, e.g. `first-steward`.
    pub purpose: String,
    /// The person it is for.
    pub person: Option<Uuid>,
    /// Until when it opens.
    pub expires: Timestamp,
    /// When it was used.
    #[serde(default)]
    pub used: Option<Timestamp>,
}

/// What became of a link that was followed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LinkUse {
    /// It opens, now and never again.
    Opens(Link),
    /// There is no such link.
    NoSuch,
    /// Its time is over.
    Expired,
    /// It was used already.
    Used,
}

impl Yard {
    /// Keeps a link under the hash of its token.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn keep_link(&self, token_hash: &str, link: &Link) -> Result<(), StoreError> {
        self.change(Drawer::Link, token_hash, |_: Option<Link>| {
            (Some(link.clone()), ())
        })
    }

    /// Ends all links of a person that were not used, as when a PIN was chosen or a new link is made. Used ones go on saying so.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn end_links_of(&self, person: PersonId) -> Result<(), StoreError> {
        self.clear(Drawer::Link, |link: &Link| {
            link.person == Some(person.0) && link.used.is_none()
        })
    }

    /// Looks at a link without using it.
    ///
    /// # Errors
    /// The engine's own.
    pub fn link(&self, token_hash: &str) -> Result<Option<Link>, StoreError> {
        self.kept(Drawer::Link, token_hash)
    }

    /// Uses a link. Of two that come at once, one opens.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn use_link(&self, token_hash: &str, now: Timestamp) -> Result<LinkUse, StoreError> {
        self.change(Drawer::Link, token_hash, |link: Option<Link>| match link {
            None => (None, LinkUse::NoSuch),
            Some(link) if link.used.is_some() => (Some(link), LinkUse::Used),
            Some(link) if link.expires <= now => (Some(link), LinkUse::Expired),
            Some(link) => {
                let used = Link {
                    used: Some(now),
                    ..link
                };
                (Some(used.clone()), LinkUse::Opens(used))
            }
        })
    }
}
