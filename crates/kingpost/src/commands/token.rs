//! Tokens, by which programs act for a person: make, list, end.

use crate::{desk::Desk, kit::Kit, said::Said, trouble::Trouble};
use clap::{Subcommand, builder::PossibleValuesParser};
use serde_json::{Value, json};
use server::tokens::{self, MOST_DAYS, Wanted};
use store::Token;
use words::Arg;
use yard::id::PersonId;

#[derive(Subcommand)]
pub(crate) enum Job {
    Make {
        name: String,
        #[arg(long = "for", value_name = "PERSON")]
        whom: String,
        #[arg(long, value_parser = PossibleValuesParser::new(["read", "deliver", "both"]))]
        scope: String,
        #[arg(long, default_value_t = 90)]
        days: i64,
    },
    List {
        #[arg(long = "for", value_name = "PERSON")]
        whom: String,
    },
    End {
        name: String,
        #[arg(long = "for", value_name = "PERSON")]
        whom: String,
    },
}

pub(crate) fn run(kit: &Kit, job: Job) -> Result<Said, Trouble> {
    match job {
        Job::Make {
            name,
            whom,
            scope,
            days,
        } => make(kit, name, &whom, &scope, days),
        Job::List { whom } => list(kit, &whom),
        Job::End { name, whom } => end(kit, &name, &whom),
    }
}

fn make(kit: &Kit, name: String, whom: &str, scope: &str, days: i64) -> Result<Said, Trouble> {
    let desk = Desk::write(kit)?;
    let person = desk.person(whom)?;
    let wanted = Wanted {
        name,
        reads: scope != "deliver",
        delivers: scope != "read",
        days,
    };
    let troubles = wanted.troubles();
    let refused = |key: &str| {
        let what = kit.words.say(key, &[("most", MOST_DAYS.into())]);
        Err(kit.refused("token-troubles", &[("what", what.into())]))
    };
    if let Some(key) = troubles.first() {
        return refused(key);
    }
    let made = tokens::make(
        &desk.yard,
        kit.world.as_ref(),
        PersonId::PROGRAM,
        person,
        &wanted,
    )?;
    let Some((secret, token)) = made else {
        return refused("ask-token-many");
    };
    let until = desk.moment(token.expires);
    let args: [(&str, Arg<'_>); 3] = [
        ("name", token.name.as_str().into()),
        ("until", until.into()),
        ("secret", secret.as_str().into()),
    ];
    let text = format!(
        "{}\n{}",
        kit.words.say("token-made", &args),
        kit.words.say("token-made.next", &args)
    );
    let mut json = told(&token);
    json["secret"] = secret.into();
    Ok(Said::new(text, json))
}

fn list(kit: &Kit, whom: &str) -> Result<Said, Trouble> {
    let desk = Desk::look(kit)?;
    let tokens = desk.yard.tokens_of(desk.person(whom)?)?;
    let line = |token: &Token| {
        let scope = kit.t(&format!("token-scope-{}", scope(token)));
        let args: [(&str, Arg<'_>); 3] = [
            ("name", token.name.as_str().into()),
            ("what", scope.into()),
            ("until", desk.moment(token.expires).into()),
        ];
        kit.words.say("token-line", &args) + "\n"
    };
    let text: String = tokens.iter().map(line).collect();
    let json = json!({ "tokens": tokens.iter().map(told).collect::<Vec<_>>() });
    Ok(Said::new(text, json))
}

fn end(kit: &Kit, name: &str, whom: &str) -> Result<Said, Trouble> {
    let desk = Desk::write(kit)?;
    let person = desk.person(whom)?;
    let own = desk.yard.tokens_of(person)?;
    let named = own
        .iter()
        .find(|token| token.name == name || token.id.to_string() == name);
    let no_such = || kit.refused("token-no-such", &[("name", name.into())]);
    let id = named.ok_or_else(no_such)?.id;
    let ended = tokens::end(
        &desk.yard,
        kit.world.as_ref(),
        PersonId::PROGRAM,
        person,
        id,
    )?;
    let ended = ended.ok_or_else(no_such)?;
    Ok(Said::new(
        kit.t1("token-ended", "name", ended.name.as_str()),
        told(&ended),
    ))
}

fn scope(token: &Token) -> &'static str {
    match (token.reads, token.delivers) {
        (true, true) => "both",
        (false, true) => "deliver",
        _ => "read",
    }
}

fn told(token: &Token) -> Value {
    json!({
        "id": token.id.to_string(), "name": token.name, "scope": scope(token), "made": token.made.to_string(), "expires": token.expires.to_string(),
    })
}
