//! The arm against the reference machine, a published mini excavator, textbooks, and its own properties.

#![allow(
    clippy::unwrap_used,
    clippy::needless_range_loop,
    clippy::approx_constant
)]

mod forces;
mod geometry;
mod leaves;
mod likely;
mod machine;
mod properties;
mod rest;
mod standing;
mod strength;
mod table;
mod traps;
