//! Cells of a medial axis: for each side, and for each corner that discs roll round, the places nearer to it than to
//! anything else, bounded by the arcs along which something else is as near.
//!
//! A disc that touches a side at a foot grows until it touches something else; over the feet its radius is the lower
//! envelope of one quadratic function for each other side and corner. A disc that touches a corner likewise, over the
//! half angle of the direction to its centre. So the arcs round a cell come out of one envelope, in their order.

use super::border::{Border, Side, Turn};
use super::cover::Cover;
use super::envelope::{Envelope, Precedence, Quadratic, Stretch, push, settled};
use super::touch::{Cell, CornerCell, NOWHERE, SideCell};
use crate::base::tolerance::SHARE_OF_RANGE;
use crate::geometry::places::{Look, Places, apart};
use i_overlay::i_float::int::point::IntPoint;
use kurbo::Rect;
use std::ops::Range;

/// A range with more stretches is worked out in halves, so that one more thing is held against few.
const CROWDED: usize = 24;

/// The least share of a range that is halved once more.
const SHORT: f64 = 1e3 * SHARE_OF_RANGE;

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

/// All arcs, each as both of its cells see it: those of the sides in their order, then those of the corners.
///
/// The cells are worked out one after the other round the region, for the disc at the end of one is at the start of the
/// next.
pub(super) fn arcs(border: &Border) -> Vec<CellArc> {
    let mut grower = Grower::new(border);
    let mut arcs = Vec::with_capacity(border.sides.len() * 6);
    // The arcs of each side, and of the corner at its end.
    let mut rims: Vec<Option<[Range<usize>; 2]>> = vec![None; border.sides.len()];
    for start in 0..border.sides.len() {
        let mut index = start;
        while let (Some(side), Some(rim)) = (border.side(index), rims.get_mut(index).filter(|rim| rim.is_none())) {
            let from = arcs.len();
            grower.side(index, side, &mut arcs);
            let middle = arcs.len();
            grower.corner(index, side, &mut arcs);
            *rim = Some([from..middle, middle..arcs.len()]);
            index = side.next;
        }
    }
    let of_sides = rims.iter().flatten().map(|[side, _]| side);
    let arriving = border.corners.iter().flat_map(|(_, arriving)| arriving);
    let of_corners = arriving.filter_map(|side| rims.get(*side)?.as_ref().map(|[_, corner]| corner));
    of_sides.chain(of_corners).filter_map(|rim| arcs.get(rim.clone())).flatten().copied().collect()
}

fn closes(border: &Border, side: usize) -> Option<usize> {
    (border.turn(side) == Turn::Inner).then_some(side)
}

/// Works out one cell after the other.
struct Grower<'a> {
    border: &'a Border,
    /// Sides, each with the corner at its end.
    places: Places,
    envelope: Envelope,
    cover: Cover,
    /// In which look each was taken last.
    taken: Vec<usize>,
    look: usize,
    /// What is looked at first: what bounds a cell is a good guess for the next.
    seeds: Vec<usize>,
}

impl<'a> Grower<'a> {
    fn new(border: &'a Border) -> Self {
        let point = |p: IntPoint<i32>| (f64::from(p.x), f64::from(p.y));
        let bounds = border.sides.iter().map(|side| Rect::from_points(point(side.a), point(side.b)));
        let places = Places::new(bounds.collect());
        let taken = vec![0; border.sides.len() + border.corners.len()];
        let (envelope, cover) = (Envelope::default(), Cover::default());
        Self { border, places, envelope, cover, taken, look: 0, seeds: Vec::new() }
    }

    /// Adds the arcs round the cell of a side.
    fn side(&mut self, index: usize, side: &Side, arcs: &mut Vec<CellArc>) {
        let cell = SideCell(side);
        self.seeds.extend([side.next, side.before]);
        let stretches = self.stretches(&cell, index, (0.0, side.length));
        let closed = [closes(self.border, side.before), closes(self.border, index)];
        rim(&cell, index, &stretches, closed, arcs);
    }

    /// Adds the arcs round the cell of the corner at the end of a side, if discs roll round it.
    fn corner(&mut self, index: usize, before: &Side, arcs: &mut Vec<CellArc>) {
        let corner = self.border.ending.get(index).copied().flatten();
        if let (Some(corner), Turn::Outer) = (corner, self.border.turn(index))
            && let Some(after) = self.border.side(before.next)
        {
            let cell = CornerCell::new(before, after);
            let own = self.border.sides.len() + corner;
            let stretches = self.stretches(&cell, own, cell.range());
            rim(&cell, own, &stretches, [None; 2], arcs);
        }
    }

