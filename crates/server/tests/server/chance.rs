//! Chance for tests: the same numbers for the same start, every time.

use uuid::Uuid;

/// Numbers that follow from their start (SplitMix64, by Steele, Lea and Flood, 2014).
pub(crate) struct Chance(u64);

impl Chance {
    /// A start named in words.
    pub(crate) fn new(start: &str) -> Self {
        let mixed = start
            .bytes()
            .fold(0xcbf2_9ce4_8422_2325, |hash: u64, byte| {
                (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
            });
        Self(mixed)
    }

    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// Less than `end`, which is not 0.
    pub(crate) fn below(&mut self, end: u64) -> u64 {
        self.next() % end
    }

    pub(crate) fn one_in(&mut self, many: u64) -> bool {
        self.below(many) == 0
    }

    pub(crate) fn pick<'a, T>(&mut self, from: &'a [T]) -> &'a T {
        let place = self.below(from.len() as u64) as usize;
        &from[place]
    }

    pub(crate) fn uuid(&mut self) -> Uuid {
        Uuid::from_u64_pair(self.next(), self.next())
    }
}
