//! What is due, and the hours run with their ±.

use crate::{Names, Words};
use quantity::Exact;
use yard::{
    state::LifeHours,
    upkeep::{DueLine, Repeat},
};

impl Words {
    /// Hours run: "1234.5 h", with ± where some were not counted by a meter.
    pub fn life_hours(&self, hours: Option<&LifeHours>) -> String {
        match hours {
            None => self.text("hours-unknown"),
            Some(known) if known.plus_minus.is_zero() => self.say(
                "hours-known",
                &[("value", self.hours_number(&known.hours).into())],
            ),
            Some(known) => {
                let (value, more) = (
                    self.hours_number(&known.hours),
                    self.hours_number(&known.plus_minus),
                );
                self.say(
                    "hours-about",
                    &[("value", value.into()), ("more", more.into())],
                )
            }
        }
    }

    /// Hours to a tenth, as a meter shows them; a whole number without its point.
    pub fn hours_number(&self, hours: &Exact) -> String {
        let tenths = (hours * Exact::from(10)).round_half_even();
        let Some(tenths) = tenths.to_i64() else {
            return tenths.to_string();
        };
        let sign = if tenths < 0 { "−" } else { "" };
        match (tenths.abs() / 10, tenths.abs() % 10) {
            (whole, 0) => format!("{sign}{whole}"),
            (whole, tenth) => format!("{sign}{whole}.{tenth}"),
        }
    }

    /// A line of what comes next: the point, at which hours (and what the meter shows then), on which date.
    pub fn due(&self, line: &DueLine, names: &dyn Names) -> String {
        let point = ("point", self.point(&line.point, names).into());
        let hours = line.at_hours.as_ref().map(|hours| {
            (
                "hours",
                self.due_hours(hours, line.meter_shows.as_ref()).into(),
            )
        });
        let date = line.on.map(|date| ("date", self.date(date).into()));
        match (hours, date) {
            (Some(hours), Some(date)) => self.say("due-at-hours-or-on", &[point, hours, date]),
            (Some(hours), None) => self.say("due-at-hours", &[point, hours]),
            (None, Some(date)) => self.say("due-on", &[point, date]),
            (None, None) => self.say("due-unknown", &[point]),
        }
    }

    /// A point that failed more than once: how often, and how many hours it held each time.
    pub fn repeat(&self, repeat: &Repeat, names: &dyn Names) -> String {
        let held = |gap: &Option<Exact>| {
            gap.as_ref().map_or_else(
                || self.text("unknown"),
                |hours| format!("{} h", self.hours_number(hours)),
            )
        };
        let gaps: Vec<String> = repeat.gaps_hours.iter().map(held).collect();
        let point = self.point(&repeat.point, names);
        self.say(
            "repeat",
            &[
                ("point", point.into()),
                ("n", repeat.failures.len().into()),
                ("hours", self.list(&gaps).into()),
            ],
        )
    }

    /// Life hours at which something is due; beside them what the meter shows then, where that differs.
    fn due_hours(&self, life: &Exact, meter: Option<&Exact>) -> String {
        let shown = self.hours_number(life);
        match meter.map(|meter| self.hours_number(meter)) {
            Some(meter) if meter != shown => self.say(
                "due-hours-meter",
                &[("hours", shown.into()), ("value", meter.into())],
            ),
            _ => shown,
        }
    }

    /// How many fittings are done: "21 of 23 fittings".
    pub fn fittings_done(&self, done: u32, of: u32) -> String {
        self.say("fittings-done", &[("n", done.into()), ("of", of.into())])
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::NoNames;
    use jiff::{Timestamp, civil::date};
    use yard::id::PointId;

    fn exact(text: &str) -> Exact {
        Exact::parse(text).unwrap()
    }

    #[test]
    fn hours_are_shown_to_a_tenth() {
        let words = Words::english();
        let shown = ["1234.5", "1234", "0.04", "1234.56", "-2.5"]
            .map(|text| words.hours_number(&exact(text)));
        assert_eq!(shown, ["1234.5", "1234", "0", "1234.6", "−2.5"]);
    }

    #[test]
    fn hours_carry_their_uncertainty() {
        let words = Words::english();
        let known = |more: &str| LifeHours {
            hours: exact("5120.4"),
            plus_minus: exact(more),
        };
        assert_eq!(words.life_hours(Some(&known("0"))), "5120.4 h");
        assert_eq!(words.life_hours(Some(&known("30"))), "5120.4 h ± 30 h");
        assert_eq!(words.life_hours(None), "hours not known");
    }

    #[test]
    fn what_comes_next_is_said() {
        let (words, names) = (
            Words::english(),
            NoNames {
                now: Timestamp::UNIX_EPOCH,
            },
        );
        let due = |hours: Option<&str>, meter: Option<&str>, on| {
            let point = PointId::new("engine-oil").unwrap();
            let line = DueLine {
                point,
                at_hours: hours.map(exact),
                meter_shows: meter.map(exact),
                on,
                figure: None,
            };
            words.due(&line, &names)
        };
        assert_eq!(
            due(Some("250"), Some("250"), Some(date(2026, 12, 1))),
            "engine-oil: at 250 h or on 1 Dec 2026, whichever comes first"
        );
        assert_eq!(
            due(Some("5250"), Some("250"), None),
            "engine-oil: at 5250 (meter 250) h"
        );
        assert_eq!(
            due(None, None, None),
            "engine-oil: not known when, because the hours are not known"
        );
    }

    #[test]
    fn a_repeat_fault_says_how_long_each_repair_held() {
        let entry = yard::id::EntryId("01890000-0000-7000-8000-000000000001".parse().unwrap());
        let finding = || yard::id::FaultRef { entry, point: None };
        let repeat = Repeat {
            point: PointId::new("fan-belt").unwrap(),
            failures: vec![finding(), finding(), finding()],
            gaps_hours: vec![Some(exact("40")), None],
            at: vec![Timestamp::UNIX_EPOCH; 3],
            cures: vec![None, None, None],
            work: Vec::new(),
            stripped: false,
        };
        let said = Words::english().repeat(
            &repeat,
            &NoNames {
                now: Timestamp::UNIX_EPOCH,
            },
        );
        assert_eq!(
            said,
            "fan-belt: failed 3 times. Each repair held: 40 h and not known."
        );
    }
}
