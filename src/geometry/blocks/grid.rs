//! The 50 mm cells of a space that are wholly free.

use super::piece::{AXES, CELL, MOST_CELLS, Piece};
use crate::base::tolerance;
use crate::geometry::convex::{Convex, pieces};
use crate::geometry::{Axis, Box3, Polygon, Prism, Roof};
use kurbo::Rect;

/// Cells in three directions; a cell is free or not.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Grid {
    /// Number of cells along x, y, z.
    pub size: [usize; 3],
    origin: [f64; 3],
    free: Vec<bool>,
}

impl Grid {
    /// The free cells of a space; `from_high` says for each axis whether cells are counted from its high end. `None` if
    /// there is no whole cell or far too many.
    pub fn new(space: &Prism, minus: &[&Prism], roof: &Roof, from_high: [bool; 3]) -> Option<Self> {
        let bounds = below_roof(space.bounds(), roof);
        let mut grid = Self { size: [0; 3], origin: [0.0; 3], free: Vec::new() };
        let slots = grid.size.iter_mut().zip(&mut grid.origin).zip(AXES.iter().zip(from_high));
        for ((size, origin), (axis, high_end)) in slots {
            let (low, high) = bounds.range(*axis);
            *size = ((high - low + tolerance::SAME_LENGTH) / CELL).floor().clamp(0.0, 1e6) as usize;
            *origin = if high_end { high - *size as f64 * CELL } else { low };
        }
        let count = grid.size.iter().product::<usize>();
        if count == 0 || count > MOST_CELLS {
            return None;
        }
        grid.free = vec![true; count];
        grid.keep_inside(space);
        minus.iter().for_each(|prism| grid.take(prism));
        grid.take_roof(roof);
        Some(grid)
    }

    /// Whether two grids have the same cells free.
    pub fn same_cells(&self, other: &Self) -> bool {
        self.size == other.size && self.free == other.free
    }

    /// Whether every cell is free.
    pub fn is_full(&self) -> bool {
        self.free.iter().all(|free| *free)
    }

    /// Position of a cell in the list of cells.
    pub fn index(&self, at: [usize; 3]) -> usize {
        let [x, y, z] = at;
        let [_, width, height] = self.size;
        (x * width + y) * height + z
    }

    /// The cell at a position of the list.
    pub fn cell(&self, index: usize) -> [usize; 3] {
        let [_, width, height] = self.size;
        [index / height / width, index / height % width, index % height]
    }

    /// Whether a cell of the list is free.
    pub fn is_free(&self, index: usize) -> bool {
        self.free.get(index).copied().unwrap_or(false)
    }

    /// All cells of the list: free or not.
    pub fn cells(&self) -> &[bool] {
        &self.free
    }

    /// A block in millimetres.
    pub fn place(&self, piece: &Piece) -> Box3 {
        let mut place = Box3::default();
        for (axis, ((origin, at), size)) in AXES.iter().zip(self.origin.iter().zip(piece.at).zip(piece.size)) {
            let low = origin + at as f64 * CELL;
            place = place.with(*axis, (low, low + size as f64 * CELL));
        }
        place
    }

    fn side(&self, axis: Axis) -> (usize, f64) {
        let [x, y, z] = self.size;
        let [at_x, at_y, at_z] = self.origin;
        match axis {
            Axis::X => (x, at_x),
            Axis::Y => (y, at_y),
            Axis::Z => (z, at_z),
        }
    }

    /// Frees only cells for which both the range along the prism and the rectangle across it pass.
    fn mark(&mut self, axis: Axis, along: impl Fn(f64, f64) -> bool, across: impl Fn(Rect) -> bool, taken: bool) {
        let ((first, second), depth) = (axis.plane(), self.side(axis));
        let range = |(_, origin): (usize, f64), i: usize| (origin + i as f64 * CELL, origin + (i + 1) as f64 * CELL);
        let deep: Vec<bool> = (0..depth.0).map(|k| along(range(depth, k).0, range(depth, k).1)).collect();
        for i in 0..self.side(first).0 {
            for j in 0..self.side(second).0 {
                let (u, v) = (range(self.side(first), i), range(self.side(second), j));
                let hit = across(Rect::new(u.0, v.0, u.1, v.1));
                if !hit && taken {
                    continue;
                }
                for (k, deep) in deep.iter().enumerate() {
                    if (hit && *deep) == taken {
                        self.close(axis, k, i, j);
                    }
                }
            }
        }
    }

