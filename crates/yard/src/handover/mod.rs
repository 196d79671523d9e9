//! May it run, why, and in what state was it left.
//!
//! Reading order: what a [`Judgement`] says; [`judge`], which asks every one of the [`RULES`]; the [`Context`] they look at;
//! [`rest`], how a machine is left.

mod verdict;

mod judge;

pub mod rules;

mod alone;
mod as_if_open;
mod context;
mod documents;
mod engine_off;
mod hanging;
mod must_work;
mod others;
mod outside;
mod signing;
mod weight;
mod which_round;

pub mod rest;

mod code;

pub use alone::{Alone, NOT_GIVEN};
pub use context::{Context, Said, Seen, Wanting, bears_on_safety};
pub use engine_off::keeps_engine_off;
pub use judge::{judge, judge_by};
pub use others::{NoOthers, OtherMachines};
pub use rules::{LooksAt, RULES, Rule, Source};
pub use signing::{Able, able, sign_off};
pub use verdict::*;

use as_if_open::stood_down;
use judge::holds_until;
pub use must_work::is_must_work;
use must_work::must_work;
use outside::outside;
use weight::{Weight, each_open, each_unknown};
use which_round::{others_round, own_round};
