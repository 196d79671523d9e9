//! What is due, what wears, what keeps failing: hours through every meter, due times, fittings counted.

mod costs;
mod cures;
mod fittings;
mod hours;
mod hours_line;
mod meters;
mod next_due;
mod not_reaching;
mod one_sided;
mod open;
mod quiet_day;
mod repeats;
mod shopping;

pub use costs::{Costs, amount, costs};
pub use cures::Cure;
pub use fittings::{fittings, fittings_done};
pub(crate) use hours::scaled;
pub use hours::{hours_figure, life_hours, life_hours_at, meter_at, shown_hours};
pub use hours_line::{LineMark, hours_line};
pub use meters::{HoursShown, hours_shown, meters_figure, ratio_of, running_scale};
pub use next_due::{DueLine, next_due, soonest};
pub use not_reaching::{NotReaching, not_reaching};
pub use one_sided::{OneSided, one_sided};
pub use open::{OpenThing, open_things};
pub use quiet_day::{CanWait, can_wait};
pub use repeats::{PartAgain, Repeat, parts_again, repeat_at, repeats};
pub use shopping::{Ahead, ToBuy, part_numbers, shopping};
