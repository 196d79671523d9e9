//! Entries that devices wrote: each exactly once, each by who may, and an answer for every one.

use super::fixture::{Got, Place};
use axum::{
    body::Body as Sent,
    http::{Request, StatusCode, header},
};
use jiff::{SignedDuration, Timestamp};
use serde_json::{Value, json};
use store::{NewEntry, fresh_id, write_entry};
use yard::{
    book::Severity,
    entry::{Access, AccessWhat, Body, Correction, Fault, Note, Release, RoleGiven, Run, RunPart},
    id::{DeviceId, EntryId, MachineId, PersonId, YardId},
    people::Role,
    world::World,
};

/// A note as a phone writes it.
fn note(text: &str) -> Body {
    Body::Note(Note {
        point: None,
        text: text.to_owned(),
    })
}

pub(crate) fn entry(place: &Place, by: PersonId, body: Body) -> NewEntry {
    NewEntry {
        id: EntryId(fresh_id(place.clock.as_ref())),
        yard: place.yard.id(),
        machine: MachineId::new("marigold"),
        at: place.clock.now(),
        by,
        device: DeviceId("phone 0a1b2c3d".to_owned()),
        counter: 1,
        body,
    }
}

pub(crate) fn text(entry: &NewEntry) -> String {
    String::from_utf8(write_entry(entry)).unwrap()
}

async fn send(place: &Place, cookie: &str, body: String) -> Got {
    let request = Request::post(format!("/api{}/deliveries", place.home()))
        .header(header::COOKIE, cookie)
        .header(header::CONTENT_TYPE, "application/json")
        .body(Sent::from(body))
        .unwrap();
    place.send(request).await
}

/// Delivers and gives what became of each: `is why`.
pub(crate) async fn deliver(place: &Place, cookie: &str, entries: &[String]) -> Vec<String> {
    let clock = place.clock.now().to_string();
    deliver_at(place, cookie, entries, json!(clock)).await
}

async fn deliver_at(place: &Place, cookie: &str, entries: &[String], clock: Value) -> Vec<String> {
    let got = send(
        place,
        cookie,
        json!({ "clock": clock, "entries": entries }).to_string(),
    )
    .await;
    assert_eq!(got.status, StatusCode::OK, "{}", got.text);
    let said: Value = serde_json::from_str(&got.text).unwrap();
    let all = said["entries"].as_array().unwrap();
    assert_eq!(all.len(), entries.len());
    all.iter()
        .map(|one| {
            assert!(!one["told"].as_str().unwrap().is_empty());
            format!(
                "{} {}",
                one["is"].as_str().unwrap(),
                one["why"].as_str().unwrap()
            )
        })
        .collect()
}

#[tokio::test]
async fn a_delivery_sent_twice_is_there_once() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let before = place.yard.tip().unwrap().seq;
    let entries: Vec<String> = (0..40)
        .map(|n| text(&entry(&place, place.operator, note(&format!("note {n}")))))
        .collect();
    let first = deliver(&place, &cookie, &entries).await;
    assert!(first.iter().all(|said| said == "new new"), "{first:?}");
    let again = deliver(&place, &cookie, &entries).await;
    assert!(again.iter().all(|said| said == "known known"), "{again:?}");
    assert_eq!(place.yard.tip().unwrap().seq, before + 40);
    let twice_inside = [&entries[..1], &entries[..1]].concat();
    assert_eq!(
        deliver(&place, &cookie, &twice_inside).await,
        ["known known", "known known"]
    );
}

