//! What lies near a side or a corner, nearest first.

use super::border::Border;
use crate::base::tolerance::CLEARANCE_GRID;
use i_overlay::i_float::int::point::IntPoint;
use kurbo::Rect;
use std::cell::Cell;

/// How far to look first where nothing is known, mm.
const FIRST_LOOK: f64 = 64.0;

/// Most cells of a raster.
const CELLS: usize = 1 << 16;

/// Rectangles by place: in which cells of a raster each lies.
struct Raster {
    all: Rect,
    columns: usize,
    rows: usize,
    cells: Vec<Vec<usize>>,
}

impl Raster {
    fn new(bounds: &[Rect]) -> Self {
        let all = bounds.iter().copied().reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO).inflate(1.0, 1.0);
        let count = (bounds.len() / 2).clamp(1, CELLS);
        let columns = ((count as f64 * all.width() / all.height()).sqrt() as usize).clamp(1, count);
        let rows = count / columns;
        let mut raster = Self { all, columns, rows, cells: vec![Vec::new(); columns * rows] };
        for (index, rect) in bounds.iter().enumerate() {
            for cell in raster.touched(*rect) {
                raster.cells.get_mut(cell).into_iter().for_each(|cell| cell.push(index));
            }
        }
        raster
    }

    /// The cells that a rectangle comes to.
    fn touched(&self, rect: Rect) -> impl Iterator<Item = usize> + use<> {
        let at = |value: f64, low: f64, length: f64, count: usize| {
            ((((value - low) / length) * count as f64) as usize).min(count - 1)
        };
        let column = |x: f64| at(x, self.all.x0, self.all.width(), self.columns);
        let row = |y: f64| at(y, self.all.y0, self.all.height(), self.rows);
        let (columns, across) = (self.columns, column(rect.x0)..=column(rect.x1));
        (row(rect.y0)..=row(rect.y1)).flat_map(move |row| across.clone().map(move |column| row * columns + column))
    }

    fn near(&self, rect: Rect) -> impl Iterator<Item = usize> + '_ {
        self.touched(rect).filter_map(|cell| self.cells.get(cell)).flatten().copied()
    }
}

/// Sides and then corners by place.
pub(super) struct Near {
    bounds: Vec<Rect>,
    raster: Raster,
    /// In which look each was handed out last.
    looked: Vec<Cell<usize>>,
    look: usize,
}

fn around(ends: [IntPoint<i32>; 2]) -> Rect {
    let [a, b] = ends.map(|p| kurbo::Point::new(f64::from(p.x), f64::from(p.y)));
    Rect::from_points(a, b)
}

/// The square of how far two rectangles are apart.
fn apart(a: &Rect, b: &Rect) -> f64 {
    let x = (b.x0 - a.x1).max(a.x0 - b.x1).max(0.0);
    let y = (b.y0 - a.y1).max(a.y0 - b.y1).max(0.0);
    x * x + y * y
}

fn meet(a: &Rect, b: &Rect) -> bool {
    a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1
}

impl Near {
    pub fn new(border: &Border) -> Self {
        let sides = border.sides.iter().map(|side| around([side.a, side.b]));
        let bounds: Vec<Rect> = sides.chain(border.corners.iter().map(|(corner, _)| around([*corner; 2]))).collect();
        Self { raster: Raster::new(&bounds), looked: vec![Cell::new(0); bounds.len()], look: 0, bounds }
    }

    /// Hands out what lies about a side or a corner, each thing once, the seeds first, until all is handed out that comes
    /// to the visitor's last answer.
    pub fn visit(&mut self, ends: [IntPoint<i32>; 2], seeds: &[usize], mut visitor: impl FnMut(usize) -> Rect) {
        self.look += 1;
        let mut open = Rect::new(f64::NEG_INFINITY, f64::NEG_INFINITY, f64::INFINITY, f64::INFINITY);
        for index in seeds.iter().filter(|index| self.first_look(**index)) {
            open = visitor(*index);
        }
        let own = around(ends);
        let mut reach = FIRST_LOOK / CLEARANCE_GRID;
        while !open.is_finite() && reach.is_finite() {
            self.hand_out(own, own.inflate(reach, reach), &mut open, &mut visitor);
            reach *= 2.0;
        }
        self.hand_out(own, open, &mut open, &mut visitor);
    }

    /// Hands out what comes to a rectangle and to what is open, the nearest first: it rules out most of the rest.
    fn hand_out(&self, own: Rect, about: Rect, open: &mut Rect, visitor: &mut impl FnMut(usize) -> Rect) {
        let comes = |index: usize| {
            let bounds = self.bounds.get(index).filter(|bounds| meet(bounds, &about) && meet(bounds, open))?;
            let looked = self.looked.get(index)?.get() == self.look;
            (!looked).then(|| (apart(&own, bounds), index))
        };
        let mut near: Vec<(f64, usize)> = self.raster.near(about).filter_map(comes).collect();
        near.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        for (_, index) in near {
            let comes = self.bounds.get(index).is_some_and(|bounds| meet(bounds, open));
            if comes && self.first_look(index) {
                *open = visitor(index);
            }
        }
    }

    fn first_look(&self, index: usize) -> bool {
        self.looked.get(index).is_some_and(|looked| looked.replace(self.look) != self.look)
    }
}
