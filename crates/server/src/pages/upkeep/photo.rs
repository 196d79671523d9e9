//! Adding a photo: of the machine, of a point, or of an open finding; without scripts.

use crate::{
    accept,
    desk::{Answer, Desk, go, page},
    page::Page,
    pages::walkround::{
        form::{self, Typed},
        question::Asked,
        round::Walk,
        show_me,
    },
    photo::{self, PhotoTrouble, Sent},
    refusal::Refusal,
    routes::{Shared, answer, in_yard},
};
use askama::Template;
use axum::{
    extract::{Multipart, OriginalUri, Path, multipart::MultipartRejection},
    response::Response,
};
use std::collections::BTreeMap;
use yard::{
    entry::{Body, PhotoNote},
    id::{FaultRef, PhotoId, PointId},
    people::Deed,
    state::MachineState,
    upkeep::open_things,
    walkround::numbers,
};

#[derive(Template)]
#[template(path = "upkeep/photo.html")]
struct PhotoPage {
    p: Page,
    machine: String,
    here: String,
    asked: Vec<Asked>,
    findings: Vec<Shows>,
    points: Vec<Shows>,
    text: String,
}

/// One thing that a photo may show.
struct Shows {
    code: String,
    word: String,
    chosen: bool,
}

/// Shows the form. `of`: the finding it is to show, as its page's link says; `point`: the point, as a round asks it.
pub(crate) fn show(desk: &Desk, machine: &str, of: &str, point: &str) -> Answer {
    let of = match (of, point) {
        ("", "") => String::new(),
        ("", point) => format!("point {point}"),
        (of, _) => format!("finding {of}"),
    };
    let typed = Typed::of(vec![("of".to_owned(), of)]);
    render(desk, machine, &typed, Vec::new())
}

/// Takes the form in. Whether whoever sends it may is asked before the picture is read.
pub(crate) async fn take(
    state: Shared,
    OriginalUri(uri): OriginalUri,
    Path(parts): Path<BTreeMap<String, String>>,
    form: Result<Multipart, MultipartRejection>,
) -> Response {
    let asked = photo::ask_first(&state, &uri, |desk| {
        let refusal = desk.may(Deed::Note).err()?;
        Some(desk.refuse(&refusal))
    });
    if let Some(refused) = asked.await {
        return refused;
    }
    let sent = match form {
        Ok(form) => photo::form(form).await,
        Err(_) => return answer(state, uri, |_| Err(Refusal::BadRequest)).await,
    };
    answer(state, uri, move |desk| {
        let place = in_yard(desk, parts, BTreeMap::new())?;
        keep(desk, place.part("machine"), sent?)
    })
    .await
}

fn keep(desk: &Desk, machine: &str, sent: Sent) -> Answer {
    let (id, state) = desk.machine(machine)?;
    let typed = Typed::of(sent.fields);
    let p = desk.page();
    let note = match shown(state, typed.field("of")) {
        Some((of, point)) => PhotoNote {
            photo: PhotoId(store::fresh_id(desk.app.world.as_ref())),
            of,
            point,
            text: typed.some("text"),
        },
        None => {
            let asked = vec![form::asked(&p, "ask-photo-of")];
            return render(desk, machine, &typed, asked);
        }
    };
    let kept = match sent.picture {
        None => {
            return render(
                desk,
                machine,
                &typed,
                vec![form::asked(&p, "ask-photo-picture")],
            );
        }
        Some(picture) => picture
            .map_err(Refusal::from)
            .and_then(|bytes| photo::keep(desk, note.photo, &bytes)),
    };
    match kept {
        Err(Refusal::Photo(trouble)) => {
            return render(desk, machine, &typed, vec![refused(&p, trouble)]);
        }
        kept => kept?,
    };
    let to = match &note.of {
        Some(of) => format!("/finding/{}", crate::session::encode(&of.to_string())),
        None if asked_by_round(desk, machine, note.point.as_ref()) => "/round".to_owned(),
        None => "/journal".to_owned(),
    };
    accept::keep(desk, Some(&id), Body::Photo(note))?;
    go(&format!("/y/{}/m/{id}{to}", desk.app.tag()))
}

/// Whether the round that is walked asked for a photo of this point: then on with the round.
fn asked_by_round(desk: &Desk, machine: &str, point: Option<&PointId>) -> bool {
    let walk = Walk::of(desk, machine).ok();
    let asks = walk.and_then(|walk| show_me::asks(desk, &desk.page(), &walk));
    asks.is_some_and(|asks| Some(&asks.point) == point)
}

fn refused(p: &Page, trouble: PhotoTrouble) -> Asked {
    form::asked(p, trouble.key())
}

/// What a photo shows, by its code: nothing for the machine as a whole, `finding <name>`, `point <id>`. None where there is
/// no such thing.
fn shown(state: &MachineState, code: &str) -> Option<(Option<FaultRef>, Option<PointId>)> {
    match code.split_once(' ') {
        None => code.is_empty().then_some((None, None)),
        Some(("finding", name)) => {
            let name: FaultRef = name.parse().ok()?;
            Some((Some(state.finding(&name)?.id.clone()), None))
        }
        Some(("point", id)) => {
            let book = state.book()?;
            let point = book
                .book
                .points
                .iter()
                .find(|point| point.id.as_str() == id)?;
            Some((None, Some(point.id.clone())))
        }
        Some(_) => None,
    }
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::Note)?;
    let (id, state, book) = desk.machine_and_book(machine)?;
    let p = desk.page();
    let names = crate::names::names(desk, state);
    let of = typed.field("of");
    let chosen = |code: String, word: String| Shows {
        chosen: code == of,
        code,
        word,
    };
    let judgement = desk.judgement(state);
    let mut findings: Vec<Shows> = open_things(state, &judgement)
        .iter()
        .map(|thing| thing.latest)
        .map(|f| chosen(format!("finding {}", f.id), p.words.found(f, &names)))
        .collect();
    // The page of an older finding of the same thing, or of one that is closed, leads here as well.
    let named = of
        .strip_prefix("finding ")
        .and_then(|name| name.parse().ok());
    if let Some(found) = named.and_then(|name: FaultRef| state.finding(&name))
        && findings.iter().all(|one| !one.chosen)
    {
        findings.push(chosen(of.to_owned(), p.words.found(found, &names)));
    }
    let numbers = numbers(book);
    let mut points: Vec<_> = book.points.iter().collect();
    points.sort_by_key(|point| numbers.get(&point.id).copied());
    let points = points.into_iter().map(|point| {
        let number = numbers
            .get(&point.id)
            .map_or_else(String::new, |n| format!("{n} "));
        chosen(
            format!("point {}", point.id),
            format!("{number}{}", point.what),
        )
    });
    page(&PhotoPage {
        machine: book.machine.name.clone(),
        here: format!("{}/m/{id}", p.home()),
        asked,
        findings,
        points: points.collect(),
        text: typed.field("text").to_owned(),
        p,
    })
}
