//! Parts and the shelf, attachments, documents, leaving: by the forms, to what the pages say.

use super::fixture::Place;
use axum::http::StatusCode;
use yard::{
    entry::{
        Answer, Answered, AttachmentChange, Body, BookAdopted, ClipState, Document, DocumentKind,
        Evidence, MOST_LETTERS, Note, RoundPurpose, WalkRound,
    },
    id::{EntryId, MachineId, PointId, RoundId},
    state::{Asks, MachineState, fold_machine, fold_yard},
};

/// A bucket with a pin and a book of its own.
const BUCKET: &str = r#"kingpost = 1

[machine]
id = "narrow-bucket"
name = "Narrow bucket"
kind = "bucket"
invented = true
without = ["engine", "seat-belt", "starter"]

[ground]
on = "another-machine"

[[station]]
id = "ears"
name = "Ears"
at = [0, 0]

[[point]]
id = "ear-clips"
station = "ears"
kind = "pin-clip"
what = "Clips of the pins"
rhythm = "every start"
"#;

fn state(place: &Place, machine: &str) -> MachineState {
    let entries = place.yard.entries().unwrap();
    let yard = fold_yard(&entries);
    let id = MachineId::new(machine).unwrap();
    fold_machine(&id, &entries, &yard, &quantity::Habits::default())
}

fn adopt(place: &Place, machine: &str, text: &str) {
    let adopted = BookAdopted {
        text: text.to_owned(),
        why: None,
    };
    place.write(place.steward, Some(machine), Body::BookAdopted(adopted));
}

fn with(more: &str) -> String {
    format!("{}\n{more}", super::fixture::BOOK)
}

async fn kept(place: &Place, cookie: &str, path: &str, fields: &[(&str, &str)]) {
    let got = place.post(cookie, path, fields).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{path}: {}", got.text);
}

#[tokio::test]
async fn the_shelf_is_counted_and_the_list_says_what_is_low() {
    let place = Place::new();
    let part = "[[part]]\nid = \"frame-clip\"\nwhat = \"Frame clip\"\nkind = \"clip\"\nnumber = \"0042917\"\nat = [1.0, 0.4, 1.0]\nkeep = 5\n";
    adopt(&place, "marigold", &with(part));
    let m = place.machine();
    let operator = place.sign_in(place.operator).await;
    let page = place.get(&operator, &format!("{m}/parts")).await.text;
    assert!(page.contains("0042917") && page.contains("<svg"), "{page}");
    assert!(page.contains("5 × Frame clip"), "{page}");
    let wrong = [("n.frame-clip", "three")];
    let asked = place.post(&operator, &format!("{m}/shelf"), &wrong).await;
    assert_eq!(asked.status, StatusCode::OK);
    kept(
        &place,
        &operator,
        &format!("{m}/shelf"),
        &[("n.frame-clip", "3")],
    )
    .await;
    let list = place
        .get("", &format!("{}/shopping", place.home()))
        .await
        .text;
    assert!(list.contains("2 × Frame clip"), "{list}");
    assert!(list.contains("3 on the shelf, 5 wanted"), "{list}");
    let deputy = place.sign_in(place.deputy).await;
    let bought = [("part", "frame-clip"), ("count", "2")];
    kept(&place, &deputy, &format!("{m}/purchase"), &bought).await;
    let list = place
        .get("", &format!("{}/shopping", place.home()))
        .await
        .text;
    assert!(!list.contains("Frame clip"), "{list}");
    kept(
        &place,
        &operator,
        &format!("{m}/part"),
        &[("part", "frame-clip")],
    )
    .await;
    let shelf = state(&place, "marigold").shelf;
    assert_eq!(shelf.values().map(|shelf| shelf.count).sum::<u32>(), 4);
}

