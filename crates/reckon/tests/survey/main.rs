//! The tape survey against perfect and noisy measurements, wrong distances, other engines, and its own properties.

#![allow(clippy::unwrap_used, clippy::needless_range_loop)]

#[path = "../arm/machine.rs"]
#[allow(dead_code)]
mod machine;
mod measured;

mod advice;
mod coverage;
mod engine;
mod perfect;
mod propagation;
mod properties;
mod refused;
mod wrong;
