//! The pull in a hanging chain, exactly, and by how much the flat formula falls short.

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "machine.catenary" tries catenary;
    inputs {
        weight_per_length: number ["N/m"] 0.0, 1e6;
        span: number ["m"] 0.01, 1000.0;
        sag: number ["m"] 0.0001, 1000.0;
    }
    outputs |r| {
        level_pull ["N"] = r.level_pull,
        pull_at_ends ["N"] = r.pull_at_ends,
        length ["m"] = r.length,
        flat_formula ["N"] = r.flat_formula,
    }
    source { "Statics of a hanging chain, catenary", 0, "s = c (cosh(L / 2c) - 1), T = w c", Definition }
}

/// A chain hanging between two points of the same height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Catenary {
    /// The level pull, which is the least, N.
    pub level_pull: f64,
    /// The pull at its two ends, N.
    pub pull_at_ends: f64,
    /// The chain's length between them, m.
    pub length: f64,
    /// What the flat formula w L^2 / (8 s) gives for the level pull, N: always a little less.
    pub flat_formula: f64,
}

/// The pull in a chain by its true curve.
///
/// - `weight_per_length` w \[N/m\], `span` L \[m\] between points of the same height, `sag` s \[m\] in the middle.
///
/// Formula: c from s = c (cosh(L / 2c) - 1), by halving; T = w c, at the ends w (c + s), length 2 c sinh(L / 2c).
///
/// Range: any sag up to three thousand spans; a chain that bends freely and does not stretch.
///
/// # Errors
/// "sag-beyond-any-chain" where it hangs deeper than that.
///
/// Source: statics, definition.
pub fn catenary(weight_per_length: f64, span: f64, sag: f64) -> Result<Catenary, Refusal> {
    let wanted = 2.0 * sag / span;
    let (mut low, mut high) = (0.0, 12.0);
    if deepness(high) < wanted {
        return Err(Refusal::Contradiction {
            what: "sag-beyond-any-chain",
        });
    }
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if middle <= low || middle >= high {
            break;
        }
        if deepness(middle) < wanted {
            low = middle;
        } else {
            high = middle;
        }
    }
    let c = span / (low + high);
    Ok(Catenary {
        level_pull: weight_per_length * c,
        pull_at_ends: weight_per_length * (c + sag),
        length: 2.0 * c * libm::sinh(span / (2.0 * c)),
        flat_formula: weight_per_length * span * span / (8.0 * sag),
    })
}

/// Sag over half the span for x = L / 2c: (cosh x - 1) / x, written so that a small x loses no digits.
fn deepness(x: f64) -> f64 {
    let half = libm::sinh(x / 2.0);
    2.0 * half * half / x
}
