//! The boundary that a medial axis is worked out of: edges on the grid, corners, and how they follow each other.

use i_overlay::i_float::int::point::IntPoint;
use kurbo::Rect;
use std::cmp::Ordering;

/// An edge on the grid.
pub(super) type Edge = (IntPoint<i32>, IntPoint<i32>);

/// A vector on the grid, in whole steps. Corners lie within 1e9 steps, so products of two and their sum fit.
pub(super) type Steps = (i64, i64);

/// A vector of any length.
pub(super) type Vector = (f64, f64);

pub(super) fn steps(from: IntPoint<i32>, to: IntPoint<i32>) -> Steps {
    (i64::from(to.x) - i64::from(from.x), i64::from(to.y) - i64::from(from.y))
}

pub(super) fn dot(a: Steps, b: Steps) -> i64 {
    a.0 * b.0 + a.1 * b.1
}

pub(super) fn cross(a: Steps, b: Steps) -> i64 {
    a.0 * b.1 - a.1 * b.0
}

/// An edge of the boundary, the region on its left.
#[derive(Debug, Clone, Copy)]
pub(super) struct Side {
    pub a: IntPoint<i32>,
    pub b: IntPoint<i32>,
    pub run: Steps,
    pub length: f64,
    /// Its direction.
    pub unit: Vector,
    /// The side that follows round the region.
    pub next: usize,
    /// The side before it.
    pub before: usize,
}

impl Side {
    /// Whether anything in a rectangle whose corners are on the grid lies on the region's side of this one's line.
    pub fn faces(&self, bounds: &Rect) -> bool {
        let x = if self.run.1 > 0 { bounds.x0 } else { bounds.x1 };
        let y = if self.run.0 > 0 { bounds.y1 } else { bounds.y0 };
        cross(self.run, (x as i64 - i64::from(self.a.x), y as i64 - i64::from(self.a.y))) > 0
    }
}

/// How the region lies about the end of a side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Turn {
    /// Less than half a turn of region: a disc cannot come to the corner.
    Inner,
    Straight,
    /// More than half a turn: discs roll round the corner.
    Outer,
}

/// Sides in their order, and the corners that discs touch.
#[derive(Debug, Clone, Default)]
pub(super) struct Border {
    pub sides: Vec<Side>,
    /// Each with the sides that end there, of every turn that is not an inner one.
    pub corners: Vec<(IntPoint<i32>, Vec<usize>)>,
    /// The sides that come to a corner, by its number.
    pub at: Vec<Vec<usize>>,
    /// The corner at the end of a side, by the side's number.
    pub ending: Vec<Option<usize>>,
}

impl Border {
    /// The border of edges that touch at their ends only.
    pub fn new(edges: &[Edge]) -> Self {
        let side = |(a, b): &Edge| {
            let run = steps(*a, *b);
            let (x, y) = (run.0 as f64, run.1 as f64);
            let length = x.hypot(y);
            Side { a: *a, b: *b, run, length, unit: (x / length, y / length), next: 0, before: 0 }
        };
        let mut border =
            Self { sides: edges.iter().map(side).collect(), ending: vec![None; edges.len()], ..Self::default() };
        let by = |place: fn(&Side) -> (i32, i32)| {
            let place = |index: &usize| border.side(*index).map(place);
            let mut order: Vec<usize> = (0..edges.len()).collect();
            order.sort_unstable_by_key(|index| (place(index), *index));
            order
        };
        let (arriving, leaving) = (by(|side| (side.b.x, side.b.y)), by(|side| (side.a.x, side.a.y)));
        let end = |index: &usize, edges: &[Edge]| edges.get(*index).map(|(_, b)| (b.x, b.y));
        let mut leaving = leaving.as_slice();
        for arriving in arriving.chunk_by(|a, b| end(a, edges) == end(b, edges)) {
            let Some(place) = arriving.first().and_then(|index| end(index, edges)) else { continue };
            let start = |index: &usize| edges.get(*index).map_or((i32::MAX, i32::MAX), |(a, _)| (a.x, a.y));
            let (_, rest) = leaving.split_at(leaving.iter().take_while(|index| start(index) < place).count());
            let (here, rest) = rest.split_at(rest.iter().take_while(|index| start(index) == place).count());
            leaving = rest;
            for index in arriving {
                border.follow(*index, here);
            }
            let rolled: Vec<usize> =
                arriving.iter().copied().filter(|index| border.turn(*index) != Turn::Inner).collect();
            if !rolled.is_empty() {
                for side in &rolled {
                    border.ending.get_mut(*side).into_iter().for_each(|corner| *corner = Some(border.corners.len()));
                }
                border.corners.push((IntPoint::new(place.0, place.1), rolled));
                border.at.push(arriving.iter().chain(here).copied().collect());
            }
        }
        border
    }

    /// Finds the side that follows: the first that leaves, clockwise from the way back, for the region lies between them.
    fn follow(&mut self, index: usize, leaving: &[usize]) {
        let Some(back) = self.sides.get(index).map(|side| (-side.run.0, -side.run.1)) else { return };
        let run = |index: &usize| self.sides.get(*index).map_or((0, 0), |side| side.run);
        let Some(next) = leaving.iter().copied().min_by(|a, b| clockwise(back, run(a), run(b))) else { return };
        if let Some(side) = self.sides.get_mut(index) {
            side.next = next;
        }
        if let Some(side) = self.sides.get_mut(next) {
            side.before = index;
        }
    }

    /// The side with this number.
    pub fn side(&self, index: usize) -> Option<&Side> {
        self.sides.get(index)
    }

    /// The turn at the end of a side.
    pub fn turn(&self, index: usize) -> Turn {
        let Some(side) = self.side(index) else { return Turn::Straight };
        let Some(next) = self.side(side.next) else { return Turn::Straight };
        match cross(side.run, next.run).cmp(&0) {
            Ordering::Greater => Turn::Inner,
            Ordering::Less => Turn::Outer,
            Ordering::Equal if dot(side.run, next.run) > 0 => Turn::Straight,
            Ordering::Equal => Turn::Outer,
        }
    }

    /// How many rings of sides run round a part of the region from outside, and how many round a hole in one.
    pub fn rings(&self) -> (usize, usize) {
        let mut seen = vec![false; self.sides.len()];
        let (mut outer, mut inner) = (0, 0);
        for start in 0..self.sides.len() {
            let (mut at, mut area) = (start, 0_i128);
            let origin = self.side(start).map_or(IntPoint::new(0, 0), |side| side.a);
            let mut long = false;
            while let Some(known) = seen.get_mut(at).filter(|known| !**known) {
                *known = true;
                long = true;
                let Some(side) = self.side(at) else { break };
                area += i128::from(cross(steps(origin, side.a), steps(origin, side.b)));
                at = side.next;
            }
            if long {
                (outer, inner) = if area > 0 { (outer + 1, inner) } else { (outer, inner + 1) };
            }
        }
        (outer, inner)
    }
}

/// Which of two directions comes first, clockwise from a third.
fn clockwise(from: Steps, a: Steps, b: Steps) -> Ordering {
    // 0 for what lies less than half a turn clockwise, 1 for the rest; the direction itself comes last.
    let half = |v: Steps| match cross(from, v).cmp(&0) {
        Ordering::Less => 0,
        Ordering::Equal if dot(from, v) < 0 => 1,
        Ordering::Equal => 3,
        Ordering::Greater => 2,
    };
    half(a).cmp(&half(b)).then_with(|| cross(a, b).cmp(&0))
}
