//! The shelf, the shopping list, attachments, documents, leaving: what the journal makes of them.
#![allow(clippy::unwrap_used)]

mod small_yard;

use jiff::Timestamp;
use quantity::Habits;
use small_yard::*;
use yard::{
    entry::*,
    handover::{Situation, Verdict, judge},
    id::{EntryId, MachineId, PersonId},
    state::{Asks, MachineState, Standing, fold_machine},
    upkeep::{Ahead, next_due, shopping},
    walkround::plan,
};

/// The loader's book with parts: a belt of a point that is due by days, and clips kept on the shelf.
fn with_parts() -> SmallYard {
    let due = "[[point]]\nid = \"belt-look\"\nstation = \"front\"\nkind = \"look\"\nabout = \"other\"\nwhat = \"Belt\"\nrhythm = \"every 90 days\"\n";
    let parts = "[[part]]\nid = \"belt\"\nwhat = \"Fan belt\"\nkind = \"belt\"\ncount = 2\npoints = [\"belt-look\"]\n\
                 [[part]]\nid = \"clip\"\nwhat = \"Split pin\"\nkind = \"clip\"\nkeep = 6\n";
    SmallYard::with_book(&format!("{BOOK}\n{due}{parts}"))
}

fn count(part: &str, count: u32) -> Body {
    Body::ShelfCount(ShelfCount {
        part: item(part),
        count,
    })
}

fn bought(part: Option<&str>, count: Option<u32>) -> Body {
    Body::Purchase(Purchase {
        what: "from the shop".into(),
        cost: None,
        part: part.map(item),
        point: None,
        count,
    })
}

fn fitted(part: &str, count: Option<u32>) -> Body {
    Body::PartFitted(PartFitted {
        part: Some(item(part)),
        what: "fitted".into(),
        point: None,
        event: None,
        cost: None,
        count,
    })
}

fn shelf(yard: &SmallYard, part: &str) -> Option<(u32, bool)> {
    let state = yard.fold();
    state
        .shelf
        .get(&item(part))
        .map(|shelf| (shelf.count, shelf.short))
}

#[test]
fn the_shelf_adds_takes_away_and_is_set_by_counting() {
    let mut yard = with_parts();
    yard.says(OPERATOR, "2026-03-01T07:00", fitted("clip", Some(2)));
    assert_eq!(shelf(&yard, "clip"), None, "never counted");
    yard.says(OPERATOR, "2026-03-02T07:00", count("clip", 4));
    yard.says(DEPUTY, "2026-03-03T07:00", bought(Some("clip"), Some(10)));
    yard.says(OPERATOR, "2026-03-04T07:00", fitted("clip", None));
    yard.says(OPERATOR, "2026-03-05T07:00", fitted("clip", Some(3)));
    assert_eq!(shelf(&yard, "clip"), Some((10, false)));
    yard.says(DEPUTY, "2026-03-06T07:00", bought(None, None));
    assert_eq!(shelf(&yard, "clip"), Some((10, false)));
    yard.says(OPERATOR, "2026-03-07T07:00", fitted("clip", Some(12)));
    assert_eq!(shelf(&yard, "clip"), Some((0, true)), "more than lay there");
    yard.says(OPERATOR, "2026-03-08T07:00", count("clip", 3));
    assert_eq!(shelf(&yard, "clip"), Some((3, false)));
}

#[test]
fn whoever_may_not_count_is_asked_about() {
    let mut yard = with_parts();
    yard.says(VISITOR, "2026-03-02T07:00", count("clip", 4));
    assert_eq!(shelf(&yard, "clip"), None);
    assert_eq!(yard.fold().questions.len(), 1);
}

#[test]
fn the_list_has_what_is_due_and_what_is_low() {
    let mut yard = with_parts();
    let list = |yard: &SmallYard, now: &str, days: u32| {
        yard.sees(STEWARD, now, |situation| {
            let list = shopping(situation, &Ahead { hours: 0, days });
            list.into_iter()
                .map(|line| (line.part.to_string(), line.have, line.buy, line.low))
                .collect::<Vec<_>>()
        })
    };
    let belt = |have, buy| ("belt".to_owned(), have, buy, false);
    let clip = |have, buy| ("clip".to_owned(), have, buy, true);
    // Never done is due; two belts and six clips, none counted.
    assert_eq!(
        list(&yard, "2026-03-01T07:00", 0),
        [belt(None, 2), clip(None, 6)]
    );
    yard.says(OPERATOR, "2026-03-01T08:00", count("clip", 4));
    yard.says(OPERATOR, "2026-03-01T08:00", count("belt", 1));
    assert_eq!(
        list(&yard, "2026-03-02T07:00", 0),
        [belt(Some(1), 1), clip(Some(4), 2)]
    );
    yard.says(DEPUTY, "2026-03-02T08:00", bought(Some("belt"), None));
    yard.says(DEPUTY, "2026-03-02T08:00", bought(Some("clip"), Some(2)));
    assert_eq!(list(&yard, "2026-03-02T09:00", 0), []);
}

