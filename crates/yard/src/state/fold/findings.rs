//! Findings: what was found wrong, and the entries that name it as mended or released.

use super::{
    super::{Asks, Finding, Found},
    Fold,
    corrections::Heard,
    order::turn,
    photos::photos_of,
};
use crate::{
    entry::{Answer, Body, Entry, Fault, FluidLooks, GreaseTook, LevelReads, Release},
    id::{FaultRef, PointId},
    people::Deed,
};

/// An entry that names a finding, by somebody entitled.
#[derive(Clone, Debug)]
pub(super) struct Closing<'f> {
    of: FaultRef,
    entry: &'f Entry,
    closes: Closes,
}

/// What such an entry closes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Closes {
    /// Releases whatever it names.
    Releases,
    /// Mends whatever it names.
    Mends,
    /// Mends what service alone can set right.
    Serves(Service),
}

/// A kind of service.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Service {
    TopUp,
    Greasing,
    Adjustment,
}

impl<'f> Fold<'f> {
    /// Notes something found wrong. Said twice in one entry, the first holds.
    pub(super) fn find(&mut self, heard: &Heard<'_>, point: Option<PointId>, what: Found) {
        let entry = heard.entry;
        let id = FaultRef {
            entry: entry.id,
            point,
        };
        let finding = Finding {
            id: id.clone(),
            at: entry.ordered_at,
            by: entry.by,
            life_hours: self.meters.life(),
            book: self.shelf.in_force(entry.ordered_at),
            mended: Vec::new(),
            photos: photos_of(entry, &what),
            what,
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
    ///
    /// Who may service but not repair closes by a service only what that kind of service sets right.
    pub(super) fn mend(&mut self, heard: &Heard<'f>, deed: Deed, mends: &[FaultRef]) {
        let service = match heard.body {
            _ if self.may(heard, Deed::Repair) => None,
            Some(Body::TopUp(_)) => Some(Service::TopUp),
            Some(Body::Greasing(_)) => Some(Service::Greasing),
            Some(Body::Adjustment(_)) => Some(Service::Adjustment),
            _ => None,
        };
        let closes = service.map_or(Closes::Mends, Closes::Serves);
        self.close(heard, deed, mends, closes);
    }

    /// Takes a release.
    pub(super) fn release(&mut self, heard: &Heard<'f>, release: &Release) {
        self.close(heard, Deed::Release, &release.lifts, Closes::Releases);
    }

    fn close(&mut self, heard: &Heard<'f>, deed: Deed, names: &[FaultRef], closes: Closes) {
        if !self.may(heard, deed) {
            for of in names {
                self.ask(heard.entry, Asks::NotEntitled { of: of.clone() });
            }
            return;
        }
        self.closings.extend(names.iter().map(|of| Closing {
            of: of.clone(),
            entry: heard.entry,
            closes,
        }));
    }

    /// Closes what was named, once everything is known.
    pub(super) fn apply_closings(&mut self) {
        for closing in std::mem::take(&mut self.closings) {
            self.apply(&closing);
        }
    }

    /// Closes one finding. A fitting that refused is mended only when it is seen to take grease: by the entry that says it is
    /// mended, or after it. Until then the refusal stays, and the hours allowed run on from it.
    fn apply(&mut self, closing: &Closing<'f>) {
        let point = closing
            .of
            .point
            .as_ref()
            .map(|point| self.state.point_today(point));
        let name = FaultRef {
            entry: closing.of.entry,
            point,
        };
        let entry = closing.entry;
        let greased = name.point.as_ref().and_then(|at| self.greased.get(at));
        let takes_grease = greased.is_some_and(|last| *last >= turn(entry));
        let Some(finding) = self.state.findings.get_mut(&name) else {
            return;
        };
        match closing.closes {
            Closes::Serves(service) if !sets_right(service, &finding.what) => {
                let of = closing.of.clone();
                self.ask(entry, Asks::NotEntitled { of });
                return;
            }
            Closes::Releases => {
                finding.released.get_or_insert(entry.id);
            }
            _ if has_refused(&finding.what) && !takes_grease => return,
            _ if finding.mended.contains(&entry.id) => {}
            _ => finding.mended.push(entry.id),
        }
        self.state.closed_at.insert(entry.id, entry.ordered_at);
    }
}

/// Whether a service of this kind sets right what was found: a level that was low, a fitting that refused, a measure or
/// bolts. Never what was reported as a fault, nor a stand-down.
fn sets_right(service: Service, what: &Found) -> bool {
    let Found::Answer(answered) = what else {
        return false;
    };
    match &answered.answer {
        Answer::Level { reads, looks, .. } => {
            let low = matches!(reads, LevelReads::Below | LevelReads::Nothing);
            let spoilt = matches!(looks, FluidLooks::Milky | FluidLooks::Wrong);
            service == Service::TopUp && low && !spoilt
        }
        Answer::Fitting { .. } => service == Service::Greasing && has_refused(what),
        Answer::Measure { .. } | Answer::Bolts { .. } => service == Service::Adjustment,
        _ => false,
    }
}

/// Whether it is a fitting that refused grease.
fn has_refused(what: &Found) -> bool {
    matches!(
        what,
        Found::Answer(answered)
            if matches!(answered.answer, Answer::Fitting { took: GreaseTook::Refused, .. })
    )
}
