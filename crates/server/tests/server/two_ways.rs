//! What comes through forms and what comes through the API is the same: the same state, and the same refusals.

use super::fixture::{BOOK, Place};
use axum::{
    body::Body as Sent,
    http::{Request, StatusCode, header},
};
use std::collections::BTreeSet;
use store::{NewEntry, form::kind_of, write_entry};
use yard::{
    entry::{Body, Entry},
    id::{DeviceId, EntryId, PersonId},
    state::{fold_machine, fold_yard},
};

/// Every kind of entry that a form of these pages writes.
const KINDS: [&str; 31] = [
    "adjustment",
    "arrival",
    "attachment",
    "book-adopted",
    "came-back",
    "correction",
    "document",
    "document-ended",
    "fault",
    "greasing",
    "handover",
    "hours-told",
    "left-yard",
    "lesson",
    "meter-broken",
    "meter-change",
    "meter-reading",
    "move-permit",
    "note",
    "part-fitted",
    "purchase",
    "release",
    "repair",
    "role-given",
    "ruling",
    "run",
    "shelf-count",
    "sign-off",
    "stand-down",
    "top-up",
    "walk-round",
];

/// Two yards that began the same. One is written to by its forms, the other by the API.
struct TwoYards {
    forms: Place,
    api: Place,
    taken: BTreeSet<EntryId>,
    written: u64,
}

impl TwoYards {
    fn new() -> Self {
        let (forms, api) = (Place::new(), Place::new());
        assert_eq!(
            forms.yard.id(),
            api.yard.id(),
            "counted chance gives both the same ids"
        );
        let taken = forms
            .yard
            .entries()
            .unwrap()
            .iter()
            .map(|entry| entry.id)
            .collect();
        Self {
            forms,
            api,
            taken,
            written: 0,
        }
    }

    /// Sends the form in the one yard, and what it wrote to the API of the other, by the same person. Gives the entries.
    async fn keep(&mut self, who: PersonId, path: &str, fields: &[(&str, &str)]) -> Vec<Entry> {
        let cookie = self.forms.sign_in(who).await;
        let got = self.forms.post(&cookie, path, fields).await;
        assert_eq!(got.status, StatusCode::SEE_OTHER, "{path}: {}", got.text);
        let new: Vec<_> = self.new_entries();
        assert!(!new.is_empty(), "{path} wrote nothing");
        for entry in &new {
            let status = self.deliver(who, entry).await;
            assert_eq!(status, StatusCode::CREATED, "{path}: {:?}", entry.body);
        }
        self.assert_same(path);
        for place in [&self.forms, &self.api] {
            place.later(1);
        }
        new
    }

    /// What the form wrote, but for what the program notes itself about signing in.
    fn new_entries(&mut self) -> Vec<Entry> {
        let all = self.forms.yard.entries().unwrap();
        let new = all.into_iter().filter(|entry| self.taken.insert(entry.id));
        new.filter(|entry| !matches!(entry.body, Body::Access(_)))
            .collect()
    }

    /// Sends the entry as a phone that `who` is signed in on would have written it.
    async fn deliver(&mut self, who: PersonId, entry: &Entry) -> StatusCode {
        self.written += 1;
        let bytes = write_entry(&NewEntry {
            id: entry.id,
            yard: self.api.yard.id(),
            machine: entry.machine.clone(),
            at: entry.at,
            by: who,
            device: DeviceId("phone 0a1b2c3d".to_owned()),
            counter: self.written,
            body: entry.body.clone(),
        });
        let cookie = self.api.sign_in(who).await;
        let request = Request::post(format!("/api{}/entries", self.api.home()))
            .header(header::COOKIE, cookie)
            .header(header::CONTENT_TYPE, "application/json")
            .header("writer-clock", entry.at.to_string())
            .body(Sent::from(bytes));
        self.api.send(request.unwrap()).await.status
    }

    /// Both journals say the same, and both fold to the same states.
    fn assert_same(&self, after: &str) {
        let [forms, api] = [&self.forms, &self.api].map(|place| {
            let mut entries = place.yard.entries().unwrap();
            entries.retain(|entry| !matches!(entry.body, Body::Access(_)));
            for (n, entry) in (1..).zip(&mut entries) {
                // What differs by the way an entry came: the device with its count, and the place among what the program noted.
                (entry.device, entry.counter, entry.seq) = (DeviceId(String::new()), 0, n);
            }
            let yard = fold_yard(&entries);
            let machine = yard.machines[0].clone();
            let machine = fold_machine(&machine, &entries, &yard, &quantity::Habits::default());
            (entries, yard, machine)
        });
        assert_eq!(forms.0, api.0, "{after}: entries");
        assert!(forms.1 == api.1, "{after}: the yard's state");
        assert!(forms.2 == api.2, "{after}: the machine's state");
    }

