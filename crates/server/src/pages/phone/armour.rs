//! Entries as text between brackets, as `static/parts.js` writes them: read here for browsers without script.
//!
//! A part is `[kingpost n.of.whole.part.form`, letters of base64 (RFC 4648) and `]`. Whatever else stands between the letters (line
//! ends, quote marks, blanks) was added on the way and is passed over.

use std::collections::{BTreeMap, BTreeSet};

/// What a text held.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Read {
    /// The texts of all entries, exactly as they were written.
    Whole(Vec<String>),
    /// Some of it.
    Lacking {
        /// Numbers of parts that came damaged.
        damaged: Vec<u16>,
        /// Numbers of parts that did not come at all.
        missing: Vec<u16>,
        /// How many parts there are.
        of: u16,
    },
    /// Nothing that could be told.
    Nothing,
}

/// Word that opens a part.
const OPENS: &str = "kingpost";
/// What the whole calls itself, and the one version there is.
const FORM: (&str, u64) = ("unsent-entries", 1);

/// Reads a text that may have been wrapped, quoted and padded on its way. Never fails: what is wrong is told in [`Read`].
pub(crate) fn read(text: &str) -> Read {
    let blocks: Vec<Block> = brackets(text).iter().map(|b| Block::read(b)).collect();
    let of = most_often(
        blocks
            .iter()
            .filter(|block| block.of > 0)
            .map(|block| block.of),
    );
    let Some(of) = of else { return Read::Nothing };
    let sound = || blocks.iter().filter(|block| block.of == of);
    let whole = most_often(sound().filter_map(|block| Some(block.part.as_ref()?.0)));
    let parts: BTreeMap<u16, &[u8]> = sound()
        .filter_map(|block| Some((block.n, block.part.as_ref()?)))
        .filter(|(_, (of_whole, _))| Some(*of_whole) == whole)
        .map(|(n, (_, bytes))| (n, bytes.as_slice()))
        .collect();
    let seen: BTreeSet<u16> = blocks.iter().map(|block| block.n).collect();
    let lacking = (1..=of).filter(|n| !parts.contains_key(n));
    let (damaged, missing): (Vec<u16>, Vec<u16>) = lacking.partition(|n| seen.contains(n));
    if !damaged.is_empty() || !missing.is_empty() {
        return Read::Lacking {
            damaged,
            missing,
            of,
        };
    }
    let bytes = parts.into_values().collect::<Vec<_>>().concat();
    match entries(&bytes).filter(|_| whole == Some(crc32(&[&bytes]))) {
        Some(entries) => Read::Whole(entries),
        None => Read::Nothing,
    }
}

/// The entries of a whole.
fn entries(bytes: &[u8]) -> Option<Vec<String>> {
    let whole: serde_json::Value = serde_json::from_slice(bytes).ok()?;
    let named = whole.get("form")?.as_str()? == FORM.0 && whole.get("version")?.as_u64()? == FORM.1;
    let texts = whole.get("entries").filter(|_| named)?.as_array()?;
    texts
        .iter()
        .map(|text| text.as_str().map(str::to_owned))
        .collect()
}

/// What stands inside each bracket that opens with our word, without all that cannot belong to it.
fn brackets(text: &str) -> Vec<String> {
    let may_be = |c: &char| c.is_ascii_alphanumeric() || "+/._-".contains(*c);
    let inside = text.split('[').skip(1);
    let plain = inside.map(|rest| {
        let rest = rest.split_once(']').map_or(rest, |(inside, _)| inside);
        rest.chars().filter(may_be).collect::<String>()
    });
    let ours = plain.filter_map(|mut inside| {
        let word = inside.get(..OPENS.len())?;
        word.eq_ignore_ascii_case(OPENS)
            .then(|| inside.split_off(OPENS.len()))
    });
    ours.collect()
}

/// One bracket: what its key says, and its part where both checksums hold.
struct Block {
    n: u16,
    of: u16,
    part: Option<(u32, Vec<u8>)>,
}

impl Block {
    fn read(inside: &str) -> Self {
        let mut fields = inside.splitn(5, '.');
        let mut number = || fields.next().and_then(number_of).unwrap_or(0);
        let (n, of) = (number(), number());
        let mut field = || fields.next().unwrap_or("");
        let (whole, check, rest) = (field(), field(), field());
        Self {
            n,
            of,
            part: part(n, of, [whole, check], rest),
        }
    }
}

