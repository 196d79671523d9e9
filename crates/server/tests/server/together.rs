//! Two people on one round: joining it, answering beside each other, closing it for both; and two phones out of range.

use super::{
    deliveries::{deliver, entry, text},
    fixture::{Got, Place},
    loop_of_a_round::{demo, station_fields, walk},
};
use axum::http::StatusCode;
use jiff::{Timestamp, tz::TimeZone};
use std::collections::BTreeMap;
use store::NewEntry;
use yard::{
    book::{Book, OilHeat, Point, PointKind},
    entry::*,
    handover::{Situation, Verdict, YardHabits, judge},
    id::{EntryId, MachineId, PersonId, RoundId},
    state::{MachineState, Round, YardState, fold_machine, fold_yard},
    world::World,
};

/// The machine as the journal has it.
fn folded(place: &Place) -> (YardState, MachineState) {
    let entries = place.yard.entries().unwrap();
    let yard = fold_yard(&entries);
    let id = MachineId::new("marigold").unwrap();
    let of_machine: Vec<Entry> = entries
        .into_iter()
        .filter(|entry| entry.machine.as_ref() == Some(&id))
        .collect();
    let machine = fold_machine(&id, &of_machine, &yard, &quantity::Habits::default());
    (yard, machine)
}

/// The verdict for one person now, and those of its rules that ask for walking.
fn verdict(place: &Place, person: PersonId) -> (Verdict, Vec<&'static str>) {
    let (yard, machine) = folded(place);
    let said = judge(&Situation {
        machine: &machine,
        yard: &yard,
        person,
        now: place.clock.now(),
        zone: &TimeZone::UTC,
        habits: &YardHabits::default(),
        others: &yard::handover::NoOthers,
    });
    let mut rules: Vec<&str> = said.reasons.iter().map(|reason| reason.rule).collect();
    rules.retain(|rule| ["not-walked", "other-persons-round", "not-answered"].contains(rule));
    rules.dedup();
    (said.verdict, rules)
}

fn rounds(place: &Place) -> Vec<Round> {
    folded(place).1.rounds.into_values().collect()
}

async fn list(place: &Place, cookie: &str) -> String {
    let path = format!("{}/round?list=1", place.machine());
    place.get(cookie, &path).await.text
}

/// The address of the first station with something left, and its page.
async fn first_station(place: &Place, cookie: &str) -> (String, String) {
    let list = list(place, cookie).await;
    let main = list.split("class=\"button main\" href=\"").nth(1).unwrap();
    let station = main.split('"').next().unwrap().to_owned();
    let page = place.get(cookie, &station).await.text;
    (station, page)
}

/// Answers the first station, all well.
async fn answer_one(place: &Place, cookie: &str, book: &Book) -> String {
    let (station, page) = first_station(place, cookie).await;
    let fields = station_fields(&page, book, &BTreeMap::new());
    let fields: Vec<(&str, &str)> = fields.iter().map(|(n, v)| (&**n, &**v)).collect();
    let kept = place.post(cookie, &station, &fields).await;
    assert_eq!(kept.status, StatusCode::SEE_OTHER, "{}", kept.text);
    station
}

fn round_in(page: &str) -> String {
    let field = page.split("name=\"round\" value=\"").nth(1).unwrap();
    field.split('"').next().unwrap().to_owned()
}

async fn join(place: &Place, cookie: &str, round: &str) -> Got {
    let path = format!("{}/round/join", place.machine());
    place.post(cookie, &path, &[("round", round)]).await
}

async fn close(place: &Place, cookie: &str, round: &str) -> Got {
    let path = format!("{}/round/close", place.machine());
    let fields = [("hours", "812.3"), ("round", round)];
    place.post(cookie, &path, &fields).await
}

/// The operator began a round, and the deputy joined it: both sign-ins, and the round.
async fn on_one_round(place: &Place, book: &Book) -> (String, String, String) {
    let tamsin = place.sign_in(place.operator).await;
    let bram = place.sign_in(place.deputy).await;
    answer_one(place, &tamsin, book).await;
    let round = round_in(&list(place, &bram).await);
    join(place, &bram, &round).await;
    (tamsin, bram, round)
}

