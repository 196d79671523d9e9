//! Lines of two columns at a terminal.

/// Each pair on a line, the second column in line; further lines of a second part stand under it.
pub(crate) fn rows<A: AsRef<str>, B: AsRef<str>>(pairs: &[(A, B)]) -> String {
    let width = pairs
        .iter()
        .map(|(name, _)| name.as_ref().chars().count())
        .max()
        .unwrap_or(0)
        .min(36);
    let row = |(name, value): &(A, B)| {
        let (name, value) = (name.as_ref(), value.as_ref());
        let gap = " ".repeat(width.saturating_sub(name.chars().count()) + 2);
        let below = format!("\n{}", " ".repeat(width + 2));
        format!("{name}{gap}{}\n", value.replace('\n', &below))
    };
    pairs.iter().map(row).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_counted_in_letters() {
        assert_eq!(
            rows(&[("é", "one"), ("four", "two\nthree")]),
            "é     one\nfour  two\n      three\n"
        );
    }
}
