//! Papers: the round's sheet, the greasing chart, the stand-down tag, the strip of what is due next, as PDF.

use crate::{
    desk::{Desk, Machine, tag},
    files,
    kit::Kit,
    said::Said,
    trouble::Trouble,
};
use clap::{Args, Subcommand};
use papers::{PaperSize, Sheet};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use yard::{
    arm::arm_of,
    entry::RoundPurpose,
    handover::{Verdict, judge},
    id::{FaultRef, PersonId},
    state::Finding,
    upkeep::next_due,
    walkround::plan,
};

#[derive(Subcommand)]
pub(crate) enum Paper {
    RoundSheet {
        #[command(flatten)]
        sheet: Asked,
        #[arg(long, value_name = "PERSON")]
        by: Option<String>,
    },
    GreasingChart {
        #[command(flatten)]
        sheet: Asked,
    },
    StandDownTag {
        #[command(flatten)]
        sheet: Asked,
        #[arg(long, value_name = "ENTRY[/POINT]")]
        finding: Option<String>,
    },
    DueStrip {
        #[command(flatten)]
        sheet: Asked,
    },
    ArrivalSheet {
        #[command(flatten)]
        sheet: Asked,
    },
    ArmSheet {
        #[command(flatten)]
        sheet: Asked,
    },
    SurveySheet {
        #[command(flatten)]
        sheet: Asked,
    },
    TeachingStrips {
        #[command(flatten)]
        sheet: Asked,
    },
    PartsList {
        #[command(flatten)]
        sheet: Asked,
    },
    History {
        #[command(flatten)]
        sheet: Asked,
        #[arg(long)]
        names: bool,
        #[arg(long)]
        photos: bool,
    },
    WallChart(super::wall_chart::Asked),
    Trust(super::https::Sheet),
}

#[derive(Args)]
pub(crate) struct Asked {
    machine: String,
    #[arg(long, default_value = "a4", value_parser = ["a4", "letter"])]
    size: String,
    #[arg(long, value_name = "ADDRESS")]
    address: Option<String>,
    #[arg(short, long, value_name = "FILE")]
    output: PathBuf,
}

pub(crate) fn run(kit: &Kit, paper: Paper) -> Result<Said, Trouble> {
    let asked = match &paper {
        Paper::Trust(sheet) => return super::https::print(kit, sheet),
        Paper::WallChart(asked) => return super::wall_chart::print(kit, asked),
        Paper::RoundSheet { sheet, .. }
        | Paper::GreasingChart { sheet }
        | Paper::StandDownTag { sheet, .. }
        | Paper::DueStrip { sheet }
        | Paper::ArrivalSheet { sheet }
        | Paper::ArmSheet { sheet }
        | Paper::SurveySheet { sheet }
        | Paper::TeachingStrips { sheet }
        | Paper::PartsList { sheet }
        | Paper::History { sheet, .. } => sheet,
    };
    let desk = Desk::look(kit)?;
    let machine = desk.machine(&asked.machine)?;
    let address = format!(
        "{}/y/{}/m/{}",
        super::address::of_yard(kit, asked.address.as_deref()),
        tag(&desk.yard),
        machine.id
    );
    let sheet = Sheet {
        words: &kit.words,
        book: machine.book(kit)?,
        size: size_of(&asked.size),
        now: desk.now,
        zone: &desk.zone,
        since: machine.state.book().map(|book| book.since),
        address: &address,
    };
    let bytes = made(&desk, &machine, &sheet, &paper)?;
    written(kit, &asked.output, &bytes, json!({ "size": asked.size }))
}

/// The paper in the printer, of the words the command line takes.
pub(super) fn size_of(asked: &str) -> PaperSize {
    if asked == "letter" {
        PaperSize::Letter
    } else {
        PaperSize::A4
    }
}

