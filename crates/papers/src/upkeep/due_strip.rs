//! The strip that goes beside the hour meter: what comes next, readings large.

use crate::{PaperError, Sheet, typeset};
use jiff::civil::Date;
use quantity::Exact;
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use words::Names;
use yard::{book::PointKind, id::PointId, upkeep::DueLine};

/// As many readings as a strip holds.
const MOST_READINGS: usize = 7;
/// As many dates as a strip holds.
const MOST_DATES: usize = 5;
/// As many things as are named beside one reading.
const MOST_NAMED: usize = 3;

/// A strip to cut out: the next meter readings with what is due at each, then the next dates. As PDF.
///
/// Readings are what the meter will show. Fails only where the typesetter does.
pub fn due_strip(
    sheet: &Sheet<'_>,
    lines: &[DueLine],
    names: &dyn Names,
) -> Result<Vec<u8>, PaperError> {
    let title = sheet.t1("paper-strip-title", "machine", &sheet.book.machine.name);
    let today = sheet.now.to_zoned_datetime(sheet.zone.clone()).date();
    let readings = by(lines, |line| {
        line.meter_shows.clone().or_else(|| line.at_hours.clone())
    });
    let (now, later): (Vec<_>, Vec<_>) = by(lines, |line| line.on)
        .into_iter()
        .partition(|(date, _)| *date <= today);
    let mut now: Vec<PointId> = now.into_iter().flat_map(|(_, points)| points).collect();
    let mut seen = BTreeSet::new();
    now.retain(|point| seen.insert(point.clone()));
    let reading = |(hours, points): &(Exact, Vec<PointId>)| {
        entry(
            sheet,
            sheet.t1(
                "paper-strip-hours",
                "hours",
                sheet.words.hours_number(hours),
            ),
            points,
            names,
        )
    };
    let date = |(date, points): &(Date, Vec<PointId>)| {
        entry(sheet, sheet.words.date(*date), points, names)
    };
    let data = json!({
        "frame": sheet.frame(&title, &["caution-figure"]),
        "name": title,
        "as-of": sheet.t1("paper-strip-as-of", "at", sheet.words.date(today)),
        "now": (!now.is_empty()).then(|| entry(sheet, sheet.t("paper-strip-now"), &now, names)),
        "readings": readings.iter().take(MOST_READINGS).map(reading).collect::<Vec<_>>(),
        "dates": later.iter().take(MOST_DATES).map(date).collect::<Vec<_>>(),
        "none": lines.is_empty().then(|| sheet.t("due-none")),
        "cut": sheet.t(if sheet.book.is_without_meter() { "paper-strip-cut-no-meter" } else { "paper-strip-cut" }),
    });
    typeset::pdf(&typeset::Document {
        markup: include_str!("due_strip.typ"),
        data,
        pictures: BTreeMap::new(),
    })
}

/// Points by when they are due, the soonest first.
fn by<T: Ord>(lines: &[DueLine], when: impl Fn(&DueLine) -> Option<T>) -> Vec<(T, Vec<PointId>)> {
    let mut groups: BTreeMap<T, Vec<PointId>> = BTreeMap::new();
    for line in lines {
        if let Some(when) = when(line) {
            let group = groups.entry(when).or_default();
            // A point of several rhythms may be due twice at the same time.
            if !group.contains(&line.point) {
                group.push(line.point.clone());
            }
        }
    }
    groups.into_iter().collect()
}

fn entry(sheet: &Sheet<'_>, when: String, points: &[PointId], names: &dyn Names) -> Value {
    json!({ "when": when, "what": what(sheet, points, names) })
}

/// Fittings are one thing, greasing; of the rest the first are named and the others counted.
fn what(sheet: &Sheet<'_>, points: &[PointId], names: &dyn Names) -> String {
    let known = |id: &PointId| sheet.book.points.iter().find(|p| p.id == *id);
    let is_fitting =
        |id: &&PointId| known(id).is_some_and(|p| matches!(p.kind, PointKind::Fitting(_)));
    let (greased, others): (Vec<&PointId>, Vec<&PointId>) = points.iter().partition(is_fitting);
    let fittings: u32 = greased
        .iter()
        .filter_map(|id| known(id))
        .map(|p| p.count)
        .fold(0, u32::saturating_add);
    let mut said = Vec::new();
    said.extend((fittings > 0).then(|| sheet.t1("paper-strip-greasing", "n", fittings)));
    said.extend(
        others
            .iter()
            .take(MOST_NAMED)
            .map(|id| sheet.words.point(id, names)),
    );
    let more = others.len().saturating_sub(MOST_NAMED);
    said.extend((more > 0).then(|| sheet.t1("paper-strip-more", "n", more)));
    said.join(" · ")
}
