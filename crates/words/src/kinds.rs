//! What is said otherwise of machines without a seat, an engine, a starter or rams.

use crate::{Named, Words};
use yard::{
    book::{Book, Engine, Without},
    code::Coded,
};

impl Words {
    /// What the engine does during a leg of a round; of a machine without an engine, where it stands.
    pub fn leg_state(&self, engine: Engine, book: &Book) -> String {
        self.text(&leg_state_key(engine, book))
    }

    /// The usual cautions of these keys, as they fit this machine: what it has not is not spoken of.
    pub fn cautions(&self, keys: &[&str], book: &Book) -> Vec<String> {
        keys.iter()
            .filter_map(|key| caution_key(key, book))
            .map(|key| self.text(key))
            .collect()
    }
}

fn leg_state_key(engine: Engine, book: &Book) -> String {
    match engine {
        _ if book.lacks(Without::Engine) => format!("kinds-still-{}", engine.code()),
        Engine::Off if book.lacks(Without::Starter) => "kinds-pulled-off".to_owned(),
        Engine::Working if !travels(book) => "kinds-placed-working".to_owned(),
        _ => engine.key(),
    }
}

/// Without rams nothing stands under the pressure of oil, and no leak cuts; what does not travel may have no key; without an engine nothing is started; who has no seat sits on a
/// saddle, or nowhere.
fn caution_key<'a>(key: &'a str, book: &Book) -> Option<&'a str> {
    let lacks = |what| book.lacks(what);
    match key {
        "caution-pressure" if lacks(Without::Rams) => None,
        "caution-held" if lacks(Without::Rams) => Some("kinds-caution-held-no-rams"),
        "caution-engine-off" | "caution-seat" if lacks(Without::Engine) => None,
        "caution-engine-off" if lacks(Without::Starter) => Some("kinds-caution-pulled-off"),
        "caution-engine-off" if !travels(book) => Some("kinds-caution-off-and-kept"),
        "caution-leak" if lacks(Without::Engine) => None,
        "caution-leak" if lacks(Without::Rams) => Some("kinds-caution-leak-no-rams"),
        "caution-seat" if lacks(Without::SeatBelt) => {
            travels(book).then_some("kinds-caution-saddle")
        }
        _ => Some(key),
    }
}

fn travels(book: &Book) -> bool {
    book.ground_gear.as_ref().is_none_or(|gear| gear.travels)
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::Habits;

    fn book(machine: &str, on: &str) -> Book {
        let text = format!(
            "kingpost = 1\n[machine]\nid = \"m\"\nname = \"M\"\nkind = \"k\"\n{machine}\n[ground]\non = \"{on}\"\n"
        );
        yard::book::read(&text, &Habits::default()).book.unwrap()
    }

    const ENGINES: [Engine; 4] = [Engine::Off, Engine::Idle, Engine::Working, Engine::After];
    const ALL: [&str; 5] = [
        "caution-seat",
        "caution-zone",
        "caution-engine-off",
        "caution-held",
        "caution-pressure",
    ];

    #[test]
    fn a_seated_machine_is_spoken_of_as_ever() {
        let (words, loader) = (Words::english(), book("", "tracks"));
        for engine in ENGINES {
            assert_eq!(words.leg_state(engine, &loader), words.name(engine));
        }
        let said = ALL.map(|key| words.text(key));
        assert_eq!(words.cautions(&ALL, &loader), said);
    }

    #[test]
    fn a_trailer_is_not_spoken_of_as_if_it_ran() {
        let words = Words::english();
        let without = "without = [\"engine\", \"seat-belt\", \"starter\", \"rams\"]";
        let trailer = book(without, "towed");
        for engine in ENGINES {
            assert!(!words.leg_state(engine, &trailer).contains("engine"));
        }
        let said = ["caution-zone", "kinds-caution-held-no-rams"].map(|key| words.text(key));
        assert_eq!(words.cautions(&ALL, &trailer), said);
    }

    #[test]
    fn what_is_carried_or_ridden_has_its_own_words() {
        let words = Words::english();
        let saw = book("without = [\"seat-belt\", \"starter\", \"rams\"]", "hands");
        assert_eq!(words.leg_state(Engine::Off, &saw), "engine off, switch off");
        assert_eq!(
            words.leg_state(Engine::Working, &saw),
            "engine running, at work"
        );
        let said = [
            "caution-zone",
            "kinds-caution-pulled-off",
            "kinds-caution-held-no-rams",
        ];
        assert_eq!(words.cautions(&ALL, &saw), said.map(|key| words.text(key)));
        let generator = book("without = [\"seat-belt\", \"rams\"]", "frame");
        let keys = ["caution-engine-off", "caution-leak"];
        assert_eq!(
            words.cautions(&keys, &generator),
            ["kinds-caution-off-and-kept", "kinds-caution-leak-no-rams"].map(|key| words.text(key))
        );
        let quad = book("without = [\"seat-belt\", \"rams\"]", "wheels");
        assert_eq!(
            words.cautions(&["caution-seat"], &quad),
            [words.text("kinds-caution-saddle")]
        );
        assert_eq!(
            words.leg_state(Engine::Working, &quad),
            words.name(Engine::Working)
        );
    }
}
