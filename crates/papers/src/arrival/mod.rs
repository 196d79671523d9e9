//! The paper of the day a machine comes.

mod arrival_sheet;

pub use arrival_sheet::arrival_sheet;
