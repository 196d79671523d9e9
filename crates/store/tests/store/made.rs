//! Made-up entries, by number and by chance.

use jiff::{Timestamp, civil::Date};
use proptest::{collection::vec, option, prelude::*, sample::select};
use quantity::{Habits, Quantity, parse};
use store::{NewEntry, Yard, write_entry};
use uuid::Uuid;
use yard::{
    book::{LeakClass, OilHeat, Severity},
    code::Coded,
    entry::*,
    id::*,
    people::ROLES,
};

/// A plain note, the `n`th, with its own id.
pub(crate) fn note(yard: &Yard, n: u128, text: &str) -> Vec<u8> {
    let body = Body::Note(Note {
        point: None,
        text: text.to_owned(),
    });
    write_entry(&entry(yard.id(), n, body))
}

/// The `n`th entry of a yard: an invented person, a minute after the one before.
pub(crate) fn entry(yard: YardId, n: u128, body: Body) -> NewEntry {
    NewEntry {
        id: EntryId(id(n)),
        yard,
        machine: MachineId::new("digger"),
        at: time(n as i64 * 60_000),
        by: PersonId(id(7)),
        device: DeviceId("phone é".to_owned()),
        counter: n as u64,
        body,
    }
}

/// A UUIDv7 that only tests make.
pub(crate) fn id(n: u128) -> Uuid {
    Uuid::from_u128(0x018f_0000_0000_7000_8000_0000_0000_0000 + n)
}

/// So many milliseconds after the beginning of 2024.
pub(crate) fn time(ms: i64) -> Timestamp {
    Timestamp::from_millisecond(1_704_067_200_000 + ms).unwrap()
}

/// A quantity as written by somebody with points for decimals.
pub(crate) fn written(text: &str) -> Quantity {
    parse(text, &Habits::default(), None).unwrap()
}

/// A quantity as written by somebody with commas for decimals.
pub(crate) fn written_comma(text: &str) -> Quantity {
    parse(
        text,
        &Habits {
            decimal_comma: true,
        },
        None,
    )
    .unwrap()
}

/// Every kind with a strategy for its bodies.
pub(crate) fn bodies() -> Vec<(&'static str, BoxedStrategy<Body>)> {
    let mut kinds = plain_bodies();
    let any_plain =
        proptest::strategy::Union::new(plain_bodies().into_iter().map(|(_, body)| body));
    let correction = (uuid(), option::of(any_plain), text()).prop_map(|(of, instead, why)| {
        Body::Correction(Correction {
            of: EntryId(of),
            instead: instead.map(Box::new),
            why,
        })
    });
    kinds.push(("correction", correction.boxed()));
    kinds
}

