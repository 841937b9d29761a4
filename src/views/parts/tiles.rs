//! Worked sides of pieces in true size on tiles of the layout's paper, with register marks, for who has no large printer.

use super::labels::{Labels, along, around, bounds, over};
use super::legend::bores;
use crate::base::number::trimmed;
use crate::diagnostic::Held;
use crate::drawing::lettering::cut;
use crate::drawing::{Align, Fill, Item, LayerKind, LineClass, Look, Paper, Sheet};
use crate::figures::{Figures, Work, on_bench, outline_of};
use crate::joinery::Row;
use crate::joints::BoreSide;
use crate::model::Machining;
use crate::views::kit::canvas::Canvas;
use crate::views::kit::placement::{circle, outline, polyline};
use crate::views::kit::words::plain;
use kurbo::{Affine, BezPath, PathEl, Point, Rect, Vec2};
use rayon::prelude::*;

/// What printers leave white, mm.
const MARGIN: f64 = 10.0;
/// Under a tile for its name, mm.
const FOOT: f64 = 8.0;
/// Neighbouring tiles show so much of each other, mm.
const OVERLAP: f64 = 10.0;
/// Half the length of a register mark, mm.
const MARK: f64 = 4.0;
/// More tiles than this are not drawn.
const MOST: usize = 5000;
/// How far curves may be flattened, mm.
const FLAT: f64 = 0.01;
/// Length of the line that says whether the printer has kept the size, mm.
const RULER: f64 = 100.0;

/// All tiles, piece by piece, each piece row by row from its lower left.
///
/// # Errors
/// When there are too many.
pub fn part_tiles(figures: &Figures<'_>, held: Held) -> Result<Vec<Sheet>, String> {
    let settings = &figures.model.sheets;
    let paper = Paper::landscape(settings.paper);
    let paper = if settings.portrait { paper.turned() } else { paper };
    let rows = &figures.cut_list().rows;
    let worked = figures.works().iter().filter_map(|work| Some((work, rows.get(work.row)?)));
    let worked = worked.filter(|(work, row)| work.is_worked(row));
    let sides = worked.flat_map(|(work, row)| [false, true].map(|reverse| Side { work, row, reverse }));
    let sides: Vec<Side<'_>> = sides.filter(|side| !side.reverse || side.work.has_reverse(side.row)).collect();
    let window = window(paper);
    let count: usize = sides.iter().map(|side| side.grid(window).0 * side.grid(window).1).sum();
    if count > MOST {
        return Err(format!(
            "the pieces take {count} tiles of {}, and no more than {MOST} are made; write a larger paper under `sheets`",
            paper.name
        ));
    }
    let made: Vec<Vec<Sheet>> = sides.par_iter().map(|side| side.tiles(paper, held)).collect();
    Ok(made.into_iter().flatten().collect())
}

/// Where the piece is seen on a tile.
fn window(paper: Paper) -> Rect {
    Rect::new(MARGIN, MARGIN + FOOT, paper.width - MARGIN, paper.height - MARGIN)
}

struct Side<'a> {
    work: &'a Work,
    row: &'a Row,
    reverse: bool,
}

/// A, B, ... Z, AA, ...
fn column(index: usize) -> String {
    let letter = char::from(b'A' + (index % 26) as u8);
    if index < 26 { letter.to_string() } else { format!("{}{letter}", column(index / 26 - 1)) }
}

