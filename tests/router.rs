//! Router code, read back by a parser of another author, run on a map of heights and held against the pieces.
//!
//! What is wanted is painted from the cut list by code of this test: sizes, bands and scribe, outline, cut-outs, grooves,
//! bores. Wood may be left in inside corners, as a round tool leaves it; nothing more may be taken than is wanted.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

#[path = "common/mod.rs"]
mod common;
#[path = "common/router_sim.rs"]
mod router_sim;

use boxwright::backends::OutputFile;
use boxwright::base::memo::Memo;
use boxwright::compile::{Compiled, Options, Session, Wanted, read};
use boxwright::figures::{BoreFor, Figures, Work};
use boxwright::geometry::{Polygon, Region};
use boxwright::joinery::Row;
use boxwright::joints::BoreSide;
use boxwright::model::{Hand, Machining};
use boxwright::registry::Registry;
use kurbo::{ParamCurveNearest, Point, Rect, Vec2};
use router_sim::{Board, CELL, Machine};
use std::collections::BTreeMap;

const TOOLS: &str = "
    drill-5: { for: [drill], diameter: 5, speed: 6000, plunge: 1500, pass: 6, deep: 30 }
    drill-8: { for: [drill], diameter: 8, speed: 6000, plunge: 1500, pass: 6, deep: 30 }
    cutter-3: { for: [grooves], diameter: 3, speed: 18000, feed: 2000, plunge: 500, pass: 3, deep: 15 }
    cutter-6: { for: [drill, bores, grooves, cut-outs, outlines], diameter: 6, speed: 18000, feed: 3000, plunge: 800, pass: 6, deep: 40 }
";
const DIAMETERS: [(u32, f64); 4] = [(1, 5.0), (2, 8.0), (3, 3.0), (4, 6.0)];
const SAFE: f64 = 15.0;
const SPOIL: f64 = 0.3;
const TAB: f64 = 2.0;
/// A round tool of 6 mm leaves so much in a square corner: 3 times the root of 2 less 1, and half a cell either way.
const CORNER: f64 = 1.25 + CELL;

/// A demo with a router; saw cuts as wide as its cutter.
fn compiled(demo: &str, more: &str) -> Compiled {
    let mut files = common::yaml_files("layouts");
    let stocks = ["carcass", "front", "worktop", "back", "drawer", "board", "partition"];
    let stocks: String = stocks.iter().map(|stock| format!("  {stock}: {{ kerf: 6.2 }}\n")).collect();
    let text = format!("boxwright: 1\nextends: {demo}.yaml\nstocks:\n{stocks}router:\n  tools: {TOOLS}  {more}\n");
    files.push(("layouts/routed.yaml".to_owned(), text));
    let compiled = read(&common::world(&files), "layouts/routed.yaml", &Registry::standard(), &Options::default());
    assert!(compiled.model.is_some(), "{:?}", compiled.errors);
    compiled
}

fn made(compiled: &Compiled) -> Result<Vec<OutputFile>, String> {
    let session = Session::new(Registry::standard(), Options::default());
    let outputs = session.draw(compiled, &Wanted::default()).unwrap().unwrap();
    let backend = session.registry.backends.iter().find(|one| one.name() == "router").unwrap();
    backend.files(&outputs.product(compiled))
}

/// A side of a piece that lies on the machine: from there to its datum corner.
struct Lying<'a> {
    work: &'a Work,
    row: &'a Row,
    reverse: bool,
    at: Point,
    turned: bool,
    free: bool,
}

