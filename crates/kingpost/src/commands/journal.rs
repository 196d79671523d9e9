//! The journal: verify, back up, restore, export, import, list, and what is still asked.

use crate::{Exit, desk::Desk, exit, kit::Kit, said::Said, trouble::Trouble};
use clap::{Args, Subcommand};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use store::{Broken, Checked, Store, Tip, Verification, form::kind_of};
use words::Arg;
use yard::{entry::Entry, id::MachineId, state::Question};

#[derive(Args)]
#[command(arg_required_else_help = true)]
pub(crate) struct Journal {
    #[arg(long)]
    exit_codes_md: bool,
    #[command(subcommand)]
    job: Option<Job>,
}

#[derive(Subcommand)]
enum Job {
    Verify,
    Backup {
        #[arg(value_name = "DIR")]
        dir: PathBuf,
    },
    Restore {
        #[arg(value_name = "BACKUP")]
        backup: PathBuf,
        #[arg(long, value_name = "DIR")]
        into: PathBuf,
    },
    Export {
        #[arg(value_name = "DIR")]
        dir: PathBuf,
    },
    Import {
        #[arg(value_name = "DIR")]
        dir: PathBuf,
    },
    List {
        #[arg(long)]
        machine: Option<String>,
        #[arg(long, default_value_t = 30)]
        last: usize,
    },
    Questions,
}

pub(crate) fn run(kit: &Kit, asked: Journal) -> Result<Said, Trouble> {
    match asked.job {
        Some(Job::Verify) => verify(kit),
        Some(Job::Backup { dir }) => backup(kit, &dir),
        Some(Job::Restore { backup, into }) => restore(kit, &backup, &into),
        Some(Job::Export { dir }) => export(kit, &dir),
        Some(Job::Import { dir }) => import(kit, &dir),
        Some(Job::List { machine, last }) => list(kit, machine.as_deref(), last),
        Some(Job::Questions) => questions(kit),
        // Without anything the help is shown; with `--json` alone, this.
        None if !asked.exit_codes_md => Err(kit.not_understood(&kit.t("usage-no-job"))),
        None => {
            let page = exit::table(&kit.words);
            let codes = Exit::ALL
                .iter()
                .map(|exit| json!({ "code": exit.code(), "word": exit.word() }));
            Ok(Said::new(
                page.clone(),
                json!({ "markdown": page, "codes": codes.collect::<Vec<_>>() }),
            ))
        }
    }
}

fn verify(kit: &Kit) -> Result<Said, Trouble> {
    let found = Store::open_to_look(&kit.data)?.verify()?;
    Ok(verified(kit, "journal-sound", &found))
}

/// What a store was found to be; `key` says it where all is sound.
fn verified(kit: &Kit, key: &str, found: &Verification) -> Said {
    let mut text: String = found
        .yards
        .iter()
        .map(|checked| chain_text(kit, key, checked) + "\n")
        .collect();
    let more = found
        .complaints
        .iter()
        .map(|what| kit.t1("journal-complaint", "what", what));
    let pictures = found
        .pictures
        .iter()
        .map(|what| kit.t1("journal-picture", "what", what));
    let awaited = (!found.awaited.is_empty())
        .then(|| kit.t1("journal-photos-awaited", "n", found.awaited.len()));
    text += &more
        .chain(pictures)
        .chain(awaited)
        .map(|line| line + "\n")
        .collect::<String>();
    let json = json!({
        "sound": found.sound(), "yards": found.yards.iter().map(checked_json).collect::<Vec<_>>(), "complaints": found.complaints, "pictures": found.pictures,
        "photos-awaited": found.awaited.iter().map(ToString::to_string).collect::<Vec<_>>(),
    });
    Said::new(text, json).ending(if found.sound() {
        Exit::Done
    } else {
        Exit::Mistakes
    })
}

fn chain_text(kit: &Kit, key: &str, checked: &Checked) -> String {
    match checked.broken {
        None => kit.words.say(
            key,
            &[
                ("n", checked.tip.seq.into()),
                ("what", short(&checked.tip).into()),
            ],
        ),
        Some(Broken { seq, how }) => kit.words.say(
            "journal-broken",
            &[
                ("seq", seq.to_string().into()),
                ("why", kit.t(&format!("broken-{}", how.code())).into()),
            ],
        ),
    }
}

/// Enough of a hash to compare by eye with one noted before.
fn short(tip: &Tip) -> String {
    hex::encode(&tip.hash[..8])
}

fn checked_json(checked: &Checked) -> Value {
    let broken = checked
        .broken
        .map(|broken| json!({ "seq": broken.seq, "how": broken.how.code() }));
    json!({ "yard": checked.yard.to_string(), "entries": checked.tip.seq, "hash": hex::encode(checked.tip.hash), "broken": broken })
}

