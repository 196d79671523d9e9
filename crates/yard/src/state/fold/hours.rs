//! One hour meter: readings accepted, readings in question, and life hours through every change of meter.
//!
//! Nothing is decided silently. A meter that fell may have been replaced, have rolled over, have shown 0 once or been typed
//! wrongly: after one reading these look the same. So the reading is asked about and left out. A later reading that fits
//! only the old line shows that counting goes on, and the question about the one reading stays; as long as readings fit the
//! new line, the hours are in question, and nobody can tell them until somebody rules.

use super::super::{Asks, HourHistory, HoursRead, LifeHours, Segment};
use crate::{
    book::{Meter as BookMeter, MeterKind},
    entry::{MeterChange, RulingSays},
    id::EntryId,
    upkeep::scaled,
};
use jiff::Timestamp;
use quantity::{Exact, Quantity, Unit};
use reckon::{transposed_candidates, upkeep::hours_possible::hours_possible};

/// The smallest step most meters show, hours; so much of an advance may be rounding. Common practice, no source.
const STEP: f64 = 0.1;
/// A meter that counts turns runs ahead of the clock at full speed: rated speed over the meter's base speed is about 1.5 at
/// most. From memory; the bound is what can be, not what is usual.
const FASTEST_TURNS: f64 = 1.5;
/// So many lines in question are still compared with a new reading.
const LINES_COMPARED: usize = 8;

/// A reading as it stands in an entry.
#[derive(Clone, Copy, Debug)]
pub(super) struct Read<'a> {
    /// Entry it stands in.
    pub(super) entry: EntryId,
    /// When.
    pub(super) at: Timestamp,
    /// What was ruled about that entry.
    pub(super) ruled: Option<&'a RulingSays>,
}

/// The meter as the fold follows it.
#[derive(Debug)]
pub(super) struct Meter {
    /// What is kept of it.
    pub(super) history: HourHistory,
    /// Life hours when the running segment began, and their ±.
    before: LifeHours,
    /// Life hours at the last accepted reading, as counted.
    now: Option<LifeHours>,
    /// When the accepted line last moved: what can have been run counts from there, so that a hand that stuck may catch up.
    pub(super) moved_at: Timestamp,
    lines: Vec<Line>,
    rolls_over_at: Option<Exact>,
    pace: f64,
    /// The smallest step it shows, hours.
    pub(super) step: f64,
    /// Clock hours of the runs written since it last moved.
    pub(super) ran: f64,
    /// That it stands still was asked since it last moved.
    pub(super) stuck_asked: bool,
    /// Every telling of hours, in order: which count depends on when the meter broke.
    pub(super) tellings: Vec<Telling>,
}

/// Hours run as somebody told them.
#[derive(Clone, Debug)]
pub(super) struct Telling {
    pub(super) entry: EntryId,
    pub(super) at: Timestamp,
    pub(super) hours: LifeHours,
    /// Hours it surely ran by what was written.
    pub(super) surely: f64,
}

/// Readings that fit one another but not the accepted line.
#[derive(Clone, Debug)]
struct Line {
    begun_by: EntryId,
    last: Exact,
    moved_at: Timestamp,
}

impl Meter {
    /// A meter nobody has read yet. Its kind and where it rolls over are those of today's book.
    pub(super) fn new(book: Option<&BookMeter>) -> Self {
        let step = book.and_then(|meter| meter.shows_to.as_ref());
        Self {
            history: HourHistory::default(),
            before: LifeHours::none(),
            now: None,
            moved_at: Timestamp::MIN,
            lines: Vec::new(),
            rolls_over_at: book
                .and_then(|meter| meter.rolls_over_at.as_ref())
                .and_then(|at| at.in_unit(Unit::Hour)),
            pace: book.map_or(1.0, pace),
            step: step
                .and_then(|step| step.in_unit(Unit::Hour))
                .map_or(STEP, |step| step.to_f64()),
            ran: 0.0,
            stuck_asked: false,
            tellings: Vec::new(),
        }
    }

    /// Life hours now, with those that no meter counted; none while nobody knows any, or the last readings are in question.
    pub(super) fn life(&self) -> Option<LifeHours> {
        if self.history.in_question() {
            return None;
        }
        match (&self.now, &self.history.uncounted) {
            (now, None) => now.clone(),
            (None, Some(uncounted)) => Some(uncounted.hours.clone()),
            (Some(now), Some(uncounted)) => Some(now.and(&uncounted.hours)),
        }
    }