impl Lying<'_> {
    /// The raw piece on the machine.
    fn raw(&self) -> Rect {
        let (length, width) = self.row.cut;
        let (across, up) = if self.turned { (width, length) } else { (length, width) };
        Rect::from_origin_size(self.at, (across, up))
    }

    /// The place on the finished piece, from its datum corner.
    fn on_piece(&self, at: Point) -> Point {
        let (x, y) = (at.x - self.at.x, at.y - self.at.y);
        // Lying with its length to the right.
        let (u, v) = if self.turned { (y, self.row.cut.1 - x) } else { (x, y) };
        let (bands, scribe) = (self.row.bands, self.row.scribe);
        let left = bands.left - scribe.left;
        let datum_below = (self.work.hand == Some(Hand::Left)) == self.reverse;
        let across = if datum_below {
            v + bands.front - scribe.front
        } else {
            self.row.finished.1 - (bands.back - scribe.back) - v
        };
        Point::new(u + left, across)
    }

    fn finished(&self) -> Region {
        let whole = Polygon::rect(Rect::new(0.0, 0.0, self.row.finished.0, self.row.finished.1));
        Region::new([self.row.outline.as_ref().unwrap_or(&whole)])
    }

    /// Whether the raw piece is there: the finished one without its bands, with what is left on.
    fn is_wood(&self, finished: &Region, at: Point) -> bool {
        let sides = [
            (self.row.bands.left, self.row.scribe.left, Vec2::new(1.0, 0.0)),
            (self.row.bands.right, self.row.scribe.right, Vec2::new(-1.0, 0.0)),
            (self.row.bands.front, self.row.scribe.front, Vec2::new(0.0, 1.0)),
            (self.row.bands.back, self.row.scribe.back, Vec2::new(0.0, -1.0)),
        ];
        let mut tries = vec![at];
        for (_, scribe, inward) in sides.iter().filter(|(_, scribe, _)| *scribe > 0.0) {
            tries.extend(
                tries.clone().iter().flat_map(|at| (1..=10).map(|k| *at + *inward * (scribe * f64::from(k) / 10.0))),
            );
        }
        let bands = |at: &Point| sides.iter().all(|(band, _, inward)| finished.contains(*at - *inward * *band));
        tries.iter().any(|at| finished.contains(*at) && bands(at))
    }

    /// Depths that are wanted, cell by cell; `None` where it does not matter: beside the piece.
    fn wanted(&self, board: &Board, pilots: bool, into: &mut [Option<f64>]) {
        let through = self.row.finished.2 + SPOIL;
        let (finished, plain, raw) = (self.finished(), self.row.outline.is_none(), self.raw());
        for cell in board.cells(self.raw()) {
            let at = self.on_piece(board.middle(cell));
            let wood = plain || self.is_wood(&finished, at);
            // What of a shaped piece is sawn off comes loose or stays.
            into[cell] = wood.then_some(0.0);
        }
        let mut dig = |bounds: Rect, depth: f64, inside: &dyn Fn(Point) -> bool| {
            let corners = [(bounds.x0, bounds.y0), (bounds.x1, bounds.y1)].map(|corner| self.on_machine(corner.into()));
            for cell in board.cells(Rect::from_points(corners[0], corners[1]).inflate(1.0, 1.0)) {
                if !raw.contains(board.middle(cell)) {
                    continue;
                }
                if let Some(wanted) = into[cell].as_mut().filter(|_| inside(self.on_piece(board.middle(cell)))) {
                    *wanted = wanted.max(depth);
                }
            }
        };
        let side = if self.reverse { BoreSide::Reverse } else { BoreSide::Face };
        for bore in self.work.bores.iter().filter(|bore| bore.side == side && (pilots || bore.of != BoreFor::Screw)) {
            let (middle, radius) = (Point::from(bore.at), bore.diameter / 2.0);
            let bounds = Rect::from_center_size(middle, (bore.diameter, bore.diameter));
            dig(bounds, bore.depth.unwrap_or(through), &|at| at.distance(middle) <= radius);
        }
        let mut slugs: Vec<&Polygon> = Vec::new();
        for one in &self.row.machining {
            match one {
                Machining::Cutout { outline, .. } if !self.reverse => {
                    let region = Region::new([outline]);
                    dig(outline.bounds(), through, &|at| region.contains(at));
                    slugs.push(outline);
                }
                Machining::Groove { from, to, width, depth, reverse, .. } if *reverse == self.reverse => {
                    let (from, to) = (Point::from(*from), Point::from(*to));
                    let along = (to - from) / (to - from).hypot();
                    // An end at the edge of the finished piece runs out of it, bands or not.
                    let out = |at: Point, way: Vec2| if finished.contains(at + way * 0.5) { 0.0 } else { 50.0 };
                    let (before, behind) = (out(from, -along), out(to, along));
                    let inside = |at: Point| {
                        let s = (at - from).dot(along);
                        s >= -before
                            && s <= (to - from).hypot() + behind
                            && (at - from).cross(along).abs() <= width / 2.0
                    };
                    let ends = Rect::from_points(from - along * before, to + along * behind);
                    dig(ends.inflate(*width, *width), *depth, &inside);
                }
                _ => {}
            }
        }
        slugs.iter().for_each(|outline| self.falls_out(outline, board, into));
    }

    /// What falls out of a cut-out does not matter; where that is open at an edge of the piece, nothing is cut along it.
    fn falls_out(&self, outline: &Polygon, board: &Board, into: &mut [Option<f64>]) {
        let region = Region::new([outline]);
        for cell in board.cells(self.raw()) {
            let at = self.on_piece(board.middle(cell));
            let (length, width, _) = self.row.finished;
            let on = |a: f64, b: f64, edge: f64| (a - edge).abs() < 0.1 && (b - edge).abs() < 0.1;
            let open = |(a, b): &(Point, Point)| {
                on(a.x, b.x, 0.0) || on(a.x, b.x, length) || on(a.y, b.y, 0.0) || on(a.y, b.y, width)
            };
            let far = |(a, b)| kurbo::Line::new(a, b).nearest(at, 1e-6).distance_sq > 30.0;
            let deep = || outline.edges().filter(|edge| !open(edge)).all(far);
            if outline.bounds().contains(at) && region.contains(at) && deep() {
                into[cell] = None;
            }
        }
    }

    fn on_machine(&self, at: Point) -> Point {
        // The way there is its own inverse but for a shift: found by two places.
        let (zero, one) = (self.on_piece(Point::ZERO), self.on_piece(Point::new(1.0, 0.0)));
        let up = self.on_piece(Point::new(0.0, 1.0));
        let (a, b) = (one - zero, up - zero);
        let of = at - zero;
        Point::new(of.dot(a), of.dot(b))
    }
}

