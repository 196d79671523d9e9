//! Why there is no answer: what the book does not say, or a pose that the arm cannot take.

use super::Subject;
use crate::{kit::Kit, trouble::Trouble};
use reckon::arm::shape::{ArmShape, Joint};
use words::Arg;
use yard::arm::{ArmOfBook, Missing, NotKnown};

/// What has to be said beside every figure of this arm, each on its line; empty where all is the machine's own.
pub(super) fn provisos(kit: &Kit, arm: &ArmOfBook) -> String {
    let said = [
        (arm.guesses.unsettled, "arm-told-unsettled"),
        (
            arm.guesses.shape || arm.guesses.weights || arm.guesses.machine,
            "arm-told-guessed",
        ),
        (!arm.estimated.is_empty(), "arm-told-estimated"),
    ];
    let said = said.into_iter().filter(|(so, _)| *so);
    said.map(|(_, key)| format!("{}\n", kit.t(key))).collect()
}

/// Why a pose is impossible.
pub(super) fn impossible(kit: &Kit, why: &NotKnown) -> String {
    match why {
        NotKnown::Shape(trouble) => kit.words.arm_shape_trouble(trouble),
        other => kit.t1("poses-impossible-other", "reasons", other.code()),
    }
}

/// Why a ram of this length is impossible: it is longer or shorter than its stroke allows.
pub(super) fn beyond_stroke(kit: &Kit, arm: &ArmShape, joint: Joint, length: f64) -> String {
    let ram = arm.ram(joint);
    kit.words
        .arm_lengths("beyond-stroke", joint, length, (ram.closed, ram.extended()))
}

/// Something missing as the key of the book that would hold it.
pub(super) fn missing(kit: &Kit, missing: Missing) -> String {
    let unlock = missing.unlock();
    // Where there is but one of its kind, its code says which.
    let item = if missing.subject.is_empty() {
        missing.code.code()
    } else {
        missing.subject
    };
    let args: [(&str, Arg<'_>); 3] = [
        ("table", unlock.table.into()),
        ("key", unlock.key.into()),
        ("item", item.into()),
    ];
    kit.words.say("arm-told-missing-line", &args)
}

/// No answer about the whole arm: all that is missing for one, or where it does not close.
pub(super) fn no_answer(kit: &Kit, subject: &Subject, why: &NotKnown) -> Trouble {
    let (name, arm) = (subject.name.as_str(), &subject.arm);
    let (key, reasons) = match why {
        NotKnown::Shape(trouble) => (
            "arm-told-does-not-close",
            kit.words.arm_shape_trouble(trouble),
        ),
        _ => {
            let lines = arm
                .missing
                .iter()
                .map(|one| format!("  {}", missing(kit, *one)));
            (
                "arm-told-without-shape",
                lines.collect::<Vec<_>>().join("\n"),
            )
        }
    };
    kit.mistake(key, &[("name", name.into()), ("reasons", reasons.into())])
}
