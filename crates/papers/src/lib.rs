//! Drawings as SVG and documents as PDF: everything that is drawn or typeset, on screen and on paper alike.

pub mod drawing;

mod arm;
mod arrival;
mod handover;
mod kept;
mod trust;
mod upkeep;
mod walkround;

mod sheet;

mod frame;
mod picture;
mod qr;
mod typeset;

pub use arm::{
    ArmFrame, SURVEY_DISTANCES, SurveyDistance, arm_sheet, cut_frames, four_poses, parked_frames,
    survey_sheet, teaching_strips,
};
pub use arrival::arrival_sheet;
pub use handover::{
    MOST_PHOTOS, PrintedFinding, PrintedPhoto, finding_sheet, stand_down_tag, stand_down_tag_to,
};
pub use kept::{
    MOST_HISTORY_PHOTOS, NEXT_ON_THE_WALL, OnTheWall, WallChart, history, parts_list,
    parts_on_side, wall_chart,
};
pub use sheet::{PaperError, PaperSize, Sheet};
pub use trust::{TrustSheet, trust_sheet};
pub use upkeep::{due_strip, greasing_chart};
pub use walkround::{AnswerWord, answer_words, read_answer_word, round_sheet};
