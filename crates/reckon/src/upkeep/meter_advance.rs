//! How far a meter moved between two readings, also where it ran over its highest count.

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "upkeep.meter_advance" tries meter_advance;
    inputs {
        before: number ["h"] 0.0, 1e7;
        after: number ["h"] 0.0, 1e7;
        modulus: optional ["h"] 1.0, 1e7;
    }
    outputs |hours| { advance ["h"] = hours }
    source { "Counting with a modulus, by definition", 0, "", Definition }
}

/// The hours between two readings of one meter.
///
/// - `before`, `after` \[h\]: the earlier and the later reading.
/// - `modulus` \[h\]: where the meter starts again from nothing, such as 10 000 for four places before the point,
///   only where it is *known* that the meter ran over.
///
/// Formula: after - before; where after is the lower one and the modulus is known, modulus - before + after.
///
/// Range: readings 0 to 10^7 h, below the modulus where there is one; the meter ran over once at most.
///
/// # Errors
/// "reading-below-last" where the reading fell and no modulus is known: a blip, a new meter and a meter that ran
/// over look the same, so it is asked and never decided here. `OutOfRange` for a reading the meter cannot show.
///
/// Source: definition.
pub fn meter_advance(before: f64, after: f64, modulus: Option<f64>) -> Result<f64, Refusal> {
    if let Some(modulus) = modulus {
        for (input, value) in [("before", before), ("after", after)] {
            if value >= modulus {
                return Err(Refusal::OutOfRange {
                    input,
                    value,
                    low: 0.0,
                    high: modulus,
                });
            }
        }
    }
    match modulus {
        _ if after >= before => Ok(after - before),
        Some(modulus) => Ok(modulus - before + after),
        None => Err(Refusal::Contradiction {
            what: "reading-below-last",
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn running_over_is_counted_only_where_the_modulus_is_known() {
        assert!((meter_advance(838_857.6, 12.4, Some(838_860.8)).unwrap() - 15.6).abs() < 1e-6);
        assert_eq!(
            meter_advance(838_857.6, 12.4, None),
            Err(Refusal::Contradiction {
                what: "reading-below-last"
            })
        );
        assert_eq!(meter_advance(10.0, 12.5, Some(100.0)), Ok(2.5));
    }

    #[test]
    fn a_reading_at_the_modulus_cannot_be() {
        assert!(matches!(
            meter_advance(100.0, 1.0, Some(100.0)),
            Err(Refusal::OutOfRange {
                input: "before",
                ..
            })
        ));
    }
}
