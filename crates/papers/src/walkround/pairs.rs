//! Rows of a table of points: a point by itself, or a point and its mirrored twin in one row.

use yard::{
    book::{Book, Point, PointKind},
    walkround::DuePoint,
};

/// One row.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Row<'a> {
    /// A point.
    One(&'a Point, u32),
    /// The same thing left and right, left first; and how much of the name both share.
    Both {
        /// Left.
        left: (&'a Point, u32),
        /// Right.
        right: (&'a Point, u32),
        /// What both are called.
        what: &'a str,
    },
}

impl<'a> Row<'a> {
    /// Any of its points: how to check, limits and kind are the same for both.
    pub(crate) fn point(&self) -> &'a Point {
        match self {
            Row::One(point, _)
            | Row::Both {
                left: (point, _), ..
            } => point,
        }
    }

    /// What it is.
    pub(crate) fn what(&self) -> &'a str {
        match self {
            Row::One(point, _) => &point.what,
            Row::Both { what, .. } => what,
        }
    }
}

/// Rows of the points of one stop: twins that follow each other and are checked alike are put together.
pub(crate) fn rows<'a>(book: &'a Book, due: &[DuePoint]) -> Vec<Row<'a>> {
    let known = |due: &DuePoint| {
        let point = book.points.iter().find(|p| p.id == due.point)?;
        Some((point, due.number))
    };
    let mut waiting: std::collections::VecDeque<_> = due.iter().filter_map(known).collect();
    let mut rows = Vec::new();
    while let Some(first) = waiting.pop_front() {
        let pair = waiting.front().and_then(|second| together(first, *second));
        rows.push(match pair {
            Some(pair) => {
                waiting.pop_front();
                pair
            }
            None => Row::One(first.0, first.1),
        });
    }
    rows
}

fn together<'a>(a: (&'a Point, u32), b: (&'a Point, u32)) -> Option<Row<'a>> {
    let alike = a.0.mirror.as_ref() == Some(&b.0.id)
        && answered_alike(&a.0.kind, &b.0.kind)
        && a.0.how == b.0.how
        && a.0.count == b.0.count;
    let what = shared_name(&a.0.what, &b.0.what)?;
    if !alike {
        return None;
    }
    let (a_left, b_left) = (a.0.at?.y > 0.0, b.0.at?.y > 0.0);
    match (a_left, b_left) {
        (true, false) => Some(Row::Both {
            left: a,
            right: b,
            what,
        }),
        (false, true) => Some(Row::Both {
            left: b,
            right: a,
            what,
        }),
        _ => None,
    }
}

/// Whether the same boxes and limits serve both; the joint that a fitting feeds is each its own.
fn answered_alike(a: &PointKind, b: &PointKind) -> bool {
    match (a, b) {
        (PointKind::Fitting(a), PointKind::Fitting(b)) => {
            a.remote == b.remote && a.until == b.until && a.refused_runs == b.refused_runs
        }
        _ => a == b,
    }
}

/// The beginning two names share, up to a whole word; none where that is not most of the longer name.
fn shared_name<'a>(a: &'a str, b: &str) -> Option<&'a str> {
    let same = a.char_indices().zip(b.chars()).find(|((_, x), y)| x != y);
    let end = same.map_or(a.len().min(b.len()), |((place, _), _)| place);
    let shared = if end < a.len() {
        &a[..a[..end].rfind(' ')?]
    } else {
        &a[..end]
    };
    let shared = shared.trim_end_matches(|c: char| !c.is_alphanumeric() && c != ')');
    (shared.len() * 2 > a.len().max(b.len())).then_some(shared)
}

#[cfg(test)]
mod tests {
    use super::shared_name;

    #[test]
    fn twins_share_most_of_their_names() {
        assert_eq!(
            shared_name(
                "Pin clips: arm and ram, left",
                "Pin clips: arm and ram, right"
            ),
            Some("Pin clips: arm and ram")
        );
        assert_eq!(shared_name("Left track", "Right track"), None);
        assert_eq!(shared_name("Shoe bolts", "Shoe bolts"), Some("Shoe bolts"));
        assert_eq!(shared_name("Bolts (left)", "Bolts (right)"), None);
        assert_eq!(
            shared_name("Øvre bolt, venstre", "Øvre bolt, høyre"),
            Some("Øvre bolt")
        );
    }
}
