//! A fine grid over the plan for finding free places for labels. Nothing measured or drawn comes from it.

use crate::base::tolerance::SAME_LENGTH;
use crate::drawing::Item;
use kurbo::{BezPath, ParamCurve, PathSeg, Point, Rect, Shape};

/// Width of a cell, mm on paper.
const CELL: f64 = 0.5;
/// How far an edge may reach into the next cell without counting there, mm.
const SLACK: f64 = SAME_LENGTH / 10.0;
/// More cells than this in a direction are never needed on a sheet.
const MOST: usize = 2000;

/// A grid of marks over a rectangle of the sheet.
#[derive(Debug, Clone)]
pub(in crate::views) struct Raster {
    bounds: Rect,
    columns: usize,
    rows: usize,
    cells: Vec<u32>,
}

/// Sums over a raster, for counts in any rectangle in no time.
#[derive(Debug, Clone)]
pub(in crate::views) struct Sums {
    bounds: Rect,
    columns: usize,
    rows: usize,
    sums: Vec<u32>,
}

fn count(length: f64) -> usize {
    // Lengths are finite and not negative here; the cast saturates.
    ((length.max(0.0) / CELL).ceil() as usize).clamp(1, MOST)
}

/// Index of the cell that a distance falls in.
fn index(distance: f64, count: usize) -> usize {
    ((distance / CELL).max(0.0) as usize).min(count)
}

impl Raster {
    /// A grid of zeros.
    pub fn new(bounds: Rect) -> Self {
        let (columns, rows) = (count(bounds.width()), count(bounds.height()));
        Self { bounds, columns, rows, cells: vec![0; columns * rows] }
    }

    fn set(&mut self, column: usize, row: usize, value: u32) {
        let inside = column < self.columns && row < self.rows;
        if let Some(cell) = self.cells.get_mut(row * self.columns + column).filter(|_| inside) {
            *cell = value;
        }
    }

    /// Gives every cell whose middle is in the shape a value.
    pub fn fill(&mut self, shape: &BezPath, value: u32) {
        let bounds = shape.bounding_box();
        let rectangle = (shape.area().abs() - bounds.area()).abs() <= SAME_LENGTH;
        let edges = if rectangle { Some(Vec::new()) } else { edges(shape) };
        let left = index(bounds.x0 - self.bounds.x0, self.columns);
        let columns = left..index(bounds.x1 - self.bounds.x0 + CELL, self.columns);
        let rows = index(bounds.y0 - self.bounds.y0, self.rows)..index(bounds.y1 - self.bounds.y0 + CELL, self.rows);
        for row in rows {
            let y = self.bounds.y0 + (row as f64 + 0.5) * CELL;
            let own: Option<Vec<Edge>> = edges.as_ref().map(|all| all.iter().copied().filter(|e| e.meets(y)).collect());
            let start = row * self.columns;
            let cells = self.cells.get_mut(start + columns.start..start + columns.end).unwrap_or_default();
            for (column, cell) in columns.clone().zip(cells) {
                let middle = Point::new(self.bounds.x0 + (column as f64 + 0.5) * CELL, y);
                let inside = |own: &Option<Vec<Edge>>| match own {
                    Some(own) => own.iter().map(|edge| edge.winding(middle)).sum::<i32>() != 0,
                    None => shape.contains(middle),
                };
                if bounds.contains(middle) && (rectangle || inside(&own)) {
                    *cell = value;
                }
            }
        }
    }

    /// How many cells have a value.
    pub fn count(&self, value: u32) -> usize {
        self.cells.iter().filter(|cell| **cell == value).count()
    }

    /// How many cells have each of the values up to the greatest.
    pub fn counts(&self) -> Vec<usize> {
        let most = self.cells.iter().max().map_or(0, |most| *most as usize);
        let mut counts = vec![0; most + 1];
        for cell in &self.cells {
            if let Some(count) = counts.get_mut(*cell as usize) {
                *count += 1;
            }
        }
        counts
    }

    /// Marks every cell that the lines of an item pass through with 1.
    pub fn trace(&mut self, item: &Item) {
        match item {
            Item::Path(path) if path.line.is_some() => self.trace_path(&path.shape),
            Item::Group(group) => group.items.iter().for_each(|item| self.trace(item)),
            _ => {}
        }
    }

    fn trace_path(&mut self, shape: &BezPath) {
        let mut last = Point::ZERO;
        let mut start = Point::ZERO;
        kurbo::flatten(shape, 0.1, |element| match element {
            kurbo::PathEl::MoveTo(point) => (last, start) = (point, point),
            kurbo::PathEl::LineTo(point) => {
                self.trace_segment(last, point);
                last = point;
            }
            kurbo::PathEl::ClosePath => {
                self.trace_segment(last, start);
                last = start;
            }
            _ => {}
        });
    }

    fn trace_segment(&mut self, a: Point, b: Point) {
        let steps = count((b - a).hypot()) * 2;
        for step in 0..=steps {
            let point = a.lerp(b, step as f64 / steps as f64);
            if self.bounds.contains(point) {
                let off = point - self.bounds.origin();
                self.set(index(off.x, self.columns), index(off.y, self.rows), 1);
            }
        }
    }

    /// Sums of the cells that satisfy a condition.
    pub fn sums(&self, is: impl Fn(u32) -> bool) -> Sums {
        self.sums_around(self.bounds, is)
    }

