//! The large drawing: the arm in the pose asked, its rams told in words, the map under it.

use super::asked::Asked;
use crate::{
    arms::{ArmAtHand, LETTERS},
    page::Page,
};
use papers::drawing::arm::{ArmDrawing, RamLook, Standing, arm, arm_alone};
use reckon::arm::{pose::Placed, shape::Joint};
use words::Fineness;
use yard::arm::Dig;

/// The dig of the pose, where it may be shown: nothing that rests on a guess.
pub(super) fn dig(at_hand: &ArmAtHand, asked: &Asked) -> Option<Dig> {
    if at_hand.arm.guesses.any() {
        return None;
    }
    asked.record.dig(&at_hand.arm, asked.way, asked.stance).ok()
}

/// The whole drawing, or the arm alone to take the old one's place.
pub(super) fn drawn(p: &Page, at_hand: &ArmAtHand, asked: &Asked, whole: bool) -> Option<String> {
    let shape = at_hand.arm.shape.as_ref().ok()?;
    let window = at_hand.window?;
    let placed = Placed::at_lengths(shape, asked.lengths).ok()?;
    let dig = dig(at_hand, asked);
    let labels = Joint::ALL.map(|joint| label(p, dig.as_ref(), joint));
    let rams = Joint::ALL.map(|joint| RamLook {
        works: joint == asked.way.working(),
        loaded: dig.as_ref().map(|dig| dig.rams[joint.index()].side),
        label: &labels[joint.index()],
    });
    let force = dig.as_ref().and_then(|dig| dig.usable.0.newtons());
    let words = force.map_or_else(String::new, |force| {
        p.words.arm_force(force, Fineness::Screen)
    });
    let push = asked.record.force(asked.way).ok();
    let push = push.map(|force| (-force.cut.direction, words.as_str()));
    let standing = Standing::of(&at_hand.arm, asked.stance);
    let title = p.t1("arm-drawing-label", "said", &super::lines::place(p, asked));
    let what = ArmDrawing {
        shape,
        placed: &placed,
        rams,
        standing: &standing,
        push,
        cut: &[],
        window,
        letters: LETTERS,
        title: &title,
        id: "arm",
    };
    if whole {
        Some(arm(&what, &map(at_hand, asked)))
    } else {
        Some(arm_alone(&what))
    }
}

/// The marks of the map; empty where there is none.
pub(super) fn map(at_hand: &ArmAtHand, asked: &Asked) -> String {
    match at_hand.map(asked.way, asked.stance).as_deref() {
        Some(Ok(map)) => map.marks.clone(),
        _ => String::new(),
    }
}

fn label(p: &Page, dig: Option<&Dig>, joint: Joint) -> String {
    let ram = p.words.arm_joint(joint);
    let Some(dig) = dig else {
        return p.t1("arm-label-plain", "ram", &ram);
    };
    let key = if dig.working == joint {
        "arm-label-works"
    } else {
        "arm-label-holds"
    };
    let share = p.words.arm_share(dig.rams[joint.index()].share);
    p.t2(key, "ram", ram, "share", share)
}
