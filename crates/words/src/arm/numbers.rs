//! Numbers of an arm as its page and papers show them: both systems, no finer than they are known.

use crate::Words;

/// Newtons in a pound of force; pascals in a bar and in a pound on a square inch; metres in a foot. Source: by definition.
const NEWTONS_PER_LBF: f64 = 4.448_221_615_260_5;
const PASCALS_PER_BAR: f64 = 100_000.0;
const PASCALS_PER_PSI: f64 = 6_894.757_293_168;
const METRES_PER_INCH: f64 = 0.0254;

/// How finely a number is said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fineness {
    /// Three digits, for a screen that moves.
    Screen,
    /// Two digits, for paper: more than a tape can tell would be boast.
    Paper,
}

impl Fineness {
    fn digits(self) -> i32 {
        match self {
            Fineness::Screen => 3,
            Fineness::Paper => 2,
        }
    }
}

impl Words {
    /// A force in newtons: "26.7 kN (6000 lbf)".
    pub fn arm_force(&self, newtons: f64, how: Fineness) -> String {
        let metric = format!("{} kN", figures(newtons / 1000.0, how.digits()));
        let imperial = format!("{} lbf", figures(newtons / NEWTONS_PER_LBF, how.digits()));
        self.both(&metric, &imperial)
    }

    /// A length in metres: "4.20 m (13 ft 9 in)"; below one metre in millimetres and inches.
    pub fn arm_length(&self, metres: f64, how: Fineness) -> String {
        let inches = metres / METRES_PER_INCH;
        let (metric, imperial) = if metres.abs() < 1.0 {
            let step = if how == Fineness::Paper { 10.0 } else { 1.0 };
            (
                format!("{} mm", plain((metres * 1000.0 / step).round() * step, 0)),
                format!("{} in", plain(inches, 1)),
            )
        } else {
            let places = if how == Fineness::Paper { 1 } else { 2 };
            (
                format!("{} m", plain(metres, places)),
                feet_and_inches(inches, how),
            )
        };
        self.both(&metric, &imperial)
    }

    /// A pressure in pascals: "64 bar (930 psi)", always two digits: it is an estimate.
    pub fn arm_pressure(&self, pascals: f64) -> String {
        let metric = format!("{} bar", figures(pascals / PASCALS_PER_BAR, 2));
        let imperial = format!("{} psi", figures(pascals / PASCALS_PER_PSI, 2));
        self.both(&metric, &imperial)
    }

    /// A share of what something may carry: "64 %".
    pub fn arm_share(&self, share: f64) -> String {
        self.say("arm-share", &[("number", plain(share * 100.0, 0).into())])
    }

    /// An angle in radians: "21°".
    pub fn arm_angle(&self, radians: f64) -> String {
        format!("{}°", plain(radians.to_degrees(), 0))
    }

    fn both(&self, metric: &str, imperial: &str) -> String {
        self.say(
            "in-both",
            &[("value", metric.into()), ("other", imperial.into())],
        )
    }
}

/// "13 ft 9 in"; on paper to three inches, about as fine as a tenth of a metre.
fn feet_and_inches(inches: f64, how: Fineness) -> String {
    let step = if how == Fineness::Paper { 3.0 } else { 1.0 };
    let whole = (inches.abs() / step).round() * step;
    let sign = if inches < 0.0 { "−" } else { "" };
    let (feet, rest) = ((whole / 12.0).floor(), whole % 12.0);
    if rest == 0.0 {
        format!("{sign}{feet} ft")
    } else {
        format!("{sign}{feet} ft {rest} in")
    }
}

/// A number with so many digits that count, without an exponent: 26722 with 2 is 27000.
fn figures(value: f64, digits: i32) -> String {
    if value == 0.0 || !value.is_finite() {
        return plain(value, 0);
    }
    let mut whole = 1;
    let mut top = 10.0;
    while value.abs() >= top {
        whole += 1;
        top *= 10.0;
    }
    while value.abs() < top / 10.0 && whole > -6 {
        whole -= 1;
        top /= 10.0;
    }
    let places: i32 = digits - whole;
    if places >= 0 {
        plain(value, places as usize)
    } else {
        let step = (0..-places).fold(1.0, |step, _| step * 10.0);
        plain((value / step).round() * step, 0)
    }
}

/// A number with so many places, without a negative zero.
fn plain(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    let zero = text
        .trim_start_matches('-')
        .chars()
        .all(|c| matches!(c, '0' | '.'));
    if zero {
        text.trim_start_matches('-').to_owned()
    } else {
        text.replace('-', "−")
    }
}

#[cfg(test)]
mod tests {
    use super::{Fineness, figures};
    use crate::Words;

    #[test]
    fn numbers_are_as_honest_as_the_tape() {
        assert_eq!(figures(26_722.6, 2), "27000");
        assert_eq!(figures(26.722, 3), "26.7");
        assert_eq!(figures(0.9961, 2), "1.00");
        assert_eq!(figures(-0.0, 2), "0");
        let words = Words::english();
        assert_eq!(
            words.arm_force(26_722.6, Fineness::Paper),
            "27 kN (6000 lbf)"
        );
        assert_eq!(
            words.arm_length(4.203, Fineness::Screen),
            "4.20 m (13 ft 9 in)"
        );
        assert_eq!(
            words.arm_length(-3.6466, Fineness::Paper),
            "−3.6 m (−12 ft)"
        );
        assert_eq!(words.arm_length(0.0534, Fineness::Screen), "53 mm (2.1 in)");
        assert_eq!(words.arm_pressure(6.381e6), "64 bar (930 psi)");
    }
}
