//! The made-up language of the tests, and the search for English that bypasses the messages.

use std::borrow::Cow;

/// The letters of the disguise, from a to z. None is an ASCII letter, and the fonts of the papers have them all.
const SMALL: [char; 26] = [
    'à', 'ƀ', 'ç', 'ð', 'é', 'ƒ', 'ĝ', 'ĥ', 'î', 'ĵ', 'ķ', 'ļ', 'ḿ', 'ñ', 'ö', 'þ', 'ǫ', 'ŕ', 'š',
    'ţ', 'û', 'ṽ', 'ŵ', 'ẋ', 'ý', 'ž',
];
const LARGE: [char; 26] = [
    'À', 'Ɓ', 'Ç', 'Ð', 'É', 'Ƒ', 'Ĝ', 'Ĥ', 'Î', 'Ĵ', 'Ķ', 'Ļ', 'Ḿ', 'Ñ', 'Ö', 'Þ', 'Ǫ', 'Ŕ', 'Š',
    'Ţ', 'Û', 'Ṽ', 'Ŵ', 'Ẋ', 'Ý', 'Ž',
];

/// Attributes of a page's elements that are read aloud or shown.
const SPOKEN: [&str; 5] = ["aria-label", "title", "alt", "placeholder", "content"];

/// Disguises a text: accented letters, vowels twice (so that it runs about a third longer). Markup between `<` and `>`, entities
/// between `&` and `;` and code between back-ticks stay as they are.
pub(crate) fn disguise(text: &str) -> Cow<'_, str> {
    let mut out = String::with_capacity(text.len() * 2);
    let mut keep_until = None;
    for (place, letter) in text.char_indices() {
        let rest = &text[place + letter.len_utf8()..];
        match (keep_until, letter) {
            (Some(end), _) => {
                keep_until = (letter != end).then_some(end);
                out.push(letter);
            }
            (None, '<') if rest.contains('>') => {
                keep_until = Some('>');
                out.push(letter);
            }
            (None, '&')
                if rest
                    .split(|c: char| !c.is_ascii_alphanumeric() && c != '#')
                    .next()
                    .is_some_and(|name| rest[name.len()..].starts_with(';')) =>
            {
                keep_until = Some(';');
                out.push(letter);
            }
            (None, '`') if rest.contains('`') => {
                keep_until = Some('`');
                out.push(letter);
            }
            (None, _) => disguise_letter(letter, &mut out),
        }
    }
    Cow::Owned(out)
}

fn disguise_letter(letter: char, out: &mut String) {
    let other = match letter {
        'a'..='z' => SMALL[usize::from(letter as u8 - b'a')],
        'A'..='Z' => LARGE[usize::from(letter as u8 - b'A')],
        _ => letter,
    };
    out.push(other);
    if matches!(letter, 'a' | 'e' | 'i' | 'o' | 'u') {
        out.push(other);
    }
}

/// Runs of ordinary words outside ⟦ and ⟧: in a text made with [`Words::pseudo`](crate::Words::pseudo), what bypassed the messages.
///
/// A word is two or more ASCII letters with no digit among them; words with only spaces and light punctuation between them are
/// one run. `allowed` are texts that may stand there as they are: names from the book, units, ids, the program's name.
pub fn plain_runs(text: &str, allowed: &[&str]) -> Vec<String> {
    let mut outside = outside_brackets(text);
    let mut allowed: Vec<&str> = allowed.iter().copied().filter(|a| !a.is_empty()).collect();
    allowed.sort_by_key(|a| std::cmp::Reverse(a.len()));
    for name in allowed {
        outside = blank_out(&outside, name);
    }
    runs(&outside)
}

/// The text outside the outermost ⟦ … ⟧, a bar where each was.
fn outside_brackets(text: &str) -> String {
    let mut depth = 0_usize;
    let mut out = String::new();
    for letter in text.chars() {
        match letter {
            '⟦' => depth += 1,
            '⟧' => {
                depth = depth.saturating_sub(1);
                out.push('|');
            }
            _ if depth == 0 => out.push(letter),
            _ => {}
        }
    }
    out
}

/// Puts a bar in place of every `name` that stands as a word of its own.
fn blank_out(text: &str, name: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(place) = rest.find(name) {
        let (before, after) = (&rest[..place], &rest[place + name.len()..]);
        let letter_before = before
            .chars()
            .next_back()
            .is_some_and(char::is_alphanumeric);
        let letter_after = after.chars().next().is_some_and(char::is_alphanumeric);
        out.push_str(before);
        out.push_str(if letter_before || letter_after {
            name
        } else {
            "|"
        });
        rest = after;
    }
    out + rest
}

