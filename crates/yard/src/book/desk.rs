//! What the reading of one book works on: the text, what was found wrong so far, the ids seen and the ids spoken of.

use super::fields::Named;
use super::mend::Broken;
use super::nearest::nearest;
use super::place_in_text::Lines;
use super::trouble::{Level, Trouble, TroubleKind};
use quantity::Habits;
use std::{
    cell::RefCell,
    collections::{BTreeMap, BTreeSet},
    ops::Range,
};

/// The desk a book is read at.
pub(super) struct Desk<'t> {
    pub(super) habits: &'t Habits,
    pub(super) lines: Lines<'t>,
    broken: Vec<Broken>,
    found: RefCell<Vec<(Range<usize>, Level, TroubleKind)>>,
    ids: RefCell<BTreeMap<(Named, String), u32>>,
    unsure: RefCell<BTreeSet<Named>>,
    spoken_of: RefCell<Vec<(Named, String, Range<usize>)>>,
}

/// More is not listed.
const MOST_TROUBLES: usize = 200;

impl<'t> Desk<'t> {
    pub(super) fn new(text: &'t str, habits: &'t Habits, broken: Vec<Broken>) -> Self {
        Self {
            habits,
            lines: Lines::of(text),
            broken,
            found: RefCell::default(),
            ids: RefCell::default(),
            unsure: RefCell::default(),
            spoken_of: RefCell::default(),
        }
    }

    /// Notes a mistake.
    pub(super) fn mistake(&self, span: Range<usize>, what: TroubleKind) {
        self.found
            .borrow_mut()
            .push((self.lines.within(span), Level::Mistake, what));
    }

    /// Notes what lets the book stand but deserves a look.
    pub(super) fn warning(&self, span: Range<usize>, what: TroubleKind) {
        self.found
            .borrow_mut()
            .push((self.lines.within(span), Level::Warning, what));
    }

    /// Notes an id with its line, unless it is taken.
    pub(super) fn id(&self, of: Named, id: &str, span: &Range<usize>) {
        let (line, _) = self.lines.at(span.start);
        let taken = self.ids.borrow().get(&(of, id.to_owned())).copied();
        match taken {
            Some(first_line) => self.mistake(
                span.clone(),
                TroubleKind::IdTwice {
                    id: id.to_owned(),
                    first_line,
                },
            ),
            None => {
                self.ids.borrow_mut().insert((of, id.to_owned()), line);
            }
        }
    }

    /// Notes a name that is no sound id but may be spoken of, so that those are not told as further mistakes.
    pub(super) fn half_id(&self, of: Named, text: &str) {
        if text.is_empty() {
            self.unsure.borrow_mut().insert(of);
        } else {
            self.ids
                .borrow_mut()
                .entry((of, text.to_owned()))
                .or_insert(0);
        }
    }

    /// Notes that something of this kind has no id at all: what speaks of one not known may mean it.
    pub(super) fn unsure(&self, of: Named) {
        self.unsure.borrow_mut().insert(of);
    }

    /// Notes that something is spoken of, to be looked up when all is read.
    pub(super) fn speaks_of(&self, of: Named, id: &str, span: Range<usize>) {
        self.spoken_of.borrow_mut().push((of, id.to_owned(), span));
    }

    /// Whether the book has this very id.
    pub(super) fn has(&self, of: Named, id: &str) -> bool {
        self.ids.borrow().contains_key(&(of, id.to_owned()))
    }

    /// Whether the book has this id, or may have it.
    pub(super) fn may_have(&self, of: Named, id: &str) -> bool {
        self.has(of, id) || self.unsure.borrow().contains(&of)
    }

    /// What was set aside from the table under the heading at `section`.
    pub(super) fn broken_in(&self, section: Option<usize>) -> impl Iterator<Item = &Broken> {
        self.broken
            .iter()
            .filter(move |broken| broken.section == section)
    }

    /// Looks up all that was spoken of.
    pub(super) fn look_up(&self) {
        let spoken_of = self.spoken_of.take();
        for (of, id, span) in spoken_of {
            if !self.may_have(of, &id) {
                let ids = self.ids.borrow();
                let known = ids
                    .keys()
                    .filter(|(kind, _)| *kind == of)
                    .map(|(_, id)| id.as_str());
                let nearest = nearest(&id, known);
                drop(ids);
                self.mistake(
                    span,
                    TroubleKind::UnknownReference {
                        to: of.code(),
                        found: id,
                        nearest,
                    },
                );
            }
        }
    }

    /// Everything found, in the order of the text.
    pub(super) fn troubles(self) -> Vec<Trouble> {
        let Self { lines, found, .. } = self;
        let mut found = found.into_inner();
        found.sort_by_key(|(span, level, what)| (span.start, *level, what.code()));
        let shown = found.len().min(MOST_TROUBLES);
        let more = found.len() > shown;
        let mut troubles: Vec<Trouble> = found
            .into_iter()
            .take(shown)
            .map(|(span, level, what)| trouble(&lines, span, level, what))
            .collect();
        if more {
            let last = troubles.last().map_or(0..0, |trouble| trouble.span.clone());
            troubles.push(trouble(
                &lines,
                last,
                Level::Mistake,
                TroubleKind::AndMore { shown },
            ));
        }
        troubles
    }
}

fn trouble(lines: &Lines<'_>, span: Range<usize>, level: Level, what: TroubleKind) -> Trouble {
    let (line, column) = lines.at(span.start);
    Trouble {
        line,
        column,
        span,
        level,
        what,
    }
}
