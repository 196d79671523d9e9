//! The arrival sheet: what to look at on the day a machine comes, with boxes to fill; brought back, it is written into the book.

use crate::{
    PaperError, Sheet, picture, typeset,
    walkround::{Row, rows},
};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use words::{BookNames, Names};
use yard::{
    arrival::{ArrivalItem, ArrivalPlan, Pair, StepPlan},
    book::{Fluid, Point, PointKind, Without},
    entry::{ArrivalStep, FluidNow},
    id::PointId,
    walkround::{Because, DuePoint, numbers},
};

/// Usual cautions at the foot of every page.
const CAUTIONS: [&str; 3] = ["caution-local-rules", "caution-held", "caution-pressure"];

/// The sheet as PDF: stop first, plates, fluids, left against right, both laps for fittings, measures, weaknesses, with the
/// points numbered on the drawing. What is already known is printed.
///
/// Fails only where the typesetter does, or the address is too long.
pub fn arrival_sheet(sheet: &Sheet<'_>, plan: &ArrivalPlan) -> Result<Vec<u8>, PaperError> {
    let mut pictures = BTreeMap::new();
    let people = BTreeMap::new();
    let names = BookNames {
        book: Some(sheet.book),
        people: &people,
        now: sheet.now,
        zone: sheet.zone,
    };
    let title = sheet.t1("arrival-paper-title", "machine", &sheet.book.machine.name);
    let paper = Paper {
        sheet,
        plan,
        names: &names,
        numbers: numbers(sheet.book),
    };
    let t = |key: &str| sheet.t(&format!("paper-arrival-{key}"));
    let meter = (!sheet.book.is_without_meter()).then_some("hours");
    let fields = ["date", "by", "from"].into_iter().chain(meter);
    let engine = (!sheet.book.lacks(Without::Engine)).then_some("engine-plate");
    let plates = ["makers-plate", "serial", "year"].into_iter().chain(engine);
    let photos = ["photo-sides", "photo-plates", "photo-meter", "photo-worst"];
    let photos = photos
        .into_iter()
        .filter(|photo| *photo != "photo-meter" || meter.is_some());
    let data = json!({
        "frame": sheet.frame(&title, &CAUTIONS),
        "code": sheet.code(&format!("{}/arrival", sheet.address), "paper-qr-arrival", &mut pictures)?,
        "drawings": picture::sides(sheet, &paper.shown(), false, &mut pictures),
        "first": sheet.words.cautions(&["caution-engine-off", "caution-held"], sheet.book),
        "fields": fields.map(t).collect::<Vec<_>>(),
        "stop": paper.step(ArrivalStep::Stop),
        "tried": t("stop-tried"),
        "plates": paper.step(ArrivalStep::Plates),
        "plate-fields": plates.map(t).collect::<Vec<_>>(),
        "other-plates": t("other-plates"),
        "photos": { "says": t("photos"), "of": photos.map(t).collect::<Vec<_>>() },
        "fluids": paper.step(ArrivalStep::Fluids),
        "fluid-rows": paper.fluids(),
        "fluid-columns": (["fluid", "grade"].map(t)),
        "sides": paper.step(ArrivalStep::Sides),
        "pair-rows": paper.pairs(),
        "pair-columns": [sheet.t("paper-column-number"), t("point"), sheet.t("arrival-pair-left"), sheet.t("arrival-pair-right")],
        "measures": paper.step(ArrivalStep::Measures),
        "measure-rows": paper.measures(),
        "measure-columns": [sheet.t("paper-column-number"), t("point"), t("method"), t("reading")],
        "first-lap": paper.step(ArrivalStep::FittingsFirst),
        "second-lap": paper.step(ArrivalStep::FittingsSecond),
        "fitting-rows": paper.fittings(),
        "fitting-columns": (["station", "in-book", "first-lap", "second-lap"].map(t)),
        "more-rows": t("more-rows"),
        "without": paper.without(),
        "weaknesses": paper.step(ArrivalStep::Weaknesses),
        "weakness-rows": paper.weaknesses(),
        "weakness-columns": (["weakness", "seen"].map(t)),
        "none": t("none"),
        "note": sheet.t("paper-note"),
    });
    typeset::pdf(&typeset::Document {
        markup: include_str!("arrival_sheet.typ"),
        data,
        pictures,
    })
}

/// What the rows are made from.
struct Paper<'a> {
    sheet: &'a Sheet<'a>,
    plan: &'a ArrivalPlan,
    names: &'a dyn Names,
    numbers: BTreeMap<PointId, u32>,
}

impl<'a> Paper<'a> {
    /// Title, how and why of a step.
    fn step(&self, step: ArrivalStep) -> Value {
        let words = self.sheet.words;
        json!({ "title": words.name(step), "how": words.arrival_how(step, self.sheet.book), "why": words.arrival_why(step) })
    }

