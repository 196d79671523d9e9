//! The whole page: four poses, the arm to move, the map, the strips, what is missing.

use super::{
    asked::{Asked, HELD_DOWN, RAMS},
    at_hand, drawing,
    lines::Lines,
};
use crate::{
    arms::ArmAtHand,
    desk::{Answer, Desk, page},
    page::Page,
};
use askama::Template;
use papers::{
    ArmFrame,
    drawing::{
        Mark,
        arm::{HeldBack, PinLabel, pin_sketch, strength_key},
        verdict_mark,
    },
};
use reckon::arm::shape::Joint;
use words::{Fineness, Told, way_code};
use yard::{arm::Direction, code::Coded};

#[derive(Template)]
#[template(path = "arm/arm.html")]
struct ArmPage {
    p: Page,
    here: String,
    name: String,
    first: Option<Told>,
    four: Vec<Shown>,
    not_picked: Vec<String>,
    /// What the tape survey says does not fit.
    findings: Vec<String>,
    /// What to measure next, the most useful first.
    next: Vec<String>,
    missing: Vec<String>,
    more_missing: String,
    moved: Option<Moved>,
    strips: Vec<Strip>,
    parked: Vec<Strip>,
    survey: String,
    /// Where nothing can be posed: the pins and their names.
    sketch: Option<Sketch>,
}

/// The pins with their numbers.
struct Sketch {
    svg: String,
    usual: bool,
    names: Vec<String>,
}

/// The part that moves.
struct Moved {
    drawing: String,
    tooth: String,
    sliders: Vec<Slider>,
    ways: Vec<Choice>,
    stances: Vec<Choice>,
    lines: Lines,
    map: Option<MapSaid>,
}

struct Slider {
    id: &'static str,
    label: String,
    slides: String,
    value: String,
}

struct Choice {
    value: &'static str,
    word: String,
    chosen: bool,
}

struct MapSaid {
    most: String,
    keys: Vec<(String, String)>,
}

/// A small drawing as the page shows it.
struct Shown {
    svg: String,
    mark: String,
    class: &'static str,
    word: String,
    lines: Vec<String>,
    link: String,
}

struct Strip {
    title: String,
    class: &'static str,
    mark: String,
    frames: Vec<Shown>,
}

/// Shows the page.
pub(crate) fn show(desk: &Desk, machine: &str, asked: &dyn Fn(&str) -> String) -> Answer {
    let (id, book, arm) = at_hand(desk, machine)?;
    let p = desk.page();
    let here = format!("{}/m/{id}", p.home());
    let frames = arm.frames(&p.words);
    let strip = |key: &str, frames: &[ArmFrame], good: bool| {
        let of: Vec<Shown> = frames
            .iter()
            .filter(|frame| frame.good == good)
            .map(|frame| shown(&p, &arm, frame, &here))
            .collect();
        (!of.is_empty()).then(|| Strip {
            title: p.t(key),
            class: class(good),
            mark: mark(good),
            frames: of,
        })
    };
    let (missing, more_missing) = missing(&p, &arm);
    let (findings, next) = survey(&p, &arm);
    page(&ArmPage {
        name: book.machine.name.clone(),
        first: p.words.arm_first_line(&arm.arm),
        four: frames
            .four
            .iter()
            .map(|frame| shown(&p, &arm, frame, &here))
            .collect(),
        not_picked: frames.not_picked.clone(),
        findings,
        next,
        missing,
        more_missing,
        moved: moved(&p, &arm, asked, &here),
        strips: [
            strip("arm-lesson-right", &frames.cut, true),
            strip("arm-lesson-wrong", &frames.cut, false),
        ]
        .into_iter()
        .flatten()
        .collect(),
        parked: [
            strip("arm-parked-well", &frames.parked, true),
            strip("arm-parked-badly", &frames.parked, false),
        ]
        .into_iter()
        .flatten()
        .collect(),
        sketch: sketch(&p, &arm),
        survey: format!("{here}/papers/survey-sheet.pdf"),
        here,
        p,
    })
}

fn class(good: bool) -> &'static str {
    if good { "fit" } else { "stand-down" }
}

fn mark(good: bool) -> String {
    verdict_mark(if good { Mark::Fit } else { Mark::StandDown })
}