fn runs(text: &str) -> Vec<String> {
    let mut found: Vec<Vec<&str>> = vec![Vec::new()];
    let breaks =
        |c: char| !(c.is_alphanumeric() || c.is_whitespace() || ",.'’-;:!?()_".contains(c));
    for piece in text.split(breaks) {
        found.push(Vec::new());
        for word in piece.split(|c: char| !(c.is_alphanumeric() || c == '\'' || c == '’')) {
            let letters = word.chars().filter(char::is_ascii_alphabetic).count();
            let plain = letters >= 2 && !word.chars().any(|c| c.is_ascii_digit());
            match found.last_mut() {
                Some(run) if plain => run.push(word),
                _ => {}
            }
        }
    }
    found
        .into_iter()
        .filter(|run| !run.is_empty())
        .map(|run| run.join(" "))
        .collect()
}

/// What a person sees or hears of a page: the text between the tags, and the attributes that are read aloud. Scripts and styles
/// are left out. Good enough for pages of our own making, not for every page there is.
pub fn visible_text(page: &str) -> String {
    let mut out = String::new();
    let mut rest = page;
    while let Some(open) = rest.find('<') {
        out.push_str(&rest[..open]);
        let tag_on = &rest[open..];
        let Some(close) = end_of_tag(tag_on) else {
            break;
        };
        let tag = &tag_on[..close];
        out.push('|');
        spoken_attributes(tag, &mut out);
        rest = after_unseen(tag, &tag_on[close..]);
    }
    out.push_str(rest);
    [
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&quot;", "\""),
        ("&#34;", "\""),
        ("&#39;", "'"),
        ("&nbsp;", " "),
        ("&amp;", "&"),
    ]
    .iter()
    .fold(out, |text, (entity, letter)| text.replace(entity, letter))
}

/// Where the tag ends, quoted attributes and comments minded.
fn end_of_tag(tag_on: &str) -> Option<usize> {
    if tag_on.starts_with("<!--") {
        return tag_on.find("-->").map(|place| place + 3);
    }
    let mut quote = None;
    for (place, letter) in tag_on.char_indices() {
        match (quote, letter) {
            (Some(end), _) if letter == end => quote = None,
            (Some(_), _) => {}
            (None, '"' | '\'') => quote = Some(letter),
            (None, '>') => return Some(place + 1),
            (None, _) => {}
        }
    }
    None
}

fn spoken_attributes(tag: &str, out: &mut String) {
    if tag.starts_with("<!") || (tag.starts_with("<meta") && !tag.contains("name=\"description\""))
    {
        return;
    }
    for name in SPOKEN {
        let start = format!(" {name}=\"");
        if let Some((_, value)) = tag.split_once(start.as_str()) {
            out.push_str(value.split('"').next().unwrap_or_default());
            out.push('|');
        }
    }
}

/// The rest of the page after a tag; after its end where the tag opens something nobody sees.
fn after_unseen<'a>(tag: &str, rest: &'a str) -> &'a str {
    for (opens, ends) in [("<script", "</script>"), ("<style", "</style>")] {
        if tag.starts_with(opens) {
            return rest.split_once(ends).map_or("", |(_, after)| after);
        }
    }
    rest
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn markup_entities_and_code_are_not_disguised() {
        let said = disguise("Press <b class=\"key\">Stop</b> &amp; run `kingpost serve`, B&B");
        assert_eq!(
            said,
            "Þŕééšš <b class=\"key\">Šţööþ</b> &amp; ŕûûñ `kingpost serve`, Ɓ&Ɓ"
        );
    }

    #[test]
    fn no_letter_stays_ascii_and_the_text_grows_by_about_a_third() {
        let text = "Wipe the stick, then read the level with everything on the ground.";
        let said = disguise(text).into_owned();
        assert!(!said.chars().any(|c| c.is_ascii_alphabetic()));
        let growth = said.chars().count() as f64 / text.chars().count() as f64;
        assert!((1.2..1.45).contains(&growth), "{growth}");
    }

    #[test]
    fn plain_words_outside_the_brackets_are_found() {
        let page = "⟦Þŕééšš ⟦Stop⟧ now⟧ Old Ada 1983 mm, engine is hot ⟦öff⟧ sag-left: ok";
        assert_eq!(
            plain_runs(page, &["Old Ada", "mm", "sag-left"]),
            ["engine is hot", "ok"]
        );
        assert_eq!(plain_runs("x 3 a4 iso9001 ⟦b⟧", &[]), Vec::<String>::new());
    }

    #[test]
    fn an_allowed_name_does_not_hide_part_of_a_word() {
        assert_eq!(plain_runs("command", &["mm", "comm"]), ["command"]);
    }

    #[test]
    fn a_page_is_reduced_to_what_is_seen_or_heard() {
        let page = "<p title=\"a &amp; b > c\" class=\"x\">One<br>two</p><script>let hidden = 1;</script><!-- note --><img alt=\"three\">";
        assert_eq!(visible_text(page), "|a & b > c|One|two||||three|");
    }
}
