//! What a machine book does not say yet, in words: what it is, what it blocks, what would fill it.

use crate::{Arg, BookList, Names, Told, Words};
use yard::{
    book::{About, Blocks, By, Gap, GapCode, RestKind},
    code::Coded,
    id::{ItemId, PointId, StationId},
};

impl Words {
    /// A gap: what is not said yet, and how one comes by it.
    pub fn gap(&self, gap: &Gap, names: &dyn Names) -> Told {
        let args = [(
            "subject",
            self.gap_subject(gap.code, &gap.subject, names).into(),
        )];
        let Told { what, next } = self.told(&format!("gap-{}", gap.code.code()), &args);
        Told {
            what: self.say("gap-is", &[("what", what.into())]),
            next,
        }
    }

    /// What cannot be told until the gap is filled, in a sentence; empty where nothing hangs on it.
    pub fn gap_blocks(&self, gap: &Gap) -> String {
        let blocked: Vec<String> = gap
            .blocks
            .iter()
            .map(|blocks| self.text(&format!("blocks-{}", blocks_code(*blocks))))
            .collect();
        if blocked.is_empty() {
            String::new()
        } else {
            self.say("gap-blocks", &[("what", self.list(&blocked).into())])
        }
    }

    /// Whether a gap may be accepted, in a sentence.
    pub fn gap_weight(&self, gap: &Gap) -> String {
        self.text(if gap.bears_on_safety {
            "gap-safety"
        } else {
            "gap-minor"
        })
    }

    /// Where in the book the answer goes.
    pub fn gap_place(&self, gap: &Gap) -> String {
        self.say(
            "gap-where",
            &[
                ("table", gap.unlock.table.into()),
                ("key", gap.unlock.key.into()),
            ],
        )
    }

    /// How one comes by what is missing.
    pub fn gap_by(&self, by: By) -> String {
        let code = match by {
            By::WritingDown => "writing-down",
            By::Measuring => "measuring",
            By::Looking => "looking",
            By::Asking => "asking",
        };
        self.text(&format!("by-{code}"))
    }

    /// What a gap is about, from its permanent name `code:subject`; the name itself where the code is not known.
    pub(crate) fn gap_by_id(&self, id: &str, names: &dyn Names) -> String {
        let (code, subject) = id.split_once(':').unwrap_or((id, ""));
        let Some(code) = GapCode::ALL
            .iter()
            .copied()
            .find(|known| known.code() == code)
        else {
            return id.to_owned();
        };
        let subject = self.gap_subject(code, subject, names);
        self.say(
            &format!("gap-{}", code.code()),
            &[("subject", Arg::from(subject))],
        )
    }

    fn gap_subject(&self, code: GapCode, subject: &str, names: &dyn Names) -> String {
        let word = match code {
            GapCode::NoPointFor => About::from_code(subject).map(|about| self.name(about)),
            GapCode::NoRestStep => RestKind::from_code(subject).map(|kind| self.name(kind)),
            GapCode::StationWithoutPlace => {
                StationId::new(subject).and_then(|station| names.station(&station))
            }
            _ => None,
        };
        let item = |list| ItemId::new(subject).and_then(|item| names.listed(list, &item));
        let listed = || match list_of(code) {
            Some(list) => item(list),
            None => PointId::new(subject).and_then(|point| names.point(&point)),
        };
        word.or_else(listed).unwrap_or_else(|| subject.to_owned())
    }
}

/// The list of the book that a gap's subject stands in; none where it is a point, or a word of the format.
fn list_of(code: GapCode) -> Option<BookList> {
    match code {
        GapCode::JointWithoutFitting => Some(BookList::Joints),
        GapCode::RestWithoutProof => Some(BookList::Rest),
        GapCode::FluidWithoutGrade | GapCode::FluidWithoutQuantity => Some(BookList::Fluids),
        GapCode::PoseWithoutRods => Some(BookList::Poses),
        GapCode::RamNotMeasured => Some(BookList::Rams),
        GapCode::WeaknessNotWatched => Some(BookList::Weaknesses),
        GapCode::ControlNotKnown => Some(BookList::Controls),
        _ => None,
    }
}

