//! The verdict in words: its name, its reasons with what to do next, what it holds for.

use crate::{Arg, Names, Told, Words};
use quantity::{Exact, Side};
use yard::{
    book::{About, LeakClass},
    code::Coded,
    entry::MovePermit,
    handover::{Holds, Judgement, Reason, Verdict, What},
};

type Args<'a> = Vec<(&'static str, Arg<'a>)>;

impl Words {
    /// The verdict's name: "Fit to run", "Run with care", "Stand down"; "Walk round first" where it is stood down only because
    /// something is not known yet.
    pub fn verdict(&self, judgement: &Judgement) -> String {
        self.text(verdict_key(judgement))
    }

    /// What the verdict means for who reads it.
    pub fn verdict_means(&self, judgement: &Judgement) -> String {
        self.text(&format!("{}.means", verdict_key(judgement)))
    }

    /// The name of a verdict kept as evidence, by its code; the code itself where it is none of ours.
    pub fn verdict_code(&self, code: &str) -> String {
        let known = [Verdict::Fit, Verdict::Care, Verdict::StandDown]
            .into_iter()
            .find(|verdict| verdict.code() == code);
        known.map_or_else(|| code.to_owned(), |verdict| self.name(verdict))
    }

    /// A reason of a verdict: what is so, and what to do next.
    pub fn reason(&self, reason: &Reason, names: &dyn Names) -> Told {
        let point = match &reason.point {
            Some(point) => self.point(point, names),
            None => self.text("the-machine"),
        };
        let (detail, mut args) = self.detail(&reason.what, names);
        args.push(("point", point.into()));
        let code = reason.what.code();
        match detail {
            Some(detail) => self.told(&format!("reason-{code}-{detail}"), &args),
            None => self.told(&format!("reason-{code}"), &args),
        }
    }

    /// What a verdict holds for: "For this start, by Odalys, until 15:00." `permit` is the move permit named in it, where one is.
    pub fn holds(
        &self,
        judgement: &Judgement,
        permit: Option<&MovePermit>,
        names: &dyn Names,
    ) -> String {
        match (judgement.verdict, permit) {
            (Verdict::StandDown, Some(permit)) => self.permit(permit, names),
            (Verdict::StandDown, None) => self.text("holds-nothing"),
            _ => self.holds_start(&judgement.holds, names),
        }
    }

    /// A permit to move, in a sentence.
    pub fn permit(&self, permit: &MovePermit, names: &dyn Names) -> String {
        let until = self.until(permit.until, names.now(), names.zone());
        let args = [
            ("far", permit.how_far.text().into()),
            ("person", self.person(permit.who, names).into()),
            ("until", until.into()),
            ("how", permit.how.as_str().into()),
        ];
        self.say("holds-permit", &args)
    }

    fn holds_start(&self, holds: &Holds, names: &dyn Names) -> String {
        let mut args: Args<'_> = vec![("person", self.person(holds.person, names).into())];
        args.extend(
            holds
                .until
                .map(|until| ("until", self.until(until, names.now(), names.zone()).into())),
        );
        args.extend(
            holds
                .until_hours
                .as_ref()
                .map(|hours| ("hours", self.hours_number(hours).into())),
        );
        let key = match (holds.until, &holds.until_hours) {
            (None, None) => "holds",
            (Some(_), None) => "holds-until",
            (None, Some(_)) => "holds-hours",
            (Some(_), Some(_)) => "holds-until-hours",
        };
        self.say(key, &args)
    }

