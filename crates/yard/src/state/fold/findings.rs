//! Findings: what was found wrong, and the entries that name it as mended or released.

use super::{
    super::{Asks, Finding, Found},
    Fold,
    corrections::Heard,
};
use crate::{
    entry::{Fault, Release},
    id::{EntryId, FaultRef, PointId},
    people::Deed,
};

/// An entry that names a finding, by somebody entitled.
#[derive(Clone, Debug)]
pub(super) struct Closing {
    of: FaultRef,
    entry: EntryId,
    releases: bool,
}

impl Fold<'_> {
    /// Notes something found wrong. Said twice in one entry, the first holds.
    pub(super) fn find(&mut self, heard: &Heard<'_>, point: Option<PointId>, what: Found) {
        let entry = heard.entry;
        let id = FaultRef {
            entry: entry.id,
            point,
        };
        let finding = Finding {
            id: id.clone(),
            what,
            at: entry.ordered_at,
            by: entry.by,
            life_hours: self.meter.life(),
            book: self.shelf.in_force(entry.ordered_at),
            mended: Vec::new(),
            released: None,
        };
        self.state.findings.entry(id).or_insert(finding);
    }

    /// A fault reported. It is never lost: not by whom it came from, nor by naming a point that is not there.
    pub(super) fn fault(&mut self, heard: &Heard<'_>, fault: &Fault) {
        let mut fault = fault.clone();
        if let Some(point) = &fault.point {
            match self.shelf.point(None, heard.entry.ordered_at, point) {
                Some((_, today)) => fault.point = Some(today),
                None if self.state.renamed.contains_key(point) => {
                    fault.point = Some(self.state.point_today(point))
                }
                None => self.ask(
                    heard.entry,
                    Asks::NoSuchPoint {
                        point: point.clone(),
                    },
                ),
            }
        }
        self.find(heard, None, Found::Fault(fault));
    }

    /// Takes what an entry says it mends. It may come before what it names, so it is kept to the end of the fold.
    pub(super) fn mend(&mut self, heard: &Heard<'_>, deed: Deed, mends: &[FaultRef]) {
        self.close(heard, deed, mends, false);
    }

    /// Takes a release.
    pub(super) fn release(&mut self, heard: &Heard<'_>, release: &Release) {
        self.close(heard, Deed::Release, &release.lifts, true);
    }

    fn close(&mut self, heard: &Heard<'_>, deed: Deed, names: &[FaultRef], releases: bool) {
        if !self.may(heard, deed) {
            for of in names {
                self.ask(heard.entry, Asks::NotEntitled { of: of.clone() });
            }
            return;
        }
        let entry = heard.entry.id;
        if !names.is_empty() {
            self.state.closed_at.insert(entry, heard.entry.ordered_at);
        }
        self.closings.extend(names.iter().map(|of| Closing {
            of: of.clone(),
            entry,
            releases,
        }));
    }

    /// Closes what was named, once everything is known.
    pub(super) fn apply_closings(&mut self) {
        for closing in std::mem::take(&mut self.closings) {
            let point = closing
                .of
                .point
                .as_ref()
                .map(|point| self.state.point_today(point));
            let Some(finding) = self.state.findings.get_mut(&FaultRef {
                entry: closing.of.entry,
                point,
            }) else {
                continue;
            };
            if closing.releases {
                finding.released.get_or_insert(closing.entry);
            } else if !finding.mended.contains(&closing.entry) {
                finding.mended.push(closing.entry);
            }
        }
    }
}
