//! Verifying: walks every chain, recomputes every hash, and asks the engine and the photos too.

use crate::{StoreError, Tip, Yard, chain::link, form::read_head, journal::Row, opening::Store};
use std::collections::BTreeSet;
use yard::id::{EntryId, PhotoId, YardId};

/// What a chain was found to be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Checked {
    /// The yard.
    pub yard: YardId,
    /// The last sound place and its hash. Compare it with one noted before: a chain cut off at its end shows only so.
    pub tip: Tip,
    /// The first place that is not as it was accepted.
    pub broken: Option<Broken>,
}

/// Where a chain is broken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Broken {
    /// Place in the chain.
    pub seq: u64,
    /// How.
    pub how: BrokenHow,
}

/// How a chain is broken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BrokenHow {
    /// An entry is missing before this one, or out of place.
    Missing,
    /// Bytes or envelope are not what was hashed at acceptance.
    Changed,
    /// The bytes are no entry of this yard.
    NotAnEntry,
    /// A column for looking up does not say what the bytes say.
    Column(&'static str),
    /// Ordered later than written.
    LaterThanWritten,
    /// An id stands twice.
    Twice,
    /// The row does not read at all.
    DoesNotRead,
}

impl BrokenHow {
    /// The word its sentence goes by.
    pub fn code(self) -> &'static str {
        match self {
            Self::Missing => "missing",
            Self::Changed => "changed",
            Self::NotAnEntry => "not-an-entry",
            Self::Column(_) => "column",
            Self::LaterThanWritten => "later-than-written",
            Self::Twice => "twice",
            Self::DoesNotRead => "does-not-read",
        }
    }
}

/// What the whole store was found to be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verification {
    /// Each yard's chain.
    pub yards: Vec<Checked>,
    /// The database's own complaints.
    pub complaints: Vec<String>,
    /// Photos missing or changed, by SHA-256 in hex.
    pub pictures: Vec<String>,
    /// Photos that entries name and whose pictures have not arrived. No damage: a phone may still hold them.
    pub awaited: Vec<PhotoId>,
}

impl Verification {
    /// Whether all is as it was accepted.
    pub fn sound(&self) -> bool {
        self.complaints.is_empty()
            && self.pictures.is_empty()
            && self.yards.iter().all(|checked| checked.broken.is_none())
    }
}

impl Store {
    /// Verifies everything in the store.
    ///
    /// # Errors
    /// The engine's own, where the file is too damaged to be looked at.
    pub fn verify(&self) -> Result<Verification, StoreError> {
        let complaints = self.inner.engine().complaints()?;
        let yards = self.yards()?;
        let mut pictures = BTreeSet::new();
        for yard in &yards {
            pictures.extend(
                yard.pictures()?
                    .into_iter()
                    .map(|(_, sha256, _)| sha256)
                    .filter(|sha256| !self.inner.pictures.sound(sha256)),
            );
        }
        let mut awaited = Vec::new();
        for yard in &yards {
            // A chain that does not read is told of below.
            awaited.extend(yard.awaited_pictures().unwrap_or_default());
        }
        let yards = yards.iter().map(Yard::verify).collect::<Result<_, _>>()?;
        Ok(Verification {
            yards,
            complaints,
            pictures: pictures.into_iter().collect(),
            awaited,
        })
    }
}

impl Yard {
    /// Walks the yard's chain from its beginning.
    ///
    /// # Errors
    /// The engine's own.
    pub fn verify(&self) -> Result<Checked, StoreError> {
        let mut walk = Walk::new(self.id());
        let mut at_once = 1_000;
        loop {
            match self.rows_since(walk.tip.seq, at_once) {
                Ok(rows) if rows.is_empty() => return Ok(walk.checked(None)),
                Ok(rows) => {
                    if let Err(broken) = rows.iter().try_for_each(|row| walk.step(row)) {
                        return Ok(walk.checked(Some(broken)));
                    }
                }
                // Go up to the row that does not read one by one.
                Err(_) if at_once > 1 => at_once = 1,
                Err(_) => {
                    let broken = Broken {
                        seq: walk.tip.seq + 1,
                        how: BrokenHow::DoesNotRead,
                    };
                    return Ok(walk.checked(Some(broken)));
                }
            }
        }
    }

    /// Whether the chain still goes through a tip noted before (on paper, in a backup's list): nothing up to there was exchanged or cut off.
    ///
    /// # Errors
    /// The engine's own.
    pub fn goes_through(&self, noted: &Tip) -> Result<bool, StoreError> {
        let Some(before) = noted.seq.checked_sub(1) else {
            return Ok(*noted == Tip::start(self.id()));
        };
        let row = self.rows_since(before, 1)?.into_iter().next();
        Ok(row.is_some_and(|row| row.envelope.seq == noted.seq && row.envelope.hash == noted.hash))
    }
}

/// Checks rows that are to become a yard's chain.
pub(crate) fn check_rows(yard: YardId, rows: &[Row]) -> Checked {
    let mut walk = Walk::new(yard);
    let broken = rows.iter().try_for_each(|row| walk.step(row)).err();
    walk.checked(broken)
}

/// A walk along a chain: where it has come to.
struct Walk {
    yard: YardId,
    tip: Tip,
    seen: BTreeSet<EntryId>,
}

impl Walk {
    fn new(yard: YardId) -> Self {
        Self {
            yard,
            tip: Tip::start(yard),
            seen: BTreeSet::new(),
        }
    }

    fn checked(self, broken: Option<Broken>) -> Checked {
        Checked {
            yard: self.yard,
            tip: self.tip,
            broken,
        }
    }

    fn step(&mut self, row: &Row) -> Result<(), Broken> {
        match self.fault(row) {
            Some(how) => Err(Broken {
                seq: row.envelope.seq,
                how,
            }),
            None => {
                self.tip = Tip {
                    seq: row.envelope.seq,
                    hash: row.envelope.hash,
                };
                self.seen.insert(row.id);
                Ok(())
            }
        }
    }

    fn fault(&self, row: &Row) -> Option<BrokenHow> {
        if row.envelope.seq != self.tip.seq + 1 {
            return Some(BrokenHow::Missing);
        }
        if link(&self.tip.hash, &row.bytes, &row.envelope) != row.envelope.hash {
            return Some(BrokenHow::Changed);
        }
        if row.envelope.ordered_at > row.envelope.written {
            return Some(BrokenHow::LaterThanWritten);
        }
        let Ok(head) = read_head(&row.bytes, self.yard) else {
            return Some(BrokenHow::NotAnEntry);
        };
        let columns = [
            ("id", head.id != row.id),
            ("machine", head.machine != row.machine),
            ("kind", head.kind != row.kind),
        ];
        if let Some((column, _)) = columns.into_iter().find(|(_, differs)| *differs) {
            return Some(BrokenHow::Column(column));
        }
        self.seen.contains(&row.id).then_some(BrokenHow::Twice)
    }
}