fn put(on: bool) -> Body {
    Body::Attachment(AttachmentChange {
        attachment: MachineId::new("narrow-bucket").unwrap(),
        fitted: on,
        note: None,
    })
}

#[test]
fn an_attachment_is_on_whoever_put_it_on_and_off_by_who_may() {
    let mut yard = SmallYard::new();
    yard.says(VISITOR, "2026-03-02T07:00", put(true));
    assert_eq!(yard.fold().fitted.len(), 1);
    assert_eq!(yard.fold().questions.len(), 1);
    yard.says(LEARNER, "2026-03-02T08:00", put(false));
    assert_eq!(
        yard.fold().fitted.len(),
        1,
        "a learner does not take it off"
    );
    yard.says(OPERATOR, "2026-03-02T09:00", put(false));
    assert!(yard.fold().fitted.is_empty());
}

fn document(what: DocumentKind, until: Option<&str>, of_book: bool) -> Document {
    Document {
        what,
        title: "Lifting eye".into(),
        number: Some("0042917".into()),
        from: None,
        until: until.map(|day| day.parse().unwrap()),
        kept: None,
        note: None,
        of_book: of_book.then(|| item("lifting-eye")),
        renews: None,
        photos: vec![],
    }
}

#[test]
fn a_document_holds_through_its_last_day_and_is_renewed_by_name() {
    let mut yard = SmallYard::new();
    let report = document(DocumentKind::TestReport, Some("2026-04-30"), true);
    yard.says(DEPUTY, "2026-03-01T07:00", Body::Document(report.clone()));
    assert!(
        yard.fold().documents.is_empty(),
        "a needed one is the steward's"
    );
    let first = yard.says(STEWARD, "2026-03-01T08:00", Body::Document(report.clone()));
    let standing = |yard: &SmallYard, day: &str| {
        let documents = yard.fold().documents;
        documents
            .iter()
            .map(|kept| kept.standing(day.parse().unwrap()))
            .collect::<Vec<_>>()
    };
    assert_eq!(standing(&yard, "2026-03-30"), [Standing::Holds]);
    assert_eq!(standing(&yard, "2026-03-31"), [Standing::EndsSoon]);
    assert_eq!(standing(&yard, "2026-04-30"), [Standing::EndsSoon]);
    assert_eq!(standing(&yard, "2026-05-01"), [Standing::Expired]);
    let renewed = Document {
        from: Some("2026-05-01".parse().unwrap()),
        until: Some("2027-04-30".parse().unwrap()),
        renews: Some(first),
        ..report
    };
    yard.says(STEWARD, "2026-04-20T08:00", Body::Document(renewed));
    assert_eq!(
        standing(&yard, "2026-05-01"),
        [Standing::Ended, Standing::Holds]
    );
    assert_eq!(
        standing(&yard, "2026-04-29"),
        [Standing::Ended, Standing::NotYet]
    );
}

#[test]
fn a_recall_is_open_until_the_steward_says_what_was_done() {
    let mut yard = SmallYard::new();
    let recall = Body::Document(document(DocumentKind::Recall, None, false));
    let of = yard.says(DEPUTY, "2026-03-01T08:00", recall);
    let rules = |yard: &SmallYard| {
        yard.sees(STEWARD, "2026-03-02T07:00", |situation| {
            let reasons = judge(situation).reasons;
            reasons.iter().any(|reason| reason.rule == "open-recall")
        })
    };
    let ended = |why: &str| {
        Body::DocumentEnded(DocumentEnded {
            of,
            why: why.into(),
        })
    };
    assert!(rules(&yard));
    yard.says(DEPUTY, "2026-03-01T09:00", ended("looked at it"));
    assert!(rules(&yard), "the deputy does not answer it");
    yard.says(STEWARD, "2026-03-01T10:00", ended("hub replaced"));
    assert!(!rules(&yard));
}

