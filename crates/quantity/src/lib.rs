//! What a person writes, kept exact: numbers, units, values with their ±, and the decision at a limit.
//!
//! The lowest layer: pure, no clock, no input or output, no prose. Troubles are codes with arguments; the sentences are made
//! elsewhere.
//!
//! ```
//! use quantity::{Habits, Unit, parse};
//! let q = parse("5' 3/4\"", &Habits::default(), None).expect("a plain length");
//! assert_eq!(q.value().to_string(), "243/4"); // 60 3/4
//! assert_eq!(q.unit(), Unit::Inch);
//! assert_eq!(q.text(), "5' 3/4\"");
//! ```

mod exact;
pub mod limit;
mod parse;
mod quantity;
mod show;
mod trouble;
mod uncertain;
mod unit;

pub use exact::Exact;
pub use limit::{Side, Take};
pub use parse::{Habits, parse, parse_in, parse_plus_minus};
pub use quantity::Quantity;
pub use show::{
    Shown, format_exact, format_feet_inches, format_fraction_inches, round_to_step, show,
};
pub use trouble::{AmbiguityKind, Span, Trouble};
pub use uncertain::Uncertain;
pub use unit::{Dimension, System, Unit};
