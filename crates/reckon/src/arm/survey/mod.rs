//! The tape survey: from distances between pins and a few poses to where every pin is, and how surely.
//!
//! [`solve`] takes a [`Survey`] and gives [`Solved`]. Distances between pins of one rigid body ([`Body`]), heights and level
//! distances of the post's pins, lever and link, and [`Reading`]s of poses are fitted together by weighted least squares,
//! beginning from a first guess.
//!
//! - **Nothing is guessed silently.** What the measurements leave open is in `lacking`, with the distances that settle it;
//!   whatever depends on it is refused ([`NotSaid`]). Pins that fit as well on the other side are in `either_side`.
//! - **Nothing is struck silently.** A measurement that does not fit stays in the fit, widens all uncertainties, and is
//!   named in `doubts`; where nothing can tell which of several it is, all of them are.
//! - **The uncertainties are the tape's own**, given beforehand, so intervals are of the normal distribution ([`Z95`]).
//! - **Forces are forgiving, places are not.** With a tape good to 3 mm the forces come out within 2 %, the tooth tens of
//!   millimetres off: the pins by the dipper's and bucket's joints are close together. [`Solved::spread_of`] carries the
//!   uncertainty to anything reckoned from the pins, [`Solved::tooth_at`] to the tooth. A few poses mend it.
//!
//! | file | what |
//! | --- | --- |
//! | `asked` | what was measured, and what of it cannot be used |
//! | `pin`, `geometry`, `assembly` | pins and bodies, the list of unknowns, mirror assemblies |
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