#[tokio::test]
async fn one_bad_entry_does_not_hold_up_the_others() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let good = entry(&place, place.operator, note("good"));
    let other_bytes = NewEntry {
        body: note("other words under the same id"),
        ..good.clone()
    };
    let strange_yard = NewEntry {
        id: EntryId(fresh_id(place.clock.as_ref())),
        yard: YardId(fresh_id(place.clock.as_ref())),
        ..good.clone()
    };
    let release = entry(
        &place,
        place.operator,
        Body::Release(Release {
            lifts: vec![],
            mended: "all".to_owned(),
        }),
    );
    let unread = text(&good)
        .replace(
            &good.id.to_string(),
            &fresh_id(place.clock.as_ref()).to_string(),
        )
        .replace("\"text\"", "\"txet\"");
    let said = deliver(
        &place,
        &cookie,
        &[
            "{".to_owned(),
            text(&good),
            text(&other_bytes),
            text(&strange_yard),
            text(&release),
            unread,
        ],
    )
    .await;
    assert_eq!(
        said,
        [
            "refused refused-not-an-entry",
            "new new",
            "conflict conflict",
            "refused refused-other-yard",
            "refused may-not",
            "new new",
        ]
    );
    assert_eq!(place.yard.conflicts().unwrap().len(), 1);
}

#[tokio::test]
async fn what_the_program_alone_writes_is_refused_in_every_disguise() {
    let place = Place::new();
    let steward = place.sign_in(place.steward).await;
    let access = || {
        Body::Access(Access {
            what: AccessWhat::PinSet,
            of: Some(place.operator),
            note: None,
        })
    };
    let noted = place.write(PersonId::PROGRAM, None, access());
    let correct = |of, instead: Option<Body>| {
        Body::Correction(Correction {
            of,
            instead: instead.map(Box::new),
            why: "slip".to_owned(),
        })
    };
    let of_yard = |body| NewEntry {
        machine: None,
        ..entry(&place, place.steward, body)
    };
    let a_note = of_yard(note("plain"));
    let newer = text(&of_yard(access())).replace("\"version\":1", "\"version\":9");
    let mut by_program = of_yard(note("by nobody"));
    by_program.by = PersonId::PROGRAM;
    let sent = [
        text(&of_yard(access())),
        newer,
        text(&of_yard(correct(noted, None))),
        text(&a_note),
        text(&of_yard(correct(a_note.id, Some(access())))),
        text(&of_yard(correct(a_note.id, Some(correct(noted, None))))),
        text(&by_program),
    ];
    let said = deliver(&place, &steward, &sent).await;
    let no = "refused program-only";
    assert_eq!(said, [no, no, no, "new new", no, no, no]);
}

#[tokio::test]
async fn a_word_in_sight_is_not_taken_from_afar() {
    let place = Place::new();
    let run = |in_sight_of| part(RunPart::Start, in_sight_of);
    fn part(part: RunPart, in_sight_of: Option<PersonId>) -> Body {
        Body::Run(Run {
            part,
            hours: None,
            work: None,
            amiss: vec![],
            in_sight_of,
        })
    }
    let claims = entry(&place, place.learner, run(Some(place.steward)));
    let claims_later = entry(
        &place,
        place.learner,
        Body::Correction(Correction {
            of: claims.id,
            instead: Some(Box::new(run(Some(place.steward)))),
            why: "forgot".to_owned(),
        }),
    );
    let plain = entry(&place, place.learner, run(None));
    let ended = entry(&place, place.learner, part(RunPart::End, None));
    let sent = [
        text(&claims),
        text(&claims_later),
        text(&plain),
        text(&ended),
    ];
    let learner = place.sign_in(place.learner).await;
    let no = "refused word-in-sight";
    assert_eq!(
        deliver(&place, &learner, &sent).await,
        [no, no, no, "new new"]
    );
    let deputy = place.sign_in(place.deputy).await;
    assert_eq!(
        deliver(&place, &deputy, &sent[..1]).await,
        ["refused word-in-sight"]
    );
}

#[tokio::test]
async fn entries_of_others_are_taken_in_by_those_who_may_and_noted_once() {
    let place = Place::new();
    let learner = place.sign_in(place.learner).await;
    let deputy = place.sign_in(place.deputy).await;
    let theirs: Vec<String> = (0..3)
        .map(|_| text(&entry(&place, place.operator, note("on a borrowed phone"))))
        .collect();
    assert_eq!(
        deliver(&place, &learner, &theirs).await,
        vec!["not-yours not-yours"; 3]
    );
    assert_eq!(deliver(&place, &deputy, &theirs).await, vec!["new new"; 3]);
    assert_eq!(
        deliver(&place, &deputy, &theirs).await,
        vec!["known known"; 3]
    );
    // In the journal already: nothing is asked of its writer any more.
    assert_eq!(
        deliver(&place, &learner, &theirs).await,
        vec!["known known"; 3]
    );
    let notes: Vec<_> = place
        .yard
        .entries()
        .unwrap()
        .into_iter()
        .filter_map(|e| match e.body {
            Body::Access(access) => Some((e.by, access.what, access.of)),
            _ => None,
        })
        .collect();
    assert_eq!(
        notes,
        [(place.deputy, AccessWhat::TakenIn, Some(place.operator))]
    );
}

