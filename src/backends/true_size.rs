//! `part-<number>.svg` and `part-<number>-reverse.svg`: each worked side of a piece in true size, mm.
//!
//! As the piece lies on the bench: the side that the file is for up, its length to the right. The datum corner, marked by a
//! ring in the group `notes`, is at the lower left of a right-hand piece and of one without a hand, at the upper left of a
//! left-hand one; the reverse is turned over about the length. Finished size: what is left on for scribing comes on top. A
//! group for each tool and depth: `bore-35-d11.5`, `pilot-3-through`, `groove-6.2-d7`, `cut-through`, and the `outline`.

use super::backend::{Backend, OutputFile, Product, Reads};
use crate::base::number::trimmed;
use crate::diagnostic::Held;
use crate::figures::{BoreFor, Work, on_bench, outline_of};
use crate::joinery::{Row, edge_words};
use crate::joints::BoreSide;
use crate::model::Machining;
use kurbo::{Affine, BezPath, Circle, Point, Shape};
use std::collections::BTreeMap;
use svg::node::element::{Group, Path, Text, Title};

/// Writes one file for each worked side of each piece.
#[derive(Debug, Clone, Copy, Default)]
pub struct TrueSize;

/// Room around a part, mm.
const AROUND: f64 = 10.0;
/// How far curves may be flattened, mm.
const FLAT: f64 = 0.01;
/// Thickness of lines, mm.
const LINE: f64 = 0.2;

impl Backend for TrueSize {
    fn name(&self) -> &'static str {
        "true-size"
    }

    fn says(&self) -> &'static str {
        "Machined and shaped pieces in true size, one SVG a side (part-NUMBER.svg, part-NUMBER-reverse.svg)"
    }

    fn reads(&self) -> &'static [Reads] {
        &[]
    }

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        let rows = &product.figures.cut_list().rows;
        let held = product.held();
        let worked = product.figures.works().iter().filter_map(|work| Some((work, rows.get(work.row)?)));
        let sides = worked.flat_map(|(work, row)| [false, true].map(|reverse| Side { work, row, reverse }));
        Ok(sides.filter(Side::is_made).map(|side| side.file(held)).collect())
    }
}

/// A figure with at most three decimals.
fn number(value: f64) -> String {
    trimmed(value, 3)
}

/// One side of a piece.
struct Side<'a> {
    work: &'a Work,
    row: &'a Row,
    reverse: bool,
}

impl Side<'_> {
    /// A piece that is machined or shaped has a file, and its reverse if that is worked. Pilot holes alone, which are
    /// drilled in place, make none.
    fn is_made(&self) -> bool {
        let dowel =
            |of: BoreFor, side: BoreSide| of == BoreFor::Dowel && matches!(side, BoreSide::Face | BoreSide::Reverse);
        let dowels = self.work.bores.iter().any(|bore| dowel(bore.of, bore.side));
        let made = self.row.outline.is_some() || !self.row.machining.is_empty() || dowels;
        made && (!self.reverse || self.work.has_reverse(self.row))
    }

    /// From the datum corner to the page, whose y runs down.
    fn on_page(&self) -> Affine {
        let down = Affine::new([1.0, 0.0, 0.0, -1.0, AROUND, AROUND + self.row.finished.1]);
        down * on_bench(self.work, self.row, self.reverse)
    }

    fn file(&self, held: Held) -> OutputFile {
        let (length, width, thickness) = self.row.finished;
        let size = (length + 2.0 * AROUND, width + 2.0 * AROUND);
        let number_of = self.work.number(self.row);
        let title = format!(
            "{number_of}, {}: {}, {} x {} x {} mm",
            self.name(),
            self.row.name,
            number(length),
            number(width),
            number(thickness)
        );
        let document = svg::Document::new()
            .set("width", format!("{}mm", number(size.0)))
            .set("height", format!("{}mm", number(size.1)))
            .set("viewBox", format!("0 0 {} {}", number(size.0), number(size.1)))
            .set("fill", "none")
            .set("stroke", "black")
            .set("stroke-width", LINE)
            .add(Title::new(title))
            .add(Group::new().set("id", "outline").add(line(&(self.on_page() * outline_of(self.row)))));
        let group = |document: svg::Document, (name, paths): (String, Vec<BezPath>)| {
            let group = Group::new().set("id", name);
            document.add(paths.iter().fold(group, |group, path| group.add(line(&(self.on_page() * path.clone())))))
        };
        let document = self.groups().into_iter().fold(document, group).add(self.notes(held));
        let reverse = if self.reverse { "-reverse" } else { "" };
        OutputFile {
            name: format!("part-{}{reverse}.svg", number_of.replace(' ', "-")),
            bytes: format!("{document}\n").into_bytes(),
        }
    }

    fn name(&self) -> &'static str {
        if self.reverse { "reverse up, turned over about its length" } else { "face up" }
    }

    /// What is cut from this side, by tool and depth.
    fn groups(&self) -> BTreeMap<String, Vec<BezPath>> {
        let mut groups: BTreeMap<String, Vec<BezPath>> = BTreeMap::new();
        let mut add = |name: String, path: BezPath| groups.entry(name).or_default().push(path);
        for one in &self.row.machining {
            match one {
                Machining::Cutout { .. } if !self.reverse => add("cut-through".to_owned(), one.shape()),
                Machining::Groove { width, depth, reverse, .. } if *reverse == self.reverse => {
                    add(format!("groove-{}-d{}", number(*width), number(*depth)), one.shape());
                }
                _ => {}
            }
        }
        let side = if self.reverse { BoreSide::Reverse } else { BoreSide::Face };
        for bore in self.work.bores.iter().filter(|bore| bore.side == side) {
            let tool = if bore.of == BoreFor::Screw { "pilot" } else { "bore" };
            let deep = bore.depth.map_or_else(|| "through".to_owned(), |depth| format!("d{}", number(depth)));
            let circle = Circle::new(Point::from(bore.at), bore.diameter / 2.0).to_path(FLAT);
            add(format!("{tool}-{}-{deep}", number(bore.diameter)), circle);
        }
        groups
    }

    /// The datum corner, and words for the person at the bench: number, hand, side, and what is left on.
    fn notes(&self, held: Held) -> Group {
        let found = || format!("{}, {} found, do not cut: ", held.word(), held.reasons());
        let held = if held.any() { found() } else { String::new() };
        let hand = self.work.hand.map_or(String::new(), |hand| format!(", {} hand", hand.name()));
        let scribe = edge_words(&self.row.scribe)
            .map_or(String::new(), |edges| format!("; left on for scribing beyond it: {edges}"));
        let number_of = self.work.number(self.row);
        let words =
            format!("{held}{number_of}{hand}: {}, ring at the datum corner, finished size{scribe}", self.name());
        let words = Text::new(words).set("x", number(AROUND)).set("y", number(AROUND - 3.0)).set("font-size", 5);
        let datum = line(&Circle::new(self.on_page() * Point::ZERO, 2.0).to_path(FLAT)).set("stroke", "black");
        let notes = Group::new().set("id", "notes").set("fill", "black").set("stroke", "none");
        notes.add(words).add(datum.set("fill", "none"))
    }
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
