//! The arm in words: numbers as its page and papers show them, limits, warnings, what is missing.

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

/// Newtons in a pound of force; pascals in a bar and in a pound on a square inch; metres in a foot. Source: by definition.
const NEWTONS_PER_LBF: f64 = 4.448_221_615_260_5;
const PASCALS_PER_BAR: f64 = 100_000.0;
const PASCALS_PER_PSI: f64 = 6_894.757_293_168;
const METRES_PER_INCH: f64 = 0.0254;

/// A pressure below this is next to nothing, pascals: two bar, less than a gauge for such rams tells.
const NEXT_TO_NOTHING: f64 = 200_000.0;
/// Metres of tooth for a metre of ram below which a ram does not move the tooth.
const NO_ADVANCE: f64 = 1e-6;

/// How finely a number is said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fineness {
    /// Three digits, for a screen that moves.
    Screen,
    /// Two digits, for paper: more than a tape can tell would be boast.
    Paper,
}

impl Fineness {
    fn digits(self) -> i32 {
        match self {
            Fineness::Screen => 3,
            Fineness::Paper => 2,
        }
    }
}

impl Words {
    /// "boom", "dipper", "bucket".
    pub fn arm_joint(&self, joint: Joint) -> String {
        self.text(&format!("arm-{}", joint.code()))
    }

    /// A force in newtons: "26.7 kN (6000 lbf)".
    pub fn arm_force(&self, newtons: f64, how: Fineness) -> String {
        let metric = format!("{} kN", figures(newtons / 1000.0, how.digits()));
        let imperial = format!("{} lbf", figures(newtons / NEWTONS_PER_LBF, how.digits()));
        self.both(&metric, &imperial)
    }

    /// A length in metres: "4.20 m (13 ft 9 in)"; below one metre in millimetres and inches.
    pub fn arm_length(&self, metres: f64, how: Fineness) -> String {
        let inches = metres / METRES_PER_INCH;
        let (metric, imperial) = if metres.abs() < 1.0 {
            let step = if how == Fineness::Paper { 10.0 } else { 1.0 };
            (
                format!("{} mm", plain((metres * 1000.0 / step).round() * step, 0)),
                format!("{} in", plain(inches, 1)),
            )
        } else {
            let places = if how == Fineness::Paper { 1 } else { 2 };
            (
                format!("{} m", plain(metres, places)),
                feet_and_inches(inches, how),
            )
        };
        self.both(&metric, &imperial)
    }

    /// A pressure in pascals: "64 bar (930 psi)", always two digits: it is an estimate.
    pub fn arm_pressure(&self, pascals: f64) -> String {
        let metric = format!("{} bar", figures(pascals / PASCALS_PER_BAR, 2));
        let imperial = format!("{} psi", figures(pascals / PASCALS_PER_PSI, 2));
        self.both(&metric, &imperial)
    }

    /// A share of what something may carry: "64 %".
    pub fn arm_share(&self, share: f64) -> String {
        self.say("arm-share", &[("number", plain(share * 100.0, 0).into())])
    }

    /// An angle in radians: "21°".
    pub fn arm_angle(&self, radians: f64) -> String {
        format!("{}°", plain(radians.to_degrees(), 0))
    }

    fn both(&self, metric: &str, imperial: &str) -> String {
        self.say(
            "in-both",
            &[("value", metric.into()), ("other", imperial.into())],
        )
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

/// "13 ft 9 in"; on paper to three inches, about as fine as a tenth of a metre.
fn feet_and_inches(inches: f64, how: Fineness) -> String {
    let step = if how == Fineness::Paper { 3.0 } else { 1.0 };
    let whole = (inches.abs() / step).round() * step;
    let sign = if inches < 0.0 { "−" } else { "" };
    let (feet, rest) = ((whole / 12.0).floor(), whole % 12.0);
    if rest == 0.0 {
        format!("{sign}{feet} ft")
    } else {
        format!("{sign}{feet} ft {rest} in")
    }
}

/// A number with so many digits that count, without an exponent: 26722 with 2 is 27000.
fn figures(value: f64, digits: i32) -> String {
    if value == 0.0 || !value.is_finite() {
        return plain(value, 0);
    }
    let mut whole = 1;
    let mut top = 10.0;
    while value.abs() >= top {
        whole += 1;
        top *= 10.0;
    }
    while value.abs() < top / 10.0 && whole > -6 {
        whole -= 1;
        top /= 10.0;
    }
    let places: i32 = digits - whole;
    if places >= 0 {
        plain(value, places as usize)
    } else {
        let step = (0..-places).fold(1.0, |step, _| step * 10.0);
        plain((value / step).round() * step, 0)
    }
}

/// A number with so many places, without a negative zero.
fn plain(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    let zero = text
        .trim_start_matches('-')
        .chars()
        .all(|c| matches!(c, '0' | '.'));
    if zero {
        text.trim_start_matches('-').to_owned()
    } else {
        text.replace('-', "−")
    }
}

#[cfg(test)]
mod tests {
    use super::{Fineness, figures};
    use crate::Words;
    use yard::arm::MissingCode;

    #[test]
    fn numbers_are_as_honest_as_the_tape() {
        assert_eq!(figures(26_722.6, 2), "27000");
        assert_eq!(figures(26.722, 3), "26.7");
        assert_eq!(figures(0.9961, 2), "1.00");
        assert_eq!(figures(-0.0, 2), "0");
        let words = Words::english();
        assert_eq!(
            words.arm_force(26_722.6, Fineness::Paper),
            "27 kN (6000 lbf)"
        );
        assert_eq!(
            words.arm_length(4.203, Fineness::Screen),
            "4.20 m (13 ft 9 in)"
        );
        assert_eq!(
            words.arm_length(-3.6466, Fineness::Paper),
            "−3.6 m (−12 ft)"
        );
        assert_eq!(words.arm_length(0.0534, Fineness::Screen), "53 mm (2.1 in)");
        assert_eq!(words.arm_pressure(6.381e6), "64 bar (930 psi)");
    }

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
