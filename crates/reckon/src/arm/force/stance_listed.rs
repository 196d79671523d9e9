//! A stance as a list of numbers and back, for leaves.

use super::footing::Stance;
use crate::arm::shape::{Vector, Weight};
use crate::refusal::Refusal;

/// Numbers before the first contact.
const BEFORE_CONTACTS: usize = 9;

impl Stance {
    /// The stance as numbers: heading, friction, mass and centre (x, y, z) of what does not swing, mass and centre (r, z) of
    /// the post, then x and y of each contact in their order. Units SI.
    pub fn to_numbers(&self) -> Vec<f64> {
        let (mass, [x, y, z]) = self.base;
        let mut all = vec![self.heading, self.friction, mass, x, y, z];
        all.extend([self.post.mass, self.post.centre.r, self.post.centre.z]);
        all.extend(self.contacts.iter().flatten());
        all
    }

    /// The stance that these numbers are.
    ///
    /// # Errors
    /// `WrongCount` where there are fewer than three contacts or half of one; `NotANumber` where one is not finite.
    pub fn from_numbers(input: &'static str, numbers: &[f64]) -> Result<Self, Refusal> {
        let wrong = Refusal::WrongCount {
            input,
            count: numbers.len(),
        };
        let Some((before, contacts)) = numbers.split_at_checked(BEFORE_CONTACTS) else {
            return Err(wrong);
        };
        let &[heading, friction, mass, x, y, z, post, r, up] = before else {
            return Err(wrong);
        };
        if contacts.len() < 6 || !contacts.len().is_multiple_of(2) {
            return Err(wrong);
        }
        if numbers.iter().any(|number| !number.is_finite()) {
            return Err(Refusal::NotANumber { input });
        }
        Ok(Stance {
            contacts: contacts
                .chunks_exact(2)
                .map(|pair| [pair[0], pair[1]])
                .collect(),
            friction,
            base: (mass, [x, y, z]),
            post: Weight {
                mass: post,
                centre: Vector::new(r, up),
            },
            heading,
        })
    }
}
