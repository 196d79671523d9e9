//! The arm against the reference machine, a published mini excavator, textbooks, and its own properties.

mod forces;
mod geometry;
mod machine;
mod properties;
mod rest;
mod standing;
mod strength;
mod table;
mod traps;
