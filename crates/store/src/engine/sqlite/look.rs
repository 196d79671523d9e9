//! Opening a store's file to look only: beside the program that holds it, and where nothing may be written.

use super::{connect, refuse_foreign, settled};
use crate::StoreError;
use rusqlite::{Connection, ErrorCode, OpenFlags};
use std::{
    ffi::OsString,
    fs,
    path::{Path, PathBuf},
};

/// A connection that reads what is kept. Where the folder may not be written, SQLite cannot share the file with others and is told
/// that nobody changes it.
pub(super) fn look(path: &Path) -> Result<Connection, StoreError> {
    if length(path) == 0 {
        return Err(StoreError::file_damaged("0 bytes"));
    }
    let connection = match connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE) {
        Ok(connection) if !is_shut_out(&connection) => connection,
        Ok(_) | Err(StoreError::LookOnly | StoreError::File { .. }) => unchanging(path)?,
        Err(other) => return Err(other),
    };
    refuse_foreign(&connection, path)?;
    Ok(connection)
}

/// A file without a byte beside a log with some was cut: SQLite would throw the log away and begin anew.
pub(super) fn refuse_cut_to_nothing(path: &Path) -> Result<(), StoreError> {
    if path.is_file() && length(path) == 0 && length(&log_of(path)) > 0 {
        return Err(StoreError::file_damaged("0 bytes"));
    }
    Ok(())
}

fn is_shut_out(connection: &Connection) -> bool {
    let read = connection.query_row("PRAGMA schema_version", [], |_| Ok(()));
    let code = read.err().and_then(|why| why.sqlite_error_code());
    matches!(code, Some(ErrorCode::CannotOpen | ErrorCode::ReadOnly))
}

/// The file alone, as one that nobody changes. What stands in a log beside it could not be read so, and must not be left out.
fn unchanging(path: &Path) -> Result<Connection, StoreError> {
    if length(&log_of(path)) > 0 {
        return Err(StoreError::cannot_write(
            path.parent().unwrap_or(path),
            &std::io::ErrorKind::PermissionDenied.into(),
        ));
    }
    let flags = OpenFlags::SQLITE_OPEN_READ_ONLY
        | OpenFlags::SQLITE_OPEN_NO_MUTEX
        | OpenFlags::SQLITE_OPEN_URI;
    settled(path, Connection::open_with_flags(address(path), flags))
}

/// The path as an address that says the file does not change. Without `%`, `?` and `#` a path is what it is.
fn address(path: &Path) -> String {
    let whole = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let escaped = whole
        .to_string_lossy()
        .replace('%', "%25")
        .replace('?', "%3f")
        .replace('#', "%23");
    format!("file:{escaped}?immutable=1")
}

/// SQLite's log beside the file.
fn log_of(path: &Path) -> PathBuf {
    let mut name = OsString::from(path);
    name.push("-wal");
    name.into()
}

fn length(path: &Path) -> u64 {
    fs::metadata(path).map_or(0, |found| found.len())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Drawers, Store, engine::Sqlite};

    #[test]
    fn a_file_that_nobody_changes_is_read_without_anything_written_beside_it() {
        let dir = tempfile::tempdir().unwrap();
        // A name with all that an address gives a meaning of its own.
        let folder = dir.path().join("a 100% yard? #1");
        let path = folder.join("kingpost.db");
        let made = Store::open(&folder).unwrap();
        made.add_yard(yard::id::YardId(uuid::Uuid::from_u128(1)), "Invented")
            .unwrap();
        drop(made);
        let before = fs::read_dir(&folder).unwrap().count();
        let connection = unchanging(&path).unwrap();
        refuse_foreign(&connection, &path).unwrap();
        let mut engine = Sqlite { connection };
        assert_eq!(engine.yards().unwrap().len(), 1);
        assert!(engine.complaints().unwrap().is_empty());
        assert_eq!(before, fs::read_dir(&folder).unwrap().count());
    }
}
