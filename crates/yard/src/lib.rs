//! The domain of a yard of shared machines: books, entries, folds, laps, verdicts. Pure: no clock, no I/O, no prose.
//!
//! Reading order: ids and the outside [`world`]; [`people`] and what they may do; the machine [`book`]; the [`entry`] as
//! the journal holds it; [`state`], the folds over entries; then the jobs [`arrival`], [`walkround`], [`upkeep`] and [`handover`]
//! (which ends in the verdict).

pub mod code;
pub mod id;
pub mod world;

pub mod people;

pub mod arm;
pub mod book;
pub mod entry;

pub mod state;

pub mod arrival;
pub mod upkeep;
pub mod walkround;

pub mod handover;