#[tokio::test]
async fn two_share_a_round_and_it_counts_for_both() {
    let place = Place::new();
    let book = demo();
    let (tamsin, bram) = (
        place.sign_in(place.operator).await,
        place.sign_in(place.deputy).await,
    );
    assert!(!list(&place, &bram).await.contains("Walk it together"));
    let first = answer_one(&place, &tamsin, &book).await;
    let offered = list(&place, &bram).await;
    assert!(offered.contains("Tamsin began a round here"), "{offered}");
    assert!(offered.contains("Walk it together") && offered.contains("Begin my own"));
    let round = round_in(&offered);
    let joined = join(&place, &bram, &round).await;
    assert_eq!(joined.status, StatusCode::SEE_OTHER, "{}", joined.text);
    assert!(list(&place, &bram).await.contains("together with Tamsin"));
    assert!(list(&place, &tamsin).await.contains("together with Bram"));
    let station = place.get(&bram, &first).await;
    assert!(
        station.text.contains("Kept by Tamsin: "),
        "{}",
        station.text
    );
    let own = place.get(&tamsin, &first).await;
    assert!(own.text.contains("Kept: ") && !own.text.contains("Kept by"));
    walk(&place, &bram, &book, &BTreeMap::new()).await;
    let closed = close(&place, &tamsin, &round).await;
    assert_eq!(closed.status, StatusCode::SEE_OTHER, "{}", closed.text);
    assert_eq!(rounds(&place).len(), 1);
    for who in [place.operator, place.deputy] {
        let (verdict, rules) = verdict(&place, who);
        assert!(
            verdict < Verdict::StandDown && rules.is_empty(),
            "{rules:?}"
        );
    }
    let (stands, rules) = verdict(&place, place.steward);
    assert_eq!(
        (stands, rules),
        (Verdict::StandDown, vec!["other-persons-round"])
    );
    // A second closing, by the other, changes nothing and begins nothing.
    let again = close(&place, &bram, &round).await;
    assert!(
        again.text.contains("Tamsin closed this round"),
        "{}",
        again.text
    );
    assert_eq!(rounds(&place).len(), 1);
}

#[tokio::test]
async fn whoever_only_joined_walks_first() {
    let place = Place::new();
    let book = demo();
    let (tamsin, bram, round) = on_one_round(&place, &book).await;
    walk(&place, &tamsin, &book, &BTreeMap::new()).await;
    // Even whoever closes it has not walked by that alone.
    close(&place, &bram, &round).await;
    assert_eq!(rounds(&place)[0].by, [place.operator, place.deputy]);
    assert!(rounds(&place)[0].closed.is_some());
    let page = place.get(&bram, &place.machine()).await;
    assert!(page.text.contains("Walk round first"), "{}", page.text);
    assert_eq!(verdict(&place, place.deputy).1, ["not-walked"]);
    let (own, rules) = verdict(&place, place.operator);
    assert!(own < Verdict::StandDown && rules.is_empty(), "{rules:?}");
}

#[tokio::test]
async fn what_comes_after_the_other_closed_it_begins_no_round_and_hides_nothing() {
    let place = Place::new();
    let book = demo();
    let (tamsin, bram, round) = on_one_round(&place, &book).await;
    let (station, _) = first_station(&place, &bram).await;
    let clip = book.points.iter().find(|p| p.kind == PointKind::PinClip);
    let clip = format!("a.{}", clip.unwrap().id);
    place.later(1);
    close(&place, &tamsin, &round).await;
    place.later(1);
    let fields = [("round", &*round), (&*clip, "missing")];
    let late = place.post(&bram, &station, &fields).await;
    assert_eq!(late.status, StatusCode::OK);
    assert!(
        late.text.contains("Tamsin closed this round"),
        "{}",
        late.text
    );
    assert_eq!(rounds(&place).len(), 1);
    assert_eq!(folded(&place).1.findings.len(), 1);
    assert_eq!(verdict(&place, place.deputy).1, ["other-persons-round"]);
}

#[tokio::test]
async fn only_an_open_round_of_this_machine_is_joined_and_only_by_who_may_walk() {
    let place = Place::new();
    let book = demo();
    let tamsin = place.sign_in(place.operator).await;
    let bram = place.sign_in(place.deputy).await;
    answer_one(&place, &tamsin, &book).await;
    let round = round_in(&list(&place, &bram).await);
    let visitor = place.sign_in(place.visitor).await;
    let seq = place.yard.tip().unwrap().seq;
    assert_eq!(
        join(&place, &visitor, &round).await.status,
        StatusCode::FORBIDDEN
    );
    // Whoever is on it already goes on.
    assert_eq!(
        join(&place, &tamsin, &round).await.status,
        StatusCode::SEE_OTHER
    );
    for wrong in ["", "no-id", "01890000-0000-7000-8000-000000000001"] {
        let got = join(&place, &bram, wrong).await;
        assert!(got.text.contains("cannot be joined"), "{}", got.text);
    }
    assert_eq!(place.yard.tip().unwrap().seq, seq);
    // Older than a round holds: nothing is offered any more.
    place.later(60 * 24);
    let got = join(&place, &bram, &round).await;
    assert!(got.text.contains("sign-in") || got.to.contains("sign-in"));
    let bram = place.sign_in(place.deputy).await;
    let got = join(&place, &bram, &round).await;
    assert!(got.text.contains("cannot be joined"), "{}", got.text);
    assert!(!got.text.contains("Walk it together"));
    assert_eq!(place.yard.tip().unwrap().seq, seq);
}

