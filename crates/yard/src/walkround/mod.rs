//! What must be looked at now, along the lap, and what an answer means.

mod due;
mod going_on;
mod make;
mod measure;
mod order;
mod plan;
mod relief;
mod show_me;
mod signs;
mod today;
mod twin;
mod weekly;
mod weigh;

pub use due::{due, due_for};
pub use going_on::plan_round;
pub use make::{guards_at, plan, plan_at, whole};
pub use measure::measured;
pub use order::numbers;
pub use plan::*;
pub use show_me::{Shown, show_me, show_me_points, shown};
pub use signs::{QUICKEST, SAME_DAYS, Sign, signs};
pub use today::day_of;
pub use twin::{TwinAsk, twin_asks, twins};
pub use weigh::{Weighed, fits_kind, says, weigh};

pub(crate) use due::{EventDue, Time, due_after_event, span};
pub(crate) use today::{Today, days_between_moments};
