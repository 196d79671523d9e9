//! Random days of phones in a yard: cuts, lost answers, double sends, two tabs, wrong clocks, a server that falls over.
//!
//! Against a simple model: what every phone wrote is in the journal once, byte for byte, or was refused as the model says; and
//! the state that follows does not depend on the order of arrival.

use super::{
    chance::Chance,
    fixture::{Clock, clock_at},
};
use axum::{
    Router,
    body::Body as Sent,
    http::{Request, StatusCode, header},
};
use http_body_util::BodyExt;
use jiff::{SignedDuration, Timestamp};
use serde_json::{Value, json};
use server::{App, router, tokens};
use std::{
    collections::{BTreeMap, BTreeSet},
    sync::Arc,
};
use store::{Delivery, NewEntry, Person, Store, Yard, fresh_id, write_entry};
use tempfile::TempDir;
use tower::ServiceExt;
use words::Words;
use yard::{
    book::Severity,
    entry::{Body, Correction, Entry, Fault, MeterReading, Note, Release, RoleGiven},
    id::{DeviceId, EntryId, MachineId, PersonId},
    people::Role,
    state::{fold_machine, fold_yard},
    world::World,
};

/// Steps of one schedule.
const STEPS: u32 = 500;

/// Seeds that failed before.
const KEPT: &str = include_str!("phones_seeds.txt");

#[tokio::test]
async fn whatever_the_day_brings_everything_arrives_once() {
    let fresh = if std::env::var_os("KINGPOST_LONG").is_some() {
        200
    } else {
        10
    };
    let kept = KEPT
        .lines()
        .filter(|line| !line.starts_with('#') && !line.is_empty());
    let kept: Vec<String> = kept.map(str::to_owned).collect();
    for seed in kept
        .into_iter()
        .chain((0..fresh).map(|n| format!("phones {n}")))
    {
        Day::new(&seed).run().await;
    }
}

/// Prints the schedule where a check fails.
struct Told {
    seed: String,
    steps: Vec<String>,
}

impl Drop for Told {
    fn drop(&mut self) {
        if std::thread::panicking() {
            eprintln!(
                "seed {:?}, {} steps:\n{}",
                self.seed,
                self.steps.len(),
                self.steps.join("\n")
            );
        }
    }
}

/// What the model knows of one entry.
struct Wrote {
    text: String,
    by: usize,
    /// When it really was.
    truly: Timestamp,
    /// Whether the phone's clock stayed as it was until now.
    steady: bool,
    phone: usize,
    refused: bool,
}

struct Phone {
    /// Who is signed in.
    person: usize,
    /// How wrong its clock is.
    wrong: SignedDuration,
    counter: u64,
    /// Kept entries: id and text, as strict storage has them.
    queue: Vec<(EntryId, String)>,
    aside: BTreeSet<EntryId>,
}

struct Day {
    told: Told,
    chance: Chance,
    clock: Arc<Clock>,
    dir: TempDir,
    yard: Option<Yard>,
    router: Router,
    people: Vec<(PersonId, Role, String)>,
    phones: Vec<Phone>,
    wrote: BTreeMap<EntryId, Wrote>,
}

