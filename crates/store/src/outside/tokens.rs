//! Tokens: what a person gives to a program, so that it may act for them. Only the hash of the secret is kept.

use crate::{Drawer, StoreError, Yard};
use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use uuid::Uuid;
use yard::id::PersonId;

/// One token. Its own stored form: plain fields.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Token {
    /// By which it is named in lists and ended; not the secret.
    pub id: Uuid,
    /// The person it acts for.
    pub person: Uuid,
    /// What it is for, in the person's words.
    pub name: String,
    /// Whether it may read.
    pub reads: bool,
    /// Whether it may deliver entries.
    pub delivers: bool,
    /// When it was made.
    pub made: Timestamp,
    /// Until when it holds.
    pub expires: Timestamp,
}

impl Yard {
    /// Keeps a token under the hash of its secret.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn keep_token(&self, secret_hash: &str, token: &Token) -> Result<(), StoreError> {
        self.change(Drawer::Token, secret_hash, |_: Option<Token>| {
            (Some(token.clone()), ())
        })
    }

    /// A token that still holds.
    ///
    /// # Errors
    /// The engine's own.
    pub fn token(&self, secret_hash: &str, now: Timestamp) -> Result<Option<Token>, StoreError> {
        let kept = self.kept::<Token>(Drawer::Token, secret_hash)?;
        Ok(kept.filter(|token| token.expires > now))
    }

    /// All tokens of a person, in the order they were made; those that ran out too, until somebody ends them.
    ///
    /// # Errors
    /// The engine's own.
    pub fn tokens_of(&self, person: PersonId) -> Result<Vec<Token>, StoreError> {
        let all = self.all_kept::<Token>(Drawer::Token)?;
        let mut own: Vec<Token> = all
            .into_iter()
            .map(|(_, token)| token)
            .filter(|token| token.person == person.0)
            .collect();
        own.sort_by_key(|token| (token.made, token.id));
        Ok(own)
    }

    /// Ends one token of a person, and says which it was; none where they have no such token.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn end_token(&self, person: PersonId, id: Uuid) -> Result<Option<Token>, StoreError> {
        let own = self.tokens_of(person)?;
        self.clear(Drawer::Token, |token: &Token| {
            token.person == person.0 && token.id == id
        })?;
        Ok(own.into_iter().find(|token| token.id == id))
    }

    /// Ends all tokens of a person, and says which they were.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn end_tokens_of(&self, person: PersonId) -> Result<Vec<Token>, StoreError> {
        let own = self.tokens_of(person)?;
        if !own.is_empty() {
            self.clear(Drawer::Token, |token: &Token| token.person == person.0)?;
        }
        Ok(own)
    }
}
