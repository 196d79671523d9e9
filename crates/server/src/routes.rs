//! Every address on one page, grouped by who calls it. Addresses printed on walls never change meaning.

use crate::{
    app::App,
    assets,
    caller::Caller,
    desk::Desk,
    limits,
    pages::{
        arm, arrival, book, handover, journal,
        kept::{attachments, documents, leaving, parts, shelf as on_shelf, shopping},
        papers as paper_pages,
        people::{self, first, me, sign_in, sign_offs},
        phone::take_in,
        pocket::{one as pocket, shelf, worker},
        trust,
        upkeep::{
            self, comes_back, fault, finding, greasing, happened, hours, lesson, one_text::OneText,
            part, permit, purchase, quiet_day, run, service,
        },
        walkround::{form::Typed, round, sheet, signs, station, together},
        yard::{explain, home, machine},
    },
    photo,
    refusal::Refusal,
    session,
};
use axum::{
    Form, Router,
    extract::{DefaultBodyLimit, FromRequestParts, OriginalUri, Path, Query},
    http::{HeaderName, HeaderValue, StatusCode, Uri, header, request::Parts},
    middleware::from_fn_with_state,
    response::{IntoResponse, Redirect, Response},
    routing::{get, post},
};
use std::{collections::BTreeMap, convert::Infallible, sync::Arc};
use tower_http::{
    catch_panic::CatchPanicLayer, csrf::CsrfLayer, set_header::SetResponseHeaderLayer,
    timeout::TimeoutLayer,
};

type Pairs = Vec<(String, String)>;
type Asked = Query<BTreeMap<String, String>>;

/// The server, and who asks it.
#[derive(Clone)]
pub(crate) struct Shared(pub(crate) Arc<App>, pub(crate) Caller);

impl FromRequestParts<Arc<App>> for Shared {
    type Rejection = Infallible;
    async fn from_request_parts(parts: &mut Parts, app: &Arc<App>) -> Result<Self, Infallible> {
        Ok(Self(app.clone(), Caller::of(parts)))
    }
}

/// Nothing but ourselves: no script or style inside a page, no frame, no outside request.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; font-src 'self'; manifest-src 'self'; worker-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/// Of what a device can do beyond showing pages, the camera alone, and that only for our own pages.
const PERMISSIONS: &str = "accelerometer=(), bluetooth=(), camera=(self), display-capture=(), geolocation=(), gyroscope=(), hid=(), magnetometer=(), microphone=(), midi=(), payment=(), serial=(), usb=()";

/// The whole server as one service.
pub fn router(app: Arc<App>) -> Router {
    let routes = open_routes()
        .route(
            "/",
            get(|Shared(app, _): Shared| async move { Redirect::to(&format!("/y/{}", app.tag())) }),
        )
        .route("/worker.js", get(worker::script))
        .route("/rules", page(|desk, _, _| explain::rules(desk)))
        .route("/reckoner", page(|desk, _, _| explain::reckoner(desk)))
        .route(
            "/reckoner/{leaf}",
            page(|desk, at, _| explain::leaf(desk, at.part("leaf"))),
        )
        .nest("/y/{tag}", yard_routes().merge(machine_routes()))
        .merge(crate::api::routes(app.words.clone()))
        .fallback(|state: Shared, OriginalUri(uri): OriginalUri| {
            answer(state, uri, |_| Err(Refusal::NotFound))
        });
    dressed(routes, app)
}

/// The whole server for requests that came over TLS: they say so, and cookies set in answer are for TLS only.
pub fn secure_router(app: Arc<App>) -> Router {
    router(app).layer(axum::Extension(session::OverTls))
}

/// What is the same before anything is trusted and after: also what the plain port answers beside HTTPS.
pub(crate) fn open_routes() -> Router<Arc<App>> {
    Router::new()
        .route("/static/{mark}/{name}", get(assets::serve))
        .route("/health", get(|| async { "ok" }))
        .route("/trust", page(|desk, _, _| trust::show(desk)))
        .route(
            "/trust/{file}",
            page(|desk, at, _| trust::root(desk, at.part("file"))),
        )
}

