//! HTTPS at the command line: what phones are told to trust, the names it holds for, a new certificate, a new root.

use super::{
    address::{PORT, base, secure_host},
    papers::{size_of, written},
};
use crate::{
    kit::Kit,
    said::Said,
    tls::{Folder, Name, Pair, Reach, Shown, fingerprint, wanted},
    trouble::Trouble,
};
use clap::Args;
use jiff::Timestamp;
use papers::{TrustSheet, trust_sheet};
use serde_json::json;
use std::{
    collections::BTreeSet,
    io::{self, BufRead, IsTerminal, Write},
    path::PathBuf,
};
use store::Store;
use words::fingerprint_lines;

#[derive(Args)]
pub(crate) struct Https {
    #[arg(long)]
    renew: bool,
    #[arg(long)]
    new_root: bool,
    #[arg(long)]
    yes: bool,
    #[arg(long = "name", value_name = "NAME")]
    names: Vec<String>,
}

#[derive(Args)]
pub(crate) struct Sheet {
    #[arg(long, default_value = "a4", value_parser = ["a4", "letter"])]
    size: String,
    #[arg(long, value_name = "ADDRESS")]
    address: Option<String>,
    #[arg(short, long, value_name = "FILE")]
    output: PathBuf,
}

/// What was done before it is shown.
#[derive(Clone, Copy, PartialEq)]
enum Done {
    Nothing,
    Made,
    Renewed,
    NewRoot,
}

impl Done {
    fn key(self) -> Option<&'static str> {
        match self {
            Self::Nothing => None,
            Self::Made => Some("https-made"),
            Self::Renewed => Some("https-renewed"),
            Self::NewRoot => Some("https-new-root-made"),
        }
    }
}

pub(crate) fn run(kit: &Kit, asked: &Https) -> Result<Said, Trouble> {
    let yard = Store::open_to_look(&kit.data)?.yard()?;
    let folder = Folder::of(&kit.data);
    let named = names(kit, &asked.names)?;
    let world = kit.world.as_ref();
    let known = folder.root().map_err(|snag| snag.trouble(kit));
    let (root, done) = if asked.new_root {
        // A root that is damaged is replaced as well.
        let there = !matches!(known, Ok(None));
        if there && !asked.yes {
            ask(kit)?;
        }
        let root = folder.new_root(yard.name(), &named, world);
        (root, if there { Done::NewRoot } else { Done::Made })
    } else {
        let done = if known?.is_none() {
            Done::Made
        } else if asked.renew {
            Done::Renewed
        } else {
            Done::Nothing
        };
        (folder.root_or_new(yard.name(), &named, world), done)
    };
    let root = root.map_err(|snag| snag.trouble(kit))?;
    let leaf = wanted(&root, &named)
        .and_then(|names| folder.leaf(&root, &names, world, asked.renew))
        .map_err(|snag| snag.trouble(kit))?;
    shown(kit, &folder, &root, &leaf, done).map_err(|snag| snag.trouble(kit))
}

/// The sheet by which phones are told to trust the yard.
pub(super) fn print(kit: &Kit, sheet: &Sheet) -> Result<Said, Trouble> {
    let yard = Store::open_to_look(&kit.data)?.yard()?;
    let root = Folder::of(&kit.data)
        .root()
        .map_err(|snag| snag.trouble(kit))?;
    let root = root.ok_or_else(|| kit.refused("https-no-root", &[]))?;
    let says = root.shown().map_err(|snag| snag.trouble(kit))?;
    let host = secure_host(kit);
    let address = base(sheet.address.as_deref().or(host.as_deref()), PORT);
    let made = trust_sheet(&TrustSheet {
        words: &kit.words,
        yard: yard.name(),
        size: size_of(&sheet.size),
        now: kit.world.now(),
        zone: &kit.world.zone(),
        address: &format!("{address}/trust"),
        root: &says.name,
        fingerprint: &fingerprint(root.certificate()),
        until: says.until,
    });
    let bytes = made.map_err(|error| Trouble::Ours(error.to_string()))?;
    let more = json!({ "size": sheet.size, "address": format!("{address}/trust") });
    written(kit, &sheet.output, &bytes, more)
}

