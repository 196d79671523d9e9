//! From a request to its answer: the address, who asks, what is sent, then the operation itself.

use super::{
    asked::{Asked, Asker},
    operation::{Kind, Method, Operation, Parameter, Sent, Who},
    refused::Refused,
    table::OPERATIONS,
};
use crate::{app::App, caller::Caller, photo, refusal::Refusal, session, tokens};
use axum::{
    Router,
    body::{Body, to_bytes},
    extract::{FromRequestParts, Query, RawPathParams, Request, State},
    http::{HeaderMap, HeaderValue, header, request::Parts},
    middleware::{Next, from_fn},
    response::Response,
    routing::{MethodRouter, get, post, put},
};
use std::{collections::BTreeMap, sync::Arc, time::Duration};
use tokio::sync::{Semaphore, SemaphorePermit};
use tower_http::csrf::{CsrfLayer, ProtectionError};
use words::Words;
use yard::{
    id::{EntryId, MachineId, PersonId, PhotoId},
    people::may,
};

/// Longest that JSON may take to arrive: 4 MiB over a weak link in the yard.
const LONGEST: Duration = Duration::from_secs(120);

/// All that was sent and is not answered yet may take so much memory, KiB. Whoever comes then waits at the door: a phone that
/// comes back into range with all others must not cost more than it sends.
const ROOM: usize = 64 << 10;
static WAITING: Semaphore = Semaphore::const_new(ROOM);

/// Whether an address belongs to the API, known path or not.
pub(crate) fn is_here(path: &str) -> bool {
    path == "/api" || path.starts_with("/api/")
}

/// All operations as routes, with their whole paths.
pub(crate) fn routes(words: Arc<Words>) -> Router<Arc<App>> {
    let mut paths: BTreeMap<&str, MethodRouter<Arc<App>>> = BTreeMap::new();
    for operation in OPERATIONS {
        let handler =
            move |state: State<Arc<App>>, request: Request| serve(operation, state, request);
        let route = match operation.method {
            Method::Get => get(handler),
            Method::Post => post(handler),
            Method::Put => put(handler),
        };
        let before = paths.remove(operation.path).unwrap_or_default();
        paths.insert(operation.path, before.merge(route));
    }
    let not_found =
        |State(app): State<Arc<App>>| async move { Refused::of("not-found").answer(&app.words) };
    let method =
        |State(app): State<Arc<App>>| async move { Refused::of("method").answer(&app.words) };
    let mut router = Router::new();
    for (path, route) in paths {
        router = router.route(path, route.fallback(method));
    }
    router = router
        .route("/api", axum::routing::any(not_found))
        .route("/api/", axum::routing::any(not_found))
        .route("/api/{*rest}", axum::routing::any(not_found));
    let cross_site = move |_: ProtectionError| Refused::of("cross-site").answer(&words);
    router
        .layer(CsrfLayer::new().with_rejection_response(cross_site))
        .layer(from_fn(token_alone))
}

/// A request with a token stands on the token alone: its cookie is not looked at, so that no other site can make use of it.
async fn token_alone(mut request: Request, next: Next) -> Response {
    let heads = request.headers_mut();
    if heads.contains_key(header::AUTHORIZATION) {
        for name in [header::COOKIE, header::ORIGIN] {
            heads.remove(name);
        }
        heads.remove("sec-fetch-site");
    }
    next.run(request).await
}

async fn serve(
    operation: &'static Operation,
    State(app): State<Arc<App>>,
    request: Request,
) -> Response {
    match asked(operation, app.clone(), request).await {
        Ok(asked) => waiting(move || (operation.run)(&asked))
            .await
            .unwrap_or_else(|refused| refused.answer(&app.words)),
        Err(refused) => refused.answer(&app.words),
    }
}

/// Does work on a thread that may wait for the disk.
async fn waiting<T: Send + 'static>(
    work: impl FnOnce() -> Result<T, Refused> + Send + 'static,
) -> Result<T, Refused> {
    tokio::task::spawn_blocking(work)
        .await
        .unwrap_or_else(|stopped| Err(Refusal::Ours(stopped.to_string()).into()))
}

/// Everything that can be said against a request before its operation is asked. Nothing is read of what was sent until it is
/// known who sends it.
async fn asked(
    operation: &'static Operation,
    app: Arc<App>,
    request: Request,
) -> Result<Asked, Refused> {
    let (mut parts, body) = request.into_parts();
    let named = parameters(operation, &app, &mut parts).await?;
    let asker = if operation.who == Who::Anybody {
        None
    } else {
        let (app, heads, caller) = (app.clone(), parts.headers.clone(), Caller::of(&parts));
        Some(waiting(move || entitled(operation.who, &app, asker(&app, &heads, &caller)?)).await?)
    };
    let (body, room) = match &operation.sent {
        Some(Sent::Json { most, .. }) => {
            let (body, room) = sent_along(&parts.headers, body, *most).await?;
            (body, Some(room))
        }
        Some(Sent::Picture) => {
            let picture = photo::whole_body(body).await.map_err(Refusal::from)?;
            (picture, None)
        }
        None => (Vec::new(), None),
    };
    let clock = parts
        .headers
        .get("writer-clock")
        .and_then(|value| value.to_str().ok());
    Ok(Asked {
        asker,
        parts: named,
        body,
        _room: room,
        clock: clock.and_then(|clock| clock.parse().ok()),
        now: app.world.now(),
        app,
    })
}

