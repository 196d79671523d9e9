//! What is due, what wears, what keeps failing: hours through every meter, due times, fittings counted.

mod fittings;
mod hours;
mod next_due;
mod open;
mod repeats;
mod shopping;

pub use fittings::{fittings, fittings_done};
pub use hours::{hours_figure, life_hours, life_hours_at, meter_at};
pub use next_due::{DueLine, next_due, soonest};
pub use open::{OpenThing, open_things};
pub use repeats::{Repeat, repeats};
pub use shopping::{Ahead, ToBuy, part_numbers, shopping};
