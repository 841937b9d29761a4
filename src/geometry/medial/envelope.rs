//! The lower envelope of quadratic functions over a range: which of many is lowest where.

use kurbo::common::solve_quadratic;

/// `c0 + c1 x + c2 x^2`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Quadratic(pub [f64; 3]);

impl Quadratic {
    /// Its value at a place.
    pub fn at(self, x: f64) -> f64 {
        let [c0, c1, c2] = self.0;
        c0 + x * (c1 + x * c2)
    }

    fn less(self, other: Self) -> Self {
        let ([a0, a1, a2], [b0, b1, b2]) = (self.0, other.0);
        Self([a0 - b0, a1 - b1, a2 - b2])
    }

    /// Where it is 0 between two places, in order.
    fn roots(self, from: f64, to: f64) -> impl Iterator<Item = f64> {
        let [c0, c1, c2] = self.0;
        let mut roots = solve_quadratic(c0, c1, c2);
        roots.sort_by(f64::total_cmp);
        roots.into_iter().filter(move |root| *root > from && *root < to)
    }
}

/// A stretch on which one function is lowest; `None` where there is none yet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stretch {
    pub from: f64,
    pub to: f64,
    pub lowest: Option<(usize, Quadratic)>,
}

/// Which of two functions counts where both are.
pub(super) enum Precedence {
    Old,
    New,
    Lower,
}

/// Stretches from one end of the range to the other.
#[derive(Debug, Default)]
pub(super) struct Envelope {
    stretches: Vec<Stretch>,
    /// Room for the next ones.
    spare: Vec<Stretch>,
    /// What is shorter than this is rounding.
    least: f64,
}

impl Envelope {
    /// Begins anew, without functions; what is shorter than `least` is rounding.
    pub fn reset(&mut self, (from, to): (f64, f64), least: f64) {
        self.stretches.clear();
        self.stretches.push(Stretch { from, to, lowest: None });
        self.least = least;
    }

    /// All stretches in their order.
    pub fn stretches(&self) -> impl ExactSizeIterator<Item = &Stretch> {
        self.stretches.iter()
    }

    /// Puts in a function that is defined between two places; whether it is lowest anywhere, without which it changes
    /// nothing. Where it is as high as what is there, that stays.
    pub fn put(
        &mut self,
        (from, to): (f64, f64),
        index: usize,
        new: Quadratic,
        precedence: impl Fn(usize) -> Precedence,
    ) -> bool {
        let part = |old: &Stretch| Stretch { from: old.from.max(from), to: old.to.min(to), ..*old };
        if to <= from || !self.stretches.iter().map(part).any(|part| self.is_below(part, new, &precedence)) {
            return false;
        }
        let mut stretches = std::mem::take(&mut self.spare);
        stretches.clear();
        for old in &self.stretches {
            let (low, high) = (old.from.max(from), old.to.min(to));
            if high - low <= self.least {
                push(&mut stretches, *old);
                continue;
            }
            push(&mut stretches, Stretch { to: low, ..*old });
            self.decide(&mut stretches, Stretch { from: low, to: high, ..*old }, (index, new), &precedence);
            push(&mut stretches, Stretch { from: high, ..*old });
        }
        self.spare = std::mem::replace(&mut self.stretches, stretches);
        true
    }

    /// Whether a function that is defined everywhere would be lowest anywhere.
    pub fn comes_below(&self, new: Quadratic, precedence: impl Fn(usize) -> Precedence) -> bool {
        self.stretches.iter().any(|stretch| self.is_below(*stretch, new, &precedence))
    }

    fn is_below(&self, old: Stretch, new: Quadratic, precedence: &impl Fn(usize) -> Precedence) -> bool {
        if old.to - old.from <= self.least {
            return false;
        }
        let Some((index, function)) = old.lowest else { return true };
        let above = function.less(new);
        let [_, slope, curve] = above.0;
        let ends = above.at(old.from) > 0.0 || above.at(old.to) > 0.0;
        // Between its ends it can be greater only about a summit.
        let summit = || curve < 0.0 && slope + 2.0 * curve * old.from > 0.0 && slope + 2.0 * curve * old.to < 0.0;
        (ends || summit()) && !matches!(precedence(index), Precedence::Old)
    }

    fn decide(
        &self,
        stretches: &mut Vec<Stretch>,
        old: Stretch,
        new: (usize, Quadratic),
        precedence: &impl Fn(usize) -> Precedence,
    ) {
        let taken = Stretch { lowest: Some(new), ..old };
        let Some((index, function)) = old.lowest else { return push(stretches, taken) };
        match precedence(index) {
            Precedence::Old => return push(stretches, old),
            Precedence::New => return push(stretches, taken),
            Precedence::Lower => {}
        }
        let above = function.less(new.1);
        let mut from = old.from;
        for to in above.roots(old.from, old.to).chain([old.to]) {
            let lower = above.at(f64::midpoint(from, to)) > 0.0 && to - from > self.least;
            push(stretches, Stretch { from, to, lowest: if lower { taken.lowest } else { old.lowest } });
            from = to;
        }
    }

