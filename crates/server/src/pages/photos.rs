//! Photos on pages: a small picture that leads to the whole, or a line where it cannot be shown.

use crate::{desk::Desk, page::Page, refusal::Refusal};
use askama::Template;
use jiff::Timestamp;
use words::Names;
use yard::{
    entry::{Answered, Body, Entry},
    id::{PhotoId, PointId},
    state::{Finding, MachineState, PhotoOf},
};

/// Most photos of one thing on a page that is about something else.
const BESIDE: usize = 4;

#[derive(Template)]
#[template(path = "photo/row.html")]
struct Row {
    shots: Vec<Shot>,
}

/// One photo as a page shows it.
pub(crate) struct Shot {
    link: String,
    alt: String,
    under: String,
    instead: Option<String>,
}

/// A row of photos as markup; empty where there are none.
pub(crate) fn row(shots: Vec<Shot>) -> Result<String, Refusal> {
    if shots.is_empty() {
        return Ok(String::new());
    }
    Ok(Row { shots }.render()?)
}

/// A photo. `shows`: what it shows, for those who cannot see it; `under`: what stands under it.
pub(crate) fn shot(
    desk: &Desk,
    p: &Page,
    photo: PhotoId,
    shows: &str,
    under: String,
) -> Result<Shot, Refusal> {
    // The sentence ends with its own full stop.
    let what = p.t1("photo-shows", "what", shows.trim_end_matches(['.', ' ']));
    let instead = if desk.person.is_none() {
        Some(p.t1("photo-sign-in", "what", &what))
    } else if !desk.app.yard.has_picture(photo)? {
        Some(p.t1("photo-not-here", "what", &what))
    } else {
        None
    };
    Ok(Shot {
        link: format!("{}/photos/{photo}", p.home()),
        alt: what,
        under,
        instead,
    })
}

/// The photos of a finding, each with its caption and who took it when.
pub(crate) fn of_finding(
    desk: &Desk,
    p: &Page,
    found: &Finding,
    names: &dyn Names,
) -> Result<Vec<Shot>, Refusal> {
    let shows = p.words.found(found, names);
    let each = found.photos.iter();
    each.map(|photo| shot_of(desk, p, photo, &shows)).collect()
}

fn shot_of(desk: &Desk, p: &Page, photo: &PhotoOf, shows: &str) -> Result<Shot, Refusal> {
    let taken = taken(desk, p, photo, &|at| {
        p.words.moment(at, desk.now, &desk.zone)
    });
    let (shows, under) = match &photo.text {
        Some(text) => (text.as_str(), format!("{text} · {taken}")),
        None => (shows, taken),
    };
    shot(desk, p, photo.photo, shows, under)
}

/// Who took a photo, and when.
pub(crate) fn taken(
    desk: &Desk,
    p: &Page,
    photo: &PhotoOf,
    when: &dyn Fn(Timestamp) -> String,
) -> String {
    let name = crate::unnamed::writer_of(desk, photo.entry, photo.by);
    p.words.say(
        "photo-taken",
        &[("name", name.into()), ("when", when(photo.at).into())],
    )
}

/// A few photos of what is open at a point, the latest first.
pub(crate) fn of_open_at(
    desk: &Desk,
    p: &Page,
    state: &MachineState,
    point: &PointId,
) -> Result<Vec<Shot>, Refusal> {
    let names = crate::names::names(desk, state);
    let open = |f: &&Finding| f.open() && f.id.point.as_ref() == Some(point);
    let found = state.findings.values().filter(open);
    let mut photos: Vec<(&PhotoOf, String)> = found
        .flat_map(|f| f.photos.iter().map(move |photo| (photo, f)))
        .map(|(photo, f)| (photo, p.words.found(f, &names)))
        .collect();
    photos.sort_by_key(|(photo, _)| (std::cmp::Reverse(photo.at), photo.photo));
    let few = photos.into_iter().take(BESIDE);
    few.map(|(photo, shows)| shot_of(desk, p, photo, &shows))
        .collect()
}

/// The photos that an entry names.
pub(crate) fn of_entry(
    desk: &Desk,
    p: &Page,
    entry: &Entry,
    names: &dyn Names,
) -> Result<Vec<Shot>, Refusal> {
    let of_answers = |answers: &[Answered]| {
        let each = answers.iter().flat_map(|answered| {
            let shows = p.words.answered_at(answered, names);
            let photos = answered.photos.iter();
            photos.map(move |photo| shot(desk, p, *photo, &shows, shows.clone()))
        });
        each.collect()
    };
    match &entry.body {
        Body::Photo(note) => {
            let shows = (note.text.clone())
                .or_else(|| names.point(note.point.as_ref()?))
                .or_else(|| names.machine(entry.machine.as_ref()?))
                .unwrap_or_else(|| desk.app.yard.name().to_owned());
            Ok(vec![shot(desk, p, note.photo, &shows, String::new())?])
        }
        Body::WalkRound(walk) => of_answers(&walk.answers),
        Body::Greasing(greasing) => of_answers(&greasing.fittings),
        _ => Ok(Vec::new()),
    }
}
