//! Numbers that look random and are always the same (splitmix64, Steele, Lea and Flood 2014).

/// A generator with a fixed start, so that every run is the same.
pub(super) struct Dice(pub u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    pub fn below(&mut self, count: usize) -> usize {
        (self.roll() % count.max(1) as u64) as usize
    }

    /// 0 to 1.
    pub fn share(&mut self) -> f64 {
        (self.roll() >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn pick<T: Copy>(&mut self, list: &[T], otherwise: T) -> T {
        list.get(self.below(list.len())).copied().unwrap_or(otherwise)
    }
}
