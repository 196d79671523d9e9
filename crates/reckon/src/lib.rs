//! Every formula of the project, pure: values and declared sources in, values and refusals out.
//!
//! A formula is one file in a job's folder, or in a folder below it: one documented function with typed inputs, and
//! its [`Leaf`], which declares the inputs with their units and bounds, the outputs, and where the formula comes
//! from. The [`catalogue`] lists them all. A number that a page or a paper prints comes from a [`Figure`], which keeps the
//! leaf, every input with its [`Origin`], and can be worked out again to the same digits.
//!
//! There is no clock, no file and no sentence here. What a person reads about a leaf lies in the layer of words
//! under [`Leaf::words_key`].

mod case;
mod case_units;
mod figure;
mod leaf;
mod normal;
mod propagate;
mod refusal;
mod sample;
mod shortest_walk;
mod typing_slip;
mod value;
mod whole;

pub mod arm;
pub mod catalogue;
pub mod machine;
pub mod upkeep;
pub mod validation;

pub use catalogue::{LEAVES, find};
pub use figure::{Figure, FigureInput, Origin};
pub use leaf::{Basis, Input, Leaf, OutputKind, Shape, Source};
pub use normal::{normal_cumulative, normal_tail};
pub use propagate::{Propagated, covariance_of, propagate};
pub use refusal::Refusal;
pub use sample::{Choice, Sampled, Spread, choose_lowest, sample};
pub use shortest_walk::{PROVEN_UP_TO, Walk, shortest_walk};
pub use typing_slip::transposed_candidates;
pub use value::{Argument, Output, Value};
