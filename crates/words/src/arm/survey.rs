//! What the tape survey has to say, and why a shape does not close.

use crate::{Arg, Words};
use reckon::arm::shape::{Joint, ShapeTrouble};
use yard::arm::{MeasuredOne, MeasuredWhat, NextMeasure, SurveyFinding};

fn millimetres(metres: f64) -> String {
    format!("{:.0} mm", metres * 1000.0)
}

/// A length as it is said in a sentence, in metres to the tenth of a millimetre.
fn metres(length: f64) -> String {
    format!("{length:.4} m")
}

impl Words {
    /// What was measured, with its line in the book: `line 42: boom-foot to dipper-pin`.
    fn arm_measured(&self, one: &MeasuredOne) -> String {
        let line: (&str, Arg<'_>) = ("line", one.line.into());
        let say = |key: &str, args: &[(&str, Arg<'_>)]| {
            self.say(&format!("arm-told-measured-{key}"), args)
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
    pub fn arm_next(&self, next: &NextMeasure) -> String {
        match next {
            NextMeasure::Distance(from, to) => self.say(
                "arm-told-next-distance",
                &[("from", (*from).into()), ("to", (*to).into())],
            ),
            NextMeasure::Again(one) => {
                self.with_one("arm-told-next-again", "what", self.arm_measured(one))
            }
            NextMeasure::Pose(lengths) => {
                let [boom, dipper, bucket] = lengths.map(millimetres);
                let args: [(&str, Arg<'_>); 3] = [
                    ("boom", boom.into()),
                    ("dipper", dipper.into()),
                    ("bucket", bucket.into()),
                ];
                self.say("arm-told-next-pose", &args)
            }
        }
    }

    /// A finding, and what would tell more.
    pub fn arm_finding(&self, finding: &SurveyFinding) -> String {
        let key = format!("arm-told-finding-{}", finding.code());
        let names = |pins: &[&str]| self.list(pins);
        let with_more = |said: String, further: &Option<NextMeasure>| match further {
            Some(further) => format!(
                "{said} {}",
                self.with_one("arm-told-finding-further", "what", self.arm_next(further))
            ),
            None => said,
        };
        match finding {
            SurveyFinding::NotRigid(one)
            | SurveyFinding::NotALength(one)
            | SurveyFinding::NeverCloses(one) => {
                self.with_one(&key, "what", self.arm_measured(one))
            }
            SurveyFinding::NothingFitted => self.text(&key),
            SurveyFinding::Misfit {
                one,
                error,
                should_be,
                plus_minus,
                likelihood,
            } => {
                let args: [(&str, Arg<'_>); 5] = [
                    ("what", self.arm_measured(one).into()),
                    ("off", millimetres(*error).into()),
                    ("should", millimetres(*should_be).into()),
                    ("half", millimetres(*plus_minus).into()),
                    ("percent", format!("{:.0} %", likelihood * 100.0).into()),
                ];
                self.say(&key, &args)
            }
            SurveyFinding::Suspects { all, further } => {
                let all: Vec<String> = all.iter().map(|one| self.arm_measured(one)).collect();
                with_more(self.with_one(&key, "reasons", self.list(&all)), further)
            }
            SurveyFinding::Impossible { pins, excess } => {
                let args: [(&str, Arg<'_>); 2] = [
                    ("reasons", names(pins).into()),
                    ("off", millimetres(*excess).into()),
                ];
                self.say(&key, &args)
            }
            SurveyFinding::EitherSide { pins, further } => {
                with_more(self.with_one(&key, "reasons", names(pins)), further)
            }
            SurveyFinding::DoesNotClose(joint, trouble) => {
                let args: [(&str, Arg<'_>); 2] = [
                    ("joint", joint.code().into()),
                    ("what", self.arm_shape_trouble(trouble).into()),
                ];
                self.say(&key, &args)
            }
        }
    }

    /// What does not close, in words.
    pub fn arm_shape_trouble(&self, trouble: &ShapeTrouble) -> String {
        match *trouble {
            ShapeTrouble::TriangleOpen {
                joint,
                length,
                between,
            } => self.arm_lengths("triangle-open", joint, length, between),
            ShapeTrouble::LinkageOpen { .. } => self.text("poses-impossible-linkage-open"),
            ShapeTrouble::DeadCentre { joint } => {
                self.with_one("poses-impossible-dead-centre", "joint", joint.code())
            }
            ref other => self.with_one("poses-impossible-other", "reasons", other.code()),
        }
    }

    /// A ram length that is none, beside those that are.
    pub fn arm_lengths(&self, key: &str, joint: Joint, length: f64, between: (f64, f64)) -> String {
        let args: [(&str, Arg<'_>); 4] = [
            ("joint", joint.code().into()),
            ("length", metres(length).into()),
            ("least", metres(between.0).into()),
            ("most", metres(between.1).into()),
        ];
        self.say(&format!("poses-impossible-{key}"), &args)
    }

    fn with_one<'a>(&self, key: &str, name: &'a str, what: impl Into<Arg<'a>>) -> String {
        self.say(key, &[(name, what.into())])
    }
}
