//! The survey's pins among the numbers of a whole arm, with their covariance: for what governs how likely.

use super::geometry::{
    BOOM_BARREL, BOOM_LENGTH, BOOM_ROD, BUCKET_BARREL, DIPPER_BARREL, DIPPER_LENGTH, DIPPER_ROD,
    FOOT, HEEL, LEVER, LEVER_PIN, LINK, LINK_PIN, TIP_RADIUS,
};
use super::solved::Solved;

/// A number of an arm: its place in `ArmShape::to_numbers`, the unknown that it is, and the unknown it is seen from.
type Place = (usize, usize, Option<usize>);

/// In the order of the arm's numbers: frame and lengths, the two triangles, the linkage.
const PLACES: [Place; 24] = [
    (0, FOOT, None),
    (1, FOOT + 1, None),
    (3, BOOM_LENGTH, None),
    (4, DIPPER_LENGTH, None),
    (5, TIP_RADIUS, None),
    (6, HEEL, None),
    (7, HEEL + 1, None),
    (24, BOOM_BARREL, Some(FOOT)),
    (25, BOOM_BARREL + 1, Some(FOOT + 1)),
    (26, BOOM_ROD, None),
    (27, BOOM_ROD + 1, None),
    (29, DIPPER_BARREL, Some(BOOM_LENGTH)),
    (30, DIPPER_BARREL + 1, None),
    (31, DIPPER_ROD, None),
    (32, DIPPER_ROD + 1, None),
    (34, BUCKET_BARREL, None),
    (35, BUCKET_BARREL + 1, None),
    (36, LEVER_PIN, None),
    (37, LEVER_PIN + 1, None),
    (38, DIPPER_LENGTH, None),
    (40, LEVER, None),
    (41, LINK, None),
    (42, LINK_PIN, None),
    (43, LINK_PIN + 1, None),
];

impl Solved {
    /// Which of the numbers of [`crate::arm::shape::ArmShape::to_numbers`] the survey made uncertain, by place, and their
    /// covariance in square metres.
    pub fn uncertain_numbers(&self) -> (Vec<usize>, Vec<Vec<f64>>) {
        let places = &PLACES;
        let part = |a: Option<usize>, b: Option<usize>| match (a, b) {
            (Some(a), Some(b)) => self.covariance(a, b),
            _ => 0.0,
        };
        let shared = |&(_, a, from_a): &Place, &(_, b, from_b): &Place| {
            part(Some(a), Some(b)) - part(from_a, Some(b)) - part(Some(a), from_b)
                + part(from_a, from_b)
        };
        let row = |one: &Place| places.iter().map(|other| shared(one, other)).collect();
        (
            places.iter().map(|(at, _, _)| *at).collect(),
            places.iter().map(row).collect(),
        )
    }
}
