//! Every address on one page, grouped by who calls it. Addresses printed on walls never change meaning.

use crate::{
    app::App,
    assets,
    desk::Desk,
    pages::{
        book, handover, journal, papers as paper_pages,
        people::{self, first, sign_in, sign_offs},
        phone::take_in,
        upkeep::{self, fault, finding, hours, one_text::OneText, permit, run, service},
        walkround::{form::Typed, round, sheet, station},
        yard::{explain, home, machine},
    },
    photo,
    refusal::Refusal,
    session,
};
use axum::{
    Form, Router,
    extract::{DefaultBodyLimit, OriginalUri, Path, Query, State},
    http::{HeaderMap, HeaderValue, StatusCode, Uri, header},
    response::{IntoResponse, Redirect, Response},
    routing::{get, post},
};
use std::{collections::BTreeMap, sync::Arc};
use tower_http::{
    catch_panic::CatchPanicLayer, csrf::CsrfLayer, set_header::SetResponseHeaderLayer,
};

type Pairs = Vec<(String, String)>;
type Asked = Query<BTreeMap<String, String>>;
type Shared = State<Arc<App>>;

/// Nothing but ourselves: no script or style inside a page, no frame, no outside request.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; font-src 'self'; manifest-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/// The whole server as one service.
pub fn router(app: Arc<App>) -> Router {
    let header =
        |name, value| SetResponseHeaderLayer::if_not_present(name, HeaderValue::from_static(value));
    Router::new()
        // anybody
        .route(
            "/",
            get(|State(app): Shared| async move { Redirect::to(&format!("/y/{}", app.tag())) }),
        )
        .route("/static/{mark}/{name}", get(assets::serve))
        .route("/health", get(|| async { "ok" }))
        .route("/rules", page(|desk, _, _| explain::rules(desk)))
        .route("/reckoner", page(|desk, _, _| explain::reckoner(desk)))
        .route(
            "/reckoner/{leaf}",
            page(|desk, at, _| explain::leaf(desk, at.part("leaf"))),
        )
        .nest("/y/{tag}", yard_routes().merge(machine_routes()))
        .merge(crate::api::routes(app.words.clone()))
        .fallback(
            |state: Shared, headers: HeaderMap, OriginalUri(uri): OriginalUri| {
                answer(state, headers, uri, |_| Err(Refusal::NotFound))
            },
        )
        .layer(DefaultBodyLimit::max(1 << 20))
        .layer(CsrfLayer::new().with_insecure_bypass(|_, uri| crate::api::is_here(uri.path())))
        .layer(header(header::CONTENT_SECURITY_POLICY, POLICY))
        .layer(header(header::X_CONTENT_TYPE_OPTIONS, "nosniff"))
        .layer(header(header::REFERRER_POLICY, "same-origin"))
        .layer(CatchPanicLayer::new())
        .with_state(app)
}

fn yard_routes() -> Router<Arc<App>> {
    Router::new()
        .route("/", page(|desk, _, _| home::show(desk)))
        .route(
            "/sign-in",
            page(|desk, at, _| sign_in::show(desk, at.asked("back"), "", "")).post(sign_in_now),
        )
        .route("/sign-out", post(sign_out))
        .route(
            "/first/{token}",
            page(|desk, at, _| first::show(desk, at.part("token"))).post(first_pin),
        )
        .route(
            "/people",
            page(|desk, _, _| people::list::show(desk))
                .merge(form(|desk, _, typed| people::list::add(desk, typed))),
        )
        .route(
            "/people/{person}",
            form(|desk, at, typed| people::list::change(desk, at.part("person"), typed)),
        )
        .route(
            "/habits",
            both(
                |desk, _| people::habits::show(desk),
                |desk, _, typed| people::habits::keep(desk, typed),
            ),
        )
        .route(
            "/photos/{photo}",
            page(|desk, at, _| photo::show(desk, at.part("photo"), at.asked("size"))),
        )
        .route(
            "/journal",
            page(|desk, at, _| journal::list::show(desk, None, at.asked("before").parse().ok())),
        )
        .route(
            "/take-in",
            both(
                |desk, _| take_in::show(desk),
                |desk, _, typed| take_in::keep(desk, typed),
            ),
        )
        .route(
            "/questions",
            page(|desk, _, _| journal::questions::show(desk)),
        )
        .route(
            "/questions/{entry}",
            form(|desk, at, typed| journal::questions::settle(desk, at.part("entry"), typed)),
        )
        .route(
            "/correct/{entry}",
            page(|desk, at, _| journal::correct::show(desk, at.part("entry"))).merge(form(
                |desk, at, typed| journal::correct::keep(desk, at.part("entry"), typed),
            )),
        )
}

