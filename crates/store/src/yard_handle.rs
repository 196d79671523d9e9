//! The yard: the only handle with queries.

use crate::{
    Acceptance, Delivery, Refusal, Row, StoreError, Tip,
    form::{read_entry, read_head},
    journal::Offer,
    opening::Inner,
};
use jiff::Timestamp;
use std::sync::Arc;
use yard::{
    entry::Entry,
    id::{EntryId, YardId},
};

/// Rows fetched at once, so that a long journal does not keep others waiting.
const AT_ONCE: usize = 5_000;

/// One yard of the store. Cheap to clone; may be used by many threads. Calls wait for the disk: keep them off threads that must not wait.
#[derive(Clone)]
pub struct Yard {
    pub(crate) store: Arc<Inner>,
    id: YardId,
    name: String,
}

impl std::fmt::Debug for Yard {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Yard")
            .field("id", &self.id)
            .field("name", &self.name)
            .finish_non_exhaustive()
    }
}

/// How far a yard has come. Equal means: whatever was computed from the yard still holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Changes {
    /// Entries accepted.
    pub entries: u64,
    /// How often people, settings or photos changed.
    pub kept: u64,
}

/// Bytes that came under an id already taken by others, kept aside to be shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Conflict {
    /// The entry that holds the id.
    pub holder: Entry,
    /// What the other says, read under the holder's envelope with its own arrival.
    pub other: Entry,
    /// The other's bytes.
    pub bytes: Vec<u8>,
    /// When the other came.
    pub written: Timestamp,
}

impl Yard {
    pub(crate) fn new(store: Arc<Inner>, id: YardId, name: String) -> Self {
        Self { store, id, name }
    }

    /// Its id.
    pub fn id(&self) -> YardId {
        self.id
    }

    /// Its name.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Takes an entry as its writer made it. When this returns, the entry is on the disk. Offering it again is the same as once.
    ///
    /// # Errors
    /// [`StoreError::Refused`] where the bytes are no entry of this yard; [`StoreError::LookOnly`]; the engine's own.
    pub fn accept(&self, bytes: &[u8], delivery: Delivery) -> Result<Acceptance, StoreError> {
        let offer = self.offer(bytes, delivery)?;
        let taken = self.store.to_write()?.append(self.id, &[offer])?;
        taken
            .into_iter()
            .next()
            .ok_or_else(|| StoreError::engine("nothing said of the entry offered"))
    }

    /// Takes many entries in their order, in one step: each is taken or refused by itself, and all that are taken are on the disk together.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own; then none was taken.
    pub fn accept_all(
        &self,
        entries: &[Vec<u8>],
        delivery: Delivery,
    ) -> Result<Vec<Result<Acceptance, Refusal>>, StoreError> {
        let each: Vec<_> = entries
            .iter()
            .map(|bytes| (bytes.as_slice(), delivery))
            .collect();
        self.accept_each(&each)
    }

    /// As [`accept_all`](Self::accept_all), each entry with its own way of coming in.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own; then none was taken.
    pub fn accept_each(
        &self,
        entries: &[(&[u8], Delivery)],
    ) -> Result<Vec<Result<Acceptance, Refusal>>, StoreError> {
        let each: Vec<_> = entries
            .iter()
            .map(|(bytes, delivery)| self.offer(bytes, *delivery))
            .collect();
        let offers: Vec<Offer> = each.iter().filter_map(|offer| offer.clone().ok()).collect();
        let mut taken = self.store.to_write()?.append(self.id, &offers)?.into_iter();
        let of_each = each.into_iter().map(|offer| match offer {
            Ok(_) => taken
                .next()
                .map(Ok)
                .ok_or_else(|| StoreError::engine("nothing said of an entry offered")),
            Err(refusal) => Ok(Err(refusal)),
        });
        of_each.collect()
    }

