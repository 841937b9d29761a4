//! Cells of a medial axis: for each side, and for each corner that discs roll round, the places nearer to it than to
//! anything else, bounded by the arcs along which something else is as near.
//!
//! A disc that touches a side at a foot grows until it touches something else; over the feet its radius is the lower
//! envelope of one quadratic function for each other side and corner. A disc that touches a corner likewise, over the
//! half angle of the direction to its centre. So the arcs round a cell come out of one envelope, in their order.

use super::border::{Border, Side, Turn, Vector, cross, dot, steps};
use super::envelope::{Envelope, Precedence, Quadratic, Stretch};
use super::near::Near;
use crate::base::tolerance::SAME_WAY;
use i_overlay::i_float::int::point::IntPoint;
use kurbo::Rect;
use std::f64::consts::PI;

/// An end of an arc as a cell sees it.
#[derive(Debug, Clone, Copy)]
pub(super) struct CellEnd {
    /// Its place, in steps.
    pub at: (f64, f64),
    pub radius: f64,
    /// The side at whose end it lies, where two sides close in and the radius goes to nothing.
    pub closed: Option<usize>,
}

/// A piece of the rim of a cell: the numbers of the two things that are equally near, and its ends.
#[derive(Debug, Clone, Copy)]
pub(super) struct CellArc {
    pub between: (usize, usize),
    pub ends: [CellEnd; 2],
}

fn along(a: Vector, b: Vector) -> f64 {
    a.0 * b.0 + a.1 * b.1
}

fn left(v: Vector) -> Vector {
    (-v.1, v.0)
}

/// What a disc that touches its own thing at one place can touch besides.
trait Cell {
    /// The radius at a place of the range, by a function of the envelope.
    fn radius(&self, at: f64, function: Quadratic) -> f64;
    /// The centre of the disc.
    fn centre(&self, at: f64, radius: f64) -> Vector;
    /// The function of a disc that touches the line of a side too; `None` if no disc can.
    fn toward_side(&self, side: &Side) -> Option<Quadratic>;
    /// Where the disc touches that line between the ends of the side.
    fn touching(&self, side: &Side) -> [(f64, f64); 2];
    /// The function of a disc that touches a corner too.
    fn toward_corner(&self, corner: IntPoint<i32>) -> Option<Quadratic>;
}

/// A range without places.
const NOWHERE: (f64, f64) = (0.0, 0.0);

/// The cell of a side, over the foot of the disc, in steps from the side's start.
struct SideCell<'a>(&'a Side);

impl Cell for SideCell<'_> {
    fn radius(&self, at: f64, function: Quadratic) -> f64 {
        function.at(at)
    }

    fn centre(&self, at: f64, radius: f64) -> Vector {
        let x = self.0.unit;
        let y = left(x);
        (f64::from(self.0.a.x) + x.0 * at + y.0 * radius, f64::from(self.0.a.y) + x.1 * at + y.1 * radius)
    }

    fn toward_side(&self, other: &Side) -> Option<Quadratic> {
        let own = self.0;
        let ahead = |p| cross(own.run, steps(own.a, p)) > 0;
        if !ahead(other.a) && !ahead(other.b) {
            return None;
        }
        let lean = Lean::new(own, other)?;
        Some(Quadratic([lean.start, lean.rise, 0.0]))
    }

    fn touching(&self, other: &Side) -> [(f64, f64); 2] {
        let Some(lean) = Lean::new(self.0, other) else { return [NOWHERE; 2] };
        let (from, to) = ((lean.far - other.length).max(0.0), lean.far.min(self.0.length));
        [risen(lean.rise, lean.start, from, to).unwrap_or(NOWHERE), NOWHERE]
    }

    fn toward_corner(&self, corner: IntPoint<i32>) -> Option<Quadratic> {
        let own = self.0;
        let to = steps(own.a, corner);
        let (x, y) = (dot(own.run, to) as f64 / own.length, cross(own.run, to) as f64 / own.length);
        (y > 0.0).then(|| Quadratic([(x * x + y * y) / (2.0 * y), -x / y, 1.0 / (2.0 * y)]))
    }
}

/// How the discs between two lines grow along the first: radius `start + rise x`.
struct Lean {
    start: f64,
    rise: f64,
    /// The foot at which they touch the start of the other side.
    far: f64,
}

impl Lean {
    fn new(own: &Side, other: &Side) -> Option<Self> {
        let lengths = own.length * other.length;
        let (sine, cosine) = (cross(own.run, other.run) as f64 / lengths, dot(own.run, other.run) as f64 / lengths);
        let lean = if cosine > 0.0 { sine * sine / (1.0 + cosine) } else { 1.0 - cosine };
        if lean < SAME_WAY {
            return None;
        }
        let back = steps(other.a, own.a);
        let above = cross(other.run, back) as f64 / other.length;
        let beside = dot(other.run, back) as f64 / other.length;
        let (rise, start) = (-sine / lean, above / lean);
        // Tangents from where the two lines meet are equally long: the touching points move towards each other alike.
        Some(Self { start, rise, far: beside + sine * start })
    }
}

