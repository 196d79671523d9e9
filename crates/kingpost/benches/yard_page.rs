//! The yard's page, asked of the server without a network, beside a file that only has to be handed out.

use axum::{
    Router,
    body::{Body, to_bytes},
    http::Request,
};
use jiff::tz::TimeZone;
use server::App;
use std::sync::{Arc, OnceLock};
use store::Store;
use tokio::runtime::Runtime;
use tower::ServiceExt;
use words::Words;
use yard::world::StillWorld;

fn main() {
    divan::main();
}

struct Served {
    runtime: Runtime,
    router: Router,
    yard: String,
    file: String,
}

impl Served {
    fn get(&self, path: &str) -> String {
        let request = Request::get(path)
            .body(Body::empty())
            .expect("a plain request");
        self.runtime.block_on(async {
            let answer = self
                .router
                .clone()
                .oneshot(request)
                .await
                .expect("the router never fails");
            assert!(answer.status().is_success(), "{path}: {}", answer.status());
            let bytes = to_bytes(answer.into_body(), usize::MAX)
                .await
                .expect("a body in memory");
            String::from_utf8_lossy(&bytes).into_owned()
        })
    }
}

fn served() -> &'static Served {
    static SERVED: OnceLock<Served> = OnceLock::new();
    SERVED.get_or_init(|| {
        let now = "2026-05-15T06:30:00Z".parse().expect("a time");
        let store = Store::open_memory();
        let yard = kingpost::demo::fill(&store, &kingpost::demo::Script::as_of(now, TimeZone::UTC))
            .expect("a fresh store");
        let app = Arc::new(App::new(
            yard,
            Arc::new(Words::english()),
            Arc::new(StillWorld::at(now)),
            "http://127.0.0.1".into(),
        ));
        let path = format!("/y/{}", app.tag());
        let runtime = Runtime::new().expect("a runtime");
        let mut served = Served {
            runtime,
            router: server::router(app),
            yard: path,
            file: String::new(),
        };
        let page = served.get(&served.yard);
        let at = page.find("/static/").expect("the page has a style sheet");
        served.file = page[at..].split('"').next().unwrap_or_default().to_owned();
        served
    })
}

/// The anchor: a file of ours from memory.
#[divan::bench(sample_count = 100)]
fn a_static_file(bencher: divan::Bencher<'_, '_>) {
    let served = served();
    bencher.bench(|| served.get(&served.file).len());
}

#[divan::bench(sample_count = 100)]
fn the_yards_page(bencher: divan::Bencher<'_, '_>) {
    let served = served();
    bencher.bench(|| served.get(&served.yard).len());
}

#[divan::bench(sample_count = 100)]
fn the_machines_page(bencher: divan::Bencher<'_, '_>) {
    let served = served();
    let path = format!("{}/m/marigold", served.yard);
    bencher.bench(|| served.get(&path).len());
}