    /// Sums of the cells in and around a part of the raster that satisfy a condition.
    pub fn sums_around(&self, part: Rect, is: impl Fn(u32) -> bool) -> Sums {
        let ends = |low: f64, high: f64, count: usize| (index(low, count), index(high + CELL, count));
        let (left, right) = ends(part.x0 - self.bounds.x0, part.x1 - self.bounds.x0, self.columns);
        let (bottom, top) = ends(part.y0 - self.bounds.y0, part.y1 - self.bounds.y0, self.rows);
        let (columns, rows) = (right.saturating_sub(left), top.saturating_sub(bottom));
        let mut sums = vec![0_u32; (columns + 1) * (rows + 1)];
        for row in 0..rows {
            let start = (bottom + row) * self.columns + left;
            let cells = self.cells.get(start..start + columns).unwrap_or_default();
            let (before, after) = sums.split_at_mut((row + 1) * (columns + 1));
            let above = before.get(row * (columns + 1)..).unwrap_or_default();
            let mut run = 0;
            for ((cell, above), sum) in cells.iter().zip(above.iter().skip(1)).zip(after.iter_mut().skip(1)) {
                run += u32::from(is(*cell));
                *sum = above + run;
            }
        }
        let corner = self.bounds.origin() + kurbo::Vec2::new(left as f64, bottom as f64) * CELL;
        let bounds = Rect::from_origin_size(corner, (columns as f64 * CELL, rows as f64 * CELL));
        Sums { bounds, columns, rows, sums }
    }
}

/// A straight edge that is not level.
#[derive(Debug, Clone, Copy)]
struct Edge {
    start: Point,
    end: Point,
}

impl Edge {
    /// Whether a level line crosses it; of its ends the lower one counts.
    fn meets(&self, y: f64) -> bool {
        y >= self.start.y.min(self.end.y) && y < self.start.y.max(self.end.y)
    }

    /// What it adds to how often the shape goes round a point on a level that it meets: as kurbo counts.
    fn winding(&self, at: Point) -> i32 {
        let sign = if self.end.y > self.start.y { -1 } else { 1 };
        if at.x < self.start.x.min(self.end.x) {
            return 0;
        }
        if at.x >= self.start.x.max(self.end.x) {
            return sign;
        }
        let (a, b) = (self.end.y - self.start.y, self.start.x - self.end.x);
        let off = a * at.x + b * at.y - (a * self.start.x + b * self.start.y);
        if off * f64::from(sign) <= 0.0 { sign } else { 0 }
    }
}

/// The edges of a shape that are not level; `None` if it has curves.
fn edges(shape: &BezPath) -> Option<Vec<Edge>> {
    let edge = |segment: PathSeg| match segment {
        PathSeg::Line(line) => Some(Edge { start: line.eval(0.0), end: line.eval(1.0) }),
        _ => None,
    };
    let all: Option<Vec<Edge>> = shape.segments().map(edge).collect();
    all.map(|edges| edges.into_iter().filter(|edge| edge.start.y != edge.end.y).collect())
}

impl Sums {
    fn at(&self, column: usize, row: usize) -> u32 {
        self.sums.get(row * (self.columns + 1) + column).copied().unwrap_or(0)
    }

    /// How many cells in a rectangle satisfy the condition, and how many the rectangle has (those outside too).
    pub fn within(&self, rect: Rect) -> (u32, u32) {
        let low = |value: f64, count: usize| index(value + SLACK, count);
        let high = |value: f64, count: usize| index(value + CELL - SLACK, count);
        let (x0, x1) = (low(rect.x0 - self.bounds.x0, self.columns), high(rect.x1 - self.bounds.x0, self.columns));
        let (y0, y1) = (low(rect.y0 - self.bounds.y0, self.rows), high(rect.y1 - self.bounds.y0, self.rows));
        let sum = (self.at(x1, y1) + self.at(x0, y0)).saturating_sub(self.at(x0, y1) + self.at(x1, y0));
        let outside = !(self.bounds.x0 <= rect.x0
            && rect.x1 <= self.bounds.x1
            && self.bounds.y0 <= rect.y0
            && rect.y1 <= self.bounds.y1);
        let cells = u32::try_from(x1.saturating_sub(x0) * y1.saturating_sub(y0)).unwrap_or(u32::MAX);
        (sum, if outside { cells.saturating_add(1) } else { cells })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Kurbo's own test of each cell's middle.
    #[test]
    fn fills_what_the_shape_contains() {
        let mut state = 7_u64;
        let mut random = |most: f64| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 40) as f64 / f64::from(1 << 24) * most
        };
        for round in 0..60 {
            let grid = Rect::new(3.0, 2.0, 3.0 + 40.0, 2.0 + 25.0);
            let mut shape = BezPath::new();
            for _ in 0..2 {
                // Corners on the half millimetre too, where middles of cells lie on edges.
                let fine = if round % 2 == 0 { 4.0 } else { 1e9 };
                let mut at = || Point::new((random(50.0) * fine).round() / fine, (random(35.0) * fine).round() / fine);
                shape.move_to(at());
                (0..4).for_each(|_| shape.line_to(at()));
                if round % 5 == 0 {
                    shape.quad_to(at(), at());
                }
                shape.close_path();
            }
            let mut raster = Raster::new(grid);
            raster.fill(&shape, 3);
            let mut inside = 0;
            for row in 0..raster.rows {
                for column in 0..raster.columns {
                    let middle = grid.origin() + kurbo::Vec2::new(column as f64 + 0.5, row as f64 + 0.5) * CELL;
                    let value = raster.cells[row * raster.columns + column];
                    assert_eq!(value == 3, shape.contains(middle), "{round} {middle:?}");
                    inside += usize::from(value == 3);
                }
            }
            assert_eq!((raster.count(3), raster.counts().get(3).copied().unwrap_or(0)), (inside, inside));
        }
    }
}