impl Day {
    fn new(seed: &str) -> Self {
        let clock = clock_at("2026-03-02T07:00:00Z");
        let dir = TempDir::new().unwrap();
        let store = Store::open(dir.path()).unwrap();
        let yard = store.create_yard("Invented yard", clock.as_ref()).unwrap();
        drop(store);
        let mut people = Vec::new();
        let mut steward = None;
        for role in [
            Role::Steward,
            Role::Deputy,
            Role::Operator,
            Role::Operator,
            Role::Learner,
        ] {
            let id = PersonId(fresh_id(clock.as_ref()));
            yard.keep_person(&Person {
                id,
                name: Some(format!("{role:?} {id}")),
                pin_hash: None,
                active: true,
                invented: true,
            })
            .unwrap();
            let by = *steward.get_or_insert(id);
            let given = Body::RoleGiven(RoleGiven {
                person: id,
                role: Some(role),
                machines: vec![],
            });
            let entry = NewEntry {
                id: EntryId(fresh_id(clock.as_ref())),
                yard: yard.id(),
                machine: None,
                at: clock.now(),
                by,
                device: DeviceId("test".to_owned()),
                counter: 1,
                body: given,
            };
            yard.accept(&write_entry(&entry), Delivery::here(clock.now()))
                .unwrap();
            let wanted = tokens::Wanted {
                name: "phone".to_owned(),
                reads: true,
                delivers: true,
                days: 366,
            };
            let made = tokens::make(&yard, clock.as_ref(), id, id, &wanted).unwrap();
            people.push((id, role, made.unwrap().0));
        }
        // So that no clock, however wrong, leads before the yard's first entry.
        clock.later(3 * 24 * 60);
        let mut chance = Chance::new(seed);
        let phones = (0..4).map(|_| Phone {
            person: chance.below(5) as usize,
            wrong: wrong(&mut chance),
            counter: 0,
            queue: Vec::new(),
            aside: BTreeSet::new(),
        });
        let phones = phones.collect();
        Self {
            told: Told {
                seed: seed.to_owned(),
                steps: Vec::new(),
            },
            router: served(&yard, &clock),
            yard: Some(yard),
            chance,
            clock,
            dir,
            people,
            phones,
            wrote: BTreeMap::new(),
        }
    }

    async fn run(mut self) {
        for _ in 0..STEPS {
            self.step().await;
        }
        self.come_home().await;
        self.check();
    }

    fn yard(&self) -> &Yard {
        self.yard.as_ref().unwrap()
    }

    async fn step(&mut self) {
        let phone = self.chance.below(4) as usize;
        let what = self.chance.below(100);
        self.told.steps.push(format!("{what} phone {phone}"));
        match what {
            0..45 => self.write(phone),
            45..65 => {
                let answer = self.send(phone).await;
                self.hear(phone, &answer);
            }
            // The answer is lost on the way.
            65..73 => drop(self.send(phone).await),
            // Page and worker, or two tabs, with the same queue.
            73..78 => {
                let (one, other) = self.send_twice(phone).await;
                self.hear(phone, &one);
                self.hear(phone, &other);
            }
            // The phone starts again: it has what its storage has.
            78..82 => {
                let kept = serde_json::to_string(&texts(&self.phones[phone].queue)).unwrap();
                let texts: Vec<String> = serde_json::from_str(&kept).unwrap();
                let ids = self.phones[phone].queue.iter().map(|(id, _)| *id);
                self.phones[phone].queue = ids.zip(texts).collect();
            }
            82..86 => {
                drop(self.send(phone).await);
                self.fall_over();
            }
            86..88 => self.fall_over(),
            88..92 => self.phones[phone].person = self.chance.below(5) as usize,
            92..94 => {
                self.phones[phone].wrong = wrong(&mut self.chance);
                let of_phone = |wrote: &&mut Wrote| wrote.phone == phone;
                self.wrote
                    .values_mut()
                    .filter(of_phone)
                    .for_each(|wrote| wrote.steady = false);
            }
            _ => self.clock.later(1 + self.chance.below(40) as i64),
        }
        self.clock.later(1);
    }

