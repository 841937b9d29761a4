//! A router in the computer: it reads code with a parser of another author and takes wood away on a map of heights.

#![allow(dead_code, reason = "each test uses a part of it")]
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a test may stop at once"
)]

use gcode::{Argument, Code, Value};
use kurbo::{Point, Rect, Vec2};
use std::collections::BTreeMap;

/// Side of a cell of the map, mm.
pub const CELL: f64 = 0.5;

/// Heights over a part of the machine's table; 0 is the upper face of the board.
pub struct Board {
    pub area: Rect,
    pub columns: usize,
    pub rows: usize,
    pub heights: Vec<f64>,
}

impl Board {
    pub fn new(area: Rect) -> Self {
        let (columns, rows) = ((area.width() / CELL).ceil() as usize, (area.height() / CELL).ceil() as usize);
        Self { area, columns, rows, heights: vec![0.0; columns * rows] }
    }

    pub fn middle(&self, index: usize) -> Point {
        let (row, column) = (index / self.columns, index % self.columns);
        self.area.origin() + Vec2::new((column as f64 + 0.5) * CELL, (row as f64 + 0.5) * CELL)
    }

    /// Cells whose middles lie in a rectangle.
    pub fn cells(&self, rect: Rect) -> Vec<usize> {
        let low = |value: f64, from: f64| ((value - from) / CELL - 0.5).ceil().max(0.0) as usize;
        let high = |value: f64, from: f64, most: usize| {
            (((value - from) / CELL - 0.5).floor() + 1.0).clamp(0.0, most as f64) as usize
        };
        let (x0, x1) = (low(rect.x0, self.area.x0), high(rect.x1, self.area.x0, self.columns));
        let (y0, y1) = (low(rect.y0, self.area.y0), high(rect.y1, self.area.y0, self.rows));
        (y0..y1)
            .flat_map(|row| (x0..x1).map(move |column| (row, column)))
            .map(|(row, column)| row * self.columns + column)
            .collect()
    }

    /// What is joined to the edge of the map by wood that is left, cell by cell beside each other.
    pub fn held(&self, bottom: f64) -> Vec<bool> {
        let mut held = vec![false; self.heights.len()];
        let mut next: Vec<usize> = (0..self.heights.len())
            .filter(|at| {
                at % self.columns == 0
                    || at % self.columns == self.columns - 1
                    || at / self.columns == 0
                    || at / self.columns == self.rows - 1
            })
            .collect();
        while let Some(at) = next.pop() {
            if held[at] || self.heights[at] <= bottom {
                continue;
            }
            held[at] = true;
            let (row, column) = (at / self.columns, at % self.columns);
            if column > 0 {
                next.push(at - 1);
            }
            if column + 1 < self.columns {
                next.push(at + 1);
            }
            if row > 0 {
                next.push(at - self.columns);
            }
            if row + 1 < self.rows {
                next.push(at + self.columns);
            }
        }
        held
    }
}

/// The machine.
pub struct Machine<'a> {
    pub board: &'a mut Board,
    /// Diameters of the tools by number.
    pub tools: BTreeMap<u32, f64>,
    pub safe: f64,
    /// No tool may go below this.
    pub bottom: f64,
    at: Point,
    z: f64,
    tool: Option<u32>,
    turns: bool,
    pub deepest: f64,
}

impl<'a> Machine<'a> {
    pub fn new(board: &'a mut Board, tools: BTreeMap<u32, f64>, (safe, bottom): (f64, f64)) -> Self {
        Self { board, tools, safe, bottom, at: Point::new(-1e4, -1e4), z: 1e3, tool: None, turns: false, deepest: 0.0 }
    }

