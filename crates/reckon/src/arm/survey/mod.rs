//! The tape survey: from distances between pins and a few poses to where every pin is, and how surely.
//!
//! | file | what |
//! | --- | --- |
//! | `asked` | what was measured, and what of it cannot be used |
//! | `pin`, `geometry`, `assembly` | pins and links, the list of unknowns, mirror assemblies |
//! | `posed`, `rows`, `matrix`, `fit` | each measurement as a row, and least squares |
//! | `start`, `adjust` | where to begin, mirror images, all of it together |
//! | `reliability`, `chance`, `doubt`, `triangles` | what does not fit |
//! | `lacking`, `advice` | what is missing, what to measure next |
//! | `closing`, `spread`, `numbers`, `solved` | what it comes to |

mod adjust;
mod advice;
mod asked;
mod assembly;
mod chance;
mod closing;
mod doubt;
mod fit;
mod geometry;
mod lacking;
mod matrix;
mod numbers;
mod pin;
mod posed;
mod reliability;
mod rows;
mod solved;
mod spread;
mod start;
mod triangles;

pub use advice::Advice;
pub use asked::{Fault, MOST, Part, Reading, Survey, Taped, Which};
pub use chance::{CRITICAL, Z95, chi_square_tail};
pub use closing::{Closing, NotClosing};
pub use doubt::Doubt;
pub use geometry::{Assembly, Geometry, RamEnds, UNKNOWNS};
pub use lacking::{Further, Lacking};
pub use pin::{Body, Pin};
pub use posed::PosedTooth;
pub use reliability::Tested;
pub use solved::{EitherSide, Overall, Solved, all_distances, solve};
pub use spread::{NotSaid, PinFix, SpreadOf};
pub use triangles::ImpossibleTriangle;
