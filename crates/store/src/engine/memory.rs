//! The engine that forgets when it is dropped: for tests, and for trying things out.

use crate::{
    StoreError,
    chain::{Acceptance, Tip, seal, to_millisecond},
    journal::{Aside, Drawer, Drawers, Journal, Offer, Row},
};
use std::collections::BTreeMap;
use yard::id::{EntryId, YardId};

/// Everything in memory.
#[derive(Debug, Default)]
pub(crate) struct Memory {
    yards: Vec<Kept>,
}

#[derive(Debug)]
struct Kept {
    id: YardId,
    name: String,
    rows: Vec<Row>,
    by_id: BTreeMap<EntryId, usize>,
    aside: Vec<Aside>,
    drawers: BTreeMap<(Drawer, String), String>,
    kept: u64,
}

impl Memory {
    fn of(&mut self, yard: YardId) -> Result<&mut Kept, StoreError> {
        self.yards
            .iter_mut()
            .find(|kept| kept.id == yard)
            .ok_or(StoreError::NoYard)
    }
}

impl Kept {
    fn tip(&self) -> Tip {
        self.rows.last().map_or_else(
            || Tip::start(self.id),
            |row| Tip {
                seq: row.envelope.seq,
                hash: row.envelope.hash,
            },
        )
    }

    fn take(&mut self, offer: &Offer) -> Acceptance {
        if let Some(&place) = self.by_id.get(&offer.head.id) {
            let seq = self.rows[place].envelope.seq;
            return if self.rows[place].bytes == offer.bytes {
                Acceptance::Known { seq }
            } else {
                self.put_aside(offer, seq)
            };
        }
        let envelope = seal(&self.tip(), offer.head.at, &offer.bytes, offer.delivery);
        self.push(Row {
            id: offer.head.id,
            machine: offer.head.machine.clone(),
            kind: offer.head.kind.clone(),
            bytes: offer.bytes.clone(),
            envelope,
        });
        Acceptance::New { seq: envelope.seq }
    }

    fn push(&mut self, row: Row) {
        self.by_id.insert(row.id, self.rows.len());
        self.rows.push(row);
    }

    fn put_aside(&mut self, offer: &Offer, seq: u64) -> Acceptance {
        if !self
            .aside
            .iter()
            .any(|aside| aside.id == offer.head.id && aside.bytes == offer.bytes)
        {
            self.aside.push(Aside {
                id: offer.head.id,
                bytes: offer.bytes.clone(),
                written: to_millisecond(offer.delivery.written),
            });
        }
        Acceptance::Conflict { seq }
    }
}

impl Journal for Memory {
    fn append(&mut self, yard: YardId, offers: &[Offer]) -> Result<Vec<Acceptance>, StoreError> {
        let kept = self.of(yard)?;
        Ok(offers.iter().map(|offer| kept.take(offer)).collect())
    }

    fn append_moved(
        &mut self,
        yard: YardId,
        rows: &[Row],
        aside: &[Aside],
    ) -> Result<(), StoreError> {
        let kept = self.of(yard)?;
        if !kept.rows.is_empty() {
            return Err(StoreError::NotEmpty {
                dir: yard.to_string(),
            });
        }
        rows.iter().for_each(|row| kept.push(row.clone()));
        kept.aside = aside.to_vec();
        Ok(())
    }

    fn rows_since(
        &mut self,
        yard: YardId,
        after: u64,
        most: usize,
    ) -> Result<Vec<Row>, StoreError> {
        let from = usize::try_from(after).unwrap_or(usize::MAX);
        Ok(self
            .of(yard)?
            .rows
            .iter()
            .skip(from)
            .take(most)
            .cloned()
            .collect())
    }

    fn row(&mut self, yard: YardId, id: EntryId) -> Result<Option<Row>, StoreError> {
        let kept = self.of(yard)?;
        Ok(kept.by_id.get(&id).map(|&place| kept.rows[place].clone()))
    }

    fn tip(&mut self, yard: YardId) -> Result<Tip, StoreError> {
        Ok(self.of(yard)?.tip())
    }

    fn aside(&mut self, yard: YardId) -> Result<Vec<Aside>, StoreError> {
        Ok(self.of(yard)?.aside.clone())
    }
}

impl Drawers for Memory {
    fn add_yard(&mut self, yard: YardId, name: &str) -> Result<(), StoreError> {
        if self.of(yard).is_ok() {
            return Err(StoreError::YardExists);
        }
        let name = name.to_owned();
        self.yards.push(Kept {
            id: yard,
            name,
            rows: vec![],
            by_id: BTreeMap::new(),
            aside: vec![],
            drawers: BTreeMap::new(),
            kept: 0,
        });
        Ok(())
    }

    fn yards(&mut self) -> Result<Vec<(YardId, String)>, StoreError> {
        Ok(self
            .yards
            .iter()
            .map(|kept| (kept.id, kept.name.clone()))
            .collect())
    }

    fn get(
        &mut self,
        yard: YardId,
        drawer: Drawer,
        key: &str,
    ) -> Result<Option<String>, StoreError> {
        Ok(self
            .of(yard)?
            .drawers
            .get(&(drawer, key.to_owned()))
            .cloned())
    }

    fn list(&mut self, yard: YardId, drawer: Drawer) -> Result<Vec<(String, String)>, StoreError> {
        let all = self.of(yard)?.drawers.iter();
        Ok(all
            .filter(|((of, _), _)| *of == drawer)
            .map(|((_, key), value)| (key.clone(), value.clone()))
            .collect())
    }

    fn swap(
        &mut self,
        yard: YardId,
        drawer: Drawer,
        key: &str,
        old: Option<&str>,
        new: Option<&str>,
    ) -> Result<bool, StoreError> {
        let kept = self.of(yard)?;
        let at = (drawer, key.to_owned());
        if kept.drawers.get(&at).map(String::as_str) != old {
            return Ok(false);
        }
        match new {
            Some(new) => kept.drawers.insert(at, new.to_owned()),
            None => kept.drawers.remove(&at),
        };
        kept.kept += u64::from(drawer.lasts());
        Ok(true)
    }

    fn kept(&mut self, yard: YardId) -> Result<u64, StoreError> {
        Ok(self.of(yard)?.kept)
    }

    fn scrub(&mut self) -> Result<(), StoreError> {
        Ok(())
    }

    fn complaints(&mut self) -> Result<Vec<String>, StoreError> {
        Ok(vec![])
    }
}
