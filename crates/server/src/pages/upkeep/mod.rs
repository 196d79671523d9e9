//! Short forms: faults, notes, hours, standing down, permits, runs, service, parts, lessons; and what becomes of a finding.

pub(crate) mod finding;
pub(crate) mod short;

pub(crate) mod comes_back;
pub(crate) mod fault;
pub(crate) mod further;
pub(crate) mod greasing;
pub(crate) mod happened;
pub(crate) mod hours;
pub(crate) mod in_sight;
pub(crate) mod lesson;
pub(crate) mod one_text;
pub(crate) mod part;
pub(crate) mod permit;
pub(crate) mod photo;
pub(crate) mod purchase;
pub(crate) mod quiet_day;
pub(crate) mod run;
pub(crate) mod service;
