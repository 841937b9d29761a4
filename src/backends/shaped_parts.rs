//! `part-<number>.svg`: each shaped part in true size, mm, with its outline and its machining in groups of their own.
//!
//! As the part lies on the bench: its machined face up, its length to the right. The datum corner, marked by a ring in the
//! group `notes`, is at the lower left of a right-hand part and of one without a hand, at the upper left of a left-hand one.
//! Finished size: what is left on for scribing comes on top. Groups: `outline`, `machining` with
//! `cutouts`, `grooves`, `holes`, and the same on the `reverse`; a machine or a printer takes the ones that it needs.

use super::backend::{Backend, OutputFile, Product, Reads};
use crate::base::number::trimmed;
use crate::diagnostic::Counts;
use crate::geometry::Polygon;
use crate::joinery::{Row, edge_words};
use crate::model::{Hand, Machining};
use kurbo::{Affine, BezPath, Point, Rect, Shape};
use svg::node::element::{Group, Path, Text, Title};

/// Writes one file for each shaped part.
#[derive(Debug, Clone, Copy, Default)]
pub struct ShapedParts;

/// Room around a part, mm.
const AROUND: f64 = 10.0;
/// How far curves may be flattened, mm.
const FLAT: f64 = 0.01;
/// Thickness of lines, mm.
const LINE: f64 = 0.2;

impl Backend for ShapedParts {
    fn name(&self) -> &'static str {
        "shaped-parts"
    }

    fn says(&self) -> &'static str {
        "Shaped parts and parts with cut-outs in true size, one SVG each (part-NUMBER.svg)"
    }

    fn reads(&self) -> &'static [Reads] {
        &[]
    }

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        let shaped = product.figures.cut_list().rows.iter().filter(|row| is_shaped(row));
        let faults = Counts::of(product.findings).faults;
        Ok(shaped.map(|row| file(row, faults)).collect())
    }
}

/// A figure with at most three decimals.
fn number(value: f64) -> String {
    trimmed(value, 3)
}

fn is_shaped(row: &Row) -> bool {
    row.outline.is_some() || row.machining.iter().any(|one| matches!(one, Machining::Cutout { .. }))
}

fn file(row: &Row, faults: usize) -> OutputFile {
    let (length, width, thickness) = row.finished;
    let size = (length + 2.0 * AROUND, width + 2.0 * AROUND);
    let part = Part { row, length, width };
    let title =
        format!("{}: {}, {} x {} x {} mm", row.number, row.name, number(length), number(width), number(thickness));
    let outline = Group::new().set("id", "outline").add(line(&part.outline()));
    let datum = line(&kurbo::Circle::new(part.on_page() * Point::ZERO, 2.0).to_path(FLAT)).set("stroke", "black");
    let words =
        Text::new(words_of(row, faults)).set("x", number(AROUND)).set("y", number(AROUND - 3.0)).set("font-size", 5);
    let document = svg::Document::new()
        .set("width", format!("{}mm", number(size.0)))
        .set("height", format!("{}mm", number(size.1)))
        .set("viewBox", format!("0 0 {} {}", number(size.0), number(size.1)))
        .set("fill", "none")
        .set("stroke", "black")
        .set("stroke-width", LINE)
        .add(Title::new(title))
        .add(outline)
        .add(part.machining(false, "machining"))
        .add(part.machining(true, "reverse"))
        .add(
            Group::new()
                .set("id", "notes")
                .set("fill", "black")
                .set("stroke", "none")
                .add(words)
                .add(datum.set("fill", "none")),
        );
    OutputFile { name: format!("part-{}.svg", row.number), bytes: format!("{document}\n").into_bytes() }
}

