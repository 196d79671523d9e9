//! The chain in SQLite.

use super::{Sqlite, key, small};
use crate::{
    StoreError,
    chain::{Acceptance, Envelope, Hash, Tip, seal, to_millisecond},
    journal::{Aside, Journal, Offer, Row},
};
use jiff::Timestamp;
use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};
use sha2::{Digest, Sha256};
use uuid::Uuid;
use yard::id::{EntryId, YardId};

const COLUMNS: &str = "seq, id, machine, kind, written, ordered_at, corrected, hash, bytes";

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
