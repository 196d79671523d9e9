//! The wall chart: every machine of the yard, how it is stopped, what comes next, who may run it.

use crate::{
    PaperError, PaperSize,
    drawing::{Emphasis, Side, side},
    frame::frame_of,
    qr, typeset,
};
use jiff::{Timestamp, tz::TimeZone};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use words::Words;
use yard::book::{Book, View, Without};

/// As many things as are said to come next for each machine.
pub const NEXT_ON_THE_WALL: usize = 3;

/// As many machines as one chart holds.
const MOST: usize = 24;
/// Names of their drawings.
const FILES: [&str; MOST] = [
    "m0.svg", "m1.svg", "m2.svg", "m3.svg", "m4.svg", "m5.svg", "m6.svg", "m7.svg", "m8.svg",
    "m9.svg", "m10.svg", "m11.svg", "m12.svg", "m13.svg", "m14.svg", "m15.svg", "m16.svg",
    "m17.svg", "m18.svg", "m19.svg", "m20.svg", "m21.svg", "m22.svg", "m23.svg",
];

/// What the chart is made from. The same chart gives the same bytes.
#[derive(Clone, Copy)]
pub struct WallChart<'a> {
    /// The language.
    pub words: &'a Words,
    /// The paper in the printer.
    pub size: PaperSize,
    /// When it is printed.
    pub now: Timestamp,
    /// The yard's time zone.
    pub zone: &'a TimeZone,
    /// Address of the yard's page.
    pub address: &'a str,
}

/// One machine on it.
#[derive(Clone, Debug)]
pub struct OnTheWall<'a> {
    /// Its book.
    pub book: &'a Book,
    /// What comes next, soonest first, in words.
    pub due: Vec<String>,
    /// The names of those who may run it; none where whoever prints it may not see names.
    pub may_run: Option<Vec<String>>,
}

/// All machines on as few pages as they need, as PDF. Beyond 24 the rest is counted.
///
/// Fails only where the typesetter does, or the address is too long.
pub fn wall_chart(
    chart: &WallChart<'_>,
    machines: &[OnTheWall<'_>],
) -> Result<Vec<u8>, PaperError> {
    let t = |key: &str| chart.words.text(key);
    let (svg, share) = qr::square(chart.address)?;
    let mut pictures = BTreeMap::from([("qr.svg", svg)]);
    let shown = machines.iter().zip(FILES);
    let blocks: Vec<Value> = shown
        .map(|(machine, file)| block(chart, machine, file, &mut pictures))
        .collect();
    let more = machines.len().saturating_sub(MOST);
    let invented = machines.iter().any(|one| one.book.machine.invented);
    let mut frame = frame_of(chart.words, chart.size, chart.now, chart.zone);
    frame.extend([
        ("title", t("paper-wall-title").into()),
        ("machine", t("paper-wall-title").into()),
        // Blocks that are never placed on this chart read these.
        ("kind", "".into()),
        ("stop", json!({ "label": "", "how": "", "then": null })),
        ("book", t("paper-wall-changes").into()),
        ("invented", invented.then(|| t("paper-invented")).into()),
        ("cautions", json!([t("caution-local-rules")])),
    ]);
    let alt = chart
        .words
        .say("paper-qr-alt", &[("value", chart.address.into())]);
    let data = json!({
        "frame": frame,
        "code": { "share": share, "alt": alt, "says": t("paper-wall-qr") },
        "machines": blocks,
        "more": (more > 0).then(|| chart.words.say("paper-wall-more", &[("n", more.into())])),
        "none": machines.is_empty().then(|| t("yard-empty")),
        "labels": { "stop": t("paper-stop"), "due": t("paper-wall-due"), "run": t("paper-wall-run") },
    });
    typeset::pdf(&typeset::Document {
        markup: include_str!("wall_chart.typ"),
        data,
        pictures,
    })
}

fn block(
    chart: &WallChart<'_>,
    machine: &OnTheWall<'_>,
    file: &'static str,
    pictures: &mut BTreeMap<&'static str, String>,
) -> Value {
    let book = machine.book;
    let t = |key: &str| chart.words.text(key);
    let drawn = !book.drawing.is_empty();
    if drawn {
        let numbers = BTreeMap::new();
        let picture = side(&Side {
            book,
            view: View::Left,
            numbers: &numbers,
            shows: &|_| Emphasis::Hidden,
            title: &book.machine.name,
            zone: None,
            id: file.trim_end_matches(".svg"),
            radius: 9.0,
            close_up: false,
        });
        pictures.insert(file, picture);
    }
    let stop = match &book.stop {
        Some(stop) => stop.how.clone(),
        None if book.lacks(Without::Engine) => t("paper-stop-no-engine"),
        None => t("paper-stop-unknown"),
    };
    let or_none = |lines: &[String], key: &str| match lines {
        [] => vec![t(key)],
        lines => lines.to_vec(),
    };
    json!({
        "file": drawn.then_some(file),
        "name": book.machine.name,
        "kind": book.machine.kind,
        "stop": stop,
        "due": or_none(&machine.due, "due-none"),
        "run": match &machine.may_run {
            Some(names) => or_none(names, "paper-wall-nobody"),
            None => vec![t("paper-wall-names-withheld")],
        },
        "alt": chart.words.say("paper-side-alt", &[("name", book.machine.name.as_str().into())]),
    })
}
