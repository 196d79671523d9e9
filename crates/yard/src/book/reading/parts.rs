//! Parts, with the keys of their kind; attachments taken; documents wanted.

use crate::book::fields::Named;
use crate::book::section::Section;
use crate::book::thread::{believed, thread};
use crate::book::tree::{Node, Value};
use crate::book::trouble::TroubleKind;
use crate::book::{
    AttachmentTaken, Bulb, DocumentWanted, Fastener, Hose, Instead, Part, PartKind, PartWord,
    Severity,
};
use crate::code::Coded;
use crate::id::{ItemId, MachineId, PointId};

pub(super) fn part(mut section: Section<'_, '_>) -> Option<Part> {
    let id = section.id(Named::Part).and_then(|(id, _)| ItemId::new(&id));
    let said: Option<PartWord> = section.word("kind");
    let word = said.unwrap_or(PartWord::Other);
    // A kind that does not read is told as that; its keys may be right.
    if said.is_some() || !section.has("kind") {
        section.of_kind(word.code());
    }
    let kind = kind(&section, word);
    let (what, number, size, from) = (
        section.text("what"),
        section.text("number"),
        section.text("size"),
        section.text("from"),
    );
    let (at, count, keep) = (
        section.place("at"),
        section.count("count"),
        section.count("keep"),
    );
    let points = section.references("points");
    let instead = instead(&section);
    Some(Part {
        id: id?,
        what: what?,
        kind,
        number,
        size,
        at,
        count: count.unwrap_or(1),
        keep,
        from,
        instead,
        points: points
            .iter()
            .filter_map(|(id, _)| PointId::new(id))
            .collect(),
        line: section.line,
    })
}

fn kind(section: &Section<'_, '_>, word: PartWord) -> PartKind {
    match word {
        PartWord::Hose => PartKind::Hose(Hose {
            ends: section.texts("ends"),
            length: section.positive("length"),
            route: section.text("route"),
        }),
        PartWord::Fastener => PartKind::Fastener(fastener(section)),
        PartWord::Bulb => PartKind::Bulb(Bulb {
            volts: section.positive("volts"),
            watts: section.positive("watts"),
            socket: section.text("socket"),
        }),
        PartWord::Tyre => PartKind::Tyre {
            pressure: section.positive("pressure"),
        },
        plain => PartKind::Plain(plain),
    }
}

fn fastener(section: &Section<'_, '_>) -> Fastener {
    let fastener = Fastener {
        thread: section.text("thread"),
        grade: section.text("grade"),
        torque: section.positive("torque"),
        then: section.text("then"),
        put_in: section.word("put-in"),
    };
    note_unlikely(section, &fastener);
    fastener
}

/// A torque that hardly can be right for its thread and grade deserves a second look; it is no mistake.
fn note_unlikely(section: &Section<'_, '_>, fastener: &Fastener) {
    let (Some(written), Some(grade), Some(torque)) =
        (&fastener.thread, &fastener.grade, &fastener.torque)
    else {
        return;
    };
    let range = thread(written)
        .and_then(|thread| believed(thread, grade, fastener.put_in, fastener.then.is_some()));
    let newton_metres = torque.si_f64();
    if let Some(range) = range
        && !(range.low..=range.high).contains(&newton_metres)
    {
        section.desk.warning(
            section.place_of("torque"),
            TroubleKind::TorqueUnlikely {
                torque: torque.text().to_owned(),
                thread: written.clone(),
                grade: grade.clone(),
                low: whole(range.low),
                high: whole(range.high),
            },
        );
    }
}

/// Newton metres to whole ones, as far as anybody turns a wrench.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "bounded to 0..1e9 before"
)]
fn whole(newton_metres: f64) -> u32 {
    newton_metres.clamp(0.0, 1e9).round() as u32
}

fn instead(section: &Section<'_, '_>) -> Vec<Instead> {
    let items = section.list("instead", false).unwrap_or_default();
    items
        .iter()
        .filter_map(|item| one_instead(section, item))
        .collect()
}

/// `{ what = "...", number = "...", said-by = "...", on = "2025-03-01" }`; the number may be left out.
fn one_instead(section: &Section<'_, '_>, node: &Node) -> Option<Instead> {
    let Value::Table(entries) = &node.value else {
        section.wrong_type("instead", node);
        return None;
    };
    let known = ["what", "number", "said-by", "on"];
    let text = |key: &str| {
        let found = entries.iter().find(|(k, _)| k.text == key);
        match found.map(|(_, node)| &node.value) {
            Some(Value::Text(text)) if !text.trim().is_empty() => Some(text.trim().to_owned()),
            _ => None,
        }
    };
    let sound = entries
        .iter()
        .all(|(key, _)| known.contains(&key.text.as_str()) && text(&key.text).is_some());
    let (what, said_by, on) = (text("what"), text("said-by"), text("on"));
    let (Some(what), Some(said_by), Some(on), true) = (what, said_by, on, sound) else {
        section.wrong_type("instead", node);
        return None;
    };
    let Ok(on) = on.parse() else {
        let what = TroubleKind::BadDate { found: on };
        section.desk.mistake(node.span.clone(), what);
        return None;
    };
    Some(Instead {
        what,
        number: text("number"),
        said_by,
        on,
    })
}

pub(super) fn attachment(section: Section<'_, '_>) -> Option<AttachmentTaken> {
    let id = section.id(Named::Attachment);
    let locks = section.text("locks");
    Some(AttachmentTaken {
        id: MachineId::new(&id?.0)?,
        locks: locks?,
        line: section.line,
    })
}

pub(super) fn document(section: Section<'_, '_>) -> Option<DocumentWanted> {
    let id = section.id(Named::Document);
    let (what, title) = (section.word("what"), section.text("title"));
    let (needed, bad_is) = (section.yes("needed"), section.word("bad-is"));
    Some(DocumentWanted {
        id: ItemId::new(&id?.0)?,
        what: what?,
        title: title?,
        needed,
        bad_is: bad_is.unwrap_or(Severity::Care),
        line: section.line,
    })
}
