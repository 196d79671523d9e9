//! Stored forms, versioned: what is on disks, in exports and on phones. The domain's types know nothing of them.
//!
//! Reading order: `entry`, the whole entry; `kinds`, the table of kinds; `bodies` and `answers`, their fields; `raise`, old versions.

mod answers;
mod bodies;
mod correction;
mod entry;
mod kinds;
mod leaf;
mod raise;
mod schema;
mod shape;

pub use answers::answer_json;
pub use entry::{Head, MOST_BYTES, NewEntry, read_entry, read_head, write_entry};
pub use kinds::{KINDS, kind_of, read_body};
pub use schema::entry_schema;
