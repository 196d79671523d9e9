//! The default engine: one SQLite file, flushed at every commit.

mod chain;
mod drawers;
mod look;
mod trouble;

use crate::{StoreError, journal::Drawer};
use look::look;
use rusqlite::{Connection, OpenFlags, TransactionBehavior};
use std::{io::ErrorKind, path::Path, time::Duration};
use uuid::Uuid;

/// Marks the file as a store of this program ("kpst").
const APPLICATION: i64 = 0x6b70_7374;
/// The steps from an empty file to today's tables; a store's version is how many were taken.
const STEPS: &[&str] = &[include_str!("schema.sql")];

/// One open store file.
#[derive(Debug)]
pub(crate) struct Sqlite {
    connection: Connection,
}

impl Sqlite {
    /// Opens the file, making it and bringing its tables up to date as needed.
    pub(crate) fn open(path: &Path) -> Result<Self, StoreError> {
        look::refuse_cut_to_nothing(path)?;
        let mut connection = connect(
            path,
            OpenFlags::SQLITE_OPEN_CREATE | OpenFlags::SQLITE_OPEN_READ_WRITE,
        )?;
        refuse_foreign(&connection, path)?;
        if connection.is_readonly("main")? {
            return Err(StoreError::cannot_write(
                path,
                &ErrorKind::PermissionDenied.into(),
            ));
        }
        let mode: String =
            connection.query_row("PRAGMA journal_mode = WAL", [], |row| row.get(0))?;
        if mode != "wal" {
            return Err(StoreError::engine(format_args!(
                "journal mode is {mode}, not wal"
            )));
        }
        build(&mut connection)?;
        Ok(Self { connection })
    }

    /// Opens the file to look only, beside the program that holds it, also where nothing may be written.
    pub(crate) fn open_to_look(path: &Path) -> Result<Self, StoreError> {
        let connection = look(path)?;
        connection.pragma_update(None, "query_only", true)?;
        Ok(Self { connection })
    }
}

/// Writes a consistent copy of the store at `from` to `to`, whatever is being written meanwhile.
pub(crate) fn vacuum_into(from: &Path, to: &Path) -> Result<(), StoreError> {
    look(from)?.execute("VACUUM INTO ?1", [to.to_string_lossy()])?;
    Ok(())
}

/// Takes sign-ins, links and counters out of a copy and folds it back into one file.
pub(crate) fn settle_copy(path: &Path) -> Result<(), StoreError> {
    let connection = connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
    for drawer in Drawer::ALL.into_iter().filter(|drawer| !drawer.lasts()) {
        connection.execute("DELETE FROM drawer WHERE drawer = ?1", [drawer.code()])?;
    }
    connection.query_row("PRAGMA journal_mode = DELETE", [], |_| Ok(()))?;
    Ok(())
}

fn connect(path: &Path, flags: OpenFlags) -> Result<Connection, StoreError> {
    settled(
        path,
        Connection::open_with_flags(path, flags | OpenFlags::SQLITE_OPEN_NO_MUTEX),
    )
}

fn settled(path: &Path, opened: rusqlite::Result<Connection>) -> Result<Connection, StoreError> {
    let connection = opened.map_err(|why| trouble::on_opening(path, why))?;
    connection.busy_timeout(Duration::from_secs(10))?;
    settle(&connection).map_err(|why| trouble::on_opening(path, why))?;
    Ok(connection)
}

fn settle(connection: &Connection) -> rusqlite::Result<()> {
    connection.pragma_update(None, "synchronous", "FULL")?;
    connection.pragma_update(None, "foreign_keys", true)?;
    connection.pragma_update(None, "trusted_schema", false)?;
    // So that the triggers also see a row that would be replaced.
    connection.pragma_update(None, "recursive_triggers", true)?;
    // So that an erased name does not stay in freed pages.
    connection.pragma_update(None, "secure_delete", true)?;
    connection.set_prepared_statement_cache_capacity(32);
    Ok(())
}

/// Refuses what is no store of ours, a newer one, and one of ours that is plainly not whole.
fn refuse_foreign(connection: &Connection, path: &Path) -> Result<(), StoreError> {
    let number = |sql: &str| connection.query_row(sql, [], |row| row.get::<_, i64>(0));
    let application =
        number("PRAGMA application_id").map_err(|why| trouble::on_opening(path, why))?;
    let empty = number("SELECT count(*) FROM sqlite_schema")? == 0;
    if application != APPLICATION && !(application == 0 && empty) {
        let ours =
            "SELECT count(*) FROM sqlite_schema WHERE name IN ('entry', 'entry_is_kept', 'drawer')";
        return Err(if number(ours)? == 3 {
            StoreError::file_damaged("application_id")
        } else {
            trouble::not_ours(path)
        });
    }
    let found = version(connection)?;
    let known = STEPS.len() as i64;
    if found > known {
        Err(StoreError::NewerSchema { found, known })
    } else if found < 0 || (found == 0) != empty {
        // Mark, version and tables are made in one step.
        Err(StoreError::file_damaged("user_version"))
    } else {
        Ok(())
    }
}

fn version(connection: &Connection) -> Result<i64, StoreError> {
    Ok(connection.query_row("PRAGMA user_version", [], |row| row.get(0))?)
}

fn build(connection: &mut Connection) -> Result<(), StoreError> {
    let step = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let taken = usize::try_from(version(&step)?).unwrap_or(0);
    for sql in STEPS.iter().skip(taken) {
        step.execute_batch(sql)?;
    }
    if taken < STEPS.len() {
        step.pragma_update(None, "application_id", APPLICATION)?;
        step.pragma_update(None, "user_version", STEPS.len() as i64)?;
    }
    Ok(step.commit()?)
}

fn key(id: &Uuid) -> &[u8] {
    id.as_bytes()
}

/// A count as SQLite's signed integer; beyond it there is nothing to find.
fn small(count: u64) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}
