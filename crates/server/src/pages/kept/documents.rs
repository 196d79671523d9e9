//! Documents of a machine or of the yard: what there is, until when it holds, where it is kept; writing one down, ending one.

use crate::{
    accept,
    desk::{Answer, Desk, go, page},
    page::Page,
    pages::walkround::{
        form::{self, Typed},
        question::{Asked, Choice, choices},
    },
    refusal::Refusal,
};
use askama::Template;
use yard::{
    code::Coded,
    entry::{Body, Document, DocumentEnded, DocumentKind},
    id::{EntryId, ItemId, MachineId},
    people::Deed,
    state::{KeptDocument, MachineState, Standing},
    walkround::day_of,
};

#[derive(Template)]
#[template(path = "kept/documents.html")]
struct DocumentsPage {
    p: Page,
    /// The machine's name; empty for the yard.
    name: String,
    here: String,
    asked: Vec<Asked>,
    wanted: Vec<String>,
    documents: Vec<Line>,
    ended: Vec<String>,
    kinds: Vec<Choice>,
    of_book: Vec<Choice>,
    renews: Vec<Choice>,
    typed: Written,
}

struct Line {
    entry: EntryId,
    what: String,
    standing: String,
    bad: bool,
    more: String,
    recall: bool,
}

/// What was typed, to be shown again.
#[derive(Default)]
struct Written {
    title: String,
    number: String,
    from: String,
    until: String,
    kept: String,
    note: String,
}

/// Shows them; the yard's own where no machine is named.
pub(crate) fn show(desk: &Desk, machine: Option<&str>) -> Answer {
    render(desk, machine, &Typed::default(), Vec::new())
}

/// Keeps one.
pub(crate) fn keep(desk: &Desk, machine: Option<&str>, typed: &Typed) -> Answer {
    desk.may(Deed::KeepDocuments)?;
    let of = machine.map(|machine| desk.machine(machine)).transpose()?;
    let document = match read(desk, of.as_ref().map(|(_, state)| *state), typed) {
        Ok(document) => document,
        Err(asked) => return render(desk, machine, typed, vec![asked]),
    };
    let id = of.map(|(id, _)| id);
    accept::keep(desk, id.as_ref(), Body::Document(document))?;
    go(&address(&desk.page(), id.as_ref()))
}

/// Ends one: withdrawn, or a recall answered.
pub(crate) fn end(desk: &Desk, machine: Option<&str>, document: &str, typed: &Typed) -> Answer {
    desk.may(Deed::NeededDocuments)?;
    let of = machine.map(|machine| desk.machine(machine)).transpose()?;
    let known = kept(desk, of.as_ref().map(|(_, state)| *state));
    let entry = document.parse::<EntryId>().ok();
    let entry = entry
        .filter(|entry| {
            known
                .iter()
                .any(|one| one.entry == *entry && one.ended.is_none())
        })
        .ok_or(Refusal::NotFound)?;
    let Some(why) = typed.some("why") else {
        let asked = form::asked(&desk.page(), "ask-document-ended");
        return render(desk, machine, typed, vec![asked]);
    };
    let id = of.map(|(id, _)| id);
    let ended = DocumentEnded { of: entry, why };
    accept::keep(desk, id.as_ref(), Body::DocumentEnded(ended))?;
    go(&address(&desk.page(), id.as_ref()))
}

/// Lines about documents that end soon, are over, or wait for an answer: for the machine's and the yard's page.
pub(crate) fn to_see(desk: &Desk, p: &Page, documents: &[KeptDocument]) -> Vec<String> {
    let today = day_of(desk.now, &desk.zone);
    let stands_out = |kept: &&KeptDocument| {
        matches!(
            kept.standing(today),
            Standing::Open | Standing::Expired | Standing::EndsSoon
        )
    };
    let line = |kept: &KeptDocument| {
        let title = kept.document.title.clone();
        p.t2(
            "document-to-see",
            "title",
            title,
            "text",
            p.words.standing(kept, today),
        )
    };
    documents.iter().filter(stands_out).map(line).collect()
}

fn address(p: &Page, machine: Option<&MachineId>) -> String {
    match machine {
        Some(id) => format!("{}/m/{id}/documents", p.home()),
        None => format!("{}/documents", p.home()),
    }
}

