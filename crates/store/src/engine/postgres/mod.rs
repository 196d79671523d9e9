//! The engine for many yards: PostgreSQL, shared by several programs.

mod chain;
mod drawers;

use crate::StoreError;
use postgres::{Client, NoTls, Transaction};
use std::{
    sync::mpsc::{Sender, channel},
    thread::{self, JoinHandle},
};
use uuid::Uuid;
use yard::id::YardId;

/// Today's tables.
const VERSION: i64 = 1;
/// Keeps two programs from building the tables at once.
const BUILDING: i64 = 0x6b70_7374;

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
        step.batch_execute(include_str!("schema.sql"))?;
        step.execute("INSERT INTO kingpost (version) VALUES ($1)", &[&VERSION])?;
    }
    Ok(step.commit()?)
}

fn read_id(row: &postgres::Row, at: usize) -> Result<Uuid, StoreError> {
    Uuid::from_slice(row.try_get(at)?).map_err(StoreError::engine)
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
