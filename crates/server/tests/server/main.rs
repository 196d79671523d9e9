//! The server as a whole, without a socket: pages, forms, roles, words, the loop from a round to a release.
#![allow(clippy::unwrap_used, missing_docs)]

mod browser;
mod engine_off;
mod every_route;
mod fixture;

mod access_entries;
mod api_fits;
mod api_fuzz;
mod book;
mod chance;
mod deliveries;
mod every_page;
mod forbidden;
mod guessing;
mod kept;
mod loop_of_a_round;
mod paper_sheet;
mod personal_data;
mod phones_model;
mod photo_address;
mod photo_backup;
mod photo_clean;
mod photo_limits;
mod photo_made;
mod photo_pages;
mod sign_in;
mod sign_ins;
mod together;
mod tokens;
mod tricks;
mod two_ways;
mod word_in_sight;
mod work;