/// Number, hand, and what is left on, for the person at the bench.
fn words_of(row: &Row, faults: usize) -> String {
    let held = if faults > 0 { format!("HELD, {faults} faults found, do not cut: ") } else { String::new() };
    let hand = row.hand.map_or(String::new(), |hand| format!(", {} hand", hand.name()));
    let scribe =
        edge_words(&row.scribe).map_or(String::new(), |edges| format!("; left on for scribing beyond it: {edges}"));
    format!("{held}{}{hand}: face up, ring at the datum corner, finished size{scribe}", row.number)
}

fn line(path: &BezPath) -> Path {
    let to = |point: Point| format!("{} {}", number(point.x), number(point.y));
    let element = |element: kurbo::PathEl| match element {
        kurbo::PathEl::MoveTo(a) => format!("M{}", to(a)),
        kurbo::PathEl::LineTo(a) => format!("L{}", to(a)),
        kurbo::PathEl::QuadTo(a, b) => format!("Q{} {}", to(a), to(b)),
        kurbo::PathEl::CurveTo(a, b, c) => format!("C{} {} {}", to(a), to(b), to(c)),
        kurbo::PathEl::ClosePath => "Z".to_owned(),
    };
    Path::new().set("d", path.iter().map(element).collect::<Vec<_>>().join(" "))
}

struct Part<'a> {
    row: &'a Row,
    length: f64,
    width: f64,
}

impl Part<'_> {
    /// From the datum corner to the page: the width goes up, of a left-hand part down.
    fn on_page(&self) -> Affine {
        match self.row.hand {
            Some(Hand::Left) => Affine::translate((AROUND, AROUND)),
            _ => Affine::new([1.0, 0.0, 0.0, -1.0, AROUND, AROUND + self.width]),
        }
    }

    fn outline(&self) -> BezPath {
        let whole = || Rect::new(0.0, 0.0, self.length, self.width).to_path(FLAT);
        let straight = || self.row.outline.as_ref().map_or_else(whole, polygon);
        self.on_page() * self.row.curve.clone().unwrap_or_else(straight)
    }

    /// The machining of the face or of the reverse.
    fn machining(&self, wanted: bool, id: &str) -> Group {
        let (mut cutouts, mut grooves, mut holes) = (Group::new(), Group::new(), Group::new());
        for one in &self.row.machining {
            match one {
                Machining::Cutout { outline, curve, .. } if !wanted => {
                    let path = curve.clone().unwrap_or_else(|| polygon(outline));
                    cutouts = cutouts.add(line(&(self.on_page() * path)));
                }
                Machining::Groove { from, to, width, reverse, .. } if *reverse == wanted => {
                    grooves = grooves.add(line(&(self.on_page() * groove(*from, *to, *width))));
                }
                Machining::Hole { at, diameter, reverse, .. } if *reverse == wanted => {
                    let circle = kurbo::Circle::new(Point::from(*at), diameter / 2.0).to_path(FLAT);
                    holes = holes.add(line(&(self.on_page() * circle)));
                }
                _ => {}
            }
        }
        let named =
            |group: Group, name: &str| group.set("id", if wanted { format!("{id}-{name}") } else { name.to_owned() });
        let group = Group::new().set("id", id);
        group.add(named(cutouts, "cutouts")).add(named(grooves, "grooves")).add(named(holes, "holes"))
    }
}

fn polygon(outline: &Polygon) -> BezPath {
    let mut path = BezPath::new();
    for (index, point) in outline.points().iter().enumerate() {
        if index == 0 { path.move_to(*point) } else { path.line_to(*point) }
    }
    path.close_path();
    path
}

/// The rectangle that a groove takes of the face.
fn groove(from: (f64, f64), to: (f64, f64), width: f64) -> BezPath {
    let (from, to) = (Point::from(from), Point::from(to));
    let along = to - from;
    let side = if along.hypot() > 0.0 { along.turn_90() / along.hypot() * (width / 2.0) } else { kurbo::Vec2::ZERO };
    let mut path = BezPath::new();
    path.move_to(from + side);
    path.line_to(to + side);
    path.line_to(to - side);
    path.line_to(from - side);
    path.close_path();
    path
}
