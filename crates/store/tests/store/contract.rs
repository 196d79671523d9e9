//! The contract: one function, run against every engine.

#[cfg(feature = "postgres")]
use crate::postgres_server::Server;
use crate::{
    made::{entry, id, note, time},
    samples,
};
use proptest::prelude::*;
use store::{Acceptance, Changes, Delivery, Refusal, Row, Store, StoreError, Yard, write_entry};
use yard::id::{EntryId, YardId};

#[test]
fn memory_keeps_the_contract() {
    contract(&Store::open_memory());
}

#[test]
fn sqlite_keeps_the_contract() {
    let dir = tempfile::tempdir().unwrap();
    contract(&Store::open(dir.path()).unwrap());
}

#[cfg(feature = "postgres")]
#[test]
fn postgres_keeps_the_contract() {
    let Some(server) = Server::start() else {
        return;
    };
    let dir = tempfile::tempdir().unwrap();
    let store = Store::open_postgres(&server.url, dir.path()).unwrap();
    contract(&store);
    drop(store);
    let again = Store::open_postgres(&server.url, dir.path()).unwrap();
    assert_eq!(
        again.yard().unwrap().entries().unwrap().len(),
        samples::version_1().len() + 4
    );
    two_programs(&server.url, dir.path());
    crate::backup::other_engines_back_up_too(&again);
    refuses_changes(&server.url);
}

fn contract(store: &Store) {
    assert!(matches!(store.yard(), Err(StoreError::NoYard)));
    let yard = store.add_yard(YardId(id(1)), "Invented é ½ ✓").unwrap();
    let other = store.add_yard(YardId(id(2)), "Another").unwrap();
    assert_eq!(
        store.add_yard(YardId(id(1)), "Again").unwrap_err(),
        StoreError::YardExists
    );
    assert_eq!(
        store
            .yards()
            .unwrap()
            .iter()
            .map(Yard::name)
            .collect::<Vec<_>>(),
        ["Invented é ½ ✓", "Another"]
    );
    assert_eq!(store.yard_of(YardId(id(2))).unwrap().name(), "Another");
    assert!(matches!(
        store.yard_of(YardId(id(3))),
        Err(StoreError::NoYard)
    ));
    takes_each_once(&yard);
    keeps_conflicts_aside(&yard);
    takes_many(&yard);
    yards_are_apart(&yard, &other);
    crate::outside::drawers_hold(&yard);
    assert!(store.verify().unwrap().sound());
}

fn takes_each_once(yard: &Yard) {
    for (n, body) in samples::version_1().into_iter().enumerate() {
        let bytes = write_entry(&entry(yard.id(), 10 + n as u128, body.clone()));
        let seq = n as u64 + 1;
        assert_eq!(
            yard.accept(&bytes, delivery(n as i64)),
            Ok(Acceptance::New { seq })
        );
        assert_eq!(
            yard.accept(&bytes, delivery(99)),
            Ok(Acceptance::Known { seq })
        );
        let read = yard.entry(EntryId(id(10 + n as u128))).unwrap().unwrap();
        assert_eq!((read.seq, &read.body), (seq, &body));
    }
    let all = yard.entries().unwrap();
    assert_eq!(
        all.iter()
            .map(|entry| entry.body.clone())
            .collect::<Vec<_>>(),
        samples::version_1()
    );
    assert_eq!(yard.entries_since(3).unwrap(), all[3..]);
    assert_eq!(
        yard.rows_since(3, 2)
            .unwrap()
            .iter()
            .map(|row| row.envelope.seq)
            .collect::<Vec<_>>(),
        [4, 5]
    );
    assert_eq!(yard.rows_since(u64::MAX, 2).unwrap(), []);
    assert_eq!(
        rows(yard),
        expected_rows(yard),
        "the same envelopes whatever the engine"
    );
}

/// A delivery whose clock differs from the writer's by an odd number of nanoseconds, which no engine keeps.
fn delivery(n: i64) -> Delivery {
    let written = time(10_000_000 + n * 1_000)
        .checked_add(jiff::SignedDuration::from_nanos(789))
        .unwrap();
    Delivery {
        written,
        writers_clock_now: (n % 2 == 0).then(|| time(9_000_000)),
    }
}

fn expected_rows(yard: &Yard) -> Vec<Row> {
    let memory = Store::open_memory().add_yard(yard.id(), "").unwrap();
    for (n, body) in samples::version_1().into_iter().enumerate() {
        memory
            .accept(
                &write_entry(&entry(yard.id(), 10 + n as u128, body)),
                delivery(n as i64),
            )
            .unwrap();
    }
    rows(&memory)
}

