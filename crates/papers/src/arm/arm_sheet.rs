//! The arm sheet for the cab: four poses, the order of work, this machine's own numbers.

use super::frames::{cut_frames, four_poses};
use crate::{
    PaperError, Sheet,
    drawing::{Mark, verdict_mark},
    typeset,
};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use words::Fineness;
use yard::arm::{ArmOfBook, machine};

/// Cautions at the foot of the page.
const CAUTIONS: [&str; 2] = ["caution-local-rules", "caution-figure"];
/// The order of work in words alone.
const TAUGHT: [&str; 3] = [
    "arm-frame-dipper-draws",
    "arm-frame-bucket-scoops",
    "arm-frame-boom-clears",
];
/// Names of the four drawings.
const FILES: [&str; 4] = ["pose0.svg", "pose1.svg", "pose2.svg", "pose3.svg"];

/// Four poses of this machine's arm with what each teaches, the order of work, and its own numbers, as PDF.
///
/// Where the shape or a weight is a blank's guess, no force stands on it. Fails only where the typesetter does, or the
/// address is too long.
pub fn arm_sheet(sheet: &Sheet<'_>, arm: &ArmOfBook) -> Result<Vec<u8>, PaperError> {
    let words = sheet.words;
    let mut pictures = BTreeMap::from([
        ("use.svg", verdict_mark(Mark::Fit)),
        ("avoid.svg", verdict_mark(Mark::StandDown)),
    ]);
    let frames = four_poses(words, arm, Fineness::Paper, "pose");
    let mut poses = Vec::new();
    for (frame, file) in frames.into_iter().zip(FILES) {
        pictures.insert(file, frame.svg);
        let word = words.text(if frame.good {
            "arm-four-use"
        } else {
            "arm-four-avoid"
        });
        let alt = words.say(
            "arm-four-alt",
            &[
                ("what", word.clone().into()),
                ("why", frame.lines.join(" ").into()),
            ],
        );
        poses.push(json!({
            "file": file, "good": frame.good, "word": word, "alt": alt,
            "mark": if frame.good { "use.svg" } else { "avoid.svg" },
            "lines": frame.lines,
        }));
    }
    let title = sheet.t1("paper-arm-title", "name", &sheet.book.machine.name);
    let data = json!({
        "frame": sheet.frame(&title, &CAUTIONS),
        "code": sheet.code(&format!("{}/arm", sheet.address), "paper-qr", &mut pictures)?,
        "first": (["arm-caution-swing", "arm-caution-under", "arm-caution-pressure"].map(|key| words.text(key))),
        "said": said_first(sheet, arm),
        "intro": words.text("paper-arm-intro"),
        "poses": poses,
        "order": { "title": words.text("paper-arm-order"), "lines": order(sheet, arm) },
        "own": { "title": words.text("paper-arm-own"), "lines": own(sheet, arm) },
        "rule": words.text("arm-caution-rule"),
    });
    typeset::pdf(&typeset::Document {
        markup: include_str!("arm_sheet.typ"),
        data,
        pictures,
    })
}

/// What stands before any number, where something does.
pub(super) fn said_first(sheet: &Sheet<'_>, arm: &ArmOfBook) -> Value {
    let told = sheet.words.arm_first_line(arm);
    json!(told.map(|told| format!("{} {}", told.what, told.next)))
}

/// In the order everybody teaches it (common practice, no source), with this arm's own force where it has one.
fn order(sheet: &Sheet<'_>, arm: &ArmOfBook) -> Vec<String> {
    let words = sheet.words;
    let frames = cut_frames(words, arm, Fineness::Paper, "order");
    let right = frames.into_iter().filter(|frame| frame.good).skip(1);
    let mut lines: Vec<String> = right
        .map(|frame| {
            frame
                .lines
                .into_iter()
                .take(2)
                .collect::<Vec<_>>()
                .join(" ")
        })
        .collect();
    if lines.is_empty() {
        lines = TAUGHT.map(|key| words.text(key)).to_vec();
    }
    lines.push(words.text("arm-order-rule"));
    lines
}

fn own(sheet: &Sheet<'_>, arm: &ArmOfBook) -> Vec<String> {
    let words = sheet.words;
    if arm.guesses.any() || arm.shape.is_err() {
        return vec![words.text("paper-arm-guess")];
    }
    let record = machine(arm);
    let mut lines = Vec::new();
    let length = |key: &str, metres: f64| {
        let reach = words.arm_length(metres, Fineness::Paper);
        words.say(key, &[("reach", reach.into())])
    };
    if let Ok(reach) = &record.reach {
        if let Some(far) = reach.farthest_on_ground {
            lines.push(length("paper-arm-reach", far.placed.tooth.r));
        }
        lines.push(length("paper-arm-depth", -reach.deepest.placed.tooth.z));
    }
    if let Ok(standard) = &record.standard {
        for (key, force) in [
            ("paper-arm-curl", standard.curl.force),
            ("paper-arm-crowd", standard.crowd.force),
        ] {
            let force = words.arm_force(force, Fineness::Paper);
            lines.push(words.say(key, &[("force", force.into())]));
        }
    }
    lines.push(words.text("paper-arm-rounded"));
    lines
}
