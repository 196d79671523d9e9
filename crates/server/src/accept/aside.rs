//! What comes under a number that another entry has: its bytes are kept aside, but what it tells of harm is heard.

use super::{
    HERE,
    delivery::{Deliverer, Judged},
};
use crate::refusal::Refusal;
use std::collections::BTreeMap;
use store::NewEntry;
use yard::{
    entry::{Body, Entry, StandDown},
    id::{DeviceId, EntryId},
    state::tells_harm,
};

impl Deliverer<'_> {
    /// A stand-down for each entry of this delivery that will lie aside and tells of harm: by whoever brought it, in the same
    /// step. What lies aside already has been heard.
    pub(super) fn heard_aside(
        &self,
        entries: &[Vec<u8>],
        judged: &[Judged],
    ) -> Result<Vec<Vec<u8>>, Refusal> {
        let mut first: BTreeMap<EntryId, &[u8]> = BTreeMap::new();
        let mut heard = Vec::new();
        for (bytes, one) in entries.iter().zip(judged) {
            let Judged::Take(entry) = one else { continue };
            let here = *first.entry(entry.id).or_insert(bytes);
            let kept = self.app.yard.row(entry.id)?.map(|row| row.bytes);
            let aside = kept.as_deref().unwrap_or(here) != bytes.as_slice();
            if aside && tells_harm(&entry.body) && !self.lies_aside(entry.id, bytes)? {
                heard.push(self.stand_down(entry, heard.len() as u64)?);
            }
        }
        Ok(heard)
    }

    fn lies_aside(&self, id: EntryId, bytes: &[u8]) -> Result<bool, Refusal> {
        let all = self.app.yard.conflicts()?;
        Ok(all
            .iter()
            .any(|conflict| conflict.holder.id == id && conflict.bytes == bytes))
    }

    fn stand_down(&self, entry: &Entry, n: u64) -> Result<Vec<u8>, Refusal> {
        let words = &self.app.words;
        let told = match &entry.body {
            Body::StandDown(down) => down.why.clone(),
            Body::Fault(fault) => fault.what.clone(),
            Body::Run(run) => run.amiss.join("; "),
            _ => words.text("aside-answers"),
        };
        Ok(store::write_entry(&NewEntry {
            id: EntryId(store::fresh_id(self.app.world.as_ref())),
            yard: self.app.yard.id(),
            machine: entry.machine.clone(),
            at: self.now,
            by: self.person,
            device: DeviceId(HERE.to_owned()),
            counter: self.app.yard.tip()?.seq + 1 + n,
            body: Body::StandDown(StandDown {
                why: words.say("aside-stands-down", &[("what", told.as_str().into())]),
            }),
        }))
    }
}
