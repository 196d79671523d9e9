//! The API: one table of operations, from which both the routes and their description are made, so that they cannot drift.
//!
//! Reading order: `table`, all operations; `operation`, what one is; `serve`, from a request to its answer; `document`, the
//! description; then one file a job.

mod asked;
mod deliveries;
mod document;
mod entries;
mod machines;
mod me;
mod operation;
mod people;
mod photos;
mod refused;
mod round;
mod serve;
mod shapes;
mod table;

pub use document::document;
pub(crate) use serve::{is_here, routes};