    fn write(&mut self, phone: usize) {
        let by = self.phones[phone].person;
        let (person, role, _) = self.people[by];
        let own: Vec<EntryId> = self
            .wrote
            .iter()
            .filter(|(_, w)| w.by == by && !w.refused)
            .map(|(id, _)| *id)
            .collect();
        let text = |text: &str| text.to_owned();
        let (body, refused) = match self.chance.below(10) {
            0..4 => (
                Body::Note(Note {
                    point: None,
                    text: format!("note {}", self.chance.next()),
                }),
                false,
            ),
            4 | 5 => {
                let shows = quantity::parse(
                    &format!("{} h", 100 + self.chance.below(50)),
                    &quantity::Habits::default(),
                    None,
                );
                (
                    Body::MeterReading(MeterReading {
                        meter: None,
                        shows: shows.unwrap(),
                    }),
                    false,
                )
            }
            6 | 7 => (
                Body::Fault(Fault {
                    what: text("rattle"),
                    point: None,
                    severity: Severity::Care,
                    told: None,
                }),
                false,
            ),
            8 if !own.is_empty() => {
                let of = *self.chance.pick(&own);
                let note = Body::Note(Note {
                    point: None,
                    text: text("what it should say"),
                });
                let correction = Correction {
                    of,
                    instead: Some(Box::new(note)),
                    why: text("slip"),
                };
                // Whether it is let in hangs on what it corrects, which the model leaves to the server: only notes are corrected.
                let plain = self.wrote[&of].text.contains("\"kind\":\"note\"");
                let body = if plain {
                    Body::Correction(correction)
                } else {
                    Body::Note(Note {
                        point: None,
                        text: text("no slip"),
                    })
                };
                (body, false)
            }
            _ => (
                Body::Release(Release {
                    lifts: vec![],
                    mended: text("all"),
                }),
                role < Role::Deputy,
            ),
        };
        let holder = &mut self.phones[phone];
        holder.counter += 1;
        let entry = NewEntry {
            id: EntryId(self.chance.uuid()),
            yard: self.yard.as_ref().unwrap().id(),
            machine: MachineId::new("marigold"),
            at: self.clock.now() + holder.wrong,
            by: person,
            device: DeviceId(format!("phone {phone:08x}")),
            counter: holder.counter,
            body,
        };
        let text = String::from_utf8(write_entry(&entry)).unwrap();
        holder.queue.push((entry.id, text.clone()));
        self.wrote.insert(
            entry.id,
            Wrote {
                text,
                by,
                truly: self.clock.now(),
                steady: true,
                phone,
                refused,
            },
        );
    }

    /// Sends what is kept, at most seven entries, and gives the answer.
    async fn send(&mut self, phone: usize) -> Value {
        let request = self.request(phone);
        answered(self.router.clone(), request).await
    }

    async fn send_twice(&mut self, phone: usize) -> (Value, Value) {
        let (one, other) = (self.request(phone), self.request(phone));
        tokio::join!(
            answered(self.router.clone(), one),
            answered(self.router.clone(), other)
        )
    }

    fn request(&self, phone: usize) -> Request<Sent> {
        let phone = &self.phones[phone];
        let entries = texts(&phone.queue[..phone.queue.len().min(7)]);
        let clock = (self.clock.now() + phone.wrong).to_string();
        let tag = self.yard().id().0.simple().to_string();
        Request::post(format!("/api/y/{}/deliveries", &tag[tag.len() - 10..]))
            .header(header::CONTENT_TYPE, "application/json")
            .header(
                header::AUTHORIZATION,
                format!("Bearer {}", self.people[phone.person].2),
            )
            .body(Sent::from(
                json!({ "clock": clock, "entries": entries }).to_string(),
            ))
            .unwrap()
    }

    /// What a phone does with an answer.
    fn hear(&mut self, phone: usize, answer: &Value) {
        let phone = &mut self.phones[phone];
        let mut kept_back = Vec::new();
        for one in answer["entries"].as_array().unwrap() {
            let id: EntryId = one["id"].as_str().unwrap().parse().unwrap();
            match one["is"].as_str().unwrap() {
                "new" | "known" => phone.queue.retain(|(kept, _)| *kept != id),
                "refused" => {
                    phone.queue.retain(|(kept, _)| *kept != id);
                    phone.aside.insert(id);
                }
                "not-yours" => {
                    let place = phone.queue.iter().position(|(kept, _)| *kept == id);
                    kept_back.extend(place.map(|place| phone.queue.remove(place)));
                }
                other => panic!("{other} {one}"),
            }
        }
        // Never blocking the rest: others go first next time.
        phone.queue.extend(kept_back);
    }

