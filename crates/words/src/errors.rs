//! Troubles of the program's surroundings in words: the store, files, addresses.

use crate::{Arg, Told, Words};

impl Words {
    /// A trouble of the store, by the code and arguments it hands up. A code this program has no sentence for is shown as such.
    pub fn store_trouble(&self, code: &str, args: &[(&'static str, String)]) -> Told {
        let key = format!("store-{code}");
        if !self.has(&key) {
            return self.told("store-unknown", &[("name", code.into())]);
        }
        let args: Vec<(&str, Arg<'_>)> = args
            .iter()
            .map(|(name, value)| (*name, value.into()))
            .collect();
        self.told(&key, &args)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_trouble_of_the_store_says_what_to_do() {
        let told = Words::english().store_trouble("not-empty", &[("dir", "/srv/yard".into())]);
        assert_eq!(told.what, "/srv/yard is not empty.");
        assert_eq!(
            told.next,
            "Name an empty folder. Nothing is ever overwritten."
        );
    }

    #[test]
    fn a_code_nobody_knows_is_shown() {
        assert_eq!(
            Words::english().store_trouble("bent", &[]).what,
            "The store did not do what was asked (bent)."
        );
    }
}