#[test]
fn documents_of_the_yard_are_kept_by_the_yard() {
    let mut yard = SmallYard::new();
    let insurance = document(DocumentKind::Insurance, Some("2026-12-31"), false);
    yard.yard_says(
        DEPUTY,
        "2026-03-01T08:00",
        Body::Document(insurance.clone()),
    );
    yard.yard_says(LEARNER, "2026-03-01T09:00", Body::Document(insurance));
    let state = yard.yard();
    assert_eq!(state.documents.len(), 1);
    assert_eq!(state.questions.len(), 1);
    assert!(yard.fold().documents.is_empty());
}

#[test]
fn a_machine_that_left_takes_no_rounds_until_it_comes_back() {
    let mut yard = with_parts();
    let left = LeftYard {
        how: LeftHow::Sold,
        on: None,
        to: Some("a farmer up the valley".into()),
        hours: Some(q("820 h")),
        note: None,
    };
    yard.says(DEPUTY, "2026-03-01T07:00", Body::LeftYard(left.clone()));
    assert_eq!(yard.fold().left, None, "only the steward lets it go");
    yard.says(STEWARD, "2026-03-01T08:00", Body::LeftYard(left));
    let sees = |yard: &SmallYard| {
        yard.sees(STEWARD, "2026-03-02T07:00", |situation| {
            let judged = judge(situation);
            (
                judged.verdict,
                judged
                    .reasons
                    .iter()
                    .any(|reason| reason.rule == "left-yard"),
                plan(situation, RoundPurpose::Start).is_some(),
                next_due(situation).is_empty(),
                shopping(situation, &Ahead::default()).is_empty(),
            )
        })
    };
    assert_eq!(sees(&yard), (Verdict::StandDown, true, false, true, true));
    let back = Body::CameBack(CameBack {
        why: "not paid for".into(),
    });
    yard.says(STEWARD, "2026-03-01T09:00", back);
    assert_eq!(sees(&yard), (Verdict::StandDown, false, true, false, false));
}

#[test]
fn a_recall_does_not_give_way_to_another_document_and_only_the_steward_strikes_it_out() {
    let mut yard = SmallYard::new();
    let recall = Body::Document(document(DocumentKind::Recall, None, false));
    let of = yard.says(STEWARD, "2026-03-01T08:00", recall);
    let instead = Document {
        renews: Some(of),
        ..document(DocumentKind::Manual, None, false)
    };
    let open = |yard: &SmallYard| {
        yard.sees(STEWARD, "2026-03-02T07:00", |situation| {
            let reasons = judge(situation).reasons;
            reasons.iter().any(|reason| reason.rule == "open-recall")
        })
    };
    yard.says(DEPUTY, "2026-03-01T09:00", Body::Document(instead));
    assert!(open(&yard));
    yard.corrects(DEPUTY, "2026-03-01T10:00", of, None);
    assert!(
        open(&yard),
        "what is the steward's is not the deputy's to unsay"
    );
    yard.corrects(STEWARD, "2026-03-01T11:00", of, None);
    assert!(!open(&yard));
}

#[test]
fn what_was_amiss_at_the_end_of_a_run_is_a_finding() {
    let mut yard = SmallYard::new();
    let run = |amiss: &[&str]| {
        Body::Run(Run {
            part: RunPart::End,
            hours: None,
            work: None,
            amiss: amiss.iter().map(|text| (*text).to_owned()).collect(),
            in_sight_of: None,
        })
    };
    yard.says(OPERATOR, "2026-03-01T08:00", run(&[" "]));
    assert!(yard.fold().findings.is_empty());
    let of = yard.says(OPERATOR, "2026-03-01T09:00", run(&["brake did not hold"]));
    assert_eq!(yard.fold().findings.len(), 1);
    yard.corrects(OPERATOR, "2026-03-01T10:00", of, Some(run(&[])));
    assert_eq!(
        yard.fold().findings.len(),
        1,
        "its author alone does not unsay it"
    );
}