/// With limits, headers and the state that every answer has.
pub(crate) fn dressed(routes: Router<Arc<App>>, app: Arc<App>) -> Router {
    let header =
        |name, value| SetResponseHeaderLayer::if_not_present(name, HeaderValue::from_static(value));
    routes
        .layer(DefaultBodyLimit::max(1 << 20))
        .layer(CsrfLayer::new().with_insecure_bypass(|_, uri| crate::api::is_here(uri.path())))
        .layer(from_fn_with_state(app.clone(), limits::within))
        .layer(TimeoutLayer::with_status_code(
            StatusCode::REQUEST_TIMEOUT,
            limits::LONGEST,
        ))
        .layer(header(header::CONTENT_SECURITY_POLICY, POLICY))
        .layer(header(header::X_CONTENT_TYPE_OPTIONS, "nosniff"))
        .layer(header(header::REFERRER_POLICY, "same-origin"))
        // What is not said to be for keeping is somebody's.
        .layer(header(header::CACHE_CONTROL, "no-store"))
        .layer(header(
            HeaderName::from_static("cross-origin-opener-policy"),
            "same-origin",
        ))
        .layer(header(
            HeaderName::from_static("cross-origin-resource-policy"),
            "same-origin",
        ))
        .layer(header(
            HeaderName::from_static("permissions-policy"),
            PERMISSIONS,
        ))
        .layer(CatchPanicLayer::new())
        .with_state(app)
}