    /// Takes a reading. Gives what must be asked, where it cannot simply be counted on.
    pub(super) fn read(&mut self, read: Read<'_>, shows: Exact) -> Option<Asks> {
        let Some(last) = self
            .history
            .segments
            .last()
            .map(|segment| segment.last.clone())
        else {
            return self.first(read, shows);
        };
        let rolls = self.rolls_over_at.clone();
        match (read.ruled, rolls) {
            (Some(RulingSays::ReadingWrong), _) => return None,
            (Some(RulingSays::MeterBroken), _) => self.break_down(read.entry, self.moved_at),
            (Some(RulingSays::MeterReplaced { unmetered }), _) => {
                self.begin(read, shows.clone(), shows, unmetered.clone())
            }
            (Some(RulingSays::MeterRolledOver), Some(turn)) if shows < last => {
                self.roll(read, shows, &turn)
            }
            (Some(RulingSays::ReadingRight), _) if shows < last => {
                self.begin(read, shows.clone(), shows, None)
            }
            (Some(RulingSays::ReadingRight), _) => {
                // It counts, and did: what was told meanwhile is in what it shows.
                self.counts_again(shows != last);
                self.ran = 0.0;
                self.accept(read, shows);
            }
            _ if self.history.broken.is_some() => return self.broken_reads(read, &last, shows),
            _ => return self.unruled(read, &last, shows),
        }
        None
    }

    /// Takes a change of meter: the old one's last reading, the hours neither counted, the new one's first reading.
    pub(super) fn change(&mut self, read: Read<'_>, change: &MeterChange) -> Option<Asks> {
        let old_last = change
            .old_last
            .as_ref()
            .and_then(|old| old.in_unit(Unit::Hour));
        let new_first = change
            .new_first
            .in_unit(Unit::Hour)
            .filter(|first| !first.is_negative())
            .unwrap_or_else(Exact::zero);
        // A ruling about a change is about the old meter's last reading: what is said of the new one is the change itself.
        let ruled = read
            .ruled
            .filter(|says| !matches!(says, RulingSays::MeterReplaced { .. }));
        // It is known to be changed: what it last showed is counted, and no question whether it stands.
        self.history.broken = None;
        (self.ran, self.stuck_asked) = (0.0, false);
        let asks = old_last.and_then(|old| self.read(Read { ruled, ..read }, old));
        self.begin(read, new_first.clone(), new_first, change.unmetered.clone());
        asks
    }

    /// The first reading ever is free: the meter is taken to have come with the machine.
    fn first(&mut self, read: Read<'_>, shows: Exact) -> Option<Asks> {
        if read.ruled == Some(&RulingSays::ReadingWrong) {
            return None;
        }
        if shows.is_negative() {
            return Some(Asks::MeterFell {
                from: Exact::zero(),
                to: shows,
            });
        }
        self.begin(read, Exact::zero(), shows, None);
        None
    }

    fn unruled(&mut self, read: Read<'_>, last: &Exact, shows: Exact) -> Option<Asks> {
        let fits_old = self.fits(last, self.moved_at, &shows, read.at);
        let newest = self
            .lines
            .iter()
            .rposition(|line| self.fits(&line.last, line.moved_at, &shows, read.at));
        let newest = newest.filter(|at| at + LINES_COMPARED >= self.lines.len());
        match (fits_old, newest) {
            (true, None) => {
                let stuck = self.stuck(last, &shows);
                self.accept(read, shows);
                stuck
            }
            (_, Some(at)) => {
                self.follow(at, read.at, shows);
                None
            }
            (false, None) => Some(self.doubt(read, last, shows)),
        }
    }

    /// A broken meter shows something. The same as before says nothing; anything else is asked about, as it may have been
    /// mended, changed or knocked.
    fn broken_reads(&mut self, read: Read<'_>, last: &Exact, shows: Exact) -> Option<Asks> {
        if shows == *last {
            return None;
        }
        let newest = self
            .lines
            .iter()
            .rposition(|line| self.fits(&line.last, line.moved_at, &shows, read.at));
        if let Some(at) = newest {
            self.follow(at, read.at, shows);
            return None;
        }
        let (from, to) = (last.clone(), shows.clone());
        self.doubt(read, last, shows);
        Some(Asks::BrokenMeterMoved { from, to })
    }

    fn follow(&mut self, line: usize, at: Timestamp, shows: Exact) {
        let line = &mut self.lines[line];
        if shows != line.last {
            line.moved_at = at;
        }
        line.last = shows;
    }

