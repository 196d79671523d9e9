//! The pages, one folder a job, one file a page, named as their templates.

pub(crate) mod arm;
pub(crate) mod arrival;
pub(crate) mod book;
pub(crate) mod handover;
pub(crate) mod journal;
pub(crate) mod kept;
pub(crate) mod lines;
pub(crate) mod papers;
pub(crate) mod people;
pub(crate) mod phone;
pub(crate) mod photos;
pub(crate) mod pocket;
pub(crate) mod trust;
pub(crate) mod upkeep;
pub(crate) mod walkround;
pub(crate) mod yard;