fn machine_routes() -> Router<Arc<App>> {
    let m = |at: &Place| at.part("machine").to_owned();
    Router::new()
        .route(
            "/m/{machine}",
            page(move |desk, at, _| machine::show(desk, &m(at))),
        )
        .route(
            "/m/{machine}/round",
            page(move |desk, at, _| round::show(desk, &m(at), !at.asked("list").is_empty())),
        )
        .route(
            "/m/{machine}/round/begin",
            form(move |desk, at, typed| round::begin(desk, &m(at), typed)),
        )
        .route(
            "/m/{machine}/round/close",
            form(move |desk, at, typed| round::close(desk, &m(at), typed)),
        )
        .route(
            "/m/{machine}/round/{leg}/{station}",
            page(move |desk, at, _| {
                station::show(desk, &m(at), at.part("leg"), at.part("station"))
            })
            .merge(form(move |desk, at, typed| {
                station::keep(desk, &m(at), at.part("leg"), at.part("station"), typed)
            })),
        )
        .route(
            "/m/{machine}/sheet",
            both(
                move |desk, at| sheet::show(desk, &m(at)),
                move |desk, at, typed| sheet::keep(desk, &m(at), typed),
            ),
        )
        .route(
            "/m/{machine}/handover",
            both(
                move |desk, at| handover::leave::show(desk, &m(at)),
                move |desk, at, typed| handover::leave::keep(desk, &m(at), typed),
            ),
        )
        .route(
            "/m/{machine}/fault",
            both(
                move |desk, at| fault::show(desk, &m(at)),
                move |desk, at, typed| fault::keep(desk, &m(at), typed),
            ),
        )
        .route(
            "/m/{machine}/note",
            both(
                move |desk, at| OneText::Note.show(desk, &m(at)),
                move |desk, at, typed| OneText::Note.keep(desk, &m(at), typed),
            ),
        )
        .route(
            "/m/{machine}/photo",
            page(move |desk, at, _| upkeep::photo::show(desk, &m(at), at.asked("of")))
                .merge(post(upkeep::photo::take))
                .layer(DefaultBodyLimit::max(photo::MOST_READ)),
        )
        .route(
            "/m/{machine}/hours",
            both(
                move |desk, at| hours::show(desk, &m(at)),
                move |desk, at, typed| hours::keep(desk, &m(at), typed),
            ),
        )
        .route(
            "/m/{machine}/run",
            both(
                move |desk, at| run::show(desk, &m(at)),
                move |desk, at, typed| run::keep(desk, &m(at), typed),
            ),
        )
        .route(
            "/m/{machine}/run/end",
            both(
                move |desk, at| run::show_end(desk, &m(at)),
                move |desk, at, typed| run::keep_end(desk, &m(at), typed),
            ),
        )
        .route(
            "/m/{machine}/service",
            both(
                move |desk, at| service::show(desk, &m(at)),
                move |desk, at, typed| service::keep(desk, &m(at), typed),
            ),
        )
        .route(
            "/m/{machine}/stand-down",
            both(
                move |desk, at| OneText::StandDown.show(desk, &m(at)),
                move |desk, at, typed| OneText::StandDown.keep(desk, &m(at), typed),
            ),
        )
        .route(
            "/m/{machine}/permit",
            both(
                move |desk, at| permit::show(desk, &m(at)),
                move |desk, at, typed| permit::keep(desk, &m(at), typed),
            ),
        )
        .route(
            "/m/{machine}/sign-offs",
            both(
                move |desk, at| sign_offs::show(desk, &m(at)),
                move |desk, at, typed| sign_offs::keep(desk, &m(at), typed),
            ),
        )
        .route(
            "/m/{machine}/finding/{finding}",
            page(move |desk, at, _| finding::show(desk, &m(at), at.part("finding"))),
        )
        .route(
            "/m/{machine}/finding/{finding}/mend",
            form(move |desk, at, typed| finding::mend(desk, &m(at), at.part("finding"), typed)),
        )
        .route(
            "/m/{machine}/finding/{finding}/release",
            form(move |desk, at, typed| finding::release(desk, &m(at), at.part("finding"), typed)),
        )
        .route(
            "/m/{machine}/journal",
            page(move |desk, at, _| {
                journal::list::show(desk, Some(&m(at)), at.asked("before").parse().ok())
            }),
        )
        .route(
            "/m/{machine}/book",
            both(
                move |desk, at| book::text::show(desk, &m(at)),
                move |desk, at, typed| book::text::change(desk, &m(at), typed, typed.long("text")),
            ),
        )
        .route(
            "/m/{machine}/book/gap",
            form(move |desk, at, typed| book::text::accept_gap(desk, &m(at), typed)),
        )
        .route(
            "/m/{machine}/figure/{which}",
            page(
                move |desk, at, _| match at.part("which").strip_suffix(".json") {
                    Some(which) => explain::figure_json(desk, &m(at), which),
                    None => explain::figure(desk, &m(at), at.part("which")),
                },
            ),
        )
        .route(
            "/m/{machine}/papers/{file}",
            page(move |desk, at, _| {
                paper_pages::show(
                    desk,
                    &m(at),
                    at.part("file"),
                    at.asked("size"),
                    Some(at.asked("finding")),
                )
            }),
        )
}

