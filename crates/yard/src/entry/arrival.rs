//! What the day says on which a machine comes to the yard, step by step.

use crate::id::ItemId;

/// See [`super::Body::Arrival`].
#[derive(Clone, Debug, PartialEq)]
pub struct Arrival {
    /// Step.
    pub step: ArrivalStep,
    /// The one thing of the book it is about: a fluid, a weakness; none = the step as a whole.
    pub about: Option<ItemId>,
    /// Why a fluid is known from now on.
    pub fluid: Option<FluidNow>,
    /// How many fittings were counted on a lap.
    pub count: Option<u32>,
    /// What was seen, read or said.
    pub says: Option<String>,
}

/// The steps of taking in a machine, in their order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ArrivalStep {
    /// It came.
    Came,
    /// How it stops was tried.
    Stop,
    /// Plates and numbers read.
    Plates,
    /// A fluid is known, or there is none.
    Fluids,
    /// Both sides compared.
    Sides,
    /// Measures taken.
    Measures,
    /// Fittings counted as it stood.
    FittingsFirst,
    /// Fittings counted again with arm, bucket or bed moved.
    FittingsSecond,
    /// A known weakness looked at.
    Weaknesses,
    /// Taken in.
    Over,
}

/// Why a fluid is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FluidNow {
    /// Drained and filled anew here.
    Changed,
    /// A sample of it was analysed.
    Analysed,
}
