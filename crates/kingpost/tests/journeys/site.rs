//! A demo yard of some seed behind the real routes, with a clock that the journey moves.

use axum::{
    Router,
    body::{Body, to_bytes},
    http::{Request, StatusCode, header},
};
use jiff::{SignedDuration, Span, Timestamp, civil::date, tz::TimeZone};
use kingpost::demo::{PIN, Script, fill};
use server::{App, session::encode};
use std::sync::{
    Arc, Mutex,
    atomic::{AtomicU64, Ordering},
};
use store::{Store, Yard};
use tower::ServiceExt;
use words::Words;
use yard::{
    entry::{Body as Entered, Entry},
    id::PersonId,
    people::Role,
    state::fold_yard,
    world::World,
};

/// The zones of the journeys: behind and ahead of the sun, with and without summer time.
const ZONES: [&str; 4] = [
    "Europe/Berlin",
    "America/St_Johns",
    "Asia/Kathmandu",
    "Pacific/Auckland",
];

struct Clock {
    now: Mutex<Timestamp>,
    zone: TimeZone,
    drawn: AtomicU64,
}

impl World for Clock {
    fn now(&self) -> Timestamp {
        *self.now.lock().unwrap()
    }
    fn zone(&self) -> TimeZone {
        self.zone.clone()
    }
    fn chance(&self) -> [u8; 16] {
        let mut bytes = [9; 16];
        bytes[8..].copy_from_slice(&self.drawn.fetch_add(1, Ordering::Relaxed).to_be_bytes());
        bytes
    }
}

pub(crate) struct Site {
    pub(crate) seed: u64,
    pub(crate) store: Store,
    pub(crate) yard: Yard,
    pub(crate) home: String,
    pub(crate) machine: String,
    clock: Arc<Clock>,
    router: Router,
}

/// What came back.
pub(crate) struct Got {
    pub(crate) status: StatusCode,
    pub(crate) to: String,
    pub(crate) text: String,
    cookie: String,
}

impl Site {
    /// The demo of a seed, each in a season and a zone of its own, on the morning after.
    pub(crate) fn of(seed: u64) -> Self {
        let zone = TimeZone::get(ZONES[seed as usize % ZONES.len()]).unwrap();
        let last = date(2026, 1, 5) + Span::new().days(seed as i64 * 17);
        let script = Script {
            last,
            zone: zone.clone(),
            seed,
        };
        let store = Store::open_memory();
        let yard = fill(&store, &script).unwrap();
        let morning = last.tomorrow().unwrap().at(6, 30, 0, 0);
        let clock = Arc::new(Clock {
            now: Mutex::new(morning.to_zoned_datetime(zone.clone()).unwrap().timestamp()),
            zone,
            drawn: AtomicU64::new(1),
        });
        let words = Arc::new(Words::english());
        let app = Arc::new(App::new(
            yard.clone(),
            words,
            clock.clone(),
            "http://yard.lan".to_owned(),
        ));
        let home = format!("/y/{}", app.tag());
        Self {
            seed,
            store,
            yard,
            machine: format!("{home}/m/marigold"),
            home,
            clock,
            router: server::router(app),
        }
    }

    pub(crate) fn later(&self, minutes: i64) {
        *self.clock.now.lock().unwrap() += SignedDuration::from_mins(minutes);
    }

    pub(crate) fn entries(&self) -> Vec<Entry> {
        self.yard.entries().unwrap()
    }

    /// Signs in somebody of this role, on a phone of their own: it stays signed in all day.
    /// Somebody of this role; of the operators one who may run the machine.
    pub(crate) async fn sign_in(&self, role: Role) -> String {
        let entries = self.entries();
        let (state, now) = (fold_yard(&entries), self.clock.now());
        let signed_off = |id: PersonId| {
            let here = |entry: &&Entry| {
                entry
                    .machine
                    .as_ref()
                    .is_some_and(|of| self.machine.ends_with(of.as_str()))
            };
            let sign_offs = entries.iter().filter(here).map(|entry| &entry.body);
            role != Role::Operator
                || sign_offs.into_iter().any(|body| matches!(body, Entered::SignOff(given) if given.person == id && given.given))
        };
        let of_role = |id: &&PersonId| state.role_at(**id, now) == role && signed_off(**id);
        let who = state.people.keys().find(of_role).unwrap().to_string();
        let path = format!("{}/sign-in", self.home);
        let got = self
            .post(
                "",
                &path,
                &[("person", &who), ("pin", PIN), ("device", "own")],
            )
            .await;
        assert_eq!(
            got.status,
            StatusCode::SEE_OTHER,
            "seed {}: {role:?}: {}",
            self.seed,
            got.text
        );
        got.cookie
    }

    pub(crate) async fn get(&self, cookie: &str, path: &str) -> Got {
        let request = Request::get(path).header(header::COOKIE, cookie);
        self.send(request.body(Body::empty()).unwrap()).await
    }

    pub(crate) async fn post(&self, cookie: &str, path: &str, fields: &[(&str, &str)]) -> Got {
        let pairs = fields
            .iter()
            .map(|(name, value)| format!("{}={}", encode(name), encode(value)));
        let request = Request::post(path)
            .header(header::COOKIE, cookie)
            .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded");
        let body = Body::from(pairs.collect::<Vec<_>>().join("&"));
        self.send(request.body(body).unwrap()).await
    }

    /// Posts what must be kept, and gives the page that it leads to.
    pub(crate) async fn keep(&self, cookie: &str, path: &str, fields: &[(&str, &str)]) -> Got {
        let got = self.post(cookie, path, fields).await;
        assert_eq!(
            got.status,
            StatusCode::SEE_OTHER,
            "seed {}: {path}: {}",
            self.seed,
            got.text
        );
        self.get(cookie, &got.to).await
    }

    async fn send(&self, request: Request<Body>) -> Got {
        let response = self.router.clone().oneshot(request).await.unwrap();
        let head = |name| {
            let value = response.headers().get(name);
            value.map_or("", |value| value.to_str().unwrap()).to_owned()
        };
        let (to, cookie) = (head(header::LOCATION), head(header::SET_COOKIE));
        Got {
            status: response.status(),
            to,
            cookie: cookie.split(';').next().unwrap_or_default().to_owned(),
            text: {
                let bytes = to_bytes(response.into_body(), 1 << 24).await.unwrap();
                String::from_utf8_lossy(&bytes).into_owned()
            },
        }
    }
}

impl Got {
    /// The addresses of our own that the page leads to.
    pub(crate) fn links(&self) -> Vec<String> {
        let links = self
            .text
            .split("href=\"")
            .skip(1)
            .filter_map(|rest| rest.split('"').next());
        let own = links.filter(|link| link.starts_with('/'));
        own.map(|link| link.replace("&#38;", "&").replace("&amp;", "&"))
            .collect()
    }

    /// The verdict's class on a machine's page.
    pub(crate) fn verdict(&self) -> String {
        let after = self.text.split("class=\"verdict ").nth(1);
        let class = after.and_then(|rest| rest.split('"').next());
        class
            .unwrap_or_else(|| panic!("no verdict: {}", self.text))
            .to_owned()
    }
}
