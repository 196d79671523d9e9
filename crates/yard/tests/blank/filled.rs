//! A blank's text changed as a steward would: what the machine itself must tell filled in, with invented values; or a point
//! deleted.

use quantity::{Exact, Habits, Quantity};
use yard::{
    book::{GapCode, MeasureLimit, Point, PointKind, gaps, new_from_blank, read},
    id::{MachineId, PointId},
};

/// The blank as the book of the machine `loader`, with how to stop it, where nobody may be, and the limits of its measures.
pub fn filled(name: &str, blank: &str) -> String {
    let id = MachineId::new("loader").unwrap();
    let mut text = new_from_blank(blank, "Invented", &id);
    let reading = read(&text, &Habits::default());
    assert_eq!(reading.troubles, [], "{name}");
    let book = reading.book.unwrap();
    for gap in gaps(&book) {
        match gap.code {
            GapCode::NoStop => text += "\n[stop]\nhow = \"Pull the invented knob\"\n",
            GapCode::NoDangerZone => text += "\n[danger]\nreach = \"5 m\"\n",
            GapCode::MeasureWithoutLimit => {
                let mut points = book.points.iter();
                let point = points
                    .find(|point| point.id.as_str() == gap.subject)
                    .unwrap();
                text = with_limit(&text, point);
            }
            _ => {}
        }
    }
    text
}

/// The text without its drawing: nothing but paper and screen looks at that, and it is half of what there is to read.
pub fn undrawn(text: &str) -> String {
    changed(text, |table| {
        let drawn = table.starts_with("[[draw]]");
        if drawn { "" } else { table }.to_owned()
    })
}

/// With an invented upper limit for a measure, in the unit its readings are usually off by.
fn with_limit(text: &str, point: &Point) -> String {
    let PointKind::Measure(limit) = &point.kind else {
        panic!("{} is measured", point.id)
    };
    let most = most(limit);
    changed(text, |table| {
        let mut lines = table.to_owned();
        if is_point(table, &point.id) {
            let end = lines.trim_end().len();
            lines.insert_str(end, &format!("\nmax = \"{most}\""));
        }
        lines
    })
}

/// A hundred times what a reading is usually off by; where that is not said, a metre.
fn most(limit: &MeasureLimit) -> String {
    let usual = limit.usual_plus_minus.as_ref();
    usual.map_or("1 m".to_owned(), |usual| {
        let hundred = Exact::parse("100").unwrap();
        let most = usual.value() * &hundred;
        Quantity::from_exact(most, usual.unit(), None)
            .text()
            .to_owned()
    })
}

/// The text without this point: its table is gone, and so is its name from its twin, from parts and weaknesses.
pub fn without(text: &str, point: &PointId) -> String {
    changed(text, |table| {
        if is_point(table, point) {
            String::new()
        } else if table.starts_with("[[point]]") {
            table.replace(&format!("\nmirror = \"{point}\"\n"), "\n")
        } else if table.starts_with("[[part]]") || table.starts_with("[[weakness]]") {
            unnamed(table, point)
        } else {
            table.to_owned()
        }
    })
}

/// A part or a weakness that names this point no more; the last name takes the list with it.
fn unnamed(table: &str, point: &PointId) -> String {
    const LIST: &str = "\npoints = [";
    let Some((before, list)) = table.split_once(LIST) else {
        return table.to_owned();
    };
    let (names, after) = list.split_once(']').unwrap();
    let gone = format!("\"{point}\"");
    let left: Vec<&str> = names
        .split(',')
        .map(str::trim)
        .filter(|name| !name.is_empty() && *name != gone)
        .collect();
    if left.is_empty() {
        format!("{before}{after}")
    } else {
        format!("{before}{LIST}{}]{after}", left.join(", "))
    }
}

fn is_point(table: &str, id: &PointId) -> bool {
    table.starts_with("[[point]]") && table.contains(&format!("\nid = \"{id}\"\n"))
}

/// The text with each of its tables changed; a table goes from its header to the next.
fn changed(text: &str, change: impl Fn(&str) -> String) -> String {
    let mut tables: Vec<String> = vec![String::new()];
    for line in text.split_inclusive('\n') {
        if line.starts_with('[') {
            tables.push(String::new());
        }
        if let Some(table) = tables.last_mut() {
            table.push_str(line);
        }
    }
    tables.iter().map(|table| change(table)).collect()
}