/// The part of a range on which a line is not below 0.
fn risen(rise: f64, start: f64, from: f64, to: f64) -> Option<(f64, f64)> {
    let (first, last) = (start + rise * from, start + rise * to);
    if from >= to || (first <= 0.0 && last <= 0.0) {
        return None;
    }
    let zero = -start / rise;
    Some(if first < 0.0 {
        (zero.clamp(from, to), to)
    } else if last < 0.0 {
        (from, zero.clamp(from, to))
    } else {
        (from, to)
    })
}

/// The cell of a corner, over the tangent of half the angle from the middle of its fan. The envelope is of the negative
/// inverse of the radius, times 1 + the square of that tangent.
struct CornerCell {
    corner: IntPoint<i32>,
    /// The direction in the middle of the fan.
    middle: Vector,
    /// A quarter of the fan's angle.
    quarter: f64,
}

impl CornerCell {
    /// The fan of directions between the normals of two sides.
    fn new(before: &Side, after: &Side) -> Self {
        let angle =
            (-cross(before.run, after.run) as f64).atan2(dot(before.run, after.run) as f64).rem_euclid(2.0 * PI);
        let normal = left(before.unit);
        let (sin, cos) = (-angle / 2.0).sin_cos();
        let middle = (normal.0 * cos - normal.1 * sin, normal.0 * sin + normal.1 * cos);
        Self { corner: before.b, middle, quarter: angle / 4.0 }
    }

    fn range(&self) -> (f64, f64) {
        let most = self.quarter.tan();
        (-most, most)
    }

    /// Parts along the middle of the fan and across it.
    fn turned(&self, v: Vector) -> Vector {
        (along(v, self.middle), along(v, left(self.middle)))
    }
}

impl Cell for CornerCell {
    fn radius(&self, at: f64, function: Quadratic) -> f64 {
        let inverse = -function.at(at);
        if inverse > 0.0 { (1.0 + at * at) / inverse } else { f64::INFINITY }
    }

    fn centre(&self, at: f64, radius: f64) -> Vector {
        let square = 1.0 + at * at;
        let (cos, sin) = ((1.0 - at * at) / square, 2.0 * at / square);
        let (x, y) = (self.middle, left(self.middle));
        let u = (x.0 * cos + y.0 * sin, x.1 * cos + y.1 * sin);
        (f64::from(self.corner.x) + u.0 * radius, f64::from(self.corner.y) + u.1 * radius)
    }

    fn toward_side(&self, side: &Side) -> Option<Quadratic> {
        let height = cross(side.run, steps(side.a, self.corner)) as f64 / side.length;
        let (a, b) = self.turned(left(side.unit));
        (height > 0.0).then(|| Quadratic([(a - 1.0) / height, 2.0 * b / height, -(1.0 + a) / height]))
    }

    fn touching(&self, side: &Side) -> [(f64, f64); 2] {
        let to = steps(side.a, self.corner);
        let (height, foot) = (cross(side.run, to) as f64 / side.length, dot(side.run, to) as f64 / side.length);
        let (a, b) = self.turned(left(side.unit));
        // Half the angle from the way straight to the line has the tangent foot / height.
        let toward = (-b).atan2(-a) / 2.0;
        let (from, to) = (toward + (-foot / height).atan(), toward + ((side.length - foot) / height).atan());
        let again = if toward > 0.0 { -PI } else { PI };
        [0.0, again].map(|turn| {
            let (from, to) = ((from + turn).max(-self.quarter), (to + turn).min(self.quarter));
            if from < to { (from.tan(), to.tan()) } else { NOWHERE }
        })
    }

    fn toward_corner(&self, corner: IntPoint<i32>) -> Option<Quadratic> {
        let to = steps(self.corner, corner);
        let square = dot(to, to) as f64;
        let (a, b) = self.turned((to.0 as f64 * 2.0 / square, to.1 as f64 * 2.0 / square));
        (square > 0.0).then(|| Quadratic([-a, -2.0 * b, a]))
    }
}