    fn items(&self, step: ArrivalStep) -> impl Iterator<Item = &'a ArrivalItem> {
        let of_step = move |plan: &&StepPlan| plan.step == step;
        self.plan
            .steps
            .iter()
            .filter(of_step)
            .flat_map(|plan| &plan.items)
    }

    fn point(&self, id: &PointId) -> Option<&'a Point> {
        self.sheet.book.points.iter().find(|point| point.id == *id)
    }

    /// The points of pairs and measures, and every fitting: what the sheet asks for.
    fn shown(&self) -> BTreeSet<PointId> {
        let fittings = self.sheet.book.points.iter();
        let fittings = fittings.filter(|point| matches!(point.kind, PointKind::Fitting(_)));
        let mut shown: BTreeSet<PointId> = fittings.map(|point| point.id.clone()).collect();
        for item in self
            .items(ArrivalStep::Sides)
            .chain(self.items(ArrivalStep::Measures))
        {
            match item {
                ArrivalItem::Pair(pair) => shown.extend([pair.left.clone(), pair.right.clone()]),
                ArrivalItem::Measure { point, .. } => drop(shown.insert(point.clone())),
                _ => {}
            }
        }
        shown
    }

    fn fluids(&self) -> Vec<Value> {
        let row = |item: &ArrivalItem| {
            let ArrivalItem::Fluid { fluid, now } = item else {
                return None;
            };
            let known = self.sheet.book.fluids.iter().find(|one| one.id == *fluid)?;
            let states = [None, Some(FluidNow::Changed), Some(FluidNow::Analysed)].map(|state| {
                // That it is unknown is never ticked beforehand: whoever looks does that.
                let ticked = state.is_some() && state == *now;
                json!({ "word": self.sheet.words.fluid_now(state), "ticked": ticked })
            });
            Some(
                json!({ "name": known.name, "where": known.filler, "details": details(known), "states": states }),
            )
        };
        self.items(ArrivalStep::Fluids).filter_map(row).collect()
    }

    fn pairs(&self) -> Vec<Value> {
        let row = |item: &ArrivalItem| {
            let ArrivalItem::Pair(pair) = item else {
                return None;
            };
            let number = |id| self.numbers.get(id).map(u32::to_string).unwrap_or_default();
            let side = |given: &Option<_>| {
                let said = given.as_ref();
                said.map(|given| self.sheet.words.arrival_side(Some(given), self.names))
            };
            Some(json!({
                "numbers": [number(&pair.left), number(&pair.right)],
                "what": self.pair_name(pair),
                "sides": [side(&pair.of_left), side(&pair.of_right)],
            }))
        };
        self.items(ArrivalStep::Sides).filter_map(row).collect()
    }

    /// What both are called together, where their names differ only by the side.
    fn pair_name(&self, pair: &Pair) -> String {
        let due = [&pair.left, &pair.right].map(|id| DuePoint {
            point: id.clone(),
            number: self.numbers.get(id).copied().unwrap_or_default(),
            because: Because::Whole,
            one_tap: false,
        });
        let both = rows(self.sheet.book, &due);
        match both.as_slice() {
            [row @ Row::Both { .. }] => row.what().to_string(),
            _ => self
                .point(&pair.left)
                .map_or_else(String::new, |point| point.what.clone()),
        }
    }

    fn measures(&self) -> Vec<Value> {
        let row = |item: &ArrivalItem| {
            let ArrivalItem::Measure {
                point, has_limit, ..
            } = item
            else {
                return None;
            };
            let PointKind::Measure(limit) = &self.point(point)?.kind else {
                return None;
            };
            Some(json!({
                "number": self.numbers.get(point).map(u32::to_string).unwrap_or_default(),
                "what": self.point(point)?.what,
                "method": limit.method,
                "readings": limit.readings,
                "limit": (!has_limit).then(|| self.sheet.t("paper-arrival-no-limit")),
            }))
        };
        self.items(ArrivalStep::Measures).filter_map(row).collect()
    }

    /// Fittings station by station along the lap, and all together.
    fn fittings(&self) -> Value {
        let book = self.sheet.book;
        let at = |station: &yard::id::StationId| {
            let points = book.points.iter();
            let here = points.filter(|point| {
                point.station == *station && matches!(point.kind, PointKind::Fitting(_))
            });
            here.fold(0u32, |sum, point| sum.saturating_add(point.count))
        };
        let rows: Vec<Value> = book
            .lap
            .iter()
            .map(|station| {
                let name = self
                    .names
                    .station(station)
                    .unwrap_or_else(|| station.to_string());
                json!({ "station": name, "in-book": at(station) })
            })
            .collect();
        let all = yard::upkeep::fittings(book);
        json!({ "rows": rows, "all": { "station": self.sheet.t("paper-arrival-all"), "in-book": all } })
    }

    /// Joints for which no fitting is known.
    fn without(&self) -> Option<String> {
        let item = self.items(ArrivalStep::FittingsSecond).next()?;
        self.sheet
            .words
            .arrival_item_says(item, self.names)
            .into_iter()
            .nth(1)
    }

    fn weaknesses(&self) -> Vec<Value> {
        let row = |item: &ArrivalItem| {
            let ArrivalItem::Weakness { points, .. } = item else {
                return None;
            };
            let numbers = points.iter().filter_map(|point| self.numbers.get(point));
            let numbers: Vec<String> = numbers.map(u32::to_string).collect();
            let what = self.sheet.words.arrival_item(item, self.names);
            Some(json!({ "what": what, "numbers": numbers }))
        };
        self.items(ArrivalStep::Weaknesses)
            .filter_map(row)
            .collect()
    }
}

/// Grade and quantity, as far as known.
fn details(fluid: &Fluid) -> String {
    let holds = fluid.holds.as_ref().map(|holds| holds.text().to_owned());
    let known: Vec<String> = [fluid.grade.clone(), holds].into_iter().flatten().collect();
    known.join(", ")
}