/// Names and numbers as they were typed.
pub(super) fn names(kit: &Kit, typed: &[String]) -> Result<BTreeSet<Name>, Trouble> {
    let read = |text: &String| {
        Name::read(text).ok_or_else(|| kit.refused("https-not-a-name", &[("name", text.into())]))
    };
    typed.iter().map(read).collect()
}

/// Asks at the terminal; where nobody sits there, it must be said on the command line.
fn ask(kit: &Kit) -> Result<(), Trouble> {
    let not_asked = || kit.refused("https-new-root-not-asked", &[]);
    if kit.json || !io::stdin().is_terminal() {
        return Err(not_asked());
    }
    let mut err = io::stderr().lock();
    // Where the question cannot be shown, the answer cannot be yes.
    write!(err, "{} ", kit.t("https-new-root-ask"))
        .and_then(|()| err.flush())
        .map_err(|_| not_asked())?;
    let mut said = String::new();
    io::stdin()
        .lock()
        .read_line(&mut said)
        .map_err(|_| not_asked())?;
    if said.trim().eq_ignore_ascii_case("yes") {
        Ok(())
    } else {
        Err(not_asked())
    }
}

fn shown(
    kit: &Kit,
    folder: &Folder,
    root: &Pair,
    leaf: &Pair,
    done: Done,
) -> Result<Said, crate::tls::Snag> {
    let (root_says, leaf_says) = (root.shown()?, leaf.shown()?);
    let fingerprint = fingerprint(root.certificate());
    let dir = folder.path().display().to_string();
    let out: Vec<String> = left_out(&root_says.reach)
        .iter()
        .map(Name::to_string)
        .collect();
    let (leaf_names, reach) = (texts(&leaf_says.names), reach(kit, &root_says.reach));
    let day = |at: Timestamp| {
        kit.words
            .date(at.to_zoned_datetime(kit.world.zone()).date())
    };
    let mut lines: Vec<String> = done.key().map(|key| kit.t(key)).into_iter().collect();
    lines.push(kit.t1("https-root", "name", &root_says.name));
    lines.push(kit.words.say(
        "https-root-until",
        &[
            ("date", day(root_says.until).into()),
            ("dir", (&dir).into()),
        ],
    ));
    lines.push(kit.t("https-fingerprint"));
    lines.extend(in_lines(&fingerprint));
    lines.push(kit.t1("https-reach", "reasons", kit.words.list(&reach)));
    lines.push(kit.t1("https-names", "reasons", kit.words.list(&leaf_names)));
    lines.push(kit.words.say(
        "https-leaf-until",
        &[
            ("from", day(leaf_says.from).into()),
            ("date", day(leaf_says.until).into()),
        ],
    ));
    lines.extend(
        out.iter()
            .map(|name| kit.t1("https-left-out", "name", name)),
    );
    let json = json!({
        "done": done.key(),
        "root": {
            "name": root_says.name, "fingerprint": fingerprint, "from": root_says.from.to_string(),
            "until": root_says.until.to_string(), "folder": dir, "named": texts(&root_says.reach.named()),
        },
        "certificate": certificate(&leaf_says, &leaf_names),
        "left_out": out,
    });
    Ok(Said::new(lines.join("\n"), json))
}

fn certificate(says: &Shown, names: &[String]) -> serde_json::Value {
    json!({ "names": names, "from": says.from.to_string(), "until": says.until.to_string() })
}

/// The fingerprint in lines, set in.
pub(super) fn in_lines(fingerprint: &str) -> impl Iterator<Item = String> {
    let lines = fingerprint_lines(fingerprint).into_iter();
    lines.map(|line| format!("    {line}"))
}

fn reach(kit: &Kit, reach: &Reach) -> Vec<String> {
    let private = kit.t("https-reach-private");
    std::iter::once(private)
        .chain(texts(&reach.named()))
        .collect()
}

fn left_out(reach: &Reach) -> BTreeSet<Name> {
    let mut here = crate::tls::here();
    here.retain(|name| !reach.covers(name));
    here
}

fn texts(names: &BTreeSet<Name>) -> Vec<String> {
    names.iter().map(Name::to_string).collect()
}