    /// The server falls over and is started again: all it had in memory is gone.
    fn fall_over(&mut self) {
        self.router = Router::new();
        self.yard = None;
        let yard = Store::open(self.dir.path()).unwrap().yard().unwrap();
        self.router = served(&yard, &self.clock);
        self.yard = Some(yard);
    }

    /// Everybody signs in on every phone in turn, until nothing is left.
    async fn come_home(&mut self) {
        for phone in 0..self.phones.len() {
            for person in 0..self.people.len() {
                self.phones[phone].person = person;
                for _ in 0..=self.phones[phone].queue.len() {
                    let answer = self.send(phone).await;
                    self.hear(phone, &answer);
                }
            }
            assert!(
                self.phones[phone].queue.is_empty(),
                "phone {phone} kept {:?}",
                self.phones[phone].queue
            );
        }
    }

    fn check(&self) {
        let rows = self.yard().rows_since(0, 100_000).unwrap();
        let mut arrived: BTreeMap<EntryId, &[u8]> = BTreeMap::new();
        for row in rows.iter().filter(|row| self.wrote.contains_key(&row.id)) {
            assert!(
                arrived.insert(row.id, &row.bytes).is_none(),
                "{} twice",
                row.id
            );
        }
        for (id, wrote) in &self.wrote {
            let aside = self.phones[wrote.phone].aside.contains(id);
            assert_eq!(wrote.refused, aside, "{id} {}", wrote.text);
            match arrived.get(id) {
                Some(bytes) => assert_eq!(*bytes, wrote.text.as_bytes()),
                None => assert!(wrote.refused, "lost: {}", wrote.text),
            }
        }
        let strangers = rows.iter().filter(|row| !self.wrote.contains_key(&row.id));
        assert!(
            strangers
                .clone()
                .all(|row| row.kind == "role-given" || row.kind == "access")
        );
        assert!(self.yard().conflicts().unwrap().is_empty());
        let entries = self.yard().entries().unwrap();
        for entry in &entries {
            if let Some(wrote) = self.wrote.get(&entry.id).filter(|wrote| wrote.steady) {
                assert_eq!(entry.ordered_at, wrote.truly, "{}", wrote.text);
            }
        }
        self.same_in_any_order(&entries);
    }

    fn same_in_any_order(&self, entries: &[Entry]) {
        let marigold = MachineId::new("marigold").unwrap();
        let habits = quantity::Habits::default();
        let state = |entries: &[Entry]| {
            let yard = fold_yard(entries);
            let machine = fold_machine(&marigold, entries, &yard, &habits);
            (yard, machine)
        };
        let as_arrived = state(entries);
        let mut otherwise = entries.to_vec();
        otherwise.sort_by_key(|entry| entry.id);
        assert!(as_arrived == state(&otherwise));
    }
}

fn wrong(chance: &mut Chance) -> SignedDuration {
    let day = 24 * 3_600_000;
    SignedDuration::from_millis(chance.below(2 * day) as i64 - day as i64)
}

fn texts(queue: &[(EntryId, String)]) -> Vec<String> {
    queue.iter().map(|(_, text)| text.clone()).collect()
}

fn served(yard: &Yard, clock: &Arc<Clock>) -> Router {
    let words = Arc::new(Words::english());
    let address = "http://yard.lan".to_owned();
    router(Arc::new(App::new(
        yard.clone(),
        words,
        clock.clone(),
        address,
    )))
}

async fn answered(router: Router, request: Request<Sent>) -> Value {
    let response = router.oneshot(request).await.unwrap();
    let status = response.status();
    let bytes = response.into_body().collect().await.unwrap().to_bytes();
    let text = String::from_utf8_lossy(&bytes);
    assert_eq!(status, StatusCode::OK, "{text}");
    serde_json::from_str(&text).unwrap()
}
