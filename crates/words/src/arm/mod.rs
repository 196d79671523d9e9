//! The arm in words: numbers as its page and papers show them, limits, warnings, what is missing.

mod numbers;
mod survey;

use crate::{Told, Words};
use reckon::arm::{
    force::{Allowed, Governs},
    rest::ShutIn,
    shape::{Joint, Side},
};
use yard::{
    arm::{
        ArmOfBook, Direction, Missing, NotKnown, PartRecord, PoseWarning, TeachingPose,
        TeachingReason,
    },
    book::StanceName,
    code::Coded,
};

pub use numbers::Fineness;

/// A pressure below this is next to nothing, pascals: two bar, less than a gauge for such rams tells.
const NEXT_TO_NOTHING: f64 = 200_000.0;
/// Metres of tooth for a metre of ram below which a ram does not move the tooth.
const NO_ADVANCE: f64 = 1e-6;

impl Words {
    /// "boom", "dipper", "bucket".
    pub fn arm_joint(&self, joint: Joint) -> String {
        self.text(&format!("arm-{}", joint.code()))
    }

    /// The tooth over or under the ground.
    pub fn arm_height(&self, metres: f64) -> String {
        let key = if metres < 0.0 { "under" } else { "over" };
        let length = self.arm_length(metres.abs(), Fineness::Screen);
        self.say(&format!("arm-height-{key}"), &[("length", length.into())])
    }

    /// What holds the force back.
    pub fn arm_governs(&self, what: Governs) -> String {
        let ram = what.joint().map(|joint| self.arm_joint(joint));
        self.say(
            &format!("arm-governs-{}", what.code()),
            &[("ram", ram.unwrap_or_default().into())],
        )
    }

    /// The usable force in a direction, without what holds it back.
    pub fn arm_usable(
        &self,
        way: Direction,
        allows: Allowed,
        why: Governs,
        how: Fineness,
    ) -> String {
        let said = self.arm_way_said(way);
        let newtons = allows.newtons().unwrap_or(f64::INFINITY);
        if newtons > 0.0 {
            let force = self.arm_force(newtons, how);
            self.say(
                "arm-usable",
                &[("way", said.into()), ("force", force.into())],
            )
        } else {
            let why = self.arm_governs(why);
            self.say(
                "arm-usable-nothing",
                &[("way", said.into()), ("why", why.into())],
            )
        }
    }

    /// "Curling the bucket".
    pub fn arm_way_said(&self, way: Direction) -> String {
        self.text(&format!("arm-way-said-{}", way_code(way)))
    }

    /// "curl the bucket", for a choice.
    pub fn arm_way(&self, way: Direction) -> String {
        self.text(&format!("arm-way-{}", way_code(way)))
    }

    /// "loader bucket and feet".
    pub fn arm_stance(&self, stance: StanceName) -> String {
        self.text(&format!("arm-stance-{}", stance.code()))
    }

    /// "piston" or "rod".
    pub fn arm_side(&self, side: Side) -> String {
        self.text(match side {
            Side::Cap => "arm-side-cap",
            Side::Rod => "arm-side-rod",
        })
    }

    /// A warning of a pose.
    pub fn arm_warning(&self, warning: &PoseWarning) -> String {
        let (ram, stance) = match warning {
            PoseWarning::BeyondStroke(joint)
            | PoseWarning::OnItsStop(joint, _)
            | PoseWarning::NearDeadCentre(joint)
            | PoseWarning::CannotHoldItself(joint) => (self.arm_joint(*joint), String::new()),
            PoseWarning::TipsByItself(stance) => (String::new(), self.arm_stance(*stance)),
            PoseWarning::BelowGround => (String::new(), String::new()),
        };
        self.say(
            &format!("arm-warn-{}", warning.code()),
            &[("ram", ram.into()), ("stance", stance.into())],
        )
    }

    /// A name of the book's arm: a pin, a part, a way of standing; as it is where no word is known.
    pub fn arm_named(&self, subject: &str) -> String {
        ["arm-point-", "arm-part-", "arm-stance-"]
            .iter()
            .map(|set| format!("{set}{subject}"))
            .find(|key| self.has(key))
            .map_or_else(|| subject.to_owned(), |key| self.text(&key))
    }

    /// What is missing: "bore of the boom ram".
    pub fn arm_lack(&self, missing: Missing) -> String {
        self.lack(missing.code.code(), missing.subject)
    }

    /// What is missing, and how one comes by it.
    pub fn arm_lack_line(&self, missing: Missing) -> String {
        let how = self.gap_by(missing.unlock().by);
        self.say(
            "arm-missing-line",
            &[("what", self.arm_lack(missing).into()), ("how", how.into())],
        )
    }

