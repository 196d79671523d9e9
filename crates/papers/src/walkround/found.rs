//! What is ticked or written beside a point: boxes that fit the kind of answer, and what stands the machine down.

use super::Row;
use crate::Sheet;
use serde_json::{Value, json};
use yard::book::{
    About, GreasingRule, LeakClass, LevelMark, MeasureLimit, OilHeat, Point, PointKind,
};

/// A piece of a line that is never broken.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Piece {
    /// A box to tick and its word.
    Tick(String),
    /// A line to write on, so many millimetres long, and what is written after it.
    Write(u32, String),
    /// Words.
    Plain(String),
    /// What stands the machine down.
    Strong(String),
}

/// One line.
pub(crate) type Line = Vec<Piece>;

impl Piece {
    /// For the markup.
    pub(crate) fn data(&self) -> Value {
        match self {
            Piece::Tick(word) => json!({ "tick": word }),
            Piece::Write(long, after) => json!({ "write": long, "after": after }),
            Piece::Plain(word) => json!({ "plain": word }),
            Piece::Strong(word) => json!({ "strong": word }),
        }
    }
}

/// What is ticked or written beside a row.
pub(crate) fn found(sheet: &Sheet<'_>, row: &Row<'_>) -> Vec<Line> {
    match row {
        Row::One(point, _) => lines(sheet, point),
        Row::Both { left, right, .. } => {
            let side = |key: &str, point: &Point| {
                let mut lines = ticks_only(lines(sheet, point));
                if let Some(first) = lines.first_mut() {
                    first.insert(0, Piece::Strong(sheet.t(key)));
                }
                lines
            };
            let strong: Line = lines(sheet, left.0)
                .into_iter()
                .flatten()
                .filter(|p| matches!(p, Piece::Strong(_)))
                .collect();
            let mut both = side("paper-left", left.0);
            both.extend(side("paper-right", right.0));
            both.extend((!strong.is_empty()).then_some(strong));
            both
        }
    }
}

fn ticks_only(lines: Vec<Line>) -> Vec<Line> {
    let kept = |line: Line| {
        line.into_iter()
            .filter(|p| !matches!(p, Piece::Strong(_)))
            .collect::<Line>()
    };
    lines
        .into_iter()
        .map(kept)
        .filter(|line| !line.is_empty())
        .collect()
}

fn lines(sheet: &Sheet<'_>, point: &Point) -> Vec<Line> {
    match &point.kind {
        PointKind::Level(mark) => level(sheet, mark),
        PointKind::Fitting(rule) => vec![fitting(sheet, rule, point.count)],
        PointKind::PinClip => vec![
            vec![of(sheet, "tight", point.count), tick(sheet, "loose")],
            vec![down(sheet, "missing")],
        ],
        PointKind::Bolts => vec![vec![
            of(sheet, "tight", point.count),
            Piece::Write(6, sheet.t("paper-found-loose")),
            Piece::Write(6, sheet.t("paper-found-missing")),
        ]],
        PointKind::Measure(limit) => measure(sheet, limit),
        PointKind::Leak { out_from, .. } => leak(sheet, point, *out_from),
        PointKind::Hose => vec![
            vec![tick(sheet, "sound"), tick(sheet, "rubbed")],
            vec![down(sheet, "worn-or-bulged")],
        ],
        PointKind::Structure => vec![vec![
            tick(sheet, "sound"),
            tick(sheet, "bent"),
            down(sheet, "cracked"),
        ]],
        PointKind::Function => works(sheet, point, ["works", "weak", "fails"]),
        PointKind::Look => works(sheet, point, ["in-order", "worn", "damaged"]),
        PointKind::Crank(cases) => cases
            .iter()
            .map(|case| {
                let turned = if case.may_crank {
                    tick(sheet, "turned")
                } else {
                    down(sheet, "turned")
                };
                vec![
                    Piece::Plain(case.with.clone()),
                    tick(sheet, "did-not"),
                    turned,
                ]
            })
            .collect(),
    }
}

