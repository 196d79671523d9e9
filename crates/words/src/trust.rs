//! Trusting the yard: the kinds of phone, sentences that come in a row, and how a fingerprint is set in lines.

use crate::Words;

/// The kinds of phone, as their settings are called; each has its steps and its way back in the messages `trust-<kind>…`.
pub const TRUST_KINDS: [&str; 3] = ["credentials", "profile", "computer"];

impl Words {
    /// The sentences `key-1`, `key-2` and so on, as many as there are.
    pub fn in_a_row(&self, key: &str) -> Vec<String> {
        (1..)
            .map(|n| format!("{key}-{n}"))
            .take_while(|key| self.has(key))
            .map(|key| self.text(&key))
            .collect()
    }
}

/// A fingerprint in lines of four groups, for comparing by eye.
pub fn fingerprint_lines(fingerprint: &str) -> Vec<String> {
    let groups: Vec<&str> = fingerprint.split(' ').collect();
    groups.chunks(4).map(|four| four.join(" ")).collect()
}
