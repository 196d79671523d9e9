//! What the tape survey has to say as JSON, and how sure the tooth is.

use crate::kit::Kit;
use serde_json::{Value as Json, json};
use words::Arg;
use yard::arm::{MeasuredOne, NextMeasure, SurveyFinding, SurveyOfArm};

fn millimetres(metres: f64) -> String {
    format!("{:.0} mm", metres * 1000.0)
}

/// The survey as JSON; lengths in metres.
pub(super) fn as_json(kit: &Kit, survey: &SurveyOfArm) -> Json {
    let findings = survey
        .findings
        .iter()
        .map(|one| json!({ "code": one.code(), "lines": lines(one), "what": kit.words.arm_finding(one) }));
    let next = survey.next.iter().map(|one| match one {
        NextMeasure::Distance(from, to) => {
            json!({ "distance": [from, to], "what": kit.words.arm_next(one) })
        }
        NextMeasure::Again(MeasuredOne { line, .. }) => {
            json!({ "again": line, "what": kit.words.arm_next(one) })
        }
        NextMeasure::Pose(lengths) => json!({ "pose": lengths, "what": kit.words.arm_next(one) }),
    });
    let bar = |(length, half): (f64, Option<f64>)| json!({ "is": length, "plus_minus": half });
    json!({
        "complete": survey.complete, "checks": survey.checks, "chance": survey.chance, "widened": survey.widened,
        "lever": bar(survey.lever), "link": bar(survey.link),
        "tooth_plus_minus": survey.tooth.map(|(now, _)| now), "tooth_plus_minus_with_next": survey.tooth.map(|(_, then)| then),
        "findings": findings.collect::<Vec<_>>(), "next": next.collect::<Vec<_>>(),
    })
}

/// The lines of the book that a finding is about.
fn lines(finding: &SurveyFinding) -> Vec<u32> {
    match finding {
        SurveyFinding::NotRigid(one)
        | SurveyFinding::NotALength(one)
        | SurveyFinding::NeverCloses(one)
        | SurveyFinding::Misfit { one, .. } => vec![one.line],
        SurveyFinding::Suspects { all, .. } => all.iter().map(|one| one.line).collect(),
        _ => Vec::new(),
    }
}

/// How well the tooth's place is known over the whole reach, where the survey tells.
pub(super) fn tooth(kit: &Kit, survey: &SurveyOfArm) -> Option<String> {
    let (now, then) = survey.tooth?;
    let args: [(&str, Arg<'_>); 2] = [
        ("half", millimetres(now).into()),
        ("should", millimetres(then).into()),
    ];
    Some(kit.words.say("arm-told-tooth", &args))
}
