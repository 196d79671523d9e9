//! What two machines of the demo share: a post-hole borer with a book, a round and a history of its own.

use super::{calendar::Day, cast::Cast, fleet, pen::Pen, well};
use store::StoreError;
use yard::{
    book::{self, Book},
    entry::{
        Answered, AttachmentChange, Body, BookAdopted, Evidence, RoundPurpose, SignOff, WalkRound,
    },
    id::{EntryId, MachineId, PersonId, RoundId},
};

/// The borer's id.
pub(crate) const SEDGE: &str = "sedge";

/// Its book. Invented.
pub(crate) const BOOK: &str = r#"kingpost = 1

[machine]
id = "sedge"
name = "Sedge"
kind = "post-hole borer"
made = "2011 (invented)"
serial = "invented-A-9"
invented = true
without = ["engine", "seat-belt", "starter", "rams"]

[ground]
on = "another-machine"

[[station]]
id = "head"
name = "Head, where it hangs"
at = [0, 0]

[[station]]
id = "tip"
name = "Tip of the screw"
at = [0, 1]

[[point]]
id = "head-clips"
station = "head"
kind = "pin-clip"
what = "Clips of both pins of the head"
rhythm = "every start"

[[point]]
id = "screw-bolt"
station = "head"
kind = "bolts"
what = "Bolt between head and screw"
rhythm = "every start"

[[point]]
id = "screw-welds"
station = "tip"
kind = "structure"
what = "Welds of the screw, edge and tip"
rhythm = "every start"
"#;

/// What the books of the machines say that take it.
pub(crate) const TAKEN: &str = r#"
[[attachment]]
id = "sedge"
locks = "Both pins through the head, a clip in each, hoses clear of the screw"
"#;

fn sedge() -> MachineId {
    MachineId::new(SEDGE).expect("the demo's ids are well formed")
}

fn book() -> Book {
    book::read(BOOK, &quantity::Habits::default())
        .book
        .expect("the demo's own books read; a test says so")
}

/// It comes: its book is adopted, and those who may use it are signed off.
pub(crate) fn came(pen: &mut Pen, cast: &Cast) -> Result<(), StoreError> {
    let (text, why) = (
        BOOK.to_owned(),
        Some("Bought with a neighbour (invented)".to_owned()),
    );
    let adopted = Body::BookAdopted(BookAdopted { text, why });
    pen.write_of(&sedge(), cast.odalys, adopted)?;
    for person in [cast.perrin, cast.hanne] {
        let sign_off = SignOff {
            person,
            given: true,
            until: None,
            limits: Some("two people, nobody near the screw".to_owned()),
            in_sight: false,
        };
        pen.write_of(&sedge(), cast.odalys, Body::SignOff(sign_off))?;
    }
    Ok(())
}

/// It is put on, and walked round where it hangs now.
pub(crate) fn put_on(pen: &mut Pen, by: PersonId, day: &Day) -> Result<(), StoreError> {
    change(pen, by, true, "Holes for the fence")?;
    pen.pass(300);
    let Some(revision) = pen.of_other(&sedge()).book().map(|own| own.revision) else {
        return Ok(());
    };
    let round = RoundId(pen.fresh());
    let points = book().points;
    let answers = points.iter().map(|point| Answered {
        point: point.id.clone(),
        answer: well::answer(point, day.index),
        note: None,
        photos: Vec::new(),
    });
    let walk = WalkRound {
        round,
        book: revision,
        purpose: RoundPurpose::Start,
        from_paper: false,
        answers: answers.collect(),
        hours: None,
        closes: Some(fit(revision)),
        no_photo: None,
    };
    pen.write_of(&sedge(), by, Body::WalkRound(walk))?;
    Ok(())
}

/// It is taken off in the evening.
pub(crate) fn take_off(pen: &mut Pen, by: PersonId) -> Result<(), StoreError> {
    change(pen, by, false, "On its stand in the barn")
}

/// Whether this is the day on which a machine has it.
pub(crate) fn is_day_of(member: &fleet::Member, day: &Day) -> bool {
    let share = match member.id {
        fleet::BRYONY => 78,
        fleet::TEASEL => 88,
        _ => return false,
    };
    day.is_at(share)
}

fn change(pen: &mut Pen, by: PersonId, fitted: bool, note: &str) -> Result<(), StoreError> {
    let change = AttachmentChange {
        attachment: sedge(),
        fitted,
        note: Some(note.to_owned()),
    };
    pen.write(by, Body::Attachment(change))?;
    pen.look_at(&sedge());
    Ok(())
}

fn fit(book: EntryId) -> Evidence {
    Evidence {
        verdict: "fit".to_owned(),
        reasons: Vec::new(),
        book,
        program: env!("CARGO_PKG_VERSION").to_owned(),
    }
}
