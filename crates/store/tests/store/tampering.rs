//! Tampering: whatever byte of a kept row is changed, verifying finds it.

use crate::made::{id, note, time};
use proptest::prelude::*;
use rusqlite::{Connection, params};
use std::{
    fs,
    path::{Path, PathBuf},
    sync::OnceLock,
};
use store::{BrokenHow, Delivery, Store, StoreError, Tip};
use tempfile::TempDir;
use yard::id::YardId;

const ENTRIES: u64 = 12;

/// A closed store with some entries, and the end of its chain.
fn laid_down() -> (TempDir, Tip) {
    let dir = tempfile::tempdir().unwrap();
    let yard = Store::open(dir.path())
        .unwrap()
        .add_yard(YardId(id(1)), "Invented")
        .unwrap();
    for n in 0..ENTRIES {
        yard.accept(
            &note(&yard, 100 + u128::from(n), &format!("note {n} MARK")),
            Delivery::here(time(10_000_000)),
        )
        .unwrap();
    }
    let tip = yard.tip().unwrap();
    (dir, tip)
}

/// The same for many tries, each on a copy.
fn laid_down_once() -> &'static TempDir {
    static ONCE: OnceLock<TempDir> = OnceLock::new();
    ONCE.get_or_init(|| laid_down().0)
}

fn copy(of: &Path) -> TempDir {
    let dir = tempfile::tempdir().unwrap();
    fs::copy(of.join("kingpost.db"), file(dir.path())).unwrap();
    dir
}

fn file(dir: &Path) -> PathBuf {
    dir.join("kingpost.db")
}

/// The store's file opened past all its guards.
fn past_the_guards(dir: &Path) -> Connection {
    let connection = Connection::open(file(dir)).unwrap();
    connection
        .pragma_update(None, "ignore_check_constraints", true)
        .unwrap();
    for trigger in ["entry_is_next", "entry_is_kept", "entry_is_as_written"] {
        connection
            .execute(&format!("DROP TRIGGER {trigger}"), [])
            .unwrap();
    }
    connection
}

/// The first broken place, if any.
fn found(dir: &Path) -> Option<(u64, BrokenHow)> {
    let checked = Store::open(dir).unwrap().verify().unwrap().yards.remove(0);
    checked.broken.map(|broken| (broken.seq, broken.how))
}

#[test]
fn the_guards_refuse_changes() {
    let (dir, _) = laid_down();
    let connection = Connection::open(file(dir.path())).unwrap();
    connection
        .pragma_update(None, "recursive_triggers", true)
        .unwrap();
    for sql in [
        "DELETE FROM entry",
        "UPDATE entry SET kind = 'x' WHERE seq = 3",
        "INSERT OR REPLACE INTO entry SELECT yard, 99, id, machine, kind, written, ordered_at, corrected, hash, bytes FROM entry WHERE seq = 1",
        "INSERT OR REPLACE INTO entry SELECT * FROM entry WHERE seq = 1",
    ] {
        assert!(connection.execute(sql, []).is_err(), "{sql}");
    }
    drop(connection);
    assert_eq!(found(dir.path()), None);
}

#[test]
fn every_byte_of_an_entry_in_the_file_counts() {
    let (dir, _) = laid_down();
    let whole = fs::read(file(dir.path())).unwrap();
    let (from, to) = entry_in(&whole, 5);
    for at in from..to {
        let tampered = tempfile::tempdir().unwrap();
        let mut bytes = whole.clone();
        bytes[at] ^= 1;
        fs::write(file(tampered.path()), bytes).unwrap();
        assert_eq!(
            found(tampered.path()),
            Some((6, BrokenHow::Changed)),
            "byte {at}"
        );
    }
}

/// Where the bytes of the `n`th entry lie in the file.
fn entry_in(whole: &[u8], n: u64) -> (usize, usize) {
    let mark = format!("note {n} MARK\"}}}}");
    let end = whole
        .windows(mark.len())
        .position(|part| part == mark.as_bytes())
        .unwrap()
        + mark.len();
    let from = whole[..end]
        .windows(6)
        .rposition(|part| part == b"{\"id\":")
        .unwrap();
    (from, end)
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(96) })]
    #[test]
    fn every_column_counts(seq in 1..=ENTRIES, column in 0_usize..8, at in any::<prop::sample::Index>(), flip in 1_u8..=255) {
        let dir = copy(laid_down_once().path());
        let connection = past_the_guards(dir.path());
        let name = ["bytes", "hash", "id", "written", "ordered_at", "corrected", "machine", "kind"][column];
        tamper(&connection, name, seq, &at, flip);
        drop(connection);
        let (broken_at, how) = found(dir.path()).expect("found");
        prop_assert_eq!(broken_at, seq);
        let expected = match name {
            "id" => BrokenHow::Column("id"),
            "machine" => BrokenHow::Column("machine"),
            "kind" => BrokenHow::Column("kind"),
            _ => BrokenHow::Changed,
        };
        prop_assert_eq!(how, expected);
    }
}

