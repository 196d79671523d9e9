//! What comes back, on pages: the count with its gaps and cost, the cause that is asked for, the other side.

use super::fixture::Place;
use axum::http::StatusCode;
use yard::{
    entry::{Answer, Answered, Body as Said, BoltState, Cause, Repair, RoundPurpose, WalkRound},
    id::{EntryId, FaultRef, PointId, RoundId},
};

fn found_loose(place: &Place) -> FaultRef {
    let revision = place
        .yard
        .entries()
        .unwrap()
        .iter()
        .find(|entry| matches!(entry.body, Said::BookAdopted(_)))
        .unwrap()
        .id;
    let point = PointId::new("frame-bolts-left").unwrap();
    let answered = Answered {
        point: point.clone(),
        answer: Answer::Bolts {
            state: BoltState::Loose,
            how_many: 2,
        },
        note: None,
        photos: vec![],
    };
    let round = RoundId(store::fresh_id(place.clock.as_ref()));
    let walk = WalkRound {
        round,
        book: revision,
        purpose: RoundPurpose::Start,
        from_paper: false,
        answers: vec![answered],
        hours: None,
        closes: None,
        no_photo: None,
    };
    let entry = place.write(place.operator, Some("marigold"), Said::WalkRound(walk));
    place.later(60 * 24);
    FaultRef {
        entry,
        point: Some(point),
    }
}

fn page_of(place: &Place, finding: &FaultRef) -> String {
    let name = server::session::encode(&finding.to_string());
    format!("{}/finding/{name}", place.machine())
}

fn last_repair(place: &Place) -> (EntryId, Repair) {
    let entries = place.yard.entries().unwrap().into_iter().rev();
    let mut repairs = entries.filter_map(|entry| match entry.body {
        Said::Repair(repair) => Some((entry.id, repair)),
        _ => None,
    });
    repairs.next().unwrap()
}

#[tokio::test]
async fn the_third_time_the_repair_asks_for_the_cause_and_again_the_same_is_no_answer() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let again = format!("{}/comes-back", place.machine());
    let nothing = place.get(&cookie, &again).await.text;
    assert!(nothing.contains("Nothing has come back yet."));
    for (what, cost) in [
        ("Tightened, 210 lb-ft", "12.50 EUR"),
        ("tightened 210 lb-ft again", "3 EUR"),
    ] {
        let finding = found_loose(&place);
        let cookie = place.sign_in(place.operator).await;
        let page = page_of(&place, &finding);
        let fields = [("what", what), ("cost", cost)];
        let got = place.post(&cookie, &format!("{page}/mend"), &fields).await;
        assert!(got.to.contains("/finding/"), "{}", got.to);
        place.later(60);
    }
    let finding = found_loose(&place);
    let cookie = place.sign_in(place.operator).await;
    let page = page_of(&place, &finding);
    let text = place.get(&cookie, &page).await.text;
    for said in [
        "failed 3 times",
        "Mended the same way 2 times",
        "Cost: 15.50 EUR.",
        "take the thread for stripped",
        "name=\"cause\"",
        "The next round asks the other side too:",
    ] {
        assert!(text.contains(said), "{said}");
    }
    let mend = format!("{page}/mend");
    let before = last_repair(&place).0;
    let got = place
        .post(&cookie, &mend, &[("what", "again the same")])
        .await;
    assert_eq!(got.status, StatusCode::OK);
    assert!(got.text.contains("Doing the same again is no answer here."));
    assert!(got.text.contains("again the same"), "nothing typed is lost");
    assert_eq!(last_repair(&place).0, before);
    let fields = [
        ("what", "again the same"),
        ("cause-not-found", "no time to strip it"),
    ];
    let got = place.post(&cookie, &mend, &fields).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER);
    let cause = last_repair(&place).1.cause;
    assert_eq!(cause, Some(Cause::NotFound("no time to strip it".into())));
    let told = place.get(&cookie, &again).await.text;
    assert!(told.contains("Cause not found, because: no time to strip it"));
    assert!(told.contains("failed 3 times"));
    // And the journal says it too.
    let journal = place
        .get(&cookie, &format!("{}/journal", place.machine()))
        .await;
    assert!(journal.text.contains("Cause not found, because"));
}

#[tokio::test]
async fn the_first_repair_asks_for_nothing_and_the_second_says_what_did_not_hold() {
    let place = Place::new();
    let first = found_loose(&place);
    let cookie = place.sign_in(place.operator).await;
    let text = place.get(&cookie, &page_of(&place, &first)).await.text;
    assert!(!text.contains("name=\"cause\"") && !text.contains("It has come back"));
    let mend = format!("{}/mend", page_of(&place, &first));
    place.post(&cookie, &mend, &[("what", "tightened")]).await;
    place.later(60);
    let second = found_loose(&place);
    let cookie = place.sign_in(place.operator).await;
    let text = place.get(&cookie, &page_of(&place, &second)).await.text;
    assert!(text.contains("The same again would be the second time."));
    assert!(text.contains("It has come back") && !text.contains("name=\"cause\""));
    let mend = format!("{}/mend", page_of(&place, &second));
    let got = place.post(&cookie, &mend, &[("what", "tightened")]).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER);
}
