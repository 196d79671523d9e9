//! What SQLite complains of, as the store says it: damage, a full disk and shut folders are told apart from the rest.

use crate::StoreError;
use rusqlite::{Error, ErrorCode, ffi};
use std::{
    fs::File,
    io::{self, Read},
    path::Path,
};

/// How every file of SQLite begins.
const BEGINNING: &[u8; 16] = b"SQLite format 3\0";

impl From<Error> for StoreError {
    fn from(why: Error) -> Self {
        match why.sqlite_error_code() {
            Some(ErrorCode::ReadOnly) => Self::LookOnly,
            Some(ErrorCode::DiskFull) => Self::DiskFull,
            // The memory that is shared beside the file could not be given room.
            _ if extended(&why) == Some(ffi::SQLITE_IOERR_SHMSIZE) => Self::DiskFull,
            _ if shows_damage(&why) => Self::file_damaged(why),
            _ => Self::engine(why),
        }
    }
}

/// The same on opening `path`, where another program's file is told from a damaged one of ours.
pub(super) fn on_opening(path: &Path, why: Error) -> StoreError {
    match why.sqlite_error_code() {
        Some(ErrorCode::NotADatabase) if !begins_as_ours(path) => not_ours(path),
        Some(ErrorCode::CannotOpen) => StoreError::File {
            path: path.display().to_string(),
            why: why.to_string(),
        },
        _ => why.into(),
    }
}

/// Another program's file.
pub(super) fn not_ours(path: &Path) -> StoreError {
    StoreError::NotOurs {
        path: path.display().to_string(),
    }
}

/// The store's own statements are sound, so that a table they miss or a value of another type is the file's fault.
fn shows_damage(why: &Error) -> bool {
    match why {
        Error::FromSqlConversionFailure(..)
        | Error::IntegralValueOutOfRange(..)
        | Error::InvalidColumnType(..)
        | Error::Utf8Error(..) => true,
        Error::SqliteFailure(_, Some(text)) if is_of_the_file(text) => true,
        Error::SqlInputError { msg, .. } if is_of_the_file(msg) => true,
        _ => matches!(
            why.sqlite_error_code(),
            Some(ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase)
        ),
    }
}

/// SQLite has one code for all slips in statements, and puts these under it too.
fn is_of_the_file(text: &str) -> bool {
    text.starts_with("no such") || text == "unsupported file format"
}

fn extended(why: &Error) -> Option<i32> {
    why.sqlite_error().map(|error| error.extended_code)
}

/// Whether the file still shows what it was: one byte of its beginning may be gone, or our mark is where it belongs. Zeros are what a
/// power cut leaves.
fn begins_as_ours(path: &Path) -> bool {
    let mut head = [0; 72];
    let read = File::open(path).and_then(|mut file| fill(&mut file, &mut head));
    let alike = BEGINNING.iter().zip(head).filter(|(a, b)| **a == *b);
    let marked = head[68..] == super::APPLICATION.to_be_bytes()[4..];
    read.is_ok() && (alike.count() >= 15 || marked || head == [0; 72])
}

/// As much as there is.
fn fill(file: &mut File, head: &mut [u8]) -> io::Result<()> {
    let mut bytes = Vec::new();
    file.take(head.len() as u64).read_to_end(&mut bytes)?;
    head[..bytes.len()].copy_from_slice(&bytes);
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Delivery, Drawers, Journal, NewEntry, engine::Sqlite, write_entry};
    use uuid::Uuid;
    use yard::{
        entry::{Body, Note},
        id::{DeviceId, EntryId, PersonId, YardId},
    };

    fn offer(yard: YardId, n: u128) -> crate::Offer {
        let at = "2024-05-01T07:00:00Z".parse().unwrap();
        let text = "much to say ".repeat(5_000);
        let bytes = write_entry(&NewEntry {
            id: EntryId(Uuid::from_u128(n)),
            yard,
            machine: None,
            at,
            by: PersonId(Uuid::from_u128(1)),
            device: DeviceId("desk".into()),
            counter: 1,
            body: Body::Note(Note { point: None, text }),
        });
        crate::Offer {
            head: crate::form::read_head(&bytes, yard).unwrap(),
            bytes,
            delivery: Delivery::here(at),
        }
    }

    #[test]
    fn a_full_disk_is_told_and_nothing_of_the_step_is_kept() {
        let dir = tempfile::tempdir().unwrap();
        let mut engine = Sqlite::open(&dir.path().join("kingpost.db")).unwrap();
        let yard = YardId(Uuid::from_u128(1));
        engine.add_yard(yard, "Invented").unwrap();
        engine.append(yard, &[offer(yard, 10)]).unwrap();
        let pages: i64 = engine
            .connection
            .query_row("PRAGMA page_count", [], |row| row.get(0))
            .unwrap();
        // SQLite says of a file that may not grow what it says of a disk without room.
        engine
            .connection
            .query_row(
                &format!("PRAGMA max_page_count = {}", pages + 20),
                [],
                |_| Ok(()),
            )
            .unwrap();
        let two = [offer(yard, 11), offer(yard, 12)];
        assert_eq!(engine.append(yard, &two), Err(StoreError::DiskFull));
        assert_eq!(engine.tip(yard).unwrap().seq, 1);
        assert!(engine.append(yard, &two[..1]).is_ok(), "one has room");
        assert!(engine.complaints().unwrap().is_empty());
    }

    #[test]
    fn a_file_without_room_for_more_is_a_full_disk() {
        let full = io::Error::from(io::ErrorKind::StorageFull);
        assert_eq!(
            StoreError::file(Path::new("x"), &full),
            StoreError::DiskFull
        );
    }
}