    /// The pages say the same too.
    async fn assert_same_pages(&self, who: PersonId) {
        for path in [
            "",
            "/m/marigold",
            "/m/marigold/round?list=1",
            "/questions",
            "/m/marigold/sign-offs",
        ] {
            let mut shown = Vec::new();
            for place in [&self.forms, &self.api] {
                let cookie = place.sign_in(who).await;
                let got = place.get(&cookie, &format!("{}{path}", place.home())).await;
                shown.push((got.status, got.text));
            }
            assert_eq!(shown[0], shown[1], "{path}");
        }
    }
}

#[tokio::test]
async fn each_form_and_the_api_come_to_the_same() {
    let mut yards = TwoYards::new();
    let (steward, operator, learner) = (
        yards.forms.steward,
        yards.forms.operator,
        yards.forms.learner,
    );
    let (home, m) = (yards.forms.home(), yards.forms.machine());
    let at = |what: &str| format!("{m}/{what}");
    let mut kinds = BTreeSet::new();
    let mut note = |entries: &[Entry]| {
        kinds.extend(
            entries
                .iter()
                .map(|entry| kind_of(&entry.body).0.to_owned()),
        );
        entries[0].id
    };
    let book =
        format!("{BOOK}\n[[attachment]]\nid = \"narrow-bucket\"\nlocks = \"Both clips seen\"\n");
    let rest = yard::book::read(BOOK, &quantity::Habits::default())
        .book
        .unwrap()
        .rest;
    let steps: Vec<_> = rest.iter().map(|step| format!("s.{}", step.id)).collect();
    let mut left = vec![
        ("engine", "off"),
        ("hours", "815.0"),
        ("next", "left track squeaks"),
    ];
    left.extend(steps.iter().map(|step| (step.as_str(), "proven")));
    let (learners, operators) = (learner.to_string(), operator.to_string());

    note(
        &yards
            .keep(operator, &at("note"), &[("text", "gate key is with Bram")])
            .await,
    );
    note(
        &yards
            .keep(operator, &at("round/begin"), &[("purpose", "start")])
            .await,
    );
    note(
        &yards
            .keep(operator, &at("round/close"), &[("hours", "812.3")])
            .await,
    );
    note(
        &yards
            .keep(operator, &at("run/end"), &[("amiss", "squeaks")])
            .await,
    );
    note(&yards.keep(operator, &at("handover"), &left).await);
    let fault = note(
        &yards
            .keep(
                learner,
                &at("fault"),
                &[("what", "lamp out"), ("severity", "care")],
            )
            .await,
    );
    let word = note(
        &yards
            .keep(learner, &at("stand-down"), &[("text", "smoke")])
            .await,
    );
    note(
        &yards
            .keep(
                steward,
                &at("permit"),
                &[
                    ("who", &operators),
                    ("far", "40 m"),
                    ("hours", "2"),
                    ("how", "slowly"),
                ],
            )
            .await,
    );
    note(
        &yards
            .keep(
                operator,
                &format!("{m}/finding/{fault}/mend"),
                &[("what", "new lamp"), ("cost", "4")],
            )
            .await,
    );
    note(
        &yards
            .keep(
                steward,
                &format!("{m}/finding/{word}/release"),
                &[("mended", "hose was wet")],
            )
            .await,
    );
    note(
        &yards
            .keep(
                operator,
                &at("service"),
                &[("amount", "0.5 L"), ("grade", "10W-30")],
            )
            .await,
    );
    note(
        &yards
            .keep(operator, &at("service"), &[("what", "belt tightened")])
            .await,
    );
    for (who, form, fields) in [
        (
            learner,
            "greasing",
            &[("a.grease-loader-arm-left", "refused")][..],
        ),
        (
            operator,
            "greasing",
            &[("a.grease-loader-arm-left", "seen")],
        ),
        (
            operator,
            "part",
            &[("part", "fan-belt"), ("event", "frame-bolts-set")],
        ),
        (
            steward,
            "purchase",
            &[("what", "a belt"), ("cost", "EUR 9")],
        ),
        (
            steward,
            "lesson",
            &[("person", &learners), ("what", "reading levels")],
        ),
    ] {
        note(&yards.keep(who, &at(form), fields).await);
    }
    note(
        &yards
            .keep(operator, &at("hours"), &[("shows", "816.0")])
            .await,
    );
    let odd = note(
        &yards
            .keep(operator, &at("hours"), &[("shows", "81.6")])
            .await,
    );
    note(
        &yards
            .keep(
                steward,
                &format!("{home}/questions/{odd}"),
                &[("says", "wrong"), ("why", "a slip")],
            )
            .await,
    );
    let new_meter = [("old", "816.2"), ("new", "0.0"), ("why", "glass broken")];
    note(&yards.keep(operator, &at("hours"), &new_meter).await);
    let broken = [("what", "broken"), ("why", "sticks on a 9")];
    note(&yards.keep(operator, &at("hours"), &broken).await);
    let told = [("what", "read"), ("ran", "2 h ± 1 h")];
    note(&yards.keep(operator, &at("hours"), &told).await);
    let slip = note(
        &yards
            .keep(operator, &at("note"), &[("text", "wrong machine")])
            .await,
    );
    note(
        &yards
            .keep(
                steward,
                &format!("{home}/correct/{slip}"),
                &[("why", "of another machine")],
            )
            .await,
    );
    note(
        &yards
            .keep(
                steward,
                &at("sign-offs"),
                &[
                    ("person", &operators),
                    ("given", "alone"),
                    ("limits", "not on slopes"),
                ],
            )
            .await,
    );
    note(
        &yards
            .keep(
                steward,
                &format!("{home}/people/{learners}"),
                &[("role", "operator")],
            )
            .await,
    );
    note(
        &yards
            .keep(
                steward,
                &at("book"),
                &[("text", &book), ("do", "adopt"), ("why", "spring")],
            )
            .await,
    );
    let paper = [("kind", "manual"), ("title", "Maker's book")];
    let manual = note(&yards.keep(steward, &at("documents"), &paper).await);
    for (form, fields) in [
        (
            "attachments",
            &[("attachment", "narrow-bucket"), ("change", "on")][..],
        ),
        (
            "attachments",
            &[("attachment", "narrow-bucket"), ("change", "off")],
        ),
        ("arrival", &[("step", "came"), ("says", "from a farm sale")]),
        ("arrival", &[("step", "fittings-first"), ("count", "21")]),
        ("shelf", &[("n.fan-belt", "2")]),
        (
            &format!("documents/{manual}/end"),
            &[("why", "fell in the sump")],
        ),
        (
            "leaving",
            &[("how", "sold"), ("to", "a farm"), ("hours", "818.0")],
        ),
        ("leaving", &[("why", "not paid for")]),
    ] {
        note(&yards.keep(steward, &at(form), fields).await);
    }

    assert_eq!(kinds.iter().map(String::as_str).collect::<Vec<_>>(), KINDS);
    yards.assert_same_pages(steward).await;
    yards.assert_same_pages(operator).await;
}

