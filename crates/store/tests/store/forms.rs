//! Stored forms: everything comes back as it was written; what does not read is kept and told of.

use crate::made::{bodies, entry, id, time};
use proptest::{
    prelude::*,
    test_runner::{Config, TestRunner},
};
use serde_json::{Value, json};
use store::{
    Acceptance, Delivery, MOST_BYTES, Refusal, Store, StoreError, Yard,
    form::{KINDS, kind_of, read_body},
    write_entry,
};
use yard::{
    entry::{Body, Note},
    id::{EntryId, YardId},
};

fn yard() -> Yard {
    Store::open_memory()
        .add_yard(YardId(id(1)), "Invented")
        .unwrap()
}

#[test]
fn every_kind_comes_back_as_it_was_written() {
    let mut words: Vec<_> = bodies().iter().map(|(word, _)| *word).collect();
    let mut kinds: Vec<_> = KINDS.iter().map(|(word, _)| *word).collect();
    words.sort_unstable();
    kinds.sort_unstable();
    assert_eq!(words, kinds, "a kind without a strategy");
    for (word, body) in bodies() {
        let mut runner = TestRunner::new(Config {
            failure_persistence: None,
            ..Config::with_cases(64)
        });
        runner.run(&body, |body| comes_back(word, body)).unwrap();
    }
}

fn comes_back(word: &str, body: Body) -> Result<(), TestCaseError> {
    let yard = yard();
    prop_assert_eq!(kind_of(&body).0, word);
    let new = entry(yard.id(), 5, body);
    let bytes = write_entry(&new);
    yard.accept(&bytes, Delivery::here(time(1_000_000)))
        .unwrap();
    let back = yard.entries().unwrap().remove(0);
    prop_assert_eq!(&back.body, &new.body);
    let outside = (
        back.id,
        back.machine,
        back.at,
        back.by,
        back.device,
        back.counter,
    );
    prop_assert_eq!(
        outside,
        (new.id, new.machine, new.at, new.by, new.device, new.counter)
    );
    Ok(())
}