fn tick(sheet: &Sheet<'_>, word: &str) -> Piece {
    Piece::Tick(sheet.t(&format!("paper-found-{word}")))
}

/// A box for all of several, or for the one.
fn of(sheet: &Sheet<'_>, word: &str, count: u32) -> Piece {
    if count > 1 {
        Piece::Tick(sheet.t1(&format!("paper-found-all-{word}"), "n", count))
    } else {
        tick(sheet, word)
    }
}

fn down(sheet: &Sheet<'_>, word: &str) -> Piece {
    let word = sheet.t(&format!("paper-found-{word}"));
    Piece::Strong(sheet.t1("paper-is-stand-down", "state", word))
}

fn level(sheet: &Sheet<'_>, mark: &LevelMark) -> Vec<Line> {
    let mut reads = vec![tick(sheet, "at-mark"), tick(sheet, "below")];
    if mark.upper {
        reads.push(tick(sheet, "too-full"));
    }
    reads.push(tick(sheet, "milky"));
    if mark.oil != OilHeat::Any {
        let heat = sheet.words.name(mark.oil);
        reads.push(Piece::Tick(sheet.t1("paper-found-oil", "oil", heat)));
    }
    vec![reads]
}

fn fitting(sheet: &Sheet<'_>, rule: &GreasingRule, count: u32) -> Line {
    let seen = if rule.remote { "seen-at-joint" } else { "seen" };
    if count > 1 {
        let of = sheet.t1("paper-found-of-seen", "of", count);
        return vec![
            Piece::Write(7, of),
            Piece::Write(7, sheet.t("paper-found-refused")),
        ];
    }
    vec![
        tick(sheet, seen),
        tick(sheet, "took"),
        tick(sheet, "refused"),
    ]
}

fn measure(sheet: &Sheet<'_>, limit: &MeasureLimit) -> Vec<Line> {
    let unit = limit
        .max
        .as_ref()
        .or(limit.min.as_ref())
        .map_or("", |limit| limit.unit().symbol());
    let one = |name: &String| {
        vec![
            Piece::Plain(name.clone()),
            Piece::Write(14, unit.to_owned()),
            tick(sheet, "again"),
        ]
    };
    let mut lines: Vec<Line> = limit.readings.iter().map(one).collect();
    if let Some(condition) = &limit.condition {
        lines.push(vec![Piece::Tick(condition.clone())]);
    }
    lines
}

/// The yard's rules: fuel and brake fluid stand down from a drop of any class, others from the book's class, at the latest class III.
fn leak(sheet: &Sheet<'_>, point: &Point, out_from: LeakClass) -> Vec<Line> {
    let class = |class: LeakClass| {
        sheet.t(match class {
            LeakClass::I => "paper-found-leak-one",
            LeakClass::II => "paper-found-leak-two",
            LeakClass::III => "paper-found-leak-three",
        })
    };
    let out_from = if matches!(point.about, About::Fuel | About::BrakeFluid | About::Brakes) {
        LeakClass::I
    } else {
        out_from
    };
    let mut line = vec![tick(sheet, "dry")];
    for each in [LeakClass::I, LeakClass::II, LeakClass::III] {
        if each < out_from {
            line.push(Piece::Tick(class(each)));
        }
    }
    line.push(Piece::Strong(sheet.t1(
        "paper-from-stand-down",
        "state",
        class(out_from),
    )));
    vec![line]
}

/// What must work or be in order. What the rules stand down whatever the book says is printed so.
fn works(sheet: &Sheet<'_>, point: &Point, [well, so_so, bad]: [&str; 3]) -> Vec<Line> {
    let must = matches!(
        point.about,
        About::Brakes | About::Steering | About::SeatBelt | About::Guards | About::Locks
    );
    let bad = if must {
        down(sheet, bad)
    } else {
        tick(sheet, bad)
    };
    vec![vec![tick(sheet, well), tick(sheet, so_so), bad]]
}