#[tokio::test]
async fn an_attachment_that_stands_down_stands_its_carrier_down() {
    let place = Place::new();
    let taken =
        "[[attachment]]\nid = \"narrow-bucket\"\nlocks = \"Both pins through, clips seen\"\n";
    adopt(&place, "marigold", &with(taken));
    adopt(&place, "narrow-bucket", BUCKET);
    let m = place.machine();
    let operator = place.sign_in(place.operator).await;
    let path = format!("{m}/attachments");
    let page = place.get(&operator, &path).await.text;
    assert!(page.contains("Both pins through, clips seen"), "{page}");
    let strange = [("attachment", "crane"), ("change", "on")];
    let asked = place.post(&operator, &path, &strange).await;
    assert_eq!(asked.status, StatusCode::OK, "the book takes no crane");
    let says = "Narrow bucket, which is on it, stands down.";
    let before = place.get(&operator, &m).await.text;
    assert!(!before.contains(says));
    let on = [("attachment", "narrow-bucket"), ("change", "on")];
    kept(&place, &operator, &path, &on).await;
    let after = place.get(&operator, &m).await.text;
    assert!(after.contains(says), "its own round is not walked: {after}");
    let off = [("attachment", "narrow-bucket"), ("change", "off")];
    kept(&place, &operator, &path, &off).await;
    let then = place.get(&operator, &m).await.text;
    assert!(!then.contains(says));
}

#[tokio::test]
async fn a_needed_document_is_asked_for_kept_shown_ahead_and_ended() {
    let place = Place::new();
    let wanted = "[[document]]\nid = \"lifting-eye\"\nwhat = \"test-report\"\ntitle = \"Report of the lifting eye\"\nneeded = true\nbad-is = \"stand-down\"\n";
    adopt(&place, "marigold", &with(wanted));
    let m = place.machine();
    let steward = place.sign_in(place.steward).await;
    let missing = "A document it needs is not there: Report of the lifting eye.";
    assert!(place.get(&steward, &m).await.text.contains(missing));
    let path = format!("{m}/documents");
    let report = [
        ("kind", "test-report"),
        ("title", "Report 7"),
        ("number", "0042917"),
        ("until", "2026-03-20"),
        ("kept", "red folder"),
        ("of-book", "lifting-eye"),
    ];
    let deputy = place.sign_in(place.deputy).await;
    let refused = place.post(&deputy, &path, &report).await;
    assert_eq!(refused.status, StatusCode::FORBIDDEN);
    kept(&place, &steward, &path, &report).await;
    let page = place.get(&steward, &m).await.text;
    assert!(!page.contains(missing), "{page}");
    assert!(page.contains("Report 7: Ends soon: 20 Mar 2026"), "{page}");
    let documents = place.get("", &path).await.text;
    assert!(documents.contains("red folder") && documents.contains("0042917"));
    let entry = state(&place, "marigold").documents[0].entry;
    let end = format!("{path}/{entry}/end");
    assert_eq!(
        place.post(&steward, &end, &[]).await.status,
        StatusCode::OK,
        "asks why"
    );
    kept(
        &place,
        &steward,
        &end,
        &[("why", "withdrawn by the examiner")],
    )
    .await;
    assert!(place.get(&steward, &m).await.text.contains(missing));
    let insurance = [
        ("kind", "insurance"),
        ("title", "Yard policy"),
        ("until", "2026-03-05"),
    ];
    let yards = format!("{}/documents", place.home());
    kept(&place, &deputy, &yards, &insurance).await;
    let home = place.get("", &place.home()).await.text;
    assert!(home.contains("Yard policy: Ends soon"), "{home}");
}

#[tokio::test]
async fn a_machine_that_left_keeps_its_page_and_its_history() {
    let place = Place::new();
    let m = place.machine();
    let steward = place.sign_in(place.steward).await;
    let path = format!("{m}/leaving");
    let asked = place.post(&steward, &path, &[("to", "somebody")]).await;
    assert_eq!(asked.status, StatusCode::OK, "how is not said");
    let sold = [("how", "sold"), ("to", "a farmer up the valley")];
    kept(&place, &steward, &path, &sold).await;
    let home = place.get(&steward, &place.home()).await.text;
    assert!(home.contains("Machines that left"), "{home}");
    let page = place.get(&steward, &m).await.text;
    assert!(page.contains("It was sold and is not of this yard any more."));
    assert!(!page.contains(&format!("{m}/round\"")), "takes no rounds");
    for file in ["papers/history.pdf", "papers/parts-list.pdf"] {
        let paper = place.get("", &format!("{m}/{file}")).await;
        assert_eq!(paper.status, StatusCode::OK, "{file}");
    }
    let chart = format!("{}/papers/wall-chart.pdf", place.home());
    assert_eq!(place.get("", &chart).await.status, StatusCode::OK);
    kept(&place, &steward, &path, &[("why", "not paid for")]).await;
    assert!(state(&place, "marigold").left.is_none());
}