#[tokio::test]
async fn nobody_rises_by_bringing_in_anothers_entry() {
    let place = Place::new();
    let deputy = place.sign_in(place.deputy).await;
    let given = Body::RoleGiven(RoleGiven {
        person: place.deputy,
        role: Some(Role::Steward),
        machines: vec![],
    });
    let forged = NewEntry {
        machine: None,
        ..entry(&place, place.steward, given)
    };
    assert_eq!(
        deliver(&place, &deputy, &[text(&forged)]).await,
        ["refused may-not"]
    );
    let steward = place.sign_in(place.steward).await;
    let by_a_learner = entry(
        &place,
        place.learner,
        Body::Release(Release {
            lifts: vec![],
            mended: "said so".to_owned(),
        }),
    );
    assert_eq!(
        deliver(&place, &steward, &[text(&by_a_learner)]).await,
        ["refused may-not"]
    );
}

/// Whoever was deputy once lifts nothing any more: not by an old date, not behind a correction, not by somebody else's hand.
#[tokio::test]
async fn a_former_deputy_releases_nothing() {
    let place = Place::new();
    let down = place.write(
        place.operator,
        Some("marigold"),
        Body::StandDown(yard::entry::StandDown {
            why: "crack in the boom".to_owned(),
        }),
    );
    let lifts = vec![yard::id::FaultRef {
        entry: down,
        point: None,
    }];
    let release = Body::Release(Release {
        lifts,
        mended: "welded".to_owned(),
    });
    let (written, plain) = (
        entry(&place, place.deputy, note("nothing")),
        entry(&place, place.deputy, release.clone()),
    );
    let disguised = entry(
        &place,
        place.deputy,
        Body::Correction(Correction {
            of: written.id,
            instead: Some(Box::new(release)),
            why: "typo".to_owned(),
        }),
    );
    place.later(1);
    place.write(
        place.steward,
        None,
        Body::RoleGiven(RoleGiven {
            person: place.deputy,
            role: Some(Role::Operator),
            machines: vec![],
        }),
    );
    place.later(1);
    let sent = [text(&written), text(&disguised), text(&plain)];
    let former = place.sign_in(place.deputy).await;
    assert_eq!(
        deliver(&place, &former, &sent).await,
        ["new new", "refused may-not", "refused may-not"]
    );
    let steward = place.sign_in(place.steward).await;
    assert_eq!(
        deliver(&place, &steward, &sent[1..]).await,
        ["refused may-not", "refused may-not"]
    );
}

/// Two entries under one number: what the second tells of harm stands the machine down, once.
#[tokio::test]
async fn harm_told_under_a_number_that_is_taken_is_heard() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let first = entry(&place, place.operator, note("all is well"));
    let harm = Body::StandDown(yard::entry::StandDown {
        why: "crack in the boom".to_owned(),
    });
    let second = NewEntry {
        id: first.id,
        ..entry(&place, place.operator, harm)
    };
    assert_eq!(deliver(&place, &cookie, &[text(&first)]).await, ["new new"]);
    for _ in 0..2 {
        assert_eq!(
            deliver(&place, &cookie, &[text(&second)]).await,
            ["conflict conflict"]
        );
    }
    let heard: Vec<String> = place
        .yard
        .entries()
        .unwrap()
        .into_iter()
        .filter_map(|entry| match entry.body {
            Body::StandDown(down) => Some(down.why),
            _ => None,
        })
        .collect();
    assert_eq!(
        heard,
        ["Told under the number of another entry, so it lies aside: crack in the boom"]
    );
}

