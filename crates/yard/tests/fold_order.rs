//! The same entries give the same state: whatever the order of arrival, however often delivered, however wrong the clocks.
#![allow(clippy::unwrap_used)]

mod small_yard;

use proptest::prelude::*;
use quantity::Habits;
use small_yard::*;
use yard::{book::LeakClass, entry::*, id::*, people::Role, state::*};

const PEOPLE: [PersonId; 6] = [STEWARD, DEPUTY, OPERATOR, LEARNER, VISITOR, OTHER];
/// Entries of the small yard's beginning that random entries may also name.
const EARLIER: u64 = 6;

fn any_person() -> impl Strategy<Value = PersonId> {
    prop::sample::select(PEOPLE.to_vec())
}

fn any_entry_id() -> impl Strategy<Value = EntryId> {
    (1..EARLIER + 30).prop_map(entry_id)
}

fn any_point() -> impl Strategy<Value = PointId> {
    let known = all_well()
        .into_iter()
        .map(|(id, _)| id)
        .chain(["no-such-point", "brakes"]);
    prop::sample::select(known.map(point).collect::<Vec<_>>())
}

fn any_fault_ref() -> impl Strategy<Value = FaultRef> {
    (any_entry_id(), prop::option::of(any_point()))
        .prop_map(|(entry, point)| FaultRef { entry, point })
}

fn any_hours() -> impl Strategy<Value = quantity::Quantity> {
    prop::sample::select(vec![
        "100 h",
        "100.4 h",
        "103 h",
        "0 h",
        "90 min",
        "5000 h",
        "-3 h",
        "7 km",
        "12 h ± 6 h",
    ])
    .prop_map(q)
}

fn any_answer() -> impl Strategy<Value = Answer> {
    prop_oneof![
        prop::sample::select(all_well()).prop_map(|(_, answer)| answer),
        Just(clip(ClipState::Missing)),
        Just(fitting(GreaseTook::Refused)),
        Just(fitting(GreaseTook::Took)),
        Just(not_checked()),
        Just(Answer::Leak(Some(LeakClass::III))),
        Just(Answer::Crank {
            cranked: vec![],
            bypassed: true
        }),
        Just(Answer::Measure {
            readings: vec![],
            by_method: Some(true),
            condition_held: None
        }),
        Just(Answer::Measure {
            readings: vec![Reading::Between {
                over: None,
                under: Some(q("3 kg"))
            }],
            by_method: Some(true),
            condition_held: None
        }),
        Just(sag("2 1/8 in")),
        Just(sag("2 in ± 1/16 in")),
    ]
}

fn any_answered() -> impl Strategy<Value = Answered> {
    (any_point(), any_answer()).prop_map(|(point, answer)| Answered {
        point,
        answer,
        note: None,
        photos: vec![],
    })
}

fn any_walk() -> impl Strategy<Value = Body> {
    let parts = (
        0..3u64,
        any_entry_id(),
        prop::collection::vec(any_answered(), 0..4),
        prop::option::of(any_hours()),
        any::<bool>(),
    );
    parts.prop_map(|(round, book, answers, hours, closes)| {
        let closes = closes.then(|| Evidence {
            verdict: "fit".into(),
            reasons: vec![],
            book,
            program: "test".into(),
        });
        Body::WalkRound(WalkRound {
            round: round_id(round),
            book,
            purpose: RoundPurpose::Start,
            from_paper: false,
            answers,
            hours,
            closes,
            no_photo: None,
        })
    })
}

fn any_plain_body() -> impl Strategy<Value = Body> {
    let mends = || prop::collection::vec(any_fault_ref(), 0..3);
    prop_oneof![
        4 => any_walk(),
        2 => any_hours().prop_map(|shows| Body::MeterReading(MeterReading { meter: None, shows })),
        1 => (prop::option::of(any_hours()), any_hours(), prop::option::of(any_hours())).prop_map(|(old_last, new_first, unmetered)| {
            Body::MeterChange(MeterChange { meter: None, old_last, new_first, unmetered, why: String::new() })
        }),
        2 => any_hours().prop_map(|shows| Body::MeterReading(MeterReading { meter: ItemId::new("dash-clock"), shows })),
        1 => prop::option::of(0i64..4000).prop_map(|since| Body::MeterBroken(MeterBroken {
            meter: None,
            since: since.map(|hours| at("2026-01-01T05:00") + jiff::SignedDuration::from_hours(hours)),
            why: String::new(),
        })),
        1 => any_hours().prop_map(|ran| Body::HoursTold(HoursTold { ran })),
        1 => (any_entry_id(), prop::sample::select(vec![RulingSays::MeterRolledOver, RulingSays::MeterBroken, RulingSays::ReadingWrong, RulingSays::ReadingRight, RulingSays::Answered]))
            .prop_map(|(about, says)| Body::Ruling(Ruling { about, says, why: String::new() })),
        2 => mends().prop_map(|mends| Body::Repair(Repair { mends, what: String::new(), cost: None, event: Some(item("sprocket-refitted")), cause: None })),
        1 => mends().prop_map(|lifts| Body::Release(Release { lifts, mended: String::new() })),
        1 => (prop::collection::vec(any_answered(), 0..3), mends()).prop_map(|(fittings, mends)| Body::Greasing(Greasing { fittings, mends })),
        1 => prop::option::of(any_point()).prop_map(|point| Body::Fault(Fault { point, what: String::new(), severity: yard::book::Severity::Care, told: None })),
        1 => Just(Body::StandDown(StandDown { why: String::new() })),
        1 => Just(Body::Run(Run { part: RunPart::Start, hours: None, work: None, amiss: vec![], in_sight_of: None })),
        1 => any_entry_id().prop_map(|book| Body::Handover(Handover { book, hours: None, engine: EngineLeft::Running, steps: vec![], next: None })),
        1 => any_person().prop_map(|person| Body::SignOff(SignOff { person, given: true, until: None, limits: None, in_sight: false })),
        1 => (any_person(), prop::option::of(Just(Role::Steward)), any::<bool>()).prop_map(|(person, role, here)| {
            Body::RoleGiven(RoleGiven { person, role, machines: if here { vec![machine()] } else { vec![] } })
        }),
        1 => any_person().prop_map(|of| Body::Access(Access { what: AccessWhat::Locked, of: Some(of), note: None })),
        1 => Just(Body::Unknown { kind: "later".into(), version: 9 }),
        1 => Just(Body::Unreadable { kind: "run".into(), at: "hours".into() }),
        1 => prop::sample::select(vec![BOOK.to_owned(), String::new(), BOOK.replace("id = \"brake\"", "id = \"brakes\"") + "\n[renamed]\nbrake = \"brakes\"\n"])
            .prop_map(|text| Body::BookAdopted(BookAdopted { text, why: None })),
    ]
}

