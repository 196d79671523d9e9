//! The demo is the same for the same seed and day, believable by our own rules, and ends as the guide says.

use super::*;
use jiff::civil::date;
use std::{
    collections::{BTreeMap, BTreeSet},
    sync::OnceLock,
};
use yard::{
    entry::{Body, DocumentKind, Entry, RunPart},
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
    /// All six and what two of them share, by id.
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
    others: &BTreeMap<MachineId, MachineState>,
) -> yard::handover::Judgement {
    let (zone, habits) = (script().zone, YardHabits::default());
    judge(&Situation {
        machine,
        yard: state,
        person,
        now,
        zone: &zone,
        habits: &habits,
        others,
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
    assert_eq!(filled.machines.len(), 7);
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
fn the_borer_hung_on_two_machines_was_walked_round_each_time_and_hangs_nowhere() {
    let filled = filled();
    let read = yard::book::read(hung::BOOK, &quantity::Habits::default());
    assert_eq!(read.troubles, vec![]);
    let gaps = yard::book::gaps(&read.book.unwrap());
    assert_eq!(gaps.iter().find(|gap| gap.bears_on_safety), None);
    let sedge = &filled.machines[&MachineId::new(hung::SEDGE).unwrap()];
    let rounds: Vec<_> = sedge
        .rounds
        .values()
        .filter_map(|round| round.closed)
        .collect();
    let put_on: Vec<&Entry> = filled
        .entries
        .iter()
        .filter(|entry| matches!(&entry.body, Body::Attachment(change) if change.fitted))
        .collect();
    assert_eq!((put_on.len(), rounds.len()), (2, 2));
    for on in &put_on {
        let end = on.at + jiff::SignedDuration::from_hours(2);
        let after = |(at, by, _): &&(Timestamp, PersonId, yard::id::EntryId)| {
            *at > on.at && *at < end && *by == on.by
        };
        assert!(rounds.iter().any(|round| after(&round)), "{on:?}");
        let started = filled.entries.iter().any(|entry| {
            let start = matches!(&entry.body, Body::Run(run) if run.part == RunPart::Start);
            start && entry.machine == on.machine && entry.at > on.at && entry.at < end
        });
        assert!(started, "it was used");
    }
    let machines: BTreeSet<_> = put_on.iter().map(|on| on.machine.clone()).collect();
    assert_eq!(machines.len(), 2);
    assert!(
        filled
            .machines
            .values()
            .all(|machine| machine.fitted.is_empty())
    );
}

#[test]
fn a_recall_was_noted_and_answered() {
    let bryony = &filled().machines[&MachineId::new(fleet::BRYONY).unwrap()];
    let recalls = bryony
        .documents
        .iter()
        .filter(|kept| kept.document.what == DocumentKind::Recall);
    let answered: Vec<bool> = recalls.map(|kept| kept.ended.is_some()).collect();
    assert_eq!(answered, [true]);
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
    let run = filled
        .machines
        .keys()
        .filter(|id| id.as_str() != hung::SEDGE);
    for id in run {
        let of = |start: &&Entry| start.machine.as_ref() == Some(id);
        assert!(starts.clone().filter(of).count() >= 4, "few runs of {id}");
    }
    for start in starts.step_by(7) {
        let (state, machine) = filled.before(start);
        let entries = &filled.entries[..usize::try_from(start.seq).unwrap() - 1];
        let hangs = machine.fitted.keys().map(|id| {
            let habits = quantity::Habits::default();
            (id.clone(), fold_machine(id, entries, &state, &habits))
        });
        let judged = judged(&machine, &state, start.by, start.at, &hangs.collect());
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
        let judged = judged(
            &filled.machine,
            &filled.state,
            filled.named(name),
            morning,
            &filled.machines,
        );
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
