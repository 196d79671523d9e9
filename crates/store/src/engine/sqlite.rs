//! The default engine: one SQLite file, flushed at every commit.

use crate::{
    StoreError,
    chain::{Acceptance, Envelope, Hash, Tip, seal, to_millisecond},
    journal::{Aside, Drawer, Drawers, Journal, Offer, Row},
};
use jiff::Timestamp;
use rusqlite::{Connection, OpenFlags, OptionalExtension, TransactionBehavior, params};
use sha2::{Digest, Sha256};
use std::{path::Path, time::Duration};
use uuid::Uuid;
use yard::id::{EntryId, YardId};

/// Marks the file as a store of this program ("kpst").
const APPLICATION: i32 = 0x6b70_7374;
/// The steps from an empty file to today's tables; a store's version is how many were taken.
const STEPS: &[&str] = &[include_str!("schema.sql")];

const COLUMNS: &str = "seq, id, machine, kind, written, ordered_at, corrected, hash, bytes";

/// One open store file.
#[derive(Debug)]
pub(crate) struct Sqlite {
    connection: Connection,
}

impl Sqlite {
    /// Opens the file, making it and bringing its tables up to date as needed.
    pub(crate) fn open(path: &Path) -> Result<Self, StoreError> {
        let mut connection = connect(
            path,
            OpenFlags::SQLITE_OPEN_CREATE | OpenFlags::SQLITE_OPEN_READ_WRITE,
        )?;
        refuse_foreign(&connection, path)?;
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

    /// Opens the file to look only, beside the program that holds it.
    pub(crate) fn open_to_look(path: &Path) -> Result<Self, StoreError> {
        let connection = connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
        refuse_foreign(&connection, path)?;
        connection.pragma_update(None, "query_only", true)?;
        Ok(Self { connection })
    }
}

/// Writes a consistent copy of the store at `from` to `to`, whatever is being written meanwhile.
pub(crate) fn vacuum_into(from: &Path, to: &Path) -> Result<(), StoreError> {
    let connection = connect(from, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
    connection.execute("VACUUM INTO ?1", [to.to_string_lossy()])?;
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
    let connection = Connection::open_with_flags(path, flags | OpenFlags::SQLITE_OPEN_NO_MUTEX)?;
    connection.busy_timeout(Duration::from_secs(10))?;
    connection.pragma_update(None, "synchronous", "FULL")?;
    connection.pragma_update(None, "foreign_keys", true)?;
    connection.pragma_update(None, "trusted_schema", false)?;
    // So that the triggers also see a row that would be replaced.
    connection.pragma_update(None, "recursive_triggers", true)?;
    // So that an erased name does not stay in freed pages.
    connection.pragma_update(None, "secure_delete", true)?;
    connection.set_prepared_statement_cache_capacity(32);
    Ok(connection)
}

fn refuse_foreign(connection: &Connection, path: &Path) -> Result<(), StoreError> {
    let foreign = || StoreError::NotOurs {
        path: path.display().to_string(),
    };
    let application: i32 = match connection.query_row("PRAGMA application_id", [], |row| row.get(0))
    {
        Err(rusqlite::Error::SqliteFailure(failure, _))
            if failure.code == rusqlite::ErrorCode::NotADatabase =>
        {
            return Err(foreign());
        }
        other => other?,
    };
    let objects: i64 =
        connection.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
    if application != APPLICATION && (application != 0 || objects != 0) {
        return Err(foreign());
    }
    let found = version(connection)?;
    let known = STEPS.len() as i64;
    if found > known {
        Err(StoreError::NewerSchema { found, known })
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

impl Journal for Sqlite {
    fn append(&mut self, yard: YardId, offers: &[Offer]) -> Result<Vec<Acceptance>, StoreError> {
        let step = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let mut tip = tip(&step, yard)?;
        let taken = offers
            .iter()
            .map(|offer| take(&step, yard, &mut tip, offer))
            .collect::<Result<Vec<_>, _>>()?;
        step.commit()?;
        Ok(taken)
    }

    fn append_moved(
        &mut self,
        yard: YardId,
        rows: &[Row],
        aside: &[Aside],
    ) -> Result<(), StoreError> {
        let step = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        if tip(&step, yard)?.seq != 0 {
            return Err(StoreError::NotEmpty {
                dir: yard.to_string(),
            });
        }
        rows.iter().try_for_each(|row| insert(&step, yard, row))?;
        aside
            .iter()
            .try_for_each(|aside| put_aside(&step, yard, aside))?;
        Ok(step.commit()?)
    }

    fn rows_since(
        &mut self,
        yard: YardId,
        after: u64,
        most: usize,
    ) -> Result<Vec<Row>, StoreError> {
        let sql = format!(
            "SELECT {COLUMNS} FROM entry WHERE yard = ?1 AND seq > ?2 ORDER BY seq LIMIT ?3"
        );
        let mut select = self.connection.prepare_cached(&sql)?;
        let rows = select.query_map(
            params![key(&yard.0), small(after), small(most as u64)],
            read_row,
        )?;
        rows.map(|row| row?.whole()).collect()
    }

    fn row(&mut self, yard: YardId, id: EntryId) -> Result<Option<Row>, StoreError> {
        let sql = format!("SELECT {COLUMNS} FROM entry WHERE yard = ?1 AND id = ?2");
        let mut select = self.connection.prepare_cached(&sql)?;
        select
            .query_row(params![key(&yard.0), key(&id.0)], read_row)
            .optional()?
            .map(Raw::whole)
            .transpose()
    }

    fn tip(&mut self, yard: YardId) -> Result<Tip, StoreError> {
        tip(&self.connection, yard)
    }

    fn aside(&mut self, yard: YardId) -> Result<Vec<Aside>, StoreError> {
        let mut select = self.connection.prepare_cached(
            "SELECT id, bytes, written FROM aside WHERE yard = ?1 ORDER BY place",
        )?;
        let rows = select.query_map([key(&yard.0)], |row| {
            let id = EntryId(Uuid::from_bytes(row.get(0)?));
            Ok(Aside {
                id,
                bytes: row.get(1)?,
                written: Timestamp::from_millisecond(row.get(2)?).unwrap_or(Timestamp::MIN),
            })
        })?;
        Ok(rows.collect::<Result<_, _>>()?)
    }
}

fn take(
    step: &Connection,
    yard: YardId,
    tip: &mut Tip,
    offer: &Offer,
) -> Result<Acceptance, StoreError> {
    let mut select =
        step.prepare_cached("SELECT seq, bytes FROM entry WHERE yard = ?1 AND id = ?2")?;
    let there: Option<(i64, Vec<u8>)> = select
        .query_row(params![key(&yard.0), key(&offer.head.id.0)], |row| {
            Ok((row.get(0)?, row.get(1)?))
        })
        .optional()?;
    if let Some((seq, bytes)) = there {
        let seq = seq.unsigned_abs();
        if bytes == offer.bytes {
            return Ok(Acceptance::Known { seq });
        }
        let written = to_millisecond(offer.delivery.written);
        put_aside(
            step,
            yard,
            &Aside {
                id: offer.head.id,
                bytes: offer.bytes.clone(),
                written,
            },
        )?;
        return Ok(Acceptance::Conflict { seq });
    }
    let envelope = seal(tip, offer.head.at, &offer.bytes, offer.delivery);
    insert_parts(
        step,
        yard,
        (
            offer.head.id,
            offer.head.machine.as_deref(),
            &offer.head.kind,
        ),
        &envelope,
        &offer.bytes,
    )?;
    *tip = Tip {
        seq: envelope.seq,
        hash: envelope.hash,
    };
    Ok(Acceptance::New { seq: envelope.seq })
}

fn insert(step: &Connection, yard: YardId, row: &Row) -> Result<(), StoreError> {
    insert_parts(
        step,
        yard,
        (row.id, row.machine.as_deref(), &row.kind),
        &row.envelope,
        &row.bytes,
    )
}

fn insert_parts(
    step: &Connection,
    yard: YardId,
    found_by: (EntryId, Option<&str>, &str),
    envelope: &Envelope,
    bytes: &[u8],
) -> Result<(), StoreError> {
    let mut insert = step.prepare_cached(
        "INSERT INTO entry (yard, seq, id, machine, kind, written, ordered_at, corrected, hash, bytes) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
    )?;
    let (id, machine, kind) = found_by;
    let (written, ordered_at) = (
        envelope.written.as_millisecond(),
        envelope.ordered_at.as_millisecond(),
    );
    insert.execute(params![
        key(&yard.0),
        small(envelope.seq),
        key(&id.0),
        machine,
        kind,
        written,
        ordered_at,
        envelope.corrected,
        envelope.hash,
        bytes
    ])?;
    Ok(())
}

fn put_aside(step: &Connection, yard: YardId, aside: &Aside) -> Result<(), StoreError> {
    let digest: Hash = Sha256::digest(&aside.bytes).into();
    let mut insert = step.prepare_cached("INSERT INTO aside (yard, id, digest, written, bytes) VALUES (?1, ?2, ?3, ?4, ?5) ON CONFLICT DO NOTHING")?;
    insert.execute(params![
        key(&yard.0),
        key(&aside.id.0),
        digest,
        aside.written.as_millisecond(),
        aside.bytes
    ])?;
    Ok(())
}

fn tip(connection: &Connection, yard: YardId) -> Result<Tip, StoreError> {
    let mut select = connection
        .prepare_cached("SELECT seq, hash FROM entry WHERE yard = ?1 ORDER BY seq DESC LIMIT 1")?;
    let last: Option<(i64, Hash)> = select
        .query_row([key(&yard.0)], |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?;
    Ok(last.map_or_else(
        || Tip::start(yard),
        |(seq, hash)| Tip {
            seq: seq.unsigned_abs(),
            hash,
        },
    ))
}

/// A row as the file holds it, its times unread.
struct Raw(Row, i64, i64);

impl Raw {
    fn whole(self) -> Result<Row, StoreError> {
        let Raw(mut row, written, ordered_at) = self;
        let damaged = |_| StoreError::Damaged {
            seq: row.envelope.seq,
        };
        row.envelope.written = Timestamp::from_millisecond(written).map_err(damaged)?;
        row.envelope.ordered_at = Timestamp::from_millisecond(ordered_at).map_err(damaged)?;
        Ok(row)
    }
}

fn read_row(row: &rusqlite::Row<'_>) -> rusqlite::Result<Raw> {
    let seq = row.get::<_, i64>(0)?.unsigned_abs();
    let envelope = Envelope {
        seq,
        written: Timestamp::MIN,
        ordered_at: Timestamp::MIN,
        corrected: row.get(6)?,
        hash: row.get(7)?,
    };
    let id = EntryId(Uuid::from_bytes(row.get(1)?));
    Ok(Raw(
        Row {
            id,
            machine: row.get(2)?,
            kind: row.get(3)?,
            bytes: row.get(8)?,
            envelope,
        },
        row.get(4)?,
        row.get(5)?,
    ))
}

impl Drawers for Sqlite {
    fn add_yard(&mut self, yard: YardId, name: &str) -> Result<(), StoreError> {
        let sql = "INSERT INTO yard (id, place, name) VALUES (?1, 1 + (SELECT coalesce(max(place), 0) FROM yard), ?2) ON CONFLICT (id) DO NOTHING";
        let made = self.connection.execute(sql, params![key(&yard.0), name])?;
        if made == 1 {
            Ok(())
        } else {
            Err(StoreError::YardExists)
        }
    }

    fn yards(&mut self) -> Result<Vec<(YardId, String)>, StoreError> {
        let mut select = self
            .connection
            .prepare_cached("SELECT id, name FROM yard ORDER BY place")?;
        let rows = select.query_map([], |row| {
            Ok((YardId(Uuid::from_bytes(row.get(0)?)), row.get(1)?))
        })?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    fn get(
        &mut self,
        yard: YardId,
        drawer: Drawer,
        at: &str,
    ) -> Result<Option<String>, StoreError> {
        get(&self.connection, yard, drawer, at)
    }

    fn list(&mut self, yard: YardId, drawer: Drawer) -> Result<Vec<(String, String)>, StoreError> {
        let mut select = self.connection.prepare_cached(
            "SELECT key, value FROM drawer WHERE yard = ?1 AND drawer = ?2 ORDER BY key",
        )?;
        let rows = select.query_map(params![key(&yard.0), drawer.code()], |row| {
            Ok((row.get(0)?, row.get(1)?))
        })?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    fn swap(
        &mut self,
        yard: YardId,
        drawer: Drawer,
        at: &str,
        old: Option<&str>,
        new: Option<&str>,
    ) -> Result<bool, StoreError> {
        let step = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        if get(&step, yard, drawer, at)?.as_deref() != old {
            return Ok(false);
        }
        let place = params![key(&yard.0), drawer.code(), at];
        match new {
            Some(new) => step.execute(
                "INSERT INTO drawer (yard, drawer, key, value) VALUES (?1, ?2, ?3, ?4) ON CONFLICT (yard, drawer, key) DO UPDATE SET value = ?4",
                params![key(&yard.0), drawer.code(), at, new],
            )?,
            None => step.execute("DELETE FROM drawer WHERE yard = ?1 AND drawer = ?2 AND key = ?3", place)?,
        };
        if drawer.lasts() {
            step.execute(
                "UPDATE yard SET kept = kept + 1 WHERE id = ?1",
                [key(&yard.0)],
            )?;
        }
        step.commit()?;
        Ok(true)
    }

    fn kept(&mut self, yard: YardId) -> Result<u64, StoreError> {
        let mut select = self
            .connection
            .prepare_cached("SELECT kept FROM yard WHERE id = ?1")?;
        let kept: Option<i64> = select
            .query_row([key(&yard.0)], |row| row.get(0))
            .optional()?;
        kept.map(i64::unsigned_abs).ok_or(StoreError::NoYard)
    }

    fn scrub(&mut self) -> Result<(), StoreError> {
        Ok(self
            .connection
            .query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(()))?)
    }

    fn complaints(&mut self) -> Result<Vec<String>, StoreError> {
        let mut check = self.connection.prepare("PRAGMA integrity_check")?;
        let lines = check
            .query_map([], |row| row.get::<_, String>(0))?
            .collect::<Result<Vec<_>, _>>()?;
        Ok(lines.into_iter().filter(|line| line != "ok").collect())
    }
}

fn get(
    connection: &Connection,
    yard: YardId,
    drawer: Drawer,
    at: &str,
) -> Result<Option<String>, StoreError> {
    let mut select = connection
        .prepare_cached("SELECT value FROM drawer WHERE yard = ?1 AND drawer = ?2 AND key = ?3")?;
    Ok(select
        .query_row(params![key(&yard.0), drawer.code(), at], |row| row.get(0))
        .optional()?)
}

fn key(id: &Uuid) -> &[u8] {
    id.as_bytes()
}

/// A count as SQLite's signed integer; beyond it there is nothing to find.
fn small(count: u64) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

impl From<rusqlite::Error> for StoreError {
    fn from(why: rusqlite::Error) -> Self {
        if why.sqlite_error_code() == Some(rusqlite::ErrorCode::ReadOnly) {
            Self::LookOnly
        } else {
            Self::engine(why)
        }
    }
}