fn backup(kit: &Kit, dir: &Path) -> Result<Said, Trouble> {
    let made = Store::open_to_look(&kit.data)?.backup(dir, kit.world.now())?;
    let shown = made.dir.display().to_string();
    let entries: u64 = made.yards.iter().map(|yard| yard.tip.seq).sum();
    let noted = made
        .yards
        .iter()
        .map(|yard| short(&yard.tip))
        .collect::<Vec<_>>()
        .join(", ");
    let args: [(&str, Arg<'_>); 4] = [
        ("dir", shown.as_str().into()),
        ("n", entries.into()),
        ("more", made.pictures.into()),
        ("what", noted.into()),
    ];
    let yards = made.yards.iter().map(|yard| json!({ "yard": yard.yard.to_string(), "name": yard.name, "entries": yard.tip.seq, "hash": hex::encode(yard.tip.hash) }));
    let json =
        json!({ "dir": shown, "yards": yards.collect::<Vec<_>>(), "pictures": made.pictures });
    Ok(Said::new(kit.words.say("journal-backed-up", &args), json))
}

fn restore(kit: &Kit, backup: &Path, into: &Path) -> Result<Said, Trouble> {
    let found = store::restore(backup, into)?;
    let said = verified(kit, "journal-restored", &found);
    let text = format!(
        "{}{}",
        said.text,
        kit.t1("journal-restored-next", "dir", into.display().to_string())
    );
    Ok(Said { text, ..said })
}

fn export(kit: &Kit, dir: &Path) -> Result<Said, Trouble> {
    let yard = Store::open_to_look(&kit.data)?.yard()?;
    yard.export(dir, &kit.t("export-readme"), kit.world.now())?;
    let (shown, tip) = (dir.display().to_string(), yard.tip()?);
    let text = kit.words.say(
        "journal-exported",
        &[("dir", shown.as_str().into()), ("n", tip.seq.into())],
    );
    Ok(Said::new(
        text,
        json!({ "dir": shown, "yard": yard.id().to_string(), "entries": tip.seq, "hash": hex::encode(tip.hash) }),
    ))
}

fn import(kit: &Kit, dir: &Path) -> Result<Said, Trouble> {
    let yard = store::import(dir, &kit.data)?;
    let tip = yard.tip()?;
    let text = kit.words.say(
        "journal-imported",
        &[("name", yard.name().into()), ("n", tip.seq.into())],
    );
    Ok(Said::new(
        text,
        json!({ "yard": yard.id().to_string(), "name": yard.name(), "entries": tip.seq, "hash": hex::encode(tip.hash) }),
    ))
}

fn list(kit: &Kit, machine: Option<&str>, last: usize) -> Result<Said, Trouble> {
    let desk = Desk::look(kit)?;
    let only = machine.map(|id| desk.machine(id)).transpose()?;
    let of_machine = |entry: &&Entry| {
        only.as_ref()
            .is_none_or(|machine| entry.machine.as_ref() == Some(&machine.id))
    };
    let mut shown: Vec<&Entry> = desk.entries.iter().filter(of_machine).collect();
    shown.drain(..shown.len().saturating_sub(last));
    let books = Books::of(&desk, only.map(|machine| machine.id))?;
    let said = |entry: &Entry| kit.words.entry_line(entry, &books.names(&desk, entry));
    let line = |entry: &&Entry| {
        format!(
            "{:>5}  {}  {}: {}\n",
            entry.seq,
            desk.moment(entry.ordered_at),
            kit.words.person(entry.by, &desk.names(None)),
            said(entry)
        )
    };
    let told = |entry: &&Entry| {
        json!({
            "seq": entry.seq, "id": entry.id.to_string(), "machine": entry.machine.as_ref().map(MachineId::as_str), "kind": kind_of(&entry.body).0,
            "at": entry.at.to_string(), "ordered_at": entry.ordered_at.to_string(), "written": entry.written.to_string(),
            "clock_corrected": entry.clock_corrected, "by": entry.by.to_string(), "device": entry.device.0, "said": said(entry),
        })
    };
    let json =
        json!({ "entries": shown.iter().map(told).collect::<Vec<_>>(), "of": desk.entries.len() });
    Ok(Said::new(shown.iter().map(line).collect::<String>(), json))
}

/// The machines that entries name, each folded once for its book's words.
struct Books(Vec<crate::desk::Machine>);

impl Books {
    fn of(desk: &Desk<'_>, only: Option<MachineId>) -> Result<Self, Trouble> {
        let all = only.map_or_else(|| desk.state.machines.clone(), |one| vec![one]);
        all.iter()
            .map(|id| desk.machine(id.as_str()))
            .collect::<Result<_, _>>()
            .map(Self)
    }

    fn names<'a>(&'a self, desk: &'a Desk<'_>, entry: &Entry) -> words::BookNames<'a> {
        let machine = self
            .0
            .iter()
            .find(|machine| Some(&machine.id) == entry.machine.as_ref());
        desk.names(machine.map(|machine| &machine.state))
    }
}

fn questions(kit: &Kit) -> Result<Said, Trouble> {
    let desk = Desk::look(kit)?;
    let books = Books::of(&desk, None)?;
    let of_yard = desk
        .state
        .questions
        .values()
        .map(|question| (None, question.clone()));
    let of_machines = books.0.iter().flat_map(|machine| {
        machine
            .state
            .asked()
            .map(move |question| (Some(machine), question.clone()))
    });
    let all: Vec<_> = of_yard.chain(of_machines).collect();
    let (mut text, mut told) = (String::new(), Vec::new());
    for (machine, question) in &all {
        let (line, json) = question_told(&desk, *machine, question);
        text += &line;
        told.push(json);
    }
    if all.is_empty() {
        text = kit.t("questions-nothing");
    }
    Ok(Said::new(text, json!({ "questions": told })))
}

fn question_told(
    desk: &Desk<'_>,
    machine: Option<&crate::desk::Machine>,
    question: &Question,
) -> (String, Value) {
    let said = desk
        .kit
        .words
        .question(question, &desk.names(machine.map(|machine| &machine.state)));
    let of = machine.map(|machine| machine.id.as_str());
    let json = json!({ "machine": of, "entry": question.entry.to_string(), "at": question.at.to_string(), "what": said.what, "next": said.next });
    (
        format!(
            "{}  {}\n  {}\n  {}\n",
            desk.moment(question.at),
            question.entry,
            said.what,
            said.next
        ),
        json,
    )
}
