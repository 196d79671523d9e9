//! The yard's own fold: people with their roles, lessons and machines; what the yard's entries leave open.

use super::{
    super::{Asks, Question, YardState},
    corrections::{self, Corrected, Heard, RoleOf},
    kept,
    order::in_order,
    roles::roles,
    rulings,
};
use crate::{
    entry::{Body, Entry},
    id::{EntryId, MachineId, PersonId},
    people::Deed,
};
use jiff::Timestamp;
use std::collections::{BTreeMap, BTreeSet};

/// Folds the yard: who is who, since when, and who has been on which machine.
///
/// Takes all entries of the yard, in any order and with any repeats. The first role entry by the person it names founds the
/// yard; every other needs the steward.
pub fn fold_yard(entries: &[Entry]) -> YardState {
    let ordered = in_order(entries);
    let roles = roles(&ordered);
    let mut state = YardState {
        people: roles.people,
        ..YardState::default()
    };
    let machines: BTreeSet<_> = ordered
        .iter()
        .filter_map(|entry| entry.machine.as_ref())
        .collect();
    state.machines = machines.into_iter().cloned().collect();
    let (told, open, documents) = {
        let role = |person: PersonId, machine: Option<&MachineId>, when: Timestamp| match machine {
            Some(machine) => state.role_on(person, machine, when),
            None => state.role_at(person, when),
        };
        let corrected = corrections::hear(&ordered, &role);
        (
            tell(&corrected, &role),
            open(&corrected, roles.questions, &role),
            kept::documents(&corrected, |heard| heard.entry.machine.is_none(), &role),
        )
    };
    for (person, Told { machines, lessons }) in told {
        let person = state.people.entry(person).or_default();
        person.machines = machines;
        person.lessons = lessons;
    }
    YardState {
        questions: open.questions,
        rivals: open.rivals,
        unknown: open.unknown,
        documents,
        ..state
    }
}

/// What entries tell of one person.
#[derive(Debug, Default)]
struct Told {
    machines: BTreeMap<MachineId, Timestamp>,
    lessons: Vec<(Timestamp, String)>,
}

fn tell(corrected: &Corrected<'_>, role: &RoleOf<'_>) -> BTreeMap<PersonId, Told> {
    let mut told: BTreeMap<PersonId, Told> = BTreeMap::new();
    for heard in &corrected.heard {
        let entry = heard.entry;
        match (heard.body, &entry.machine) {
            (Some(Body::Run(_) | Body::Handover(_)), Some(machine)) => {
                told.entry(entry.by)
                    .or_default()
                    .machines
                    .insert(machine.clone(), entry.ordered_at);
            }
            (Some(Body::Lesson(lesson)), _) if heard.may(Deed::SignOff, role) => {
                told.entry(lesson.person)
                    .or_default()
                    .lessons
                    .push((entry.ordered_at, lesson.what.clone()));
            }
            _ => {}
        }
    }
    told
}

/// What the yard's own entries leave open.
#[derive(Debug, Default)]
struct Open {
    questions: BTreeMap<EntryId, Question>,
    rivals: BTreeMap<EntryId, Vec<EntryId>>,
    unknown: Vec<(EntryId, String)>,
}

fn open(corrected: &Corrected<'_>, about_roles: Vec<Question>, role: &RoleOf<'_>) -> Open {
    let mut open = Open::default();
    let of_yard = || {
        corrected
            .heard
            .iter()
            .filter(|one| one.entry.machine.is_none())
    };
    let ids: BTreeSet<EntryId> = of_yard().map(|one| one.entry.id).collect();
    let rulings = rulings::gather(&corrected.heard, role);
    let about_own = corrected
        .questions
        .iter()
        .filter(|(_, of)| ids.contains(of));
    let refused = rulings
        .refused
        .iter()
        .filter(|question| ids.contains(&question.entry));
    let mut raised = about_roles;
    raised.extend(about_own.map(|(question, _)| question.clone()));
    raised.extend(refused.cloned());
    for heard in of_yard() {
        raised.extend(own_question(heard, role));
        if let Some(Body::Unknown { kind, .. } | Body::Unreadable { kind, .. }) = heard.body {
            open.unknown.push((heard.entry.id, kind.clone()));
        }
    }
    raised.retain(|question| !rulings.settle(question));
    for question in raised {
        open.questions.entry(question.entry).or_insert(question);
    }
    let rivals = corrected.rivals.iter().filter(|(of, _)| ids.contains(of));
    open.rivals = rivals.map(|(of, all)| (*of, all.clone())).collect();
    open
}

fn own_question(heard: &Heard<'_>, role: &RoleOf<'_>) -> Option<Question> {
    if let Some(letters) = heard.body?.too_long() {
        return Some(Question::by(heard.entry, Asks::TextTooLong { letters }));
    }
    match heard.body? {
        Body::Unreadable { kind, at } => {
            let asks = Asks::Unreadable {
                kind: kind.clone(),
                at: at.clone(),
            };
            Some(Question::by(heard.entry, asks))
        }
        Body::Document(document) if !heard.may(kept::document_deed(document), role) => {
            Some(Question::not_entitled(heard.entry))
        }
        Body::DocumentEnded(_) if !heard.may(Deed::NeededDocuments, role) => {
            Some(Question::not_entitled(heard.entry))
        }
        Body::Lesson(_) if !heard.may(Deed::SignOff, role) => {
            Some(Question::not_entitled(heard.entry))
        }
        _ => None,
    }
}