#[tokio::test]
async fn whom_a_form_refuses_the_api_refuses_too() {
    let mut yards = TwoYards::new();
    let place = &yards.forms;
    let people = [
        place.visitor,
        place.learner,
        place.operator,
        place.deputy,
        place.steward,
    ];
    let (m, home, visitor) = (place.machine(), place.home(), place.visitor);
    let word = yards
        .keep(
            yards.forms.operator,
            &format!("{m}/stand-down"),
            &[("text", "knock")],
        )
        .await[0]
        .id;
    let operators = yards.forms.operator.to_string();
    let forms: Vec<(String, Vec<(&str, &str)>)> = vec![
        (format!("{m}/note"), vec![("text", "hello")]),
        (
            format!("{m}/fault"),
            vec![("what", "lamp"), ("severity", "note")],
        ),
        (format!("{m}/stand-down"), vec![("text", "smoke")]),
        (format!("{m}/finding/{word}/mend"), vec![("what", "bolt")]),
        (
            format!("{m}/finding/{word}/release"),
            vec![("mended", "seen")],
        ),
        (
            format!("{m}/permit"),
            vec![("who", &operators), ("far", "40 m"), ("hours", "2")],
        ),
        (format!("{m}/hours"), vec![("shows", "812.0")]),
        (
            format!("{m}/sign-offs"),
            vec![("person", &operators), ("given", "alone")],
        ),
        (
            format!("{home}/people/{visitor}"),
            vec![("role", "operator")],
        ),
    ];
    for (path, fields) in &forms {
        // The steward's entry shows what the API would be sent; who else may send it is asked of both.
        let cookie = yards.forms.sign_in(yards.forms.steward).await;
        yards.forms.post(&cookie, path, fields).await;
        let entry = yards.new_entries().remove(0);
        for (rank, who) in people.into_iter().enumerate() {
            let cookie = yards.forms.sign_in(who).await;
            let form = yards.forms.post(&cookie, path, fields).await.status;
            yards.new_entries();
            let id = EntryId(store::fresh_id(yards.api.clock.as_ref()));
            let api = yards
                .deliver(
                    who,
                    &Entry {
                        id,
                        ..entry.clone()
                    },
                )
                .await;
            // At the API's gate, or by the entry itself.
            let refusals = [StatusCode::FORBIDDEN, StatusCode::UNPROCESSABLE_ENTITY];
            assert!(api == StatusCode::CREATED || refusals.contains(&api));
            assert_eq!(
                form == StatusCode::FORBIDDEN,
                refusals.contains(&api),
                "{path} by {rank}: {form} by form, {api} by the API"
            );
        }
    }
}
