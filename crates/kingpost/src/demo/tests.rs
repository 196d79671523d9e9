//! The demo is the same for the same seed and day, believable by our own rules, and ends as the guide says.

use super::*;
use jiff::civil::date;
use std::{
    collections::{BTreeMap, BTreeSet},
    sync::OnceLock,
};
use yard::{
    entry::{Body, Entry, RunPart},
    handover::{Situation, Verdict, YardHabits, judge},
    id::{MachineId, PersonId},
    state::{MachineState, YardState, fold_machine, fold_yard},
    upkeep::{life_hours, repeats},
};

fn marigold() -> MachineId {
    MachineId::new(fleet::MARIGOLD).unwrap()
}

fn script() -> Script {
    Script {
        last: date(2026, 5, 14),
        zone: TimeZone::get("Europe/Berlin").unwrap(),
        seed: 4720,
    }
}

fn rows(yard: &Yard) -> Vec<(Vec<u8>, [u8; 32])> {
    let rows = yard.rows_since(0, usize::MAX).unwrap();
    rows.into_iter()
        .map(|row| (row.bytes, row.envelope.hash))
        .collect()
}

struct Filled {
    yard: Yard,
    entries: Vec<Entry>,
    people: Vec<Person>,
    state: YardState,
    machine: MachineState,
    /// All six, by id.
    machines: BTreeMap<MachineId, MachineState>,
}

/// The usual demo, made once for all tests here.
fn filled() -> &'static Filled {
    static FILLED: OnceLock<Filled> = OnceLock::new();
    FILLED.get_or_init(|| {
        let yard = fill(&Store::open_memory(), &script()).unwrap();
        let entries = yard.entries().unwrap();
        let state = fold_yard(&entries);
        let machine = fold_machine(&marigold(), &entries, &state, &quantity::Habits::default());
        let machines = state.machines.iter().map(|id| {
            let machine = fold_machine(id, &entries, &state, &quantity::Habits::default());
            (id.clone(), machine)
        });
        Filled {
            machines: machines.collect(),
            people: yard.people().unwrap(),
            yard,
            entries,
            state,
            machine,
        }
    })
}

impl Filled {
    fn named(&self, name: &str) -> PersonId {
        self.people
            .iter()
            .find(|person| person.name.as_deref() == Some(name))
            .unwrap()
            .id
    }

    /// The entry's machine and the yard as they were before it.
    fn before(&self, entry: &Entry) -> (YardState, MachineState) {
        let entries = &self.entries[..usize::try_from(entry.seq).unwrap() - 1];
        let state = fold_yard(entries);
        let of = entry.machine.as_ref().unwrap();
        let machine = fold_machine(of, entries, &state, &quantity::Habits::default());
        (state, machine)
    }
}

fn judged(
    machine: &MachineState,
    state: &YardState,
    person: PersonId,
    now: Timestamp,
) -> yard::handover::Judgement {
    let (zone, habits) = (script().zone, YardHabits::default());
    judge(&Situation {
        machine,
        yard: state,
        person,
        now,
        zone: &zone,
        habits: &habits,
        others: &yard::handover::NoOthers,
    })
}

#[test]
fn the_same_seed_and_day_give_the_same_bytes() {
    let again = fill(&Store::open_memory(), &script()).unwrap();
    assert!(
        rows(&filled().yard) == rows(&again),
        "two makings of one script differ"
    );
}

#[test]
fn the_books_of_the_demo_read_without_a_word_and_lack_nothing_that_safety_hangs_on() {
    for member in fleet::all() {
        for text in [member.first_book(), member.book()] {
            let read = yard::book::read(&text, &quantity::Habits::default());
            assert_eq!(read.troubles, vec![], "{}", member.id);
            let book = read.book.unwrap();
            assert!(book.machine.invented, "{}", member.id);
            let gaps = yard::book::gaps(&book);
            let lacks = gaps.iter().find(|gap| gap.bears_on_safety);
            assert_eq!(lacks, None, "{}", member.id);
        }
    }
}

#[test]
fn each_machine_has_its_own_tale() {
    let filled = filled();
    let machine = |id: &str| &filled.machines[&MachineId::new(id).unwrap()];
    assert_eq!(filled.machines.len(), 6);
    let sags = machine(fleet::BRYONY).work.iter();
    let sags = sags.filter(|work| {
        work.point
            .as_ref()
            .is_some_and(|point| point.as_str() == "track-sag-left")
    });
    assert!(sags.count() >= 2, "the track gets slack again");
    let of = |id: &str, kind: &str| {
        let entries = filled.entries.iter();
        let kinds =
            entries.filter(|entry| entry.machine.as_ref().is_some_and(|of| of.as_str() == id));
        kinds
            .filter(|entry| store::form::kind_of(&entry.body).0 == kind)
            .count()
    };
    assert_eq!(
        (
            of(fleet::TEASEL, "meter-broken"),
            of(fleet::TEASEL, "meter-change")
        ),
        (1, 1)
    );
    assert!(of(fleet::TEASEL, "hours-told") > 2 && of(fleet::WREN, "hours-told") > 10);
    assert!(machine(fleet::SORREL).left.is_some());
    let arrived = machine(fleet::EMBER).arrival.as_ref();
    assert!(arrived.is_some_and(|came| came.over.is_some() && came.fluids_known.len() == 2));
    assert_eq!(of(fleet::WREN, "fault"), 1, "the learner told of the stone");
    assert_eq!(
        of(fleet::EMBER, "book-adopted"),
        2,
        "its grades were found out"
    );
}