fn yard_routes() -> Router<Arc<App>> {
    Router::new()
        .route("/", page(|desk, _, _| home::show(desk)))
        .route(
            "/sign-in",
            page(|desk, at, _| sign_in::show(desk, at.asked("back")))
                .merge(pin_form(|desk, _, typed| sign_in::keep(desk, typed))),
        )
        .route("/sign-out", form(|desk, _, _| sign_in::out(desk)))
        .route(
            "/first/{token}",
            page(|desk, at, _| first::show(desk, at.part("token"))).merge(pin_form(
                |desk, at, typed| first::keep(desk, at.part("token"), typed),
            )),
        )
        .route("/me", page(|desk, _, _| me::show(desk)))
        .route("/me/data.json", page(|desk, _, _| me::data(desk)))
        .route(
            "/me/erase",
            pin_form(|desk, _, typed| me::erase(desk, typed)),
        )
        .route(
            "/me/sign-ins/{sign_in}/end",
            form(|desk, at, _| me::sign_out_there(desk, at.part("sign_in"))),
        )
        .route("/pocket", page(|desk, _, _| shelf::show(desk)))
        .route(
            "/manifest.webmanifest",
            page(|desk, _, _| worker::manifest(desk)),
        )
        .route(
            "/people",
            page(|desk, _, _| people::list::show(desk))
                .merge(pin_form(|desk, _, typed| people::list::add(desk, typed))),
        )
        .route(
            "/people/{person}",
            pin_form(|desk, at, typed| people::list::change(desk, at.part("person"), typed)),
        )
        .route(
            "/people/{person}/erase",
            pin_form(|desk, at, typed| people::rights::erase(desk, at.part("person"), typed)),
        )
        .route(
            "/people/{person}/pin-link",
            form(|desk, at, _| people::rights::give_link(desk, at.part("person"))),
        )
        .route(
            "/people/{person}/unlock",
            form(|desk, at, _| people::rights::unlock(desk, at.part("person"))),
        )
        .route(
            "/tokens",
            both(
                |desk, _| people::tokens::show(desk),
                |desk, _, typed| people::tokens::make(desk, typed),
            ),
        )
        .route(
            "/tokens/{token}/end",
            form(|desk, at, _| people::tokens::end(desk, at.part("token"))),
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
        .route("/signs", page(|desk, _, _| signs::show(desk)))
        .route("/quiet-day", page(|desk, _, _| quiet_day::show(desk)))
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
        .route("/shopping", page(|desk, _, _| shopping::show(desk)))
        .route(
            "/documents",
            both(
                |desk, _| documents::show(desk, None),
                |desk, _, typed| documents::keep(desk, None, typed),
            ),
        )
        .route(
            "/documents/{document}/end",
            form(|desk, at, typed| documents::end(desk, None, at.part("document"), typed)),
        )
        .route(
            "/papers/{file}",
            page(|desk, at, _| paper_pages::of_yard::show(desk, at.part("file"), at.asked("size"))),
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
            "/m/{machine}/pocket",
            page(move |desk, at, _| pocket::show(desk, &m(at))),
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
            "/m/{machine}/round/join",
            form(move |desk, at, typed| together::join(desk, &m(at), typed)),
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
        .route("/m/{machine}/sheet", of_machine(sheet::show, sheet::keep))
        .route(
            "/m/{machine}/handover",
            of_machine(handover::leave::show, handover::leave::keep),
        )
        .route(
            "/m/{machine}/arm",
            page(move |desk, at, _| arm::show(desk, &m(at), &|name| at.asked(name).to_owned())),
        )
        .route(
            "/m/{machine}/arm/pose",
            page(move |desk, at, _| arm::pose(desk, &m(at), &|name| at.asked(name).to_owned())),
        )
        .route(
            "/m/{machine}/arm/figure",
            page(move |desk, at, _| arm::figure(desk, &m(at), &|name| at.asked(name).to_owned())),
        )
        .route("/m/{machine}/fault", of_machine(fault::show, fault::keep))
        .route(
            "/m/{machine}/happened",
            of_machine(happened::show, happened::keep),
        )
        .route(
            "/m/{machine}/note",
            of_machine(
                |desk, machine| OneText::Note.show(desk, machine),
                |desk, machine, typed| OneText::Note.keep(desk, machine, typed),
            ),
        )
        .route(
            "/m/{machine}/photo",
            page(move |desk, at, _| {
                upkeep::photo::show(desk, &m(at), at.asked("of"), at.asked("point"))
            })
            .merge(post(upkeep::photo::take))
            .layer(DefaultBodyLimit::max(photo::MOST_READ)),
        )
        .route("/m/{machine}/hours", of_machine(hours::show, hours::keep))
        .route(
            "/m/{machine}/run",
            page(move |desk, at, _| run::show(desk, &m(at))).merge(pin_form(
                move |desk, at, typed| run::keep(desk, &m(at), typed),
            )),
        )
        .route(
            "/m/{machine}/run/end",
            of_machine(run::show_end, run::keep_end),
        )
        .route(
            "/m/{machine}/service",
            of_machine(service::show, service::keep),
        )
        .route(
            "/m/{machine}/greasing",
            of_machine(greasing::show, greasing::keep),
        )
        .route("/m/{machine}/part", of_machine(part::show, part::keep))
        .route(
            "/m/{machine}/parts",
            page(move |desk, at, _| parts::show(desk, &m(at))),
        )
        .route(
            "/m/{machine}/shelf",
            of_machine(on_shelf::show, on_shelf::keep),
        )
        .route(
            "/m/{machine}/attachments",
            of_machine(attachments::show, attachments::keep),
        )
        .route(
            "/m/{machine}/arrival",
            of_machine(arrival::show, arrival::keep),
        )
        .route(
            "/m/{machine}/leaving",
            of_machine(leaving::show, leaving::keep),
        )
        .route(
            "/m/{machine}/documents",
            of_machine(
                |desk, machine| documents::show(desk, Some(machine)),
                |desk, machine, typed| documents::keep(desk, Some(machine), typed),
            ),
        )
        .route(
            "/m/{machine}/documents/{document}/end",
            form(move |desk, at, typed| {
                documents::end(desk, Some(&m(at)), at.part("document"), typed)
            }),
        )
        .route(
            "/m/{machine}/purchase",
            of_machine(purchase::show, purchase::keep),
        )
        .route(
            "/m/{machine}/lesson",
            of_machine(lesson::show, lesson::keep),
        )
        .route(
            "/m/{machine}/stand-down",
            of_machine(
                |desk, machine| OneText::StandDown.show(desk, machine),
                |desk, machine, typed| OneText::StandDown.keep(desk, machine, typed),
            ),
        )
        .route(
            "/m/{machine}/permit",
            of_machine(permit::show, permit::keep),
        )
        .route(
            "/m/{machine}/sign-offs",
            of_machine(sign_offs::show, sign_offs::keep),
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
            "/m/{machine}/comes-back",
            page(move |desk, at, _| comes_back::show(desk, &m(at))),
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
              OriginalUri(uri): OriginalUri,
              Path(parts): Path<BTreeMap<String, String>>,
              Query(asked): Asked| {
            let show = show.clone();
            answer(state, uri, move |desk| {
                show(desk, &in_yard(desk, parts, asked)?, &())
            })
        },
    )
}

/// A form as it was sent: where to, and its fields.
type Sent = (OriginalUri, Path<BTreeMap<String, String>>, Form<Pairs>);

/// A form that is kept.
fn form(
    keep: impl Fn(&Desk, &Place, &Typed) -> crate::desk::Answer + Clone + Send + Sync + 'static,
) -> Routes {
    post(move |state: Shared, sent: Sent| kept(state, sent, keep.clone()))
}

/// A form with a PIN in it. One PIN is checked or hashed at a time: each takes 19 MB, and tries are counted one after another.
fn pin_form(
    keep: impl Fn(&Desk, &Place, &Typed) -> crate::desk::Answer + Clone + Send + Sync + 'static,
) -> Routes {
    post(move |state: Shared, sent: Sent| async move {
        let app = state.0.clone();
        let Ok(_turn) = app.hashing.acquire().await else {
            return StatusCode::SERVICE_UNAVAILABLE.into_response();
        };
        kept(state, sent, keep).await
    })
}

async fn kept(
    state: Shared,
    (OriginalUri(uri), Path(parts), Form(pairs)): Sent,
    keep: impl FnOnce(&Desk, &Place, &Typed) -> crate::desk::Answer + Send + 'static,
) -> Response {
    answer(state, uri, move |desk| {
        let at = in_yard(desk, parts, BTreeMap::new())?;
        keep(desk, &at, &Typed::of(pairs))
    })
    .await
}

/// A form shown and kept at one address.
fn both(
    show: impl Fn(&Desk, &Place) -> crate::desk::Answer + Clone + Send + Sync + 'static,
    keep: impl Fn(&Desk, &Place, &Typed) -> crate::desk::Answer + Clone + Send + Sync + 'static,
) -> Routes {
    page(move |desk, at, ()| show(desk, at)).merge(form(keep))
}

/// [`both`] for a form of one machine, which is all it needs of its address.
fn of_machine(
    show: impl Fn(&Desk, &str) -> crate::desk::Answer + Clone + Send + Sync + 'static,
    keep: impl Fn(&Desk, &str, &Typed) -> crate::desk::Answer + Clone + Send + Sync + 'static,
) -> Routes {
    both(
        move |desk, at| show(desk, at.part("machine")),
        move |desk, at, typed| keep(desk, at.part("machine"), typed),
    )
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
    Shared(app, caller): Shared,
    uri: Uri,
    work: impl FnOnce(&Desk) -> crate::desk::Answer + Send + 'static,
) -> Response {
    let done = tokio::task::spawn_blocking(move || {
        let path = uri
            .path_and_query()
            .map(ToString::to_string)
            .unwrap_or_default();
        let program = crate::api::is_here(&path);
        let device = session::first_visit(&app, &caller).filter(|_| !program);
        let mut response = match desk_for(app, caller, path) {
            Ok(desk) => desk.answer(work),
            Err(refusal) => refusal.into_response(),
        };
        let set = response.headers().contains_key(header::SET_COOKIE);
        if let Some(device) = device.filter(|_| !set) {
            response.headers_mut().append(header::SET_COOKIE, device);
        }
        response
    });
    done.await
        .unwrap_or_else(|_| StatusCode::INTERNAL_SERVER_ERROR.into_response())
}

fn desk_for(app: Arc<App>, caller: Caller, path: String) -> Result<Desk, Refusal> {
    let signed = session::signed_in(&app, &caller)?;
    let person = signed.as_ref().map(|signed| signed.person);
    Ok(Desk::set_up(app, person, path)?.asked_by(caller, signed))
}
