//! Life hours over time, as one line through every change of meter.

use crate::state::HourHistory;
use jiff::Timestamp;

/// One mark of the line.
#[derive(Clone, Debug, PartialEq)]
pub struct LineMark {
    /// When.
    pub at: Timestamp,
    /// Life hours then.
    pub hours: f64,
    /// Their ±.
    pub plus_minus: f64,
    /// Told or estimated, not read.
    pub estimated: bool,
    /// A meter began here: it was changed or mended.
    pub begins: bool,
}

impl LineMark {
    /// The fewest hours it can be.
    pub fn low(&self) -> f64 {
        self.hours - self.plus_minus
    }
    /// The most hours it can be.
    pub fn high(&self) -> f64 {
        self.hours + self.plus_minus
    }
}

/// Every reading and every telling that counted, in order of time.
pub fn hours_line(history: &HourHistory) -> Vec<LineMark> {
    let later = history.segments.iter().skip(1);
    let begun: Vec<_> = later.map(|segment| segment.begun_by).collect();
    let read = history.readings.iter().map(|read| LineMark {
        at: read.at,
        hours: read.life.hours.to_f64(),
        plus_minus: read.life.plus_minus.to_f64(),
        estimated: false,
        begins: begun.contains(&read.entry),
    });
    let told = history.estimates.iter().map(|told| LineMark {
        at: told.at,
        hours: told.life.hours.to_f64(),
        plus_minus: told.life.plus_minus.to_f64(),
        estimated: true,
        begins: false,
    });
    let mut marks: Vec<LineMark> = read.chain(told).collect();
    marks.sort_by_key(|mark| mark.at);
    marks
}
