//! The machine book: check it, begin one from a blank, list its gaps, adopt it, print its format.

use crate::{
    Exit,
    blanks::{self, BLANKS},
    desk::Desk,
    files::{read_text, write_new},
    kit::Kit,
    said::Said,
    trouble::Trouble,
};
use clap::{ArgGroup, Subcommand, builder::PossibleValuesParser};
use serde_json::{Value, json};
use std::{
    collections::BTreeMap,
    path::{Path, PathBuf},
};
use words::{Arg, BookNames, Names};
use yard::{
    book::{Book, Gap, Level, Trouble as Slip, compare, gaps, new_from_blank, read},
    entry::{Body, BookAdopted},
    id::MachineId,
    people::Deed,
};

fn blank_names() -> PossibleValuesParser {
    BLANKS
        .iter()
        .map(|(name, _)| *name)
        .collect::<Vec<_>>()
        .into()
}

#[derive(Subcommand)]
pub(crate) enum Job {
    Check {
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
    },
    New {
        #[arg(long, value_name = "BLANK", value_parser = blank_names())]
        like: String,
        #[arg(long)]
        name: String,
        #[arg(long)]
        id: String,
        #[arg(short, long, value_name = "FILE")]
        output: Option<PathBuf>,
    },
    Gaps {
        #[arg(value_name = "FILE", required_unless_present = "machine")]
        file: Option<PathBuf>,
        #[arg(long, conflicts_with = "file")]
        machine: Option<String>,
    },
    Adopt {
        #[arg(value_name = "FILE")]
        file: PathBuf,
        #[arg(long, value_name = "PERSON")]
        by: String,
        #[arg(long)]
        why: Option<String>,
    },
    #[command(group = ArgGroup::new("as").required(true).args(["md", "schema"]))]
    Format {
        #[arg(long)]
        md: bool,
        #[arg(long)]
        schema: bool,
    },
}

pub(crate) fn run(kit: &Kit, job: Job) -> Result<Said, Trouble> {
    match job {
        Job::Check { files } => check(kit, &files),
        Job::New {
            like,
            name,
            id,
            output,
        } => new(kit, &like, &name, &id, output.as_deref()),
        Job::Gaps {
            file: Some(file), ..
        } => gaps_of_file(kit, &file),
        Job::Gaps { machine, .. } => gaps_of_machine(kit, &machine.unwrap_or_default()),
        Job::Adopt { file, by, why } => adopt(kit, &file, &by, why),
        Job::Format { schema: true, .. } => {
            let schema = yard::book::schema(&|key| meaning(kit, key));
            Ok(Said::new(format!("{schema:#}"), schema))
        }
        Job::Format { .. } => {
            let page = kit.words.book_format();
            Ok(Said::new(page.clone(), json!({ "markdown": page })))
        }
    }
}

/// The sentence for a key that the schema asks for: `book-table-<table>`, `book-field-<table>-<key>`, the title, the format's own key.
fn meaning(kit: &Kit, asked: &str) -> String {
    let field = asked
        .strip_prefix("book-field-")
        .and_then(|rest| rest.split_once('-'));
    match (asked.strip_prefix("book-table-"), field) {
        (Some(table), _) => kit.t(&format!("field-{table}")),
        (_, Some((table, key))) => kit.words.field_means(table, key).unwrap_or_default(),
        _ if asked == "book-field-kingpost" => kit.t1("fields-first", "n", yard::book::FORMAT),
        _ => kit.t("fields-title"),
    }
}

/// All mistakes of all files at once.
fn check(kit: &Kit, files: &[PathBuf]) -> Result<Said, Trouble> {
    let (mut text, mut told, mut sound) = (String::new(), Vec::new(), true);
    for file in files {
        let written = read_text(kit, file)?;
        let shown = file.display().to_string();
        let slips = read(&written, &quantity::Habits::default()).troubles;
        sound &= mistakes(&slips) == 0;
        text += &kit.words.diagnostics(&slips, &shown, &written);
        told.push(json!({
            "file": shown,
            "mistakes": mistakes(&slips),
            "warnings": slips.len() - mistakes(&slips),
            "troubles": slips.iter().map(|slip| slip_json(kit, slip)).collect::<Vec<_>>(),
        }));
    }
    let exit = if sound { Exit::Done } else { Exit::Mistakes };
    Ok(Said::new(text, json!({ "files": told })).ending(exit))
}

fn mistakes(slips: &[Slip]) -> usize {
    slips
        .iter()
        .filter(|slip| slip.level == Level::Mistake)
        .count()
}

fn slip_json(kit: &Kit, slip: &Slip) -> Value {
    let told = kit.words.trouble(slip);
    let level = match slip.level {
        Level::Mistake => "mistake",
        Level::Warning => "warning",
    };
    json!({ "line": slip.line, "column": slip.column, "level": level, "code": slip.what.code(), "what": told.what, "next": told.next })
}

