//! Which machine each attachment hangs on: one place at a time, the one said last.

use super::{
    super::{Asks, MachineState, Question},
    corrections::{Corrected, Heard, RoleOf},
};
use crate::{
    entry::{AttachmentChange, Body},
    id::{EntryId, MachineId},
    people::Deed,
};
use jiff::Timestamp;
use std::collections::{BTreeMap, BTreeSet};

/// What the entries of the whole yard say of attachments.
#[derive(Debug, Default)]
pub(super) struct Attached<'a> {
    /// The last time that somebody who may put each on a machine, and which. Taken off there it hangs nowhere.
    last: BTreeMap<&'a MachineId, (Timestamp, EntryId, &'a MachineId)>,
    /// When each was last put on anything, by anybody.
    put_on: BTreeMap<&'a MachineId, Timestamp>,
    /// Puttings-on of what still hung on another machine: on which it was put, and what is asked.
    moved: Vec<(&'a MachineId, Question)>,
}

/// Where attachments hang, while the entries are read in order.
#[derive(Debug, Default)]
struct Hanging<'a> {
    on: BTreeMap<&'a MachineId, BTreeSet<&'a MachineId>>,
    /// Machines that left the yard: what hung on them went with them, and nobody took it off.
    gone: BTreeSet<&'a MachineId>,
}

impl<'a> Attached<'a> {
    /// Reads them.
    pub(super) fn of(corrected: &Corrected<'a>, role: &RoleOf<'_>) -> Self {
        let mut attached = Self::default();
        let mut hanging = Hanging::default();
        for heard in &corrected.heard {
            let (Some(body), Some(machine)) = (heard.body, &heard.entry.machine) else {
                continue;
            };
            match body {
                Body::Attachment(change) if change.fitted => {
                    attached.put(heard, machine, change, role, &mut hanging);
                }
                Body::Attachment(change) if heard.may(Deed::Repair, role) => {
                    let on = hanging.on.get_mut(&change.attachment);
                    on.map(|on| on.remove(machine));
                }
                Body::LeftYard(_) if heard.may(Deed::LetGo, role) => {
                    hanging.gone.insert(machine);
                }
                Body::CameBack(_) if heard.may(Deed::LetGo, role) => {
                    hanging.gone.remove(machine);
                }
                _ => {}
            }
        }
        attached
    }

    /// One is put on. Where whoever says so may not, it hangs there besides: that is the careful side.
    fn put(
        &mut self,
        heard: &Heard<'a>,
        machine: &'a MachineId,
        change: &'a AttachmentChange,
        role: &RoleOf<'_>,
        hanging: &mut Hanging<'a>,
    ) {
        let (entry, attachment) = (heard.entry, &change.attachment);
        self.put_on.insert(attachment, entry.ordered_at);
        let on = hanging.on.entry(attachment).or_default();
        if heard.may(Deed::Repair, role) {
            let mut elsewhere = on.iter().filter(|on| **on != machine);
            if let Some(from) = elsewhere.find(|on| !hanging.gone.contains(**on)) {
                let asks = Asks::AttachmentMoved {
                    attachment: attachment.clone(),
                    from: (*from).clone(),
                };
                self.moved.push((machine, Question::by(entry, asks)));
            }
            on.clear();
            let place = (entry.ordered_at, entry.id, machine);
            self.last.insert(attachment, place);
        }
        on.insert(machine);
    }

    /// What is asked about puttings-on on this machine.
    pub(super) fn questions(&self, machine: &MachineId) -> Vec<Question> {
        let own = self.moved.iter().filter(|(on, _)| *on == machine);
        own.map(|(_, question)| question.clone()).collect()
    }

    /// Takes off what was put on another machine since, and notes when this machine itself was put on one.
    pub(super) fn settle(&self, machine: &MachineId, state: &mut MachineState) {
        state.fitted.retain(|id, fitted| {
            self.last.get(id).is_none_or(|(at, entry, on)| {
                *on == machine || (*at, *entry) < (fitted.since, fitted.entry)
            })
        });
        state.put_on_since = self.put_on.get(machine).copied();
    }
}
