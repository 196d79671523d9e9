//! The verdict in words: its name, its reasons with what to do next, what it holds for.

mod rule;

use crate::{Arg, BookList, Names, Told, Words};
use quantity::{Exact, Side};
use yard::{
    book::{About, LeakClass},
    code::Coded,
    entry::MovePermit,
    handover::{Holds, Judgement, NOT_GIVEN, Reason, Verdict, What},
    id::PointId,
    upkeep::NotReaching,
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
        match known {
            Some(verdict) => self.name(verdict),
            None if code == NOT_GIVEN => self.text("verdict-not-given"),
            None => code.to_owned(),
        }
    }

    /// A reason of a verdict: what is so, and what to do next.
    pub fn reason(&self, reason: &Reason, names: &dyn Names) -> Told {
        self.what(&reason.what, reason.point.as_ref(), names)
    }

    /// What a reason says, or why an answer leaves it unknown: what is so, and what to do next.
    pub fn what(&self, what: &What, point: Option<&PointId>, names: &dyn Names) -> Told {
        let point = point.map_or_else(
            || self.text("the-machine"),
            |point| self.point(point, names),
        );
        let (detail, mut args) = self.detail(what, names);
        args.push(("point", point.into()));
        let code = what.code();
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
        let item = |list, id| ("name", self.listed(list, id, names).into());
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
            What::NotReaching(found) => self.not_reaching(found, names),
            What::OneSided { twin, times } => (
                None,
                vec![
                    ("other", self.point(twin, names).into()),
                    ("n", (*times).into()),
                ],
            ),
            What::Refused { left, allowed } => self.refused(left.as_ref(), allowed.as_ref()),
            What::LevelPose {
                read_in,
                mark_is_for,
                higher_by,
            } => {
                let pose = |name, id: &Option<_>| (name, self.pose(id.as_ref(), names).into());
                let detail = match (read_in, mark_is_for, higher_by) {
                    (_, None, _) => Some("not-in-book"),
                    (None, _, _) => Some("not-said"),
                    (_, _, Some(by)) if *by < 0 => Some("lower"),
                    (_, _, Some(_)) => Some("higher"),
                    _ => None,
                };
                let by = self.level_shift(higher_by.unwrap_or(0));
                (
                    detail,
                    vec![
                        pose("pose", read_in),
                        pose("mark", mark_is_for),
                        ("by", by.into()),
                    ],
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
            What::OtherPersonsRound { by, at } => {
                let at = self.until(*at, names.now(), names.zone());
                let person = self.person(*by, names);
                (None, vec![("person", person.into()), ("at", at.into())])
            }
            What::CouldNotCheck(hindrance) => {
                (None, vec![("because", self.name(*hindrance).into())])
            }
            What::CrankedIn { with } | What::DidNotCrankIn { with } => {
                (None, vec![("with", with.into())])
            }
            What::StoodDown { why } => (None, vec![("why", why.into())]),
            What::JointWithoutFitting { joint } => (None, vec![item(BookList::Joints, joint)]),
            What::LeftNotAtRest { step }
            | What::StepNotInBook { step }
            | What::LockWrong {
                step,
                right_is: None,
            } => (None, vec![item(BookList::Rest, step)]),
            What::LockWrong {
                step,
                right_is: Some(right),
            } => (
                Some("right"),
                vec![item(BookList::Rest, step), ("what", right.into())],
            ),
            What::Unread { kind } => (None, vec![("name", kind.into())]),
            What::LeftYard { how } => (Some(how.code()), vec![]),
            What::AttachmentStandsDown { name, .. } | What::AttachmentWithCare { name, .. } => {
                (None, vec![("name", name.into())])
            }
            What::AttachmentNotKnown { attachment } => {
                (None, vec![("name", attachment.as_str().into())])
            }
            What::NoDocument { title, ended } => {
                let mut args: Args<'a> = vec![("title", title.into())];
                args.extend(ended.map(|date| ("date", self.date(date).into())));
                (ended.map(|_| "ended"), args)
            }
            What::DocumentUndated { title } => (None, vec![("title", title.into())]),
            What::UnknownFluid { fluids } => {
                let names = fluids.iter().map(|fluid| {
                    names
                        .listed(BookList::Fluids, fluid)
                        .unwrap_or_else(|| fluid.to_string())
                });
                (
                    None,
                    vec![("fluids", self.list(&names.collect::<Vec<_>>()).into())],
                )
            }
            What::OpenRecall { title } => (None, vec![("title", title.into())]),
            What::Gap { gap } => (None, vec![("name", self.gap_by_id(gap, names).into())]),
            _ => (None, vec![]),
        }
    }

    fn not_reaching<'a>(
        &self,
        found: &'a NotReaching,
        names: &dyn Names,
    ) -> (Option<&'static str>, Args<'a>) {
        match found {
            NotReaching::NeverSeen { times, days } => (
                Some("never-seen"),
                vec![("n", (*times).into()), ("days", (*days).into())],
            ),
            NotReaching::PlayGrows { at, from, to } => (
                Some("play-grows"),
                vec![
                    ("other", self.point(at, names).into()),
                    ("from", from.into()),
                    ("to", to.into()),
                ],
            ),
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
        Verdict::StandDown if judgement.only_unknown() && !judgement.walking_helps() => {
            "verdict-find-out"
        }
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
mod tests;
