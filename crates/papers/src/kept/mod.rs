//! Papers of what is kept: parts, the machine's history, the yard on one wall.

mod history;
mod parts_list;
mod wall_chart;

pub use history::{MOST_HISTORY_PHOTOS, history};
pub use parts_list::{parts_list, parts_on_side};
pub use wall_chart::{NEXT_ON_THE_WALL, OnTheWall, WallChart, wall_chart};
