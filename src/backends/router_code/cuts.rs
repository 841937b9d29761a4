//! What is done to one piece, in order: bores, grooves, cut-outs, its outline.

use super::shapes::{self, Groove};
use super::tools;
use crate::base::tolerance::PART_EDGE;
use crate::figures::{BoreFor, Work, on_bench};
use crate::geometry::{Contour, Region};
use crate::joinery::Row;
use crate::joints::BoreSide;
use crate::model::{Machining, Router, Tool, ToolUse};
use kurbo::{Affine, Point, Vec2};

/// One cut of one tool.
pub(super) struct Cut<'r> {
    /// Bores 0, grooves 1, cut-outs 2, outlines 3.
    pub class: u8,
    pub tool: &'r Tool,
    /// Of which piece.
    pub of: String,
    pub way: Way,
}

/// How a tool moves.
pub(super) enum Way {
    /// Straight down.
    Down { at: Point, depth: f64 },
    /// Circles from the inside, at each depth.
    Rings { at: Point, radii: Vec<f64>, depth: f64 },
    /// Lines at each depth, each there or around.
    Lines { ways: Vec<Vec<Point>>, depth: f64 },
    /// Right through along a closed way, with tabs left about some places where something would come loose.
    Through { way: Contour, tabs: Vec<Point> },
}

/// A piece on the machine.
pub(super) struct Piece<'a> {
    pub work: &'a Work,
    pub row: &'a Row,
    pub reverse: bool,
    /// The lower left corner of the raw piece.
    pub at: Point,
    /// Turned by a right angle.
    pub turned: bool,
    /// Whether its outline is cut.
    pub cut_free: bool,
}

