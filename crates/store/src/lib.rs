//! The journal on disk, and what is kept beside it: names, settings, sign-ins, photos. SQLite by default, PostgreSQL for many yards.
//!
//! Open a [`Store`]; it hands out a [`Yard`], and only that has queries. An entry goes in as the bytes its writer made ([`write_entry`]) and
//! is on the disk when [`Yard::accept`] returns. Reading order: [`form`], what the bytes are; `chain`, what acceptance adds; `journal`,
//! what an engine must do; `engine`, the three of them; `yard_handle` and `outside`, the queries; `verify`, `backup`, `restore`, `export`, `import`.
//!
//! ```
//! use store::{Acceptance, Delivery, NewEntry, Store, fresh_id, write_entry};
//! use yard::{entry::{Body, Note}, id::{DeviceId, EntryId, PersonId}, world::{StillWorld, World}};
//!
//! let world = StillWorld::at("2024-05-01T07:00:00Z".parse().expect("a time"));
//! let store = Store::open_memory();
//! let yard = store.create_yard("Invented yard", &world)?;
//! let note = NewEntry {
//!     id: EntryId(fresh_id(&world)), yard: yard.id(), machine: None, at: world.now(), by: PersonId(fresh_id(&world)),
//!     device: DeviceId("desk".into()), counter: 1, body: Body::Note(Note { point: None, text: "Gate key is with Jo".into() }),
//! };
//! assert_eq!(yard.accept(&write_entry(&note), Delivery::here(world.now()))?, Acceptance::New { seq: 1 });
//! assert_eq!(yard.entries()?[0].body, note.body);
//! # Ok::<(), store::StoreError>(())
//! ```

mod error;
mod fresh_id;

pub mod form;

mod chain;
mod journal;

mod engine;

mod opening;
mod outside;
mod pictures;
mod yard_handle;

mod backup;
mod export;
mod import;
mod restore;
mod verify;

pub use backup::{BackupMade, YardTip};
pub use chain::{Acceptance, Delivery, Envelope, Hash, Tip};
pub use error::{Refusal, StoreError};
pub use form::{Head, MOST_BYTES, NewEntry, write_entry};
pub use fresh_id::fresh_id;
pub use import::import;
pub use journal::{Aside, Drawer, Drawers, Engine, Journal, Offer, Row};
pub use opening::{Store, holds_store};
pub use outside::{Device, Link, LinkUse, Miss, Misses, Person, Session, Token};
pub use pictures::{Picture, PictureKept};
pub use restore::restore;
pub use verify::{Broken, BrokenHow, Checked, Verification};
pub use yard_handle::{Changes, Conflict, Yard};