#[test]
fn a_machine_that_came_back_is_walked_round_anew() {
    let mut yard = SmallYard::new();
    yard.closes(STEWARD, "2026-03-01T06:00", 1, vec![]);
    let not_walked = |yard: &SmallYard| {
        yard.sees(STEWARD, "2026-03-01T10:00", |situation| {
            let reasons = judge(situation).reasons;
            reasons.iter().any(|reason| reason.rule == "not-walked")
        })
    };
    assert!(!not_walked(&yard));
    let left = LeftYard {
        how: LeftHow::Sold,
        on: None,
        to: None,
        hours: None,
        note: None,
    };
    yard.says(STEWARD, "2026-03-01T07:00", Body::LeftYard(left));
    yard.closes(STEWARD, "2026-03-01T08:00", 2, vec![]);
    let why = "not paid for".into();
    yard.says(
        STEWARD,
        "2026-03-01T09:00",
        Body::CameBack(CameBack { why }),
    );
    assert!(not_walked(&yard), "neither round says how it stands now");
    yard.closes(STEWARD, "2026-03-01T09:30", 3, vec![]);
    assert!(!not_walked(&yard));
}

/// The loader's book that takes the narrow bucket; the bucket has a book and a history of its own.
fn with_bucket() -> SmallYard {
    let taken =
        "[[attachment]]\nid = \"narrow-bucket\"\nlocks = \"Both pins through, clips seen\"\n";
    SmallYard::with_book(&format!("{BOOK}\n{taken}"))
}

fn on_machine(yard: &mut SmallYard, machine: &str, by: PersonId, when: &str, body: Body) {
    let n = yard.entries.len() as u64 + 1;
    let machine = MachineId::new(machine);
    yard.entries.push(entry(n, machine, by, at(when), body));
}

fn fold_of(yard: &SmallYard, machine: &str) -> MachineState {
    let id = MachineId::new(machine).unwrap();
    fold_machine(&id, &yard.entries, &yard.yard(), &Habits::default())
}

#[test]
fn an_attachment_hangs_in_one_place_the_one_said_last() {
    let mut yard = with_bucket();
    yard.says(OPERATOR, "2026-03-02T07:00", put(true));
    let put_elsewhere = put(true);
    on_machine(
        &mut yard,
        "digger",
        OPERATOR,
        "2026-03-03T07:00",
        put_elsewhere,
    );
    assert!(yard.fold().fitted.is_empty(), "it came off the loader");
    let digger = fold_of(&yard, "digger");
    assert_eq!(digger.fitted.len(), 1);
    let asked: Vec<&Asks> = digger.asked().map(|question| &question.asks).collect();
    let (attachment, from) = (MachineId::new("narrow-bucket").unwrap(), machine());
    assert_eq!(asked, [&Asks::AttachmentMoved { attachment, from }]);
    assert_eq!(yard.fold().asked().count(), 0);
    // Whoever may not take it off there puts it on here besides.
    yard.says(VISITOR, "2026-03-04T07:00", put(true));
    assert_eq!(yard.fold().fitted.len(), 1);
    assert_eq!(fold_of(&yard, "digger").fitted.len(), 1);
}

#[test]
fn what_went_with_a_sold_machine_is_not_asked_about() {
    let mut yard = with_bucket();
    on_machine(&mut yard, "digger", OPERATOR, "2026-03-02T07:00", put(true));
    let left = LeftYard {
        how: LeftHow::Sold,
        on: None,
        to: None,
        hours: None,
        note: None,
    };
    let sold = Body::LeftYard(left);
    on_machine(&mut yard, "digger", STEWARD, "2026-03-02T08:00", sold);
    assert_eq!(fold_of(&yard, "digger").fitted.len(), 1, "sold with it");
    yard.says(OPERATOR, "2026-03-03T07:00", put(true));
    assert_eq!(yard.fold().fitted.len(), 1);
    assert_eq!(yard.fold().asked().count(), 0);
}

#[test]
fn an_attachment_that_the_book_does_not_name_is_on_and_asked_about() {
    let mut yard = SmallYard::new();
    let entry = yard.says(OPERATOR, "2026-03-02T07:00", put(true));
    let state = yard.fold();
    assert_eq!(state.fitted.len(), 1);
    let attachment = MachineId::new("narrow-bucket").unwrap();
    assert_eq!(
        state.questions[&entry].asks,
        Asks::AttachmentNotTaken { attachment }
    );
}

/// What the loader's verdict says of the bucket on it, and until when the verdict holds.
fn of_the_bucket(yard: &SmallYard, now: &str) -> (Vec<&'static str>, Option<Timestamp>) {
    let (state, yards) = (yard.fold(), yard.yard());
    let bucket = MachineId::new("narrow-bucket").unwrap();
    let others =
        std::collections::BTreeMap::from([(bucket.clone(), fold_of(yard, "narrow-bucket"))]);
    let judged = judge(&Situation {
        machine: &state,
        yard: &yards,
        person: OPERATOR,
        now: at(now),
        zone: &yard.zone,
        habits: &yard.habits,
        others: &others,
    });
    let of_bucket = judged.reasons.iter().filter(|one| one.rule == "attachment");
    (
        of_bucket.map(|one| one.what.code()).collect(),
        judged.holds.until,
    )
}

