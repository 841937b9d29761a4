//! Chance that is the same every time.

/// Numbers that look random and are always the same (xorshift, Marsaglia 2003).
#[derive(Debug, Clone, Copy)]
pub(super) struct Sequence(pub u64);

impl Sequence {
    pub fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    /// A share from 0 to 1.
    pub fn share(&mut self) -> f64 {
        const STEPS: u32 = 1 << 20;
        f64::from((self.next() >> 44) as u32) / f64::from(STEPS)
    }

    pub fn below(&mut self, end: usize) -> usize {
        usize::try_from((self.next() >> 33) % (end.max(1) as u64)).unwrap_or(0)
    }
}
