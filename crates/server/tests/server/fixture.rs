//! A yard in memory with the demo machine's book, five people and a clock that the test moves.

use axum::{
    Router,
    body::Body,
    http::{Request, StatusCode, header},
};
use http_body_util::BodyExt;
use jiff::{Timestamp, tz::TimeZone};
use server::{App, router, session};
use std::sync::{
    Arc, Mutex,
    atomic::{AtomicU64, Ordering},
};
use store::{Delivery, NewEntry, Person, Store, Yard, fresh_id, write_entry};
use tower::ServiceExt;
use words::Words;
use yard::{
    entry::{Body as Said, BookAdopted, RoleGiven, SignOff},
    id::{DeviceId, EntryId, MachineId, PersonId},
    people::Role,
    world::World,
};

pub(crate) const BOOK: &str = include_str!("../../../../demo/marigold.toml");
pub(crate) const PIN: &str = "2580";

/// A clock the test moves, and counted chance.
pub(crate) struct Clock {
    now: Mutex<Timestamp>,
    drawn: AtomicU64,
}

impl Clock {
    /// Moves on.
    pub(crate) fn later(&self, minutes: i64) {
        *self.now.lock().unwrap() += jiff::SignedDuration::from_mins(minutes);
    }
}

/// A clock that shows a time, for tests that make their own yard.
pub(crate) fn clock_at(now: &str) -> Arc<Clock> {
    Arc::new(Clock {
        now: Mutex::new(now.parse().unwrap()),
        drawn: AtomicU64::new(1),
    })
}

impl World for Clock {
    fn now(&self) -> Timestamp {
        *self.now.lock().unwrap()
    }
    fn zone(&self) -> TimeZone {
        TimeZone::UTC
    }
    fn chance(&self) -> [u8; 16] {
        let n = self.drawn.fetch_add(1, Ordering::Relaxed);
        let mut bytes = [7u8; 16];
        bytes[8..].copy_from_slice(&n.to_be_bytes());
        bytes
    }
}

pub(crate) struct Place {
    pub(crate) app: Arc<App>,
    pub(crate) clock: Arc<Clock>,
    pub(crate) router: Router,
    pub(crate) steward: PersonId,
    pub(crate) deputy: PersonId,
    pub(crate) operator: PersonId,
    pub(crate) learner: PersonId,
    pub(crate) visitor: PersonId,
    pub(crate) store: Store,
    pub(crate) yard: Yard,
}

/// What came back.
pub(crate) struct Got {
    pub(crate) status: StatusCode,
    pub(crate) to: String,
    /// The cookies set, as a browser sends them back.
    pub(crate) cookie: String,
    /// The Set-Cookie headers as they came.
    pub(crate) set: Vec<String>,
    pub(crate) text: String,
}

impl Place {
    pub(crate) fn new() -> Self {
        Self::speaking(Words::english())
    }

    pub(crate) fn speaking(words: Words) -> Self {
        let clock = clock_at("2026-03-02T07:00:00Z");
        let store = Store::open_memory();
        let yard = store.create_yard("Invented yard", clock.as_ref()).unwrap();
        let [steward, deputy, operator, learner, visitor] =
            ["Odalys", "Bram", "Tamsin", "Jory", "Vesna"]
                .map(|name| person(&yard, name, clock.as_ref()));
        let app = Arc::new(App::new(
            yard.clone(),
            Arc::new(words),
            clock.clone(),
            "http://yard.lan".to_owned(),
        ));
        let place = Self {
            router: router(app.clone()),
            app,
            clock,
            steward,
            deputy,
            operator,
            learner,
            visitor,
            store,
            yard,
        };
        for (who, role) in [
            (steward, Role::Steward),
            (deputy, Role::Deputy),
            (operator, Role::Operator),
            (learner, Role::Learner),
            (visitor, Role::Visitor),
        ] {
            place.write(
                steward,
                None,
                Said::RoleGiven(RoleGiven {
                    person: who,
                    role: Some(role),
                    machines: vec![],
                }),
            );
        }
        place.write(
            steward,
            Some("marigold"),
            Said::BookAdopted(BookAdopted {
                text: BOOK.to_owned(),
                why: None,
            }),
        );
        for (who, in_sight) in [(operator, false), (learner, true)] {
            place.write(
                steward,
                Some("marigold"),
                Said::SignOff(SignOff {
                    person: who,
                    given: true,
                    until: None,
                    limits: None,
                    in_sight,
                }),
            );
        }
        place
    }