    /// What lies nearest over the range of a cell.
    fn stretches(&mut self, cell: &impl Cell, own: usize, range: (f64, f64)) -> Vec<Stretch> {
        let length = range.1 - range.0;
        let mut all = Vec::new();
        let mut ranges = vec![range];
        while let Some((from, to)) = ranges.pop() {
            let whole = self.grow(cell, own, (from, to), length);
            let middle = f64::midpoint(from, to);
            if !whole {
                ranges.extend([(middle, to), (from, middle)]);
            } else {
                self.envelope.stretches().for_each(|stretch| push(&mut all, *stretch));
            }
            self.seeds.clear();
            self.seeds.extend(self.envelope.stretches().filter_map(|stretch| Some(stretch.lowest?.0)));
        }
        settled(all, length * SHARE_OF_RANGE)
    }

    fn is_crowded(&self) -> bool {
        self.envelope.stretches().len() > CROWDED
    }

    /// Works out the envelope of a part of the range of a cell; false if it stopped, as it is crowded.
    fn grow(&mut self, cell: &impl Cell, own: usize, (from, to): (f64, f64), length: f64) -> bool {
        self.envelope.reset((from, to), length * SHARE_OF_RANGE);
        self.look += 1;
        if let Some(taken) = self.taken.get_mut(own) {
            *taken = self.look;
        }
        let seeds = std::mem::take(&mut self.seeds);
        let can_halve = to - from > length * SHORT;
        let mut growing = Growing { cell, place: cell.place(from, to), can_halve, state: State::Closing, grower: self };
        growing.measure();
        for index in &seeds {
            growing.put(*index);
        }
        let (place, mut state) = (growing.place, growing.state);
        // The tree is borrowed while the rest grows.
        let places = std::mem::take(&mut self.places);
        while matches!(state, State::Closing | State::Closed) {
            if !self.cover.is_open() {
                state = State::Closed;
            }
            let mut growing = Growing { cell, place, can_halve, state, grower: self };
            places.look(&mut growing);
            state = match growing.state {
                State::Closing => State::Closed,
                State::Closed | State::Grown => State::Grown,
                State::Crowded => State::Crowded,
            };
        }
        (self.places, self.seeds) = (places, seeds);
        state == State::Grown
    }
}

/// How far a part of a cell has grown.
#[derive(Clone, Copy, PartialEq, Eq)]
enum State {
    /// Things are looked at that may end a disc that still grows without end.
    Closing,
    /// Everything is looked at that a disc comes to.
    Closed,
    Grown,
    /// Nothing is looked at any more.
    Crowded,
}

/// A part of a cell while it grows.
struct Growing<'a, 'b, C> {
    cell: &'a C,
    /// Where its discs touch their own thing.
    place: Rect,
    can_halve: bool,
    state: State,
    grower: &'a mut Grower<'b>,
}

impl<C: Cell> Growing<'_, '_, C> {
    fn measure(&mut self) {
        let Grower { cover, envelope, .. } = &mut *self.grower;
        cover.measure(self.cell, envelope);
    }

    /// Puts a side or a corner into the envelope, if it was not yet; whether that changed it.
    fn put(&mut self, index: usize) -> bool {
        if self.state == State::Crowded {
            return false;
        }
        let Grower { taken, look, border, envelope, .. } = &mut *self.grower;
        let new = taken.get_mut(index).is_some_and(|taken| std::mem::replace(taken, *look) != *look);
        if !new || !put(self.cell, index, border, envelope) {
            return false;
        }
        self.measure();
        if self.can_halve && self.grower.is_crowded() {
            self.state = State::Crowded;
        }
        true
    }
}

impl<C: Cell> Look for Growing<'_, '_, C> {
    fn comes(&self, bounds: &Rect) -> bool {
        let cover = &self.grower.cover;
        match self.state {
            State::Grown | State::Crowded => false,
            State::Closing => cover.closes(bounds),
            State::Closed => cover.is_near(bounds) && self.cell.faces(bounds) && cover.comes(bounds),
        }
    }

    fn distance(&self, bounds: &Rect) -> f64 {
        apart(&self.place, bounds)
    }

    fn take(&mut self, index: usize) -> bool {
        let corner = self.grower.border.ending.get(index).copied().flatten();
        let changed = self.put(index);
        corner.is_some_and(|corner| self.put(self.grower.border.sides.len() + corner)) || changed
    }
}

/// Puts one thing into the envelope; whether that changed it.
fn put(cell: &impl Cell, index: usize, border: &Border, envelope: &mut Envelope) -> bool {
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

/// Adds the arcs round a cell.
fn rim(cell: &impl Cell, own: usize, stretches: &[Stretch], closed: [Option<usize>; 2], arcs: &mut Vec<CellArc>) {
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
    arcs.extend(stretches.iter().enumerate().filter_map(arc));
}
