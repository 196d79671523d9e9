//! The shopping list: of one machine, or of the yard.

use crate::{desk::Desk, kit::Kit, said::Said, trouble::Trouble};
use serde_json::{Value, json};
use yard::{
    book::Book,
    handover::OtherMachines,
    id::PersonId,
    state::MachineState,
    upkeep::{Ahead, ToBuy, shopping},
};

pub(super) fn run(kit: &Kit, machine: Option<&str>, ahead: &Ahead) -> Result<Said, Trouble> {
    let desk = Desk::look(kit)?;
    let only = machine.map(|id| desk.machine(id)).transpose()?;
    let machines: Vec<&MachineState> = match &only {
        Some(machine) => vec![&machine.state],
        None => desk
            .state
            .machines
            .iter()
            .filter_map(|id| OtherMachines::machine(&desk, id))
            .collect(),
    };
    let (mut text, mut told) = (String::new(), Vec::new());
    for state in machines {
        let Some(book) = state.book().map(|adopted| adopted.book.as_ref()) else {
            continue;
        };
        let lines = shopping(&desk.situation(state, PersonId(uuid::Uuid::nil())), ahead);
        if !lines.is_empty() {
            text += &format!("{}\n", book.machine.name);
            text += &lines
                .iter()
                .map(|line| said(&desk, state, book, line))
                .collect::<String>();
        }
        told.extend(lines.iter().map(|line| of_line(book, line)));
    }
    if told.is_empty() {
        text = kit.t("shopping-none");
    }
    let ahead = json!({ "hours": ahead.hours, "days": ahead.days });
    Ok(Said::new(text, json!({ "ahead": ahead, "buy": told })))
}

fn said(desk: &Desk<'_>, state: &MachineState, book: &Book, line: &ToBuy) -> String {
    let words = &desk.kit.words;
    let Some(part) = book.parts.iter().find(|part| part.id == line.part) else {
        return String::new();
    };
    let names = desk.names(Some(state));
    let mut more = vec![
        words.to_buy_why(line, part, &names).join(" · "),
        words.part_details(part).join(" · "),
    ];
    let from = part.from.as_deref();
    more.extend(from.map(|from| words.say("part-from", &[("from", from.into())])));
    more.extend(part.instead.iter().map(|one| words.part_instead(one)));
    let more: String = more.iter().map(|line| format!("    {line}\n")).collect();
    format!("  {}\n{more}", words.to_buy(line, part))
}

fn of_line(book: &Book, line: &ToBuy) -> Value {
    let part = book.parts.iter().find(|part| part.id == line.part);
    json!({
        "machine": book.machine.id.as_str(),
        "part": line.part.as_str(),
        "what": part.map(|part| part.what.as_str()),
        "number": part.and_then(|part| part.number.as_deref()),
        "buy": line.buy,
        "have": line.have,
        "low": line.low,
        "due": line.due.iter().map(|point| point.as_str()).collect::<Vec<_>>(),
    })
}
