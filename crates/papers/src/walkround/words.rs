//! The words beside the boxes of the sheet, each with the code it stands for: what is printed and what is read back are one table.

use super::stands_down;
use words::Words;
use yard::book::{Book, Point, PointKind};

/// A box of the sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AnswerWord {
    /// What it stands for, as a form and the journal say it; `none` is a dry leak point.
    pub code: &'static str,
    /// What is printed beside it.
    pub word: String,
    /// Whether it stands the machine down at once, by the yard's rules: printed in bold.
    pub stands_down: bool,
}

/// Code, and the message `paper-found-…`.
type Entry = (&'static str, &'static str);

const LEVEL: &[Entry] = &[
    ("at-mark", "at-mark-as-above"),
    ("below", "below"),
    ("nothing", "nothing"),
    ("too-full", "too-full"),
    ("milky", "milky"),
    ("wrong", "wrong"),
];
const FITTING: &[Entry] = &[("seen", "seen"), ("took", "took"), ("refused", "refused")];
const PIN_CLIP: &[Entry] = &[
    ("present", "there"),
    ("loose", "loose"),
    ("missing", "missing"),
];
const BOLTS: &[Entry] = &[
    ("tight", "tight"),
    ("stripe-turned", "stripe-turned"),
    ("loose", "loose"),
    ("missing", "missing-or-broken"),
];
const MEASURE: &[Entry] = &[
    ("other-way", "other-way"),
    ("met", "met"),
    ("not-met", "not-met"),
];
const LEAK: &[Entry] = &[
    ("none", "dry"),
    ("I", "leak-one"),
    ("II", "leak-two"),
    ("III", "leak-three"),
];
const HOSE: &[Entry] = &[
    ("sound", "sound"),
    ("rubbed", "rubbed"),
    ("worn-through", "wire"),
    ("bulged", "bulged"),
];
const STRUCTURE: &[Entry] = &[
    ("sound", "sound"),
    ("bent", "bent"),
    ("cracked", "cracked"),
    ("rust-in-crack", "rust-in-crack"),
];
const FUNCTION: &[Entry] = &[("works", "works"), ("weak", "weak"), ("fails", "fails")];
const LOOK: &[Entry] = &[
    ("well", "in-order"),
    ("worn", "worn"),
    ("damaged", "damaged"),
    ("missing", "missing"),
];
const CRANK: &[Entry] = &[
    ("no", "did-not"),
    ("yes", "turned"),
    ("untried", "not-tried"),
    ("bypassed", "bypassed"),
];
/// What may also be typed, though it has no box: how a level was read, what the fluid looks like, and "all" of several.
const LEVEL_TYPED: &[Entry] = &[
    ("at-mark", "at-mark"),
    ("as-above", "as-above"),
    ("clean", "clean"),
    ("dark", "dark"),
    ("cold", "cold"),
    ("warm", "warm"),
    ("hot", "hot"),
];
const SEVERAL: [Entry; 3] = [
    ("seen", "all-seen"),
    ("present", "all-there"),
    ("tight", "all-tight"),
];
const SEEN_AT_JOINT: Entry = ("seen", "seen-at-joint");

fn printed(kind: &PointKind) -> &'static [Entry] {
    match kind {
        PointKind::Level(_) => LEVEL,
        PointKind::Fitting(_) => FITTING,
        PointKind::PinClip => PIN_CLIP,
        PointKind::Bolts => BOLTS,
        PointKind::Measure(_) => MEASURE,
        PointKind::Leak { .. } => LEAK,
        PointKind::Hose => HOSE,
        PointKind::Structure => STRUCTURE,
        PointKind::Function => FUNCTION,
        PointKind::Look => LOOK,
        PointKind::Crank(_) => CRANK,
    }
}

/// The boxes of a point, in the order they are printed. A measure has boxes only for what stands beside its readings.
pub fn answer_words(words: &Words, book: &Book, point: &Point) -> Vec<AnswerWord> {
    let offered = printed(&point.kind)
        .iter()
        .filter(|(code, _)| is_offered(&point.kind, code));
    let box_of = |&(code, key): &Entry| AnswerWord {
        code,
        word: words.text(&message(fitting_key(point, code, key))),
        stands_down: stands_down(book, point, code),
    };
    offered.map(box_of).collect()
}

fn is_offered(kind: &PointKind, code: &str) -> bool {
    match kind {
        PointKind::Level(mark) => mark.upper || code != "too-full",
        PointKind::Measure(limit) => limit.condition.is_some() || code == "other-way",
        _ => true,
    }
}

/// "All tight" where there are several, "seen there" where the joint is elsewhere.
fn fitting_key(point: &Point, code: &str, key: &'static str) -> &'static str {
    if matches!(&point.kind, PointKind::Fitting(rule) if rule.remote) && code == "seen" {
        return SEEN_AT_JOINT.1;
    }
    let several = SEVERAL.iter().find(|(of, _)| *of == code);
    several
        .filter(|_| point.count > 1)
        .map_or(key, |(_, all)| *all)
}

fn message(key: &str) -> String {
    format!("paper-found-{key}")
}

/// The code of a word typed from a sheet: as printed, as the code itself, or one of the forms listed with the message.
/// Large and small letters, spaces and dashes are the same. None where no box of such a point says so.
pub fn read_answer_word(words: &Words, kind: &PointKind, typed: &str) -> Option<&'static str> {
    let typed = plain(typed);
    known(kind)
        .find(|(code, key)| plain(code) == typed || forms(words, key).contains(&typed))
        .map(|(code, _)| *code)
}

/// Every word that such a point knows, printed or typed.
fn known(kind: &PointKind) -> impl Iterator<Item = &'static Entry> {
    let own = printed(kind);
    let more = if matches!(kind, PointKind::Level(_)) {
        LEVEL_TYPED
    } else {
        &[]
    };
    let of_several = SEVERAL.iter().chain([&SEEN_AT_JOINT]);
    let of_several =
        of_several.filter(move |(code, _)| own.iter().any(|(printed, _)| printed == code));
    own.iter().chain(more).chain(of_several)
}

/// The word and what may be typed for it.
fn forms(words: &Words, key: &str) -> Vec<String> {
    let key = message(key);
    let also = format!("{key}.also");
    let also = if words.has(&also) {
        words.text(&also)
    } else {
        String::new()
    };
    let also = also.split(';').map(plain).filter(|form| !form.is_empty());
    std::iter::once(plain(&words.text(&key)))
        .chain(also)
        .collect()
}

/// Small letters, one space between words.
fn plain(text: &str) -> String {
    let spaced = text.to_lowercase().replace(['-', '_'], " ");
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn letters_spaces_and_dashes_do_not_matter() {
        let words = Words::english();
        let read = |typed| read_answer_word(&words, &PointKind::Structure, typed);
        assert_eq!(read(" Rust-in  CRACK"), Some("rust-in-crack"));
        assert_eq!(read("crack"), Some("cracked"));
        assert_eq!(read("cracks perhaps"), None);
    }

    #[test]
    fn no_form_belongs_to_two_boxes_of_one_point() {
        let words = Words::english();
        let text = include_str!("../../../../demo/marigold.toml");
        let book = yard::book::read(text, &quantity::Habits::default());
        for point in book.book.unwrap().points {
            let mut said = std::collections::BTreeMap::new();
            for (code, key) in known(&point.kind) {
                for form in forms(&words, key).into_iter().chain([plain(code)]) {
                    let before = said.insert(form.clone(), code);
                    assert!(before.is_none_or(|b| b == code), "{form} at {}", point.what);
                }
            }
        }
    }
}
