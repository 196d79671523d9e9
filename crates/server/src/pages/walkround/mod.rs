//! The round on screen: its list, one station at a time, and a filled sheet coming back.

pub(crate) mod form;
pub(crate) mod question;
pub(crate) mod round;
pub(crate) mod scale;
pub(crate) mod sheet;
pub(crate) mod show_me;
pub(crate) mod signs;
pub(crate) mod station;
pub(crate) mod together;
