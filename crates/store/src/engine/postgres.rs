//! The engine for many yards: PostgreSQL, shared by several programs.

use crate::{
    StoreError,
    chain::{Acceptance, Envelope, Hash, Tip, seal, to_millisecond},
    journal::{Aside, Drawer, Drawers, Journal, Offer, Row},
};
use jiff::Timestamp;
use postgres::{Client, GenericClient, NoTls, Transaction};
use sha2::{Digest, Sha256};
use std::{
    sync::mpsc::{Sender, channel},
    thread::{self, JoinHandle},
};
use uuid::Uuid;
use yard::id::{EntryId, YardId};

/// Today's tables.
const VERSION: i64 = 1;
/// Keeps two programs from building the tables at once.
const BUILDING: i64 = 0x6b70_7374;

const COLUMNS: &str = "seq, id, machine, kind, written, ordered_at, corrected, hash, bytes";

type Job = Box<dyn FnOnce(&mut Connection) + Send>;

/// A connection on a thread of its own: the client blocks on a runtime inside, which must neither be made nor dropped on a thread of
/// another runtime.
pub(crate) struct Postgres {
    jobs: Option<Sender<Job>>,
    thread: Option<JoinHandle<()>>,
}

/// The client, made again when the server went away.
struct Connection {
    url: String,
    client: Option<Client>,
}

impl Postgres {
    /// Connects, and builds the tables where they are missing.
    pub(crate) fn open(url: &str) -> Result<Self, StoreError> {
        let (jobs, waiting) = channel::<Job>();
        let mut connection = Connection {
            url: url.to_owned(),
            client: None,
        };
        let thread =
            thread::spawn(move || waiting.into_iter().for_each(|job| job(&mut connection)));
        let mut engine = Self {
            jobs: Some(jobs),
            thread: Some(thread),
        };
        engine.run(build)?;
        Ok(engine)
    }

    fn run<R: Send + 'static>(
        &mut self,
        job: impl FnOnce(&mut Client) -> Result<R, StoreError> + Send + 'static,
    ) -> Result<R, StoreError> {
        let gone = || StoreError::engine("the connection's thread has ended");
        let (answer, said) = channel();
        let job: Job = Box::new(move |connection| {
            // Nobody waits any more where this fails.
            let _ = answer.send(connection.client().and_then(job));
        });
        self.jobs
            .as_ref()
            .and_then(|jobs| jobs.send(job).ok())
            .ok_or_else(gone)?;
        said.recv().map_err(|_| gone())?
    }

    /// Runs in one transaction that keeps all other writers of this yard waiting, so that places are given out in the order of commits.
    fn write<R: Send + 'static>(
        &mut self,
        yard: YardId,
        job: impl FnOnce(&mut Transaction<'_>) -> Result<R, StoreError> + Send + 'static,
    ) -> Result<R, StoreError> {
        self.run(move |client| {
            let mut step = client.transaction()?;
            step.execute(
                "SELECT pg_advisory_xact_lock(hashtextextended($1, 0))",
                &[&yard.to_string()],
            )?;
            let said = job(&mut step)?;
            step.commit()?;
            Ok(said)
        })
    }
}

impl Drop for Postgres {
    fn drop(&mut self) {
        drop(self.jobs.take());
        if let Some(thread) = self.thread.take() {
            // A panic there was already told to whoever waited.
            let _ = thread.join();
        }
    }
}

impl Connection {
    fn client(&mut self) -> Result<&mut Client, StoreError> {
        if self.client.as_ref().is_none_or(Client::is_closed) {
            let mut client = Client::connect(&self.url, NoTls)?;
            client.batch_execute("SET synchronous_commit = on; SET client_encoding = 'UTF8'")?;
            self.client = Some(client);
        }
        self.client
            .as_mut()
            .ok_or_else(|| StoreError::engine("not connected"))
    }
}

fn build(client: &mut Client) -> Result<(), StoreError> {
    let mut step = client.transaction()?;
    step.execute("SELECT pg_advisory_xact_lock($1)", &[&BUILDING])?;
    step.batch_execute("CREATE TABLE IF NOT EXISTS kingpost (version bigint NOT NULL)")?;
    let found = step
        .query_opt("SELECT version FROM kingpost", &[])?
        .map_or(0, |row| row.get::<_, i64>(0));
    if found > VERSION {
        return Err(StoreError::NewerSchema {
            found,
            known: VERSION,
        });
    }
    if found == 0 {
        step.batch_execute(include_str!("postgres.sql"))?;
        step.execute("INSERT INTO kingpost (version) VALUES ($1)", &[&VERSION])?;
    }
    Ok(step.commit()?)
}

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

fn read_id(row: &postgres::Row, at: usize) -> Result<Uuid, StoreError> {
    Uuid::from_slice(row.try_get(at)?).map_err(StoreError::engine)
}