#[test]
fn nobody_runs_two_machines_at_once() {
    let filled = filled();
    let mut running: BTreeMap<PersonId, &Entry> = BTreeMap::new();
    for entry in &filled.entries {
        match &entry.body {
            Body::Run(run) if run.part == RunPart::Start => {
                let other = running.insert(entry.by, entry);
                assert!(other.is_none(), "{entry:?} while {other:?}");
            }
            Body::Run(_) => drop(running.remove(&entry.by)),
            _ => {}
        }
    }
    assert!(running.is_empty());
}

#[test]
fn everything_was_written_in_order_and_ended_yesterday_evening() {
    let filled = filled();
    assert!(
        filled
            .entries
            .is_sorted_by_key(|entry| (entry.ordered_at, entry.seq))
    );
    let last = filled.entries.last().unwrap();
    assert!(matches!(last.body, Body::Handover(_)));
    assert_eq!(
        last.at.to_zoned_datetime(script().zone).date(),
        script().last
    );
    assert!(
        filled
            .entries
            .iter()
            .all(|entry| entry.at == entry.written && !entry.clock_corrected)
    );
    assert!(filled.people.iter().all(|person| person.invented) && filled.people.len() == 9);
}

#[test]
fn the_journal_raises_no_question_and_every_entry_reads() {
    for machine in filled().machines.values() {
        assert_eq!(
            machine.asked().collect::<Vec<_>>(),
            Vec::<&yard::state::Question>::new()
        );
        assert!(machine.unknown.is_empty() && machine.misfits.is_empty());
    }
    assert!(filled().state.questions.is_empty());
}

#[test]
fn nobody_runs_a_machine_that_is_stood_down() {
    let filled = filled();
    let starts = filled
        .entries
        .iter()
        .filter(|entry| matches!(&entry.body, Body::Run(run) if run.part == RunPart::Start));
    for id in filled.machines.keys() {
        let of = |start: &&Entry| start.machine.as_ref() == Some(id);
        assert!(starts.clone().filter(of).count() >= 4, "few runs of {id}");
    }
    for start in starts.step_by(7) {
        let (state, machine) = filled.before(start);
        let judged = judged(&machine, &state, start.by, start.at);
        assert_ne!(
            judged.verdict,
            Verdict::StandDown,
            "entry {}: {:?}",
            start.seq,
            judged.reasons
        );
    }
}

#[test]
fn the_tale_is_told() {
    let machine = &filled().machine;
    let kinds: BTreeSet<_> = filled()
        .entries
        .iter()
        .map(|entry| store::form::kind_of(&entry.body).0)
        .collect();
    for kind in [
        "correction",
        "ruling",
        "lesson",
        "sign-off",
        "note",
        "repair",
        "release",
        "adjustment",
        "greasing",
        "top-up",
        "fault",
        "purchase",
    ] {
        assert!(kinds.contains(kind), "no {kind}");
    }
    let clip = repeats(machine)
        .into_iter()
        .find(|repeat| repeat.point.as_str() == "dipper-clips-left")
        .unwrap();
    assert_eq!(clip.failures.len(), 3);
    assert!(life_hours(machine).unwrap().hours.to_f64() > 1842.6 + 45.0 * 2.0);
}

#[test]
fn next_morning_it_is_walked_round_first_with_one_thing_open() {
    let filled = filled();
    let open: Vec<_> = filled
        .machine
        .findings
        .values()
        .filter(|finding| finding.open())
        .collect();
    assert_eq!(open.len(), 1, "{open:?}");
    let morning = script()
        .last
        .tomorrow()
        .unwrap()
        .at(6, 30, 0, 0)
        .to_zoned_datetime(script().zone)
        .unwrap()
        .timestamp();
    for name in ["Odalys", "Bram", "Tamsin", "Ines"] {
        let judged = judged(&filled.machine, &filled.state, filled.named(name), morning);
        assert!(judged.only_unknown(), "{name}: {:?}", judged.reasons);
        assert!(
            judged
                .reasons
                .iter()
                .any(|reason| reason.weighs == Verdict::Care
                    && reason.finding.as_ref() == Some(&open[0].id))
        );
    }
}

#[test]
fn another_seed_and_another_day_make_another_sound_demo() {
    // The clocks go forward within these three months.
    let other = Script {
        last: date(2026, 3, 30),
        seed: 1,
        ..script()
    };
    let yard = fill(&Store::open_memory(), &other).unwrap();
    assert_ne!(yard.id(), filled().yard.id());
    let entries = yard.entries().unwrap();
    let state = fold_yard(&entries);
    let machine = fold_machine(&marigold(), &entries, &state, &quantity::Habits::default());
    let open = machine.findings.values().filter(|finding| finding.open());
    assert_eq!((open.count(), machine.asked().count()), (1, 0));
}
