//! Rhythms as a person writes them: `every start`, `every 50 h`, `after 30 days standing`.

use super::Rhythm;
use crate::id::ItemId;
use quantity::{Dimension, Habits, Quantity};
use std::ops::Range;

/// Why a rhythm does not read.
#[derive(Debug, PartialEq)]
pub(super) enum NoRhythm {
    /// It is none of the forms.
    Form,
    /// Its hours do not read; the place is in the rhythm's text.
    Hours(Range<usize>, quantity::Trouble),
    /// Hours or days that are not more than zero.
    Zero,
}

/// Most days between two times.
const MOST_DAYS: u32 = 3660;

/// Reads one rhythm.
///
/// The forms: `every start`, `after use`, `every 50 h`, `every 7 days`, `every day`, `every week`, `each season`,
/// `after 30 days standing`, `first time`, `after <event>: every 10 h for 50 h, then every 100 h` (the last part may be
/// left out).
pub(super) fn rhythm(text: &str, habits: &Habits) -> Result<Rhythm, NoRhythm> {
    let plain = text.trim().to_ascii_lowercase();
    match plain.split_whitespace().collect::<Vec<_>>()[..] {
        ["every", "start"] => Ok(Rhythm::EveryStart),
        ["after", "use"] => Ok(Rhythm::AfterUse),
        ["each" | "every", "season"] => Ok(Rhythm::Season),
        ["first", "time"] => Ok(Rhythm::FirstTime),
        ["every", "day"] => Ok(Rhythm::Days(1)),
        ["every", "week"] => Ok(Rhythm::Days(7)),
        ["every", n, "day" | "days"] => days(n, 1).map(Rhythm::Days),
        ["every", n, "week" | "weeks"] => days(n, 7).map(Rhythm::Days),
        ["after", n, "day" | "days", "standing"] => days(n, 1).map(Rhythm::Standing),
        ["every", ..] => hours(text, behind(text, "every", 0)?, habits).map(Rhythm::Hours),
        ["after", ..] => after_event(text, habits),
        _ => Err(NoRhythm::Form),
    }
}

fn days(text: &str, times: u32) -> Result<u32, NoRhythm> {
    let n: u32 = text.parse().map_err(|_| NoRhythm::Form)?;
    match n.checked_mul(times) {
        Some(0) => Err(NoRhythm::Zero),
        Some(days) if days <= MOST_DAYS => Ok(days),
        _ => Err(NoRhythm::Form),
    }
}

/// The range behind a word, searched from `from` on, to the end of the text.
fn behind(text: &str, word: &str, from: usize) -> Result<Range<usize>, NoRhythm> {
    let lower = text.to_ascii_lowercase();
    let at = lower
        .get(from..)
        .and_then(|rest| rest.find(word))
        .ok_or(NoRhythm::Form)?;
    Ok(from + at + word.len()..text.len())
}

fn hours(text: &str, place: Range<usize>, habits: &Habits) -> Result<Quantity, NoRhythm> {
    let part = text.get(place.clone()).ok_or(NoRhythm::Form)?;
    let start = place.start + (part.len() - part.trim_start().len());
    let trouble = |trouble: quantity::Trouble| {
        let span = trouble.span();
        NoRhythm::Hours(start + span.start..start + span.end, trouble)
    };
    let read = quantity::parse(part.trim(), habits, Some(Dimension::Duration)).map_err(trouble)?;
    if read.value().is_zero() || read.value().is_negative() {
        Err(NoRhythm::Zero)
    } else {
        Ok(read)
    }
}

/// `after <event>: every <hours> for <hours>[, then every <hours>]`.
fn after_event(text: &str, habits: &Habits) -> Result<Rhythm, NoRhythm> {
    let colon = text.find(':').ok_or(NoRhythm::Form)?;
    let event = behind(text, "after", 0)?.start;
    let event = text
        .get(event..colon)
        .and_then(|event| ItemId::new(event.trim()))
        .ok_or(NoRhythm::Form)?;
    let every = behind(text, "every", colon)?;
    let during = behind(text, " for ", every.start)?;
    let then = text[during.start..]
        .find(',')
        .map(|comma| during.start + comma);
    let read_then = |comma: usize| {
        behind(text, "then", comma)?;
        hours(text, behind(text, "every", comma)?, habits)
    };
    Ok(Rhythm::After {
        event,
        every: hours(text, every.start..during.start - " for ".len(), habits)?,
        during: hours(text, during.start..then.unwrap_or(text.len()), habits)?,
        then: then.map(read_then).transpose()?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Rhythm, NoRhythm> {
        rhythm(text, &Habits::default())
    }

    fn h(text: &str) -> Quantity {
        quantity::parse(text, &Habits::default(), None).unwrap()
    }

    #[test]
    fn every_form_reads() {
        assert_eq!(read("every start"), Ok(Rhythm::EveryStart));
        assert_eq!(read(" After use "), Ok(Rhythm::AfterUse));
        assert_eq!(read("every 50 h"), Ok(Rhythm::Hours(h("50 h"))));
        assert_eq!(read("every 7 days"), Ok(Rhythm::Days(7)));
        assert_eq!(read("every 2 weeks"), Ok(Rhythm::Days(14)));
        assert_eq!(read("each season"), Ok(Rhythm::Season));
        assert_eq!(read("after 30 days standing"), Ok(Rhythm::Standing(30)));
        assert_eq!(read("first time"), Ok(Rhythm::FirstTime));
        let event = ItemId::new("wheel-off").unwrap();
        let wheel = Rhythm::After {
            event: event.clone(),
            every: h("10 h"),
            during: h("50 h"),
            then: Some(h("100 h")),
        };
        assert_eq!(
            read("after wheel-off: every 10 h for 50 h, then every 100 h"),
            Ok(wheel)
        );
        assert_eq!(
            read("after wheel-off: every 10 h for 50 h"),
            Ok(Rhythm::After {
                event,
                every: h("10 h"),
                during: h("50 h"),
                then: None
            })
        );
    }

    #[test]
    fn what_is_no_rhythm_is_told() {
        for text in [
            "",
            "sometimes",
            "every",
            "every 0 days",
            "every 0 h",
            "after",
            "after x: daily",
            "after: every 1 h for 2 h",
            "every 99999 days",
            "after use:",
        ] {
            assert!(read(text).is_err(), "{text}");
        }
        assert!(
            matches!(read("every 50 houurs"), Err(NoRhythm::Hours(place, _)) if &"every 50 houurs"[place.clone()] == "houurs")
        );
        assert!(matches!(read("every 5 mm"), Err(NoRhythm::Hours(..))));
    }
}
