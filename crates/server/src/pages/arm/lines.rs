//! What a pose can do, in sentences: the usable force first, then each ram, then what else is known.

use super::asked::Asked;
use crate::{arms::ArmAtHand, page::Page};
use askama::Template;
use reckon::arm::shape::{Joint, Stop};
use words::Fineness;
use yard::arm::{Dig, NotKnown, Told};

/// See the template: the part of the page that follows the arm.
#[derive(Template)]
#[template(path = "arm/lines.html")]
pub(super) struct Lines {
    p: Page,
    said: Vec<String>,
    place: String,
    /// The usable force and what governs it.
    pub(super) usable: String,
    pub(super) governs: String,
    alone: String,
    figure: Option<String>,
    rams: Vec<RamRow>,
    warnings: Vec<String>,
    sections: Vec<Said>,
}

struct RamRow {
    name: String,
    out: String,
    does: String,
    share: String,
    length: String,
}

/// A heading with lines.
struct Said {
    title: String,
    lines: Vec<String>,
}

impl Lines {
    /// All that is said of the pose.
    pub(super) fn of(p: &Page, at_hand: &ArmAtHand, asked: &Asked, here: &str) -> Lines {
        let guessed = at_hand.arm.guesses.any();
        let dig = asked.record.dig(&at_hand.arm, asked.way, asked.stance);
        let shown = dig.as_ref().ok().filter(|_| !guessed);
        let (usable, governs) = force(p, asked, guessed, &dig);
        let alone = shown.and_then(|dig| {
            let alone = dig.arm_alone.0.newtons()?;
            let less = dig.usable.0.newtons()? < alone;
            less.then(|| {
                p.t1(
                    "arm-alone",
                    "force",
                    &p.words.arm_force(alone, Fineness::Screen),
                )
            })
        });
        let out = asked.out.map(|out| format!("{out:.2}"));
        Lines {
            said: asked.said.clone(),
            place: place(p, asked),
            usable,
            governs,
            alone: alone.unwrap_or_default(),
            figure: shown.map(|_| figure_link(at_hand, asked, here, &out)),
            rams: Joint::ALL.map(|joint| row(p, asked, shown, joint)).into(),
            warnings: asked
                .record
                .warnings
                .iter()
                .map(|warning| p.words.arm_warning(warning))
                .collect(),
            sections: sections(p, at_hand, asked, guessed),
            p: p.clone(),
        }
    }
}

/// Where the tooth is.
pub(super) fn place(p: &Page, asked: &Asked) -> String {
    let tooth = asked.record.tooth;
    p.t2(
        "arm-reads",
        "reach",
        p.words.arm_length(tooth.r, Fineness::Screen),
        "height",
        p.words.arm_height(tooth.z),
    )
}

fn force(p: &Page, asked: &Asked, guessed: bool, dig: &Told<Dig>) -> (String, String) {
    let unknown = || {
        p.t1(
            "arm-usable-unknown",
            "way",
            &p.words.arm_way_said(asked.way),
        )
    };
    match dig {
        _ if guessed => (unknown(), String::new()),
        Ok(dig) => {
            let (allows, why) = dig.usable;
            let said = p.words.arm_usable(asked.way, allows, why, Fineness::Screen);
            let governs = allows.newtons().is_some_and(|force| force > 0.0);
            (
                said,
                if governs {
                    p.words.arm_governs(why)
                } else {
                    String::new()
                },
            )
        }
        Err(why) => (unknown(), p.words.arm_not_known(why)),
    }
}

fn figure_link(at_hand: &ArmAtHand, asked: &Asked, here: &str, out: &[String; 3]) -> String {
    let on = asked.stance.and_then(|at| at_hand.arm.stances.get(at));
    let on = on.map_or(super::asked::HELD_DOWN, |stance| {
        yard::code::Coded::code(stance.name)
    });
    let [boom, dipper, bucket] = out;
    let way = words::way_code(asked.way);
    format!("{here}/arm/figure?boom={boom}&dipper={dipper}&bucket={bucket}&way={way}&on={on}")
}

fn row(p: &Page, asked: &Asked, dig: Option<&Dig>, joint: Joint) -> RamRow {
    let ram = &asked.record.rams[joint.index()];
    let length = p.words.arm_length(ram.length, Fineness::Screen);
    let works = joint == asked.way.working();
    let share = dig.map(|dig| p.words.arm_share(dig.rams[joint.index()].share));
    RamRow {
        name: p.t1("arm-ram-named", "ram", &p.words.arm_joint(joint)),
        out: p.t1("arm-share", "number", &format!("{:.0}", ram.out * 100.0)),
        does: p.t(if works {
            "arm-does-works"
        } else {
            "arm-does-holds"
        }),
        share: share.unwrap_or_default(),
        length,
    }
}

fn sections(p: &Page, at_hand: &ArmAtHand, asked: &Asked, guessed: bool) -> Vec<Said> {
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
