//! What the tape survey has to say, in words and as JSON.

use super::missing::shape_trouble;
use crate::kit::Kit;
use serde_json::{Value as Json, json};
use words::Arg;
use yard::arm::{MeasuredOne, MeasuredWhat, NextMeasure, SurveyFinding, SurveyOfArm};

fn millimetres(metres: f64) -> String {
    format!("{:.0} mm", metres * 1000.0)
}

/// What was measured, with its line in the book: `line 42: boom-foot to dipper-pin`.
fn measured(kit: &Kit, one: &MeasuredOne) -> String {
    let line: (&str, Arg<'_>) = ("line", one.line.into());
    let say = |key: &str, args: &[(&str, Arg<'_>)]| {
        kit.words.say(&format!("arm-told-measured-{key}"), args)
    };
    match one.what {
        MeasuredWhat::Distance(from, to) => say(
            "distance",
            &[line, ("from", from.into()), ("to", to.into())],
        ),
        MeasuredWhat::Ram(joint) => say("ram", &[line, ("joint", joint.code().into())]),
        MeasuredWhat::ToothHeight => say("tooth-height", &[line]),
        MeasuredWhat::Reach => say("reach", &[line]),
    }
}

/// Something to measure.
pub(super) fn next(kit: &Kit, next: &NextMeasure) -> String {
    match next {
        NextMeasure::Distance(from, to) => kit.words.say(
            "arm-told-next-distance",
            &[("from", (*from).into()), ("to", (*to).into())],
        ),
        NextMeasure::Again(one) => kit.t1("arm-told-next-again", "what", measured(kit, one)),
        NextMeasure::Pose(lengths) => {
            let [boom, dipper, bucket] = lengths.map(millimetres);
            let args: [(&str, Arg<'_>); 3] = [
                ("boom", boom.into()),
                ("dipper", dipper.into()),
                ("bucket", bucket.into()),
            ];
            kit.words.say("arm-told-next-pose", &args)
        }
    }
}

/// A finding, and what would tell more.
pub(super) fn finding(kit: &Kit, finding: &SurveyFinding) -> String {
    let key = format!("arm-told-finding-{}", finding.code());
    let names = |pins: &[&str]| {
        kit.words
            .list(&pins.iter().map(|pin| (*pin).to_owned()).collect::<Vec<_>>())
    };
    let with_more = |said: String, further: &Option<NextMeasure>| match further {
        Some(further) => format!(
            "{said} {}",
            kit.t1("arm-told-finding-further", "what", next(kit, further))
        ),
        None => said,
    };
    match finding {
        SurveyFinding::NotRigid(one)
        | SurveyFinding::NotALength(one)
        | SurveyFinding::NeverCloses(one) => kit.t1(&key, "what", measured(kit, one)),
        SurveyFinding::NothingFitted => kit.t(&key),
        SurveyFinding::Misfit {
            one,
            error,
            should_be,
            plus_minus,
            likelihood,
        } => {
            let args: [(&str, Arg<'_>); 5] = [
                ("what", measured(kit, one).into()),
                ("off", millimetres(*error).into()),
                ("should", millimetres(*should_be).into()),
                ("half", millimetres(*plus_minus).into()),
                ("percent", format!("{:.0} %", likelihood * 100.0).into()),
            ];
            kit.words.say(&key, &args)
        }
        SurveyFinding::Suspects { all, further } => {
            let all: Vec<String> = all.iter().map(|one| measured(kit, one)).collect();
            with_more(kit.t1(&key, "reasons", kit.words.list(&all)), further)
        }
        SurveyFinding::Impossible { pins, excess } => {
            let args: [(&str, Arg<'_>); 2] = [
                ("reasons", names(pins).into()),
                ("off", millimetres(*excess).into()),
            ];
            kit.words.say(&key, &args)
        }
        SurveyFinding::EitherSide { pins, further } => {
            with_more(kit.t1(&key, "reasons", names(pins)), further)
        }
        SurveyFinding::DoesNotClose(joint, trouble) => {
            let args: [(&str, Arg<'_>); 2] = [
                ("joint", joint.code().into()),
                ("what", shape_trouble(kit, trouble).into()),
            ];
            kit.words.say(&key, &args)
        }
    }
}

/// The survey as JSON; lengths in metres.
pub(super) fn as_json(kit: &Kit, survey: &SurveyOfArm) -> Json {
    let findings = survey
        .findings
        .iter()
        .map(|one| json!({ "code": one.code(), "lines": lines(one), "what": finding(kit, one) }));
    let next = survey.next.iter().map(|one| match one {
        NextMeasure::Distance(from, to) => {
            json!({ "distance": [from, to], "what": next(kit, one) })
        }
        NextMeasure::Again(MeasuredOne { line, .. }) => {
            json!({ "again": line, "what": next(kit, one) })
        }
        NextMeasure::Pose(lengths) => json!({ "pose": lengths, "what": next(kit, one) }),
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
