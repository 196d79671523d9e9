//! Questions that only steward or deputy can settle, and what a finding is called.

use crate::{Names, Told, Words};
use yard::{
    code::Coded,
    id::{FaultRef, MachineId},
    state::{Asks, Question},
};

impl Words {
    /// A question that only steward or deputy can settle, and how.
    pub fn question(&self, question: &Question, names: &dyn Names) -> Told {
        self.asks(&question.asks, names)
    }

    /// What a question asks, and how to settle it.
    pub fn asks(&self, asks: &Asks, names: &dyn Names) -> Told {
        let hours = |name, hours| (name, self.hours_number(hours).into());
        match asks {
            Asks::MeterFell { from, to } => self.told(
                "question-meter-fell",
                &[hours("from", from), hours("to", to)],
            ),
            Asks::MeterJumped {
                from,
                to,
                passed,
                perhaps,
            } => {
                let perhaps: Vec<String> = perhaps
                    .iter()
                    .map(|hours| self.hours_number(hours))
                    .collect();
                let key = if perhaps.is_empty() {
                    "question-meter-jumped"
                } else {
                    "question-meter-jumped-perhaps"
                };
                let maybe = ("perhaps", self.list_or(&perhaps).into());
                self.told(
                    key,
                    &[
                        hours("from", from),
                        hours("to", to),
                        hours("passed", passed),
                        maybe,
                    ],
                )
            }
            Asks::MeterStuck { shows, ran } => self.told(
                "question-meter-stuck",
                &[hours("hours", shows), hours("ran", ran)],
            ),
            Asks::MeterSaidBroken { since } => self.told(
                "question-meter-said-broken",
                &[(
                    "when",
                    self.moment(*since, names.now(), names.zone()).into(),
                )],
            ),
            Asks::BrokenMeterMoved { from, to } => self.told(
                "question-broken-meter-moved",
                &[hours("from", from), hours("to", to)],
            ),
            Asks::ToldTooMuch { told, passed } => self.told(
                "question-told-too-much",
                &[hours("told", told), hours("passed", passed)],
            ),
            Asks::NoMeterToRead { shows } => {
                self.told("question-no-meter-to-read", &[hours("hours", shows)])
            }
            Asks::Unreadable { kind, at } => self.told(
                "question-unreadable",
                &[("kind", kind.into()), ("place", at.into())],
            ),
            Asks::TextTooLong { letters } => {
                self.told("question-text-too-long", &[("n", (*letters).into())])
            }
            Asks::Misfit { point } => self.told(
                "question-misfit",
                &[("point", self.point(point, names).into())],
            ),
            Asks::NoSuchPoint { point } => self.told(
                "question-no-such-point",
                &[("point", point.as_str().into())],
            ),
            Asks::NotEntitled { of } => self.told(
                "question-not-entitled",
                &[("what", self.finding_name(of, names).into())],
            ),
            Asks::CorrectionNotEntitled { .. } => {
                self.told("question-correction-not-entitled", &[])
            }
            Asks::Rivals { .. } => self.told("question-rivals", &[]),
            Asks::BookUnread { mistakes } => {
                self.told("question-book-unread", &[("n", (*mistakes).into())])
            }
            Asks::AttachmentMoved { attachment, from } => self.told(
                "question-attachment-moved",
                &[
                    ("name", self.machine_or_id(attachment, names).into()),
                    ("from", self.machine_or_id(from, names).into()),
                ],
            ),
            Asks::AttachmentNotTaken { attachment } => self.told(
                "question-attachment-not-taken",
                &[("name", self.machine_or_id(attachment, names).into())],
            ),
            Asks::LeftRunning { engine } => {
                self.told("question-left-running", &[("engine", engine.code().into())])
            }
        }
    }

    fn machine_or_id(&self, machine: &MachineId, names: &dyn Names) -> String {
        let known = names.machine(machine);
        known.unwrap_or_else(|| machine.to_string())
    }

    /// What a finding is called where it is named: its point, or "a finding".
    pub fn finding_name(&self, finding: &FaultRef, names: &dyn Names) -> String {
        finding
            .point
            .as_ref()
            .map_or_else(|| self.text("a-finding"), |point| self.point(point, names))
    }
}