/// Wood that is left or taken where it should not be.
fn compare(board: &Board, wanted: &[Option<f64>], says: &str) {
    let near = |cell: usize, reach: f64, depth: f64| {
        let middle = board.middle(cell);
        let around = board.cells(Rect::from_center_size(middle, (2.0 * reach, 2.0 * reach)));
        let alike = |other: &usize| {
            board.middle(*other).distance(middle) <= reach
                && wanted[*other].is_none_or(|other| (other - depth).abs() < 0.01)
        };
        around.iter().any(alike)
    };
    for (cell, wanted) in wanted.iter().enumerate() {
        let Some(wanted) = *wanted else { continue };
        let is = -board.heights[cell];
        let at = board.middle(cell);
        if is > wanted + 0.01 {
            assert!(near(cell, 1.01 * CELL, is), "{says}: {is} deep at {at:?} in place of {wanted}");
        } else if is < wanted - 0.01 {
            let tab = wanted > 0.0 && (is - (wanted - SPOIL - TAB)).abs() < 0.01;
            assert!(tab || near(cell, CORNER, is), "{says}: {is} deep at {at:?} in place of {wanted}");
        }
    }
}

fn run(board: &mut Board, thickness: f64, files: &[&OutputFile]) {
    for file in files {
        let tools: BTreeMap<u32, f64> = DIAMETERS.into_iter().collect();
        let mut machine = Machine::new(board, tools, (SAFE, -(thickness + SPOIL)));
        machine.run(std::str::from_utf8(&file.bytes).unwrap());
    }
}