#[tokio::test]
async fn roles_count_as_they_are_when_it_is_delivered() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let repair = || {
        Body::Repair(yard::entry::Repair {
            mends: vec![],
            what: "hose".to_owned(),
            cost: None,
            event: None,
            cause: None,
        })
    };
    let (first, second) = (
        text(&entry(&place, place.operator, repair())),
        text(&entry(&place, place.operator, repair())),
    );
    assert_eq!(
        deliver(&place, &cookie, std::slice::from_ref(&first)).await,
        ["new new"]
    );
    place.later(1);
    place.write(
        place.steward,
        None,
        Body::RoleGiven(RoleGiven {
            person: place.operator,
            role: Some(Role::Learner),
            machines: vec![],
        }),
    );
    place.later(1);
    assert_eq!(
        deliver(&place, &cookie, &[first, second]).await,
        ["known known", "refused may-not"]
    );
}

#[tokio::test]
async fn a_correction_in_the_same_delivery_finds_what_it_corrects() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let slip = entry(&place, place.operator, note("slip of the pen"));
    let harm = entry(
        &place,
        place.operator,
        Body::Fault(Fault {
            what: "brake fades".to_owned(),
            point: None,
            severity: Severity::StandDown,
            told: None,
        }),
    );
    let void = |of: &NewEntry, machine: Option<&str>| NewEntry {
        machine: machine.and_then(MachineId::new),
        ..entry(
            &place,
            place.operator,
            Body::Correction(Correction {
                of: of.id,
                instead: None,
                why: "slip".to_owned(),
            }),
        )
    };
    let sent = [
        text(&slip),
        text(&harm),
        text(&void(&slip, Some("marigold"))),
        text(&void(&harm, Some("marigold"))),
        text(&void(&slip, Some("clover"))),
    ];
    assert_eq!(
        deliver(&place, &cookie, &sent).await,
        [
            "new new",
            "new new",
            "new new",
            "refused may-not",
            "refused other-machine"
        ]
    );
}

#[tokio::test]
async fn a_correction_that_comes_before_what_it_corrects_is_not_lost() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let slip = entry(&place, place.operator, note("on the other phone still"));
    let anothers = entry(&place, place.steward, note("not the operator's"));
    let void = |of: &NewEntry| {
        let correction = Correction {
            of: of.id,
            instead: None,
            why: "slip".to_owned(),
        };
        text(&entry(&place, place.operator, Body::Correction(correction)))
    };
    let early = [void(&slip), void(&anothers)];
    assert_eq!(deliver(&place, &cookie, &early).await, vec!["new new"; 2]);
    assert_eq!(deliver(&place, &cookie, &[text(&slip)]).await, ["new new"]);
    let steward = place.sign_in(place.steward).await;
    assert_eq!(
        deliver(&place, &steward, &[text(&anothers)]).await,
        ["new new"]
    );
    // Only what was the operator's own is voided; of the other somebody is asked.
    let entries = place.yard.entries().unwrap();
    let yard = yard::state::fold_yard(&entries);
    let machine = MachineId::new("marigold").unwrap();
    let habits = quantity::Habits::default();
    let state = yard::state::fold_machine(&machine, &entries, &yard, &habits);
    let asked: Vec<EntryId> = state.asked().map(|question| question.entry).collect();
    let by_second: EntryId = serde_json::from_str::<Value>(&early[1]).unwrap()["id"]
        .as_str()
        .unwrap()
        .parse()
        .unwrap();
    assert_eq!(asked, [by_second]);
}

