//! Photos of findings: with the answer that told of one, and by entries that name it, before or after it.
#![allow(clippy::unwrap_used)]

mod small_yard;

use small_yard::*;
use uuid::Uuid;
use yard::{
    entry::*,
    id::{EntryId, FaultRef, PersonId, PhotoId},
    state::PhotoOf,
};

fn photo(n: u128) -> PhotoId {
    PhotoId(Uuid::from_u128(0x70_0000 + n))
}

/// A round whose one answer tells of a missing clip and comes with photos.
fn missing_clip(photos: &[u128]) -> (SmallYard, FaultRef) {
    let mut yard = SmallYard::new();
    let answers = vec![("clip-left", clip(ClipState::Missing))];
    let mut body = yard.walk_body(1, answers, None);
    let Body::WalkRound(walk) = &mut body else {
        panic!("a walk-round");
    };
    walk.answers[0].photos = photos.iter().map(|n| photo(*n)).collect();
    let walk = yard.says(OPERATOR, "2026-05-01T07:00", body);
    (yard, fault_at(walk, "clip-left"))
}

fn takes(
    yard: &mut SmallYard,
    by: PersonId,
    when: &str,
    n: u128,
    of: &FaultRef,
    text: &str,
) -> EntryId {
    yard.says(by, when, note(n, Some(of), text))
}

fn note(n: u128, of: Option<&FaultRef>, text: &str) -> Body {
    Body::Photo(PhotoNote {
        photo: photo(n),
        of: of.cloned(),
        point: None,
        text: Some(text.to_owned()),
    })
}

/// The photos of a finding and what is said of each.
fn hung(yard: &SmallYard, of: &FaultRef) -> Vec<(PhotoId, Option<String>)> {
    let state = yard.fold();
    let photos = state.findings[of].photos.iter();
    photos.map(|p| (p.photo, p.text.clone())).collect()
}

#[test]
fn the_answers_photos_come_first_then_those_that_name_it() {
    let (mut yard, finding) = missing_clip(&[1, 2, 1]);
    let later = takes(
        &mut yard,
        LEARNER,
        "2026-05-01T09:00",
        3,
        &finding,
        "from below",
    );
    let said = |text: &str| Some(text.to_owned());
    let all = [
        (photo(1), None),
        (photo(2), None),
        (photo(3), said("from below")),
    ];
    assert_eq!(hung(&yard, &finding), all);
    assert_eq!(
        yard.fold().findings[&finding].photos[2],
        PhotoOf {
            photo: photo(3),
            entry: later,
            at: at("2026-05-01T09:00"),
            by: LEARNER,
            text: said("from below"),
        }
    );
    // A photo closes nothing and makes nothing worse.
    assert!(yard.fold().findings[&finding].open());
}

#[test]
fn a_photo_that_is_ordered_before_its_finding_hangs_there_all_the_same() {
    let (mut yard, finding) = missing_clip(&[]);
    takes(
        &mut yard,
        OPERATOR,
        "2026-05-01T06:50",
        1,
        &finding,
        "seen first",
    );
    assert_eq!(hung(&yard, &finding).len(), 1);
    yard.entries.reverse();
    assert_eq!(hung(&yard, &finding).len(), 1);
}

#[test]
fn named_twice_it_hangs_once_with_the_first_words() {
    let (mut yard, finding) = missing_clip(&[1]);
    takes(
        &mut yard,
        OPERATOR,
        "2026-05-01T09:00",
        1,
        &finding,
        "left clip",
    );
    takes(
        &mut yard,
        OPERATOR,
        "2026-05-01T10:00",
        1,
        &finding,
        "again",
    );
    assert_eq!(
        hung(&yard, &finding),
        [(photo(1), Some("left clip".to_owned()))]
    );
}

#[test]
fn a_photo_taken_back_or_by_a_visitor_does_not_hang() {
    let (mut yard, finding) = missing_clip(&[]);
    let slip = takes(
        &mut yard,
        OPERATOR,
        "2026-05-01T09:00",
        1,
        &finding,
        "my boot",
    );
    takes(
        &mut yard,
        VISITOR,
        "2026-05-01T09:05",
        2,
        &finding,
        "not theirs",
    );
    assert_eq!(hung(&yard, &finding).len(), 1);
    yard.corrects(OPERATOR, "2026-05-01T09:10", slip, None);
    assert_eq!(hung(&yard, &finding), []);
    assert_eq!(
        yard.fold().questions.len(),
        0,
        "nobody is asked about a photo"
    );
}

#[test]
fn a_photo_of_no_finding_changes_no_state() {
    let (mut yard, finding) = missing_clip(&[]);
    let before = yard.fold();
    yard.says(OPERATOR, "2026-05-01T09:00", note(1, None, "the yard"));
    let nothing = fault_at(finding.entry, "clip-right");
    takes(
        &mut yard,
        OPERATOR,
        "2026-05-01T09:00",
        2,
        &nothing,
        "well there",
    );
    assert_eq!(yard.fold(), before);
}

#[test]
fn a_renamed_point_keeps_its_photos() {
    let (mut yard, finding) = missing_clip(&[]);
    let renamed = BOOK.replace("\"clip-left\"", "\"clip-bucket-left\"")
        + "\n[renamed]\nclip-left = \"clip-bucket-left\"\n";
    yard.adopt("2026-05-02T07:00", &renamed);
    takes(
        &mut yard,
        OPERATOR,
        "2026-05-02T09:00",
        1,
        &finding,
        "by its old name",
    );
    let today = fault_at(finding.entry, "clip-bucket-left");
    assert_eq!(hung(&yard, &today).len(), 1);
}