impl Side<'_> {
    /// Columns and rows of tiles.
    fn grid(&self, window: Rect) -> (usize, usize) {
        let count = |long: f64, room: f64| ((long - OVERLAP) / (room - OVERLAP)).ceil().max(1.0) as usize;
        (count(self.row.finished.0 + 2.0, window.width()), count(self.row.finished.1 + 2.0, window.height()))
    }

    fn tiles(&self, paper: Paper, held: Held) -> Vec<Sheet> {
        let window = window(paper);
        let (columns, rows) = self.grid(window);
        let step = Vec2::new(window.width() - OVERLAP, window.height() - OVERLAP);
        let number = self.work.number(self.row);
        let side = if self.reverse { "reverse" } else { "face" };
        let held = if held.any() { format!("{}, do not cut: ", held.word()) } else { String::new() };
        let mut sheets = Vec::new();
        for (up, right) in (0..rows).flat_map(|up| (0..columns).map(move |right| (up, right))) {
            let corner = Vec2::new(right as f64 * step.x, up as f64 * step.y) - Vec2::new(1.0, 1.0);
            let name = format!("{}{}", column(right), up + 1);
            let mut canvas = Canvas::default();
            self.draw(window, window.origin().to_vec2() - corner, &mut canvas);
            if canvas.bounds().is_none() {
                continue;
            }
            self.marks(window, (columns, rows), (right, up), &mut canvas);
            let words = format!(
                "{held}{number}, {} × {}, {side}: tile {name} of {} to {}{rows}; print at 100 %, lay mark on mark",
                self.row.name,
                self.work.count,
                "A1",
                column(columns - 1)
            );
            foot(paper, &words, &mut canvas);
            let title = format!("{number} {side}, tile {name}");
            sheets.push(Sheet {
                id: plain(&format!("{number}-{side}-{name}")),
                title: title.clone(),
                paper,
                views: vec![canvas.view("tile", &title, Some(1.0))],
                look: Look::default(),
            });
        }
        sheets
    }

    /// The piece with the window over it; `by` moves it from the bench to the paper.
    fn draw(&self, window: Rect, by: Vec2, canvas: &mut Canvas) {
        let to_paper = Affine::translate(by) * on_bench(self.work, self.row, self.reverse);
        let mut labels = Labels::new(window);
        let mut items = vec![Item::line(opened(&(to_paper * outline_of(self.row))), LineClass::Visible)];
        for one in &self.row.machining {
            match one {
                Machining::Cutout { name, .. } => {
                    items.push(Item::line(opened(&(to_paper * one.shape())), LineClass::Visible));
                    let place = to_paper.transform_rect_bbox(one.bounds()).intersect(window);
                    let _put = place.area() > 0.0 && labels.put(name, false, over(place));
                }
                Machining::Groove { width, depth, reverse, .. } if *reverse == self.reverse => {
                    items.push(Item::line(opened(&(to_paper * one.shape())), LineClass::Detail));
                    let place = to_paper.transform_rect_bbox(one.bounds()).intersect(window);
                    let words = format!("{} x {}", trimmed(*width, 1), trimmed(*depth, 1));
                    let _put = place.area() > 0.0 && labels.put(&words, place.height() > place.width(), along(place));
                }
                Machining::Groove { .. } | Machining::Hole { .. } => {}
            }
        }
        self.bores(to_paper, window, &mut items, &mut labels);
        items.push(Item::line(circle(to_paper * Point::ZERO, 2.0), LineClass::Detail));
        canvas.group(LayerKind::Furniture, "piece", &self.row.name, items);
        canvas.clip(window);
        canvas.group(LayerKind::Labels, "labels", "Sizes", labels.items());
    }

    /// Bores of this side with a cross at their middle and their size.
    fn bores(&self, to_paper: Affine, window: Rect, items: &mut Vec<Item>, labels: &mut Labels) {
        let wanted = if self.reverse { BoreSide::Reverse } else { BoreSide::Face };
        for kind in bores(self.work).iter().filter(|kind| kind.side == wanted) {
            for bore in &kind.all {
                let middle = to_paper * Point::from(bore.at);
                let shape = circle(middle, bore.diameter / 2.0);
                let place = bounds(&shape);
                items.push(Item::line(opened(&shape), LineClass::Detail));
                let arm = bore.diameter / 2.0 + 1.5;
                for way in [Vec2::new(arm, 0.0), Vec2::new(0.0, arm)] {
                    items.push(Item::segment(middle - way, middle + way, LineClass::Dimension));
                }
                labels.keep_off(place.inflate(1.5, 1.5));
                if window.contains(middle) {
                    let aside = Vec2::new(6.0, 0.0);
                    let places = around(place).flat_map(|at| [at + aside, at - aside, at]);
                    let _put = labels.put(&kind.size(), false, places);
                }
            }
        }
    }

    /// Crosses in the middle of what neighbouring tiles share, at the corners.
    fn marks(&self, window: Rect, (columns, rows): (usize, usize), (right, up): (usize, usize), canvas: &mut Canvas) {
        let inner = window.inset(-OVERLAP / 2.0);
        let mut items = Vec::new();
        let corners = [
            (inner.x0, inner.y0, right > 0 || up > 0),
            (inner.x1, inner.y0, right + 1 < columns || up > 0),
            (inner.x0, inner.y1, right > 0 || up + 1 < rows),
            (inner.x1, inner.y1, right + 1 < columns || up + 1 < rows),
        ];
        for (x, y, _) in corners.into_iter().filter(|(_, _, shared)| *shared) {
            let at = Point::new(x, y);
            for way in [Vec2::new(MARK, 0.0), Vec2::new(0.0, MARK)] {
                items.push(Item::segment(at - way, at + way, LineClass::Visible));
            }
            items.push(Item::line(circle(at, MARK / 2.0), LineClass::Detail));
        }
        items.push(Item::line(outline(window), LineClass::Zone));
        canvas.group(LayerKind::Notes, "register", "Register marks", items);
    }
}

/// The name of the tile, and a line to hold a rule against.
fn foot(paper: Paper, words: &str, canvas: &mut Canvas) {
    let (left, right, base) = (MARGIN, paper.width - MARGIN, MARGIN + 2.0);
    let ruler = Point::new(right - RULER, base);
    let ends = [ruler, Point::new(right, base)];
    let mut items = vec![Item::segment(ends[0], ends[1], LineClass::Detail)];
    items
        .extend(ends.map(|end| Item::segment(end - Vec2::new(0.0, 1.5), end + Vec2::new(0.0, 1.5), LineClass::Detail)));
    let says = Item::text(Point::new(right - RULER / 2.0, base + 1.0), "100 mm", 1.8, Align::Middle);
    items.push(says);
    let words = cut(words, 1.8, right - RULER - 4.0 - left);
    items.push(Item::text(Point::new(left, base), words, 1.8, Align::Start));
    items.push(Item::area(circle(Point::new(right - RULER, base), 0.4), None, Fill::Ink));
    canvas.group(LayerKind::Notes, "foot", "Which tile it is", items);
}

/// A path whose closing lines are drawn, so that a window does not close them anew.
fn opened(path: &BezPath) -> BezPath {
    let (mut made, mut points): (BezPath, Vec<Point>) = (BezPath::new(), Vec::new());
    kurbo::flatten(path, FLAT, |element| match element {
        PathEl::MoveTo(point) => {
            made.extend(polyline(points.drain(..)));
            points.push(point);
        }
        PathEl::LineTo(point) => points.push(point),
        PathEl::ClosePath => points.extend(points.first().copied()),
        _ => {}
    });
    made.extend(polyline(points));
    made
}
