//! What goes wrong in the demo, from which day on, and on which day it is mended.
//!
//! Days are told in hundredths of the way, so that the tale fits any calendar.

use super::{calendar::at, pen::written, well};
use quantity::Quantity;
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
pub(crate) struct Twist {
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

/// A track that gets slack from day to day.
#[derive(Clone, Debug)]
pub(crate) struct Slack {
    point: &'static str,
    /// Sag when it is set.
    set_to: u32,
    /// How much it grows: so much in so many days.
    grows: (u32, u32),
    /// Up to here a reading is clear of its limit, from here on it is clearly over.
    clear: (u32, u32),
    /// It does not get worse than this.
    most: u32,
    /// The readings that such a sag gives.
    reads: fn(u32) -> Vec<Quantity>,
    /// Sag when it was last set, and the day.
    since: (u32, usize),
    noticed: bool,
}

/// The tale of one machine, and how far it has gone.
#[derive(Clone, Debug)]
pub(crate) struct Tale {
    of: usize,
    twists: Vec<Twist>,
    slack: Option<Slack>,
}

const CLIP: Mending = Mending::Part("split-pin", "New split pin and washer, both ends bent");

impl Tale {
    /// Marigold's last three months, of so many days.
    pub(crate) fn of_the_season(of: usize) -> Self {
        Self::new(of, twists(of), Some(Slack::in_inches()))
    }

    /// A tale of so many days.
    pub(crate) fn new(of: usize, twists: Vec<Twist>, slack: Option<Slack>) -> Self {
        Self { of, twists, slack }
    }

    /// The answer to a point on a day: as the tale has it, else all well.
    pub(crate) fn answer(&mut self, day: usize, purpose: RoundPurpose, point: &Point) -> Answer {
        if let (Some(slack), PointKind::Measure(limit)) = (&mut self.slack, &point.kind)
            && slack.point == point.id.as_str()
        {
            return well::measured(limit, slack.read_on(day));
        }
        let begun = |twist: &&mut Twist| {
            twist.point == point.id.as_str() && twist.seen == purpose && !twist.over
        };
        let shown = self.twists.iter_mut().find(begun).and_then(|twist| {
            let (_, answer) = twist.shows.iter().rev().find(|(from, _)| *from <= day)?;
            twist.told = true;
            Some(answer.clone())
        });
        shown.unwrap_or_else(|| well::answer(point, day))
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
        if let Some(slack) = self.slack.as_mut().filter(|slack| slack.noticed) {
            slack.set(day);
            mended.push((
                slack.point,
                Mending::Adjusting(
                    "Adjuster pumped until the sag was right, checked again after rolling",
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

    /// The track was set.
    pub(crate) fn sag_is_set(&mut self, day: usize) {
        if let Some(slack) = &mut self.slack {
            slack.set(day);
        }
    }
}

impl Slack {
    /// Marigold's left track, thirty-seconds of an inch, two spans.
    pub(crate) fn in_inches() -> Self {
        Self {
            point: "track-sag-left",
            set_to: 42,
            grows: (5, 4),
            clear: (60, 70),
            most: 80,
            reads: |sag| vec![well::inches(sag), well::inches(sag - 2)],
            since: (44, 0),
            noticed: false,
        }
    }

    /// Bryony's left track, millimetres.
    pub(crate) fn in_millimetres() -> Self {
        Self {
            point: "track-sag-left",
            set_to: 22,
            grows: (9, 10),
            clear: (37, 44),
            most: 52,
            reads: |sag| vec![written(&format!("{sag} mm"))],
            since: (24, 0),
            noticed: false,
        }
    }

    fn set(&mut self, day: usize) {
        self.since = (self.set_to, day);
        self.noticed = false;
    }

    /// A steward's reading keeps clear of what is too close to call: a track that slack is measured again, and by then it is over.
    fn read_on(&mut self, day: usize) -> Vec<Quantity> {
        let (begun, since) = self.since;
        let (last_clear, over) = self.clear;
        let days = u32::try_from(day.saturating_sub(since)).unwrap_or(u32::MAX);
        let (more, in_days) = self.grows;
        let sag = match begun.saturating_add(days.saturating_mul(more) / in_days) {
            low if low < last_clear => low,
            close if close < over => last_clear - 1,
            far => far.min(self.most),
        };
        self.noticed |= sag >= over;
        (self.reads)(sag)
    }
}

/// One thing that goes wrong: from which hundredth of the way on with which answer, seen in which rounds, when mended and how.
pub(crate) fn twist(
    of: usize,
    point: &'static str,
    shows: &[(usize, Answer)],
    seen: RoundPurpose,
    mended: usize,
    how: Mending,
) -> Twist {
    Twist {
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
    }
}

/// Everything that goes wrong, in its order.
fn twists(of: usize) -> Vec<Twist> {
    let start = RoundPurpose::Start;
    let twist = |point, shows: &[(usize, Answer)], seen, mended, how| {
        twist(of, point, shows, seen, mended, how)
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
