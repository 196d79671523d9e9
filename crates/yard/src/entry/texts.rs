//! What a person wrote in words in an entry, and how long such a text may be.

use super::{Answered, Body, Cause, Document};

/// Most letters of one text of an entry, but for a machine book's, which has a bound of its own. Some ten pages: nobody reads
/// more beside a machine. By this yard's own rule.
pub const MOST_LETTERS: usize = 20_000;

impl Body {
    /// The letters of the longest text in it, where that is longer than it may be. Not those of what a correction says instead.
    pub fn too_long(&self) -> Option<usize> {
        // A letter is one byte at least.
        let long = self
            .texts()
            .into_iter()
            .filter(|text| text.len() > MOST_LETTERS);
        let letters = long.map(|text| text.chars().count()).max();
        letters.filter(|letters| *letters > MOST_LETTERS)
    }

    /// Every text that a person wrote. Not a book's, nor what a correction says instead.
    fn texts(&self) -> Vec<&str> {
        match self {
            Body::WalkRound(walk) => {
                let notes = notes(&walk.answers);
                notes.chain(walk.no_photo.as_deref()).collect()
            }
            Body::Greasing(greasing) => notes(&greasing.fittings).collect(),
            Body::Handover(left) => {
                let notes = left.steps.iter().filter_map(|step| step.note.as_deref());
                notes.chain(left.next.as_deref()).collect()
            }
            Body::Run(run) => {
                let amiss = run.amiss.iter().map(String::as_str);
                amiss.chain(run.work.as_deref()).collect()
            }
            Body::Document(document) => of_document(document),
            _ => self.few_texts(),
        }
    }

    /// The same of the kinds with a few texts by name.
    fn few_texts(&self) -> Vec<&str> {
        let (first, more): (Option<&str>, [Option<&str>; 2]) = match self {
            Body::BookAdopted(adopted) => (adopted.why.as_deref(), [None; 2]),
            Body::GapAccepted(accepted) => (Some(&accepted.why), [None; 2]),
            Body::MeterChange(change) => (Some(&change.why), [None; 2]),
            Body::MeterBroken(broken) => (Some(&broken.why), [None; 2]),
            Body::Ruling(ruling) => (Some(&ruling.why), [None; 2]),
            Body::TopUp(top_up) => (top_up.grade.as_deref(), [None; 2]),
            Body::Adjustment(adjustment) => (Some(&adjustment.what), [None; 2]),
            Body::Fault(fault) => (Some(&fault.what), [None; 2]),
            Body::Repair(repair) => {
                let cause = repair.cause.as_ref().map(|cause| match cause {
                    Cause::Found(text) | Cause::NotFound(text) => text.as_str(),
                });
                (Some(&repair.what), [repair.cost.as_deref(), cause])
            }
            Body::StandDown(down) => (Some(&down.why), [None; 2]),
            Body::Release(release) => (Some(&release.mended), [None; 2]),
            Body::MovePermit(permit) => (Some(&permit.how), [None; 2]),
            Body::PartFitted(fitted) => (Some(&fitted.what), [fitted.cost.as_deref(), None]),
            Body::Purchase(bought) => (Some(&bought.what), [bought.cost.as_deref(), None]),
            Body::Attachment(change) => (change.note.as_deref(), [None; 2]),
            Body::DocumentEnded(ended) => (Some(&ended.why), [None; 2]),
            Body::LeftYard(left) => (left.to.as_deref(), [left.note.as_deref(), None]),
            Body::CameBack(back) => (Some(&back.why), [None; 2]),
            Body::Arrival(said) => (said.says.as_deref(), [None; 2]),
            Body::Lesson(lesson) => (Some(&lesson.what), [None; 2]),
            Body::SignOff(given) => (given.limits.as_deref(), [None; 2]),
            Body::Note(note) => (Some(&note.text), [None; 2]),
            Body::Photo(photo) => (photo.text.as_deref(), [None; 2]),
            Body::Correction(correction) => (Some(&correction.why), [None; 2]),
            Body::Access(access) => (access.note.as_deref(), [None; 2]),
            Body::WalkRound(_)
            | Body::Greasing(_)
            | Body::Handover(_)
            | Body::Run(_)
            | Body::Document(_)
            | Body::MeterReading(_)
            | Body::HoursTold(_)
            | Body::ShelfCount(_)
            | Body::RoleGiven(_)
            | Body::Unknown { .. }
            | Body::Unreadable { .. } => (None, [None; 2]),
        };
        first
            .into_iter()
            .chain(more.into_iter().flatten())
            .collect()
    }
}

fn notes(answers: &[Answered]) -> impl Iterator<Item = &str> {
    answers
        .iter()
        .filter_map(|answered| answered.note.as_deref())
}

fn of_document(document: &Document) -> Vec<&str> {
    let more = [&document.number, &document.kept, &document.note];
    let more = more.into_iter().filter_map(|text| text.as_deref());
    std::iter::once(document.title.as_str())
        .chain(more)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::{Note, Run, RunPart};

    #[test]
    fn a_text_of_so_many_letters_is_long_enough_whatever_its_bytes() {
        let note = |n: usize| {
            let (point, text) = (None, "ß".repeat(n));
            Body::Note(Note { point, text })
        };
        assert_eq!(note(MOST_LETTERS).too_long(), None);
        assert_eq!(note(MOST_LETTERS + 1).too_long(), Some(MOST_LETTERS + 1));
        let run = Body::Run(Run {
            part: RunPart::End,
            hours: None,
            work: None,
            amiss: vec!["short".into(), "x".repeat(30_000)],
            in_sight_of: None,
        });
        assert_eq!(run.too_long(), Some(30_000));
    }
}
