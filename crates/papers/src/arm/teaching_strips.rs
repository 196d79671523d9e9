//! Teaching strips: the same cut in the right order and in the wrong one; the arm parked well and badly.

use super::{
    arm_sheet::said_first,
    frames::{ArmFrame, cut_frames, parked_frames},
};
use crate::{
    PaperError, Sheet,
    drawing::{Mark, verdict_mark},
    typeset,
};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use words::Fineness;
use yard::arm::ArmOfBook;

/// Cautions at the foot of the page.
const CAUTIONS: [&str; 2] = ["caution-local-rules", "caution-figure"];
/// Names of the drawings: two strips of four, two ways of parking.
const FILES: [&str; 10] = [
    "f0.svg", "f1.svg", "f2.svg", "f3.svg", "f4.svg", "f5.svg", "f6.svg", "f7.svg", "f8.svg",
    "f9.svg",
];

/// The strips of this machine's own arm, as PDF. Where it cannot show them, the page says so.
///
/// Fails only where the typesetter does, or the address is too long.
pub fn teaching_strips(sheet: &Sheet<'_>, arm: &ArmOfBook) -> Result<Vec<u8>, PaperError> {
    let words = sheet.words;
    let mut pictures = BTreeMap::from([
        ("use.svg", verdict_mark(Mark::Fit)),
        ("avoid.svg", verdict_mark(Mark::StandDown)),
    ]);
    let cut = cut_frames(words, arm, Fineness::Paper, "c");
    let parked = parked_frames(words, arm, Fineness::Paper, "p");
    let (right, wrong): (Vec<_>, Vec<_>) = cut.into_iter().partition(|frame| frame.good);
    let (well, badly): (Vec<_>, Vec<_>) = parked.into_iter().partition(|frame| frame.good);
    let mut files = FILES.into_iter();
    let mut strip = |key: &str, good: bool, frames: Vec<ArmFrame>| {
        let shown: Vec<Value> = frames
            .into_iter()
            .zip(&mut files)
            .map(|(frame, file)| {
                pictures.insert(file, frame.svg);
                json!({ "file": file, "lines": frame.lines, "alt": frame.lines.join(" ") })
            })
            .collect();
        let mark = if good { "use.svg" } else { "avoid.svg" };
        json!({ "title": words.text(key), "mark": mark, "good": good, "frames": shown })
    };
    let strips = [
        strip("arm-lesson-right", true, right),
        strip("arm-lesson-wrong", false, wrong),
    ];
    let parked = [
        strip("arm-parked-well", true, well),
        strip("arm-parked-badly", false, badly),
    ];
    let none = strips
        .iter()
        .all(|strip| strip["frames"].as_array().is_none_or(Vec::is_empty));
    let intro = if arm.guesses.any() || arm.weights.is_err() {
        "paper-lesson-plain"
    } else {
        "paper-lesson-intro"
    };
    let title = sheet.t1("paper-lesson-title", "name", &sheet.book.machine.name);
    let data = json!({
        "frame": sheet.frame(&title, &CAUTIONS),
        "code": sheet.code(&format!("{}/arm", sheet.address), "paper-qr", &mut pictures)?,
        "first": (["arm-caution-swing", "arm-caution-under", "arm-caution-pressure"].map(|key| words.text(key))),
        "said": said_first(sheet, arm),
        "intro": words.text(intro),
        "title": words.text("arm-lesson-title"),
        "none": none.then(|| words.text("arm-lesson-none")),
        "strips": strips,
        "parked": { "title": words.text("arm-parked-title"), "ways": parked, "rule": words.text("arm-parked-rule") },
        "rule": words.text("arm-order-rule"),
    });
    typeset::pdf(&typeset::Document {
        markup: include_str!("teaching_strips.typ"),
        data,
        pictures,
    })
}
