//! What goes wrong in the demo, from which day on, and on which day it is mended.
//!
//! Days are told in hundredths of the way, so that the tale fits any calendar.

use super::{calendar::at, well};
use yard::{
    book::{LeakClass, Point, PointKind},
    entry::{Answer, BoltState, ClipState, GreaseTook, LookState, RoundPurpose},
};

/// How something is mended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Mending {
    /// With a part out of the box.
    Part(&'static str, &'static str),
    /// By adjusting or tightening, which may restart a rhythm.
    Adjusting(&'static str, Option<&'static str>),
    /// By freeing a fitting and greasing it.
    Greasing,
}

/// One thing that goes wrong at one point.
#[derive(Clone, Debug)]
struct Twist {
    point: &'static str,
    /// From which day, with which answer; a later answer replaces an earlier one.
    shows: Vec<(usize, Answer)>,
    /// In which rounds it is seen.
    seen: RoundPurpose,
    /// From which day on it is mended.
    mended: usize,
    how: Mending,
    told: bool,
    over: bool,
}

/// The tale, and how far it has gone.
#[derive(Clone, Debug)]
pub(crate) struct Tale {
    of: usize,
    twists: Vec<Twist>,
    /// Thirty-seconds of an inch the left track sagged when it was last adjusted, and the day.
    sag: (u32, usize),
    sag_noticed: bool,
}

const CLIP: Mending = Mending::Part("split-pin", "New split pin and washer, both ends bent");
const SAG: &str = "track-sag-left";

impl Tale {
    /// The tale for so many days.
    pub(crate) fn new(of: usize) -> Self {
        Self {
            of,
            twists: twists(of),
            sag: (44, 0),
            sag_noticed: false,
        }
    }

    /// The answer to a point on a day: as the tale has it, else all well.
    pub(crate) fn answer(&mut self, day: usize, purpose: RoundPurpose, point: &Point) -> Answer {
        if let (SAG, PointKind::Measure(limit)) = (point.id.as_str(), &point.kind) {
            let sag = self.sag_on(day);
            self.sag_noticed |= sag > 64;
            return well::measured(limit, vec![well::inches(sag), well::inches(sag - 2)]);
        }
        let begun = |twist: &&mut Twist| {
            twist.point == point.id.as_str() && twist.seen == purpose && !twist.over
        };
        let shown = self.twists.iter_mut().find(begun).and_then(|twist| {
            let (_, answer) = twist.shows.iter().rev().find(|(from, _)| *from <= day)?;
            twist.told = true;
            Some(answer.clone())
        });
        shown.unwrap_or_else(|| well::answer(point))
    }

    /// What is mended now: points with how, each once.
    pub(crate) fn mends(&mut self, day: usize) -> Vec<(&'static str, Mending)> {
        let mut mended = Vec::new();
        for twist in self
            .twists
            .iter_mut()
            .filter(|twist| twist.told && !twist.over && twist.mended <= day)
        {
            twist.over = true;
            mended.push((twist.point, twist.how));
        }
        if self.sag_noticed {
            self.sag_is_set(day);
            mended.push((
                SAG,
                Mending::Adjusting(
                    "Adjuster pumped until the sag was right, checked on both spans",
                    None,
                ),
            ));
        }
        mended
    }

    /// Whether the steward sets the track today, before anybody finds it slack.
    pub(crate) fn sets_track(&self, day: usize) -> bool {
        day == at(self.of, 35)
    }

    /// The left track was set.
    pub(crate) fn sag_is_set(&mut self, day: usize) {
        self.sag = (42, day);
        self.sag_noticed = false;
    }

    /// Slack grows by a thirty-second a day or so. A steward's reading keeps clear of what is too close to call: a track that slack
    /// is measured again, and by then it is over.
    fn sag_on(&self, day: usize) -> u32 {
        let (begun, since) = self.sag;
        let days = u32::try_from(day.saturating_sub(since)).unwrap_or(u32::MAX);
        match begun.saturating_add(days.saturating_mul(5) / 4) {
            low if low < 60 => low,
            close if close < 70 => 59,
            over => over.min(80),
        }
    }
}

/// Everything that goes wrong, in its order.
fn twists(of: usize) -> Vec<Twist> {
    let start = RoundPurpose::Start;
    let twist = |point, shows: &[(usize, Answer)], seen, mended: usize, how| Twist {
        point,
        shows: shows
            .iter()
            .map(|(share, answer)| (at(of, *share), answer.clone()))
            .collect(),
        seen,
        mended: at(of, mended),
        how,
        told: false,
        over: false,
    };
    let clip = |share, state| {
        twist(
            "dipper-clips-left",
            &[(share, Answer::PinClip(state))],
            start,
            share,
            CLIP,
        )
    };
    let air = Mending::Adjusting("Element tapped out, clip tightened", None);
    let seal = Mending::Part(
        "hydraulic-seal",
        "New seal in the dipper ram, rod wiped, watched for ten strokes",
    );
    let bolts = Mending::Adjusting("Tightened, painted anew", Some("frame-bolts-set"));
    let loose = Answer::Bolts {
        state: BoltState::Loose,
        how_many: 2,
    };
    let refused = Answer::Fitting {
        took: GreaseTook::Refused,
        strokes: None,
    };
    let leak = |class| Answer::Leak(Some(class));
    vec![
        clip(12, ClipState::Missing),
        twist(
            "air-filter",
            &[(24, Answer::Look(LookState::Worn))],
            start,
            24,
            air,
        ),
        twist(
            "grease-dipper",
            &[(30, refused)],
            RoundPurpose::After,
            32,
            Mending::Greasing,
        ),
        twist("frame-bolts-right", &[(38, loose)], start, 38, bolts),
        clip(44, ClipState::Missing),
        twist(
            "arm-leak",
            &[(50, leak(LeakClass::I)), (58, leak(LeakClass::II))],
            start,
            66,
            seal,
        ),
        clip(80, ClipState::Loose),
    ]
}
