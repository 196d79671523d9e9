//! The word a person may have meant.

/// Words longer than this are not compared: nobody slips in them, and comparing costs their product.
const LONGEST: usize = 64;

/// The known word nearest to `found`, where it is near enough to be a slip of it.
pub(super) fn nearest<'a>(found: &str, known: impl Iterator<Item = &'a str>) -> Option<String> {
    if found.len() > LONGEST {
        return None;
    }
    let plain = found.trim().to_lowercase().replace(['_', ' '], "-");
    let near = |word: &&str| strsim::damerau_levenshtein(&plain, word);
    let best = known
        .filter(|word| word.len() <= LONGEST)
        .min_by_key(|word| (near(word), word.len()))?;
    let may_differ = (best.chars().count() / 3).max(1);
    (near(&best) <= may_differ).then(|| best.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_finds_its_word_and_a_stranger_none() {
        let known = ["rhythm", "station", "what"];
        assert_eq!(nearest("rythm", known.into_iter()), Some("rhythm".into()));
        assert_eq!(
            nearest("Staiton", known.into_iter()),
            Some("station".into())
        );
        assert_eq!(nearest("colour", known.into_iter()), None);
    }
}
