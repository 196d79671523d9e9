//! Signing in by name and PIN, and out again; wrong tries are slowed, then stopped: see `guard`.

use crate::{
    desk::{Answer, Desk, page},
    guard::{self, Checked},
    page::Page,
    pages::walkround::{form::Typed, question::Choice},
    refusal::Refusal,
    session,
};
use askama::Template;
use axum::{
    http::{StatusCode, header},
    response::{AppendHeaders, IntoResponse, Redirect},
};
use jiff::Timestamp;
use words::Arg;
use yard::{id::PersonId, people::Role};

#[derive(Template)]
#[template(path = "people/sign_in.html")]
struct SignInPage {
    p: Page,
    asked: Vec<String>,
    hint: String,
    back: String,
    people: Vec<Choice>,
    own: bool,
}

/// Shows the names; whoever signed in here last stands first.
pub(crate) fn show(desk: &Desk, back: &str) -> Answer {
    render(desk, back, Vec::new(), None, false)
}

/// Signs in, or says what to do.
pub(crate) fn keep(desk: &Desk, typed: &Typed) -> Answer {
    let person = typed.field("person").parse().ok().map(PersonId);
    let own = typed.field("device") == "own";
    let home = format!("/y/{}", desk.app.tag());
    let checked = guard::check(desk, person, typed.field("pin"))?;
    if let Checked::Right(person) = checked {
        let to = session::back(typed.field("back"), &home);
        return session::begin(desk, person, !own, &to);
    }
    let asked = say(desk, checked);
    let mut response = render(desk, typed.field("back"), asked, person, own)?;
    if !matches!(checked, Checked::Wrong(_)) {
        *response.status_mut() = StatusCode::TOO_MANY_REQUESTS;
    }
    Ok(response)
}

/// Signs out.
pub(crate) fn out(desk: &Desk) -> Answer {
    if let Some(signed) = &desk.signed {
        desk.app.yard.end_session(&signed.hash)?;
    }
    let gone = session::set_cookie(session::COOKIE, "", desk.caller.tls, 0);
    let home = format!("/y/{}", desk.app.tag());
    Ok((
        AppendHeaders([(header::SET_COOKIE, gone)]),
        Redirect::to(&home),
    )
        .into_response())
}

/// What is said where a PIN was not taken. The same for whoever is not here at all.
pub(crate) fn say(desk: &Desk, checked: Checked) -> Vec<String> {
    let p = desk.page();
    match checked {
        Checked::Right(_) => Vec::new(),
        Checked::Wrong(None) => vec![p.t("pin-wrong")],
        Checked::Wrong(Some(until)) => vec![p.t("pin-wrong"), wait(desk, until)],
        Checked::Wait(until) => vec![p.t("pin-too-many"), wait(desk, until)],
        Checked::Locked => vec![p.t("pin-locked"), p.t("pin-locked.next")],
    }
}

/// When to try again: in seconds while that is soon, else by the clock.
fn wait(desk: &Desk, until: Timestamp) -> String {
    let words = &desk.app.words;
    let seconds = until.duration_since(desk.now).as_secs().max(1);
    if seconds <= 120 {
        return words.say("pin-wait", &[("n", seconds.into())]);
    }
    // The minute shown must be over when they try.
    let until = until + jiff::SignedDuration::from_secs(59);
    let at = words.clock(until, &desk.zone);
    words.say("pin-wait-until", &[("at", Arg::from(at))])
}

fn render(
    desk: &Desk,
    back: &str,
    asked: Vec<String>,
    chosen: Option<PersonId>,
    own: bool,
) -> Answer {
    let p = desk.page();
    let hash = desk.caller.device_hash();
    let device = hash.map(|hash| desk.app.yard.device(&hash)).transpose()?;
    let known = device.flatten().map_or_else(Vec::new, |d| d.people);
    let chosen = chosen.or(known.last().copied().map(PersonId));
    let mut people = who_may(desk)?;
    // The last one here first, then the others who were here, then everybody by name.
    let place = |id: PersonId| known.iter().rposition(|known| *known == id.0);
    people.sort_by(|(a, name), (b, other)| place(*b).cmp(&place(*a)).then(name.cmp(other)));
    let people = people.into_iter().map(|(id, name)| Choice {
        code: id.to_string(),
        word: name,
        chosen: Some(id) == chosen,
    });
    let hint = if desk.view.invented {
        p.t("sign-in-demo-hint")
    } else {
        String::new()
    };
    page(&SignInPage {
        asked,
        hint,
        back: back.to_owned(),
        people: people.collect(),
        own,
        p,
    })
}

/// People with a role and a PIN.
fn who_may(desk: &Desk) -> Result<Vec<(PersonId, String)>, store::StoreError> {
    let role = |id| desk.view.yard.role_at(id, desk.now);
    let all = desk.app.yard.people()?.into_iter();
    let may_sign_in = |person: &store::Person| {
        person.active && person.pin_hash.is_some() && role(person.id) > Role::Visitor
    };
    let named = |person: store::Person| Some((person.id, person.name?));
    Ok(all.filter(may_sign_in).filter_map(named).collect())
}

/// The person signed in, if the PIN they typed is theirs; else what is said.
pub(crate) fn own_word(desk: &Desk, pin: &str) -> Result<Result<PersonId, Vec<String>>, Refusal> {
    let person = desk.signed_in()?;
    Ok(match guard::check(desk, Some(person), pin)? {
        Checked::Right(person) => Ok(person),
        other => Err(say(desk, other)),
    })
}