fn tamper(connection: &Connection, column: &str, seq: u64, at: &prop::sample::Index, flip: u8) {
    let to = match column {
        "bytes" | "hash" => return flip_blob(connection, column, seq, at, flip),
        // The table refuses an id that another entry has; here they differ only below this bit.
        "id" => return flip_blob(connection, column, seq, at, flip | 0x80),
        "written" | "ordered_at" => format!("{column} + {flip}"),
        "corrected" => "1 - corrected".to_owned(),
        _ => format!("'x{flip}'"),
    };
    let changed = connection.execute(
        &format!("UPDATE entry SET {column} = {to} WHERE seq = ?1"),
        [seq as i64],
    );
    assert_eq!(changed.unwrap(), 1);
}

fn flip_blob(connection: &Connection, column: &str, seq: u64, at: &prop::sample::Index, flip: u8) {
    let select = format!("SELECT {column} FROM entry WHERE seq = ?1");
    let mut blob: Vec<u8> = connection
        .query_row(&select, [seq as i64], |row| row.get(0))
        .unwrap();
    let at = at.index(blob.len());
    blob[at] ^= flip;
    connection
        .execute(
            &format!("UPDATE entry SET {column} = ?2 WHERE seq = ?1"),
            params![seq as i64, blob],
        )
        .unwrap();
}

#[test]
fn a_row_taken_out_or_put_elsewhere_is_found() {
    let (dir, tip) = laid_down();
    let tampered = |sql: &str| {
        let copy = copy(dir.path());
        past_the_guards(copy.path()).execute_batch(sql).unwrap();
        copy
    };
    assert_eq!(
        found(tampered("DELETE FROM entry WHERE seq = 4").path()),
        Some((5, BrokenHow::Missing))
    );
    let swapped = "UPDATE entry SET seq = 99 WHERE seq = 4; UPDATE entry SET seq = 4 WHERE seq = 5; UPDATE entry SET seq = 5 WHERE seq = 99";
    assert_eq!(
        found(tampered(swapped).path()),
        Some((4, BrokenHow::Changed))
    );
    // The end cut off leaves a sound chain: only what was noted before shows it.
    let cut = tampered(&format!("DELETE FROM entry WHERE seq = {ENTRIES}"));
    assert_eq!(found(cut.path()), None);
    assert!(
        !Store::open(cut.path())
            .unwrap()
            .yard()
            .unwrap()
            .goes_through(&tip)
            .unwrap()
    );
    assert!(
        Store::open(dir.path())
            .unwrap()
            .yard()
            .unwrap()
            .goes_through(&tip)
            .unwrap()
    );
}

#[test]
fn a_row_of_the_wrong_shape_is_told_and_does_not_bring_it_down() {
    let (dir, _) = laid_down();
    let connection = past_the_guards(dir.path());
    connection
        .execute(
            "UPDATE entry SET written = 9223372036854775807 WHERE seq = 7",
            [],
        )
        .unwrap();
    drop(connection);
    let store = Store::open(dir.path()).unwrap();
    assert_eq!(
        store.yard().unwrap().entries(),
        Err(StoreError::Damaged { seq: 7 })
    );
    drop(store);
    assert_eq!(found(dir.path()), Some((7, BrokenHow::DoesNotRead)));
}

/// What verifying says of a file whose bytes are these.
fn verified(bytes: &[u8]) -> Result<bool, StoreError> {
    let dir = tempfile::tempdir().unwrap();
    fs::write(file(dir.path()), bytes).unwrap();
    Ok(Store::open_to_look(dir.path())?.verify()?.sound())
}

#[test]
fn a_file_that_was_cut_is_told_as_damaged() {
    let whole = fs::read(file(laid_down_once().path())).unwrap();
    assert_eq!(verified(&whole), Ok(true));
    let cuts = [0, 1, 15, 16, 50, 99, 100, 101, 512, 4_095, 4_096, 4_097];
    let parts = [2, 3, 4].map(|n| whole.len() / n);
    for length in cuts.into_iter().chain(parts).chain([whole.len() - 1]) {
        let said = verified(&whole[..length]);
        let damaged = matches!(said, Ok(false) | Err(StoreError::FileDamaged { .. }));
        assert!(damaged, "cut at {length}: {said:?}");
    }
    let mut zeros = whole.clone();
    zeros[..4_096].fill(0);
    assert!(matches!(
        verified(&zeros),
        Err(StoreError::FileDamaged { .. })
    ));
}

#[test]
fn a_file_cut_to_nothing_is_not_begun_anew_over_its_log() {
    let dir = tempfile::tempdir().unwrap();
    fs::write(file(dir.path()), "").unwrap();
    fs::write(dir.path().join("kingpost.db-wal"), "what was accepted last").unwrap();
    assert!(matches!(
        Store::open(dir.path()),
        Err(StoreError::FileDamaged { .. })
    ));
    assert!(dir.path().join("kingpost.db-wal").exists());
}

#[test]
fn whatever_byte_of_the_file_is_flipped_the_words_fit() {
    let whole = fs::read(file(laid_down_once().path())).unwrap();
    // All of the file's head, then one byte in 37 of the rest.
    let places = (0..100).chain((100..whole.len()).step_by(37));
    for (n, place) in places.enumerate() {
        let mut bytes = whole.clone();
        bytes[place] ^= 1 << (n % 8);
        let said = verified(&bytes);
        // A version that seems newer cannot be told from one that is.
        let fits = matches!(
            said,
            Ok(_) | Err(StoreError::FileDamaged { .. } | StoreError::NewerSchema { .. })
        );
        assert!(fits, "byte {place}: {said:?}");
    }
}
