//! The round due now: which points, in which order, with which safeguards first.

use crate::{
    book::{Engine, Safeguard},
    entry::RoundPurpose,
    id::{ItemId, PointId, StationId},
};

/// A round as planned for one machine, one person, one purpose, now.
#[derive(Clone, Debug, PartialEq)]
pub struct RoundPlan {
    /// Why it is walked.
    pub purpose: RoundPurpose,
    /// Legs, in walking order: one for each engine state and pose that is needed.
    pub legs: Vec<Leg>,
    /// Seconds it should take, walking included.
    pub seconds: u32,
    /// Points of the book that are not due now.
    pub skipped: u32,
    /// Fittings in this plan (counted by fitting, not by line).
    pub fittings: u32,
    /// Joints with no known fitting: to be looked for on this round.
    pub finds: Vec<ItemId>,
}

/// Stations walked in one engine state and pose; the safeguards come first.
#[derive(Clone, Debug, PartialEq)]
pub struct Leg {
    /// Engine state.
    pub engine: Engine,
    /// Pose; none = as found.
    pub pose: Option<ItemId>,
    /// Everything the leg's points need in place, shown before its first station.
    pub guards: Vec<Safeguard>,
    /// Stops along the lap.
    pub stops: Vec<Stop>,
}

/// One station with its points due.
#[derive(Clone, Debug, PartialEq)]
pub struct Stop {
    /// Station.
    pub station: StationId,
    /// Points, in the book's order, with why they are due.
    pub points: Vec<DuePoint>,
}

/// A point and why it is in the round.
#[derive(Clone, Debug, PartialEq)]
pub struct DuePoint {
    /// Point.
    pub point: PointId,
    /// Its number along the whole lap of the book, the same on drawing and paper.
    pub number: u32,
    /// Why it is due.
    pub because: Because,
    /// Whether the one tap "all well here" may answer it: never values, levels, fittings, or a point with an open finding.
    pub one_tap: bool,
}

/// Why a point is in the round.
#[derive(Clone, Debug, PartialEq)]
pub enum Because {
    /// Every start.
    EveryStart,
    /// After use.
    AfterUse,
    /// Never done under this book.
    NeverDone,
    /// So many hours since it was last done; due every.
    Hours {
        /// Run since.
        since: quantity::Exact,
        /// Interval.
        every: quantity::Exact,
    },
    /// So many days since; due every.
    Days {
        /// Since.
        since: i64,
        /// Interval.
        every: u32,
    },
    /// A weekly point taken on its own weekday, so that the week shares the work.
    ItsDay,
    /// Start of the season.
    Season,
    /// Stood so many days.
    Standing {
        /// Stood.
        days: i64,
    },
    /// First time for this person on this machine.
    FirstTime,
    /// After an event.
    After {
        /// Event.
        event: ItemId,
    },
    /// Another person used it last: everything again.
    OtherOperator,
    /// The last answer left it unknown.
    StillUnknown,
    /// Something was found here and is not closed.
    OpenFinding,
    /// Something was found at the same point on the other side.
    OtherSide {
        /// The point there.
        of: PointId,
    },
    /// It takes grease, and nobody saw any at the joint: look there.
    NotReaching,
    /// A joint with no known fitting: find it.
    FindIt,
    /// The hours are in question, so that it cannot be told.
    HoursInQuestion,
    /// The steward asked for all of it.
    Whole,
    /// Answered in this round already.
    InThisRound,
}