#[rustfmt::skip]
fn plain_bodies() -> Vec<(&'static str, BoxedStrategy<Body>)> {
    vec![
        ("book-adopted", (text(), maybe(text())).prop_map(|(text, why)| Body::BookAdopted(BookAdopted { text, why })).boxed()),
        ("gap-accepted", (text(), text()).prop_map(|(gap, why)| Body::GapAccepted(GapAccepted { gap, why })).boxed()),
        ("meter-reading", (maybe(item()), quantity()).prop_map(|(meter, shows)| Body::MeterReading(MeterReading { meter, shows })).boxed()),
        ("meter-broken", (maybe(item()), maybe(any::<u32>()), text())
            .prop_map(|(meter, since, why)| Body::MeterBroken(MeterBroken { meter, since: since.map(|ms| time(i64::from(ms))), why })).boxed()),
        ("hours-told", quantity().prop_map(|ran| Body::HoursTold(HoursTold { ran })).boxed()),
        ("meter-change", (maybe(item()), maybe(quantity()), quantity(), maybe(quantity()), text())
            .prop_map(|(meter, old_last, new_first, unmetered, why)| Body::MeterChange(MeterChange { meter, old_last, new_first, unmetered, why })).boxed()),
        ("ruling", (uuid(), ruling(), text()).prop_map(|(about, says, why)| Body::Ruling(Ruling { about: EntryId(about), says, why })).boxed()),
        ("walk-round", walk_round().boxed()),
        ("run", (select(vec![RunPart::Start, RunPart::During, RunPart::End]), maybe(quantity()), maybe(text()), vec(text(), 0..3), maybe(uuid()))
            .prop_map(|(part, hours, work, amiss, sight)| Body::Run(Run { part, hours, work, amiss, in_sight_of: sight.map(PersonId) })).boxed()),
        ("greasing", (vec(answered(), 0..4), faults()).prop_map(|(fittings, mends)| Body::Greasing(Greasing { fittings, mends })).boxed()),
        ("top-up", (maybe(item()), quantity(), maybe(text()), faults())
            .prop_map(|(fluid, added, grade, mends)| Body::TopUp(TopUp { fluid, added, grade, mends })).boxed()),
        ("adjustment", (maybe(point()), text(), maybe(item()), faults())
            .prop_map(|(point, what, event, mends)| Body::Adjustment(Adjustment { point, what, event, mends })).boxed()),
        ("fault", (maybe(point()), text(), select(vec![Severity::Note, Severity::Care, Severity::StandDown]), maybe(select(vec![Told::Named, Told::Unnamed])))
            .prop_map(|(point, what, severity, told)| Body::Fault(Fault { point, what, severity, told })).boxed()),
        ("repair", (faults(), text(), maybe(text()), maybe(item()), maybe(cause()))
            .prop_map(|(mends, what, cost, event, cause)| Body::Repair(Repair { mends, what, cost, event, cause })).boxed()),
        ("stand-down", text().prop_map(|why| Body::StandDown(StandDown { why })).boxed()),
        ("release", (faults(), text()).prop_map(|(lifts, mended)| Body::Release(Release { lifts, mended })).boxed()),
        ("move-permit", (uuid(), quantity(), any_time(), text())
            .prop_map(|(who, how_far, until, how)| Body::MovePermit(MovePermit { who: PersonId(who), how_far, until, how })).boxed()),
        ("handover", handover().boxed()),
        ("part-fitted", (maybe(item()), text(), maybe(point()), maybe(item()), maybe(text()), maybe(any::<u32>()))
            .prop_map(|(part, what, point, event, cost, count)| Body::PartFitted(PartFitted { part, what, point, event, cost, count })).boxed()),
        ("purchase", (text(), maybe(text()), maybe(item()), maybe(point()), maybe(any::<u32>()))
            .prop_map(|(what, cost, part, point, count)| Body::Purchase(Purchase { what, cost, part, point, count })).boxed()),
        ("shelf-count", (item(), any::<u32>()).prop_map(|(part, count)| Body::ShelfCount(ShelfCount { part, count })).boxed()),
        ("attachment", (slug(), any::<bool>(), maybe(text())).prop_map(|(id, fitted, note)| {
            Body::Attachment(AttachmentChange { attachment: MachineId::new(&id).unwrap(), fitted, note })
        }).boxed()),
        ("document", document().boxed()),
        ("document-ended", (uuid(), text()).prop_map(|(of, why)| Body::DocumentEnded(DocumentEnded { of: EntryId(of), why })).boxed()),
        ("left-yard", (select(LeftHow::ALL.to_vec()), maybe(day()), maybe(text()), maybe(quantity()), maybe(text()))
            .prop_map(|(how, on, to, hours, note)| Body::LeftYard(LeftYard { how, on, to, hours, note })).boxed()),
        ("came-back", text().prop_map(|why| Body::CameBack(CameBack { why })).boxed()),
        ("arrival", (select(ArrivalStep::ALL.to_vec()), maybe(item()), maybe(select(FluidNow::ALL.to_vec())), maybe(any::<u32>()), maybe(text()))
            .prop_map(|(step, about, fluid, count, says)| Body::Arrival(Arrival { step, about, fluid, count, says })).boxed()),
        ("lesson", (uuid(), text()).prop_map(|(person, what)| Body::Lesson(Lesson { person: PersonId(person), what })).boxed()),
        ("sign-off", (uuid(), any::<bool>(), maybe(day()), maybe(text()), any::<bool>())
            .prop_map(|(person, given, until, limits, in_sight)| Body::SignOff(SignOff { person: PersonId(person), given, until, limits, in_sight })).boxed()),
        ("note", (maybe(point()), text()).prop_map(|(point, text)| Body::Note(Note { point, text })).boxed()),
        ("photo", (uuid(), maybe(fault()), maybe(point()), maybe(text()))
            .prop_map(|(photo, of, point, text)| Body::Photo(PhotoNote { photo: PhotoId(photo), of, point, text })).boxed()),
        ("access", (select(AccessWhat::ALL.to_vec()), maybe(uuid()), maybe(text()))
            .prop_map(|(what, of, note)| Body::Access(Access { what, of: of.map(PersonId), note })).boxed()),
        ("role-given", (uuid(), maybe(select(ROLES.to_vec())), vec(slug(), 0..3)).prop_map(|(person, role, machines)| {
            let machines = machines.iter().map(|machine| MachineId::new(machine).unwrap()).collect();
            Body::RoleGiven(RoleGiven { person: PersonId(person), role, machines })
        }).boxed()),
    ]
}

