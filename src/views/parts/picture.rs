//! One side of a piece, true to scale: outline, cut-outs, grooves, bores, bands, grain, and what meets it.

use super::labels::{Labels, along, around, bounds, over};
use super::legend::{Bores, bores};
use super::marks::Marks;
use crate::base::number::trimmed;
use crate::drawing::{Fill, Item, LayerKind, LineClass};
use crate::figures::{Mate, Work, WorkBore, on_bench, outline_of};
use crate::joinery::Row;
use crate::joints::BoreSide;
use crate::model::{Figures, Grain, Machining};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::ink::double_arrow;
use crate::views::kit::placement::{circle, outline};
use kurbo::{Affine, BezPath, Point, Rect, Vec2};

/// Bores are drawn at least so large, mm.
const LEAST: f64 = 0.35;
/// Over a piece there is room for texts, mm.
const OVER: f64 = 3.2;
/// Half the length of the arrow along the grain and of its box across, mm.
const ARROW: (f64, f64) = (6.0, 1.0);
/// Bores of one kind nearer than this share a letter, mm.
const APART: f64 = 16.0;
/// Radius of the dot at the datum corner, mm.
const DOT: f64 = 0.8;

/// A side of a piece on its place.
pub(super) struct Picture<'a> {
    pub work: &'a Work,
    pub row: &'a Row,
    pub reverse: bool,
    pub scale: f64,
    /// Lower left corner of the piece on paper.
    pub at: Point,
}

