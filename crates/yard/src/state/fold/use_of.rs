//! Use: runs, handovers, permits to move, sign-offs, and events that restart a rhythm.

use super::{
    super::{Asks, Found, SignedOff},
    Fold,
    corrections::Heard,
};
use crate::{
    book::Severity,
    entry::{EngineLeft, Fault, Handover, MovePermit, Run, RunPart, SignOff},
    id::ItemId,
    people::Deed,
};
use jiff::Timestamp;

impl Fold<'_> {
    /// A part of a run. Whoever ran it ran it, entitled or not: the next person must look again.
    pub(super) fn run(&mut self, heard: &Heard<'_>, run: &Run) {
        if run.part == RunPart::End {
            self.ran_until(heard.entry.ordered_at);
        }
        if self.may(heard, Deed::Run) {
            self.hours_read(heard, run.hours.as_ref());
        } else {
            self.ask_not_entitled(heard.entry);
        }
        let (by, at) = (heard.entry.by, heard.entry.ordered_at);
        self.state.running = match run.part {
            RunPart::End => None,
            RunPart::Start => Some((by, at)),
            RunPart::During => self.state.running.or(Some((by, at))),
        };
        self.state.last_run = Some((by, at));
        self.state.ran_by.insert(by, at);
        // What was amiss on the way is a finding like any other: the next person must know.
        let amiss = run.amiss.iter().map(|text| text.trim());
        let amiss: Vec<&str> = amiss.filter(|text| !text.is_empty()).collect();
        if !amiss.is_empty() {
            let fault = Fault {
                point: None,
                what: amiss.join("; "),
                severity: Severity::Care,
                told: None,
            };
            self.find(heard, None, Found::Fault(fault));
        }
    }

    /// How it was left. Whoever hands a machine over had it.
    pub(super) fn hand_over(&mut self, heard: &Heard<'_>, handover: &Handover) {
        if !self.may(heard, Deed::HandOver) {
            self.ask_not_entitled(heard.entry);
            return;
        }
        self.ran_until(heard.entry.ordered_at);
        self.hours_read(heard, handover.hours.as_ref());
        let (by, at) = (heard.entry.by, heard.entry.ordered_at);
        if handover.engine == EngineLeft::Running {
            self.ask(
                heard.entry,
                Asks::LeftRunning {
                    engine: handover.engine,
                },
            );
        }
        self.state.running = None;
        self.state.last_run = Some((by, at));
        self.state.ran_by.insert(by, at);
        self.state.handover = Some((heard.entry.id, at, by, handover.clone()));
    }

    /// The run going on was a run until now: every meter should have moved meanwhile.
    fn ran_until(&mut self, at: Timestamp) {
        if let Some((_, since)) = self.state.running {
            self.meters.ran(since, at);
        }
    }

    /// A permit to move.
    pub(super) fn permit(&mut self, heard: &Heard<'_>, permit: &MovePermit) {
        if self.may(heard, Deed::PermitMove) {
            self.state
                .permits
                .push((heard.entry.id, heard.entry.ordered_at, permit.clone()));
        } else {
            self.ask_not_entitled(heard.entry);
        }
    }

    /// A sign-off given or withdrawn.
    pub(super) fn sign_off(&mut self, heard: &Heard<'_>, sign_off: &SignOff) {
        if !self.may(heard, Deed::SignOff) {
            self.ask_not_entitled(heard.entry);
        } else if sign_off.given {
            let SignOff {
                until,
                in_sight,
                ref limits,
                ..
            } = *sign_off;
            let signed = SignedOff {
                entry: heard.entry.id,
                until,
                in_sight,
                limits: limits.clone(),
            };
            self.state.sign_offs.insert(sign_off.person, signed);
        } else {
            self.state.sign_offs.remove(&sign_off.person);
        }
    }

    /// An event that restarts rhythms, where the entry names one.
    pub(super) fn event(&mut self, heard: &Heard<'_>, event: Option<&ItemId>) {
        if let Some(event) = event {
            let done = self.done(heard);
            self.state.events.insert(event.clone(), done);
        }
    }
}