/// Every side of every piece of a demo that is sawn already.
#[test]
fn pieces_become_what_the_cut_list_says() {
    let compiled = compiled("marram", "files: pieces");
    let files = made(&compiled).unwrap();
    let memo = Memo::default();
    let figures = Figures::new(compiled.model.as_ref().unwrap(), &memo);
    let (mut jobs, mut used) = (0, 0);
    for work in figures.works() {
        let row = &figures.cut_list().rows[work.row];
        for reverse in [false, true] {
            let side = if reverse { "-reverse" } else { "" };
            let name = format!("router-{}{side}", work.number(row).replace(' ', "-"));
            let own = |file: &&OutputFile| {
                let rest = file.name.strip_prefix(&name);
                rest.is_some_and(|rest| {
                    rest == ".nc"
                        || rest.strip_prefix('-').is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()))
                })
            };
            let own: Vec<&OutputFile> = files.iter().filter(own).collect();
            let lying = Lying { work, row, reverse, at: Point::ZERO, turned: false, free: row.outline.is_some() };
            let mut board = Board::new(lying.raw().inflate(10.0, 10.0));
            let mut wanted = vec![None; board.heights.len()];
            lying.wanted(&board, false, &mut wanted);
            if own.is_empty() {
                assert!(wanted.iter().flatten().all(|depth| *depth == 0.0), "{name} has no file");
                continue;
            }
            run(&mut board, row.finished.2, &own);
            compare(&board, &wanted, &name);
            jobs += 1;
            used += own.len();
        }
    }
    assert!(jobs > 25 && used == files.len(), "{jobs} jobs, {used} of {} files", files.len());
}

/// Nested sheets: every piece at its place in the plan, cut free but for its tabs, and all of it still held by the sheet.
#[test]
fn sheets_are_cut_as_they_are_nested() {
    let compiled = compiled("marram", "files: sheets");
    let files = made(&compiled).unwrap();
    let memo = Memo::default();
    let figures = Figures::new(compiled.model.as_ref().unwrap(), &memo);
    let (model, list) = (figures.model, figures.cut_list());
    let total = list.totals.iter().find(|total| total.names(model).contains("carcass")).unwrap();
    let stock = total.stocks(model).next().unwrap();
    let sawn = boxwright::joinery::sawn(model, list);
    for (index, sheet) in total.plan.sheets.iter().enumerate().take(1) {
        let name = format!("router-{}-{}-", stock.name, index + 1);
        let own: Vec<&OutputFile> = files.iter().filter(|file| file.name.starts_with(&name)).collect();
        assert!(own.len() >= 2, "{name}");
        let mut board = Board::new(Rect::new(0.0, 0.0, sheet.size.0, sheet.size.1).inflate(10.0, 10.0));
        let mut wanted = vec![None; board.heights.len()];
        run(&mut board, stock.thickness, &own);
        let held = board.held(-stock.thickness);
        let of_sheet =
            |from: &boxwright::joinery::SawnFrom<'_>| std::ptr::eq(from.total, total) && from.sheet == index + 1;
        for piece in sawn.iter().filter(|piece| piece.from.as_ref().is_some_and(of_sheet)) {
            let (row, placed) = (piece.row, piece.from.as_ref().unwrap().placed);
            let work = figures.work_of(piece.index, piece.copy).unwrap();
            let lying = Lying {
                work,
                row,
                reverse: false,
                at: Point::new(placed.x, placed.y),
                turned: placed.turned,
                free: true,
            };
            lying.wanted(&board, false, &mut wanted);
            around(&board, &lying, &held, &row.number);
        }
        compare(&board, &wanted, &name);
    }
}

