//! Parts and the shelf, attachments, documents, leaving: by the forms, to what the pages say.

use super::fixture::Place;
use axum::http::StatusCode;
use yard::{
    entry::{Body, BookAdopted},
    id::MachineId,
    state::{MachineState, fold_machine, fold_yard},
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
