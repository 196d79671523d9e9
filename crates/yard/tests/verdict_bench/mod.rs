//! A bench for verdicts: a small made-up machine that is fit to run, changes to it in words, and cases read from Markdown.
#![allow(dead_code, unused_imports, clippy::unwrap_used)]

mod again;
mod answers;
mod case;
mod change;
mod kept;
mod machine;
mod scene;

pub(crate) use answers::{answer_from, well_answer};
pub(crate) use case::{Case, cases};
pub(crate) use machine::{book, item, point_id};
pub(crate) use scene::{Person, Scene, handover, id, now};
