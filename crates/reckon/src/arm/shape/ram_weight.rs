//! About what a ram weighs, from its sizes: for whoever cannot weigh it.

use std::f64::consts::PI;

/// Steel, in kilograms for a cubic metre. Source: from memory.
const STEEL: f64 = 7850.0;
/// Outside diameter of a tube over its bore, where it was not measured. Common practice, no source.
const TUBE: f64 = 1.18;
/// From the barrel's pin to the gland over the closed length, where it was not measured. Common practice, no source.
const GLAND: f64 = 0.89;

/// The sizes of a ram, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RamSizes {
    /// Bore.
    pub bore: f64,
    /// Diameter of the rod.
    pub rod: f64,
    /// Pin to pin, fully in.
    pub closed: f64,
    /// Outside diameter of the tube, where it is known.
    pub tube: Option<f64>,
    /// From the barrel's pin to the gland, where it is known.
    pub gland: Option<f64>,
}

/// About what a ram weighs: mass and centre of barrel and rod, in kilograms and metres. The barrel's centre is seen from its
/// own pin, the rod's from its own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RamWeights {
    /// Barrel: mass, and how far its centre lies from its pin.
    pub barrel: (f64, f64),
    /// Rod with its piston, likewise from the rod's pin.
    pub rod: (f64, f64),
}

/// About what a ram of these sizes weighs; oil left out. Good to about a fifth: the rams' weights are a few hundredths of
/// what an arm asks of its rams, so that they err by less than one.
///
/// Barrel: the tube from its pin to the gland, and both its ends with the eye as solid steel of the tube's diameter, together
/// as long as the bore; centre half way to the gland. Rod: solid, as long as the closed ram less a bore, and the piston as
/// solid steel of half a bore's length; centre half way along.
///
/// Nothing where a size is not positive, the rod is not thinner than the bore or the tube not wider.
///
/// Source: volume times density, definition; the proportions common practice, no source.
pub fn about_weights(sizes: &RamSizes) -> Option<RamWeights> {
    let RamSizes {
        bore, rod, closed, ..
    } = *sizes;
    let tube = sizes.tube.unwrap_or(TUBE * bore);
    let gland = sizes.gland.unwrap_or(GLAND * closed);
    let long = closed - bore;
    let sound = rod > 0.0 && rod < bore && bore < tube && gland > 0.0 && long > 0.0;
    let finite = [tube, gland, long].iter().all(|size| size.is_finite());
    if !(sound && finite) {
        return None;
    }
    let disc = |diameter: f64| PI / 4.0 * diameter * diameter;
    let barrel = (disc(tube) - disc(bore)) * gland + disc(tube) * bore;
    let rod = disc(rod) * long + disc(bore) * 0.5 * bore;
    Some(RamWeights {
        barrel: (STEEL * barrel, 0.5 * gland),
        rod: (STEEL * rod, 0.5 * long),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn within(found: f64, expected: f64, share: f64) {
        assert!((found / expected - 1.0).abs() < share, "{found} {expected}");
    }

    #[test]
    fn the_reference_machines_rams_come_out_within_a_fifth() {
        // cases/arm/reference-machine.toml: invented, but weighed part by part by whoever invented it.
        for (bore, rod, closed, tube, gland, barrel, rod_mass) in [
            (0.11, 0.06, 0.935, 0.13, 0.84, 38.0, 24.0),
            (0.1, 0.055, 0.975, 0.118, 0.87, 30.0, 17.0),
            (0.085, 0.05, 0.85, 0.101, 0.745, 22.0, 12.0),
        ] {
            let sizes = RamSizes {
                bore,
                rod,
                closed,
                tube: Some(tube),
                gland: Some(gland),
            };
            let measured = about_weights(&sizes).unwrap();
            within(measured.barrel.0, barrel, 0.2);
            within(measured.rod.0, rod_mass, 0.2);
            within(measured.barrel.1, gland / 2.0, 1e-12);
            let guessed = about_weights(&RamSizes {
                tube: None,
                gland: None,
                ..sizes
            });
            within(guessed.unwrap().barrel.0, measured.barrel.0, 0.05);
        }
    }

    #[test]
    fn a_solid_bar_weighs_what_it_does() {
        // A rod of 50 mm, one metre long beyond the bore: 15.41 kg a metre by any table of round steel; and half a bore of
        // piston, 0.0491 m x 61.65 kg a metre at 100 mm.
        let sizes = RamSizes {
            bore: 0.1,
            rod: 0.05,
            closed: 1.1,
            tube: Some(0.12),
            gland: Some(1.0),
        };
        let found = about_weights(&sizes).unwrap();
        within(found.rod.0, 15.41 + 0.05 * 61.65, 1e-3);
        assert_eq!(found.rod.1, 0.5);
    }

    #[test]
    fn what_cannot_be_weighs_nothing() {
        let sizes = RamSizes {
            bore: 0.1,
            rod: 0.05,
            closed: 1.1,
            tube: None,
            gland: None,
        };
        for wrong in [
            RamSizes { rod: 0.1, ..sizes },
            RamSizes {
                closed: 0.05,
                ..sizes
            },
            RamSizes {
                tube: Some(0.09),
                ..sizes
            },
            RamSizes {
                bore: f64::NAN,
                ..sizes
            },
        ] {
            assert_eq!(about_weights(&wrong), None);
        }
    }
}
