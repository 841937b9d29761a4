//! Cuts as blocks of code.

use super::cuts::{Cut, Way, on_circle};
use super::jobs::Job;
use crate::backends::backend::{OutputFile, Product};
use crate::base::number::trimmed;
use crate::base::tolerance::ROUNDING;
use crate::geometry::{Contour, Stretch};
use crate::model::{Router, Tool};
use kurbo::Point;
use std::fmt::Write;

/// Over the board, mm: from there down a tool goes with its feed.
const NEAR: f64 = 1.0;
/// Places along a way are looked at this far apart, mm.
const STEP: f64 = 1.0;
/// Characters of a comment.
const WIDE: usize = 68;

const CAUTION: [&str; 4] = [
    "CAUTION: simulate this code and run it in air before you cut",
    "only for people who are trained on this machine and allowed to run it",
    "check zero, tools, clamps and spoil board; keep guards shut; the maker's and",
    "local rules of safety come first",
];

/// The files of a job: one, or one for each tool where the controller changes none.
pub(super) fn files(product: &Product<'_>, router: &Router, job: &Job<'_>) -> Vec<OutputFile> {
    let mut cuts: Vec<&Cut<'_>> = job.cuts.iter().collect();
    let place = |tool: &Tool| router.tools.iter().position(|known| known.name == tool.name);
    cuts.sort_by_key(|cut| (cut.class, place(cut.tool)));
    let runs: Vec<&[&Cut<'_>]> = cuts.chunk_by(|a, b| a.tool.name == b.tool.name).collect();
    if runs.is_empty() {
        return Vec::new();
    }
    if router.change.is_some() {
        return vec![file(product, router, job, &job.name, &runs)];
    }
    let count = runs.len();
    let each = runs.chunks(1).enumerate().map(|(index, run)| {
        let tool = run.first().and_then(|run| run.first()).map_or("", |cut| cut.tool.name.as_str());
        let name = if count == 1 { job.name.clone() } else { format!("{}-{}-{tool}", job.name, index + 1) };
        file(product, router, job, &name, run)
    });
    each.collect()
}

fn file(product: &Product<'_>, router: &Router, job: &Job<'_>, name: &str, runs: &[&[&Cut<'_>]]) -> OutputFile {
    let tabs = job.cuts.iter().flat_map(|cut| match &cut.way {
        Way::Through { tabs, .. } => tabs.as_slice(),
        _ => &[],
    });
    let tabs = tabs.copied().collect();
    let mut code = Code { text: String::new(), router, thickness: job.thickness, tabs, at: None };
    code.block("%");
    CAUTION.iter().for_each(|words| code.says(words));
    let held = product.held();
    if held.any() {
        code.says(&format!("{}: {} found, do not cut", held.word(), held.reasons()));
    }
    let title = &product.model.title;
    code.says(&format!("{}, {} {}", title.title, title.number, title.revision));
    job.says.iter().for_each(|words| code.says(words));
    code.says("zero: lower left corner of the board, upper face; mm");
    for run in runs {
        if let Some(cut) = run.first() {
            let Tool { name, number, diameter, .. } = cut.tool;
            code.says(&format!("tool {number}: {name}, {} mm", trimmed(*diameter, 3)));
        }
    }
    code.block("G17 G90");
    if let Some(word) = &router.millimetres {
        code.block(word);
    }
    for run in runs {
        code.run(run);
    }
    code.block("M30");
    code.block("%");
    OutputFile { name: format!("{name}.nc"), bytes: code.text.into_bytes() }
}

/// Code in the making.
struct Code<'a> {
    text: String,
    router: &'a Router,
    thickness: f64,
    /// The middles of all tabs.
    tabs: Vec<Point>,
    /// Where the tool is along the board; it is over it when nothing is known.
    at: Option<Point>,
}

impl Code<'_> {
    fn block(&mut self, words: &str) {
        self.text.push_str(words);
        self.text.push('\n');
    }

    /// Comments, in letters and lengths that every controller takes.
    fn says(&mut self, words: &str) {
        let plain = |sign: char| match sign {
            '(' | ')' => ' ',
            sign if sign.is_ascii() && !sign.is_ascii_control() => sign,
            '×' => 'x',
            _ => '?',
        };
        let mut line = String::new();
        for word in words.split_whitespace().map(|word| word.chars().map(plain).collect::<String>()) {
            if !line.is_empty() && line.len() + word.len() >= WIDE {
                let full = std::mem::take(&mut line);
                self.block(&format!("({full})"));
            }
            if !line.is_empty() {
                line.push(' ');
            }
            line.extend(word.chars().take(WIDE));
        }
        if !line.is_empty() {
            self.block(&format!("({line})"));
        }
    }

    /// All cuts of one tool that follow each other.
    fn run(&mut self, cuts: &[&Cut<'_>]) {
        let Some(tool) = cuts.first().map(|cut| cut.tool) else { return };
        if let Some(change) = &self.router.change {
            let words = format!("T{} {change}", tool.number);
            self.block(&words);
        }
        self.block(&format!("S{} M3", trimmed(tool.speed, 0)));
        self.up();
        let mut said = (String::new(), u8::MAX);
        for cut in cuts {
            if said != (cut.of.clone(), cut.class) {
                let what = ["bores", "grooves", "cut-outs", "outline"].get(usize::from(cut.class)).unwrap_or(&"");
                self.says(&format!("{}: {what}", cut.of));
                said = (cut.of.clone(), cut.class);
            }
            self.cut(cut);
        }
        self.block("M5");
    }

    fn cut(&mut self, cut: &Cut<'_>) {
        let tool = cut.tool;
        match &cut.way {
            Way::Down { at, depth } => self.down(tool, *at, *depth),
            Way::Rings { at, radii, depth } => {
                for z in depths(*depth, tool.pass) {
                    self.rings(tool, (*at, z), radii);
                }
            }
            Way::Lines { ways, depth } => {
                for way in ways {
                    self.lines(tool, way, *depth);
                }
            }
            Way::Through { way, .. } => self.through(tool, way),
        }
        self.up();
    }

    /// Up to where nothing stands.
    fn up(&mut self) {
        let words = format!("G0 Z{}", number(self.router.safe));
        self.block(&words);
        self.at = None;
    }

    /// To a place, over the board, and down to just over it.
    fn over(&mut self, at: Point) {
        if self.at.is_some() {
            self.up();
        }
        self.block(&format!("G0 X{} Y{}", number(at.x), number(at.y)));
        self.block(&format!("G0 Z{}", number(NEAR)));
        self.at = Some(at);
    }

    fn plunge(&mut self, tool: &Tool, z: f64) {
        self.block(&format!("G1 Z{} F{}", number(z), trimmed(tool.plunge, 0)));
    }

    fn line(&mut self, tool: &Tool, to: Point) {
        self.block(&format!("G1 X{} Y{} F{}", number(to.x), number(to.y), trimmed(tool.feed, 0)));
        self.at = Some(to);
    }

    fn arc(&mut self, tool: &Tool, (centre, left): (Point, bool), to: Point) {
        let from = self.at.unwrap_or(to);
        let mut words = String::from(if left { "G3" } else { "G2" });
        let (x, y) = (number(to.x), number(to.y));
        let (i, j) = (number(centre.x - rounded(from.x)), number(centre.y - rounded(from.y)));
        // Writing to a text can't fail.
        let _never = write!(words, " X{x} Y{y} I{i} J{j} F{}", trimmed(tool.feed, 0));
        self.block(&words);
        self.at = Some(to);
    }

    /// A bore of the tool's own width, cleared of chips after each pass.
    fn down(&mut self, tool: &Tool, at: Point, depth: f64) {
        self.over(at);
        let all = depths(depth, tool.pass);
        let last = all.len().saturating_sub(1);
        for (index, z) in all.into_iter().enumerate() {
            self.plunge(tool, z);
            if index < last {
                self.block(&format!("G0 Z{}", number(NEAR)));
            }
        }
    }

    /// Circles in two halves, from the inside, at one depth.
    fn rings(&mut self, tool: &Tool, (middle, z): (Point, f64), radii: &[f64]) {
        for (index, radius) in radii.iter().enumerate() {
            let (right, left) = (on_circle(middle, *radius, true), on_circle(middle, *radius, false));
            if index == 0 {
                match self.at {
                    None => self.over(right),
                    Some(_) => self.line(tool, right),
                }
                self.plunge(tool, z);
            } else {
                self.line(tool, right);
            }
            self.arc(tool, (middle, true), left);
            self.arc(tool, (middle, true), right);
        }
    }

    /// There and back, or around, a pass deeper each time.
    fn lines(&mut self, tool: &Tool, way: &[Point], depth: f64) {
        let (Some(first), Some(last)) = (way.first(), way.last()) else { return };
        self.over(*first);
        let open = first != last;
        for (index, z) in depths(depth, tool.pass).into_iter().enumerate() {
            self.plunge(tool, z);
            let back = open && index % 2 == 1;
            let rest: Vec<Point> =
                if back { way.iter().rev().skip(1).copied().collect() } else { way.iter().skip(1).copied().collect() };
            rest.into_iter().for_each(|to| self.line(tool, to));
        }
    }

    /// Around and through, lifted over all tabs of the board: neighbours share their saw cut.
    fn through(&mut self, tool: &Tool, way: &Contour) {
        let bottom = self.thickness + self.router.spoil;
        let top = -(self.thickness - self.router.tab_thickness);
        let reach = f64::midpoint(self.router.tab_length, tool.diameter);
        let held: Vec<Point> = self.tabs.clone();
        let holds = |at: Point| held.iter().any(|tab| tab.distance(at) <= reach);
        let pieces = way.cut_at(&changes(way, holds));
        self.over(way.start);
        for z in depths(bottom, tool.pass) {
            let mut at = if z < top && holds(way.start) { top } else { z };
            self.plunge(tool, at);
            let mut gone = 0.0;
            for (from, stretch) in pieces.pieces() {
                let long = Contour::stretch_length(from, &stretch);
                let height = if z < top && holds(way.at(gone + long / 2.0)) { top } else { z };
                if height != at {
                    self.plunge(tool, height);
                    at = height;
                }
                match stretch {
                    Stretch::Line { to } => self.line(tool, to),
                    Stretch::Arc { to, centre, left } => self.arc(tool, (centre, left), to),
                }
                gone += long;
            }
        }
    }
}

/// Where along a way something changes that holds at some of its places, to a tenth of a step.
fn changes(way: &Contour, holds: impl Fn(Point) -> bool) -> Vec<f64> {
    let steps = (way.length() / STEP).ceil().max(1.0);
    let step = way.length() / steps;
    let mut marks = Vec::new();
    for at in 0..steps as u32 {
        let from = f64::from(at) * step;
        let (mut low, mut high) = (from, from + step);
        let first = holds(way.at(low));
        if first == holds(way.at(high)) {
            continue;
        }
        while high - low > STEP / 10.0 {
            let middle = f64::midpoint(low, high);
            if holds(way.at(middle)) == first { low = middle } else { high = middle }
        }
        // On the side that is held, so that no tab is shorter than it should be.
        marks.push(if first { high } else { low });
    }
    marks
}

/// Depths of passes, as heights, evenly down to a depth.
fn depths(depth: f64, pass: f64) -> Vec<f64> {
    let count = (depth / pass - ROUNDING).ceil().max(1.0);
    (1..=count as u32).map(|at| -depth * f64::from(at) / count).collect()
}

/// As it is written.
fn rounded(value: f64) -> f64 {
    (value * 1e3).round() / 1e3
}

/// A figure of code: at most three decimals.
fn number(value: f64) -> String {
    trimmed(value, 3)
}
