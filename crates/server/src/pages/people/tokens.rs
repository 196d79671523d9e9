//! My tokens: what I let programs do for me, until when; a new one, shown once; ending one.

use crate::{
    desk::{Answer, Desk, go, page},
    page::Page,
    pages::walkround::{
        form::Typed,
        question::{Choice, capital},
    },
    refusal::Refusal,
    tokens::{self, MOST_DAYS, Wanted},
};
use askama::Template;

#[derive(Template)]
#[template(path = "people/tokens.html")]
struct TokensPage {
    p: Page,
    asked: Vec<String>,
    /// The new token's secret, on this page only.
    secret: Option<String>,
    tokens: Vec<Line>,
    scopes: Vec<Choice>,
    name: String,
    days: String,
}

struct Line {
    id: uuid::Uuid,
    name: String,
    what: String,
}

/// The scopes as the form and the command name them.
const SCOPES: [(&str, bool, bool); 3] = [
    ("read", true, false),
    ("deliver", false, true),
    ("both", true, true),
];

/// Shows them.
pub(crate) fn show(desk: &Desk) -> Answer {
    let blank = Typed::of(vec![
        ("scope".to_owned(), "read".to_owned()),
        ("days".to_owned(), "90".to_owned()),
    ]);
    render(desk, &blank, Vec::new(), None)
}

/// Makes one and shows its secret.
pub(crate) fn make(desk: &Desk, typed: &Typed) -> Answer {
    let person = desk.signed_in()?;
    let p = desk.page();
    let scope = SCOPES
        .iter()
        .find(|(code, ..)| *code == typed.field("scope"));
    let wanted = Wanted {
        name: typed.field("name").to_owned(),
        reads: scope.is_some_and(|(_, reads, _)| *reads),
        delivers: scope.is_some_and(|(_, _, delivers)| *delivers),
        days: typed.field("days").parse().unwrap_or(0),
    };
    let troubles = wanted.troubles();
    if !troubles.is_empty() {
        let asked = troubles
            .into_iter()
            .map(|key| p.words.say(key, &[("most", MOST_DAYS.into())]));
        return render(desk, typed, asked.collect(), None);
    }
    let made = tokens::make(
        &desk.app.yard,
        desk.app.world.as_ref(),
        person,
        person,
        &wanted,
    )?;
    match made {
        Some((secret, _)) => render(
            &desk.again()?,
            &Typed::of(Vec::new()),
            Vec::new(),
            Some(secret),
        ),
        None => render(desk, typed, vec![p.t("ask-token-many")], None),
    }
}

/// Ends one.
pub(crate) fn end(desk: &Desk, token: &str) -> Answer {
    let person = desk.signed_in()?;
    let id = token.parse().map_err(|_| Refusal::NotFound)?;
    let ended = tokens::end(&desk.app.yard, desk.app.world.as_ref(), person, person, id)?;
    ended.ok_or(Refusal::NotFound)?;
    go(&format!("/y/{}/tokens", desk.app.tag()))
}

fn render(desk: &Desk, typed: &Typed, asked: Vec<String>, secret: Option<String>) -> Answer {
    let person = desk.signed_in()?;
    let p = desk.page();
    let tokens = desk.app.yard.tokens_of(person)?.into_iter().map(|token| {
        let scope = SCOPES
            .iter()
            .find(|(_, reads, delivers)| (*reads, *delivers) == (token.reads, token.delivers));
        let may = p.t(&format!(
            "token-scope-{}",
            scope.map_or("read", |(code, ..)| code)
        ));
        let key = if token.expires > desk.now {
            "token-until"
        } else {
            "token-ran-out"
        };
        let until = p.words.until(token.expires, desk.now, &desk.zone);
        Line {
            id: token.id,
            name: token.name,
            what: format!("{} · {}", capital(&may), p.t1(key, "until", &until)),
        }
    });
    let scopes = SCOPES.iter().map(|(code, ..)| Choice {
        code: (*code).to_owned(),
        word: capital(&p.t(&format!("token-scope-{code}"))),
        chosen: typed.field("scope") == *code,
    });
    page(&TokensPage {
        asked,
        secret,
        tokens: tokens.collect(),
        scopes: scopes.collect(),
        name: typed.field("name").to_owned(),
        days: typed.field("days").to_owned(),
        p,
    })
}
