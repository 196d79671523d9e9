//! Whether a JPEG file is whole: its segments lead to the end mark. Decoders paint what is missing grey and say nothing.

use super::PhotoTrouble;

/// What the walk saw.
pub(super) struct Walked {
    /// Whether the picture is built up in passes over all of it (frames of kind 2, 6, 10, 14), so that a decoder holds it
    /// whole in another form as well.
    pub(super) in_passes: bool,
}

/// Walks the segments (ITU-T T.81, annex B) up to the first end mark; what comes behind it is nobody's.
///
/// # Errors
/// [`PhotoTrouble::CutOff`] where the bytes end before the picture does.
pub(super) fn walk(bytes: &[u8]) -> Result<Walked, PhotoTrouble> {
    let mut walked = Walked { in_passes: false };
    let mut at = 2;
    loop {
        let marker;
        (marker, at) = next_marker(bytes, at)?;
        match marker {
            0xD9 => return Ok(walked),
            // Marks without a segment.
            0x01 | 0xD0..=0xD8 => {}
            _ => {
                let length = bytes.get(at..at + 2).ok_or(PhotoTrouble::CutOff)?;
                walked.in_passes |= matches!(marker, 0xC2 | 0xC6 | 0xCA | 0xCE);
                at += usize::from(u16::from_be_bytes([length[0], length[1]])).max(2);
            }
        }
    }
}

/// The next marker at or behind `at`, and where its segment begins. Scan data lie between: in them every 0xFF of the
/// picture itself is followed by a zero.
fn next_marker(bytes: &[u8], at: usize) -> Result<(u8, usize), PhotoTrouble> {
    let rest = bytes.get(at..).ok_or(PhotoTrouble::CutOff)?;
    let found = rest
        .windows(2)
        .position(|w| w[0] == 0xFF && !matches!(w[1], 0x00 | 0xFF))
        .ok_or(PhotoTrouble::CutOff)?;
    Ok((rest[found + 1], at + found + 2))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(bytes: &[u8]) -> Result<bool, PhotoTrouble> {
        walk(bytes).map(|w| w.in_passes)
    }

    #[test]
    fn the_end_mark_of_a_preview_inside_a_segment_is_not_the_end() {
        let preview = [
            0xFF, 0xD8, 0xFF, 0xE1, 0, 6, 0xFF, 0xD8, 0xFF, 0xD9, 0xFF, 0xDA, 0, 2, 1, 0xFF, 0, 3,
        ];
        assert_eq!(said(&preview), Err(PhotoTrouble::CutOff));
        assert_eq!(said(&[&preview[..], &[0xFF, 0xD9]].concat()), Ok(false));
    }

    #[test]
    fn passes_are_seen_and_short_ends_are_cut_off() {
        let whole = [
            0xFF, 0xD8, 0xFF, 0xC2, 0, 2, 0xFF, 0xD0, 0xFF, 0xFF, 0xD9, 7,
        ];
        assert_eq!(said(&whole), Ok(true));
        for end in 0..11 {
            assert_eq!(said(&whole[..end]), Err(PhotoTrouble::CutOff), "{end}");
        }
    }
}
