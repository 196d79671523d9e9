//! Reading a text that is not quite TOML: what reads is kept, what does not is told once and set aside.

use super::fields::Table;
use super::slip;
use super::statements::{heading_name, joined, key_before_equals, statements};
use super::tree::{Entries, entries};
use super::trouble::{Slip, TroubleKind};
use std::collections::BTreeMap;
use std::ops::Range;
use toml::de::DeTable;

/// A text as far as it reads.
pub(super) struct Document {
    /// What was read.
    pub(super) entries: Entries,
    /// What was not, with its place.
    pub(super) found: Vec<(Range<usize>, TroubleKind)>,
    /// Statements set aside, so that their absence is not told as a second mistake.
    pub(super) broken: Vec<Broken>,
}

/// A statement set aside.
pub(super) struct Broken {
    /// Where the heading of its table begins; none before the first heading.
    pub(super) section: Option<usize>,
    /// Its key, where it can be told.
    pub(super) key: Option<String>,
    /// What its value may have meant, without quotes.
    pub(super) value: String,
}

/// Reads a text, mending it where it must.
pub(super) fn document(text: &str) -> Document {
    match DeTable::parse(text) {
        Ok(table) => Document {
            entries: entries(table.get_ref(), &|span| span),
            found: Vec::new(),
            broken: Vec::new(),
        },
        Err(_) => mended(text),
    }
}

fn mended(text: &str) -> Document {
    let mut bench = Bench::of(text);
    let mut next = 0;
    while next < bench.cut.len() {
        next = bench.take(next) + 1;
    }
    let entries = bench.read();
    Document {
        entries,
        found: bench.found,
        broken: bench.broken,
    }
}

/// A piece of the mended text and where it came from.
struct Piece {
    text: String,
    from: Range<usize>,
    section: Option<usize>,
}

struct Bench<'t> {
    text: &'t str,
    cut: Vec<Range<usize>>,
    pieces: Vec<Piece>,
    found: Vec<(Range<usize>, TroubleKind)>,
    broken: Vec<Broken>,
    /// Start of the heading the statements now belong to.
    section: Option<usize>,
    /// Inside a table that may not be there again.
    skipping: bool,
    tables: BTreeMap<&'t str, usize>,
    keys: BTreeMap<String, usize>,
}

/// How often the mended text is tried before the rest is given up.
const TRIES: usize = 20;

impl<'t> Bench<'t> {
    fn of(text: &'t str) -> Self {
        Self {
            text,
            cut: statements(text),
            pieces: Vec::new(),
            found: Vec::new(),
            broken: Vec::new(),
            section: None,
            skipping: false,
            tables: BTreeMap::new(),
            keys: BTreeMap::new(),
        }
    }

    /// Takes one statement; gives the index of the last one used.
    fn take(&mut self, index: usize) -> usize {
        let range = self.cut[index].clone();
        let first_line = self.text[range.clone()].lines().next().unwrap_or_default();
        if let Some(name) = heading_name(first_line) {
            self.heading(range, first_line, name);
            return index;
        }
        if self.skipping {
            return index;
        }
        if DeTable::parse(&self.text[range.clone()]).is_ok() {
            self.keep(range);
            return index;
        }
        match joined(self.text, &self.cut, index) {
            Some(last) => {
                self.keep(range.start..self.cut[last].end);
                last
            }
            None => {
                self.set_aside(range);
                index
            }
        }
    }