fn rows(yard: &Yard) -> Vec<Row> {
    yard.rows_since(0, usize::MAX).unwrap()
}

fn keeps_conflicts_aside(yard: &Yard) {
    let before = yard.tip().unwrap();
    let changed = note(yard, 10, "not what the first one said");
    for _ in 0..2 {
        assert_eq!(
            yard.accept(&changed, delivery(100)),
            Ok(Acceptance::Conflict { seq: 1 })
        );
    }
    assert_eq!(yard.tip().unwrap(), before);
    let conflicts = yard.conflicts().unwrap();
    assert_eq!(conflicts.len(), 1);
    assert_eq!(conflicts[0].bytes, changed);
    assert_eq!(
        (conflicts[0].holder.seq, conflicts[0].holder.id),
        (1, conflicts[0].other.id)
    );
    assert_ne!(conflicts[0].holder.body, conflicts[0].other.body);
}

fn takes_many(yard: &Yard) {
    let before = yard.changes().unwrap();
    let batch = vec![
        note(yard, 500, "a"),
        b"no entry".to_vec(),
        note(yard, 501, "b"),
        note(yard, 500, "a"),
        note(yard, 501, "c"),
    ];
    let taken = yard.accept_all(&batch, delivery(101)).unwrap();
    let seq = before.entries;
    assert!(matches!(taken[1], Err(Refusal::NotAnEntry { .. })));
    let others: Vec<_> = taken.into_iter().filter_map(Result::ok).collect();
    let expected = [
        Acceptance::New { seq: seq + 1 },
        Acceptance::New { seq: seq + 2 },
        Acceptance::Known { seq: seq + 1 },
        Acceptance::Conflict { seq: seq + 2 },
    ];
    assert_eq!(others, expected);
    assert_eq!(
        yard.changes().unwrap(),
        Changes {
            entries: seq + 2,
            ..before
        }
    );
}

fn yards_are_apart(yard: &Yard, other: &Yard) {
    assert_eq!(other.entries().unwrap(), []);
    let bytes = note(other, 10, "the same id in another yard");
    assert_eq!(
        other.accept(&bytes, delivery(0)),
        Ok(Acceptance::New { seq: 1 })
    );
    assert!(matches!(
        yard.accept(&bytes, delivery(0)),
        Err(StoreError::Refused(Refusal::OtherYard { .. }))
    ));
    let more = [note(yard, 600, "x"), note(yard, 601, "y")];
    for bytes in &more {
        yard.accept(bytes, delivery(102)).unwrap();
    }
    assert_eq!(other.tip().unwrap().seq, 1);
}

/// Two stores on one server write at once: no place is given out twice and none is skipped.
#[cfg(feature = "postgres")]
fn two_programs(url: &str, dir: &std::path::Path) {
    let yard_id = YardId(id(4));
    Store::open_postgres(url, dir)
        .unwrap()
        .add_yard(yard_id, "Shared")
        .unwrap();
    std::thread::scope(|scope| {
        for program in 0..2 {
            scope.spawn(move || {
                let yard = Store::open_postgres(url, dir)
                    .unwrap()
                    .yard_of(yard_id)
                    .unwrap();
                for n in 0..50 {
                    yard.accept(
                        &note(&yard, 1_000 * (program + 1) + n, "x"),
                        Delivery::here(time(0)),
                    )
                    .unwrap();
                }
            });
        }
    });
    let yard = Store::open_postgres(url, dir)
        .unwrap()
        .yard_of(yard_id)
        .unwrap();
    assert_eq!(yard.tip().unwrap().seq, 100);
    assert_eq!(yard.verify().unwrap().broken, None);
}

#[cfg(feature = "postgres")]
fn refuses_changes(url: &str) {
    let mut client = postgres::Client::connect(url, postgres::NoTls).unwrap();
    for sql in [
        "DELETE FROM entry",
        "UPDATE entry SET kind = 'x'",
        "TRUNCATE entry",
        "DELETE FROM aside",
    ] {
        let why = client.batch_execute(sql).unwrap_err();
        assert_eq!(
            why.as_db_error().unwrap().message(),
            "the journal is append-only",
            "{sql}"
        );
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(64) })]
    #[test]
    fn a_uuid_made_here_is_well_formed_and_in_order_of_time(ms in 0_i64..4_000_000_000_000, later in 1_i64..1_000_000) {
        use yard::world::StillWorld;
        let made = |ms| store::fresh_id(&StillWorld::at(jiff::Timestamp::from_millisecond(ms).unwrap()));
        prop_assert_eq!(made(ms).get_version_num(), 7);
        prop_assert!(made(ms) < made(ms + later));
    }
}