    fn offer(&self, bytes: &[u8], delivery: Delivery) -> Result<Offer, Refusal> {
        Ok(Offer {
            head: read_head(bytes, self.id)?,
            bytes: bytes.to_vec(),
            delivery,
        })
    }

    /// All entries, in order of acceptance.
    ///
    /// # Errors
    /// [`StoreError::Damaged`]; the engine's own.
    pub fn entries(&self) -> Result<Vec<Entry>, StoreError> {
        self.entries_since(0)
    }

    /// Entries after place `after`, in order of acceptance.
    ///
    /// # Errors
    /// [`StoreError::Damaged`]; the engine's own.
    pub fn entries_since(&self, after: u64) -> Result<Vec<Entry>, StoreError> {
        let mut entries = Vec::new();
        self.each_row(after, |row| {
            entries.push(read_entry(&row)?);
            Ok(())
        })?;
        Ok(entries)
    }

    /// The entry with this id.
    ///
    /// # Errors
    /// [`StoreError::Damaged`]; the engine's own.
    pub fn entry(&self, id: EntryId) -> Result<Option<Entry>, StoreError> {
        self.row(id)?.as_ref().map(read_entry).transpose()
    }

    /// The row with this id: the writer's bytes and the envelope.
    ///
    /// # Errors
    /// The engine's own.
    pub fn row(&self, id: EntryId) -> Result<Option<Row>, StoreError> {
        self.store.engine().row(self.id, id)
    }

    /// At most `most` rows after place `after`, in order of acceptance.
    ///
    /// # Errors
    /// The engine's own.
    pub fn rows_since(&self, after: u64, most: usize) -> Result<Vec<Row>, StoreError> {
        self.store.engine().rows_since(self.id, after, most)
    }

    /// Hands every row after place `after` to `with`, in order of acceptance.
    pub(crate) fn each_row(
        &self,
        after: u64,
        mut with: impl FnMut(Row) -> Result<(), StoreError>,
    ) -> Result<(), StoreError> {
        let mut last = after;
        loop {
            let rows = self.rows_since(last, AT_ONCE)?;
            let Some(end) = rows.last() else {
                return Ok(());
            };
            last = end.envelope.seq;
            rows.into_iter().try_for_each(&mut with)?;
        }
    }

    /// The end of the chain: how many entries, and the hash of the last.
    ///
    /// # Errors
    /// The engine's own.
    pub fn tip(&self) -> Result<Tip, StoreError> {
        self.store.engine().tip(self.id)
    }

    /// How far the yard has come; cheap, for whoever keeps what was computed.
    ///
    /// # Errors
    /// The engine's own.
    pub fn changes(&self) -> Result<Changes, StoreError> {
        let mut engine = self.store.engine();
        Ok(Changes {
            entries: engine.tip(self.id)?.seq,
            kept: engine.kept(self.id)?,
        })
    }

    /// What came under an id already taken, in order of arrival.
    ///
    /// # Errors
    /// [`StoreError::Damaged`]; the engine's own.
    pub fn conflicts(&self) -> Result<Vec<Conflict>, StoreError> {
        let mut engine = self.store.engine();
        let aside = engine.aside(self.id)?;
        let with_holder =
            aside
                .into_iter()
                .filter_map(|aside| match engine.row(self.id, aside.id) {
                    Ok(holder) => holder.map(|holder| Ok((aside, holder))),
                    Err(why) => Some(Err(why)),
                });
        with_holder
            .map(|pair| pair.and_then(|(aside, holder)| conflict(aside, &holder)))
            .collect()
    }
}

fn conflict(aside: crate::Aside, holder: &Row) -> Result<Conflict, StoreError> {
    let mut other = holder.clone();
    other.bytes.clone_from(&aside.bytes);
    other.envelope.written = aside.written;
    Ok(Conflict {
        holder: read_entry(holder)?,
        other: read_entry(&other)?,
        bytes: aside.bytes,
        written: aside.written,
    })
}
