//! How a rule weighs one thing: verdict, rank and what to say of it; and the ways from there to a reason.

use super::{Context, Reason, Seen, Verdict, What, bears_on_safety};
use crate::{
    book::{Point, Severity},
    id::{EntryId, FaultRef, PointId},
};
use reckon::Figure;

/// Rank of what can hurt somebody.
pub(super) const LIFE: u8 = 0;
/// Rank of how the machine was left by the last who used it.
pub(super) const LEFT: u8 = 10;
/// Rank of what breaks the machine.
pub(super) const MACHINE: u8 = 20;
/// Rank of what is not known.
pub(super) const UNKNOWN: u8 = 40;
/// Rank of what is only not in order on paper.
pub(super) const FORMAL: u8 = 60;

/// What a rule makes of one thing.
#[derive(Clone, Debug)]
pub(super) struct Weight {
    /// What it weighs.
    pub weighs: Verdict,
    /// Rank within its verdict.
    pub rank: u8,
    /// Whether it is an unknown.
    pub unknown: bool,
    /// What to say.
    pub what: What,
    /// Figure behind it.
    pub figure: Option<Figure>,
}

impl Weight {
    /// Stands down.
    pub(super) fn down(rank: u8, what: What) -> Self {
        Self {
            weighs: Verdict::StandDown,
            rank,
            unknown: false,
            what,
            figure: None,
        }
    }

    /// Runs with care.
    pub(super) fn care(rank: u8, what: What) -> Self {
        Self {
            weighs: Verdict::Care,
            ..Self::down(rank, what)
        }
    }

    /// Weighs as the book says for this point, else as `usual`. Only for what no rule stands down at once.
    pub(super) fn by_book(point: Option<&Point>, usual: Verdict, rank: u8, what: What) -> Self {
        let said = point.and_then(|point| point.bad_is).map(Verdict::from);
        Self {
            weighs: said.unwrap_or(usual),
            ..Self::down(rank, what)
        }
    }

    /// Not known: stands down where it bears on safety, else care. A book never makes that milder.
    pub(super) fn unknown(point: Option<&Point>, what: What) -> Self {
        let weighs = if bears_on_safety(point) {
            Verdict::StandDown
        } else {
            Verdict::Care
        };
        Self {
            weighs,
            unknown: true,
            ..Self::down(UNKNOWN, what)
        }
    }

    /// Not known, and it stands down whatever the point.
    pub(super) fn unknown_down(what: What) -> Self {
        Self {
            unknown: true,
            ..Self::down(UNKNOWN, what)
        }
    }

    /// The same with the figure behind it.
    pub(super) fn with_figure(self, figure: Option<Figure>) -> Self {
        Self { figure, ..self }
    }

    /// The reason about the machine or the person as a whole.
    pub(super) fn plain(self, rule: &'static str) -> Reason {
        self.about(rule, None, None)
    }

    /// The reason about a point, where nothing was found.
    pub(super) fn at(self, rule: &'static str, point: PointId) -> Reason {
        self.about(rule, Some(point), None)
    }

    /// The reason about something that was said.
    pub(super) fn of(self, rule: &'static str, seen: &Seen) -> Reason {
        self.about(rule, seen.point_id(), Some(seen.finding.clone()))
    }

    /// The reason about an entry that waits for the steward.
    pub(super) fn of_entry(self, rule: &'static str, entry: EntryId) -> Reason {
        self.about(rule, None, Some(FaultRef { entry, point: None }))
    }

    fn about(
        self,
        rule: &'static str,
        point: Option<PointId>,
        finding: Option<FaultRef>,
    ) -> Reason {
        let Self {
            weighs,
            rank,
            unknown,
            what,
            figure,
        } = self;
        Reason {
            rule,
            weighs,
            rank,
            unknown,
            point,
            finding,
            what,
            figure,
        }
    }
}

impl From<Severity> for Verdict {
    fn from(severity: Severity) -> Self {
        match severity {
            Severity::Note => Verdict::Fit,
            Severity::Care => Verdict::Care,
            Severity::StandDown => Verdict::StandDown,
        }
    }
}

/// The reasons a rule finds in what is found and not closed.
pub(super) fn each_open(
    rule: &'static str,
    context: &Context,
    weigh: impl Fn(&Seen) -> Option<Weight>,
) -> Vec<Reason> {
    context
        .open
        .iter()
        .filter_map(|seen| Some(weigh(seen)?.of(rule, seen)))
        .collect()
}

/// The reasons a rule finds in the answers of the round that are not known well enough.
pub(super) fn each_unknown(
    rule: &'static str,
    context: &Context,
    belongs: impl Fn(&What) -> bool,
) -> Vec<Reason> {
    let unknown = |seen: &Seen| match &seen.weighed {
        Some(crate::walkround::Weighed::Unknown(what)) if belongs(what) => {
            Some(Weight::unknown(seen.point, what.clone()).of(rule, seen))
        }
        _ => None,
    };
    context.answered.iter().filter_map(unknown).collect()
}