/// What an address says: its parts and what stands behind the question mark.
pub(crate) struct Place {
    parts: BTreeMap<String, String>,
    asked: BTreeMap<String, String>,
}

impl Place {
    pub(crate) fn part(&self, name: &str) -> &str {
        self.parts.get(name).map_or("", String::as_str)
    }
    fn asked(&self, name: &str) -> &str {
        self.asked.get(name).map_or("", String::as_str)
    }
}

type Routes = axum::routing::MethodRouter<Arc<App>>;

/// A page that is only looked at.
fn page(
    show: impl Fn(&Desk, &Place, &()) -> crate::desk::Answer + Clone + Send + Sync + 'static,
) -> Routes {
    get(
        move |state: Shared,
              headers: HeaderMap,
              OriginalUri(uri): OriginalUri,
              Path(parts): Path<BTreeMap<String, String>>,
              Query(asked): Asked| {
            let show = show.clone();
            answer(state, headers, uri, move |desk| {
                show(desk, &in_yard(desk, parts, asked)?, &())
            })
        },
    )
}

/// A form that is kept.
fn form(
    keep: impl Fn(&Desk, &Place, &Typed) -> crate::desk::Answer + Clone + Send + Sync + 'static,
) -> Routes {
    post(
        move |state: Shared,
              headers: HeaderMap,
              OriginalUri(uri): OriginalUri,
              Path(parts): Path<BTreeMap<String, String>>,
              Form(pairs): Form<Pairs>| {
            let keep = keep.clone();
            answer(state, headers, uri, move |desk| {
                keep(
                    desk,
                    &in_yard(desk, parts, BTreeMap::new())?,
                    &Typed::of(pairs),
                )
            })
        },
    )
}

/// A form shown and kept at one address.
fn both(
    show: impl Fn(&Desk, &Place) -> crate::desk::Answer + Clone + Send + Sync + 'static,
    keep: impl Fn(&Desk, &Place, &Typed) -> crate::desk::Answer + Clone + Send + Sync + 'static,
) -> Routes {
    page(move |desk, at, ()| show(desk, at)).merge(form(keep))
}

