//! The exit codes, one table: for the program, for its document, for scripts.

use words::Words;
use yard::handover::Verdict;

macro_rules! exits {
    ($($(#[$doc:meta])* $name:ident = $code:literal $word:literal;)*) => {
        /// How the program ended.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Exit { $($(#[$doc])* $name,)* }

        impl Exit {
            /// Every way to end, in the order of the table.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];
            /// The number a script sees.
            pub fn code(self) -> u8 {
                match self { $(Self::$name => $code,)* }
            }
            /// The word of JSON; its sentence is `exit-<word>`.
            pub fn word(self) -> &'static str {
                match self { $(Self::$name => $word,)* }
            }
        }
    };
}

exits! {
    /// Done; fit to run.
    Done = 0 "done";
    /// The command line was not understood.
    Usage = 2 "usage";
    /// What was handed in has mistakes, or what is kept is damaged.
    Mistakes = 3 "mistakes";
    /// Refused: not entitled, not there, locked, newer, on a network share, not empty, not to be written, no room.
    Refused = 4 "refused";
    /// The verdict is: run with care.
    Care = 10 "care";
    /// The verdict is: stand down.
    StandDown = 20 "stand-down";
    /// A mistake of the program, or of what it stands on.
    Ours = 70 "ours";
}

impl From<Verdict> for Exit {
    fn from(verdict: Verdict) -> Self {
        match verdict {
            Verdict::Fit => Self::Done,
            Verdict::Care => Self::Care,
            Verdict::StandDown => Self::StandDown,
        }
    }
}

/// The table as Markdown: the whole of `docs/exit-codes.md`.
pub(crate) fn table(words: &Words) -> String {
    let mut page = format!(
        "# {}\n\n{}\n\n| {} | {} |\n|---|---|\n",
        words.text("exit-title"),
        words.text("exit-intro"),
        words.text("exit-column-code"),
        words.text("exit-column-means")
    );
    for exit in Exit::ALL {
        let means = words.text(&format!("exit-{}", exit.word()));
        page += &format!("| {} | {means} |\n", exit.code());
    }
    page + &format!("\n{}\n", words.text("exit-note"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_are_told_apart_and_a_shell_can_hold_them() {
        let mut codes: Vec<u8> = Exit::ALL.iter().map(|exit| exit.code()).collect();
        assert!(codes.is_sorted());
        codes.dedup();
        assert_eq!(codes.len(), Exit::ALL.len());
        // From 126 on a shell means something of its own.
        assert!(codes.iter().all(|code| *code < 126));
    }

    #[test]
    fn every_code_stands_in_the_document() {
        let page = table(&Words::english());
        for exit in Exit::ALL {
            assert!(
                page.contains(&format!("\n| {} | ", exit.code())),
                "{exit:?}"
            );
        }
    }
}
