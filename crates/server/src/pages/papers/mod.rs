//! Papers as PDF, made when asked for.

mod finding_sheet;
mod history;
pub(crate) mod of_yard;

use crate::{
    desk::{Answer, Desk},
    names,
    refusal::Refusal,
};
use axum::{
    http::header,
    response::{IntoResponse, Response},
};
use papers::{PaperSize, Sheet};
use yard::{entry::RoundPurpose, id::FaultRef, walkround::plan_round};

/// Makes one paper of a machine. `kind`: `round-sheet`, `greasing-chart`, `stand-down-tag`, `finding-sheet`, `due-strip`, `parts-list`,
/// `arrival-sheet`, `history`, `arm-sheet`, `survey-sheet`, `teaching-strips`.
pub(crate) fn show(
    desk: &Desk,
    machine: &str,
    file: &str,
    size: &str,
    finding: Option<&str>,
) -> Answer {
    let (id, state, book) = desk.machine_and_book(machine)?;
    let kind = file.strip_suffix(".pdf").ok_or(Refusal::NotFound)?;
    let size = if size == "letter" {
        PaperSize::Letter
    } else {
        PaperSize::A4
    };
    let address = format!("{}/y/{}/m/{id}", desk.app.address, desk.app.tag());
    let sheet = Sheet {
        words: &desk.app.words,
        book,
        size,
        now: desk.now,
        zone: &desk.zone,
        since: state.book().map(|b| b.since),
        address: &address,
    };
    let situation = desk.situation(state);
    let names = names::names(desk, state);
    let made = match kind {
        "round-sheet" => {
            let plan =
                plan_round(&situation, RoundPurpose::Start, None).ok_or(Refusal::NotFound)?;
            papers::round_sheet(&sheet, &plan)
        }
        "greasing-chart" => papers::greasing_chart(&sheet, desk.view.habits.gun_grams),
        "stand-down-tag" => {
            let finding: FaultRef = finding
                .and_then(|f| f.parse().ok())
                .ok_or(Refusal::NotFound)?;
            let found = state.findings.get(&finding).ok_or(Refusal::NotFound)?;
            let page = crate::session::encode(&found.id.to_string());
            papers::stand_down_tag_to(
                &sheet,
                found,
                &desk.app.words.found(found, &names),
                &crate::unnamed::finder(desk, found),
                Some(&format!("{address}/finding/{page}")),
            )
        }
        "finding-sheet" => {
            let finding: FaultRef = finding
                .and_then(|f| f.parse().ok())
                .ok_or(Refusal::NotFound)?;
            let found = state.findings.get(&finding).ok_or(Refusal::NotFound)?;
            finding_sheet::made(desk, &sheet, found, &names)?
        }
        "arrival-sheet" => papers::arrival_sheet(&sheet, &yard::arrival::plan(&situation)),
        "arm-sheet" => papers::arm_sheet(&sheet, &yard::arm::arm_of(book)),
        "survey-sheet" => papers::survey_sheet(&sheet, &yard::arm::arm_of(book)),
        "teaching-strips" => papers::teaching_strips(&sheet, &yard::arm::arm_of(book)),
        "parts-list" => papers::parts_list(&sheet, &state.shelf),
        "history" => history::made(desk, &sheet, state, &names),
        "due-strip" => papers::due_strip(&sheet, &yard::upkeep::next_due(&situation), &names),
        _ => return Err(Refusal::NotFound),
    };
    let bytes = made.map_err(|e| Refusal::Ours(e.to_string()))?;
    Ok(pdf(bytes, &format!("{id}-{kind}")))
}

/// A PDF to look at in the browser, under this name.
fn pdf(bytes: Vec<u8>, name: &str) -> Response {
    let name = format!("inline; filename=\"{name}.pdf\"");
    (
        [
            (header::CONTENT_TYPE, "application/pdf".to_owned()),
            (header::CONTENT_DISPOSITION, name),
        ],
        bytes,
    )
        .into_response()
}