/// The checksum of the whole and the bytes of a part, where everything about it holds.
fn part(n: u16, of: u16, [whole, check]: [&str; 2], rest: &str) -> Option<(u32, Vec<u8>)> {
    // Text is never packed, so a part's form is always `p`.
    let bytes = unletter(rest.strip_prefix('p')?)?;
    let head = format!("{n}.{of}.{whole}.p:");
    let sound =
        (1..=of).contains(&n) && hex_of(check)? == crc32(&[head.as_bytes(), bytes.as_slice()]);
    sound.then_some((hex_of(whole)?, bytes))
}

/// A part's number: 1 to 9,999, without a nought before it.
fn number_of(text: &str) -> Option<u16> {
    let plain = text.len() <= 4
        && !text.starts_with('0')
        && text.bytes().all(|letter| letter.is_ascii_digit());
    text.parse().ok().filter(|_| plain)
}

fn hex_of(text: &str) -> Option<u32> {
    let plain = text.len() == 8 && text.bytes().all(|c| matches!(c, b'0'..=b'9' | b'a'..=b'f'));
    u32::from_str_radix(text, 16).ok().filter(|_| plain)
}

/// Bytes of base64 in either alphabet, without filling. Unused bits of the last letter are not looked at.
fn unletter(text: &str) -> Option<Vec<u8>> {
    let (mut bits, mut held, mut bytes) = (0u32, 0, Vec::with_capacity(text.len() * 3 / 4));
    for letter in text.bytes() {
        let value = match letter {
            b'A'..=b'Z' => letter - b'A',
            b'a'..=b'z' => letter - b'a' + 26,
            b'0'..=b'9' => letter - b'0' + 52,
            b'+' | b'-' => 62,
            b'/' | b'_' => 63,
            _ => continue,
        };
        bits = bits << 6 | u32::from(value);
        held += 6;
        if held >= 8 {
            held -= 8;
            bytes.push((bits >> held).to_be_bytes()[3]);
        }
    }
    (held < 6).then_some(bytes)
}

/// CRC-32 (ISO 3309, RFC 1952) of some bytes on end.
fn crc32(pieces: &[&[u8]]) -> u32 {
    let bytes = pieces.iter().flat_map(|piece| piece.iter());
    !bytes.fold(!0u32, |crc, byte| {
        (0..8).fold(crc ^ u32::from(*byte), |crc, _| {
            (crc >> 1) ^ if crc & 1 == 1 { 0xedb8_8320 } else { 0 }
        })
    })
}

