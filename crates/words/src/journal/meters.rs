//! What is said of hour meters: read, changed, broken; which of them is meant.

use crate::{Names, Words};
use yard::{
    entry::{MeterBroken, MeterChange, MeterReading},
    id::ItemId,
};

impl Words {
    /// A meter's name: as the book has it; the first one is the hour meter.
    pub fn meter_name(&self, meter: Option<&ItemId>, names: &dyn Names) -> String {
        match meter {
            None => self.text("meter-first"),
            Some(id) => names.item(id).unwrap_or_else(|| id.to_string()),
        }
    }

    pub(super) fn meter_reading(&self, read: &MeterReading, names: &dyn Names) -> String {
        let hours = ("hours", read.shows.text().into());
        match &read.meter {
            None => self.say("entry-meter-reading", &[hours]),
            Some(_) => {
                let meter = self.meter_name(read.meter.as_ref(), names);
                self.say("entry-meter-reading-of", &[("meter", meter.into()), hours])
            }
        }
    }

    pub(super) fn meter_change(&self, change: &MeterChange, names: &dyn Names) -> String {
        let why = ("why", change.why.as_str().into());
        match &change.meter {
            None => self.say("entry-meter-change", &[why]),
            Some(_) => {
                let meter = self.meter_name(change.meter.as_ref(), names);
                self.say("entry-meter-change-of", &[("meter", meter.into()), why])
            }
        }
    }

    pub(super) fn meter_broken(&self, broken: &MeterBroken, names: &dyn Names) -> String {
        let meter = (
            "meter",
            self.meter_name(broken.meter.as_ref(), names).into(),
        );
        let why = ("why", broken.why.as_str().into());
        let said = match broken.since {
            None => self.say("entry-meter-broken", &[meter, why]),
            Some(since) => {
                let when = self.moment(since, names.now(), names.zone());
                self.say(
                    "entry-meter-broken.since",
                    &[meter, why, ("when", when.into())],
                )
            }
        };
        let mut letters = said.chars();
        match letters.next() {
            Some(first) => first.to_uppercase().chain(letters).collect(),
            None => said,
        }
    }
}
