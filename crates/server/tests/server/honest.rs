//! Honest rounds, on pages: signs for the steward alone, one photo asked for, telling without blame, the list for a quiet day.

use super::fixture::Place;
use axum::http::StatusCode;
use yard::{
    book::{Book, PointKind, Severity},
    entry::{
        Answer, Answered, Body as Said, ClipState, Evidence, Fault, FunctionState, HoseState,
        LookState, PhotoNote, RoundPurpose, StructureState, Told, WalkRound,
    },
    id::{PhotoId, RoundId},
    walkround::show_me,
};

fn book_of(place: &Place) -> (yard::id::EntryId, Book) {
    let entries = place.yard.entries().unwrap();
    let adopted = entries.iter().find_map(|entry| match &entry.body {
        Said::BookAdopted(adopted) => Some((entry.id, adopted.text.clone())),
        _ => None,
    });
    let (revision, text) = adopted.unwrap();
    let read = yard::book::read(&text, &quantity::Habits::default());
    (revision, read.book.unwrap())
}

/// A round of the operator: begun, then every plain look answered at once, closed.
fn hurried(place: &Place) -> RoundId {
    let (revision, book) = book_of(place);
    let round = RoundId(store::fresh_id(place.clock.as_ref()));
    let well = |kind: &PointKind| {
        Some(match kind {
            PointKind::Look => Answer::Look(LookState::Well),
            PointKind::PinClip => Answer::PinClip(ClipState::Present),
            PointKind::Hose => Answer::Hose(HoseState::Sound),
            PointKind::Structure => Answer::Structure(StructureState::Sound),
            PointKind::Leak { .. } => Answer::Leak(None),
            PointKind::Function => Answer::Function(FunctionState::Works),
            _ => return None,
        })
    };
    let looks = book.points.iter().filter_map(|point| {
        Some(Answered {
            point: point.id.clone(),
            answer: well(&point.kind)?,
            note: None,
            photos: vec![],
        })
    });
    let part = |answers: Vec<Answered>, closes| {
        Said::WalkRound(WalkRound {
            round,
            book: revision,
            purpose: RoundPurpose::Start,
            from_paper: false,
            answers,
            hours: None,
            closes,
            no_photo: None,
        })
    };
    let machine = Some("marigold");
    place.write(place.operator, machine, part(vec![], None));
    place.later(1);
    place.write(place.operator, machine, part(looks.collect(), None));
    let closes = Evidence {
        verdict: "not-given".into(),
        reasons: vec![],
        book: revision,
        program: "test".into(),
    };
    place.write(place.operator, machine, part(vec![], Some(closes)));
    round
}

#[tokio::test]
async fn a_hurried_round_is_told_to_the_steward_and_to_nobody_else() {
    let place = Place::new();
    let steward = place.sign_in(place.steward).await;
    let signs = format!("{}/signs", place.home());
    let none = place.get(&steward, &signs).await.text;
    assert!(none.contains("No round of the last 30 days shows a sign."));
    hurried(&place);
    let text = place.get(&steward, &signs).await.text;
    assert!(
        text.contains("Less than a quarter of that is quick."),
        "{text}"
    );
    assert!(text.contains("Tamsin") && text.contains("A sign is no proof"));
    let home = place.get(&steward, &place.home()).await.text;
    assert!(home.contains("One round to talk about"));
    let round = format!("{}/round?list=1", place.machine());
    let own = place.get(&steward, &round).await.text;
    assert!(own.contains("Rounds to talk about"));
    for who in [place.deputy, place.operator, place.learner] {
        let cookie = place.sign_in(who).await;
        assert_eq!(
            place.get(&cookie, &signs).await.status,
            StatusCode::FORBIDDEN
        );
        for page in [place.home(), round.clone(), place.machine()] {
            let text = place.get(&cookie, &page).await.text;
            assert!(!text.contains("to talk about"), "{page}");
        }
    }
}