/// The answer of a point that is well.
fn well(point: &Point) -> Answer {
    match &point.kind {
        PointKind::Level(mark) => Answer::Level {
            reads: LevelReads::AtMark,
            pose: mark.pose.clone(),
            oil: (mark.oil != OilHeat::Any).then_some(mark.oil),
            looks: FluidLooks::Clean,
        },
        PointKind::Fitting(_) => Answer::Fitting {
            took: GreaseTook::Seen,
            strokes: None,
        },
        PointKind::PinClip => Answer::PinClip(ClipState::Present),
        PointKind::Bolts => Answer::Bolts {
            state: BoltState::Tight,
            how_many: 0,
        },
        PointKind::Leak { .. } => Answer::Leak(None),
        PointKind::Hose => Answer::Hose(HoseState::Sound),
        PointKind::Structure => Answer::Structure(StructureState::Sound),
        PointKind::Function => Answer::Function(FunctionState::Works),
        PointKind::Look => Answer::Look(LookState::Well),
        // What these hold is not looked at here.
        PointKind::Measure(_) | PointKind::Crank(_) => Answer::NotChecked(NotChecked {
            because: Hindrance::Other,
        }),
    }
}

/// A part of round 1 as a phone wrote it at this minute past seven.
fn part(place: &Place, by: PersonId, minute: i64, answers: Vec<Answered>, ends: bool) -> NewEntry {
    let entries = place.yard.entries().unwrap();
    let book = |entry: &&Entry| matches!(entry.body, Body::BookAdopted(_));
    let book: EntryId = entries.iter().find(book).unwrap().id;
    let at: Timestamp = "2026-03-02T07:00:00Z".parse().unwrap();
    let evidence = Evidence {
        verdict: "stand-down".to_owned(),
        reasons: vec![],
        book,
        program: "test".to_owned(),
    };
    let walk = WalkRound {
        round: RoundId(uuid::Uuid::from_u128(1)),
        book,
        purpose: RoundPurpose::Start,
        from_paper: false,
        answers,
        hours: None,
        closes: ends.then_some(evidence),
        no_photo: None,
    };
    NewEntry {
        at: at + jiff::SignedDuration::from_mins(minute),
        ..entry(place, by, Body::WalkRound(walk))
    }
}

#[tokio::test]
async fn two_phones_deliver_their_parts_late_and_out_of_order() {
    let mut told = Vec::new();
    for order in [[0, 1, 2, 3], [3, 2, 1, 0], [2, 3, 0, 1]] {
        let place = Place::new();
        let mut halves: Vec<Vec<Answered>> = vec![Vec::new(), Vec::new()];
        for (n, point) in demo().points.iter().enumerate() {
            halves[n % 2].push(Answered {
                point: point.id.clone(),
                answer: well(point),
                note: None,
                photos: vec![],
            });
        }
        let [tamsins, brams] = [halves[0].clone(), halves[1].clone()];
        let parts = [
            (
                place.operator,
                part(&place, place.operator, 5, tamsins, false),
            ),
            (
                place.deputy,
                part(&place, place.deputy, 10, brams.clone(), false),
            ),
            (
                place.operator,
                part(&place, place.operator, 15, vec![], true),
            ),
            // Written after the other had closed it, out of range.
            (place.deputy, part(&place, place.deputy, 20, brams, true)),
        ];
        place.later(90);
        for n in order {
            let (who, part) = &parts[n];
            let cookie = place.sign_in(*who).await;
            assert_eq!(deliver(&place, &cookie, &[text(part)]).await, ["new new"]);
            assert_eq!(
                deliver(&place, &cookie, &[text(part)]).await,
                ["known known"]
            );
            place.later(3);
        }
        let round = rounds(&place).remove(0);
        let (closed, by, _) = round.closed.unwrap();
        assert_eq!(closed.to_string(), "2026-03-02T07:15:00Z");
        assert_eq!(by, place.operator);
        assert_eq!(round.by, [place.operator, place.deputy]);
        assert_eq!(round.in_time.len(), demo().points.len());
        let said = [place.operator, place.deputy, place.steward].map(|who| verdict(&place, who).1);
        told.push(said);
    }
    let none: Vec<&str> = vec![];
    let expected = [none.clone(), none, vec!["other-persons-round"]];
    assert!(told.iter().all(|said| *said == expected), "{told:?}");
}
