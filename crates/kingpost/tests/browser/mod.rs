//! What the browser tests share: the program and the browser they drive, what one does on a page, the round, a yard of one's own, square codes, the yard restored, the well answers, the inspection, the pictures.
#![allow(clippy::unwrap_used, missing_docs, unreachable_pub, dead_code)]

#[path = "../../../yard/tests/blank/mod.rs"]
pub mod blank;
pub mod chromium;
pub mod first_round;
pub mod inspect;
pub mod meant;
pub mod own_yard;
pub mod page;
pub mod pictures;
pub mod pocket;
pub mod program;
pub mod restored;
pub mod round;
pub mod squares;
pub mod well;