/// All arcs, each as both of its cells see it.
pub(super) fn arcs(border: &Border) -> Vec<CellArc> {
    let mut near = Near::new(border);
    let mut arcs = Vec::with_capacity(border.sides.len() * 6);
    let mut seeds = Vec::new();
    for (index, side) in border.sides.iter().enumerate() {
        let cell = SideCell(side);
        seeds.extend([side.next, side.before]);
        let stretches = stretches(&cell, (index, [side.a, side.b]), (0.0, side.length), border, &mut near, &seeds);
        let closed = [closes(border, side.before), closes(border, index)];
        arcs.extend(rim(&cell, index, &stretches, closed));
        seeds = found(&stretches);
    }
    for (number, (corner, arriving)) in border.corners.iter().enumerate() {
        for before in arriving.iter().filter(|before| border.turn(**before) == Turn::Outer) {
            let Some(before) = border.side(*before) else { continue };
            let Some(after) = border.side(before.next) else { continue };
            let cell = CornerCell::new(before, after);
            let index = border.sides.len() + number;
            let stretches = stretches(&cell, (index, [*corner; 2]), cell.range(), border, &mut near, &seeds);
            arcs.extend(rim(&cell, index, &stretches, [None; 2]));
            seeds = found(&stretches);
        }
    }
    arcs
}

/// What bounds a cell, which is a good guess for the next.
fn found(stretches: &[Stretch]) -> Vec<usize> {
    stretches.iter().filter_map(|stretch| stretch.lowest.map(|(index, _)| index)).collect()
}

fn closes(border: &Border, side: usize) -> Option<usize> {
    (border.turn(side) == Turn::Inner).then_some(side)
}

/// What lies nearest over the range of a cell.
fn stretches(
    cell: &impl Cell,
    (own, ends): (usize, [IntPoint<i32>; 2]),
    range: (f64, f64),
    border: &Border,
    near: &mut Near,
    seeds: &[usize],
) -> Vec<Stretch> {
    let mut envelope = Envelope::new(range.0, range.1);
    let mut open = covered(cell, &envelope);
    near.visit(ends, seeds, |index| {
        if index != own && meet(cell, index, border, &mut envelope) {
            open = covered(cell, &envelope);
        }
        open
    });
    envelope.settled()
}

/// What all discs lie in so far. How far a disc reaches in any direction grows to one end of its stretch or the other, so
/// the discs at the ends say all.
fn covered(cell: &impl Cell, envelope: &Envelope) -> Rect {
    let mut all = Rect::new(f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY);
    for stretch in envelope.wide() {
        for at in [stretch.from, stretch.to] {
            let radius = stretch.lowest.map_or(f64::INFINITY, |(_, function)| cell.radius(at, function));
            if !radius.is_finite() {
                return Rect::new(f64::NEG_INFINITY, f64::NEG_INFINITY, f64::INFINITY, f64::INFINITY);
            }
            let (x, y) = cell.centre(at, radius);
            let wide = radius.abs() + 1.0;
            all = Rect::new(all.x0.min(x - wide), all.y0.min(y - wide), all.x1.max(x + wide), all.y1.max(y + wide));
        }
    }
    all
}

/// Puts one thing into the envelope; whether that changed it.
fn meet(cell: &impl Cell, index: usize, border: &Border, envelope: &mut Envelope) -> bool {
    let count = border.sides.len();
    let belongs = |side: usize, corner: usize| {
        corner.checked_sub(count).and_then(|corner| border.at.get(corner)).is_some_and(|sides| sides.contains(&side))
    };
    // A disc that touches a side between its ends keeps clear of the corners there: nothing to compare.
    let precedence = |old: usize| {
        if belongs(index, old) {
            Precedence::New
        } else if belongs(old, index) {
            Precedence::Old
        } else {
            Precedence::Lower
        }
    };
    let (function, ranges) = match index.checked_sub(count) {
        None => {
            let Some(side) = border.side(index) else { return false };
            let Some(function) = cell.toward_side(side) else { return false };
            if !envelope.comes_below(function, precedence) {
                return false;
            }
            (function, cell.touching(side))
        }
        Some(corner) => {
            let Some((corner, _)) = border.corners.get(corner) else { return false };
            let Some(function) = cell.toward_corner(*corner) else { return false };
            (function, [(f64::NEG_INFINITY, f64::INFINITY), NOWHERE])
        }
    };
    ranges.map(|range| envelope.put(range, index, function, precedence)).contains(&true)
}

/// The arcs round a cell.
fn rim(cell: &impl Cell, own: usize, stretches: &[Stretch], closed: [Option<usize>; 2]) -> Vec<CellArc> {
    let end = |at: f64, function: Quadratic, closed: Option<usize>| {
        let radius = if closed.is_some() { 0.0 } else { cell.radius(at, function).max(0.0) };
        CellEnd { at: cell.centre(at, radius), radius, closed }
    };
    let last = stretches.len().saturating_sub(1);
    let arc = |(index, stretch): (usize, &Stretch)| {
        let (other, function) = stretch.lowest?;
        let first = end(stretch.from, function, closed[0].filter(|_| index == 0));
        let last = end(stretch.to, function, closed[1].filter(|_| index == last));
        let known = first.radius.is_finite() && last.radius.is_finite();
        known.then_some(CellArc { between: (own.min(other), own.max(other)), ends: [first, last] })
    };
    stretches.iter().enumerate().filter_map(arc).collect()
}