#[tokio::test]
async fn a_round_asks_for_one_photo_which_may_be_taken_or_declined_and_never_blocks() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let begin = format!("{}/round/begin", place.machine());
    place.post(&cookie, &begin, &[("purpose", "start")]).await;
    let entries = place.yard.entries().unwrap();
    let round = entries.iter().rev().find_map(|entry| match &entry.body {
        Said::WalkRound(walk) => Some(walk.round),
        _ => None,
    });
    let (_, book) = book_of(&place);
    let point = show_me(&book, round.unwrap(), RoundPurpose::Start).unwrap();
    let list = format!("{}/round?list=1", place.machine());
    let text = place.get(&cookie, &list).await.text;
    let link = format!("{}/photo?point={}", place.machine(), point.id);
    assert!(text.contains("Show me: this round asks for one photo") && text.contains(&link));
    let form = place.get(&cookie, &link).await.text;
    assert!(form.contains(&format!("<option value=\"point {}\" selected>", point.id)));
    // Its station asks too, with a field for why not; a reason is kept, and is asked for no more.
    let mut stations = text.split("href=\"").filter_map(|rest| {
        let to = rest.split('"').next()?;
        to.contains("/round/").then(|| to.to_owned())
    });
    let mut here = None;
    for station in stations.by_ref() {
        let page = place.get(&cookie, &station).await.text;
        if page.contains(&format!("name=\"np.{}\"", point.id)) {
            here = Some(station);
            break;
        }
    }
    let why = format!("np.{}", point.id);
    let fields = [(why.as_str(), "camera broken")];
    place.post(&cookie, &here.unwrap(), &fields).await;
    let text = place.get(&cookie, &list).await.text;
    assert!(text.contains("camera broken") && !text.contains(&link));
    // A photo of it all the same says more than the reason.
    let note = PhotoNote {
        photo: PhotoId(store::fresh_id(place.clock.as_ref())),
        of: None,
        point: Some(point.id.clone()),
        text: None,
    };
    place.write(place.operator, Some("marigold"), Said::Photo(note));
    let text = place.get(&cookie, &list).await.text;
    assert!(text.contains("is there. Thank you."));
}

#[tokio::test]
async fn what_happened_can_be_told_with_the_name_left_off() {
    let place = Place::new();
    let teller = place.sign_in(place.learner).await;
    let form = format!("{}/happened", place.machine());
    let text = place.get(&teller, &form).await.text;
    for said in [
        "Nobody is blamed",
        "other people here do not see who told it",
        "The steward and the deputy can still see it",
    ] {
        assert!(text.contains(said), "{said}");
    }
    let operator = place.sign_in(place.operator).await;
    let named = |text: &str| text.matches("Jory").count();
    let lists = [
        place.machine(),
        format!("{}/journal", place.machine()),
        format!("{}/journal", place.home()),
    ];
    let mut before = Vec::new();
    for page in &lists {
        before.push(named(&place.get(&operator, page).await.text));
    }
    let fields = [
        ("what", "hit the gate post with the bucket"),
        ("severity", "care"),
    ];
    let got = place.post(&teller, &form, &fields).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    let entries = place.yard.entries().unwrap();
    let told = entries.iter().rev().find_map(|entry| match &entry.body {
        Said::Fault(fault) => Some((entry.id, entry.by, fault.told)),
        _ => None,
    });
    let (entry, by, told) = told.unwrap();
    assert_eq!((by, told), (place.learner, Some(Told::Unnamed)));
    for (page, before) in lists.iter().zip(before) {
        let text = place.get(&operator, page).await.text;
        assert!(text.contains("hit the gate post"), "{page}");
        assert_eq!(named(&text), before, "{page}");
    }
    let finding = format!("{}/finding/{entry}", place.machine());
    for cookie in ["", &operator] {
        let text = place.get(cookie, &finding).await.text;
        assert!(text.contains("name left off") && named(&text) == 0);
    }
    for who in [place.steward, place.deputy, place.learner] {
        let cookie = place.sign_in(who).await;
        let text = place.get(&cookie, &finding).await.text;
        assert!(named(&text) > 0);
    }
    // With the name on it, everybody sees it, as with any fault.
    let fields = [
        ("what", "scratched the paint"),
        ("severity", "note"),
        ("name", "named"),
    ];
    let before = named(&place.get(&operator, &lists[0]).await.text);
    place.post(&teller, &form, &fields).await;
    let text = place.get(&operator, &lists[0]).await.text;
    assert_eq!(named(&text), before + 1);
}

#[tokio::test]
async fn a_quiet_day_lists_what_can_wait_and_not_what_stands_it_down() {
    let place = Place::new();
    let report = |what: &str, severity| {
        let fault = Fault {
            point: None,
            what: what.to_owned(),
            severity,
            told: None,
        };
        place.write(place.operator, Some("marigold"), Said::Fault(fault))
    };
    report("paint flakes", Severity::Note);
    report("seat squeaks", Severity::Care);
    report("boom bends", Severity::StandDown);
    let text = place
        .get("", &format!("{}/quiet-day", place.home()))
        .await
        .text;
    let at = |what: &str| text.find(what);
    assert!(at("boom bends").is_none());
    assert!(at("seat squeaks").unwrap() < at("paint flakes").unwrap());
}