    /// What goes behind a reason's code in its key, and its arguments besides the point.
    fn detail<'a>(&self, what: &'a What, names: &dyn Names) -> (Option<&'static str>, Args<'a>) {
        let item = |id| ("name", self.item(id, names).into());
        match what {
            What::PinClip(state) => (Some(state.code()), vec![]),
            What::Bolts(state, how_many) => (Some(state.code()), vec![("n", (*how_many).into())]),
            What::Function(_, state) => (Some(state.code()), vec![]),
            What::Look(_, state) => (Some(state.code()), vec![]),
            What::Structure(state) => (Some(state.code()), vec![]),
            What::Hose(state) => (Some(state.code()), vec![]),
            What::Leak(about, class) => (Some(leak_detail(*about, *class)), vec![]),
            What::Fluid(looks) => (Some(looks.code()), vec![]),
            What::Level(reads) => (Some(reads.code()), vec![]),
            What::Refused { left, allowed } => self.refused(left.as_ref(), allowed.as_ref()),
            What::LevelPose {
                read_in,
                mark_is_for,
            } => {
                let pose = |name, id: &Option<_>| (name, self.pose(id.as_ref(), names).into());
                let detail = match (read_in, mark_is_for) {
                    (_, None) => Some("not-in-book"),
                    (None, _) => Some("not-said"),
                    _ => None,
                };
                (
                    detail,
                    vec![pose("pose", read_in), pose("mark", mark_is_for)],
                )
            }
            What::Outside { read, side, limit } => {
                (Some(side_detail(*side)), self.measured_against(read, limit))
            }
            What::TooClose { read, limit, .. } => (None, self.measured_against(read, limit)),
            What::Fault { what, severity } => (Some(severity.code()), vec![("what", what.into())]),
            What::RoundExpired { at } => (
                None,
                vec![("at", self.until(*at, names.now(), names.zone()).into())],
            ),
            What::OtherPersonsRound { by } => {
                (None, vec![("person", self.person(*by, names).into())])
            }
            What::CouldNotCheck(hindrance) => {
                (None, vec![("because", self.name(*hindrance).into())])
            }
            What::CrankedIn { with } | What::DidNotCrankIn { with } => {
                (None, vec![("with", with.into())])
            }
            What::StoodDown { why } => (None, vec![("why", why.into())]),
            What::JointWithoutFitting { joint } => (None, vec![item(joint)]),
            What::LeftNotAtRest { step }
            | What::StepNotInBook { step }
            | What::LockWrong {
                step,
                right_is: None,
            } => (None, vec![item(step)]),
            What::LockWrong {
                step,
                right_is: Some(right),
            } => (Some("right"), vec![item(step), ("what", right.into())]),
            What::Unread { kind } => (None, vec![("name", kind.into())]),
            What::Gap { gap } => (None, vec![("name", self.gap_by_id(gap, names).into())]),
            _ => (None, vec![]),
        }
    }

    fn refused(
        &self,
        left: Option<&Exact>,
        allowed: Option<&Exact>,
    ) -> (Option<&'static str>, Args<'static>) {
        let shown = |name, hours: &Exact| (name, self.hours_number(hours).into());
        match (left, allowed) {
            (_, None) => (Some("no-allowance"), vec![]),
            (None, Some(_)) => (Some("hours-unknown"), vec![]),
            (Some(left), Some(allowed)) if *left <= Exact::zero() => {
                (Some("used-up"), vec![shown("allowed", allowed)])
            }
            (Some(left), Some(allowed)) => {
                (None, vec![shown("left", left), shown("allowed", allowed)])
            }
        }
    }

    fn measured_against<'a>(&self, read: &[String], limit: &'a str) -> Args<'a> {
        vec![("read", self.list(read).into()), ("limit", limit.into())]
    }
}

fn verdict_key(judgement: &Judgement) -> &'static str {
    match judgement.verdict {
        Verdict::Fit => "verdict-fit",
        Verdict::Care => "verdict-care",
        Verdict::StandDown if judgement.only_unknown() => "verdict-walk-first",
        Verdict::StandDown => "verdict-stand-down",
    }
}

fn leak_detail(about: About, class: LeakClass) -> &'static str {
    if about == About::Fuel {
        "fuel"
    } else {
        class.code()
    }
}

