//! What else is known of a pose, under headings: who works, how it stands, what is shut in, oil, lifting, swing, rods.

use super::asked::Asked;
use crate::{arms::ArmAtHand, page::Page};
use reckon::arm::shape::{Joint, Stop};
use words::Fineness;
use yard::arm::NotKnown;

/// A heading with lines.
pub(super) struct Said {
    pub(super) title: String,
    pub(super) lines: Vec<String>,
}

/// Everything else that is known; what rests on a guess stays out.
pub(super) fn sections(p: &Page, at_hand: &ArmAtHand, asked: &Asked, guessed: bool) -> Vec<Said> {
    let section = |key: &str, lines: Vec<String>| {
        (!lines.is_empty()).then(|| Said {
            title: p.t(key),
            lines,
        })
    };
    let all = [
        section(
            "arm-order-title",
            if guessed { Vec::new() } else { order(p, asked) },
        ),
        section(
            "arm-margins-title",
            if guessed {
                Vec::new()
            } else {
                margins(p, asked)
            },
        ),
        section(
            "arm-rest-title",
            if guessed { Vec::new() } else { rest(p, asked) },
        ),
        section("arm-oil-title", oil(p, at_hand, asked)),
        section("arm-lift-title", lift(p, at_hand, asked, guessed)),
        section("arm-swing-title", swing(p, asked, guessed)),
        section(
            "arm-column-title",
            if guessed {
                Vec::new()
            } else {
                columns(p, asked)
            },
        ),
    ];
    all.into_iter().flatten().collect()
}

fn order(p: &Page, asked: &Asked) -> Vec<String> {
    let parts = asked.record.force(asked.way).and_then(|force| force.order);
    let Ok(parts) = parts else {
        return Vec::new();
    };
    let mut lines = p.words.arm_order(&parts, Fineness::Screen);
    lines.push(p.t("arm-order-rule"));
    lines
}

fn margins(p: &Page, asked: &Asked) -> Vec<String> {
    let Some(standing) = asked.stance.and_then(|at| asked.record.footing.get(at)) else {
        return Vec::new();
    };
    let on = p.words.arm_stance(standing.stance);
    let figures = match &standing.figures {
        Ok(figures) => figures,
        Err(why) => return vec![p.words.arm_not_known(why)],
    };
    if !figures.stands {
        return vec![p.t1("arm-stands-not", "stance", &on)];
    }
    let mut lines = Vec::new();
    if let Some(slope) = figures.slopes.get(figures.weakest) {
        let angle = p.words.arm_angle(*slope);
        lines.push(p.t2("arm-stands-slope", "stance", &on, "angle", angle));
    }
    if let Ok(pads) = &figures.pad_pressure {
        let most = pads.iter().flatten().copied().fold(0.0, f64::max);
        lines.push(p.t1("arm-stands-pad", "pressure", &p.words.arm_pressure(most)));
    }
    if let Ok(drag) = figures.drags_at {
        let force = p.words.arm_force(drag, Fineness::Screen);
        lines.push(p.t1("arm-stands-drag", "force", &force));
    }
    lines
}

fn rest(p: &Page, asked: &Asked) -> Vec<String> {
    let rest = match &asked.record.rest {
        Ok(rest) => rest,
        Err(why) => return vec![p.words.arm_not_known(why)],
    };
    let mut lines = vec![p.t("arm-rest-estimated")];
    lines.extend(p.words.arm_rest(&rest.shut_in));
    for bled in rest.bled.iter().flatten() {
        for (joint, turned) in Joint::ALL.iter().zip(bled.turned) {
            if turned && *joint != bled.joint {
                let pressure = bled.rams[joint.index()].pressure;
                let args = [
                    ("ram", p.words.arm_joint(bled.joint).into()),
                    ("other", p.words.arm_joint(*joint).into()),
                    ("pressure", p.words.arm_pressure(pressure).into()),
                ];
                lines.push(p.words.say("arm-rest-bled", &args));
            }
        }
    }
    lines
}

fn oil(p: &Page, at_hand: &ArmAtHand, asked: &Asked) -> Vec<String> {
    let Ok(tank) = &asked.record.tank else {
        let why = at_hand.arm.tank.as_ref().err();
        return why
            .map(|why| p.words.arm_not_known(why))
            .into_iter()
            .collect();
    };
    let level = |key: &str, level: f64| {
        let level = p.words.arm_length(level, Fineness::Screen);
        p.t1(key, "level", &level)
    };
    let mut lines = Vec::new();
    if let Ok(full) = tank.level {
        lines.push(level("arm-oil-level", full));
    }
    if let Ok(below) = tank.below_all_in {
        lines.push(level("arm-oil-below", below));
    }
    let named = |id: &String| at_hand.rams.get(id).unwrap_or(id).clone();
    let taken: Vec<String> = tank.taken_as_in.iter().map(named).collect();
    if !taken.is_empty() && !lines.is_empty() {
        lines.push(p.t1("arm-oil-taken", "what", &taken.join(", ")));
    }
    lines
}

fn lift(p: &Page, at_hand: &ArmAtHand, asked: &Asked, guessed: bool) -> Vec<String> {
    if at_hand.arm.lifting.is_err() {
        return vec![p.t("arm-lift-not")];
    }
    let standing = match (&asked.record.lift, asked.stance) {
        (Ok(lift), Some(at)) if !guessed => lift.standing.get(at),
        (Err(why @ NotKnown::NotALiftingMachine(_)), _) => {
            return vec![p.words.arm_not_known(why)];
        }
        _ => None,
    };
    let rated = standing.and_then(|one| Some((one.stance, one.rated.ok()?)));
    let line = rated.map(|(stance, (force, _))| {
        p.t2(
            "arm-lift-rated",
            "stance",
            p.words.arm_stance(stance),
            "force",
            p.words.arm_force(force, Fineness::Screen),
        )
    });
    line.into_iter().collect()
}

fn swing(p: &Page, asked: &Asked, guessed: bool) -> Vec<String> {
    let force = asked.record.swing.as_ref().ok().filter(|_| !guessed);
    let force = force.and_then(|swing| swing.side_force.ok());
    let mut lines: Vec<String> = force
        .map(|force| {
            p.t1(
                "arm-swing-force",
                "force",
                &p.words.arm_force(force, Fineness::Screen),
            )
        })
        .into_iter()
        .collect();
    lines.push(p.t("arm-swing-never"));
    lines
}

fn columns(p: &Page, asked: &Asked) -> Vec<String> {
    let mut lines: Vec<String> = Joint::ALL
        .iter()
        .zip(&asked.record.columns)
        .filter_map(|(joint, column)| {
            let reserve = column.as_ref().ok()?.reserve_holding.ok()?;
            let stop = asked.record.rams[joint.index()].stop;
            let beyond = matches!(stop, Stop::TooLong(_) | Stop::TooShort(_));
            (!beyond).then(|| {
                let times = format!("{reserve:.1}");
                p.t2(
                    "arm-column-line",
                    "ram",
                    p.words.arm_joint(*joint),
                    "number",
                    times,
                )
            })
        })
        .collect();
    if !lines.is_empty() {
        lines.push(p.t("arm-column-caution"));
    }
    lines
}