fn most_often<T: Ord + Copy>(values: impl Iterator<Item = T>) -> Option<T> {
    let mut counts = BTreeMap::new();
    for value in values {
        *counts.entry(value).or_insert(0u32) += 1;
    }
    counts
        .into_iter()
        .max_by_key(|(_, count)| *count)
        .map(|(value, _)| value)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The text as the browser writes it, `most` bytes a part.
    fn write(entries: &[String], most: usize) -> String {
        let whole = serde_json::json!({
            "form": FORM.0, "version": FORM.1, "entries": entries, "photos": ["a photo"],
        })
        .to_string();
        let sum = crc32(&[whole.as_bytes()]);
        let parts: Vec<&[u8]> = whole.as_bytes().chunks(most).collect();
        let of = parts.len();
        let block = |(i, bytes): (usize, &&[u8])| {
            let head = format!("{}.{of}.{sum:08x}", i + 1);
            let check = crc32(&[format!("{head}.p:").as_bytes(), bytes]);
            format!("[kingpost {head}.{check:08x}.p\n{}\n]", letters(bytes))
        };
        let blocks: Vec<String> = parts.iter().enumerate().map(block).collect();
        format!("Some entries. Open the page.\n\n{}\n", blocks.join("\n"))
    }

    /// Base64 in lines of 64, without filling.
    fn letters(bytes: &[u8]) -> String {
        const ALPHABET: &[u8] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
        let bits: Vec<u8> = bytes
            .iter()
            .flat_map(|byte| (0..8).rev().map(move |i| byte >> i & 1))
            .collect();
        let letter = |six: &[u8]| {
            let value = six.iter().fold(0, |value, bit| value << 1 | bit) << (6 - six.len());
            char::from(ALPHABET[usize::from(value)])
        };
        let all: Vec<char> = bits.chunks(6).map(letter).collect();
        let lines: Vec<String> = all.chunks(64).map(|line| line.iter().collect()).collect();
        lines.join("\n")
    }

    /// As a mail program sends it back: wrapped, quoted, with blank lines.
    fn mangle(text: &str, width: usize) -> String {
        let lines = text.lines().flat_map(|line| {
            let letters: Vec<char> = line.chars().collect();
            letters
                .chunks(width)
                .map(|piece| piece.iter().collect::<String>())
                .collect::<Vec<_>>()
        });
        lines
            .map(|line| format!("> > {line} \r\n>\r\n"))
            .collect::<String>()
    }

    /// Check value of the usual catalogue of checksums: CRC-32 of the nine digits.
    #[test]
    fn the_checksum_is_the_standard_one() {
        assert_eq!(crc32(&[b"1234", b"56789"]), 0xcbf4_3926);
    }

    /// Test vectors of RFC 4648, section 10.
    #[test]
    fn base64_reads_as_published() {
        for (text, bytes) in [
            ("Zg", "f"),
            ("Zm8", "fo"),
            ("Zm9v", "foo"),
            ("Zm9vYmFy", "foobar"),
        ] {
            assert_eq!(unletter(text).as_deref(), Some(bytes.as_bytes()), "{text}");
            assert_eq!(letters(bytes.as_bytes()), text);
        }
        assert_eq!(unletter("A"), None);
    }

    #[test]
    fn each_changed_letter_is_found_and_its_part_named() {
        let entries: Vec<String> = ["é".repeat(120), "x".repeat(300)].into();
        let text = write(&entries, 100);
        let start = text.find('[').unwrap();
        let last = text.rfind('\n').unwrap() - 3;
        for at in (start..last).filter(|at| !text.as_bytes()[*at].is_ascii_whitespace()) {
            let instead = if &text[at..=at] == "Q" { "R" } else { "Q" };
            let changed = format!("{}{instead}{}", &text[..at], &text[at + 1..]);
            let part = u16::try_from(text[..=at].matches('[').count()).unwrap();
            match read(&changed) {
                Read::Lacking {
                    damaged, missing, ..
                } => assert_eq!([damaged, missing].concat(), [part], "{at}"),
                // The last letter of a part may have bits that say nothing.
                Read::Whole(same) => {
                    assert_eq!(same, entries);
                    assert_eq!(&text[at + 1..at + 3], "\n]", "{at}");
                }
                Read::Nothing => panic!("nothing read at {at}"),
            }
        }
    }

    #[test]
    fn what_is_no_text_of_ours_holds_nothing() {
        for text in [
            "",
            "[",
            "[kingpost",
            "[kingpost ]",
            "[kingpost 1.1.x.y.p]",
            "[é kingpost 2",
            "[kingposé",
            "[kingpost 0.0.00000000.00000000.p]",
        ] {
            assert!(!matches!(read(text), Read::Whole(_)), "{text}");
        }
        assert_eq!(read("a note about [brackets]"), Read::Nothing);
    }

    proptest! {
        #[test]
        fn what_was_written_reads_the_same(
            entries in prop::collection::vec(any::<String>(), 0..6),
            most in 1usize..200,
            width in 1usize..90,
        ) {
            let text = write(&entries, most);
            prop_assert_eq!(read(&text), Read::Whole(entries.clone()));
            prop_assert_eq!(read(&mangle(&text, width)), Read::Whole(entries));
        }

        #[test]
        fn a_part_left_out_is_named(entry in "[a-z]{200,400}", out in 0usize..4) {
            let text = write(&[entry], 60);
            let mut blocks: Vec<&str> = text.split_inclusive(']').collect();
            let of = u16::try_from(blocks.len() - 1).unwrap();
            blocks.remove(out);
            blocks.reverse();
            let missing = vec![u16::try_from(out).unwrap() + 1];
            prop_assert_eq!(read(&blocks.concat()), Read::Lacking { damaged: vec![], missing, of });
        }

        #[test]
        fn anything_at_all_can_be_read(text in any::<String>(), inside in "[0-9a-z./+ ]{0,60}") {
            let _ = read(&text);
            let _ = read(&format!("[kingpost {inside}"));
        }
    }
}
