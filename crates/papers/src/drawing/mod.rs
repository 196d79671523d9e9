//! The machine drawn from its book: side views with numbered points, the plan with stations and danger zone, verdict marks.
//!
//! Every drawing is an SVG text with attributes only (no style, no script), so that it may stand inside a page under a
//! strict content policy and inside a paper alike. Lengths in the SVG are hundredths of a metre of the machine.

pub mod arm;
mod hours_line;
mod ink;
mod labels;
mod mark;
mod pen;
mod plan;
mod scale;
mod side;
mod size;

pub use hours_line::hours_line;
pub use ink::*;
pub use mark::{Mark, verdict_mark};
pub use plan::{Plan, plan};
pub use scale::{LimitScale, limit_scale};
pub use side::{Emphasis, Side, side, side_with};