fn cause() -> impl Strategy<Value = Cause> {
    prop_oneof![
        text().prop_map(Cause::Found),
        text().prop_map(Cause::NotFound)
    ]
}

fn document() -> impl Strategy<Value = Body> {
    let texts = (text(), maybe(text()), maybe(text()), maybe(text()));
    let days = (maybe(day()), maybe(day()));
    let named = (maybe(item()), maybe(uuid()), vec(uuid(), 0..3));
    (select(DocumentKind::ALL.to_vec()), texts, days, named).prop_map(
        |(what, (title, number, kept, note), (from, until), (of_book, renews, photos))| {
            Body::Document(Document {
                what,
                title,
                number,
                from,
                until,
                kept,
                note,
                of_book,
                renews: renews.map(EntryId),
                photos: photos.into_iter().map(PhotoId).collect(),
            })
        },
    )
}

fn walk_round() -> impl Strategy<Value = Body> {
    let purpose = select(vec![
        RoundPurpose::Start,
        RoundPurpose::Relief,
        RoundPurpose::After,
    ]);
    let closes = (text(), vec(text(), 0..3), uuid(), text()).prop_map(
        |(verdict, reasons, book, program)| Evidence {
            verdict,
            reasons,
            book: EntryId(book),
            program,
        },
    );
    let parts = (
        uuid(),
        uuid(),
        purpose,
        any::<bool>(),
        vec(answered(), 0..5),
        maybe(quantity()),
        maybe(closes),
        maybe(text()),
    );
    parts.prop_map(
        |(round, book, purpose, from_paper, answers, hours, closes, no_photo)| {
            let (round, book) = (RoundId(round), EntryId(book));
            Body::WalkRound(WalkRound {
                round,
                book,
                purpose,
                from_paper,
                answers,
                hours,
                closes,
                no_photo,
            })
        },
    )
}

fn handover() -> impl Strategy<Value = Body> {
    let engine = select(vec![
        EngineLeft::Off,
        EngineLeft::Running,
        EngineLeft::NotSaid,
    ]);
    let state = select(vec![
        RestState::Proven,
        RestState::Done,
        RestState::NotDone,
        RestState::OnLock,
    ]);
    let step = (item(), state, maybe(text())).prop_map(|(step, state, note)| RestAnswer {
        step,
        state,
        note,
    });
    (
        uuid(),
        maybe(quantity()),
        engine,
        vec(step, 0..4),
        maybe(text()),
    )
        .prop_map(|(book, hours, engine, steps, next)| {
            Body::Handover(Handover {
                book: EntryId(book),
                hours,
                engine,
                steps,
                next,
            })
        })
}

fn ruling() -> impl Strategy<Value = RulingSays> {
    prop_oneof![
        maybe(quantity()).prop_map(|unmetered| RulingSays::MeterReplaced { unmetered }),
        select(vec![
            RulingSays::MeterRolledOver,
            RulingSays::MeterBroken,
            RulingSays::ReadingWrong,
            RulingSays::ReadingRight,
            RulingSays::Answered
        ]),
    ]
}

fn answered() -> impl Strategy<Value = Answered> {
    (point(), answer(), maybe(text()), vec(uuid(), 0..3)).prop_map(
        |(point, answer, note, photos)| Answered {
            point,
            answer,
            note,
            photos: photos.into_iter().map(PhotoId).collect(),
        },
    )
}