    /// Why something is not known.
    pub fn arm_not_known(&self, why: &NotKnown) -> String {
        let what = match why {
            NotKnown::Shape(_) => self.text("arm-lack-shape"),
            other => self.lack(
                other.code(),
                other.missing().map_or("", |missing| missing.subject),
            ),
        };
        self.say("arm-not-known", &[("what", what.into())])
    }

    fn lack(&self, code: &str, subject: &str) -> String {
        self.say(
            &format!("arm-lack-{code}"),
            &[("part", self.arm_named(subject).into())],
        )
    }

    /// What a teaching pose teaches. `guessed`: its force rests on a guess and stays out.
    pub fn arm_why(&self, pose: &TeachingPose, guessed: bool, how: Fineness) -> Vec<String> {
        let key = format!("arm-why-{}", pose.why.code());
        match &pose.why {
            TeachingReason::HardPartFirst { ram, force } => {
                let first = self.say(&key, &[("ram", self.arm_joint(*ram).into())]);
                let force = (!guessed).then(|| {
                    let force = self.arm_force(*force, how);
                    self.say("arm-why-hard-part-force", &[("force", force.into())])
                });
                std::iter::once(first).chain(force).collect()
            }
            TeachingReason::CarriedClose => vec![self.text(&key)],
            TeachingReason::OnItsStop { ram, out } => {
                let end = self.text(if *out { "arm-end-out" } else { "arm-end-in" });
                vec![self.say(
                    &key,
                    &[("ram", self.arm_joint(*ram).into()), ("end", end.into())],
                )]
            }
            TeachingReason::FarOut { reach } => {
                let reach = self.arm_length(*reach, how);
                vec![self.say(&key, &[("reach", reach.into())])]
            }
        }
    }

    /// What is estimated to be shut in in each ram at rest.
    pub fn arm_rest(&self, rams: &[ShutIn; 3]) -> Vec<String> {
        let line = |(joint, ram): (Joint, &ShutIn)| {
            let name = self.arm_joint(joint);
            if ram.pressure < NEXT_TO_NOTHING {
                return self.say("arm-rest-none", &[("ram", name.into())]);
            }
            self.say(
                "arm-rest-line",
                &[
                    ("ram", name.into()),
                    ("pressure", self.arm_pressure(ram.pressure).into()),
                    ("side", self.arm_side(ram.side).into()),
                ],
            )
        };
        Joint::ALL.into_iter().zip(rams).map(line).collect()
    }

    /// Who does the hard part, who helps, who only scoops.
    pub fn arm_order(&self, parts: &[PartRecord; 3], how: Fineness) -> Vec<String> {
        let line = |(n, part): (usize, &PartRecord)| {
            let key = if part.advance.abs() < NO_ADVANCE {
                "arm-order-scoops"
            } else if n == 0 {
                "arm-order-first"
            } else {
                "arm-order-then"
            };
            let newtons = part.usable.0.newtons().unwrap_or_default();
            self.say(
                key,
                &[
                    ("ram", self.arm_joint(part.joint).into()),
                    ("force", self.arm_force(newtons, how).into()),
                ],
            )
        };
        parts.iter().enumerate().map(line).collect()
    }

    /// What has to be said before any number of an arm: that it is guessed, or not measured, or contradicts itself. None
    /// where its numbers are its own.
    pub fn arm_first_line(&self, arm: &ArmOfBook) -> Option<Told> {
        let key = match &arm.shape {
            Err(NotKnown::Missing(missing)) if missing.code.code() == "no-arm" => {
                let what = self.text("arm-no-arm");
                return Some(Told {
                    what,
                    next: String::new(),
                });
            }
            Err(NotKnown::Shape(_)) => "arm-does-not-close",
            Err(_) => "arm-nothing-yet",
            Ok(_) if !arm.troubles.is_empty() => "arm-does-not-close",
            Ok(_) if arm.guesses.unsettled => "arm-unsettled-first",
            Ok(_) if arm.guesses.shape => "arm-guess-first",
            Ok(_) if arm.guesses.any() => "arm-guess-weights",
            Ok(_) => return None,
        };
        Some(self.told(key, &[]))
    }
}

/// A direction's permanent name.
pub fn way_code(way: Direction) -> &'static str {
    match way {
        Direction::Curl => "curl",
        Direction::Crowd => "crowd",
        Direction::PushDown => "push-down",
        Direction::PullUp => "pull-up",
    }
}

#[cfg(test)]
mod tests {
    use crate::Words;
    use yard::arm::MissingCode;

    #[test]
    fn everything_that_may_be_missing_has_words() {
        let words = Words::english();
        for code in MissingCode::ALL {
            assert!(
                words.has(&format!("arm-lack-{}", code.code())),
                "{}",
                code.code()
            );
        }
    }
}