fn new(
    kit: &Kit,
    like: &str,
    name: &str,
    id: &str,
    output: Option<&Path>,
) -> Result<Said, Trouble> {
    let id =
        MachineId::new(id).ok_or_else(|| kit.refused("bad-machine-id", &[("name", id.into())]))?;
    let text = new_from_blank(blanks::text(like).unwrap_or_default(), name, &id);
    let Some(output) = output else {
        return Ok(Said::new(
            text.clone(),
            json!({ "like": like, "id": id.as_str(), "name": name, "text": text }),
        ));
    };
    write_new(kit, output, text.as_bytes())?;
    let shown = output.display().to_string();
    let said = kit.t1("book-begun", "path", &shown);
    Ok(Said::new(
        said,
        json!({ "like": like, "id": id.as_str(), "name": name, "file": shown }),
    ))
}

fn gaps_of_file(kit: &Kit, file: &Path) -> Result<Said, Trouble> {
    let text = read_text(kit, file)?;
    let book = sound(kit, file, &text, &quantity::Habits::default())?;
    let (people, zone) = (BTreeMap::new(), kit.world.zone());
    let names = BookNames {
        book: Some(&book),
        people: &people,
        now: kit.world.now(),
        zone: &zone,
    };
    Ok(told(kit, &gaps(&book), &names, |_| false))
}

fn gaps_of_machine(kit: &Kit, machine: &str) -> Result<Said, Trouble> {
    let desk = Desk::look(kit)?;
    let machine = desk.machine(machine)?;
    let gaps = gaps(machine.book(kit)?);
    let accepted = |gap: &Gap| machine.state.accepted_gaps.contains_key(&gap.id);
    Ok(told(
        kit,
        &gaps,
        &desk.names(Some(&machine.state)),
        accepted,
    ))
}

fn told(kit: &Kit, gaps: &[Gap], names: &dyn Names, accepted: impl Fn(&Gap) -> bool) -> Said {
    let (mut text, mut all) = (String::new(), Vec::new());
    for gap in gaps {
        let told = kit.words.gap(gap, names);
        let weight = if accepted(gap) {
            kit.t("gap-is-accepted")
        } else {
            kit.words.gap_weight(gap)
        };
        text += &format!("{}\n  {}\n  {weight}\n", told.what, told.next);
        all.push(json!({
            "id": gap.id, "code": gap.code.code(), "subject": gap.subject, "line": gap.line,
            "bears_on_safety": gap.bears_on_safety, "accepted": accepted(gap),
            "what": told.what, "next": told.next, "blocks": kit.words.gap_blocks(gap), "where": kit.words.gap_place(gap),
        }));
    }
    if gaps.is_empty() {
        text = kit.t("gaps-none");
    }
    Said::new(text, json!({ "gaps": all }))
}

fn adopt(kit: &Kit, file: &Path, by: &str, why: Option<String>) -> Result<Said, Trouble> {
    let desk = Desk::write(kit)?;
    let by = desk.person(by)?;
    let text = read_text(kit, file)?;
    let book = sound(kit, file, &text, &desk.reading())?;
    let id = book.machine.id.clone();
    desk.may(by, Some(&id), Deed::AdoptBook)?;
    let before = desk.machine(id.as_str()).ok();
    if let Some(old) = before.as_ref().and_then(|machine| machine.state.book()) {
        let gone: Vec<String> = compare(&old.book, &book)
            .vanished
            .iter()
            .map(ToString::to_string)
            .collect();
        if !gone.is_empty() && why.is_none() {
            return Err(kit.mistake(
                "points-vanished",
                &[("reasons", kit.words.list(&gone).into())],
            ));
        }
    }
    let revision = desk.keep(Some(&id), by, Body::BookAdopted(BookAdopted { text, why }))?;
    let open = gaps(&book);
    let args: [(&str, Arg<'_>); 2] = [
        ("name", book.machine.name.as_str().into()),
        ("n", open.len().into()),
    ];
    let json = json!({
        "machine": id.as_str(), "revision": revision.to_string(), "points": book.points.len(), "gaps": open.len(),
        "gaps_on_safety": open.iter().filter(|gap| gap.bears_on_safety).count(),
    });
    Ok(Said::new(kit.words.say("book-is-adopted", &args), json))
}

/// The book of a file, or all its mistakes.
pub(super) fn sound(
    kit: &Kit,
    file: &Path,
    text: &str,
    habits: &quantity::Habits,
) -> Result<Book, Trouble> {
    let reading = read(text, habits);
    let shown = file.display().to_string();
    reading.book.ok_or_else(|| {
        let told = words::Told {
            what: kit.words.diagnostics(&reading.troubles, &shown, text),
            next: kit.t("book-mend-first"),
        };
        kit.told("book-has-mistakes", told, Exit::Mistakes)
    })
}
