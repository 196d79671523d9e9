//! What every engine must do: the append-only chain, and the drawers beside it that can be erased.
//!
//! Synchronous on purpose: the default engine is, and whoever serves many people calls it from a thread that may wait.

use crate::{
    StoreError,
    chain::{Acceptance, Delivery, Envelope, Tip},
    form::Head,
};
use jiff::Timestamp;
use yard::id::{EntryId, YardId};

/// An entry offered for acceptance, its outside read.
#[derive(Clone, Debug)]
pub struct Offer {
    /// The outside.
    pub head: Head,
    /// As the writer made it.
    pub bytes: Vec<u8>,
    /// How it came.
    pub delivery: Delivery,
}

/// An accepted entry as kept: the writer's bytes and the envelope, and what was read from the bytes for looking up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Entry's id, as in the bytes.
    pub id: EntryId,
    /// Machine, as in the bytes.
    pub machine: Option<String>,
    /// Kind, as in the bytes.
    pub kind: String,
    /// As the writer made it.
    pub bytes: Vec<u8>,
    /// What acceptance added.
    pub envelope: Envelope,
}

/// Bytes that came with an id already taken by others.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Aside {
    /// The id both claim.
    pub id: EntryId,
    /// The bytes that came second.
    pub bytes: Vec<u8>,
    /// When they came, to the millisecond.
    pub written: Timestamp,
}

/// The chain. Every write is on the disk when the call returns.
pub trait Journal {
    /// Takes the offers in their order, all or none, and says for each what became of it.
    ///
    /// # Errors
    /// The engine's own; then nothing was taken.
    fn append(&mut self, yard: YardId, offers: &[Offer]) -> Result<Vec<Acceptance>, StoreError>;

    /// Takes a whole chain with its envelopes, as moved from elsewhere, with what lay aside there.
    ///
    /// # Errors
    /// [`StoreError::NotEmpty`] when the yard has entries; the engine's own; then nothing was taken.
    fn append_moved(
        &mut self,
        yard: YardId,
        rows: &[Row],
        aside: &[Aside],
    ) -> Result<(), StoreError>;

    /// At most `most` rows after place `after`, in order of acceptance.
    ///
    /// # Errors
    /// The engine's own.
    fn rows_since(&mut self, yard: YardId, after: u64, most: usize)
    -> Result<Vec<Row>, StoreError>;

    /// The row with this id.
    ///
    /// # Errors
    /// The engine's own.
    fn row(&mut self, yard: YardId, id: EntryId) -> Result<Option<Row>, StoreError>;

    /// The end of the chain: count and last hash.
    ///
    /// # Errors
    /// The engine's own.
    fn tip(&mut self, yard: YardId) -> Result<Tip, StoreError>;

    /// What was kept aside, in order of arrival.
    ///
    /// # Errors
    /// The engine's own.
    fn aside(&mut self, yard: YardId) -> Result<Vec<Aside>, StoreError>;
}

/// A kind of thing kept outside the chain.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Drawer {
    /// Names, PIN hashes.
    Person,
    /// The yard's settings.
    Setting,
    /// Which picture belongs to a photo's id.
    Photo,
    /// One-time links.
    Link,
    /// Sign-ins.
    Session,
    /// Tokens of programs.
    Token,
    /// Counters against guessing.
    Throttle,
    /// Devices that somebody signed in on.
    Device,
}

impl Drawer {
    /// All of them.
    pub const ALL: [Drawer; 8] = [
        Drawer::Person,
        Drawer::Setting,
        Drawer::Photo,
        Drawer::Link,
        Drawer::Session,
        Drawer::Token,
        Drawer::Throttle,
        Drawer::Device,
    ];

    /// The word in the table.
    pub fn code(self) -> &'static str {
        match self {
            Drawer::Person => "person",
            Drawer::Setting => "setting",
            Drawer::Photo => "photo",
            Drawer::Link => "link",
            Drawer::Session => "session",
            Drawer::Token => "token",
            Drawer::Throttle => "throttle",
            Drawer::Device => "device",
        }
    }

    /// Whether a change shows on pages (and so counts in [`Changes`](crate::Changes)), and whether a backup carries it: sign-ins and tokens do neither.
    pub fn lasts(self) -> bool {
        matches!(self, Drawer::Person | Drawer::Setting | Drawer::Photo)
    }
}

/// The drawers: texts by key, one set a yard. All of it can be changed and erased.
pub trait Drawers {
    /// Makes a yard.
    ///
    /// # Errors
    /// [`StoreError::YardExists`]; the engine's own.
    fn add_yard(&mut self, yard: YardId, name: &str) -> Result<(), StoreError>;

    /// All yards in the order they were made, with their names.
    ///
    /// # Errors
    /// The engine's own.
    fn yards(&mut self) -> Result<Vec<(YardId, String)>, StoreError>;

    /// The text under this key.
    ///
    /// # Errors
    /// The engine's own.
    fn get(
        &mut self,
        yard: YardId,
        drawer: Drawer,
        key: &str,
    ) -> Result<Option<String>, StoreError>;

    /// Everything in a drawer, by key.
    ///
    /// # Errors
    /// The engine's own.
    fn list(&mut self, yard: YardId, drawer: Drawer) -> Result<Vec<(String, String)>, StoreError>;

    /// Puts `new` (or nothing) where `old` (or nothing) is, in one step; `false` and unchanged where something else is.
    ///
    /// # Errors
    /// The engine's own.
    fn swap(
        &mut self,
        yard: YardId,
        drawer: Drawer,
        key: &str,
        old: Option<&str>,
        new: Option<&str>,
    ) -> Result<bool, StoreError>;

    /// How often the lasting drawers changed.
    ///
    /// # Errors
    /// The engine's own.
    fn kept(&mut self, yard: YardId) -> Result<u64, StoreError>;

    /// Makes sure that what was erased is gone from the files too, as far as the engine can.
    ///
    /// # Errors
    /// The engine's own.
    fn scrub(&mut self) -> Result<(), StoreError>;

    /// The engine's own complaints about its files; empty when sound.
    ///
    /// # Errors
    /// The engine's own.
    fn complaints(&mut self) -> Result<Vec<String>, StoreError>;
}

/// Both together: what a store stands on.
pub trait Engine: Journal + Drawers + Send {}

impl<T: Journal + Drawers + Send> Engine for T {}
