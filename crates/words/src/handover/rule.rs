//! The rules of the verdict in words, each with its name, what it says, why, and where it comes from.

use crate::Words;
use yard::handover::{LooksAt, Rule};

impl Words {
    /// A rule's name.
    pub fn rule_title(&self, rule: &Rule) -> String {
        self.text(&format!("rule-{}.title", rule.id))
    }

    /// Where a rule comes from, in a sentence of its own.
    pub fn rule_source(&self, rule: &Rule) -> String {
        self.text(&format!("rule-{}.source", rule.id))
    }

    /// What kind of source a rule comes from.
    pub fn rule_source_kind(&self, rule: &Rule) -> String {
        self.text(&format!("rule-source-{}", rule.source.code()))
    }

    /// What a rule looks at.
    pub fn rule_looks_at(&self, rule: &Rule) -> String {
        let code = match rule.looks_at {
            LooksAt::Findings => "findings",
            LooksAt::Round => "round",
            LooksAt::Handover => "handover",
            LooksAt::Person => "person",
            LooksAt::Book => "book",
            LooksAt::Journal => "journal",
        };
        self.text(&format!("rule-looks-at-{code}"))
    }

    /// The case that shows what only this rule catches.
    pub fn rule_example(&self, rule: &Rule) -> String {
        self.say("rule-example-is", &[("name", rule.example.into())])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use yard::handover::{RULES, Source};

    #[test]
    fn every_rule_has_its_page() {
        let words = Words::english();
        let parts = |rule: &Rule| {
            ["", ".title", ".why", ".source"].map(|part| format!("rule-{}{part}", rule.id))
        };
        let lacking: Vec<_> = RULES
            .iter()
            .flat_map(parts)
            .filter(|key| !words.has(key))
            .collect();
        assert_eq!(lacking, Vec::<String>::new());
        let titles: std::collections::BTreeSet<_> =
            RULES.iter().map(|rule| words.rule_title(rule)).collect();
        assert_eq!(titles.len(), RULES.len(), "no two rules have one name");
    }

    #[test]
    fn every_source_and_every_subject_has_its_words() {
        let words = Words::english();
        for rule in RULES {
            assert!(
                !words.rule_looks_at(rule).is_empty()
                    && words.rule_example(rule).contains(rule.example)
            );
        }
        let sources = [
            Source::ArmyTables,
            Source::MakersCheck,
            Source::Accident,
            Source::TradePress,
            Source::CommonPractice,
            Source::YardsOwn,
        ];
        assert!(
            sources
                .iter()
                .all(|source| words.has(&format!("rule-source-{}", source.code())))
        );
    }
}
