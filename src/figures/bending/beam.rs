//! A beam on its supports: each stretch between two of them as a simply supported beam.

use crate::geometry::{Axis, Box3};

/// Slices of a span in which a spread force acts as a point force, and places where the sag is looked at.
const SLICES: usize = 64;

/// Every so many of these places are looked at first.
const COARSE: usize = 4;

/// A place where a beam rests.
#[derive(Debug, Clone, Copy)]
pub(super) struct Rest<B> {
    pub at: Box3,
    pub on: B,
}

/// A straight piece that spans along an axis.
#[derive(Debug, Clone)]
pub(super) struct Beam<B> {
    pub axis: Axis,
    /// Its ends, mm.
    pub range: (f64, f64),
    /// E I, N mm2.
    pub stiffness: f64,
    pub rests: Vec<Rest<B>>,
}

/// A force spread evenly over a range, N.
pub(super) type Spread = ((f64, f64), f64);

impl<B: Copy> Beam<B> {
    /// Where it rests, along its axis: places that touch or overlap are one.
    fn places(&self) -> Vec<(f64, f64)> {
        let mut all: Vec<(f64, f64)> = self.rests.iter().map(|rest| rest.at.range(self.axis)).collect();
        all.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut places: Vec<(f64, f64)> = Vec::new();
        for (low, high) in all {
            match places.last_mut() {
                Some(last) if low <= last.1 => last.1 = last.1.max(high),
                _ => places.push((low, high)),
            }
        }
        places
    }

    /// The span that bends most for its length, and its sag, mm; `None` where it does not rest on both sides of its middle.
    pub fn worst_span(&self, forces: &[Spread]) -> Option<(f64, f64)> {
        let places = self.places();
        let middle = f64::midpoint(self.range.0, self.range.1);
        let (first, last) = (places.first()?, places.last()?);
        if first.0 >= middle || last.1 <= middle {
            return None;
        }
        let spans = places.windows(2).filter_map(|pair| match pair {
            [a, b] if b.0 > a.1 => Some((a.1, b.0)),
            _ => None,
        });
        let bent = spans.map(|span| (span.1 - span.0, self.sag(span, forces)));
        let stiff = (self.range.1 - self.range.0, 0.0);
        Some(bent.max_by(|a, b| (a.1 / a.0).total_cmp(&(b.1 / b.0))).unwrap_or(stiff))
    }

    /// Sag over span where it bends most; infinite where nothing holds both ends.
    pub fn softness(&self, forces: &[Spread]) -> f64 {
        self.worst_span(forces).map_or(f64::INFINITY, |(span, sag)| sag / span)
    }

    /// The greatest sag of a simply supported span: point forces by `P b x (L^2 - b^2 - x^2) / (6 L E I)` up to the force,
    /// spread ones in slices.
    fn sag(&self, (from, to): (f64, f64), forces: &[Spread]) -> f64 {
        let length = to - from;
        let points: Vec<(f64, f64)> = forces.iter().flat_map(|force| slices(force, (from, to))).collect();
        let at = |x: f64| {
            let one = |(place, newton): &(f64, f64)| {
                let a = place - from;
                let (x, b) = if x <= a { (x, length - a) } else { (length - x, a) };
                newton * b * x * (length.powi(2) - b.powi(2) - x.powi(2)) / (6.0 * length * self.stiffness)
            };
            points.iter().map(one).sum::<f64>()
        };
        let sags = |indices: std::ops::Range<usize>, step: usize| {
            let sag = |index: usize| (at(length * index as f64 / SLICES as f64), index);
            indices.step_by(step).map(sag).fold((0.0, 0), |best, one| if one.0 > best.0 { one } else { best })
        };
        // It has one summit, so around the greatest of some it is looked for among all.
        let (_, near) = sags(COARSE..SLICES, COARSE);
        sags(near.saturating_sub(COARSE) + 1..near + COARSE, 1).0
    }

    /// What each rest takes of the forces, N: between two places by the lever, beyond the last one all.
    pub fn handed_down(&self, forces: &[Spread]) -> Vec<(Rest<B>, f64)> {
        let places = self.places();
        let mut taken = vec![0.0; places.len()];
        let mut give = |place: usize, newton: f64| taken.iter_mut().skip(place).take(1).for_each(|sum| *sum += newton);
        for (at, newton) in forces.iter().flat_map(|force| slices(force, self.range)) {
            let after = places.iter().position(|place| at <= place.1).unwrap_or(places.len());
            match (after.checked_sub(1).and_then(|before| places.get(before)), places.get(after)) {
                (Some(before), Some(next)) if at < next.0 => {
                    let share = (at - before.1) / (next.0 - before.1);
                    give(after, newton * share);
                    give(after - 1, newton * (1.0 - share));
                }
                (_, Some(_)) => give(after, newton),
                (Some(_), None) => give(after - 1, newton),
                (None, None) => {}
            }
        }
        let of = |rest: &Rest<B>| {
            let (low, high) = rest.at.range(self.axis);
            places.iter().position(|place| low >= place.0 && high <= place.1)
        };
        let breadth = |rest: &Rest<B>| {
            let (first, second) = self.axis.plane();
            let level = if first == Axis::Z { second } else { first };
            let (low, high) = rest.at.range(level);
            (high - low).max(1.0)
        };
        let whole = |place: usize| self.rests.iter().filter(|rest| of(rest) == Some(place)).map(breadth).sum::<f64>();
        let share = |rest: &Rest<B>| {
            let place = of(rest)?;
            Some((*rest, taken.get(place)? * breadth(rest) / whole(place).max(1.0)))
        };
        self.rests.iter().filter_map(share).collect()
    }
}

/// A spread force as point forces within a range.
fn slices(&((low, high), newton): &Spread, (from, to): (f64, f64)) -> Vec<(f64, f64)> {
    if high - low < 1.0 {
        let at = f64::midpoint(low, high);
        return if at >= from && at <= to { vec![(at, newton)] } else { Vec::new() };
    }
    let (a, b) = (low.max(from), high.min(to));
    if b <= a {
        return Vec::new();
    }
    let step = (b - a) / SLICES as f64;
    let each = newton * step / (high - low);
    (0..SLICES).map(|index| (a + step * (index as f64 + 0.5), each)).collect()
}
