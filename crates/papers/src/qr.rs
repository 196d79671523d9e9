//! The square code that leads from a paper to its page: level M, four modules of quiet zone, as an SVG without text.

use crate::{PaperError, drawing::INK};
use qrcode::{Color, EcLevel, QrCode};
use std::fmt::Write;

/// Modules left white on every side; less and some readers fail.
pub(crate) const QUIET: usize = 4;

/// A square code of the address, and its width over the quiet zone's as a share: what the code itself measures when the
/// picture is one wide. Dark on nothing, so the paper must be white under it.
///
/// Fails over 200 letters: such a code is too dense for an old phone at 25 mm.
pub(crate) fn square(address: &str) -> Result<(String, f64), PaperError> {
    let too_long = || PaperError::AddressTooLong(address.chars().count());
    if address.len() > 200 {
        return Err(too_long());
    }
    let code = QrCode::with_error_correction_level(address, EcLevel::M).map_err(|_| too_long())?;
    let across = code.width();
    let mut path = String::new();
    for (y, row) in code.to_colors().chunks(across).enumerate() {
        let mut x = 0;
        for run in row.chunk_by(|a, b| a == b) {
            if run.first() == Some(&Color::Dark) {
                // Rows overlap by a hair, so that no white line shows between them.
                let _ = write!(
                    path,
                    "M{},{}h{}v1.02h-{}z",
                    x + QUIET,
                    y + QUIET,
                    run.len(),
                    run.len()
                );
            }
            x += run.len();
        }
    }
    let whole = across + 2 * QUIET;
    let svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {whole} {whole}\"><path fill=\"{INK}\" d=\"{path}\"/></svg>"
    );
    Ok((svg, across as f64 / whole as f64))
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn an_address_of_the_yard_stays_coarse_enough_to_read() {
        let (svg, share) =
            square("http://192.168.178.100:8426/y/0123456789ab/m/marigold/round").unwrap();
        // 33 modules (version 4) and the quiet zone: a module of 25 mm / 33 is three quarters of a millimetre.
        assert!(svg.contains("viewBox=\"0 0 41 41\""), "{svg}");
        assert!((share - 33.0 / 41.0).abs() < 1e-12);
    }

    #[test]
    fn a_long_address_is_refused() {
        assert_eq!(
            square(&"a".repeat(201)),
            Err(PaperError::AddressTooLong(201))
        );
    }
}
