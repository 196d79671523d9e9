//! What repeats cost: money as people write it, summed exactly, each currency by itself.

use crate::{
    id::EntryId,
    state::{MachineState, Work},
};
use quantity::Exact;
use std::collections::{BTreeMap, BTreeSet};

/// What some entries of work cost together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Costs {
    /// Sums, by the currency as it was written; empty where none was written.
    pub sums: BTreeMap<String, Exact>,
    /// Costs that do not read as an amount, as written, in order. They are in no sum.
    pub unread: Vec<String>,
    /// How many of the entries name other points as well, so that their whole cost stands in several sums.
    pub shared: usize,
}

/// Sums what these entries cost. `decimal_comma`: whether a comma is the decimal sign in this yard.
pub fn costs(machine: &MachineState, entries: &[EntryId], decimal_comma: bool) -> Costs {
    let mut costs = Costs::default();
    let named = machine
        .work
        .iter()
        .filter(|work| entries.contains(&work.entry));
    let written = |cost: &&String| !cost.trim().is_empty();
    for (work, written) in
        named.filter_map(|work| Some((work, work.cost.as_ref().filter(written)?)))
    {
        match amount(written, decimal_comma) {
            Some((currency, value)) => {
                let sum = costs.sums.entry(currency).or_insert_with(Exact::zero);
                *sum = &*sum + &value;
            }
            None => costs.unread.push(written.clone()),
        }
        costs.shared += usize::from(names_several(work));
    }
    costs
}

fn names_several(work: &Work) -> bool {
    let points: BTreeSet<_> = work.mends.iter().map(|of| &of.point).collect();
    points.len() > 1
}

/// An amount of money: its currency, before or behind the number, and its value; none where it does not read, or could be
/// read in two ways.
pub fn amount(written: &str, decimal_comma: bool) -> Option<(String, Exact)> {
    let written = written.trim();
    let digit = |c: char| c.is_ascii_digit();
    let (first, last) = (written.find(digit)?, written.rfind(digit)? + 1);
    let (before, after) = (written[..first].trim(), written[last..].trim());
    let currency = match (before, after) {
        (currency, "") | ("", currency) => currency,
        _ => return None,
    };
    let is_mark = |c: char| c.is_alphabetic() || !(c.is_ascii() || c.is_whitespace());
    // `kr.`, `EUR`, `US$`, `£`: more letters are words, and words may say "about".
    let plain = currency.trim_end_matches('.').chars().count() <= 3
        && currency
            .chars()
            .all(|c| is_mark(c) || matches!(c, '$' | '.'));
    let number = number(&written[first..last], decimal_comma)?;
    plain.then(|| (one_sign(currency.trim_matches('.')), number))
}

/// One way of writing for a currency, so that `2 €` and `2 eur` stand in one sum. A sign that several currencies use, as `$`
/// and `£`, is left as it is written.
fn one_sign(currency: &str) -> String {
    let letters = |text: &str| text.len() == 3 && text.chars().all(|c| c.is_ascii_alphabetic());
    match currency {
        "€" => "EUR".to_owned(),
        "US$" => "USD".to_owned(),
        code if letters(code) => code.to_ascii_uppercase(),
        _ => currency.to_owned(),
    }
}

/// `12`, `12.50`, `1,200.50`, `1 200,50`. A single mark before one or two digits at the end is the decimal sign in any yard;
/// before three it groups, unless it is the yard's own decimal sign: then it could be both, and is neither.
fn number(text: &str, decimal_comma: bool) -> Option<Exact> {
    let is_mark = |c: char| matches!(c, '.' | ',');
    let (whole, part) = match text.rfind(is_mark) {
        Some(at) if (1..=2).contains(&text[at + 1..].len()) => (&text[..at], &text[at + 1..]),
        _ => (text, ""),
    };
    let sign = text[whole.len()..].chars().next();
    let groups: Vec<&str> = whole
        .split(|c: char| is_mark(c) || c == ' ' || c == '\'' || c == '\u{a0}')
        .collect();
    let between: BTreeSet<char> = whole.chars().filter(|c| !c.is_ascii_digit()).collect();
    let grouped = groups.len() > 1;
    let own = if decimal_comma { ',' } else { '.' };
    let both = grouped && part.is_empty() && between.contains(&own);
    let well = groups.iter().enumerate().all(|(at, group)| {
        let length = if at == 0 { 1..=3 } else { 3..=3 };
        let right = !grouped || length.contains(&group.len());
        right && !group.is_empty() && group.chars().all(|c| c.is_ascii_digit())
    });
    let confused = between.len() > 1 || sign.is_some_and(|sign| between.contains(&sign));
    if !well || both || confused || !part.chars().all(|c| c.is_ascii_digit()) {
        return None;
    }
    let plain = groups.concat();
    Exact::parse(&if part.is_empty() {
        plain
    } else {
        format!("{plain}.{part}")
    })
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn money_reads_as_people_write_it() {
        let known = [
            ("12", false, "", "12"),
            ("£12.50", false, "£", "12.5"),
            ("12,50 EUR", true, "EUR", "12.5"),
            ("12,50 eur", false, "EUR", "12.5"),
            ("US$ 3", false, "USD", "3"),
            ("3 usd", false, "USD", "3"),
            ("$1,200.50", false, "$", "1200.5"),
            ("1.200,50 €", true, "EUR", "1200.5"),
            ("1 200 kr.", false, "kr", "1200"),
            ("0.02", false, "", "0.02"),
            ("1,200", false, "", "1200"),
        ];
        for (text, comma, currency, value) in known {
            let expected = (currency.to_owned(), Exact::parse(value).unwrap());
            assert_eq!(amount(text, comma), Some(expected), "{text}");
        }
    }

    #[test]
    fn what_could_be_two_amounts_is_none() {
        for (text, comma) in [
            ("1.200", false),
            ("1,200", true),
            ("about ten", false),
            ("10-12", false),
            ("2 x 4.50", false),
            ("12.50 paid 3 May", false),
            ("1,2,3", false),
            ("12%", false),
        ] {
            assert_eq!(amount(text, comma), None, "{text}");
        }
    }
}
