//! The arm on paper: four poses for the cab, the sheet to take the tape to, teaching strips.

mod arm_sheet;
mod frames;
mod survey_sheet;
mod teaching_strips;

pub use arm_sheet::arm_sheet;
pub use frames::{ArmFrame, cut_frames, four_poses, parked_frames};
pub use survey_sheet::{SURVEY_DISTANCES, SurveyDistance, survey_sheet};
pub use teaching_strips::teaching_strips;