    fn heading(&mut self, range: Range<usize>, line: &'t str, name: &'t str) {
        let begin = range.start + (line.len() - line.trim_start().len());
        self.section = Some(begin);
        self.keys.clear();
        self.skipping = false;
        let known = Table::named(name);
        let right = known.map_or_else(|| format!("[[{name}]]"), Table::heading);
        let bare = line.split('#').next().unwrap_or(line).trim_end();
        let place = begin..range.start + bare.len();
        let bare: String = bare.split_whitespace().collect();
        if bare != format!("[{name}]") && bare != format!("[[{name}]]") {
            self.found.push((
                place.clone(),
                TroubleKind::Syntax {
                    slip: Slip::Heading,
                    right: Some(right.clone()),
                },
            ));
        } else if let Some(table) = known.filter(|_| bare != right) {
            self.found.push((
                place.clone(),
                TroubleKind::TableForm {
                    table: table.name,
                    right: right.clone(),
                },
            ));
        }
        let once = known.is_some_and(|table| !table.many);
        match self.tables.get(name) {
            Some(first) if once => {
                let first_line = self.line_of(*first);
                self.found.push((
                    place,
                    TroubleKind::TableTwice {
                        table: name.to_owned(),
                        first_line,
                    },
                ));
                self.skipping = true;
            }
            _ => {
                self.tables.insert(name, range.start);
                self.pieces.push(Piece {
                    text: format!("{right}\n"),
                    from: begin..range.end,
                    section: self.section,
                });
            }
        }
    }

    fn keep(&mut self, range: Range<usize>) {
        let statement = &self.text[range.clone()];
        let key = key_before_equals(statement.lines().next().unwrap_or_default())
            .unwrap_or_default()
            .to_owned();
        if let Some(first) = self.keys.get(&key).filter(|_| !key.is_empty()) {
            let first_line = self.line_of(*first);
            let place = range.start
                ..range.start
                    + statement
                        .lines()
                        .next()
                        .unwrap_or_default()
                        .trim_end()
                        .len();
            self.found
                .push((place, TroubleKind::KeyTwice { key, first_line }));
            return;
        }
        self.keys.insert(key, range.start);
        let mut text = statement.to_owned();
        if !text.ends_with('\n') {
            text.push('\n');
        }
        self.pieces.push(Piece {
            text,
            from: range,
            section: self.section,
        });
    }

    fn set_aside(&mut self, range: Range<usize>) {
        let told = slip::told(&self.text[range.clone()]);
        let place = range.start + told.place.start..range.start + told.place.end;
        self.found.push((
            place,
            TroubleKind::Syntax {
                slip: told.slip,
                right: told.right,
            },
        ));
        self.broken.push(Broken {
            section: self.section,
            key: told.key,
            value: told.value,
        });
    }

    fn line_of(&self, offset: usize) -> u32 {
        u32::try_from(self.text[..offset].matches('\n').count() + 1).unwrap_or(u32::MAX)
    }

    /// Reads the pieces together; a piece that does not go with the others is set aside too.
    fn read(&mut self) -> Entries {
        for _ in 0..TRIES {
            let whole: String = self
                .pieces
                .iter()
                .map(|piece| piece.text.as_str())
                .collect();
            let error = match DeTable::parse(&whole) {
                Ok(table) => return entries(table.get_ref(), &|span| self.original(span)),
                Err(error) => error,
            };
            let at = error.span().map_or(0, |span| span.start);
            let Some(index) = self.piece_at(at) else {
                break;
            };
            let piece = self.pieces.remove(index);
            self.found.push((
                piece.from,
                TroubleKind::Syntax {
                    slip: Slip::Other,
                    right: None,
                },
            ));
            self.broken.push(Broken {
                section: piece.section,
                key: None,
                value: String::new(),
            });
        }
        Entries::new()
    }

    fn piece_at(&self, offset: usize) -> Option<usize> {
        let mut end = 0;
        self.pieces.iter().position(|piece| {
            end += piece.text.len();
            offset < end
        })
    }

    /// A range of the mended text, as a range of the original.
    fn original(&self, span: Range<usize>) -> Range<usize> {
        let mut start = 0;
        for piece in &self.pieces {
            let end = start + piece.text.len();
            if span.start < end {
                let from = (piece.from.start + (span.start - start)).min(piece.from.end);
                let to = (piece.from.start + (span.end - start)).clamp(from, piece.from.end);
                return from..to;
            }
            start = end;
        }
        self.text.len()..self.text.len()
    }
}
