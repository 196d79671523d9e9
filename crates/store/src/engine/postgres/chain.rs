//! The chain in PostgreSQL.

use super::{Postgres, key, read_id, small};
use crate::{
    StoreError,
    chain::{Acceptance, Envelope, Hash, Tip, seal, to_millisecond},
    journal::{Aside, Journal, Offer, Row},
};
use jiff::Timestamp;
use postgres::{GenericClient, Transaction};
use sha2::{Digest, Sha256};
use yard::id::{EntryId, YardId};

const COLUMNS: &str = "seq, id, machine, kind, written, ordered_at, corrected, hash, bytes";

impl Journal for Postgres {
    fn append(&mut self, yard: YardId, offers: &[Offer]) -> Result<Vec<Acceptance>, StoreError> {
        let offers = offers.to_vec();
        self.write(yard, move |step| {
            let mut tip = tip(step, yard)?;
            offers
                .iter()
                .map(|offer| take(step, yard, &mut tip, offer))
                .collect()
        })
    }

    fn append_moved(
        &mut self,
        yard: YardId,
        rows: &[Row],
        aside: &[Aside],
    ) -> Result<(), StoreError> {
        let (rows, aside) = (rows.to_vec(), aside.to_vec());
        self.write(yard, move |step| {
            if tip(step, yard)?.seq != 0 {
                return Err(StoreError::NotEmpty {
                    dir: yard.to_string(),
                });
            }
            rows.iter().try_for_each(|row| insert(step, yard, row))?;
            aside
                .iter()
                .try_for_each(|aside| put_aside(step, yard, aside))
        })
    }

    fn rows_since(
        &mut self,
        yard: YardId,
        after: u64,
        most: usize,
    ) -> Result<Vec<Row>, StoreError> {
        self.run(move |client| {
            let sql = format!(
                "SELECT {COLUMNS} FROM entry WHERE yard = $1 AND seq > $2 ORDER BY seq LIMIT $3"
            );
            let rows = client.query(&sql, &[&key(&yard.0), &small(after), &small(most as u64)])?;
            rows.iter().map(read_row).collect()
        })
    }

    fn row(&mut self, yard: YardId, id: EntryId) -> Result<Option<Row>, StoreError> {
        self.run(move |client| {
            let sql = format!("SELECT {COLUMNS} FROM entry WHERE yard = $1 AND id = $2");
            client
                .query_opt(&sql, &[&key(&yard.0), &key(&id.0)])?
                .as_ref()
                .map(read_row)
                .transpose()
        })
    }

    fn tip(&mut self, yard: YardId) -> Result<Tip, StoreError> {
        self.run(move |client| tip(client, yard))
    }

    fn aside(&mut self, yard: YardId) -> Result<Vec<Aside>, StoreError> {
        self.run(move |client| {
            let rows = client.query(
                "SELECT id, bytes, written FROM aside WHERE yard = $1 ORDER BY place",
                &[&key(&yard.0)],
            )?;
            rows.iter()
                .map(|row| {
                    Ok(Aside {
                        id: EntryId(read_id(row, 0)?),
                        bytes: row.try_get(1)?,
                        written: read_time(row, 2)?,
                    })
                })
                .collect()
        })
    }
}

fn take(
    step: &mut Transaction<'_>,
    yard: YardId,
    tip: &mut Tip,
    offer: &Offer,
) -> Result<Acceptance, StoreError> {
    let there = step.query_opt(
        "SELECT seq, bytes FROM entry WHERE yard = $1 AND id = $2",
        &[&key(&yard.0), &key(&offer.head.id.0)],
    )?;
    if let Some(there) = there {
        let seq = there.try_get::<_, i64>(0)?.unsigned_abs();
        if there.try_get::<_, &[u8]>(1)? == offer.bytes {
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
    let row = Row {
        id: offer.head.id,
        machine: offer.head.machine.clone(),
        kind: offer.head.kind.clone(),
        bytes: offer.bytes.clone(),
        envelope,
    };
    insert(step, yard, &row)?;
    *tip = Tip {
        seq: envelope.seq,
        hash: envelope.hash,
    };
    Ok(Acceptance::New { seq: envelope.seq })
}

fn insert(step: &mut Transaction<'_>, yard: YardId, row: &Row) -> Result<(), StoreError> {
    let Envelope {
        seq,
        written,
        ordered_at,
        corrected,
        hash,
    } = &row.envelope;
    let (written, ordered_at) = (written.as_millisecond(), ordered_at.as_millisecond());
    step.execute(
        "INSERT INTO entry (yard, seq, id, machine, kind, written, ordered_at, corrected, hash, bytes) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)",
        &[&key(&yard.0), &small(*seq), &key(&row.id.0), &row.machine, &row.kind, &written, &ordered_at, corrected, &&hash[..], &row.bytes],
    )?;
    Ok(())
}

fn put_aside(step: &mut Transaction<'_>, yard: YardId, aside: &Aside) -> Result<(), StoreError> {
    let digest: Hash = Sha256::digest(&aside.bytes).into();
    step.execute(
        "INSERT INTO aside (yard, id, digest, written, bytes) VALUES ($1, $2, $3, $4, $5) ON CONFLICT DO NOTHING",
        &[&key(&yard.0), &key(&aside.id.0), &&digest[..], &aside.written.as_millisecond(), &aside.bytes],
    )?;
    Ok(())
}

fn tip(client: &mut impl GenericClient, yard: YardId) -> Result<Tip, StoreError> {
    let last = client.query_opt(
        "SELECT seq, hash FROM entry WHERE yard = $1 ORDER BY seq DESC LIMIT 1",
        &[&key(&yard.0)],
    )?;
    let Some(last) = last else {
        return Ok(Tip::start(yard));
    };
    Ok(Tip {
        seq: last.try_get::<_, i64>(0)?.unsigned_abs(),
        hash: read_hash(&last, 1)?,
    })
}

fn read_row(row: &postgres::Row) -> Result<Row, StoreError> {
    let seq = row.try_get::<_, i64>(0)?.unsigned_abs();
    let (written, ordered_at) = (read_time(row, 4)?, read_time(row, 5)?);
    let envelope = Envelope {
        seq,
        written,
        ordered_at,
        corrected: row.try_get(6)?,
        hash: read_hash(row, 7)?,
    };
    Ok(Row {
        id: EntryId(read_id(row, 1)?),
        machine: row.try_get(2)?,
        kind: row.try_get(3)?,
        bytes: row.try_get(8)?,
        envelope,
    })
}

fn read_hash(row: &postgres::Row, at: usize) -> Result<Hash, StoreError> {
    row.try_get::<_, &[u8]>(at)?
        .try_into()
        .map_err(StoreError::engine)
}

fn read_time(row: &postgres::Row, at: usize) -> Result<Timestamp, StoreError> {
    Timestamp::from_millisecond(row.try_get(at)?).map_err(StoreError::engine)
}
