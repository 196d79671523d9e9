//! How strong the arm is over its whole reach: a kernel without angles, run over many poses at once.

mod batch;
mod constants;
mod kernel;
mod likely;
mod map;

pub use batch::{Columns, InstructionSet};
pub use kernel::{Direction, Kernel, Strength};
pub use likely::{Likely, likely};
pub use map::{Cell, MapGrid, Strongest, strength_map, strongest};