#[tokio::test]
async fn corrections_that_lead_round_in_a_ring_do_no_harm() {
    let place = Place::new();
    let cookie = place.sign_in(place.deputy).await;
    let void = |id: EntryId, of: EntryId| NewEntry {
        id,
        ..entry(
            &place,
            place.deputy,
            Body::Correction(Correction {
                of,
                instead: None,
                why: "ring".to_owned(),
            }),
        )
    };
    let [a, b, c] = [(); 3].map(|()| EntryId(fresh_id(place.clock.as_ref())));
    let sent = [
        text(&void(a, a)),
        text(&void(b, c)),
        text(&void(c, b)),
        text(&void(EntryId(fresh_id(place.clock.as_ref())), a)),
        text(&void(EntryId(fresh_id(place.clock.as_ref())), b)),
    ];
    assert_eq!(deliver(&place, &cookie, &sent).await, vec!["new new"; 5]);
    for page in ["/journal", "/questions", ""] {
        let got = place.get(&cookie, &format!("{}{page}", place.home())).await;
        assert!(got.status.is_success(), "{page}: {}", got.status);
    }
}

#[tokio::test]
async fn a_strange_clock_neither_stops_a_delivery_nor_moves_it_before_the_yard() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    place.later(600);
    let now = place.clock.now();
    let began = place.yard.entries().unwrap()[0].ordered_at;
    let year = SignedDuration::from_hours(24 * 366);
    let writers = [
        now,
        now - year,
        now + year,
        Timestamp::MIN,
        Timestamp::MAX,
        Timestamp::UNIX_EPOCH,
    ];
    let clocks = [
        json!(now.to_string()),
        json!((now - year).to_string()),
        json!((now + year).to_string()),
        json!(Timestamp::MIN.to_string()),
        json!(Timestamp::MAX.to_string()),
        json!("half past four"),
        json!(""),
        Value::Null,
    ];
    for at in writers {
        for clock in &clocks {
            let one = NewEntry {
                at,
                ..entry(&place, place.operator, note("when?"))
            };
            let said = deliver_at(&place, &cookie, &[text(&one)], clock.clone()).await;
            assert_eq!(said, ["new new"], "{at} by {clock}");
            let kept = place.yard.entry(one.id).unwrap().unwrap();
            assert!(
                kept.ordered_at >= began,
                "{at} by {clock}: {}",
                kept.ordered_at
            );
            assert!(
                kept.ordered_at <= now,
                "{at} by {clock}: {}",
                kept.ordered_at
            );
        }
    }
    // A phone a day slow, all of it: put right to the millisecond.
    let day = SignedDuration::from_hours(24);
    let true_time = now - SignedDuration::from_mins(30);
    let one = NewEntry {
        at: true_time - day,
        ..entry(&place, place.operator, note("a day slow"))
    };
    deliver_at(
        &place,
        &cookie,
        &[text(&one)],
        json!((now - day).to_string()),
    )
    .await;
    let kept = place.yard.entry(one.id).unwrap().unwrap();
    assert_eq!(kept.ordered_at, true_time);
}

#[tokio::test]
async fn without_a_sign_in_nothing_is_taken_and_nothing_redirects() {
    let place = Place::new();
    let one = text(&entry(&place, place.operator, note("hello")));
    let body = json!({ "clock": null, "entries": [one] }).to_string();
    let got = send(&place, "", body.clone()).await;
    assert_eq!(
        (got.status, got.to.as_str()),
        (StatusCode::UNAUTHORIZED, "")
    );
    let said: Value = serde_json::from_str(&got.text).unwrap();
    assert_eq!(said["why"], "sign-in");
    assert!(!said["told"].as_str().unwrap().is_empty());
    let visitor = place.sign_in(place.visitor).await;
    let got = send(&place, &visitor, body).await;
    assert_eq!(got.status, StatusCode::FORBIDDEN, "{}", got.text);
}

#[tokio::test]
async fn me_is_who_is_signed_in() {
    let place = Place::new();
    let path = format!("/api{}/me", place.home());
    assert_eq!(place.get("", &path).await.status, StatusCode::UNAUTHORIZED);
    let cookie = place.sign_in(place.learner).await;
    let got = place.get(&cookie, &path).await;
    let me: Value = serde_json::from_str(&got.text).unwrap();
    assert_eq!(me["person"], place.learner.to_string());
    assert_eq!(me["name"], "Jory");
    assert_eq!(me["role"], "learner");
    assert_eq!(me["yard"], place.yard.id().to_string());
    assert_eq!(me["until"], "2026-03-02T19:00:00Z");
}
