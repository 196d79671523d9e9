//! The store's promises, tried from outside.
#![allow(clippy::unwrap_used, missing_docs)]

mod made;
mod samples;

mod backup;
mod contract;
mod deliveries;
mod export;
mod forms;
mod kill;
mod old_yards;
mod opening;
mod outside;
#[cfg(feature = "postgres")]
mod postgres_server;
mod tampering;
