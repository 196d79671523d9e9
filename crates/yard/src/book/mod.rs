//! The machine book: what a machine is, what is to be attended to on it, and what is still unknown about it.
//!
//! Reading goes in steps: `mend` takes the text apart, setting aside what is not TOML; `tree` keeps keys and values with
//! their places; `fields` declares every table and key; `reading` makes the book, noting all mistakes; `checks` compares
//! what can only be compared when all is read.

mod arm;
mod blank;
mod carried;
mod checks;
mod coded;
mod compare;
mod desk;
mod fields;
mod gap;
mod lap;
mod level_shift;
mod mend;
mod model;
mod nearest;
mod part;
mod place_in_text;
mod reading;
mod rhythm;
mod schema;
mod section;
mod slip;
mod statements;
mod thread;
mod tree;
mod trouble;

pub use arm::*;
pub use blank::new_from_blank;
pub use carried::{AttachmentTaken, DocumentWanted};
pub use compare::{Compared, compare};
pub use fields::{
    FORMAT, Field, MOST_BYTES, MOST_ITEMS, MOST_TEXT, Named, Shape as FieldShape, TABLES, Table,
};
pub(crate) use gap::gaps_of_safety;
pub use gap::{Blocks, By, Gap, GapCode, Unlock, gaps, joints_to_find};
pub use level_shift::LevelShift;
pub use model::*;
pub use part::{Bulb, Fastener, Hose, Instead, Part, PartKind, PartWord, PutIn};
pub use reading::{ReadBook, read};
pub use schema::schema;
pub use trouble::{Level, Slip, Trouble, TroubleKind};