fn read_hash(row: &postgres::Row, at: usize) -> Result<Hash, StoreError> {
    row.try_get::<_, &[u8]>(at)?
        .try_into()
        .map_err(StoreError::engine)
}

fn read_time(row: &postgres::Row, at: usize) -> Result<Timestamp, StoreError> {
    Timestamp::from_millisecond(row.try_get(at)?).map_err(StoreError::engine)
}

impl Drawers for Postgres {
    fn add_yard(&mut self, yard: YardId, name: &str) -> Result<(), StoreError> {
        let name = name.to_owned();
        let made = self.run(move |client| {
            Ok(client.execute(
                "INSERT INTO yard (id, name) VALUES ($1, $2) ON CONFLICT (id) DO NOTHING",
                &[&key(&yard.0), &name],
            )?)
        })?;
        if made == 1 {
            Ok(())
        } else {
            Err(StoreError::YardExists)
        }
    }

    fn yards(&mut self) -> Result<Vec<(YardId, String)>, StoreError> {
        self.run(|client| {
            let rows = client.query("SELECT id, name FROM yard ORDER BY place", &[])?;
            rows.iter()
                .map(|row| Ok((YardId(read_id(row, 0)?), row.try_get(1)?)))
                .collect()
        })
    }

    fn get(
        &mut self,
        yard: YardId,
        drawer: Drawer,
        at: &str,
    ) -> Result<Option<String>, StoreError> {
        let at = at.to_owned();
        self.run(move |client| get(client, yard, drawer, &at))
    }

    fn list(&mut self, yard: YardId, drawer: Drawer) -> Result<Vec<(String, String)>, StoreError> {
        self.run(move |client| {
            let rows = client.query(
                "SELECT key, value FROM drawer WHERE yard = $1 AND drawer = $2 ORDER BY key",
                &[&key(&yard.0), &drawer.code()],
            )?;
            rows.iter()
                .map(|row| Ok((row.try_get(0)?, row.try_get(1)?)))
                .collect()
        })
    }

    fn swap(
        &mut self,
        yard: YardId,
        drawer: Drawer,
        at: &str,
        old: Option<&str>,
        new: Option<&str>,
    ) -> Result<bool, StoreError> {
        let (at, old, new) = (
            at.to_owned(),
            old.map(str::to_owned),
            new.map(str::to_owned),
        );
        self.write(yard, move |step| {
            if get(step, yard, drawer, &at)? != old {
                return Ok(false);
            }
            match new {
                Some(new) => step.execute(
                    "INSERT INTO drawer (yard, drawer, key, value) VALUES ($1, $2, $3, $4) ON CONFLICT (yard, drawer, key) DO UPDATE SET value = $4",
                    &[&key(&yard.0), &drawer.code(), &at, &new],
                )?,
                None => step.execute("DELETE FROM drawer WHERE yard = $1 AND drawer = $2 AND key = $3", &[&key(&yard.0), &drawer.code(), &at])?,
            };
            if drawer.lasts() {
                step.execute("UPDATE yard SET kept = kept + 1 WHERE id = $1", &[&key(&yard.0)])?;
            }
            Ok(true)
        })
    }

    fn kept(&mut self, yard: YardId) -> Result<u64, StoreError> {
        let row = self.run(move |client| {
            Ok(client.query_opt("SELECT kept FROM yard WHERE id = $1", &[&key(&yard.0)])?)
        })?;
        Ok(row
            .ok_or(StoreError::NoYard)?
            .try_get::<_, i64>(0)?
            .unsigned_abs())
    }

    fn scrub(&mut self) -> Result<(), StoreError> {
        self.run(|client| Ok(client.batch_execute("VACUUM drawer")?))
    }

    fn complaints(&mut self) -> Result<Vec<String>, StoreError> {
        // The server watches over its own files; the chain is walked by `verify`.
        Ok(vec![])
    }
}

fn get(
    client: &mut impl GenericClient,
    yard: YardId,
    drawer: Drawer,
    at: &str,
) -> Result<Option<String>, StoreError> {
    let sql = "SELECT value FROM drawer WHERE yard = $1 AND drawer = $2 AND key = $3";
    Ok(client
        .query_opt(sql, &[&key(&yard.0), &drawer.code(), &at])?
        .map(|row| row.try_get(0))
        .transpose()?)
}

fn key(id: &Uuid) -> &[u8] {
    id.as_bytes()
}

/// A count as PostgreSQL's signed integer; beyond it there is nothing to find.
fn small(count: u64) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

impl From<postgres::Error> for StoreError {
    fn from(why: postgres::Error) -> Self {
        let said = why.as_db_error().map(|said| said.message().to_owned());
        Self::engine(said.unwrap_or_else(|| why.to_string()))
    }
}