    /// Moves the clock on.
    pub(crate) fn later(&self, minutes: i64) {
        self.clock.later(minutes);
    }

    /// Writes an entry past the pages.
    pub(crate) fn write(&self, by: PersonId, machine: Option<&str>, body: Said) -> EntryId {
        let id = EntryId(fresh_id(self.clock.as_ref()));
        let machine = machine.map(|m| MachineId::new(m).unwrap());
        let entry = NewEntry {
            id,
            yard: self.yard.id(),
            machine,
            at: self.clock.now(),
            by,
            device: DeviceId("test".to_owned()),
            counter: 1,
            body,
        };
        self.yard
            .accept(&write_entry(&entry), Delivery::here(self.clock.now()))
            .unwrap();
        id
    }

    pub(crate) fn home(&self) -> String {
        format!("/y/{}", self.app.tag())
    }

    pub(crate) fn machine(&self) -> String {
        format!("{}/m/marigold", self.home())
    }

    /// A signed-in browser.
    pub(crate) async fn sign_in(&self, who: PersonId) -> String {
        let got = self
            .post(
                "",
                &format!("{}/sign-in", self.home()),
                &[
                    ("person", &who.to_string()),
                    ("pin", PIN),
                    ("device", "own"),
                ],
            )
            .await;
        assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
        got.cookie
    }

    pub(crate) async fn get(&self, cookie: &str, path: &str) -> Got {
        let request = Request::get(path)
            .header(header::COOKIE, cookie)
            .body(Body::empty())
            .unwrap();
        self.send(request).await
    }

    pub(crate) async fn post(&self, cookie: &str, path: &str, fields: &[(&str, &str)]) -> Got {
        let body = fields
            .iter()
            .map(|(n, v)| format!("{}={}", session::encode(n), session::encode(v)))
            .collect::<Vec<_>>()
            .join("&");
        let request = Request::post(path)
            .header(header::COOKIE, cookie)
            .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded")
            .body(Body::from(body))
            .unwrap();
        self.send(request).await
    }

    pub(crate) async fn send(&self, request: Request<Body>) -> Got {
        let response = self.router.clone().oneshot(request).await.unwrap();
        let head = |name| {
            response
                .headers()
                .get(name)
                .map(|v: &axum::http::HeaderValue| v.to_str().unwrap().to_owned())
                .unwrap_or_default()
        };
        let to = head(header::LOCATION);
        // What a browser would send back of all that was set.
        let set = response.headers().get_all(header::SET_COOKIE).iter();
        let set: Vec<String> = set.map(|v| v.to_str().unwrap().to_owned()).collect();
        let pairs = set.iter().map(|set| set.split(';').next().unwrap());
        let pairs = pairs.filter(|pair| !pair.ends_with('='));
        let cookie = pairs.collect::<Vec<_>>().join("; ");
        let status = response.status();
        let bytes = response
            .into_body()
            .collect()
            .await
            .unwrap()
            .to_bytes()
            .to_vec();
        Got {
            status,
            to,
            cookie,
            set,
            text: String::from_utf8_lossy(&bytes).into_owned(),
        }
    }
}

fn person(yard: &Yard, name: &str, world: &dyn World) -> PersonId {
    let id = PersonId(fresh_id(world));
    // One hash for all: hashing is slow on purpose.
    static HASH: std::sync::OnceLock<String> = std::sync::OnceLock::new();
    let hash = HASH.get_or_init(|| {
        session::pin_hash(PIN, &yard::world::StillWorld::at(Timestamp::UNIX_EPOCH)).unwrap()
    });
    yard.keep_person(&Person {
        id,
        name: Some(name.to_owned()),
        pin_hash: Some(hash.clone()),
        active: true,
        invented: true,
    })
    .unwrap();
    id
}
