//! What the browser tests share: the program and the browser they drive, what one does on a page, the round, square codes, the yard restored, the well answers, the pictures.
#![allow(clippy::unwrap_used, missing_docs, unreachable_pub, dead_code)]

pub mod chromium;
pub mod meant;
pub mod page;
pub mod pictures;
pub mod pocket;
pub mod program;
pub mod restored;
pub mod round;
pub mod squares;
pub mod well;
