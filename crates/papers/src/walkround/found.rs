//! What is crossed or written beside a point: a box for every answer that can be found, in bold what stands the machine down.

use super::{AnswerWord, Row, answer_words};
use crate::Sheet;
use serde_json::{Value, json};
use yard::book::{CrankCase, MeasureLimit, Point, PointKind, Severity};

/// A piece of a line that is never broken.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Piece {
    /// A box to cross and its word.
    Tick(String),
    /// A box whose word stands the machine down.
    TickDown(String),
    /// A line to write on, so many millimetres long, and what is written after it.
    Write(u32, String),
    /// Words.
    Plain(String),
    /// Words in bold.
    Strong(String),
}

/// One line.
pub(crate) type Line = Vec<Piece>;

impl Piece {
    /// For the markup.
    pub(crate) fn data(&self) -> Value {
        match self {
            Piece::Tick(word) => json!({ "tick": word, "down": false }),
            Piece::TickDown(word) => json!({ "tick": word, "down": true }),
            Piece::Write(long, after) => json!({ "write": long, "after": after }),
            Piece::Plain(word) => json!({ "plain": word }),
            Piece::Strong(word) => json!({ "strong": word }),
        }
    }
}

/// What is crossed or written beside a row.
pub(crate) fn found(sheet: &Sheet<'_>, row: &Row<'_>) -> Vec<Line> {
    match row {
        Row::One(point, _) => lines(sheet, point),
        Row::Both { left, right, .. } => {
            let side = |key: &str, point: &Point| {
                let mut lines = lines(sheet, point);
                if let Some(first) = lines.first_mut() {
                    first.insert(0, Piece::Strong(sheet.t(key)));
                }
                lines
            };
            let mut both = side("paper-left", left.0);
            both.extend(side("paper-right", right.0));
            both
        }
    }
}

fn lines(sheet: &Sheet<'_>, point: &Point) -> Vec<Line> {
    let words = answer_words(sheet.words, sheet.book, point);
    match &point.kind {
        PointKind::Measure(limit) => measure(limit, words),
        PointKind::Crank(cases) => crank(point, cases, &words),
        _ => vec![words.into_iter().map(tick).collect()],
    }
}

fn tick(word: AnswerWord) -> Piece {
    if word.stands_down {
        Piece::TickDown(word.word)
    } else {
        Piece::Tick(word.word)
    }
}

/// A line for each reading; then whether it was read another way, and whether the limit's condition held.
fn measure(limit: &MeasureLimit, words: Vec<AnswerWord>) -> Vec<Line> {
    let unit = limit
        .max
        .as_ref()
        .or(limit.min.as_ref())
        .map_or("", |limit| limit.unit().symbol());
    let one = |name: &String| {
        vec![
            Piece::Plain(name.clone()),
            Piece::Write(14, unit.to_owned()),
        ]
    };
    let mut lines: Vec<Line> = limit.readings.iter().map(one).collect();
    let (other_way, held): (Vec<_>, Vec<_>) =
        words.into_iter().partition(|w| w.code == "other-way");
    if let Some(last) = lines.last_mut() {
        last.extend(other_way.into_iter().map(tick));
    }
    if let Some(condition) = &limit.condition {
        let said = std::iter::once(Piece::Plain(condition.clone()));
        lines.push(said.chain(held.into_iter().map(tick)).collect());
    }
    lines
}

/// A line for each combination; the switch once, at the end.
fn crank(point: &Point, cases: &[CrankCase], words: &[AnswerWord]) -> Vec<Line> {
    let (of_switch, of_case): (Vec<AnswerWord>, Vec<AnswerWord>) = words
        .iter()
        .cloned()
        .partition(|word| word.code == "bypassed");
    let case = |case: &CrankCase| {
        let boxes = of_case.iter().cloned().map(|word| {
            let stands_down = match word.code {
                "yes" => !case.may_crank,
                "no" => case.may_crank && point.bad_is == Some(Severity::StandDown),
                _ => word.stands_down,
            };
            tick(AnswerWord {
                stands_down,
                ..word
            })
        });
        std::iter::once(Piece::Plain(case.with.clone()))
            .chain(boxes)
            .collect()
    };
    let switch = of_switch.into_iter().map(tick).collect();
    cases
        .iter()
        .map(case)
        .chain(std::iter::once(switch))
        .collect()
}
