//! What a pose can do, in sentences: the usable force first, then each ram, then what else is known.

use super::{
    asked::Asked,
    sections::{Said, sections},
};
use crate::{arms::ArmAtHand, page::Page};
use askama::Template;
use reckon::arm::shape::Joint;
use words::Fineness;
use yard::arm::{Dig, Told};

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