fn any_body() -> impl Strategy<Value = Body> {
    let plain = || any_plain_body().boxed();
    let correcting = plain().prop_recursive(3, 8, 1, |inner| {
        (any_entry_id(), prop::option::of(inner)).prop_map(|(of, instead)| {
            Body::Correction(Correction {
                of,
                instead: instead.map(Box::new),
                why: String::new(),
            })
        })
    });
    prop_oneof![3 => plain(), 1 => correcting]
}

/// Random entries after the small yard's beginning. Clocks are wrong: times neither follow the ids nor one another, and
/// several may be the same.
fn any_entries() -> impl Strategy<Value = Vec<Entry>> {
    let one = (any_body(), any_person(), 0i64..60, any::<bool>());
    prop::collection::vec(one, 1..30).prop_map(|many| {
        let mut entries = SmallYard::new().entries;
        for (body, by, hours, in_yard) in many {
            let n = entries.len() as u64 + 1;
            let when = at("2026-01-01T05:00") + jiff::SignedDuration::from_hours(hours);
            let of_yard = in_yard || matches!(body, Body::RoleGiven(_));
            entries.push(entry(n, (!of_yard).then(machine), by, when, body));
        }
        entries
    })
}

fn states(entries: &[Entry]) -> (YardState, MachineState) {
    let yard = fold_yard(entries);
    let machine = fold_machine(&machine(), entries, &yard, &Habits::default());
    (yard, machine)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    #[test]
    fn any_order_of_arrival_gives_the_same_state(
        (entries, shuffled) in any_entries().prop_flat_map(|entries| (Just(entries.clone()), Just(entries).prop_shuffle())),
        again in prop::collection::vec(any::<prop::sample::Index>(), 0..10),
    ) {
        let told = states(&entries);
        let mut delivered = shuffled;
        for (seq, entry) in (1..).zip(&mut delivered) {
            entry.seq = seq;
        }
        for index in again {
            delivered.push(delivered[index.index(delivered.len())].clone());
        }
        prop_assert_eq!(told, states(&delivered));
    }

    /// Nothing but a release, a repair or a correction takes a finding away: an entry more leaves every finding where it was.
    #[test]
    fn findings_do_not_pass_by_themselves(entries in any_entries(), body in any_plain_body(), by in any_person()) {
        let changes_books = matches!(body, Body::BookAdopted(_));
        let closes = matches!(&body, Body::Repair(_) | Body::Release(_) | Body::Greasing(_) | Body::RoleGiven(_));
        // Grease that goes in proves an earlier repair of a fitting that refused.
        let proves = matches!(&body, Body::WalkRound(walk) if walk.answers.iter().any(|one| matches!(one.answer, Answer::Fitting { .. })));
        prop_assume!(!changes_books && !closes && !proves);
        let (_, before) = states(&entries);
        let mut more = entries;
        let n = more.len() as u64 + 1;
        more.push(entry(n, Some(machine()), by, at("2026-02-01T07:00"), body));
        let (_, after) = states(&more);
        for (id, finding) in &before.findings {
            prop_assert_eq!(after.findings.get(id).map(|finding| finding.open()), Some(finding.open()));
        }
    }

    /// A correction by somebody who does not lead takes away nothing that is plainly bad, whatever it corrects.
    #[test]
    fn who_does_not_lead_unsays_no_harm(entries in any_entries(), of in any_entry_id(), instead in prop::option::of(any_body()), by in prop::sample::select(vec![OPERATOR, LEARNER, OTHER])) {
        let (yard, before) = states(&entries);
        let when = at("2026-02-01T07:00");
        prop_assume!(!yard.role_on(by, &machine(), when).leads() && !yard.role_at(by, when).leads());
        let mut more = entries;
        let n = more.len() as u64 + 1;
        let correction = Correction { of, instead: instead.map(Box::new), why: String::new() };
        more.push(entry(n, Some(machine()), by, when, Body::Correction(correction)));
        let (_, after) = states(&more);
        let measured = |what: &Found| matches!(what, Found::Answer(answered) if matches!(answered.answer, Answer::Measure { .. }));
        for finding in before.findings.values().filter(|finding| !measured(&finding.what)) {
            prop_assert!(after.findings.contains_key(&finding.id), "{:?}", finding);
        }
    }
}