/// A round of the bucket, closed, with its clips as said.
fn bucket_walked(place: &Place, book: EntryId, clips: ClipState, note: Option<&str>) {
    let answered = Answered {
        point: PointId::new("ear-clips").unwrap(),
        answer: Answer::PinClip(clips),
        note: note.map(str::to_owned),
        photos: vec![],
    };
    let round = WalkRound {
        round: RoundId(store::fresh_id(place.clock.as_ref())),
        book,
        purpose: RoundPurpose::Start,
        from_paper: false,
        answers: vec![answered],
        hours: None,
        closes: Some(Evidence {
            verdict: "care".into(),
            reasons: vec![],
            book,
            program: "test".into(),
        }),
        no_photo: None,
    };
    let body = Body::WalkRound(round);
    place.write(place.operator, Some("narrow-bucket"), body);
}

/// The loader takes the bucket, which is on it; the bucket's own book.
async fn with_bucket_on(place: &Place) -> EntryId {
    let taken =
        "[[attachment]]\nid = \"narrow-bucket\"\nlocks = \"Both pins through, clips seen\"\n";
    adopt(place, "marigold", &with(taken));
    let book = place.write(
        place.steward,
        Some("narrow-bucket"),
        Body::BookAdopted(BookAdopted {
            text: BUCKET.to_owned(),
            why: None,
        }),
    );
    let operator = place.sign_in(place.operator).await;
    let on = [("attachment", "narrow-bucket"), ("change", "on")];
    let path = format!("{}/attachments", place.machine());
    kept(place, &operator, &path, &on).await;
    place.later(1);
    book
}

#[tokio::test]
async fn what_to_mind_on_an_attachment_reaches_the_page_of_its_carrier() {
    let place = Place::new();
    let book = with_bucket_on(&place).await;
    let operator = place.sign_in(place.operator).await;
    let m = place.machine();
    let care = "Narrow bucket, which is on it, runs with care.";
    let down = "Narrow bucket, which is on it, stands down.";
    bucket_walked(&place, book, ClipState::Present, None);
    let page = place.get(&operator, &m).await.text;
    assert!(!page.contains(care) && !page.contains(down), "{page}");
    let recall = Document {
        what: DocumentKind::Recall,
        title: "Ears may crack".into(),
        number: None,
        from: None,
        until: None,
        kept: None,
        note: None,
        of_book: None,
        renews: None,
        photos: vec![],
    };
    let body = Body::Document(recall);
    place.write(place.steward, Some("narrow-bucket"), body);
    let page = place.get(&operator, &m).await.text;
    assert!(page.contains(care), "{page}");
}

#[tokio::test]
async fn an_attachment_that_hangs_elsewhere_is_not_put_on_by_the_form() {
    let place = Place::new();
    with_bucket_on(&place).await;
    let taken =
        "[[attachment]]\nid = \"narrow-bucket\"\nlocks = \"Both pins through, clips seen\"\n";
    let second = with(taken).replacen("id = \"marigold\"", "id = \"second\"", 1);
    adopt(&place, "second", &second);
    let operator = place.sign_in(place.operator).await;
    let path = format!("{}/m/second/attachments", place.home());
    let on = [("attachment", "narrow-bucket"), ("change", "on")];
    let refused = place.post(&operator, &path, &on).await;
    assert_eq!(refused.status, StatusCode::OK, "{}", refused.text);
    assert!(state(&place, "second").fitted.is_empty());
    // Whoever writes past the form moves it: it hangs in one place, on every page.
    let before = place.get(&operator, &place.machine()).await.text;
    assert!(before.contains("Narrow bucket"), "{before}");
    place.later(1);
    let change = AttachmentChange {
        attachment: MachineId::new("narrow-bucket").unwrap(),
        fitted: true,
        note: None,
    };
    place.write(place.operator, Some("second"), Body::Attachment(change));
    let after = place.get(&operator, &place.machine()).await.text;
    assert!(!after.contains("Narrow bucket"), "{after}");
    let steward = place.sign_in(place.steward).await;
    let questions = format!("{}/questions", place.home());
    let asked = place.get(&steward, &questions).await.text;
    assert!(
        asked.contains("was put on while it was still on"),
        "{asked}"
    );
}

