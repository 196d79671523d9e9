//! The answer to one drag: ram positions, the arm's shapes, what it can do there. Small and quick.

use super::{asked::Asked, at_hand, drawing, lines::Lines};
use crate::{
    desk::{Answer, Desk},
    refusal::Refusal,
};
use askama::Template;
use axum::{Json, response::IntoResponse};
use serde_json::json;

/// Answers as JSON: `out` (percent), `tooth` (metres), `arm` (SVG shapes), `now` (the usable force; what governs it), `lines` (HTML), `map` (SVG marks) where asked for
/// with `map=1`. Nothing of it is kept.
pub(crate) fn show(desk: &Desk, machine: &str, asked: &dyn Fn(&str) -> String) -> Answer {
    let (id, _, arm) = at_hand(desk, machine)?;
    let p = desk.page();
    let here = format!("{}/m/{id}", p.home());
    let pose = Asked::of(&p, &arm, asked).ok_or(Refusal::NotFound)?;
    let shapes = drawing::drawn(&p, &arm, &pose, false).ok_or(Refusal::NotFound)?;
    let lines = Lines::of(&p, &arm, &pose, &here);
    let now = [&lines.usable, &lines.governs].map(String::clone);
    let tooth = pose.record.tooth;
    let mut answer = json!({
        "out": pose.out.map(|out| (out * 100.0).round() / 100.0),
        "tooth": [tooth.r, tooth.z],
        "arm": shapes,
        "now": now,
        "lines": lines.render()?,
    });
    if asked("map") == "1" {
        answer["map"] = drawing::map(&arm, &pose).into();
    }
    Ok(Json(answer).into_response())
}