impl Piece<'_> {
    fn number(&self) -> String {
        self.work.number(self.row)
    }

    /// From the datum corner of the finished piece to the machine.
    fn place(&self) -> Affine {
        let bench = on_bench(self.work, self.row, self.reverse);
        let raw = bench.transform_rect_bbox(shapes::raw(self.row));
        let home = Affine::translate(-raw.origin().to_vec2()) * bench;
        let turn = Affine::new([0.0, 1.0, -1.0, 0.0, raw.height(), 0.0]);
        let turned = if self.turned { turn * home } else { home };
        Affine::translate(self.at.to_vec2()) * turned
    }

    /// All cuts of this side.
    pub fn cuts<'r>(&self, router: &'r Router) -> Result<Vec<Cut<'r>>, String> {
        let mut cuts = self.bores(router)?;
        cuts.extend(self.grooves(router)?);
        if !self.reverse {
            cuts.extend(self.cut_outs(router)?);
            cuts.extend(self.outline(router)?);
        }
        Ok(cuts)
    }

    /// Down through the board and a little more.
    fn through(&self, router: &Router) -> f64 {
        self.row.finished.2 + router.spoil
    }

    fn bores<'r>(&self, router: &'r Router) -> Result<Vec<Cut<'r>>, String> {
        let side = if self.reverse { BoreSide::Reverse } else { BoreSide::Face };
        let place = self.place();
        let mut cuts = Vec::new();
        for bore in self.work.bores.iter().filter(|bore| bore.side == side) {
            if bore.of == BoreFor::Screw && !router.pilots {
                continue;
            }
            let depth = bore.depth.unwrap_or_else(|| self.through(router));
            let (tool, straight) = tools::for_bore(router, (bore.diameter, depth), &self.number())?;
            let at = place * Point::from(bore.at);
            let way = if straight {
                Way::Down { at, depth }
            } else {
                Way::Rings { at, radii: shapes::rings(bore.diameter, tool.diameter), depth }
            };
            cuts.push(Cut { class: 0, tool, of: self.number(), way });
        }
        Ok(cuts)
    }

    fn grooves<'r>(&self, router: &'r Router) -> Result<Vec<Cut<'r>>, String> {
        let (place, raw) = (self.place(), shapes::raw(self.row));
        let whole =
            crate::geometry::Polygon::rect(kurbo::Rect::new(0.0, 0.0, self.row.finished.0, self.row.finished.1));
        let finished = Region::new([self.row.outline.as_ref().unwrap_or(&whole)]);
        let mut cuts = Vec::new();
        for one in &self.row.machining {
            let Machining::Groove { from, to, width, depth, reverse, .. } = one else { continue };
            if *reverse != self.reverse {
                continue;
            }
            let tool = tools::for_groove(router, (*width, *depth), &self.number())?;
            let ends = (Point::from(*from), Point::from(*to));
            let open = |at: Point| !finished.contains(at);
            let groove = Groove::new(ends, (*width, tool.diameter), (raw, open), place);
            let way = Way::Lines { ways: groove.ways(), depth: *depth };
            cuts.push(Cut { class: 1, tool, of: self.number(), way });
        }
        Ok(cuts)
    }

    fn cut_outs<'r>(&self, router: &'r Router) -> Result<Vec<Cut<'r>>, String> {
        let (place, mut cuts) = (self.place(), Vec::new());
        let wood = shapes::placed(&shapes::outline(self.row), place);
        for one in &self.row.machining {
            let Machining::Cutout { name, outline, .. } = one else { continue };
            let of = self.number();
            let tool = tools::through(router, ToolUse::CutOuts, self.through(router), &of)?;
            let region = shapes::placed(&Region::new([outline]), place);
            // One that reaches the edge of the board is cut from outside, too.
            let open = !region.grown(PART_EDGE).subtract(&wood).is_empty();
            let region = if open { region.union(&region.grown(tool.diameter).subtract(&wood)) } else { region };
            let ways = shapes::inside(&region, tool.diameter);
            if ways.is_empty() {
                return Err(format!(
                    "the cutter `{}` is wider than the cut-out {name} of {of}; give `tools` a narrower one before it",
                    tool.name
                ));
            }
            let loose = shapes::falls_out(&region, tool.diameter);
            for way in ways {
                let tabs = if loose { self.tabs(router, tool, &way, 1)? } else { Vec::new() };
                cuts.push(Cut { class: 2, tool, of: of.clone(), way: Way::Through { way, tabs } });
            }
        }
        Ok(cuts)
    }

    fn outline<'r>(&self, router: &'r Router) -> Result<Vec<Cut<'r>>, String> {
        if !self.cut_free {
            return Ok(Vec::new());
        }
        let of = self.number();
        let tool = tools::through(router, ToolUse::Outlines, self.through(router), &of)?;
        let board = shapes::placed(&shapes::outline(self.row), self.place());
        let mut cuts = Vec::new();
        for way in shapes::around(&board, tool.diameter) {
            let tabs = self.tabs(router, tool, &way, 2)?;
            cuts.push(Cut { class: 3, tool, of: of.clone(), way: Way::Through { way, tabs } });
        }
        Ok(cuts)
    }

    /// The middles of the tabs of a way, at least so many; they leave a third of it free.
    fn tabs(&self, router: &Router, tool: &Tool, way: &Contour, least: usize) -> Result<Vec<Point>, String> {
        let long = way.length();
        let most = (long * 2.0 / 3.0 / (router.tab_length + tool.diameter)).floor().max(0.0) as usize;
        let wanted = (long / router.tab_every).ceil().max(least as f64) as usize;
        if router.tab_thickness >= self.row.finished.2 {
            return Err(format!(
                "tabs of {} mm are as thick as {}; write a smaller `tab-thickness`",
                router.tab_thickness,
                self.number()
            ));
        }
        if most < least {
            let message = "is too small for tabs that hold it; write a smaller `tab-length`, or saw it by hand";
            return Err(format!("{} {message}", self.number()));
        }
        let count = wanted.min(most);
        let each = long / count as f64;
        let marks: Vec<f64> = (0..count).map(|at| each * (at as f64 + 0.5)).collect();
        Ok(marks.iter().map(|mark| way.at(*mark)).collect())
    }
}

/// A place moved along.
pub(super) fn on_circle(middle: Point, radius: f64, right: bool) -> Point {
    middle + Vec2::new(if right { radius } else { -radius }, 0.0)
}
