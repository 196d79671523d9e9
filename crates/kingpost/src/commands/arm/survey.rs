//! The pins of the arm, how well each is known, and what is missing.

use super::Subject;
use super::findings;
use super::missing::{missing, provisos};
use crate::{kit::Kit, rows::rows, said::Said};
use serde_json::{Value as Json, json};
use words::Arg;
use yard::{
    arm::{ArmOfBook, PinOfArm},
    code::Coded,
};

pub(super) fn run(kit: &Kit, subject: &Subject) -> Said {
    let arm = &subject.arm;
    let pins: Vec<(String, String)> = arm
        .pins
        .iter()
        .map(|pin| (pin.id.code().to_owned(), line(kit, pin)))
        .collect();
    let mut text = rows(&pins);
    let mut list = |heading: &str, lines: Vec<String>| {
        if !lines.is_empty() {
            text += &format!("\n{}\n", kit.t(heading));
            text += &lines
                .into_iter()
                .map(|line| format!("  {line}\n"))
                .collect::<String>();
        }
    };
    list(
        "arm-told-not-closing",
        arm.troubles
            .iter()
            .map(|trouble| kit.words.arm_shape_trouble(trouble))
            .collect(),
    );
    if let Some(survey) = &arm.survey {
        list(
            "arm-told-findings",
            survey
                .findings
                .iter()
                .map(|one| kit.words.arm_finding(one))
                .collect(),
        );
        list(
            "arm-told-next",
            survey
                .next
                .iter()
                .map(|one| kit.words.arm_next(one))
                .collect(),
        );
        list(
            "arm-told-sure",
            findings::tooth(kit, survey).into_iter().collect(),
        );
    }
    list(
        "arm-told-missing-heading",
        arm.missing.iter().map(|one| missing(kit, *one)).collect(),
    );
    let provisos = provisos(kit, arm);
    if !provisos.is_empty() {
        text += &format!("\n{provisos}");
    }
    Said::new(text, as_json(kit, &subject.name, arm))
}

/// `(0.980, 0.240) m on the boom · measured · ± 3 mm, ± 4 mm`.
fn line(kit: &Kit, pin: &PinOfArm) -> String {
    let known = kit.t(&format!("arm-told-known-{}", pin.known.code()));
    let args: [(&str, Arg<'_>); 4] = [
        ("along", format!("{:.3}", pin.at.r).into()),
        ("across", format!("{:.3} m", pin.at.z).into()),
        ("written", pin.on.code().into()),
        ("reason", known.into()),
    ];
    let place = kit.words.say("arm-told-pin-line", &args);
    match pin.plus_minus {
        Some(half) => format!(
            "{place} · ± {:.1} mm, ± {:.1} mm",
            half.r * 1000.0,
            half.z * 1000.0
        ),
        None => place,
    }
}

fn as_json(kit: &Kit, name: &str, arm: &ArmOfBook) -> Json {
    let pin = |pin: &PinOfArm| {
        json!({
            "id": pin.id.code(), "on": pin.on.code(), "at": [pin.at.r, pin.at.z], "known": pin.known.code(),
            "plus_minus": pin.plus_minus.map(|half| [half.r, half.z]),
        })
    };
    let missing = arm.missing.iter().map(|one| {
        let unlock = one.unlock();
        json!({ "code": one.code.code(), "of": one.subject, "table": unlock.table, "key": unlock.key, "what": missing(kit, *one) })
    });
    let troubles = arm.troubles.iter().map(
        |trouble| json!({ "code": trouble.code(), "what": kit.words.arm_shape_trouble(trouble) }),
    );
    json!({
        "machine": name,
        "unit": "m",
        "pins": arm.pins.iter().map(pin).collect::<Vec<_>>(),
        "missing": missing.collect::<Vec<_>>(),
        "survey": arm.survey.as_ref().map(|survey| findings::as_json(kit, survey)),
        "troubles": troubles.collect::<Vec<_>>(),
        "guesses": { "shape": arm.guesses.shape, "weights": arm.guesses.weights, "machine": arm.guesses.machine, "unsettled": arm.guesses.unsettled },
    })
}
