//! Dates, times and ages in the yard's time zone, and lists.

use crate::{Arg, Words};
use jiff::{Timestamp, ZonedDateTime, civil::Date, tz::TimeZone};

const MINUTE: i64 = 60;
const HOUR: i64 = 60 * MINUTE;
const DAY: i64 = 24 * HOUR;

impl Words {
    /// A date: "14 Nov 2026".
    pub fn date(&self, date: Date) -> String {
        self.say("date", &self.parts(date))
    }

    /// A date with its day of the week: "Sat 14 Nov 2026".
    pub fn date_with_weekday(&self, date: Date) -> String {
        self.say("date-with-weekday", &self.parts(date))
    }

    /// The time of day: "7:12".
    pub fn clock(&self, at: Timestamp, zone: &TimeZone) -> String {
        clock(&at.to_zoned_datetime(zone.clone()))
    }

    /// A time as one would say it: "today 7:12", "Tue 7:12" within six days, else "14 Nov 2026 7:12".
    pub fn moment(&self, at: Timestamp, now: Timestamp, zone: &TimeZone) -> String {
        let then = at.to_zoned_datetime(zone.clone());
        let clock = clock(&then);
        let today = now.to_zoned_datetime(zone.clone()).date();
        let days = days_between(today, then.date());
        let key = match days {
            0 => "moment-today",
            -1 => "moment-yesterday",
            1 => "moment-tomorrow",
            -6..=6 => "moment-near",
            _ => "moment-far",
        };
        match key {
            "moment-near" => self.say(
                key,
                &[
                    ("weekday", self.weekday(then.date()).into()),
                    ("clock", clock.into()),
                ],
            ),
            "moment-far" => self.say(
                key,
                &[
                    ("date", self.date(then.date()).into()),
                    ("clock", clock.into()),
                ],
            ),
            _ => self.say(key, &[("clock", clock.into())]),
        }
    }

    /// Until when: the time of day alone where it is today, otherwise as [`Words::moment`].
    pub fn until(&self, at: Timestamp, now: Timestamp, zone: &TimeZone) -> String {
        let day = |when: Timestamp| when.to_zoned_datetime(zone.clone()).date();
        if day(at) == day(now) {
            self.clock(at, zone)
        } else {
            self.moment(at, now, zone)
        }
    }

    /// How long ago: "2 h ago", whole units, rounded down. More than a minute ahead is said as such.
    pub fn age(&self, at: Timestamp, now: Timestamp) -> String {
        let seconds = now.duration_since(at).as_secs();
        let counted = |key: &str, unit: i64| self.say(key, &[("n", (seconds / unit).into())]);
        match seconds {
            seconds if seconds < -MINUTE => self.text("age-ahead"),
            seconds if seconds < MINUTE => self.text("age-now"),
            seconds if seconds < HOUR => counted("age-minutes", MINUTE),
            seconds if seconds < DAY => counted("age-hours", HOUR),
            _ => counted("age-days", DAY),
        }
    }

    /// How long something takes: "about 8 min"; rounded up, at least one minute.
    pub fn span(&self, seconds: u32) -> String {
        let minutes = seconds.div_ceil(60).max(1);
        if minutes < 120 {
            self.say("span-minutes", &[("n", minutes.into())])
        } else {
            self.say("span-hours", &[("n", minutes.div_ceil(60).into())])
        }
    }

    /// A list: "a, b and c".
    pub fn list<T: AsRef<str>>(&self, items: &[T]) -> String {
        self.joined(items, "list-two")
    }

    /// A list of which one is meant: "a, b or c".
    pub fn list_or<T: AsRef<str>>(&self, items: &[T]) -> String {
        self.joined(items, "list-or")
    }

    fn joined<T: AsRef<str>>(&self, items: &[T], last_two: &str) -> String {
        match items {
            [] => String::new(),
            [one] => one.as_ref().to_owned(),
            [first, last] => self.say(
                last_two,
                &[
                    ("first", first.as_ref().into()),
                    ("last", last.as_ref().into()),
                ],
            ),
            [first, rest @ ..] => {
                let rest = self.joined(rest, last_two);
                self.say(
                    "list-more",
                    &[("start", first.as_ref().into()), ("last", rest.into())],
                )
            }
        }
    }

    fn weekday(&self, date: Date) -> String {
        self.text(&format!(
            "weekday-{}",
            date.weekday().to_monday_one_offset()
        ))
    }

    fn parts(&self, date: Date) -> [(&'static str, Arg<'static>); 4] {
        let month = self.text(&format!("month-{}", date.month()));
        [
            ("weekday", self.weekday(date).into()),
            ("day", date.day().to_string().into()),
            ("month", month.into()),
            ("year", date.year().to_string().into()),
        ]
    }
}

fn clock(at: &ZonedDateTime) -> String {
    format!("{}:{:02}", at.hour(), at.minute())
}

/// Days from the first date to the second.
fn days_between(from: Date, to: Date) -> i64 {
    to.duration_since(from).as_secs() / DAY
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn at(text: &str) -> Timestamp {
        text.parse().unwrap()
    }

    #[test]
    fn times_are_said_in_the_yards_zone() {
        let (words, zone) = (Words::english(), TimeZone::fixed(jiff::tz::offset(2)));
        let now = at("2026-11-14T06:00:00Z");
        let moment = |text: &str| words.moment(at(text), now, &zone);
        assert_eq!(moment("2026-11-14T05:12:00Z"), "today 7:12");
        assert_eq!(moment("2026-11-13T22:30:00Z"), "today 0:30");
        assert_eq!(moment("2026-11-13T21:30:00Z"), "yesterday 23:30");
        assert_eq!(moment("2026-11-15T07:00:00Z"), "tomorrow 9:00");
        assert_eq!(moment("2026-11-10T05:12:00Z"), "Tue 7:12");
        assert_eq!(moment("2026-11-07T05:12:00Z"), "7 Nov 2026 7:12");
        assert_eq!(words.until(at("2026-11-14T13:00:00Z"), now, &zone), "15:00");
        assert_eq!(
            words.until(at("2026-11-15T13:00:00Z"), now, &zone),
            "tomorrow 15:00"
        );
        assert_eq!(
            words.date_with_weekday(jiff::civil::date(2026, 11, 14)),
            "Sat 14 Nov 2026"
        );
    }

    #[test]
    fn ages_are_whole_units() {
        let words = Words::english();
        let now = at("2026-11-14T06:00:00Z");
        let age = |text: &str| words.age(at(text), now);
        assert_eq!(age("2026-11-14T05:59:30Z"), "just now");
        assert_eq!(age("2026-11-14T05:55:01Z"), "4 min ago");
        assert_eq!(age("2026-11-14T03:59:00Z"), "2 h ago");
        assert_eq!(age("2026-11-13T05:59:00Z"), "1 day ago");
        assert_eq!(age("2026-11-01T05:59:00Z"), "13 days ago");
        assert_eq!(age("2026-11-14T06:05:00Z"), "ahead of this clock");
    }

    #[test]
    fn spans_round_up() {
        let words = Words::english();
        assert_eq!(words.span(5), "about 1 min");
        assert_eq!(words.span(451), "about 8 min");
        assert_eq!(words.span(7201), "about 3 h");
    }

    #[test]
    fn lists_end_with_and_or_or() {
        let words = Words::english();
        assert_eq!(words.list(&["a", "b", "c", "d"]), "a, b, c and d");
        assert_eq!(words.list(&["a", "b"]), "a and b");
        assert_eq!(words.list_or(&["a", "b", "c"]), "a, b or c");
        assert_eq!(words.list::<&str>(&[]), "");
    }
}
