//! One line of a filled sheet: the words beside the boxes, as the fields of a station page. What was not said is asked for, not guessed.

use papers::read_answer_word;
use words::Words;
use yard::{
    book::{Book, LevelMark, MeasureLimit, OilHeat, Point, PointKind},
    code::Coded,
    entry::{FluidLooks, Hindrance, LevelReads},
    id::ItemId,
};

/// Fields as `what`, value; the point's id is added by the caller.
pub(super) type Fields = Vec<(String, String)>;
/// The key of the question that is left.
pub(super) type Question = &'static str;

const NOT_AN_ANSWER: Question = "ask-sheet-said";

/// The fields that a line's words amount to.
pub(super) fn fields(
    words: &Words,
    book: &Book,
    point: &Point,
    said: &str,
) -> Result<Fields, Question> {
    if let Some(why) = not_checked(said) {
        return Ok(hindered(why));
    }
    let code = |word: &str| read_answer_word(words, &point.kind, word);
    let parts: Vec<&str> = said.split(',').map(str::trim).collect();
    match &point.kind {
        PointKind::Level(mark) => level(book, mark, &parts, code),
        PointKind::Measure(limit) => measure(limit, &parts, code),
        PointKind::Crank(cases) => crank(cases.len(), &parts, code),
        PointKind::Fitting(_) => counted("strokes", &parts, code),
        PointKind::Bolts => counted("count", &parts, code),
        _ => counted("", &parts, code),
    }
}

/// What follows "not checked" or a dash; none where the line is an answer.
fn not_checked(said: &str) -> Option<&str> {
    let words = "not checked";
    let rest = match said.get(..words.len()) {
        Some(start) if start.eq_ignore_ascii_case(words) => said.get(words.len()..),
        _ => said
            .strip_prefix(['–', '—'])
            .or_else(|| said.strip_prefix("- "))
            .or_else(|| (said == "-").then_some("")),
    };
    rest.map(|why| why.trim_matches([',', ':', ' ']))
}

/// The reason's code; a reason of the walker's own words is kept as a note.
fn hindered(why: &str) -> Fields {
    let code = why.to_lowercase().replace(' ', "-");
    match Hindrance::from_code(&code) {
        Some(known) => vec![field("why", known.code())],
        None => vec![field("why", Hindrance::Other.code()), field("n", why)],
    }
}

fn field(what: &str, value: &str) -> (String, String) {
    (what.to_owned(), value.to_owned())
}

/// One word, then at most a number where the point counts something.
fn counted(
    number: &str,
    parts: &[&str],
    code: impl Fn(&str) -> Option<&'static str>,
) -> Result<Fields, Question> {
    let (word, rest) = parts.split_first().ok_or(NOT_AN_ANSWER)?;
    let mut fields = vec![field("a", code(word).ok_or(NOT_AN_ANSWER)?)];
    match rest {
        [] => {}
        [count] if !number.is_empty() && count.parse::<u32>().is_ok() => {
            fields.push(field(number, count));
        }
        _ => return Err(NOT_AN_ANSWER),
    }
    Ok(fields)
}

/// Readings in the book's order, and the boxes beside them. A condition is held or not: that must be said.
fn measure(
    limit: &MeasureLimit,
    parts: &[&str],
    code: impl Fn(&str) -> Option<&'static str>,
) -> Result<Fields, Question> {
    let (boxes, readings): (Vec<&str>, Vec<&str>) =
        parts.iter().partition(|part| code(part).is_some());
    let ticked = |wanted: &str| boxes.iter().any(|part| code(part) == Some(wanted));
    if readings.len() > limit.readings.len() {
        return Err(NOT_AN_ANSWER);
    }
    let mut fields: Fields = (0..)
        .zip(readings)
        .map(|(i, reading): (usize, &str)| field(&format!("v{i}"), reading))
        .collect();
    fields.push(field("m", if ticked("other-way") { "no" } else { "yes" }));
    if limit.condition.is_some() {
        match (ticked("met"), ticked("not-met")) {
            (true, false) => fields.push(field("c", "yes")),
            (false, true) => fields.push(field("c", "no")),
            _ => return Err("ask-sheet-condition"),
        }
    }
    Ok(fields)
}

