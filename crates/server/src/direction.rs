//! Signs that turn the direction of writing: shown as a mark, so that no text shows other than it stands in the journal.

/// What stands on a page for such a sign.
const MARK: &str = "▯";

/// A page with each such sign replaced by a mark. The journal keeps what was written.
pub(crate) fn in_sight(html: String) -> String {
    if html.contains(turns) {
        html.replace(turns, MARK)
    } else {
        html
    }
}

/// Embeddings, overrides, isolates and marks of Unicode's bidirectional writing (UAX 9, table 1).
fn turns(sign: char) -> bool {
    matches!(
        sign,
        '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{200e}' | '\u{200f}' | '\u{61c}'
    )
}

#[cfg(test)]
mod tests {
    use super::in_sight;

    #[test]
    fn a_sign_that_turns_the_writing_is_seen_and_any_other_is_left() {
        assert_eq!(in_sight("fit\u{202e}nwod".to_owned()), "fit▯nwod");
        let plain = "é ½ – 機 \u{a0}x";
        assert_eq!(in_sight(plain.to_owned()), plain);
    }
}
