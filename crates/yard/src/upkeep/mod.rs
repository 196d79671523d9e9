//! What is due, what wears, what keeps failing: hours through every meter, due times, fittings counted.

mod fittings;
mod hours;
mod hours_line;
mod meters;
mod next_due;
mod open;
mod repeats;

pub use fittings::{fittings, fittings_done};
pub(crate) use hours::scaled;
pub use hours::{hours_figure, life_hours, life_hours_at, meter_at};
pub use hours_line::{LineMark, hours_line};
pub use meters::{HoursShown, hours_shown, meters_figure, ratio_of, running_scale};
pub use next_due::{DueLine, next_due};
pub use open::{OpenThing, open_things};
pub use repeats::{Repeat, repeats};
