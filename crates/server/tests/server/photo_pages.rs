//! Photos on pages: added by a form without scripts, seen beside what they show, or said to be missing.

use super::{
    fixture::{Got, Place},
    photo_made::{jpeg, quarters},
};
use axum::{
    body::Body,
    http::{Request, StatusCode, header},
};
use server::session::encode;
use yard::{
    book::Severity,
    code::Coded,
    entry::{
        Answer, Answered, Body as Said, ClipState, Correction, Fault, PhotoNote, RoundPurpose,
        WalkRound,
    },
    id::{EntryId, PhotoId, PointId, RoundId},
};

const EDGE: &str = "a-line-between-fields";

/// Sends a form with a file, as a browser does.
async fn send(place: &Place, cookie: &str, file: Option<&[u8]>, fields: &[(&str, &str)]) -> Got {
    let mut body = Vec::new();
    for (name, value) in fields {
        body.extend(
            format!(
                "--{EDGE}\r\nContent-Disposition: form-data; name=\"{name}\"\r\n\r\n{value}\r\n"
            )
            .bytes(),
        );
    }
    let name = if file.is_some() { "IMG_1.jpg" } else { "" };
    body.extend(format!("--{EDGE}\r\nContent-Disposition: form-data; name=\"picture\"; filename=\"{name}\"\r\nContent-Type: application/octet-stream\r\n\r\n").bytes());
    body.extend(file.unwrap_or_default());
    body.extend(format!("\r\n--{EDGE}--\r\n").bytes());
    let request = Request::post(format!("{}/photo", place.machine()))
        .header(header::COOKIE, cookie)
        .header(
            header::CONTENT_TYPE,
            format!("multipart/form-data; boundary={EDGE}"),
        )
        .body(Body::from(body))
        .unwrap();
    place.send(request).await
}

fn report(place: &Place, what: &str) -> EntryId {
    place.write(
        place.operator,
        Some("marigold"),
        Said::Fault(Fault {
            point: None,
            what: what.to_owned(),
            severity: Severity::Care,
            told: None,
        }),
    )
}

fn last_photo(place: &Place) -> PhotoNote {
    let entries = place.yard.entries().unwrap();
    let notes = entries.into_iter().rev().find_map(|e| match e.body {
        Said::Photo(note) => Some(note),
        _ => None,
    });
    notes.unwrap()
}

#[tokio::test]
async fn a_photo_of_a_finding_stands_on_its_page_and_in_the_journal() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let fault = report(&place, "hose rubs on the frame");
    let finding = format!("{}/finding/{fault}", place.machine());
    let page = place.get(&cookie, &finding).await.text;
    let link = format!("{}/photo?of={fault}", place.machine());
    assert!(page.contains(&link), "the finding leads to the form");
    let form = place.get(&cookie, &link).await.text;
    assert!(form.contains(&format!(
        "<option value=\"finding {fault}\" selected>hose rubs on the frame"
    )));
    let fields = [
        ("of", &*format!("finding {fault}")),
        ("text", "seen <from> below"),
    ];
    let got = send(&place, &cookie, Some(&jpeg(&quarters(90, 60))), &fields).await;
    assert_eq!(
        (got.status, got.to),
        (StatusCode::SEE_OTHER, finding.clone())
    );
    let note = last_photo(&place);
    assert_eq!(note.of.unwrap().entry, fault);
    let address = format!("{}/photos/{}", place.home(), note.photo);
    for page in [&finding, &format!("{}/journal", place.machine())] {
        let text = place.get(&cookie, page).await.text;
        assert!(text.contains(&format!("<a href=\"{address}\"><img src=\"{address}?size=small\" width=\"160\" height=\"120\"")), "{page}");
        assert!(
            text.contains("alt=\"Photo: seen &#60;from&#62; below\""),
            "{page}"
        );
        // Whoever is not signed in reads that there is one.
        let text = place.get("", page).await.text;
        assert!(
            !text.contains(&address) && text.contains("Sign in to see it."),
            "{page}"
        );
    }
    assert_eq!(place.get(&cookie, &address).await.status, StatusCode::OK);
}

#[tokio::test]
async fn a_photo_may_show_a_point_or_the_machine() {
    let place = Place::new();
    let cookie = place.sign_in(place.learner).await;
    for (of, point) in [
        ("point dipper-clips-left", Some("dipper-clips-left")),
        ("", None),
    ] {
        let got = send(
            &place,
            &cookie,
            Some(&jpeg(&quarters(90, 60))),
            &[("of", of), ("text", " ")],
        )
        .await;
        assert_eq!(got.to, format!("{}/journal", place.machine()));
        let note = last_photo(&place);
        assert_eq!(
            (note.of, note.point, note.text),
            (None, point.and_then(PointId::new), None)
        );
    }
}

#[tokio::test]
async fn what_cannot_be_kept_is_asked_for_again_with_the_caption_still_there() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let whole = jpeg(&quarters(90, 60));
    let large = vec![0; server::photo::MOST_BYTES + 1];
    let cases: [(Option<&[u8]>, &str, &str); 6] = [
        (None, "", "No picture was chosen."),
        (Some(b""), "", "The file is empty."),
        (Some(b"MZ\x90\0"), "", "This file is no picture."),
        (Some(&whole[..200]), "", "The picture is cut off"),
        (Some(&large), "", "The photo is larger than 12 MB."),
        (
            Some(&whole),
            "finding 0197a3a0-0000-7000-8000-000000000001",
            "not there any more",
        ),
    ];
    let before = place.yard.entries().unwrap().len();
    for (file, of, told) in cases {
        let got = send(
            &place,
            &cookie,
            file,
            &[("of", of), ("text", "the left pin")],
        )
        .await;
        assert_eq!(got.status, StatusCode::OK);
        assert!(
            got.text.contains(told) && got.text.contains("value=\"the left pin\""),
            "{told}: {}",
            got.text
        );
    }
    assert_eq!(place.yard.entries().unwrap().len(), before);
    assert_eq!(place.yard.pictures().unwrap(), []);
}