impl Picture<'_> {
    fn to_paper(&self) -> Affine {
        Affine::translate(self.at.to_vec2())
            * Affine::scale(1.0 / self.scale)
            * on_bench(self.work, self.row, self.reverse)
    }

    /// What the piece takes of the paper.
    pub fn rect(&self) -> Rect {
        let (length, width, _) = self.row.finished;
        Rect::from_origin_size(self.at, (length / self.scale, width / self.scale))
    }

    /// Draws it with its dimensions.
    pub fn draw(&self, figures: Figures, canvas: &mut Canvas) {
        let rect = self.rect();
        let mut labels = Labels::new(Rect { y1: rect.y1 + OVER, ..rect });
        let corners = [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)].map(Point::from);
        for (from, to) in corners.iter().zip(corners.iter().cycle().skip(1)) {
            labels.keep_off_line(*from, *to);
        }
        let kinds = bores(self.work);
        let shown: Vec<&Bores<'_>> = kinds.iter().filter(|kind| self.shows(kind.side)).collect();
        let mut items = self.board();
        let drawn: Vec<Vec<Rect>> = shown.iter().map(|kind| self.bores(kind, &mut items)).collect();
        drawn.iter().flatten().for_each(|place| labels.keep_off(*place));
        items.extend(self.mates(&mut labels, false));
        items.extend(self.grain(&mut labels));
        canvas.group(LayerKind::Furniture, if self.reverse { "reverse" } else { "face" }, &self.row.name, items);
        self.machining(&mut labels);
        for (kind, places) in shown.iter().zip(&drawn) {
            let mut lettered: Vec<Point> = Vec::new();
            for place in places {
                let near = |other: &Point| other.distance(place.center()) < APART;
                if !lettered.iter().any(near) && labels.put(&kind.letter, false, around(*place)) {
                    lettered.push(place.center());
                }
            }
        }
        self.mates(&mut labels, true);
        canvas.group(LayerKind::Labels, "labels", "Letters of bores, what meets it", labels.items());
        let all: Vec<&WorkBore> = shown.iter().flat_map(|kind| kind.all.iter().copied()).collect();
        Marks::of(self.row, self.reverse, &all).draw(figures, rect, self.to_paper(), canvas);
    }

    /// Bores in edges are shown with the face.
    fn shows(&self, side: BoreSide) -> bool {
        (side == BoreSide::Reverse) == self.reverse
    }

    /// Outline, cut-outs, grooves of this side, banded edges and the datum corner.
    fn board(&self) -> Vec<Item> {
        let to_paper = self.to_paper();
        let mut items = vec![Item::area(to_paper * outline_of(self.row), Some(LineClass::Visible), Fill::Furniture)];
        for one in &self.row.machining {
            match one {
                Machining::Cutout { .. } => {
                    items.push(Item::area(to_paper * one.shape(), Some(LineClass::Visible), Fill::Paper));
                }
                Machining::Groove { reverse, .. } if *reverse == self.reverse => {
                    items.push(Item::line(to_paper * one.shape(), LineClass::Detail));
                }
                Machining::Groove { .. } | Machining::Hole { .. } => {}
            }
        }
        items.extend(self.bands());
        items.push(Item::area(circle(to_paper * Point::ZERO, DOT), None, Fill::Ink));
        items
    }

    fn bands(&self) -> Vec<Item> {
        let (length, width, _) = self.row.finished;
        let whole = crate::geometry::Polygon::rect(Rect::new(0.0, 0.0, length, width));
        let outline = self.row.outline.as_ref().unwrap_or(&whole);
        let bands = self.row.bands;
        let on = |a: f64, b: f64, edge: f64| (a - edge).abs() < 0.01 && (b - edge).abs() < 0.01;
        let banded = |a: Point, b: Point| {
            (bands.front > 0.0 && on(a.y, b.y, 0.0))
                || (bands.back > 0.0 && on(a.y, b.y, width))
                || (bands.left > 0.0 && on(a.x, b.x, 0.0))
                || (bands.right > 0.0 && on(a.x, b.x, length))
        };
        let to_paper = self.to_paper();
        let edges = outline.edges().filter(|(a, b)| banded(*a, *b));
        edges.map(|(a, b)| Item::segment(to_paper * a, to_paper * b, LineClass::Frame)).collect()
    }

    /// Draws bores of one kind; where they are.
    fn bores(&self, kind: &Bores<'_>, items: &mut Vec<Item>) -> Vec<Rect> {
        let mut places = Vec::new();
        for bore in &kind.all {
            let (shape, line) = self.bore(bore);
            places.push(bounds(&shape));
            items.push(Item::line(shape, line));
        }
        places
    }

    fn bore(&self, bore: &WorkBore) -> (BezPath, LineClass) {
        let (length, width, _) = self.row.finished;
        let to_paper = self.to_paper();
        let (at, half) = (bore.at.0, bore.diameter / 2.0);
        let deep = |room: f64| bore.depth.unwrap_or(room);
        let hidden = match bore.side {
            BoreSide::Face | BoreSide::Reverse => {
                let radius = (half / self.scale).max(LEAST);
                return (circle(to_paper * Point::from(bore.at), radius), LineClass::Detail);
            }
            BoreSide::Front => Rect::new(at - half, 0.0, at + half, deep(width)),
            BoreSide::Back => Rect::new(at - half, width - deep(width), at + half, width),
            BoreSide::Left => Rect::new(0.0, at - half, deep(length), at + half),
            BoreSide::Right => Rect::new(length - deep(length), at - half, length, at + half),
        };
        (to_paper * outline(hidden), LineClass::Above)
    }

    /// Where others meet the piece: dashed, or their names.
    fn mates(&self, labels: &mut Labels, names: bool) -> Vec<Item> {
        let mut items = Vec::new();
        for mate in &self.work.mates {
            let on_reverse = mate.side == BoreSide::Reverse && self.work.has_reverse(self.row);
            let cut_out = |one: &Machining| matches!(one, Machining::Cutout { name, .. } if mate.with.contains(name));
            if on_reverse != self.reverse || self.row.machining.iter().any(cut_out) {
                continue;
            }
            let place = self.mate(mate);
            if names {
                let (words, inner) = (mate.with.join(" / "), matches!(mate.side, BoreSide::Face | BoreSide::Reverse));
                let place = if inner { place } else { self.inside(place) };
                let upright = place.height() > place.width();
                let _put = labels.put(&words, upright, along(place)) || labels.put(&words, false, along(place));
            } else if matches!(mate.side, BoreSide::Face | BoreSide::Reverse) && place.area() > 0.0 {
                items.push(Item::line(outline(place), LineClass::Above));
            }
        }
        items
    }

    fn mate(&self, mate: &Mate) -> Rect {
        let (length, width, _) = self.row.finished;
        let at = mate.at;
        let flat = match mate.side {
            BoreSide::Face | BoreSide::Reverse => at,
            BoreSide::Front => Rect::new(at.x0, 0.0, at.x1, 0.0),
            BoreSide::Back => Rect::new(at.x0, width, at.x1, width),
            BoreSide::Left => Rect::new(0.0, at.x0, 0.0, at.x1),
            BoreSide::Right => Rect::new(length, at.x0, length, at.x1),
        };
        self.to_paper().transform_rect_bbox(flat)
    }

    /// A line at an edge, moved into the piece for a text to stand beside it.
    fn inside(&self, place: Rect) -> Rect {
        let middle = self.rect().center() - place.center();
        let by = if place.height() > place.width() {
            Vec2::new(1.8 * middle.x.signum(), 0.0)
        } else {
            Vec2::new(0.0, 1.8 * middle.y.signum())
        };
        place + by
    }

    /// Sizes of grooves and names of cut-outs.
    fn machining(&self, labels: &mut Labels) {
        let to_paper = self.to_paper();
        for one in &self.row.machining {
            match one {
                Machining::Cutout { name, outline, .. } => {
                    let _put = labels.put(name, false, over(to_paper.transform_rect_bbox(outline.bounds())));
                }
                Machining::Groove { width, depth, reverse, .. } if *reverse == self.reverse => {
                    let place = to_paper.transform_rect_bbox(one.bounds());
                    let words = format!("{} x {}", trimmed(*width, 1), trimmed(*depth, 1));
                    let _put = labels.put(&words, place.height() > place.width(), along(place).skip(1));
                }
                Machining::Groove { .. } | Machining::Hole { .. } => {}
            }
        }
    }

    /// An arrow along the grain where it has room.
    fn grain(&self, labels: &mut Labels) -> Vec<Item> {
        let way = match self.row.grain {
            Grain::Free => return Vec::new(),
            Grain::Length => Vec2::new(1.0, 0.0),
            Grain::Width => Vec2::new(0.0, 1.0),
        };
        let rect = self.rect();
        let room = (rect.width() * way.x + rect.height() * way.y) * 0.35;
        let half = way * ARROW.0.min(room);
        let air = Vec2::new(ARROW.1, ARROW.1);
        let place = |middle: Point| Rect::from_points(middle - half - air, middle + half + air);
        let Some(middle) = over(rect).find(|middle| labels.is_free(place(*middle))) else { return Vec::new() };
        labels.keep_off(place(middle));
        double_arrow(middle - half, middle + half, LineClass::Detail)
    }
}