fn shown(p: &Page, at_hand: &ArmAtHand, frame: &ArmFrame, here: &str) -> Shown {
    let out = at_hand.arm.shape.as_ref().map_or([50.0; 3], |shape| {
        [0, 1, 2].map(|ram| {
            let of = &shape.rams[ram];
            (frame.lengths[ram] - of.closed) / of.stroke * 100.0
        })
    });
    let [boom, dipper, bucket] = out.map(|out| format!("{:.1}", out.clamp(0.0, 100.0)));
    Shown {
        svg: frame.svg.clone(),
        mark: mark(frame.good),
        class: class(frame.good),
        word: p.t(if frame.good {
            "arm-four-use"
        } else {
            "arm-four-avoid"
        }),
        lines: frame.lines.clone(),
        link: format!("{here}/arm?boom={boom}&dipper={dipper}&bucket={bucket}#move"),
    }
}

fn sketch(p: &Page, at_hand: &ArmAtHand) -> Option<Sketch> {
    if at_hand.window.is_some() {
        return None;
    }
    let own = at_hand.arm.shape.as_ref().ok();
    Some(Sketch {
        svg: pin_sketch(own, &p.t("paper-survey-drawing")),
        usual: own.is_none(),
        names: PinLabel::ALL
            .iter()
            .map(|label| p.words.arm_named(label.id()))
            .collect(),
    })
}

/// No more than this is asked to be measured at a time.
const NEXT_SHOWN: usize = 3;

/// What the survey says, and what to measure next.
fn survey(p: &Page, at_hand: &ArmAtHand) -> (Vec<String>, Vec<String>) {
    let Some(survey) = &at_hand.arm.survey else {
        return Default::default();
    };
    let findings = survey.findings.iter().map(|one| p.words.arm_finding(one));
    let next = survey.next.iter().take(NEXT_SHOWN);
    (
        findings.collect(),
        next.map(|one| p.words.arm_next(one)).collect(),
    )
}

/// As many missing things as are listed; the rest is counted.
const LISTED: usize = 8;

fn missing(p: &Page, at_hand: &ArmAtHand) -> (Vec<String>, String) {
    let all = &at_hand.arm.missing;
    let listed = all.iter().take(LISTED);
    let mut lines: Vec<String> = listed
        .map(|missing| p.words.arm_lack_line(*missing))
        .collect();
    if !at_hand.arm.estimated.is_empty() {
        lines.push(p.t("arm-rams-estimated"));
    }
    let more = all.len().saturating_sub(LISTED);
    let more = if more > 0 {
        p.tn("arm-missing-more", "n", more)
    } else {
        String::new()
    };
    (lines, more)
}

fn moved(
    p: &Page,
    at_hand: &ArmAtHand,
    asked: &dyn Fn(&str) -> String,
    here: &str,
) -> Option<Moved> {
    let pose = Asked::of(p, at_hand, asked)?;
    let sliders = Joint::ALL.iter().zip(RAMS).map(|(joint, id)| {
        let ram = p.words.arm_joint(*joint);
        Slider {
            id,
            label: p.t1("arm-how-far", "ram", &ram),
            slides: p.t1("arm-slider", "ram", &ram),
            value: format!("{:.1}", pose.out[joint.index()]),
        }
    });
    let ways = Direction::ALL.iter().map(|way| Choice {
        value: way_code(*way),
        word: p.words.arm_way(*way),
        chosen: *way == pose.way,
    });
    Some(Moved {
        drawing: drawing::drawn(p, at_hand, &pose, true)?,
        tooth: format!("{} {}", pose.record.tooth.r, pose.record.tooth.z),
        sliders: sliders.collect(),
        ways: ways.collect(),
        stances: stances(p, at_hand, &pose),
        lines: Lines::of(p, at_hand, &pose, here),
        map: map(p, at_hand, &pose),
    })
}

fn stances(p: &Page, at_hand: &ArmAtHand, pose: &Asked) -> Vec<Choice> {
    let own = at_hand
        .arm
        .stances
        .iter()
        .enumerate()
        .map(|(at, stance)| Choice {
            value: stance.name.code(),
            word: p.words.arm_stance(stance.name),
            chosen: pose.stance == Some(at),
        });
    let held = Choice {
        value: HELD_DOWN,
        word: p.t("arm-held-down"),
        chosen: pose.stance.is_none(),
    };
    own.chain([held]).collect()
}

fn map(p: &Page, at_hand: &ArmAtHand, pose: &Asked) -> Option<MapSaid> {
    let map = at_hand.map(pose.way, pose.stance)?;
    let most = map.as_ref().as_ref().ok()?.most;
    let keys = [
        (HeldBack::ByWork, "arm-map-work"),
        (HeldBack::ByAnother, "arm-map-another"),
        (HeldBack::ByGround, "arm-map-ground"),
    ];
    Some(MapSaid {
        most: p.t1(
            "arm-map-most",
            "force",
            &p.words.arm_force(most, Fineness::Screen),
        ),
        keys: keys.map(|(by, key)| (strength_key(by), p.t(key))).into(),
    })
}