/// The asker, if both what they hold and their role allow it.
fn entitled(who: Who, app: &App, asker: Asker) -> Result<Asker, Refused> {
    let (within, deed) = match who {
        Who::Anybody | Who::Known => return Ok(asker),
        Who::Reads(deed) => (asker.reads, deed),
        Who::Delivers(deed) => (asker.delivers, deed),
    };
    if !within {
        return Err(Refused::of("scope"));
    }
    let role = app.gate()?.role(asker.person, app.world.now());
    if may(role, deed) {
        Ok(asker)
    } else {
        Err(Refused::of("may-not"))
    }
}

/// Who asks: by token, or signed in.
fn asker(app: &App, heads: &HeaderMap, caller: &Caller) -> Result<Asker, Refused> {
    if let Some(held) = heads.get(header::AUTHORIZATION) {
        return by_token(app, held).ok_or_else(|| Refused::of("token"))?;
    }
    let signed = session::signed_in(app, caller)?.ok_or_else(|| Refused::of("sign-in"))?;
    Ok(Asker {
        person: signed.person,
        until: signed.until,
        reads: true,
        delivers: true,
    })
}

/// Who a token acts for; none where what stands in the header is no token.
fn by_token(app: &App, held: &HeaderValue) -> Option<Result<Asker, Refused>> {
    let (scheme, secret) = held.to_str().ok()?.split_once(' ')?;
    if !scheme.eq_ignore_ascii_case("bearer") {
        return None;
    }
    let token = match tokens::holding(app, secret.trim()) {
        Ok(token) => token?,
        Err(refusal) => return Some(Err(refusal.into())),
    };
    Some(Ok(Asker {
        person: PersonId(token.person),
        until: token.expires,
        reads: token.reads,
        delivers: token.delivers,
    }))
}

/// The address's parts, each as the operation says.
async fn parameters(
    operation: &Operation,
    app: &App,
    parts: &mut Parts,
) -> Result<BTreeMap<String, String>, Refused> {
    let in_path = RawPathParams::from_request_parts(parts, &())
        .await
        .map_err(|_| Refused::of("not-found"))?;
    let mut named: BTreeMap<String, String> = in_path
        .iter()
        .map(|(name, value)| (name.to_owned(), value.to_owned()))
        .collect();
    let behind = Query::<Vec<(String, String)>>::try_from_uri(&parts.uri);
    for parameter in operation.parameters {
        if parameter.kind.in_path() {
            let fits = named
                .get(parameter.name)
                .is_some_and(|part| fits_path(parameter.kind, part, app));
            if !fits {
                return Err(Refused::of("not-found"));
            }
        } else {
            let wrong = || Refused::with("parameter", "name", parameter.name);
            let Query(pairs) = behind.as_ref().map_err(|_| wrong())?;
            let said = pairs.iter().find(|(name, _)| name == parameter.name);
            let value = said_or_not(parameter, said.map(|(_, value)| value.as_str()));
            named.insert(parameter.name.to_owned(), value.ok_or_else(wrong)?);
        }
    }
    Ok(named)
}

fn fits_path(kind: Kind, part: &str, app: &App) -> bool {
    match kind {
        Kind::Tag => part == app.tag(),
        Kind::Machine => MachineId::new(part).is_some(),
        Kind::Entry => part.parse::<EntryId>().is_ok(),
        Kind::Photo => part.parse::<PhotoId>().is_ok(),
        Kind::Number(..) | Kind::Word(_) => false,
    }
}

/// What stands behind the question mark, or what holds where nothing does; none where it does not fit.
fn said_or_not(parameter: &Parameter, said: Option<&str>) -> Option<String> {
    match (parameter.kind, said) {
        (Kind::Number(_, _, unsaid), None) => Some(unsaid.to_string()),
        (Kind::Number(least, most, _), Some(said)) => {
            let number: u64 = said.parse().ok()?;
            (least..=most).contains(&number).then(|| number.to_string())
        }
        (Kind::Word(words), None) => words.first().map(|word| (*word).to_owned()),
        (Kind::Word(words), Some(said)) => words.contains(&said).then(|| said.to_owned()),
        _ => None,
    }
}

/// What was sent, if it says that it is JSON and is not too large, and the room it takes.
async fn sent_along(
    heads: &HeaderMap,
    body: Body,
    most: usize,
) -> Result<(Vec<u8>, SemaphorePermit<'static>), Refused> {
    let said = |name| heads.get(name).and_then(|value| value.to_str().ok());
    let essence = said(header::CONTENT_TYPE)
        .and_then(|media| media.split(';').next())
        .map(str::trim);
    if !essence.is_some_and(|essence| essence.eq_ignore_ascii_case("application/json")) {
        return Err(Refused::of("media-type"));
    }
    let too_large = || Refused::with("too-large", "most", most >> 20);
    let length: Option<usize> = said(header::CONTENT_LENGTH).and_then(|length| length.parse().ok());
    if length.is_some_and(|length| length > most) {
        return Err(too_large());
    }
    let room = room_for(length.unwrap_or(most)).await?;
    let Ok(read) = tokio::time::timeout(LONGEST, to_bytes(body, most)).await else {
        return Err(Refused::of("cut-off"));
    };
    match read {
        Ok(bytes) => Ok((bytes.into(), room)),
        Err(error) if is_over_length(&error) => Err(too_large()),
        Err(_) => Err(Refused::of("cut-off")),
    }
}

/// Waits until there is room for so many bytes.
async fn room_for(bytes: usize) -> Result<SemaphorePermit<'static>, Refused> {
    let wanted = u32::try_from(bytes.div_ceil(1 << 10).clamp(1, ROOM)).unwrap_or(u32::MAX);
    let room = WAITING.acquire_many(wanted).await;
    room.map_err(|closed| Refusal::Ours(closed.to_string()).into())
}

fn is_over_length(error: &axum::Error) -> bool {
    let inner = std::error::Error::source(error);
    inner.is_some_and(|inner| inner.to_string().contains("length limit"))
}