    fn close(&mut self, axis: Axis, along: usize, first: usize, second: usize) {
        let at = match axis {
            Axis::X => [along, first, second],
            Axis::Y => [first, along, second],
            Axis::Z => [first, second, along],
        };
        let index = self.index(at);
        if let Some(free) = self.free.get_mut(index) {
            *free = false;
        }
    }

    fn keep_inside(&mut self, space: &Prism) {
        let parts = parts(space);
        let (low, high) = (space.low - tolerance::SAME_LENGTH, space.high + tolerance::SAME_LENGTH);
        self.mark(space.axis, |from, to| low <= from && to <= high, |rect| covers(&parts, rect), false);
    }

    fn take(&mut self, prism: &Prism) {
        let parts = parts(prism);
        let meets = |from: f64, to: f64| to.min(prism.high) - from.max(prism.low) > tolerance::SAME_LENGTH;
        self.mark(prism.axis, meets, |rect| touches(&parts, rect), true);
    }

    fn take_roof(&mut self, roof: &Roof) {
        let lining = |rect: Rect| roof.least_over(rect.x0, rect.x1).0 + tolerance::SAME_LENGTH;
        self.mark(Axis::X, |_, _| true, |rect| rect.y1 > lining(rect), true);
    }
}

/// Along which axes a space is a whole number of cells long, so that both ends give the same cells.
pub(super) fn whole_sides(space: &Prism, roof: &Roof) -> [bool; 3] {
    let bounds = below_roof(space.bounds(), roof);
    AXES.map(|axis| {
        let (low, high) = bounds.range(axis);
        ((high - low) / CELL).fract() == 0.0
    })
}

/// The bounds, no higher than the highest lining over them.
fn below_roof(bounds: Box3, roof: &Roof) -> Box3 {
    let chain = roof.chain();
    let over = chain.iter().filter(|point| bounds.y.0 <= point.x && point.x <= bounds.y.1).map(|point| point.y);
    let top = over.chain([roof.height_at(bounds.y.0), roof.height_at(bounds.y.1)]).fold(f64::MIN, f64::max);
    bounds.with(Axis::Z, (bounds.z.0, bounds.z.1.min(top)))
}

/// A convex piece of an outline and the smallest rectangle around it.
struct Part {
    convex: Convex,
    bounds: Rect,
    /// Whether it is that rectangle: then no line has to be cut.
    is_rect: bool,
}

fn parts(prism: &Prism) -> Vec<Part> {
    let part = |convex: Convex| {
        let bounds = convex.bounds();
        let is_rect = convex.points() == Polygon::rect(bounds).points();
        Part { convex, bounds, is_rect }
    };
    pieces(&prism.outline).into_iter().map(part).collect()
}

impl Part {
    /// What it shares with a rectangle that is not apart from it.
    fn common(&self, rect: Rect) -> Convex {
        if self.is_rect { square(self.bounds.intersect(rect)) } else { self.convex.common(&square(rect)) }
    }
}

fn square(rect: Rect) -> Convex {
    Convex::new(Polygon::rect(rect).points().to_vec())
}

fn apart(a: Rect, b: Rect) -> bool {
    a.x0 >= b.x1 || b.x0 >= a.x1 || a.y0 >= b.y1 || b.y0 >= a.y1
}

fn touches(parts: &[Part], rect: Rect) -> bool {
    parts.iter().any(|part| !apart(part.bounds, rect) && part.common(rect).is_thick())
}

fn covers(parts: &[Part], rect: Rect) -> bool {
    let near = parts.iter().filter(|part| !apart(part.bounds, rect));
    let inside: f64 = near.map(|part| Polygon::new(part.common(rect).points().to_vec()).area()).sum();
    let around = 2.0 * (rect.width() + rect.height());
    inside >= rect.area() - around * tolerance::SAME_LENGTH
}