fn side_detail(side: Side) -> &'static str {
    match side {
        Side::Under => "under",
        Side::Over => "over",
        Side::Either => "either",
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::NoNames;
    use jiff::Timestamp;
    use yard::{
        book::Severity,
        entry::{
            BoltState, ClipState, FluidLooks, FunctionState, Hindrance, HoseState, LevelReads,
            LookState, StructureState,
        },
        id::{EntryId, ItemId, PersonId, PointId},
    };

    fn names() -> NoNames {
        NoNames {
            now: "2026-11-14T06:00:00Z".parse().unwrap(),
        }
    }

    fn someone() -> PersonId {
        "01890000-0000-7000-8000-000000000001".parse().unwrap()
    }

    fn item(id: &str) -> ItemId {
        ItemId::new(id).unwrap()
    }

    /// One of every kind of reason, and of every state within a kind.
    fn every_what() -> Vec<What> {
        let hours = |n: i64| Some(Exact::from(n));
        let read = || vec!["2 1/8 in".to_owned(), "2 in".to_owned()];
        let limit = || "2 in".to_owned();
        let at = names().now;
        let mut all = vec![
            What::NoBook,
            What::NoStop,
            What::NotWalked,
            What::RoundExpired { at },
            What::HandedOverSince,
        ];
        all.extend([
            What::OtherPersonsRound { by: someone() },
            What::BookChanged,
            What::NotAnswered,
            What::InQuestion,
            What::LevelHeat,
        ]);
        all.extend(Hindrance::ALL.iter().map(|h| What::CouldNotCheck(*h)));
        all.extend(ClipState::ALL.iter().map(|s| What::PinClip(*s)));
        all.extend(
            BoltState::ALL
                .iter()
                .flat_map(|s| [What::Bolts(*s, 1), What::Bolts(*s, 3)]),
        );
        all.extend(
            FunctionState::ALL
                .iter()
                .map(|s| What::Function(About::Brakes, *s)),
        );
        all.extend(LookState::ALL.iter().map(|s| What::Look(About::Guards, *s)));
        all.extend(StructureState::ALL.iter().map(|s| What::Structure(*s)));
        all.extend(HoseState::ALL.iter().map(|s| What::Hose(*s)));
        all.extend(
            LeakClass::ALL
                .iter()
                .map(|c| What::Leak(About::HydraulicOil, *c)),
        );
        all.push(What::Leak(About::Fuel, LeakClass::I));
        all.extend(FluidLooks::ALL.iter().map(|l| What::Fluid(*l)));
        all.extend(LevelReads::ALL.iter().map(|r| What::Level(*r)));
        all.push(What::LevelPose {
            read_in: Some(item("arm-out")),
            mark_is_for: Some(item("all-down")),
        });
        all.push(What::LevelPose {
            read_in: None,
            mark_is_for: Some(item("all-down")),
        });
        all.push(What::LevelPose {
            read_in: Some(item("arm-out")),
            mark_is_for: None,
        });
        all.extend(
            [Side::Over, Side::Under, Side::Either].map(|side| What::Outside {
                read: read(),
                side,
                limit: limit(),
            }),
        );
        all.push(What::TooClose {
            read: read(),
            side: Side::Over,
            limit: limit(),
        });
        all.extend([
            What::OtherMethod,
            What::ConditionNotHeld,
            What::NotComparable,
            What::CrankNotTried,
            What::SwitchBypassed,
        ]);
        all.extend([
            What::CrankedIn {
                with: "in gear".into(),
            },
            What::DidNotCrankIn {
                with: "neutral".into(),
            },
        ]);
        all.extend(
            [
                (hours(3), hours(8)),
                (hours(-1), hours(8)),
                (None, hours(8)),
                (None, None),
            ]
            .map(|(left, allowed)| What::Refused { left, allowed }),
        );
        all.extend([
            What::NotSeenAtJoint,
            What::NotReleased,
            What::HoursInQuestion,
            What::NotHandedOver,
            What::LeftRunning,
        ]);
        all.extend(Severity::ALL.iter().map(|s| What::Fault {
            what: "smell of fuel".into(),
            severity: *s,
        }));
        all.extend([
            What::StoodDown {
                why: "too tired to look".into(),
            },
            What::JointWithoutFitting {
                joint: item("dipper-pivot"),
            },
        ]);
        all.extend([
            What::Gap {
                gap: "no-stop".into(),
            },
            What::LeftNotAtRest {
                step: item("bucket-down"),
            },
            What::EngineNotSaid,
        ]);
        all.extend([
            What::StepNotInBook {
                step: item("old-step"),
            },
            What::StillOpen,
            What::Unread {
                kind: "weather".into(),
            },
        ]);
        all.extend([Some("pin in"), None].map(|right| What::LockWrong {
            step: item("swing-pin"),
            right_is: right.map(str::to_owned),
        }));
        all.extend([What::MayNotRun, What::NotSignedOff, What::InSightOnly]);
        all
    }

    fn reason(what: What) -> Reason {
        let point = PointId::new("boom-foot-left");
        Reason {
            rule: "a-rule",
            weighs: Verdict::StandDown,
            rank: 0,
            unknown: false,
            point,
            finding: None,
            what,
            figure: None,
        }
    }

    #[test]
    fn every_reason_says_what_and_what_next() {
        let words = Words::english();
        let told: Vec<String> = every_what()
            .into_iter()
            .map(|what| words.reason(&reason(what), &names()))
            .map(|told| format!("{}\n    {}", told.what, told.next))
            .collect();
        insta::assert_snapshot!(told.join("\n"));
    }

    fn judged(
        verdict: Verdict,
        unknown: bool,
        until: Option<Timestamp>,
        until_hours: Option<i64>,
    ) -> Judgement {
        let reasons = if verdict == Verdict::Fit {
            vec![]
        } else {
            vec![Reason {
                unknown,
                weighs: verdict,
                ..reason(What::NotWalked)
            }]
        };
        let holds = Holds {
            person: someone(),
            round: None,
            until,
            until_hours: until_hours.map(Exact::from),
            permit: None,
        };
        Judgement {
            verdict,
            reasons,
            holds,
            at: names().now,
            book: None,
        }
    }

    #[test]
    fn a_verdict_that_only_lacks_knowledge_says_walk_round_first() {
        let words = Words::english();
        assert_eq!(
            words.verdict(&judged(Verdict::StandDown, true, None, None)),
            "Walk round first"
        );
        assert_eq!(
            words.verdict(&judged(Verdict::StandDown, false, None, None)),
            "Stand down"
        );
        assert_eq!(
            words.verdict(&judged(Verdict::Fit, false, None, None)),
            "Fit to run"
        );
        assert_eq!(words.verdict_code("care"), "Run with care");
        assert_eq!(words.verdict_code("bent"), "bent");
    }

    #[test]
    fn what_a_verdict_holds_for() {
        let (words, until) = (Words::english(), "2026-11-14T15:00:00Z".parse().ok());
        let holds = |judgement| words.holds(&judgement, None, &names());
        let name = "(name removed)";
        assert_eq!(
            holds(judged(Verdict::Fit, false, until, None)),
            format!("For this start, by {name}, until 15:00.")
        );
        assert_eq!(
            holds(judged(Verdict::Care, false, until, Some(6))),
            format!(
                "For this start, by {name}, until 15:00 or 6 hours run in all, whichever comes first."
            )
        );
        assert_eq!(
            holds(judged(Verdict::StandDown, false, until, None)),
            "It holds for nobody: the machine does not run."
        );
    }

    #[test]
    fn a_permit_to_move_is_said_in_full() {
        let far = quantity::parse("40 m", &quantity::Habits::default(), None).unwrap();
        let permit = MovePermit {
            who: someone(),
            how_far: far,
            until: "2026-11-14T09:30:00Z".parse().unwrap(),
            how: "To the shed, bucket up a hand.".into(),
        };
        let mut judgement = judged(Verdict::StandDown, false, None, None);
        judgement.holds.permit = Some(EntryId(someone().0));
        let said = Words::english().holds(&judgement, Some(&permit), &names());
        insta::assert_snapshot!(said, @"It may only be moved: 40 m, by (name removed), until 9:30. To the shed, bucket up a hand.");
    }
}
