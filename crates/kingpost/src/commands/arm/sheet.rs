//! A sheet of cells as spreadsheets write it: comma, semicolon or tab between, quotes where needed, each cell with its place.

/// A cell with its place in the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Cell {
    /// Line in the file, from 1.
    pub(super) line: usize,
    /// Letter in the line, from 1.
    pub(super) column: usize,
    /// What stands in it, without space around it.
    pub(super) text: String,
}

/// The lines of a sheet that hold cells: empty lines and those that open with # are passed over.
///
/// What separates the cells is the first of tab, semicolon and comma that the first line has outside of quotes.
pub(super) fn cells(text: &str) -> Vec<Vec<Cell>> {
    let text = text.trim_start_matches('\u{feff}');
    let lines: Vec<(usize, &str)> = text
        .lines()
        .enumerate()
        .filter(|(_, line)| !line.trim().is_empty() && !line.starts_with('#'))
        .collect();
    let first = lines.first().map_or("", |(_, line)| line);
    let between = ['\t', ';']
        .into_iter()
        .find(|mark| split(first, *mark).len() > 1)
        .unwrap_or(',');
    let cell = |line: usize, (column, text): (usize, String)| Cell {
        line: line + 1,
        column,
        text: text.trim().to_owned(),
    };
    lines
        .into_iter()
        .map(|(line, written)| {
            let parts = split(written, between).into_iter();
            parts.map(|part| cell(line, part)).collect()
        })
        .collect()
}

/// The parts of a line, each with the place of its first letter that is no space.
fn split(line: &str, between: char) -> Vec<(usize, String)> {
    let (mut parts, mut part) = (Vec::new(), String::new());
    let (mut from, mut quoted) = (None, false);
    let mut letters = line.chars().enumerate().peekable();
    let mut last = 0;
    while let Some((at, letter)) = letters.next() {
        last = at + 1;
        let doubled = letter == '"' && letters.peek().is_some_and(|(_, next)| *next == '"');
        if letter == between && !quoted {
            parts.push((from.take().unwrap_or(at) + 1, std::mem::take(&mut part)));
            continue;
        }
        if letter == '"' && quoted && doubled {
            letters.next();
            part.push('"');
        } else if letter == '"' && (quoted || part.trim().is_empty()) {
            quoted = !quoted;
        } else {
            part.push(letter);
        }
        if from.is_none() && !letter.is_whitespace() {
            from = Some(at);
        }
    }
    parts.push((from.unwrap_or(last) + 1, part));
    parts
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(text: &str) -> Vec<Vec<String>> {
        let texts = |line: Vec<Cell>| line.into_iter().map(|cell| cell.text).collect();
        cells(text).into_iter().map(texts).collect()
    }

    #[test]
    fn comma_semicolon_and_tab() {
        assert_eq!(texts("a, b ,c\n1,2,\n"), [["a", "b", "c"], ["1", "2", ""]]);
        assert_eq!(
            texts("\u{feff}a;b\r\n1,5;2\r\n"),
            [["a", "b"], ["1,5", "2"]]
        );
        assert_eq!(texts("a, x\tb\n1\t2"), [["a, x", "b"], ["1", "2"]]);
    }

    #[test]
    fn quotes_hold_what_separates_and_an_inch_mark_needs_none() {
        assert_eq!(
            texts("\"a, b\",\"say \"\"x\"\"\",41 1/2\""),
            [["a, b", "say \"x\"", "41 1/2\""]]
        );
    }

    #[test]
    fn each_cell_knows_its_place() {
        let all = cells("# says\n\né,  b\n,1");
        let places: Vec<_> = all
            .iter()
            .flatten()
            .map(|cell| (cell.line, cell.column))
            .collect();
        assert_eq!(places, [(3, 1), (3, 5), (4, 1), (4, 2)]);
    }
}
