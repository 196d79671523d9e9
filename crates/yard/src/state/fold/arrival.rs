//! The day on which a machine came.

use super::{
    super::{ArrivalSaid, Arrived},
    Fold,
    corrections::Heard,
};
use crate::{
    entry::{Arrival, ArrivalStep},
    people::Deed,
};
use std::collections::BTreeMap;

impl<'f> Fold<'f> {
    /// Takes one step. Any step begins an arrival where there is none; coming again after one was over begins another.
    pub(super) fn arrive(&mut self, heard: &Heard<'f>, said: &Arrival) {
        if !self.may(heard, Deed::Arrive) {
            return self.ask_not_entitled(heard.entry);
        }
        let (entry, at) = (heard.entry.id, heard.entry.ordered_at);
        let again =
            |arrived: &mut Arrived| said.step == ArrivalStep::Came && arrived.over.is_some();
        if self.state.arrival.as_mut().is_some_and(again) {
            self.state.arrival = None;
        }
        let arrived = self.state.arrival.get_or_insert_with(|| Arrived {
            entry,
            since: at,
            steps: BTreeMap::new(),
            fluids_known: BTreeMap::new(),
            over: None,
        });
        if let (ArrivalStep::Fluids, Some(fluid), Some(now)) = (said.step, &said.about, said.fluid)
        {
            arrived.fluids_known.insert(fluid.clone(), (now, entry));
        }
        if said.step == ArrivalStep::Over {
            arrived.over = Some((entry, at));
        }
        arrived
            .steps
            .entry(said.step)
            .or_default()
            .push(ArrivalSaid {
                entry,
                at,
                about: said.about.clone(),
                count: said.count,
                says: said.says.clone(),
            });
    }
}
