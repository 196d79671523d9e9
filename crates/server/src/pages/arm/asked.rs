//! What the address asks for: how far each ram is out, the direction, the way of standing, where the tooth is dragged to.

use crate::{arms::ArmAtHand, page::Page};
use words::{Words, way_code};
use yard::{
    arm::{Direction, PoseAsked, PoseRecord, drag, lengths_out, pose},
    code::Coded,
};

/// The names of the three rams in the address.
pub(super) const RAMS: [&str; 3] = ["boom", "dipper", "bucket"];

/// What is shown.
pub(super) struct Asked {
    /// Ram lengths, metres.
    pub(super) lengths: [f64; 3],
    /// The same as shares of the strokes, percent.
    pub(super) out: [f64; 3],
    /// What the tooth does.
    pub(super) way: Direction,
    /// What it stands on, by its place in the book; none = held down.
    pub(super) stance: Option<usize>,
    /// The pose.
    pub(super) record: PoseRecord,
    /// What was wrong with what was asked.
    pub(super) said: Vec<String>,
}

/// For `stance`: no footing is asked about.
pub(super) const HELD_DOWN: &str = "held-down";

impl Asked {
    /// Reads an address; nothing where the arm has no shape to pose. Nonsense is said and replaced, never refused.
    pub(super) fn of(
        p: &Page,
        at_hand: &ArmAtHand,
        asked: &dyn Fn(&str) -> String,
    ) -> Option<Asked> {
        let arm = &at_hand.arm;
        let shape = arm.shape.as_ref().ok()?;
        let mut said = Vec::new();
        let given = RAMS.map(asked);
        let mut lengths = if given.iter().all(String::is_empty) {
            first_pose(&p.words, at_hand).or_else(|| lengths_out(arm, [0.5; 3]).ok())?
        } else {
            let shares = given.map(|text| share(&text));
            if shares.iter().any(Option::is_none) {
                said.push(p.t("arm-odd-number"));
            }
            lengths_out(arm, shares.map(|share| share.unwrap_or(0.5))).ok()?
        };
        if let Some(wanted) = dragged_to(asked) {
            match drag(arm, lengths, wanted) {
                Ok(dragged) => {
                    lengths = dragged.lengths;
                    if !dragged.there {
                        said.push(p.t("arm-out-of-reach"));
                    }
                }
                Err(_) => said.push(p.t("arm-out-of-reach")),
            }
        }
        let record = match pose(arm, &PoseAsked::at(lengths)) {
            Ok(record) => record,
            Err(_) => {
                said.push(p.t("arm-no-such-pose"));
                lengths = lengths_out(arm, [0.5; 3]).ok()?;
                pose(arm, &PoseAsked::at(lengths)).ok()?
            }
        };
        let out = [0, 1, 2].map(|ram| {
            let of = &shape.rams[ram];
            (lengths[ram] - of.closed) / of.stroke * 100.0
        });
        Some(Asked {
            lengths,
            out,
            way: way(&asked("way")),
            stance: stance(at_hand, &asked("on")),
            record,
            said,
        })
    }
}

/// A direction by its name; drawing the dipper in where it is none.
pub(super) fn way(code: &str) -> Direction {
    let named = Direction::ALL.iter().find(|way| way_code(**way) == code);
    named.copied().unwrap_or(Direction::Crowd)
}

/// A way of standing by its name in the book; that which it digs from where it is none.
pub(super) fn stance(at_hand: &ArmAtHand, code: &str) -> Option<usize> {
    if code == HELD_DOWN {
        return None;
    }
    let stances = &at_hand.arm.stances;
    let named = stances.iter().position(|stance| stance.name.code() == code);
    named.or(at_hand.arm.digs_from)
}

/// A percentage as a share of the stroke.
fn share(text: &str) -> Option<f64> {
    let percent: f64 = text.trim().replace(',', ".").parse().ok()?;
    (0.0..=100.0).contains(&percent).then_some(percent / 100.0)
}

/// The place the tooth is dragged to, metres.
fn dragged_to(asked: &dyn Fn(&str) -> String) -> Option<reckon::arm::shape::Vector> {
    let number = |name: &str| -> Option<f64> {
        let value: f64 = asked(name).parse().ok()?;
        (value.abs() < 100.0).then_some(value)
    };
    Some(reckon::arm::shape::Vector::new(number("r")?, number("z")?))
}

/// The first of the four poses.
fn first_pose(words: &Words, at_hand: &ArmAtHand) -> Option<[f64; 3]> {
    let first = at_hand.frames(words).four.first()?;
    Some(first.lengths)
}