const BUCKET: &str = "kingpost = 1\n[machine]\nid = \"narrow-bucket\"\nname = \"Narrow bucket\"\nkind = \"bucket\"\ninvented = true\nwithout = [\"engine\", \"seat-belt\", \"starter\"]\n[ground]\non = \"another-machine\"\n[[station]]\nid = \"ears\"\nname = \"Ears\"\nat = [0, 0]\n[[point]]\nid = \"ear-clips\"\nstation = \"ears\"\nkind = \"pin-clip\"\nwhat = \"Clips of the pins\"\nrhythm = \"every start\"\n";

/// A round of the bucket, closed, that sees its clips.
fn bucket_walked(yard: &mut SmallYard, when: &str, n: u64, book: EntryId) {
    let clips = Answer::PinClip(ClipState::Present);
    let Body::WalkRound(mut round) = yard.walk_body(n, vec![("ear-clips", clips)], None) else {
        unreachable!("a round")
    };
    round.book = book;
    round.closes = Some(Evidence {
        verdict: "fit".into(),
        reasons: vec![],
        book,
        program: "test".into(),
    });
    let body = Body::WalkRound(round);
    on_machine(yard, "narrow-bucket", OPERATOR, when, body);
}

#[test]
fn a_putting_on_asks_for_a_new_round_of_the_attachment_and_its_end_is_the_carriers() {
    let mut yard = with_bucket();
    let book = entry_id(yard.entries.len() as u64 + 1);
    let adopted = Body::BookAdopted(BookAdopted {
        text: BUCKET.into(),
        why: None,
    });
    on_machine(
        &mut yard,
        "narrow-bucket",
        STEWARD,
        "2026-03-01T07:00",
        adopted,
    );
    bucket_walked(&mut yard, "2026-03-02T06:00", 11, book);
    yard.says(OPERATOR, "2026-03-02T07:00", put(true));
    let (says, _) = of_the_bucket(&yard, "2026-03-02T08:00");
    assert_eq!(says, ["attachment-stands-down"], "seen before it hung here");
    bucket_walked(&mut yard, "2026-03-02T07:30", 12, book);
    let (says, _) = of_the_bucket(&yard, "2026-03-02T08:00");
    assert_eq!(says, Vec::<&str>::new());
    yard.closes(OPERATOR, "2026-03-02T09:00", 1, vec![]);
    let (_, until) = of_the_bucket(&yard, "2026-03-02T09:30");
    let hours = i64::from(yard.habits.round_holds_hours);
    let of_bucket = at("2026-03-02T07:30") + jiff::SignedDuration::from_hours(hours);
    assert_eq!(until, Some(of_bucket), "the bucket's round ends first");
}

#[test]
fn papers_for_one_need_count_only_as_far_as_no_day_lies_between() {
    let needed = "[[document]]\nid = \"lifting-eye\"\nwhat = \"test-report\"\ntitle = \"Report of the lifting eye\"\nneeded = true\n";
    let mut yard = SmallYard::with_book(&format!("{BOOK}\n{needed}"));
    let report = |from: Option<&str>, until: &str| {
        Body::Document(Document {
            from: from.map(|day| day.parse().unwrap()),
            ..document(DocumentKind::TestReport, Some(until), true)
        })
    };
    yard.says(STEWARD, "2026-01-02T07:00", report(None, "2026-03-02"));
    let later = report(Some("2026-03-05"), "2027-03-04");
    yard.says(STEWARD, "2026-01-02T08:00", later);
    yard.habits.round_holds_hours = 240;
    yard.closes(STEWARD, "2026-03-01T07:00", 1, vec![]);
    let until = |yard: &SmallYard| {
        yard.sees(STEWARD, "2026-03-01T08:00", |situation| {
            judge(situation).holds.until
        })
    };
    let midnight = at("2026-03-03T00:00");
    assert_eq!(until(&yard), Some(midnight), "two days nobody covers");
    let between = report(Some("2026-03-03"), "2026-03-04");
    yard.says(STEWARD, "2026-01-02T09:00", between);
    assert_eq!(
        until(&yard),
        Some(at("2026-03-11T07:00")),
        "the round's own end"
    );
}
