//! The three engines behind one contract: SQLite by default, memory for trying out, PostgreSQL for many yards.

mod memory;
pub(crate) mod place;
#[cfg(feature = "postgres")]
mod postgres;
mod sqlite;

pub(crate) use memory::Memory;
#[cfg(feature = "postgres")]
pub(crate) use postgres::Postgres;
pub(crate) use sqlite::{Sqlite, settle_copy, vacuum_into};
