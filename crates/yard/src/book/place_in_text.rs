//! From a byte offset to the line and column a person looks for.

/// Where the lines of a text begin.
pub(super) struct Lines<'t> {
    text: &'t str,
    starts: Vec<usize>,
}

impl<'t> Lines<'t> {
    pub(super) fn of(text: &'t str) -> Self {
        let starts = std::iter::once(0)
            .chain(text.match_indices('\n').map(|(at, _)| at + 1))
            .collect();
        Self { text, starts }
    }

    /// Line and column of an offset, both counted from 1, the column in characters.
    pub(super) fn at(&self, offset: usize) -> (u32, u32) {
        let line = self.starts.partition_point(|start| *start <= offset).max(1);
        let start = self.starts[line - 1];
        let before = self.text.get(start..offset).unwrap_or_default();
        (count(line), count(before.chars().count() + 1))
    }

    /// A whole line, counted from 1, without its end.
    pub(super) fn whole(&self, line: u32) -> std::ops::Range<usize> {
        let index = usize::try_from(line).unwrap_or(usize::MAX).max(1) - 1;
        let start = self.starts.get(index).copied().unwrap_or(self.text.len());
        let rest = &self.text[start..];
        start..start + rest.find('\n').unwrap_or(rest.len())
    }

    /// The line, counted from 1, under whose heading a table of this name stands; 1 where none does.
    pub(super) fn naming(&self, table: &str) -> u32 {
        let heading = format!("[{table}]");
        let found = self
            .text
            .lines()
            .position(|line| line.trim().starts_with(&heading));
        found.map_or(1, |index| count(index + 1))
    }

    /// The nearest range that lies in the text on character boundaries.
    pub(super) fn within(&self, span: std::ops::Range<usize>) -> std::ops::Range<usize> {
        let start = self
            .text
            .floor_char_boundary(span.start.min(self.text.len()));
        let end = self
            .text
            .ceil_char_boundary(span.end.clamp(start, self.text.len()));
        start..end
    }
}

fn count(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_and_columns_count_from_one_and_in_characters() {
        let lines = Lines::of("a\n½ in\n");
        assert_eq!(lines.at(0), (1, 1));
        assert_eq!(lines.at(2), (2, 1));
        assert_eq!(lines.at(4), (2, 2), "½ is two bytes and one character");
        assert_eq!(lines.at(8), (3, 1));
    }

    #[test]
    fn a_line_is_found_by_its_number_and_a_table_by_its_heading() {
        let lines = Lines::of("a\n [stop] # x\nc");
        assert_eq!((lines.whole(3), lines.whole(9)), (14..15, 15..15));
        assert_eq!((lines.naming("stop"), lines.naming("rest")), (2, 1));
    }

    #[test]
    fn a_range_is_brought_inside() {
        let lines = Lines::of("½");
        assert_eq!(lines.within(1..9), 0..2);
    }
}