/// Writes a paper and says where it is; `more` is told besides, as JSON.
pub(super) fn written(
    kit: &Kit,
    output: &Path,
    bytes: &[u8],
    more: Value,
) -> Result<Said, Trouble> {
    files::write(output, bytes)?;
    let shown = output.display().to_string();
    let mut told = json!({ "file": shown, "bytes": bytes.len() });
    if let (Some(told), Value::Object(more)) = (told.as_object_mut(), more) {
        told.extend(more);
    }
    Ok(Said::new(kit.t1("paper-made", "path", &shown), told))
}

fn made(
    desk: &Desk<'_>,
    machine: &Machine,
    sheet: &Sheet<'_>,
    paper: &Paper,
) -> Result<Vec<u8>, Trouble> {
    let nobody = PersonId(uuid::Uuid::nil());
    let names = desk.names(Some(&machine.state));
    let bytes = match paper {
        Paper::RoundSheet { by, .. } => {
            let by = by.as_deref().map_or(Ok(nobody), |by| desk.person(by))?;
            let plan = plan(&desk.situation(&machine.state, by), RoundPurpose::Start)
                .ok_or_else(|| Trouble::Ours("a book without a plan".to_owned()))?;
            papers::round_sheet(sheet, &plan)
        }
        Paper::GreasingChart { .. } => papers::greasing_chart(sheet, desk.habits.gun_grams),
        Paper::StandDownTag { finding, .. } => {
            let found = finding_for(desk, machine, finding.as_deref())?;
            papers::stand_down_tag(
                sheet,
                found,
                &desk.kit.words.found(found, &names),
                &desk.kit.words.person(found.by, &names),
            )
        }
        Paper::DueStrip { .. } => papers::due_strip(
            sheet,
            &next_due(&desk.situation(&machine.state, nobody)),
            &names,
        ),
        Paper::ArrivalSheet { .. } => {
            let plan = yard::arrival::plan(&desk.situation(&machine.state, nobody));
            papers::arrival_sheet(sheet, &plan)
        }
        Paper::ArmSheet { .. } => papers::arm_sheet(sheet, &arm_of(sheet.book)),
        Paper::SurveySheet { .. } => papers::survey_sheet(sheet, &arm_of(sheet.book)),
        Paper::TeachingStrips { .. } => papers::teaching_strips(sheet, &arm_of(sheet.book)),
        Paper::PartsList { .. } => papers::parts_list(sheet, &machine.state.shelf),
        Paper::History {
            names: named,
            photos,
            ..
        } => {
            let photo = |id| {
                let picture = desk.yard.picture(id).ok()??;
                photos.then_some(picture.bytes)
            };
            let state = &machine.state;
            papers::history(sheet, state, &desk.entries, &names, *named, &photo)
        }
        Paper::Trust(_) | Paper::WallChart(_) => {
            return Err(Trouble::Ours("no paper of a machine".to_owned()));
        }
    };
    bytes.map_err(|error| Trouble::Ours(error.to_string()))
}

/// The finding named, else the worst one that stands the machine down.
fn finding_for<'a>(
    desk: &Desk<'_>,
    machine: &'a Machine,
    named: Option<&str>,
) -> Result<&'a Finding, Trouble> {
    let kit = desk.kit;
    if let Some(named) = named {
        let id: Option<FaultRef> = named.parse().ok();
        return id
            .and_then(|id| machine.state.finding(&id))
            .ok_or_else(|| kit.refused("no-such-entry", &[("name", named.into())]));
    }
    let judged = judge(&desk.situation(&machine.state, PersonId(uuid::Uuid::nil())));
    let mut down = judged
        .reasons
        .iter()
        .filter(|reason| reason.weighs == Verdict::StandDown)
        .filter_map(|reason| reason.finding.as_ref());
    let worst = down.find_map(|id| machine.state.finding(id));
    worst.ok_or_else(|| {
        kit.refused(
            "nothing-stands-down",
            &[("name", machine.id.as_str().into())],
        )
    })
}
