//! Random deliveries: late, twice, changed, in any order, by wrong clocks. Nothing is lost, nothing is there twice.

use crate::made::{id, note, time};
use jiff::Timestamp;
use proptest::{collection::vec, option, prelude::*};
use std::collections::{BTreeMap, BTreeSet};
use store::{Acceptance, Delivery, Store, Yard};
use yard::id::{EntryId, YardId};

/// One delivery: which entry, which of its rival texts, and the clocks.
#[derive(Clone, Debug)]
struct Sent {
    entry: u8,
    text: u8,
    written: i64,
    told: Option<i64>,
}

fn sent() -> impl Strategy<Value = Sent> {
    let text = prop_oneof![5 => Just(0_u8), 1 => 1_u8..3];
    let clock = prop_oneof![0_i64..1_000_000, -4_000_000_000_000_i64..4_000_000_000_000];
    (0_u8..12, text, clock.clone(), option::of(clock)).prop_map(|(entry, text, written, told)| {
        Sent {
            entry,
            text,
            written,
            told,
        }
    })
}

/// What should be there, kept in the plainest way.
#[derive(Default)]
struct Model {
    first: BTreeMap<EntryId, Vec<u8>>,
    aside: BTreeSet<(EntryId, Vec<u8>)>,
}

impl Model {
    fn take(&mut self, id: EntryId, bytes: &[u8]) -> &'static str {
        match self.first.get(&id) {
            None => {
                self.first.insert(id, bytes.to_vec());
                "new"
            }
            Some(first) if first == bytes => "known",
            Some(_) => {
                self.aside.insert((id, bytes.to_vec()));
                "conflict"
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(64) })]
    #[test]
    fn nothing_is_lost_and_nothing_is_there_twice(deliveries in vec(sent(), 1..60), batch in 1_usize..6) {
        let dir = tempfile::tempdir().unwrap();
        let on_disk = Store::open(dir.path()).unwrap().add_yard(YardId(id(1)), "Invented").unwrap();
        let in_memory = Store::open_memory().add_yard(YardId(id(1)), "Invented").unwrap();
        let mut model = Model::default();
        for sent in &deliveries {
            let bytes = note(&on_disk, 100 + u128::from(sent.entry), &format!("text {}", sent.text));
            let expected = model.take(EntryId(id(100 + u128::from(sent.entry))), &bytes);
            let delivery = Delivery { written: time(sent.written), writers_clock_now: sent.told.map(time) };
            let taken = on_disk.accept(&bytes, delivery).unwrap();
            prop_assert_eq!(word(taken), expected);
            prop_assert_eq!(in_memory.accept(&bytes, delivery).unwrap(), taken);
        }
        holds(&on_disk, &model)?;
        prop_assert_eq!(on_disk.rows_since(0, usize::MAX).unwrap(), in_memory.rows_since(0, usize::MAX).unwrap());
        again_in_batches(&on_disk, &model, batch)?;
    }
}

fn word(taken: Acceptance) -> &'static str {
    match taken {
        Acceptance::New { .. } => "new",
        Acceptance::Known { .. } => "known",
        Acceptance::Conflict { .. } => "conflict",
    }
}

fn holds(yard: &Yard, model: &Model) -> Result<(), TestCaseError> {
    let checked = yard.verify().unwrap();
    prop_assert_eq!(checked.broken, None);
    prop_assert_eq!(checked.tip, yard.tip().unwrap());
    let rows = yard.rows_since(0, usize::MAX).unwrap();
    prop_assert_eq!(
        rows.iter().map(|row| row.envelope.seq).collect::<Vec<_>>(),
        (1..=model.first.len() as u64).collect::<Vec<_>>()
    );
    prop_assert_eq!(
        &rows
            .iter()
            .map(|row| (row.id, row.bytes.clone()))
            .collect::<BTreeMap<_, _>>(),
        &model.first
    );
    for entry in yard.entries().unwrap() {
        prop_assert!(entry.ordered_at <= entry.written);
        prop_assert_eq!(entry.clock_corrected, entry.ordered_at != entry.at);
        prop_assert!(entry.at < Timestamp::MAX);
    }
    let aside: BTreeSet<_> = yard
        .conflicts()
        .unwrap()
        .into_iter()
        .map(|conflict| (conflict.holder.id, conflict.bytes))
        .collect();
    prop_assert_eq!(&aside, &model.aside);
    Ok(())
}

/// A phone that lost its memory delivers everything once more: nothing changes.
fn again_in_batches(yard: &Yard, model: &Model, batch: usize) -> Result<(), TestCaseError> {
    let before = yard.tip().unwrap();
    let all: Vec<_> = model.first.values().rev().cloned().collect();
    for part in all.chunks(batch) {
        let taken = yard.accept_all(part, Delivery::here(time(0))).unwrap();
        let known = taken
            .iter()
            .all(|taken| matches!(taken, Ok(Acceptance::Known { .. })));
        prop_assert!(known);
    }
    prop_assert_eq!(yard.tip().unwrap(), before);
    Ok(())
}

#[test]
fn two_threads_append_to_one_chain() {
    let dir = tempfile::tempdir().unwrap();
    let yard = Store::open(dir.path())
        .unwrap()
        .add_yard(YardId(id(1)), "Invented")
        .unwrap();
    std::thread::scope(|scope| {
        for thread in 1..=2 {
            let yard = &yard;
            scope.spawn(move || {
                for n in 0..200 {
                    // Every fourth entry is sent by both.
                    let thread = if n % 4 == 0 { 3 } else { thread };
                    yard.accept(
                        &note(yard, 1_000 * thread + n, "x"),
                        Delivery::here(time(0)),
                    )
                    .unwrap();
                }
            });
        }
    });
    assert_eq!(yard.verify().unwrap().broken, None);
    assert_eq!(yard.tip().unwrap().seq, 350);
}