/// Beside a rectangular piece everything is cut through but the tabs, of which there are two at least.
fn around(board: &Board, lying: &Lying<'_>, held: &[bool], says: &str) {
    assert!(lying.free);
    let raw = lying.raw();
    let middle = board.cells(Rect::from_center_size(raw.center(), (raw.width() * 0.9, raw.height() * 0.9)));
    let wood = middle.iter().filter(|cell| board.heights[**cell] > -lying.row.finished.2);
    assert!(wood.clone().count() > 0 && wood.clone().all(|cell| held[*cell]), "{says} comes loose");
    if lying.row.outline.is_some() {
        return;
    }
    let thickness = lying.row.finished.2;
    let ring = raw.inflate(3.0, 3.0);
    let count = |from: Point, way: Vec2, long: f64| {
        let (mut tabs, mut on) = (0, false);
        for step in 0..(long / CELL) as usize {
            let at = from + way * (step as f64 * CELL);
            let cell = board.cells(Rect::from_center_size(at, (CELL, CELL)));
            let height = board.heights[cell[0]];
            let tab = height > -thickness;
            assert!(!tab || height <= TAB - thickness + 1e-6, "{says} is not cut at {at:?}: {height}");
            tabs += usize::from(tab && !on);
            on = tab;
        }
        tabs
    };
    let corners = [(ring.x0, ring.y0), (ring.x1, ring.y0), (ring.x1, ring.y1), (ring.x0, ring.y1)].map(Point::from);
    let ways = [Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0), Vec2::new(-1.0, 0.0), Vec2::new(0.0, -1.0)];
    // The corners of the ring are cut round.
    let sides = corners.into_iter().zip(ways).zip([ring.width(), ring.height(), ring.width(), ring.height()]);
    let tabs: usize = sides.map(|((from, way), long)| count(from + way * 4.0, way, long - 8.0)).sum();
    assert!(tabs >= 2, "{says} hangs at {tabs} tabs");
}

/// One file with changes of tools and a word for millimetres, or one for each tool.
#[test]
fn a_controller_that_changes_tools_gets_one_file() {
    let one = made(&compiled("skua", "files: pieces\n  change: M6\n  millimetres: G21")).unwrap();
    let many = made(&compiled("skua", "files: pieces")).unwrap();
    assert!(one.len() < many.len());
    let text = |file: &OutputFile| String::from_utf8(file.bytes.clone()).unwrap();
    assert!(one.iter().all(|file| text(file).contains("\nG21\n") && text(file).contains(" M6\n")));
    assert!(many.iter().all(|file| !text(file).contains("G21") && !text(file).contains("M6")));
    assert!(one.iter().all(|file| text(file).starts_with("%\n(CAUTION: simulate")));
}

#[test]
fn a_bore_that_no_tool_can_do_is_named() {
    let files = |tools: &str, kerf: &str| {
        let mut files = common::yaml_files("layouts");
        let text = format!("boxwright: 1\nextends: marram.yaml\n{kerf}router: {{ tools: {{ {tools} }} }}\n");
        files.push(("layouts/routed.yaml".to_owned(), text));
        made(&read(&common::world(&files), "layouts/routed.yaml", &Registry::standard(), &Options::default()))
    };
    let cutter = "c: { for: [outlines], diameter: 3, speed: 18000, feed: 2000, plunge: 500, pass: 3, deep: 40 }";
    let told = files(cutter, "").unwrap_err();
    assert!(told.contains("no tool") && told.contains("give `tools`"), "{told}");
    let wide = "c: { for: [outlines], diameter: 12, speed: 18000, feed: 2000, plunge: 500, pass: 3, deep: 40 }";
    let told = files(wide, "").unwrap_err();
    assert!(told.contains("12 mm wide; write `kerf: 12`"), "{told}");
    let none = made(&read(
        &common::world(&common::yaml_files("layouts")),
        "layouts/marram.yaml",
        &Registry::standard(),
        &Options::default(),
    ));
    assert!(none.unwrap_err().contains("write its tools under `router`"));
}