/// Another yard's tag is another yard: not found here.
pub(crate) fn in_yard(
    desk: &Desk,
    parts: BTreeMap<String, String>,
    asked: BTreeMap<String, String>,
) -> Result<Place, Refusal> {
    match parts.get("tag") {
        Some(tag) if *tag != desk.app.tag() => Err(Refusal::NotFound),
        _ => Ok(Place { parts, asked }),
    }
}

/// Sets up a desk for the request and runs the page on a thread that may wait for the disk.
pub(crate) async fn answer(
    State(app): Shared,
    headers: HeaderMap,
    uri: Uri,
    work: impl FnOnce(&Desk) -> crate::desk::Answer + Send + 'static,
) -> Response {
    let done = tokio::task::spawn_blocking(move || {
        let person = holder(&app, &headers);
        let path = uri
            .path_and_query()
            .map(ToString::to_string)
            .unwrap_or_default();
        match person.and_then(|person| Desk::set_up(app, person, path)) {
            Ok(desk) => desk.answer(work),
            Err(refusal) => refusal.into_response(),
        }
    });
    done.await
        .unwrap_or_else(|_| StatusCode::INTERNAL_SERVER_ERROR.into_response())
}

fn holder(app: &App, headers: &HeaderMap) -> Result<session::Holder, Refusal> {
    let Some(secret) = session::secret_of(headers) else {
        return Ok(None);
    };
    let session = app.yard.session(&session::hash(&secret), app.world.now())?;
    Ok(session.and_then(|s| s.person).map(yard::id::PersonId))
}

async fn sign_in_now(
    state: Shared,
    headers: HeaderMap,
    OriginalUri(uri): OriginalUri,
    Form(pairs): Form<Pairs>,
) -> Response {
    let app = state.0.clone();
    // One argon2 at a time: each takes 19 MB.
    let Ok(_turn) = app.hashing.acquire().await else {
        return StatusCode::SERVICE_UNAVAILABLE.into_response();
    };
    answer(state, headers, uri, move |desk| {
        let typed = Typed::of(pairs);
        match sign_in::check(desk, &typed)? {
            Some(person) => begin_session(
                desk,
                person,
                &session::back(typed.field("back"), &format!("/y/{}", desk.app.tag())),
            ),
            None => sign_in::show(
                desk,
                typed.field("back"),
                &desk.page().t("sign-in-wrong"),
                typed.field("person"),
            ),
        }
    })
    .await
}

async fn first_pin(
    state: Shared,
    headers: HeaderMap,
    OriginalUri(uri): OriginalUri,
    Path(parts): Path<BTreeMap<String, String>>,
    Form(pairs): Form<Pairs>,
) -> Response {
    let app = state.0.clone();
    let Ok(_turn) = app.hashing.acquire().await else {
        return StatusCode::SERVICE_UNAVAILABLE.into_response();
    };
    answer(state, headers, uri, move |desk| {
        let place = in_yard(desk, parts, BTreeMap::new())?;
        match first::keep(desk, place.part("token"), &Typed::of(pairs))? {
            Ok(person) => begin_session(desk, person, &format!("/y/{}", desk.app.tag())),
            Err(asked) => Ok(asked),
        }
    })
    .await
}

fn begin_session(desk: &Desk, person: yard::id::PersonId, to: &str) -> crate::desk::Answer {
    let secret = session::secret(desk.app.world.as_ref());
    let until = desk.now + jiff::SignedDuration::from_hours(session::HOURS);
    let session = store::Session {
        person: Some(person.0),
        data: String::new(),
        expires: until,
    };
    desk.app
        .yard
        .keep_session(&session::hash(&secret), &session)?;
    Ok((
        [(header::SET_COOKIE, session::cookie(&secret))],
        Redirect::to(to),
    )
        .into_response())
}

async fn sign_out(state: Shared, headers: HeaderMap, OriginalUri(uri): OriginalUri) -> Response {
    let secret = session::secret_of(&headers);
    answer(state, headers, uri, move |desk| {
        if let Some(secret) = secret {
            desk.app.yard.end_session(&session::hash(&secret))?;
        }
        Ok((
            [(header::SET_COOKIE, session::no_cookie())],
            Redirect::to(&format!("/y/{}", desk.app.tag())),
        )
            .into_response())
    })
    .await
}