    /// Runs a program. Everything that is not in the small set of words stops it.
    pub fn run(&mut self, text: &str) {
        assert!(text.is_ascii() && text.starts_with("%\n(CAUTION") && text.ends_with("M30\n%\n"), "{text}");
        assert!(text.lines().all(|line| line.len() <= 72), "a line is too long");
        // Where the controller changes no tool, the head names the one that is in.
        let first = text.lines().find_map(|line| line.strip_prefix("(tool ")).unwrap();
        self.tool = first.split(':').next().unwrap().parse().ok();
        let body: String = text.lines().filter(|line| *line != "%").map(|line| format!("{line}\n")).collect();
        let program = gcode::parse(&body).unwrap();
        let (mut absolute, mut plane, mut ended) = (false, false, false);
        for block in &program.blocks {
            assert!(!ended || block.codes.is_empty());
            for code in &block.codes {
                match code {
                    Code::General(code) => match (code.number.major(), code.number.minor()) {
                        (17, None) => plane = true,
                        (90, None) => absolute = true,
                        (21, None) => {}
                        (0..=3, None) => {
                            assert!(absolute && plane);
                            self.moves(code.number.major(), &code.args);
                        }
                        other => panic!("G{other:?}"),
                    },
                    Code::Miscellaneous(code) => match code.number.major() {
                        3 => self.turns = true,
                        5 => self.turns = false,
                        6 => assert!(!self.turns && self.z >= self.safe),
                        30 => ended = true,
                        other => panic!("M{other}"),
                    },
                    Code::ToolChange(code) => self.tool = Some(code.number.major()),
                    other => panic!("{other:?}"),
                }
            }
            assert!(block.word_addresses.iter().all(|word| word.letter == 'S'), "{:?}", block.word_addresses);
        }
        assert!(ended && !self.turns && self.z >= self.safe);
    }

    fn moves(&mut self, kind: u32, args: &[Argument]) {
        let value = |letter: char| {
            args.iter().find(|arg| arg.letter == letter).map(|arg| match &arg.value {
                Value::Literal(value) => f64::from(*value),
                other => panic!("{other:?}"),
            })
        };
        let to = Point::new(value('X').unwrap_or(self.at.x), value('Y').unwrap_or(self.at.y));
        let z = value('Z').unwrap_or(self.z);
        let allowed = match kind {
            0 => "XYZ",
            1 => "XYZF",
            _ => "XYIJF",
        };
        assert!(args.iter().all(|arg| allowed.contains(arg.letter)), "{args:?}");
        assert!(z >= self.bottom - 1e-3, "{z} is below the spoil allowance");
        assert!(kind == 0 || (self.turns && value('F').unwrap() > 0.0), "cuts with a tool that stands");
        self.deepest = self.deepest.min(z);
        let radius = self.tools[&self.tool.unwrap()] / 2.0;
        match kind {
            0 => {
                assert!(
                    to == self.at || z.min(self.z) >= self.safe - 1e-6 || self.z > 1e2,
                    "a rapid move along is low"
                );
                // Over what is there already, with no wood in its way.
                let low = z.min(self.z);
                for cell in self.under(to, to, radius) {
                    assert!(self.board.heights[cell] <= low + 1e-3, "a rapid move cuts at {to:?}, {low}");
                }
            }
            1 => {
                assert!(to == self.at || (z - self.z).abs() < 1e-6, "along and down at once");
                self.cut(self.at, to, radius, z);
            }
            _ => {
                let centre = self.at + Vec2::new(value('I').unwrap(), value('J').unwrap());
                self.arc((centre, kind == 3), to, radius, z);
            }
        }
        (self.at, self.z) = (to, z);
    }

    fn arc(&mut self, (centre, left): (Point, bool), to: Point, radius: f64, z: f64) {
        let (a, b) = (self.at - centre, to - centre);
        assert!((a.hypot() - b.hypot()).abs() < 0.01, "an arc that does not close: {} {}", a.hypot(), b.hypot());
        let mut turn = (b.atan2() - a.atan2()).rem_euclid(std::f64::consts::TAU);
        if !left {
            turn -= std::f64::consts::TAU;
        }
        assert!(turn.abs() < 3.3, "more than half a circle: {turn}");
        let steps = ((turn.abs() * a.hypot()) / 0.2).ceil().max(1.0);
        let mut from = self.at;
        for step in 1..=steps as u32 {
            let at = centre + Vec2::from_angle(a.atan2() + turn * f64::from(step) / steps) * a.hypot();
            self.cut(from, at, radius, z);
            from = at;
        }
    }

    /// Cells that a tool covers on its way.
    fn under(&self, from: Point, to: Point, radius: f64) -> Vec<usize> {
        let line = kurbo::Line::new(from, to);
        let near = |cell: &usize| {
            use kurbo::ParamCurveNearest;
            line.nearest(self.board.middle(*cell), 1e-6).distance_sq <= radius * radius
        };
        self.board.cells(Rect::from_points(from, to).inflate(radius, radius)).into_iter().filter(near).collect()
    }

    fn cut(&mut self, from: Point, to: Point, radius: f64, z: f64) {
        for cell in self.under(from, to, radius) {
            let height = &mut self.board.heights[cell];
            *height = height.min(z);
        }
    }
}