    /// The stretches that are more than rounding.
    pub fn wide(&self) -> impl Iterator<Item = &Stretch> {
        self.stretches.iter().filter(|stretch| stretch.to - stretch.from > self.least)
    }
}

/// Stretches without those that are nothing but rounding; their room goes to both neighbours.
pub(super) fn settled(mut stretches: Vec<Stretch>, least: f64) -> Vec<Stretch> {
    let (Some(first), Some(last)) = (stretches.first().copied(), stretches.last().copied()) else {
        return Vec::new();
    };
    stretches.retain(|stretch| stretch.to - stretch.from > least && stretch.lowest.is_some());
    let mut settled: Vec<Stretch> = Vec::with_capacity(stretches.len());
    for mut stretch in stretches {
        match settled.last_mut() {
            Some(before) if before.lowest.map(|(index, _)| index) == stretch.lowest.map(|(index, _)| index) => {
                before.to = stretch.to;
                continue;
            }
            Some(before) => {
                let middle = f64::midpoint(before.to, stretch.from);
                (before.to, stretch.from) = (middle, middle);
            }
            None => stretch.from = first.from,
        }
        settled.push(stretch);
    }
    settled.last_mut().into_iter().for_each(|stretch| stretch.to = last.to);
    settled
}

/// Adds a stretch; one of the same function goes on.
pub(super) fn push(stretches: &mut Vec<Stretch>, stretch: Stretch) {
    if stretch.to <= stretch.from {
        return;
    }
    match stretches.last_mut() {
        Some(last) if last.lowest == stretch.lowest => last.to = stretch.to,
        _ => stretches.push(stretch),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::tolerance::{SAME_RADIUS, SHARE_OF_RANGE};

    fn of(envelope: Envelope) -> Vec<(f64, f64, usize)> {
        let told = |stretch: Stretch| (stretch.from, stretch.to, stretch.lowest.unwrap().0);
        let least = envelope.least;
        settled(envelope.stretches, least).into_iter().map(told).collect()
    }

    fn over(from: f64, to: f64) -> Envelope {
        let mut envelope = Envelope::default();
        envelope.reset((from, to), (to - from) * SHARE_OF_RANGE);
        envelope
    }

    #[test]
    fn the_lowest_of_lines_and_a_parabola_by_hand() {
        let mut envelope = over(0.0, 10.0);
        envelope.put((0.0, 10.0), 1, Quadratic([0.0, 1.0, 0.0]), |_| Precedence::Lower);
        envelope.put((0.0, 10.0), 2, Quadratic([10.0, -1.0, 0.0]), |_| Precedence::Lower);
        assert_eq!(of(envelope), [(0.0, 5.0, 1), (5.0, 10.0, 2)]);
        // 2 + (x - 5)^2 is below x and 10 - x between 5 - a and 5 + a with a^2 + a = 3.
        let mut envelope = over(0.0, 10.0);
        for (index, function) in [[0.0, 1.0, 0.0], [10.0, -1.0, 0.0], [27.0, -10.0, 1.0]].into_iter().enumerate() {
            envelope.put((0.0, 10.0), index, Quadratic(function), |_| Precedence::Lower);
        }
        let told = of(envelope);
        let a = (13.0_f64.sqrt() - 1.0) / 2.0;
        assert_eq!(told.iter().map(|stretch| stretch.2).collect::<Vec<_>>(), [0, 2, 1]);
        assert!((told[1].0 - 5.0 + a).abs() < SAME_RADIUS && (told[1].1 - 5.0 - a).abs() < SAME_RADIUS);
    }

    #[test]
    fn parts_of_the_range_and_precedence() {
        let mut envelope = over(0.0, 10.0);
        envelope.put((0.0, 10.0), 1, Quadratic([5.0, 0.0, 0.0]), |_| Precedence::Lower);
        // From 6 down to 2: lower than 5 somewhere, so it has the whole of its range.
        envelope.put((2.0, 4.0), 2, Quadratic([10.0, -2.0, 0.0]), |_| Precedence::New);
        envelope.put((3.0, 8.0), 3, Quadratic([1.0, 0.0, 0.0]), |old| {
            if old == 2 { Precedence::Old } else { Precedence::Lower }
        });
        assert_eq!(of(envelope), [(0.0, 2.0, 1), (2.0, 4.0, 2), (4.0, 8.0, 3), (8.0, 10.0, 1)]);
    }

    #[test]
    fn rounding_is_no_stretch() {
        let mut envelope = over(0.0, 1.0);
        envelope.put((0.0, 0.5), 1, Quadratic([1.0, 0.0, 0.0]), |_| Precedence::Lower);
        envelope.put((0.5 + f64::EPSILON, 1.0), 2, Quadratic([1.0, 0.0, 0.0]), |_| Precedence::Lower);
        let told = of(envelope);
        assert_eq!(told.len(), 2);
        assert_eq!(told[0].1, told[1].0);
    }
}
