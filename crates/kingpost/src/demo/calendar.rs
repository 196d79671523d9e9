//! Which days are worked, by whom, how long, and on what.

use super::{fleet::Member, pen::Pen};
use jiff::{
    Span,
    civil::{Date, Weekday},
};

/// One day on which the machine is used.
#[derive(Clone, Debug)]
pub(crate) struct Day {
    /// Place among the days worked, from 0.
    pub(crate) index: usize,
    /// How many there are.
    pub(crate) of: usize,
    /// Date.
    pub(crate) date: Date,
    /// Who runs it.
    pub(crate) who: Who,
    /// Tenths of an hour it will run.
    pub(crate) tenths: u32,
    /// What is dug or carried.
    pub(crate) work: &'static str,
}

impl Day {
    /// Whether this is the day at so many hundredths of the way.
    pub(crate) fn is_at(&self, share: usize) -> bool {
        self.index == at(self.of, share)
    }

    /// Whether this is the last day.
    pub(crate) fn is_last(&self) -> bool {
        self.index + 1 == self.of
    }
}

/// Who runs the machine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Who {
    /// The steward.
    Odalys,
    /// The deputy.
    Bram,
    /// An operator.
    Tamsin,
    /// An operator.
    Ines,
    /// The learner, with the steward in sight.
    Jory,
    /// An operator of the small machines.
    Perrin,
    /// An operator of the small machines.
    Hanne,
    /// The learner with the saw, the deputy in sight.
    Sefa,
}

/// What Marigold does.
pub(crate) const WORK: [&str; 8] = [
    "Drain along the lower terrace",
    "Trench for the water pipe, 60 cm",
    "Loading clay from the heap",
    "Ditch beside the lane",
    "Carrying gravel to the gate",
    "Backfilling the trench",
    "Root stumps behind the shed",
    "Levelling the turning place",
];

/// The days on which a machine is used once a week at most, seldom in winter: from its first to its last.
pub(crate) fn weekly(pen: &mut Pen, member: &Member, last: Date) -> Vec<Day> {
    let back = |days| last.checked_sub(Span::new().days(days)).unwrap_or(last);
    let (first, end) = (back(member.days.0), back(member.days.1));
    let dates: Vec<Date> = first
        .series(Span::new().days(1))
        .take_while(|date| *date <= end)
        .filter(|date| date.weekday() == member.weekday)
        .filter(|date| {
            let winter = matches!(date.month(), 12 | 1 | 2);
            pen.draw(100)
                < if winter {
                    member.share / 3
                } else {
                    member.share
                }
        })
        .collect();
    let of = dates.len();
    let day = |(index, date)| Day {
        index,
        of,
        date,
        who: match index {
            0 => member.people[0],
            _ => member.people[pen.draw(member.people.len() as u32) as usize],
        },
        tenths: 6 + pen.draw(member.longest - 5),
        work: member.work[pen.draw(member.work.len() as u32) as usize],
    };
    dates.into_iter().enumerate().map(day).collect()
}

/// The days worked after `first` up to `last`, which always is one: weekdays but for rain, and a Saturday now and then.
pub(crate) fn days(pen: &mut Pen, first: Date, last: Date) -> Vec<Day> {
    let mut dates: Vec<Date> = Vec::new();
    let mut date = first;
    while let Some(next) = date
        .checked_add(Span::new().days(1))
        .ok()
        .filter(|next| *next <= last)
    {
        date = next;
        if worked(pen, date) || date == last {
            dates.push(date);
        }
    }
    let of = dates.len();
    dates
        .into_iter()
        .enumerate()
        .map(|(index, date)| day(pen, index, of, date))
        .collect()
}

fn worked(pen: &mut Pen, date: Date) -> bool {
    let drawn = pen.draw(100);
    match date.weekday() {
        Weekday::Sunday => false,
        Weekday::Saturday => drawn < 25,
        _ => drawn < 92,
    }
}

fn day(pen: &mut Pen, index: usize, of: usize, date: Date) -> Day {
    let who = who(pen, index, of);
    let longest = if who == Who::Jory { 20 } else { 40 };
    let tenths = 20 + pen.draw(longest + 1);
    let work = WORK[pen.draw(WORK.len() as u32) as usize];
    Day {
        index,
        of,
        date,
        who,
        tenths,
        work,
    }
}

/// The steward walks it first, Tamsin last; the learner's days come after enough lessons.
fn who(pen: &mut Pen, index: usize, of: usize) -> Who {
    let drawn = pen.draw(100);
    let learners = [52, 60, 74, 88, 93].map(|share| at(of, share));
    match index {
        0 => Who::Odalys,
        last if last + 1 == of => Who::Tamsin,
        day if learners.contains(&day) => Who::Jory,
        _ if drawn < 50 => Who::Tamsin,
        _ if drawn < 88 => Who::Ines,
        _ => Who::Bram,
    }
}

/// The day at so many hundredths of the way.
pub(crate) fn at(of: usize, share: usize) -> usize {
    of * share / 100
}
