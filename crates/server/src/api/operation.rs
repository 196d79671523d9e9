//! What one operation of the API is: where it is, who may, what it takes and what it answers.

use super::{asked::Asked, refused::Refused};
use axum::{http::StatusCode, response::Response};
use schemars::{JsonSchema, Schema, SchemaGenerator};
use yard::people::Deed;

/// One operation.
pub(super) struct Operation {
    /// Its name in the description, and the end of the key of its sentence: `api-do-<name>`.
    pub(super) name: &'static str,
    pub(super) method: Method,
    /// Path with its parameters in braces.
    pub(super) path: &'static str,
    pub(super) who: Who,
    /// What stands in the path and behind the question mark.
    pub(super) parameters: &'static [Parameter],
    pub(super) sent: Option<Sent>,
    /// What is answered when all is well, best first.
    pub(super) answers: &'static [Answers],
    /// Refusals of its own, besides those every operation has: codes of `Refused`.
    pub(super) refuses: &'static [&'static str],
    /// Does it. Runs on a thread that may wait for the disk.
    pub(super) run: fn(&Asked) -> Result<Response, Refused>,
}

/// How it is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Method {
    Get,
    Post,
    Put,
}

/// Who may ask.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Who {
    Anybody,
    /// Signed in, or with any token.
    Known,
    /// Signed in, or with a token that reads; the role must allow this.
    Reads(Deed),
    /// Signed in, or with a token that delivers; the role must allow this.
    Delivers(Deed),
}

/// A part of the address.
pub(super) struct Parameter {
    pub(super) name: &'static str,
    pub(super) kind: Kind,
}

/// What may stand in a part of the address.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// The yard's short tag, in the path.
    Tag,
    /// A machine's id, in the path.
    Machine,
    /// An entry's id, in the path.
    Entry,
    /// A photo's id, in the path.
    Photo,
    /// A number behind the question mark, from `.0` to `.1`; `.2` where it is not said.
    Number(u64, u64, u64),
    /// One of these words behind the question mark; the first where it is not said.
    Word(&'static [&'static str]),
}

impl Kind {
    pub(super) fn in_path(self) -> bool {
        matches!(self, Kind::Tag | Kind::Machine | Kind::Entry | Kind::Photo)
    }
}

/// What is sent along.
pub(super) enum Sent {
    /// JSON of this schema, at most so many bytes.
    Json {
        most: usize,
        schema: fn(&mut SchemaGenerator) -> Schema,
    },
    /// The bytes of a picture, whatever they are said to be.
    Picture,
}

/// An answer when all is well: JSON of this schema, with this status.
pub(super) struct Answers {
    pub(super) status: StatusCode,
    /// End of the key of its sentence: `api-says-<key>`.
    pub(super) key: &'static str,
    pub(super) schema: fn(&mut SchemaGenerator) -> Schema,
}

/// The schema of a type.
pub(super) fn schema_of<T: JsonSchema>(generator: &mut SchemaGenerator) -> Schema {
    generator.subschema_for::<T>()
}
