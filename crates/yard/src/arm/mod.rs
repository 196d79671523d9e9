//! The arm of a machine in numbers: from its book to one record for a pose, and one for the whole machine.
//!
//! | step | what it gives |
//! | --- | --- |
//! | [`arm_of`] | the book's arm ready to reckon with, and everything it does not say |
//! | [`pose`] | every figure of one pose: [`PoseRecord`] |
//! | [`machine`] | what holds in any pose: reach, ranges, standard forces: [`MachineRecord`] |
//! | [`teaching_poses`] | four poses for the cab: two to use, two to avoid |
//! | [`strength_map`], [`strongest`], [`likely`] | the reach at a glance, its best pose, what governs and how likely |
//!
//! All values are SI: metres, radians, kilograms, newtons, pascals, cubic metres; only the oil's temperature is in degrees
//! Celsius. Points are in P: r outwards from the swing axis, z over the ground. A ram's thrust is positive where it
//! pushes its pins apart. What cannot be told is [`NotKnown`] and names what is missing: never a guess, never zero.

mod assembly;
mod at_rest;
mod dig;
mod drag;
mod footing;
mod forces;
mod lesson;
mod machine;
mod missing;
mod moving;
mod of_book;
mod pins;
mod plant;
mod pose;
mod rams;
mod reading;
mod record;
mod shape;
mod standing;
mod survey;
mod surveyed;
mod teaching;
mod under_force;

pub use dig::{Dig, RamPart};
pub use drag::{Dragged, drag};
pub use forces::pin_forces;
pub use lesson::{CutLesson, Frame, ParkedLesson, cut_lesson, parked_lesson};
pub use machine::{
    Cell, Likely, MachineRecord, MapGrid, PointOfApplication, RamRange, StandardForces, Strongest,
    likely, machine, strength_map, strongest,
};
pub use missing::{Missing, MissingCode, NotKnown, Told};
pub use of_book::{
    ArmOfBook, Guesses, LiftingRecorded, OtherRam, PinOfArm, Section, StanceOfArm, SwingOfArm,
    SwingOil, TankOfArm,
};
pub use pose::{lengths_of_extensions, lengths_out, pose, to_reach};
pub use reading::arm_of;
pub use record::{
    AtRest, BledRam, ColumnRecord, Cut, Direction, FootingFigures, FootingRecord, ForceRecord,
    HangingRam, LiftRecord, LimitRecord, PartRecord, PoseAsked, PoseRecord, PoseWarning, RamRecord,
    StanceForce, StanceLift, SwingRecord, TankRecord,
};
pub use surveyed::{MeasuredOne, MeasuredWhat, NextMeasure, SurveyFinding, SurveyOfArm};
pub use teaching::{
    OrderOfWork, TeachingPose, TeachingPoses, TeachingReason, order_of_work, teaching_poses,
};
pub use under_force::thrusts_under;
