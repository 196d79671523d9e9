//! The command behind the program: one subcommand a job, prints for people and, everywhere, as JSON.
//!
//! Reading order: [`answer`], from arguments to what is printed; `commands`, one file a job; `desk`, the yard as a command sees it;
//! `exit`, the table of exit codes; [`demo`], the invented yard. The real clock, time zone and chance are here too, and nowhere else.

mod answer;
mod blanks;
mod commands;

mod desk;
mod files;
mod kit;
mod rows;
mod said;
mod tls;
mod trouble;

mod exit;
mod help;
mod world;

pub mod demo;

pub use answer::{Printed, answer};
pub use exit::Exit;
pub use world::RealWorld;
