//! Signs of a round not walked, in words for the steward.

use crate::{Arg, Names, Words};
use yard::walkround::Sign;

impl Words {
    /// A sign, in a sentence.
    pub fn sign(&self, sign: &Sign, names: &dyn Names) -> String {
        match sign {
            Sign::TooQuick {
                points,
                took,
                given,
            } => self.say(
                "sign-too-quick",
                &[
                    ("points", Arg::from(*points)),
                    ("took", self.seconds(*took).into()),
                    ("given", self.seconds(i64::from(*given)).into()),
                ],
            ),
            Sign::SameValue { point, value, days } => self.say(
                "sign-same-value",
                &[
                    ("point", self.point(point, names).into()),
                    ("value", value.as_str().into()),
                    ("days", (*days).into()),
                ],
            ),
            Sign::AlwaysTheSame { rounds, points } => self.say(
                "sign-always-the-same",
                &[("rounds", (*rounds).into()), ("points", (*points).into())],
            ),
        }
    }

    /// Seconds, from two minutes on as whole minutes.
    fn seconds(&self, seconds: i64) -> String {
        match seconds {
            0..120 => self.say("sign-seconds", &[("n", seconds.into())]),
            _ => self.say("sign-minutes", &[("n", (seconds / 60).into())]),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::NoNames;

    #[test]
    fn a_quick_round_is_told_with_both_times() {
        let names = NoNames {
            now: jiff::Timestamp::UNIX_EPOCH,
        };
        let sign = Sign::TooQuick {
            points: 42,
            took: 38,
            given: 420,
        };
        assert_eq!(
            Words::english().sign(&sign, &names),
            "42 points in 38 seconds. The book gives them 7 minutes. Less than a quarter of that is quick."
        );
    }
}
