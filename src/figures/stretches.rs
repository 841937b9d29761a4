//! Stretches of a line: what is left of one when others are taken from it.

use crate::base::tolerance::SAME_LENGTH;

/// From, to; mm.
pub(crate) type Stretch = (f64, f64);

/// What is left of a stretch without all that is taken, from low to high; pieces no longer than [`SAME_LENGTH`] are
/// nothing.
pub(crate) fn without(whole: Stretch, taken: impl IntoIterator<Item = Stretch>) -> Vec<Stretch> {
    let mut taken: Vec<Stretch> = taken.into_iter().filter(|stretch| long(*stretch) > SAME_LENGTH).collect();
    taken.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut left = Vec::new();
    let mut from = whole.0;
    for (low, high) in taken {
        if low.min(whole.1) - from > SAME_LENGTH {
            left.push((from, low.min(whole.1)));
        }
        from = from.max(high);
    }
    if whole.1 - from > SAME_LENGTH {
        left.push((from, whole.1));
    }
    left
}

/// The part of a stretch that all of `parts` together cover, from low to high, joined where they touch.
pub(crate) fn within(whole: Stretch, parts: impl IntoIterator<Item = Stretch>) -> Vec<Stretch> {
    without(whole, without(whole, parts))
}

/// How long a stretch is.
pub(crate) fn long(stretch: Stretch) -> f64 {
    stretch.1 - stretch.0
}

/// The longest of some stretches; the first of equals.
pub(crate) fn longest(stretches: impl IntoIterator<Item = Stretch>) -> Option<Stretch> {
    stretches.into_iter().reduce(|best, next| if long(next) > long(best) + SAME_LENGTH { next } else { best })
}

/// Whether two stretches have more than a point in common.
pub(crate) fn meet(a: Stretch, b: Stretch) -> bool {
    a.1.min(b.1) - a.0.max(b.0) > SAME_LENGTH
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_left_and_what_is_covered() {
        let taken = [(80.0, 120.0), (10.0, 20.0), (15.0, 30.0), (40.0, 40.0005), (-5.0, 2.0)];
        assert_eq!(without((0.0, 100.0), taken), [(2.0, 10.0), (30.0, 80.0)]);
        assert_eq!(within((0.0, 100.0), taken), [(0.0, 2.0), (10.0, 30.0), (80.0, 100.0)]);
        assert_eq!(without((0.0, 100.0), []), [(0.0, 100.0)]);
        assert_eq!(without((0.0, 100.0), [(200.0, 300.0)]), [(0.0, 100.0)]);
        assert_eq!(without((0.0, 100.0), [(-1.0, 101.0)]), []);
    }

    #[test]
    fn the_longest_is_the_first_of_equals() {
        assert_eq!(longest([(0.0, 10.0), (20.0, 50.0), (60.0, 90.0)]), Some((20.0, 50.0)));
        assert_eq!(longest([]), None);
        assert!(meet((0.0, 10.0), (9.0, 12.0)) && !meet((0.0, 10.0), (10.0, 12.0)));
    }
}
