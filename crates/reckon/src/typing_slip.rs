//! Two digits typed the wrong way round.

/// The readings that come out when two neighbouring digits of `typed` change places, and that can be.
///
/// - `previous` \[h\]: the last reading that was believed.
/// - `typed`: the reading as it was typed, digits with at most one point.
/// - `max_advance` \[h\]: the most the meter can have moved since.
///
/// Gives those from `previous` to `previous + max_advance`, in the order of the swapped place, none twice. Digits on
/// both sides of the point count as neighbours. Anything that is not a plain decimal number gives none.
pub fn transposed_candidates(previous: f64, typed: &str, max_advance: f64) -> Vec<f64> {
    let typed = typed.trim();
    let is_plain = typed.chars().all(|c| c.is_ascii_digit() || c == '.') && typed.len() <= 15;
    let Ok(as_typed) = typed.parse::<f64>() else {
        return Vec::new();
    };
    if !is_plain {
        return Vec::new();
    }
    let bytes = typed.as_bytes();
    let places: Vec<usize> = (0..bytes.len())
        .filter(|&place| bytes[place] != b'.')
        .collect();
    let mut candidates: Vec<f64> = Vec::new();
    for pair in places.windows(2) {
        let mut swapped = bytes.to_vec();
        swapped.swap(pair[0], pair[1]);
        let Some(value) = String::from_utf8(swapped)
            .ok()
            .and_then(|text| text.parse::<f64>().ok())
        else {
            continue;
        };
        let can_be = value >= previous && value <= previous + max_advance;
        if can_be && value != as_typed && !candidates.contains(&value) {
            candidates.push(value);
        }
    }
    candidates
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_swapped_digit_is_found() {
        assert_eq!(transposed_candidates(1210.2, "1241.6", 20.0), [1214.6]);
        assert_eq!(
            transposed_candidates(1214.0, "1246.1", 2.0),
            Vec::<f64>::new()
        );
        assert_eq!(transposed_candidates(1241.0, "1246.1", 2.0), [1241.6]);
    }

    #[test]
    fn what_cannot_be_is_not_offered() {
        assert!(transposed_candidates(1215.6, "1241.6", 20.0).is_empty());
        assert!(transposed_candidates(0.0, "11", 100.0).is_empty());
    }

    #[test]
    fn odd_texts_give_nothing() {
        for text in [
            "",
            ".",
            "1e9",
            "inf",
            "NaN",
            "-12",
            "1.2.3",
            "½5",
            "12345678901234567890",
        ] {
            assert!(transposed_candidates(0.0, text, 1e12).is_empty(), "{text}");
        }
    }
}
