//! Papers of upkeep: what is greased, and what comes next.

mod due_strip;
mod greasing_chart;

pub use due_strip::due_strip;
pub use greasing_chart::greasing_chart;