fn kept<'a>(desk: &'a Desk, state: Option<&'a MachineState>) -> &'a [KeptDocument] {
    state.map_or(&desk.view.yard.documents, |state| &state.documents)
}

fn read(desk: &Desk, state: Option<&MachineState>, typed: &Typed) -> Result<Document, Asked> {
    let p = desk.page();
    let ask = |key| form::asked(&p, key);
    let what =
        DocumentKind::from_code(typed.field("kind")).ok_or_else(|| ask("ask-document-kind"))?;
    let title = typed
        .some("title")
        .ok_or_else(|| ask("ask-document-title"))?;
    let day = |name: &str| match typed.field(name) {
        "" => Ok(None),
        text => text.parse().map(Some).map_err(|_| ask("ask-day")),
    };
    let (from, until): (Option<jiff::civil::Date>, _) = (day("from")?, day("until")?);
    if from.is_some_and(|from| until.is_some_and(|until| until < from)) {
        return Err(ask("ask-document-days"));
    }
    let renews = typed.field("renews").parse::<EntryId>().ok();
    let known = kept(desk, state);
    Ok(Document {
        what,
        title,
        number: typed.some("number"),
        from,
        until,
        kept: typed.some("kept"),
        note: typed.some("note"),
        of_book: ItemId::new(typed.field("of-book")),
        renews: renews.filter(|entry| known.iter().any(|one| one.entry == *entry)),
        photos: Vec::new(),
    })
}

fn render(desk: &Desk, machine: Option<&str>, typed: &Typed, asked: Vec<Asked>) -> Answer {
    let p = desk.page();
    let of = machine
        .map(|machine| desk.machine_and_book(machine))
        .transpose()?;
    let today = day_of(desk.now, &desk.zone);
    let state = of.as_ref().map(|(_, state, _)| *state);
    let all = kept(desk, state);
    let ended = |one: &&KeptDocument| one.standing(today) == Standing::Ended;
    let documents = all
        .iter()
        .filter(|one| !ended(one))
        .map(|one| line(&p, one, today));
    let in_words = |one: &KeptDocument| {
        let line = p.words.document_line(&one.document);
        format!("{line} · {}", p.words.standing(one, today))
    };
    let wanted = of.iter().flat_map(|(_, _, book)| &book.documents);
    let choice = |id: String, word: String, chosen: &str| Choice {
        chosen: chosen == id,
        code: id,
        word,
    };
    let written = |name: &str| typed.field(name).to_owned();
    page(&DocumentsPage {
        name: of
            .as_ref()
            .map(|(_, _, book)| book.machine.name.clone())
            .unwrap_or_default(),
        here: address(&p, of.as_ref().map(|(id, ..)| id)),
        asked,
        wanted: wanted
            .clone()
            .filter(|wanted| wanted.needed)
            .map(|wanted| p.t1("document-needed", "title", &wanted.title))
            .collect(),
        documents: documents.collect(),
        ended: all.iter().filter(ended).map(in_words).collect(),
        kinds: choices::<DocumentKind>(&p, "document", typed.field("kind")),
        of_book: wanted
            .filter(|_| p.role_is_steward())
            .map(|w| choice(w.id.to_string(), w.title.clone(), typed.field("of-book")))
            .collect(),
        renews: all
            .iter()
            .filter(|one| !ended(one) && one.document.what != DocumentKind::Recall)
            .map(|one| {
                let title = p.words.document_line(&one.document);
                choice(one.entry.to_string(), title, typed.field("renews"))
            })
            .collect(),
        typed: Written {
            title: written("title"),
            number: written("number"),
            from: written("from"),
            until: written("until"),
            kept: written("kept"),
            note: written("note"),
        },
        p,
    })
}

fn line(p: &Page, kept: &KeptDocument, today: jiff::civil::Date) -> Line {
    let document = &kept.document;
    let number = document.number.as_deref();
    let number = number.map(|number| p.t1("part-number", "number", number));
    let place = document.kept.as_deref();
    let place = place.map(|place| p.t1("document-kept", "kept", place));
    let more = [number, place, document.note.clone()];
    let standing = kept.standing(today);
    Line {
        entry: kept.entry,
        what: p.words.document_line(document),
        standing: p.words.standing(kept, today),
        bad: matches!(standing, Standing::Open | Standing::Expired),
        more: more.into_iter().flatten().collect::<Vec<_>>().join(" · "),
        recall: document.what == DocumentKind::Recall,
    }
}