#[test]
fn what_is_not_known_is_kept_and_passed_over() {
    let unknown = |kind: &str, version| Body::Unknown {
        kind: kind.to_owned(),
        version,
    };
    assert_eq!(read_body("dig-plan", 1, "{}"), unknown("dig-plan", 1));
    assert_eq!(read_body("note", 2, r#"{"texts":[]}"#), unknown("note", 2));
    assert_eq!(read_body("note", 0, "{}"), unknown("note", 0));
    assert_eq!(
        read_body("note", 1, r#"{"text":"x","colour":"red"}"#),
        Body::Note(Note {
            point: None,
            text: "x".into()
        })
    );
}

#[test]
fn what_does_not_read_says_where() {
    let at = |kind: &str, body: Value| match read_body(kind, 1, &body.to_string()) {
        Body::Unreadable { at, .. } => at,
        other => panic!("{other:?}"),
    };
    assert_eq!(
        at("meter-reading", json!({ "shows": "3124.5 parsnips" })),
        "shows"
    );
    assert_eq!(at("note", json!({ "text": 5 })), "text");
    let answered = |value: &str| json!({ "point": "sag", "answer": { "measure": { "readings": [{ "value": "2 in" }, { "value": value }] } } });
    let round = |answers: Value| {
        let (round, book) = (id(1).to_string(), id(2).to_string());
        json!({ "round": round, "book": book, "purpose": "start", "from_paper": false, "answers": answers })
    };
    let found = at(
        "walk-round",
        round(json!([answered("2 in"), answered("2")])),
    );
    assert_eq!(found, "answers[1].answer.measure.readings[1].value");
    assert_eq!(
        at(
            "walk-round",
            round(json!([{ "point": "Sag", "answer": { "look": "well" } }]))
        ),
        "answers[0].point"
    );
    let correction = json!({ "of": id(3).to_string(), "why": "x", "instead": { "kind": "note", "version": 1, "body": { "text": 5 } } });
    let Body::Correction(read) = read_body("correction", 1, &correction.to_string()) else {
        panic!()
    };
    assert_eq!(
        read.instead.as_deref(),
        Some(&Body::Unreadable {
            kind: "note".into(),
            at: "text".into()
        })
    );
    let correction = json!({ "of": "nobody", "why": "x", "instead": null });
    assert_eq!(at("correction", correction), "of");
}

#[test]
fn a_body_that_does_not_read_is_taken_and_its_bytes_stay() {
    let yard = yard();
    let bytes = changed(&yard, |json| json["body"] = json!([1, "two"]));
    assert_eq!(
        yard.accept(&bytes, Delivery::here(time(0))),
        Ok(Acceptance::New { seq: 1 })
    );
    assert!(matches!(
        yard.entries().unwrap()[0].body,
        Body::Unreadable { .. }
    ));
    assert_eq!(yard.row(EntryId(id(5))).unwrap().unwrap().bytes, bytes);
}

#[test]
fn only_the_outside_is_checked_and_every_slip_is_named() {
    let yard = yard();
    let refusal = |bytes: &[u8]| match yard.accept(bytes, Delivery::here(time(0))) {
        Err(StoreError::Refused(refusal)) => refusal,
        other => panic!("{other:?}"),
    };
    let field = |change: fn(&mut Value)| match refusal(&changed(&yard, change)) {
        Refusal::NotAnEntry { field, .. } => field,
        Refusal::IllFormed { field } => field.to_owned(),
        other => panic!("{other:?}"),
    };
    assert_eq!(field(|json| json["id"] = json!("5")), "id");
    assert_eq!(
        field(|json| json["id"] = json!("00000000-0000-0000-0000-000000000000")),
        "id"
    );
    assert_eq!(
        field(|json| json["machine"] = json!("The digger")),
        "machine"
    );
    assert_eq!(field(|json| json["kind"] = json!("")), "kind");
    assert_eq!(field(|json| json["version"] = json!(-1)), "version");
    assert_eq!(field(|json| json["at"] = json!("yesterday")), "at");
    assert_eq!(
        field(|json| json["device"] = json!("x".repeat(65))),
        "device"
    );
    assert_eq!(field(|json| json["counter"] = json!(1.5)), "counter");
    assert_eq!(
        refusal(&changed(&yard, |json| json["yard"] = json!(id(2).to_string()))),
        Refusal::OtherYard {
            yard: id(2).to_string()
        }
    );
    assert_eq!(refusal(b"{\"id\": \"\xff\"}"), Refusal::NotText);
    assert!(matches!(refusal(b"[]"), Refusal::NotAnEntry { .. }));
    let twice = [changed(&yard, |_| {}), b"{}".to_vec()].concat();
    assert!(matches!(refusal(&twice), Refusal::NotAnEntry { .. }));
    let large = changed(&yard, |json| {
        json["body"]["text"] = json!("x".repeat(MOST_BYTES))
    });
    assert_eq!(
        refusal(&large),
        Refusal::TooLarge {
            bytes: large.len(),
            most: MOST_BYTES
        }
    );
    assert_eq!(yard.entries().unwrap(), []);
}

proptest! {
    #![proptest_config(Config { failure_persistence: None, ..Config::with_cases(256) })]
    #[test]
    fn no_bytes_bring_it_down(bytes in proptest::collection::vec(any::<u8>(), 0..200), kind in proptest::sample::select(KINDS.to_vec()), json in "[\\[\\]{}\":,a-z0-9 ]{0,60}") {
        let yard = yard();
        prop_assert!(yard.accept(&bytes, Delivery::here(time(0))).is_err());
        let body = read_body(kind.0, kind.1, &json);
        prop_assert!(kind_of(&body).0 == kind.0);
    }
}

/// A sound entry, its JSON changed.
fn changed(yard: &Yard, change: impl FnOnce(&mut Value)) -> Vec<u8> {
    let body = Body::Note(Note {
        point: None,
        text: "x".into(),
    });
    let mut json: Value = serde_json::from_slice(&write_entry(&entry(yard.id(), 5, body))).unwrap();
    change(&mut json);
    json.to_string().into_bytes()
}

/// A correction that says `depth` corrections inside one another instead, the innermost a note.
fn nested(yard: &Yard, depth: usize) -> Vec<u8> {
    let of = id(9);
    let (before, after) = (
        format!(r#"{{"of":"{of}","why":"x","instead":{{"kind":"correction","version":1,"body":"#),
        "}}",
    );
    let innermost = format!(
        r#"{{"of":"{of}","why":"x","instead":{{"kind":"note","version":1,"body":{{"text":"y"}}}}}}"#
    );
    let body = format!("{}{innermost}{}", before.repeat(depth), after.repeat(depth));
    format!(
        r#"{{"id":"{}","yard":"{}","kind":"correction","version":1,"at":"2024-05-01T07:00:00Z","by":"{}","device":"d","counter":1,"body":{body}}}"#,
        id(depth as u128 + 100),
        yard.id(),
        id(2)
    )
    .into_bytes()
}

#[test]
fn corrections_inside_corrections_never_lead_deeper_than_one() {
    let deepest = MOST_BYTES / 110;
    let inside = |body: &Body| match body {
        Body::Correction(correction) => *correction.instead.clone().unwrap(),
        other => panic!("{other:?}"),
    };
    for depth in [
        0, 1, 2, 3, 64, 111, 112, 127, 128, 129, 1_000, 5_000, deepest,
    ] {
        let yard = yard();
        let bytes = nested(&yard, depth);
        assert!(bytes.len() <= MOST_BYTES);
        assert_eq!(
            yard.accept(&bytes, Delivery::here(time(1_000_000)))
                .unwrap(),
            Acceptance::New { seq: 1 }
        );
        let body = yard.entries().unwrap().remove(0).body;
        let note = Body::Note(Note {
            point: None,
            text: "y".into(),
        });
        match depth {
            0 => assert_eq!(inside(&body), note),
            1 => assert_eq!(inside(&inside(&body)), note),
            _ => assert_eq!(
                inside(&body),
                Body::Unreadable {
                    kind: "correction".into(),
                    at: "instead".into()
                }
            ),
        }
        assert_eq!(yard.verify().unwrap().broken, None);
    }
}
