//! Ranges along x, sorted into bins of equal width: what lies near a place is found without looking at everything.

/// How far along x the boundary near a point is looked for at first, mm.
pub(super) const FIRST_REACH: f64 = 400.0;

/// Most bins.
const MOST: usize = 256;

/// Indices of ranges, by place.
#[derive(Debug, Clone, Default)]
pub(super) struct Bins {
    low: f64,
    high: f64,
    bins: Vec<Vec<usize>>,
}

impl Bins {
    /// Bins for ranges in their order; a range lies in every bin that it touches.
    pub fn new(ranges: &[(f64, f64)]) -> Self {
        let low = ranges.iter().map(|range| range.0).fold(f64::INFINITY, f64::min);
        let high = ranges.iter().map(|range| range.1).fold(f64::NEG_INFINITY, f64::max);
        let count = (ranges.len() / 4).clamp(1, MOST);
        let mut bins = Self { low, high, bins: vec![Vec::new(); count] };
        for (index, range) in ranges.iter().enumerate() {
            let (from, to) = (bins.bin(range.0), bins.bin(range.1));
            bins.bins.iter_mut().take(to + 1).skip(from).for_each(|bin| bin.push(index));
        }
        bins
    }

    /// The bin of a place; the first or the last for places beyond.
    fn bin(&self, x: f64) -> usize {
        let share = (x - self.low) / (self.high - self.low).max(f64::MIN_POSITIVE);
        ((share * self.bins.len() as f64) as usize).min(self.bins.len().saturating_sub(1))
    }

    /// Indices of all ranges that come to `low..high`, and maybe some more, in order.
    pub fn near(&self, low: f64, high: f64) -> Vec<usize> {
        let (from, to) = (self.bin(low), self.bin(high));
        let mut found: Vec<usize> = self.bins.iter().take(to + 1).skip(from).flatten().copied().collect();
        if from < to {
            found.sort_unstable();
            found.dedup();
        }
        found
    }

    /// Whether `low..high` reaches over all ranges.
    pub fn covers(&self, low: f64, high: f64) -> bool {
        low <= self.low && high >= self.high
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_that_is_near_is_found() {
        let ranges: Vec<(f64, f64)> = (0..100).map(|i| f64::from(i) * 10.0).map(|x| (x, x + 25.0)).collect();
        let bins = Bins::new(&ranges);
        for (low, high) in [(0.0, 0.0), (100.0, 131.0), (-50.0, -20.0), (995.0, 2000.0), (-1.0, 2000.0)] {
            let found = bins.near(low, high);
            let meets = |range: &(f64, f64)| range.0 <= high && range.1 >= low;
            let all = ranges.iter().enumerate().filter(|(_, range)| meets(range)).map(|(index, _)| index);
            assert!(all.into_iter().all(|index| found.contains(&index)), "{low} to {high}: {found:?}");
            assert!(found.windows(2).all(|pair| pair[0] < pair[1]));
        }
        assert!(bins.near(100.0, 131.0).len() < 20);
        assert!(bins.covers(-1.0, 2000.0) && !bins.covers(5.0, 2000.0));
    }

    #[test]
    fn nothing_and_one_place_do_no_harm() {
        assert!(Bins::new(&[]).near(0.0, 10.0).is_empty());
        assert_eq!(Bins::new(&[(5.0, 5.0), (5.0, 5.0)]).near(0.0, 10.0), [0, 1]);
    }
}