    fn doubt(&mut self, read: Read<'_>, last: &Exact, shows: Exact) -> Asks {
        self.lines.push(Line {
            begun_by: read.entry,
            last: shows.clone(),
            moved_at: read.at,
        });
        self.history.doubted = self.lines.iter().map(|line| line.begun_by).collect();
        if shows < *last {
            return Asks::MeterFell {
                from: last.clone(),
                to: shows,
            };
        }
        let passed = self.passed(self.moved_at, read.at);
        let typed = shows.to_f64().to_string();
        let perhaps = transposed_candidates(last.to_f64(), &typed, passed * self.pace + self.step);
        let perhaps = perhaps
            .into_iter()
            .filter_map(|hours| Exact::parse(&hours.to_string()))
            .collect();
        let passed = Exact::from_f64_exact(passed).unwrap_or_else(Exact::zero);
        Asks::MeterJumped {
            from: last.clone(),
            to: shows,
            passed,
            perhaps,
        }
    }

    /// Whether a meter can have gone from `last` to `shows` in the time between.
    fn fits(&self, last: &Exact, moved_at: Timestamp, shows: &Exact, at: Timestamp) -> bool {
        let advance = (shows - last).to_f64();
        hours_possible(advance, self.passed(moved_at, at) * self.pace, self.step).possible
    }

    /// Clock hours between two times.
    pub(super) fn passed(&self, from: Timestamp, to: Timestamp) -> f64 {
        to.duration_since(from).as_secs_f64().max(0.0) / 3600.0
    }

    fn accept(&mut self, read: Read<'_>, shows: Exact) {
        let Some(segment) = self.history.segments.last_mut() else {
            return;
        };
        if shows != segment.last {
            self.moved_at = read.at;
            (self.ran, self.stuck_asked) = (0.0, false);
        }
        segment.last = shows.clone();
        segment.last_by = read.entry;
        self.note(read, shows);
    }

    fn roll(&mut self, read: Read<'_>, shows: Exact, turn: &Exact) {
        if let Some(segment) = self.history.segments.last_mut() {
            segment.rolled = &segment.rolled + turn;
        }
        self.accept(read, shows);
    }

    /// Begins a segment that counts from `first` and shows `shows`; what the one before counted is carried on.
    fn begin(&mut self, read: Read<'_>, first: Exact, shows: Exact, unmetered: Option<Quantity>) {
        self.lines.clear();
        self.history.doubted.clear();
        if let Some(now) = self.now.take() {
            self.before = now;
        }
        // Hours below nothing were not run: they would turn the life hours back. None neither counted unsays none told.
        let told = self.uncounted_as_written();
        let unmetered = unmetered.filter(|hours| !hours.value().is_negative());
        let unmetered = match unmetered {
            Some(hours) if hours.value().is_zero() => told.or(Some(hours)),
            hours => hours.or(told),
        };
        self.counts_again(true);
        (self.ran, self.stuck_asked) = (0.0, false);
        let hours = unmetered
            .as_ref()
            .and_then(|hours| hours.in_unit(Unit::Hour));
        let half = unmetered
            .as_ref()
            .and_then(|hours| hours.plus_minus_in(Unit::Hour));
        self.before.hours = &self.before.hours + hours.unwrap_or_else(Exact::zero);
        self.before.plus_minus = &self.before.plus_minus + half.unwrap_or_else(Exact::zero);
        let (begun_by, last_by, rolled) = (read.entry, read.entry, Exact::zero());
        self.history.segments.push(Segment {
            first,
            last: shows.clone(),
            rolled,
            unmetered_before: unmetered,
            begun_by,
            last_by,
        });
        self.moved_at = read.at;
        self.note(read, shows);
    }

    /// Keeps an accepted reading; what was in question before it no longer stands in the way.
    fn note(&mut self, read: Read<'_>, shows: Exact) {
        self.lines.clear();
        self.history.doubted.clear();
        self.history.last_at = Some(read.at);
        self.history.last_entry = Some(read.entry);
        let Some(segment) = self.history.segments.last() else {
            return;
        };
        let run = &segment.last - &segment.first + &segment.rolled;
        let now = self.before.and(&scaled(self.history.scale.as_ref(), run));
        self.now = Some(now.clone());
        let uncounted = self.history.uncounted.as_ref();
        let life = uncounted.map_or_else(|| now.clone(), |more| now.and(&more.hours));
        let (entry, at) = (read.entry, read.at);
        self.history.readings.push(HoursRead {
            entry,
            at,
            shows,
            life,
        });
    }
}

/// How far a meter may run ahead of the clock.
fn pace(book: &BookMeter) -> f64 {
    if book.kind != MeterKind::Revolutions {
        return 1.0;
    }
    let rpm = |speed: &Option<Quantity>| {
        let speed = speed.as_ref()?.in_unit(Unit::RevolutionPerMinute)?;
        Some(speed.to_f64())
    };
    let speeds = &book.speeds;
    let rated = rpm(&speeds.working).zip(rpm(&speeds.base));
    rated.map_or(FASTEST_TURNS, |(working, base)| {
        FASTEST_TURNS.max(working / base)
    })
}