fn blocks_code(blocks: Blocks) -> &'static str {
    match blocks {
        Blocks::Verdict => "verdict",
        Blocks::Round => "round",
        Blocks::Levels => "levels",
        Blocks::LevelCorrection => "level-correction",
        Blocks::Limits => "limits",
        Blocks::Greasing => "greasing",
        Blocks::Hours => "hours",
        Blocks::Rest => "rest",
        Blocks::ArmFigures => "arm-figures",
        Blocks::Stability => "stability",
        Blocks::TopUp => "top-up",
        Blocks::Lap => "lap",
        Blocks::Drawing => "drawing",
        Blocks::Teaching => "teaching",
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::NoNames;
    use yard::book::Unlock;

    #[test]
    fn every_gap_says_what_is_missing_and_how_to_find_out() {
        let (words, names) = (
            Words::english(),
            NoNames {
                now: jiff::Timestamp::UNIX_EPOCH,
            },
        );
        let blocks = [
            Blocks::Verdict,
            Blocks::Round,
            Blocks::Levels,
            Blocks::LevelCorrection,
            Blocks::Limits,
            Blocks::Greasing,
            Blocks::Hours,
            Blocks::Rest,
            Blocks::ArmFigures,
            Blocks::Stability,
            Blocks::TopUp,
            Blocks::Lap,
            Blocks::Drawing,
            Blocks::Teaching,
        ];
        let mut said = Vec::new();
        for (place, code) in GapCode::ALL.iter().enumerate() {
            let subject = match code {
                GapCode::NoPointFor => "brakes",
                GapCode::NoRestStep => "battery-off",
                _ => "some-id",
            };
            let gap = Gap {
                id: format!("{}:{subject}", code.code()),
                code: *code,
                subject: subject.to_owned(),
                line: 0,
                bears_on_safety: place < 9,
                blocks: vec![blocks[place % blocks.len()]],
                unlock: Unlock {
                    table: "point",
                    key: "pose",
                    by: By::Asking,
                },
            };
            let told = words.gap(&gap, &names);
            said.push(format!(
                "{} {}\n    {}\n    {}",
                told.what,
                words.gap_weight(&gap),
                told.next,
                words.gap_blocks(&gap)
            ));
        }
        insta::assert_snapshot!(said.join("\n"));
    }

    /// A control, a fluid and a point may share an id: each gap names its own.
    #[test]
    fn a_gap_names_the_thing_of_its_own_list() {
        let text = include_str!("../../../../blanks/tracked-loader-backhoe.toml");
        let book = yard::book::read(text, &quantity::Habits::default()).book;
        let people = std::collections::BTreeMap::new();
        let names = crate::BookNames {
            book: book.as_ref(),
            people: &people,
            now: jiff::Timestamp::UNIX_EPOCH,
            zone: &jiff::tz::TimeZone::UTC,
        };
        let said = |id| Words::english().gap_by_id(id, &names);
        assert_eq!(
            said("control-not-known:battery-switch"),
            "what this control does: Battery switch, right side"
        );
        assert_eq!(
            said("fluid-without-grade:engine-oil"),
            "which grade goes in: Engine oil"
        );
        assert_eq!(
            said("level-without-pose:engine-oil"),
            "in which pose this level is read: Engine oil on the stick"
        );
    }

    #[test]
    fn a_gap_is_known_by_its_permanent_name() {
        let (words, names) = (
            Words::english(),
            NoNames {
                now: jiff::Timestamp::UNIX_EPOCH,
            },
        );
        assert_eq!(
            words.gap_by_id("no-rest-step:brake", &names),
            "how this is left at rest: brake set"
        );
        assert_eq!(words.gap_by_id("some-day:x", &names), "some-day:x");
    }
}
