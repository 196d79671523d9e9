//! What became of the mutants of one formula, and whether that is enough.

use super::bench::Outcome;

/// The share of mutants, in percent, that the cases must notice.
const ENOUGH: usize = 90;

/// Counts of one formula's mutants.
#[derive(Debug, Default, Clone, PartialEq, Eq)]
pub(crate) struct Score {
    caught: usize,
    survived: usize,
    edges_survived: usize,
    not_built: usize,
}

impl Score {
    /// Counts one mutant. A surviving edge (a guard moved by a hair) is shown and not held against the cases.
    pub(crate) fn add(&mut self, outcome: &Outcome, edge: bool) {
        match outcome {
            Outcome::NotBuilt => self.not_built += 1,
            Outcome::Caught => self.caught += 1,
            Outcome::Survived if edge => self.edges_survived += 1,
            Outcome::Survived => self.survived += 1,
        }
    }

    /// True where the cases notice enough, or there was nothing to notice.
    pub(crate) fn is_enough(&self) -> bool {
        self.caught * 100 >= ENOUGH * (self.caught + self.survived)
    }

    /// The names of the columns.
    pub(crate) fn heading() -> String {
        format!(
            "{:<40} {:>7} {:>9} {:>6} {:>10} {:>7}  ",
            "formula", "noticed", "unnoticed", "edges", "not built", "share"
        )
    }

    /// One formula's line.
    pub(crate) fn row(&self, name: &str) -> String {
        let counted = self.caught + self.survived;
        let share = (self.caught * 100)
            .checked_div(counted)
            .map_or("-".to_owned(), |share| format!("{share} %"));
        let mark = if self.is_enough() { "" } else { "TOO LITTLE" };
        format!(
            "{name:<40} {:>7} {:>9} {:>6} {:>10} {share:>7}  {mark}",
            self.caught, self.survived, self.edges_survived, self.not_built
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn score(caught: usize, survived: usize) -> Score {
        Score {
            caught,
            survived,
            ..Score::default()
        }
    }

    #[test]
    fn nine_in_ten_is_enough_and_less_is_not() {
        assert!(score(9, 1).is_enough() && score(18, 2).is_enough() && score(0, 0).is_enough());
        assert!(!score(8, 1).is_enough() && !score(0, 1).is_enough());
        assert!(score(8, 1).row("a").contains("TOO LITTLE"));
    }

    #[test]
    fn edges_and_mutants_that_do_not_build_are_counted_apart() {
        let mut score = Score::default();
        score.add(&Outcome::Survived, true);
        score.add(&Outcome::NotBuilt, false);
        assert!(score.is_enough());
        score.add(&Outcome::Survived, false);
        assert!(!score.is_enough());
    }
}