/// What each combination did, in the book's order; or only that the switch was bypassed.
fn crank(
    cases: usize,
    parts: &[&str],
    code: impl Fn(&str) -> Option<&'static str>,
) -> Result<Fields, Question> {
    let codes: Option<Vec<&str>> = parts.iter().map(|part| code(part)).collect();
    let (switch, tried): (Vec<&str>, Vec<&str>) = codes
        .ok_or(NOT_AN_ANSWER)?
        .into_iter()
        .partition(|code| *code == "bypassed");
    let bypassed = !switch.is_empty();
    if tried.len() != cases && !(tried.is_empty() && bypassed) {
        return Err("ask-sheet-each");
    }
    let tried = (0..)
        .zip(tried)
        .map(|(i, did): (usize, &str)| field(&format!("k{i}"), did));
    Ok(tried
        .chain([field("by", if bypassed { "yes" } else { "no" })])
        .collect())
}

/// What was said of a level, each part once.
#[derive(Default)]
struct LevelSaid {
    reads: Option<String>,
    looks: Option<String>,
    oil: Option<String>,
    pose: Option<String>,
    as_above: bool,
}

impl LevelSaid {
    fn take(&mut self, book: &Book, part: &str, code: Option<&str>) -> Result<(), Question> {
        let Some(code) = code else {
            return once(&mut self.pose, &pose(book, part).ok_or(NOT_AN_ANSWER)?);
        };
        if code == "as-above" {
            self.as_above = true;
            Ok(())
        } else if LevelReads::from_code(code).is_some() {
            once(&mut self.reads, code)
        } else if FluidLooks::from_code(code).is_some() {
            once(&mut self.looks, code)
        } else {
            once(&mut self.oil, code)
        }
    }
}

/// A part said twice, and differently, is asked about.
fn once(place: &mut Option<String>, said: &str) -> Result<(), Question> {
    match place {
        Some(before) if before != said => Err(NOT_AN_ANSWER),
        _ => {
            *place = Some(said.to_owned());
            Ok(())
        }
    }
}

/// A pose by its id or its words; `other` for one that the book does not name.
fn pose(book: &Book, part: &str) -> Option<String> {
    let id = part.to_lowercase().replace(' ', "-");
    let mut poses = book.poses.iter();
    let known = poses.find(|pose| pose.id.as_str() == id || pose.what.eq_ignore_ascii_case(part));
    known
        .map(|pose| pose.id.to_string())
        .or_else(|| (id == OTHER).then_some(id))
}

const OTHER: &str = "other";

/// A level belongs to a pose and an oil heat: neither is taken for granted. "As above" says both, and that the fluid is clean.
fn level(
    book: &Book,
    mark: &LevelMark,
    parts: &[&str],
    code: impl Fn(&str) -> Option<&'static str>,
) -> Result<Fields, Question> {
    let mut said = LevelSaid::default();
    for part in parts {
        said.take(book, part, code(part))?;
    }
    if said.as_above {
        let mark_pose = mark.pose.as_ref().map_or(OTHER, ItemId::as_str);
        if said.pose.as_deref().is_some_and(|pose| pose != mark_pose) {
            return Err(NOT_AN_ANSWER);
        }
        said.pose = Some(mark_pose.to_owned());
        said.looks
            .get_or_insert_with(|| FluidLooks::Clean.code().to_owned());
        if mark.oil != OilHeat::Any {
            said.oil.get_or_insert_with(|| mark.oil.code().to_owned());
        }
    }
    let mut fields = vec![
        field("a", &said.reads.ok_or("ask-sheet-level")?),
        field("pose", &said.pose.ok_or("ask-sheet-pose")?),
        field("looks", &said.looks.ok_or("ask-sheet-looks")?),
    ];
    match said.oil {
        Some(oil) => fields.push(field("oil", &oil)),
        None if mark.oil != OilHeat::Any => return Err("ask-sheet-heat"),
        None => {}
    }
    Ok(fields)
}