#[rustfmt::skip]
fn answer() -> impl Strategy<Value = Answer> {
    let reads = select(vec![LevelReads::Nothing, LevelReads::Below, LevelReads::AtMark, LevelReads::TooFull]);
    let oil = maybe(select(vec![OilHeat::Cold, OilHeat::Warm, OilHeat::Hot, OilHeat::Any]));
    let looks = select(vec![FluidLooks::Clean, FluidLooks::Dark, FluidLooks::Milky, FluidLooks::Wrong]);
    let took = select(vec![GreaseTook::Seen, GreaseTook::Took, GreaseTook::Refused]);
    let bolts = select(vec![BoltState::Tight, BoltState::StripeTurned, BoltState::Loose, BoltState::Missing]);
    let reading = prop_oneof![
        quantity().prop_map(Reading::Value),
        (maybe(quantity()), maybe(quantity())).prop_map(|(over, under)| Reading::Between { over, under }),
    ];
    prop_oneof![
        (reads, maybe(item()), oil, looks).prop_map(|(reads, pose, oil, looks)| Answer::Level { reads, pose, oil, looks }),
        (took, maybe(any::<u32>())).prop_map(|(took, strokes)| Answer::Fitting { took, strokes }),
        select(vec![ClipState::Present, ClipState::Loose, ClipState::Missing]).prop_map(Answer::PinClip),
        (bolts, any::<u32>()).prop_map(|(state, how_many)| Answer::Bolts { state, how_many }),
        (vec(reading, 0..3), maybe(any::<bool>()), maybe(any::<bool>()))
            .prop_map(|(readings, by_method, condition_held)| Answer::Measure { readings, by_method, condition_held }),
        maybe(select(vec![LeakClass::I, LeakClass::II, LeakClass::III])).prop_map(Answer::Leak),
        select(vec![HoseState::Sound, HoseState::Rubbed, HoseState::WornThrough, HoseState::Bulged]).prop_map(Answer::Hose),
        select(vec![StructureState::Sound, StructureState::Bent, StructureState::Cracked, StructureState::RustInCrack]).prop_map(Answer::Structure),
        select(vec![FunctionState::Works, FunctionState::Weak, FunctionState::Fails]).prop_map(Answer::Function),
        select(vec![LookState::Well, LookState::Worn, LookState::Damaged, LookState::Missing]).prop_map(Answer::Look),
        (vec(maybe(any::<bool>()), 0..4), any::<bool>()).prop_map(|(cranked, bypassed)| Answer::Crank { cranked, bypassed }),
        select(vec![Hindrance::OutOfReach, Hindrance::CannotSee, Hindrance::NoTool, Hindrance::NotSafe, Hindrance::DoesNotKnowHow, Hindrance::NotFound, Hindrance::Other])
            .prop_map(|because| Answer::NotChecked(NotChecked { because })),
    ]
}

fn quantity() -> impl Strategy<Value = Quantity> {
    let points = [
        "2 1/8 in",
        "2 in ± 1/16 in",
        "¾ in",
        "6 ft 2 in",
        "3124.5 h",
        "12.5 L",
        "180 bar",
        "-3 °C",
        "0.05 mm",
        "1.2 t",
    ];
    let commas = ["12,5 L", "3124,5 h", "0,05 mm"];
    prop_oneof![
        select(points.to_vec()).prop_map(written),
        select(commas.to_vec()).prop_map(written_comma)
    ]
}

fn maybe<S: Strategy>(of: S) -> impl Strategy<Value = Option<S::Value>> {
    option::of(of)
}

fn text() -> impl Strategy<Value = String> {
    prop_oneof![any::<String>(), "[ -~é½✓\n\t\"\\\\]{0,40}"]
}

fn uuid() -> impl Strategy<Value = Uuid> {
    any::<u128>().prop_map(Uuid::from_u128)
}

fn slug() -> impl Strategy<Value = String> {
    "[a-z0-9][a-z0-9-]{0,20}"
}

fn point() -> impl Strategy<Value = PointId> {
    slug().prop_map(|slug| PointId::new(&slug).unwrap())
}

fn item() -> impl Strategy<Value = ItemId> {
    slug().prop_map(|slug| ItemId::new(&slug).unwrap())
}

fn fault() -> impl Strategy<Value = FaultRef> {
    (uuid(), maybe(point())).prop_map(|(entry, point)| FaultRef {
        entry: EntryId(entry),
        point,
    })
}

fn faults() -> impl Strategy<Value = Vec<FaultRef>> {
    vec(fault(), 0..3)
}

fn any_time() -> impl Strategy<Value = Timestamp> {
    (-10_000_000_000_000_i64..10_000_000_000_000)
        .prop_map(|us| Timestamp::from_microsecond(us * 100).unwrap())
}

fn day() -> impl Strategy<Value = Date> {
    (1900_i16..2200, 1_i8..=12, 1_i8..=28)
        .prop_map(|(year, month, day)| Date::new(year, month, day).unwrap())
}
