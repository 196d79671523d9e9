//! Hours that a meter does not count: while it stands still or is broken, and those of a machine without one.

use super::{
    super::{Asks, Broken, HoursEstimated, LifeHours, Uncounted},
    hours::{Meter, Telling},
};
use crate::id::{EntryId, ItemId};
use jiff::Timestamp;
use quantity::{Exact, Quantity, Unit};

/// A meter that stood still during so many hours of written runs is asked about, where its step is finer. Common practice,
/// no source.
const STANDS_FOR: f64 = 1.0;
/// And at least so many of its own steps. From the meaning of a step.
const STANDS_STEPS: f64 = 2.0;
/// Hours told without a ± are known to within this share of them. Common practice, no source.
const TOLD_SHARE: (i64, i64) = (1, 4);
/// Hours of a day.
const DAY: f64 = 24.0;

impl Meter {
    /// A run was written from one time to another.
    pub(super) fn ran_between(&mut self, from: Timestamp, to: Timestamp) {
        // What was run before the hand last moved says nothing of whether it stands.
        let from = from.max(self.moved_at);
        if self.history.broken.is_none() {
            self.ran += self.passed(from, to);
        }
    }

    /// Whether it stands still although the machine was run: asked once, until it moves again.
    pub(super) fn stuck(&mut self, last: &Exact, shows: &Exact) -> Option<Asks> {
        let enough = STANDS_FOR.max(STANDS_STEPS * self.step);
        if shows != last || self.stuck_asked || self.ran < enough {
            return None;
        }
        self.stuck_asked = true;
        Some(Asks::MeterStuck {
            shows: shows.clone(),
            ran: tenths(self.ran),
        })
    }

    /// It counts no more, since some time.
    pub(super) fn break_down(&mut self, entry: EntryId, since: Timestamp) {
        self.history.broken = Some(Broken { entry, since });
        self.sum_told(Some(since));
    }

    /// It counts again; where what was told is now counted or carried on, that is no more beside it.
    pub(super) fn counts_again(&mut self, told_is_counted: bool) {
        self.history.broken = None;
        if told_is_counted {
            self.history.uncounted = None;
            self.tellings.clear();
        }
    }

    /// Somebody told how long it ran. It counts where nothing else does: `alone`, or while the meter is broken.
    pub(super) fn told(
        &mut self,
        entry: EntryId,
        at: Timestamp,
        ran: &Quantity,
        alone: bool,
    ) -> Option<Asks> {
        let Some(hours) = ran.in_unit(Unit::Hour).filter(|hours| !hours.is_negative()) else {
            let (kind, at) = ("hours-told".to_owned(), "ran".to_owned());
            return Some(Asks::Unreadable { kind, at });
        };
        // Nobody runs a machine more hours than there are; a ± that was not written excuses nothing.
        let surely = ran
            .plus_minus_in(Unit::Hour)
            .map_or_else(|| hours.to_f64(), |half| (&hours - &half).to_f64());
        let share = Exact::from_ratio(TOLD_SHARE.0, TOLD_SHARE.1).unwrap_or_else(Exact::one);
        let plus_minus = ran
            .plus_minus_in(Unit::Hour)
            .unwrap_or_else(|| &hours * &share);
        let hours = LifeHours { hours, plus_minus };
        self.tellings.push(Telling {
            entry,
            at,
            hours,
            surely,
        });
        let since = self.history.broken.as_ref().map(|broken| broken.since);
        if since.is_none() && !alone {
            return None;
        }
        self.sum_told(since);
        self.note_estimate(entry, at);
        self.too_much(since, at)
    }

    /// Hours that another meter lets one estimate count before those told: it is an instrument.
    pub(super) fn counted_by_other(
        &mut self,
        meter: Option<ItemId>,
        entry: EntryId,
        at: Timestamp,
        hours: LifeHours,
    ) {
        self.history.uncounted = Some(Uncounted {
            told: vec![(entry, hours.clone())],
            hours,
            by_meter: Some(meter),
        });
        self.note_estimate(entry, at);
    }

    /// What nobody counted, as somebody would write it beside a change of meter.
    pub(super) fn uncounted_as_written(&self) -> Option<Quantity> {
        let LifeHours { hours, plus_minus } = self.history.uncounted.as_ref()?.hours.clone();
        Some(Quantity::from_exact(hours, Unit::Hour, Some(plus_minus)))
    }

    fn sum_told(&mut self, since: Option<Timestamp>) {
        let counts = |telling: &&Telling| since.is_none_or(|since| telling.at >= since);
        let told: Vec<_> = self
            .tellings
            .iter()
            .filter(counts)
            .map(|telling| (telling.entry, telling.hours.clone()))
            .collect();
        let hours = told
            .iter()
            .fold(LifeHours::none(), |sum, (_, hours)| sum.and(hours));
        self.history.uncounted = (!told.is_empty()).then_some(Uncounted {
            hours,
            told,
            by_meter: None,
        });
    }

    /// More told than can have been run since it broke, or since any telling: what was told next lies after that one, or,
    /// as several people may tell of one day, within a day before it was told.
    fn too_much(&self, since: Option<Timestamp>, at: Timestamp) -> Option<Asks> {
        let counts = |telling: &&Telling| since.is_none_or(|since| telling.at >= since);
        let mut surely = 0.0;
        let all = self.tellings.iter().enumerate();
        for (i, telling) in all.filter(|(_, one)| counts(one)).rev() {
            surely += telling.surely;
            let earlier = self.tellings[..i].last().filter(counts);
            let passed = match (earlier, since) {
                (Some(earlier), _) => {
                    let near = DAY - self.passed(earlier.at, telling.at);
                    self.passed(earlier.at, at) + near.max(0.0)
                }
                (None, Some(since)) => self.passed(since, at),
                (None, None) => return None,
            };
            if surely > passed + self.step {
                let told = self.tellings[i..].iter();
                let told = told.fold(Exact::zero(), |sum, one| sum + &one.hours.hours);
                let passed = tenths(passed);
                return Some(Asks::ToldTooMuch { told, passed });
            }
        }
        None
    }

    fn note_estimate(&mut self, entry: EntryId, at: Timestamp) {
        if let Some(life) = self.life() {
            self.history
                .estimates
                .push(HoursEstimated { entry, at, life });
        }
    }
}

/// Hours to the tenth, as one says them.
fn tenths(hours: f64) -> Exact {
    Exact::parse(&format!("{hours:.1}")).unwrap_or_else(Exact::zero)
}