#[tokio::test]
async fn who_may_not_write_may_not_add_a_photo() {
    let place = Place::new();
    let sent = jpeg(&quarters(90, 60));
    let nobody = send(&place, "", Some(&sent), &[]).await;
    assert!(nobody.to.contains("/sign-in"), "{}", nobody.to);
    let visitor = place.sign_in(place.visitor).await;
    assert_eq!(
        send(&place, &visitor, Some(&sent), &[]).await.status,
        StatusCode::FORBIDDEN
    );
    let form = format!("{}/photo", place.machine());
    assert_eq!(
        place.get(&visitor, &form).await.status,
        StatusCode::FORBIDDEN
    );
    let operator = place.sign_in(place.operator).await;
    let plain = place.post(&operator, &form, &[("of", "")]).await;
    assert_eq!(plain.status, StatusCode::BAD_REQUEST);
    assert_eq!(place.yard.pictures().unwrap(), []);
}

/// A round's answer with a photo whose picture is still on the phone.
fn answered_with_photo(place: &Place, photo: PhotoId) -> EntryId {
    let entries = place.yard.entries().unwrap();
    let book = entries
        .iter()
        .find(|e| matches!(e.body, Said::BookAdopted(_)))
        .unwrap()
        .id;
    place.write(
        place.operator,
        Some("marigold"),
        Said::WalkRound(WalkRound {
            round: RoundId(photo.0),
            book,
            purpose: RoundPurpose::from_code("start").unwrap(),
            from_paper: false,
            answers: vec![Answered {
                point: PointId::new("dipper-clips-left").unwrap(),
                answer: Answer::PinClip(ClipState::Missing),
                note: None,
                photos: vec![photo],
            }],
            hours: None,
            closes: None,
            no_photo: None,
        }),
    )
}

#[tokio::test]
async fn an_answers_photo_is_awaited_and_then_shown_everywhere() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let photo: PhotoId = "0197a3a0-0000-7000-8000-000000000001".parse().unwrap();
    let walk = answered_with_photo(&place, photo);
    let finding = format!(
        "{}/finding/{}",
        place.machine(),
        encode(&format!("{walk}/dipper-clips-left"))
    );
    let station = station_of(&place, &cookie).await;
    let pages = [finding, station, format!("{}/journal", place.machine())];
    for page in &pages {
        let text = place.get(&cookie, page).await.text;
        assert!(
            text.contains("The picture is not here yet") && !text.contains("<img"),
            "{page}: {text}"
        );
    }
    let put = Request::put(format!("/api{}/photos/{photo}", place.home()))
        .header(header::COOKIE, &cookie)
        .body(Body::from(jpeg(&quarters(90, 60))))
        .unwrap();
    assert_eq!(place.send(put).await.status, StatusCode::CREATED);
    for page in &pages {
        let text = place.get(&cookie, page).await.text;
        assert!(
            text.contains(&format!("/photos/{photo}?size=small")) && !text.contains("not here yet"),
            "{page}"
        );
    }
}

/// The address of the station where the clip is asked about.
async fn station_of(place: &Place, cookie: &str) -> String {
    let list = place
        .get(cookie, &format!("{}/round?list=1", place.machine()))
        .await
        .text;
    let links = list
        .split("href=\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next());
    let stations: Vec<String> = links
        .filter(|l| l.contains("/round/"))
        .map(str::to_owned)
        .collect();
    for station in &stations {
        if place
            .get(cookie, station)
            .await
            .text
            .contains("id=\"p-dipper-clips-left\"")
        {
            return station.clone();
        }
    }
    panic!("no station asks about the clip: {stations:?}");
}

#[tokio::test]
async fn a_photo_whose_entry_is_voided_is_not_shown_in_the_journal() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    send(
        &place,
        &cookie,
        Some(&jpeg(&quarters(90, 60))),
        &[("of", ""), ("text", "my boot")],
    )
    .await;
    let journal = format!("{}/journal", place.machine());
    assert!(place.get(&cookie, &journal).await.text.contains("<img"));
    let entry = place.yard.entries().unwrap().last().unwrap().id;
    place.write(
        place.operator,
        Some("marigold"),
        Said::Correction(Correction {
            of: entry,
            instead: None,
            why: "taken by mistake".to_owned(),
        }),
    );
    assert!(!place.get(&cookie, &journal).await.text.contains("<img"));
}

#[tokio::test]
async fn the_finding_sheet_prints_photos_for_those_who_may_see_them() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let fault = report(&place, "hose rubs on the frame");
    let paper = format!(
        "{}/papers/finding-sheet.pdf?size=letter&finding={fault}",
        place.machine()
    );
    let length = |got: &Got| {
        assert_eq!(got.status, StatusCode::OK);
        assert!(got.text.starts_with("%PDF"));
        got.text.len()
    };
    let without = length(&place.get(&cookie, &paper).await);
    let of = format!("finding {fault}");
    let picture = quarters(1600, 1200);
    send(
        &place,
        &cookie,
        Some(&jpeg(&picture)),
        &[("of", &of), ("text", "")],
    )
    .await;
    let note = last_photo(&place);
    let kept = place.yard.picture(note.photo).unwrap().unwrap();
    let with = length(&place.get(&cookie, &paper).await);
    assert!(
        with > without + kept.bytes.len() / 2,
        "{with} after {without}"
    );
    let nobody = length(&place.get("", &paper).await);
    assert!(
        nobody < without + kept.bytes.len() / 2,
        "{nobody} after {without}"
    );
}
