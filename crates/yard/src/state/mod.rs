//! States: folds over accepted entries in order (ordered_at, id). Same envelopes, same state, whatever the order of arrival.
//!
//! A state keeps what was said, not what follows from it: findings stay open until an entry *names* them, and whether an
//! open finding stands the machine down is for the verdict's rules, with today's book.

mod arrived;
mod fold;
mod kept;
mod machine;
mod person;

pub use arrived::*;
pub use fold::{
    ReadText, document_deed, fold_machine, fold_machine_reading, fold_yard, keeps_harm, tells_harm,
    unsaying_deed,
};
pub use kept::*;
pub use machine::*;
pub use person::*;