#[tokio::test]
async fn what_the_last_round_remarked_stands_on_the_machines_page() {
    let place = Place::new();
    let book = with_bucket_on(&place).await;
    let page = format!("{}/m/narrow-bucket", place.home());
    let remark = "the left one sits a little proud";
    bucket_walked(&place, book, ClipState::Present, Some(remark));
    let text = place.get("", &page).await.text;
    assert!(
        text.contains("Said at the last round") && text.contains(remark),
        "{text}"
    );
    place.later(1);
    bucket_walked(&place, book, ClipState::Present, Some(" "));
    let text = place.get("", &page).await.text;
    assert!(!text.contains("Said at the last round"), "{text}");
    // Nothing on it is greased: no way leads to an empty page.
    let operator = place.sign_in(place.operator).await;
    let greased = "/greasing\"";
    let text = place.get(&operator, &page).await.text;
    assert!(!text.contains(greased), "{text}");
    let loader = place.get(&operator, &place.machine()).await.text;
    assert!(loader.contains(greased), "{loader}");
}

#[tokio::test]
async fn a_document_does_not_end_before_it_begins() {
    let place = Place::new();
    let steward = place.sign_in(place.steward).await;
    let path = format!("{}/documents", place.machine());
    let days = |from: &'static str, until: &'static str| {
        [
            ("kind", "test-report"),
            ("title", "Report\u{202e} 7"),
            ("from", from),
            ("until", until),
        ]
    };
    let asked = place
        .post(&steward, &path, &days("2026-03-20", "2026-03-19"))
        .await;
    assert_eq!(asked.status, StatusCode::OK);
    assert!(
        asked.text.contains("lies before its first"),
        "{}",
        asked.text
    );
    assert!(state(&place, "marigold").documents.is_empty());
    kept(&place, &steward, &path, &days("2026-03-20", "2026-03-20")).await;
    let page = place.get(&steward, &path).await.text;
    assert!(
        page.contains("Report▯ 7"),
        "a sign that turns the writing is seen: {page}"
    );
}

#[tokio::test]
async fn a_text_nobody_reads_is_refused_by_a_form_and_kept_and_asked_about_from_a_phone() {
    let place = Place::new();
    let operator = place.sign_in(place.operator).await;
    let long = "ß".repeat(MOST_LETTERS + 1);
    let path = format!("{}/note", place.machine());
    let before = place.yard.tip().unwrap().seq;
    let refused = place.post(&operator, &path, &[("text", &long)]).await;
    assert_eq!(refused.status, StatusCode::BAD_REQUEST);
    assert!(
        refused.text.contains("more than 20,000 letters"),
        "{}",
        refused.text
    );
    assert_eq!(place.yard.tip().unwrap().seq, before);
    kept(&place, &operator, &path, &[("text", &long[2..])]).await;
    assert_eq!(state(&place, "marigold").asked().count(), 0);
    let (point, text) = (None, long.clone());
    let entry = place.write(
        place.operator,
        Some("marigold"),
        Body::Note(Note { point, text }),
    );
    let letters = MOST_LETTERS + 1;
    let state = state(&place, "marigold");
    assert_eq!(state.questions[&entry].asks, Asks::TextTooLong { letters });
    let body = place.yard.entry(entry).unwrap().unwrap().body;
    assert!(
        matches!(body, Body::Note(note) if note.text == long),
        "kept whole"
    );
}
