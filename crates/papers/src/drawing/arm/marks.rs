//! The strength map: one mark for each square of the reach, large where the tooth pushes hard, its form by what holds it back.

use super::{
    super::{ink::PENCIL, pen},
    page,
};
use reckon::arm::shape::Vector;
use svg::node::element::{Group, SVG};

/// What holds the force back, as far as a mark tells it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeldBack {
    /// The ram that works is at its most: a filled dot.
    ByWork,
    /// Another ram gives way: a ring.
    ByAnother,
    /// The machine tips or slides: a stroke.
    ByGround,
}

/// One square of the map.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StrengthMark {
    /// Its middle in the arm plane, metres.
    pub at: Vector,
    /// The usable force there, newtons.
    pub force: f64,
    /// What governs.
    pub by: HeldBack,
}

/// All marks, for between ground and arm. `square`: the side of a square, metres.
///
/// A mark's area grows with the force; the largest fills two thirds of its square's side.
pub fn strength_marks(marks: &[StrengthMark], square: f64) -> String {
    let most = marks.iter().map(|mark| mark.force).fold(0.0, f64::max);
    if most <= 0.0 {
        return String::new();
    }
    let group = marks.iter().fold(Group::new(), |group, mark| {
        let share = (mark.force / most).clamp(0.0, 1.0).sqrt();
        group.add(drawn(page(mark.at), square * 32.0 * share, mark.by))
    });
    group.to_string()
}

/// A mark of middle size by itself, for the key.
pub fn strength_key(by: HeldBack) -> String {
    SVG::new()
        .set("viewBox", "-12 -12 24 24")
        .set("aria-hidden", "true")
        .set("xmlns", "http://www.w3.org/2000/svg")
        .add(drawn((0.0, 0.0), 8.0, by))
        .to_string()
}

fn drawn((x, y): (f64, f64), radius: f64, by: HeldBack) -> Group {
    let group = Group::new();
    match by {
        HeldBack::ByWork => group.add(pen::ring((x, y), radius, PENCIL, "none", 0.0)),
        HeldBack::ByAnother => {
            let line = (radius * 0.3).max(0.6);
            group.add(pen::ring(
                (x, y),
                (radius - line / 2.0).max(0.3),
                "none",
                PENCIL,
                line,
            ))
        }
        HeldBack::ByGround => group.add(pen::line(
            &[(x - radius, y), (x + radius, y)],
            PENCIL,
            (radius * 0.45).max(0.8),
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_strongest_square_has_the_largest_mark_and_each_reason_its_form() {
        let mark = |force, by| StrengthMark {
            at: Vector::new(1.0, -1.0),
            force,
            by,
        };
        let drawn = strength_marks(
            &[
                mark(4000.0, HeldBack::ByWork),
                mark(1000.0, HeldBack::ByWork),
                mark(1000.0, HeldBack::ByGround),
            ],
            0.2,
        );
        assert!(drawn.contains("r=\"6.4\"") && drawn.contains("r=\"3.2\""));
        assert_eq!(drawn.matches("<circle").count(), 2);
        assert_eq!(drawn.matches("<polyline").count(), 1);
        assert_eq!(strength_marks(&[mark(0.0, HeldBack::ByWork)], 0.2), "");
    }
}
