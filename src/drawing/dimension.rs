//! Dimension chains as in ISO 129-1: lines, oblique strokes, extension lines and figures.
//!
//! Chains of one side of a view are laid from fine to coarse, outward. Figures stand above their line, readable from
//! the bottom or from the right; a figure too long for its distance stands outside on a leader. An extension line is
//! broken where it would run through a figure.

pub use super::dimension_figures::Stop;
use super::dimension_figures::{Figure, GAP, HEIGHT, INCHES, ROW, place};
pub use super::dimension_running::{Running, lay_running};
use super::font::text_width;
use super::item::{Align, Item, Text};
use super::line::LineClass;
use crate::base::tolerance::SAME_LENGTH;
use crate::model::Figures;
use kurbo::{Point, Rect};

/// From the object to the start of an extension line, mm.
const OFF_OBJECT: f64 = 1.0;
/// How far an extension line passes its last dimension line: 8 line widths, mm.
const PAST: f64 = 1.5;
/// Half of an oblique stroke's extent, mm.
const STROKE: f64 = 0.85;
/// From the figures of one chain to the line of the next, mm.
const SPACING: f64 = 3.6;
/// From the ends of one chain's extension lines to the figures of the next, mm.
const CLOSE: f64 = 2.0;
/// From the end of the longest chain to the captions, mm.
const BESIDE: f64 = 3.0;
/// Height of a chain's caption, mm.
const CAPTION: f64 = 1.8;

/// A side of a view.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// Above the view, figures read from the bottom.
    Above,
    /// Below the view.
    Below,
    /// Left of the view, figures read from the right.
    Left,
    /// Right of the view.
    Right,
}

impl Side {
    /// All four, in drawing order.
    pub const ALL: [Self; 4] = [Self::Above, Self::Below, Self::Left, Self::Right];

    /// Chains run upward on the paper.
    #[must_use]
    pub fn upright(self) -> bool {
        matches!(self, Self::Left | Self::Right)
    }

    pub(super) fn outward(self) -> f64 {
        if matches!(self, Self::Above | Self::Left) { 1.0 } else { -1.0 }
    }

    /// Paper point of a place along (`s`) and across (`t`, growing in the figures' upward direction) the chain.
    pub(super) fn point(self, s: f64, t: f64) -> Point {
        if self.upright() { Point::new(-t, s) } else { Point::new(s, t) }
    }

    fn rect(self, s: (f64, f64), t: (f64, f64)) -> Rect {
        Rect::from_points(self.point(s.0, t.0), self.point(s.1, t.1))
    }

    pub(super) fn across(self, paper: f64) -> f64 {
        if self.upright() { -paper } else { paper }
    }
}

/// One row of dimensions.
#[derive(Debug, Clone, PartialEq)]
pub struct Chain {
    /// A word at its start: what it measures.
    pub caption: String,
    /// At least two, growing.
    pub stops: Vec<Stop>,
}

/// Chains laid on one side.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Laid {
    /// Lines and figures.
    pub items: Vec<Item>,
    /// Boxes around all texts, paper mm.
    pub boxes: Vec<Rect>,
    /// Outer edge of it all, as a paper coordinate across the side.
    pub reach: f64,
}

struct Row<'a> {
    chain: &'a Chain,
    figures: Vec<Figure>,
    line: f64,
}

/// Lays chains, the finest first, on a side of a view. `face` is the paper coordinate of the object's edge, from
/// which extension lines start, `from` the one from which dimension lines may stand.
#[must_use]
pub fn lay(figures: Figures, side: Side, (face, from): (f64, f64), chains: &[Chain]) -> Laid {
    let chains: Vec<&Chain> = chains.iter().filter(|chain| chain.stops.len() > 1).collect();
    let (rows, reach) = rows(figures, side, side.across(from), &chains);
    let mut laid = Laid { reach: side.across(reach), ..Laid::default() };
    extension_lines(side, side.across(face), &rows, &mut laid.items);
    let all = chains.iter().flat_map(|chain| chain.stops.iter().map(|stop| stop.at));
    let figures = rows.iter().flat_map(|row| &row.figures).map(Figure::range);
    let all = all.map(|at| (at, at)).chain(figures);
    let ends = all.fold((f64::INFINITY, f64::NEG_INFINITY), |ends, at| (ends.0.min(at.0), ends.1.max(at.1)));
    for row in &rows {
        draw_row(side, row, &mut laid);
        draw_caption(side, row, ends, &mut laid);
    }
    laid
}

fn rows<'a>(figures: Figures, side: Side, from: f64, chains: &[&'a Chain]) -> (Vec<Row<'a>>, f64) {
    let mut cursor = from;
    let mut rows = Vec::new();
    for (index, chain) in chains.iter().enumerate() {
        let mut coarser: Vec<f64> = chains.iter().skip(index + 1).flat_map(|c| c.stops.iter().map(|s| s.at)).collect();
        coarser.sort_by(f64::total_cmp);
        let figures = place(&chain.stops, &coarser, figures);
        let tiers = figures.iter().map(|figure| figure.tier).max().unwrap_or(0);
        let beyond = f64::from(tiers) * ROW;
        let line = if side.outward() > 0.0 { cursor + SPACING } else { cursor - CLOSE - GAP - HEIGHT };
        cursor = if side.outward() > 0.0 { line + GAP + HEIGHT + beyond } else { line - beyond.max(PAST) };
        rows.push(Row { chain, figures, line });
    }
    (rows, cursor)
}

fn draw_row(side: Side, row: &Row<'_>, laid: &mut Laid) {
    let stops = &row.chain.stops;
    if let (Some(first), Some(last)) = (stops.first(), stops.last()) {
        let (a, b) = (side.point(first.at, row.line), side.point(last.at, row.line));
        laid.items.push(Item::segment(a, b, LineClass::Dimension));
    }
    for stop in stops {
        let a = side.point(stop.at - STROKE, row.line - STROKE);
        let b = side.point(stop.at + STROKE, row.line + STROKE);
        laid.items.push(Item::segment(a, b, LineClass::Visible));
    }
    for figure in &row.figures {
        draw_figure(side, row.line, figure, laid);
    }
}

/// The caption beside the chains; going round the view each side has its own corner, so that captions never meet.
fn draw_caption(side: Side, row: &Row<'_>, ends: (f64, f64), laid: &mut Laid) {
    let base = row.line - CAPTION / 2.0;
    let width = text_width(&row.chain.caption, CAPTION);
    let at_start = matches!(side, Side::Above | Side::Left);
    let (low, align) = if at_start { (ends.0 - BESIDE - width, Align::End) } else { (ends.1 + BESIDE, Align::Start) };
    let at = if at_start { low + width } else { low };
    write(side, (at, base), &row.chain.caption, CAPTION, align, laid);
    laid.boxes.push(side.rect((low, low + width), (base, base + CAPTION)));
}

fn write(side: Side, at: (f64, f64), words: &str, height: f64, align: Align, laid: &mut Laid) {
    let turn = if side.upright() { 90.0 } else { 0.0 };
    let at = side.point(at.0, at.1);
    laid.items.push(Item::Text(Text { at, words: words.to_owned(), height, align, turn, inverse: false }));
}

/// Base line of a figure's tier over (or under, for sides whose outward is down) the dimension line.
fn base_line(side: Side, line: f64, tier: u32) -> f64 {
    let over = if tier == 0 || side.outward() > 0.0 { 1.0 } else { -1.0 };
    let beyond = f64::from(tier) * ROW;
    if over > 0.0 { line + GAP + beyond } else { line - beyond + (ROW - HEIGHT - PAST) }
}

fn draw_figure(side: Side, line: f64, figure: &Figure, laid: &mut Laid) {
    let base = base_line(side, line, figure.tier);
    if figure.inches.is_empty() {
        write(side, (figure.middle, base), &figure.words, HEIGHT, Align::Middle, laid);
    } else {
        let half = figure.width / 2.0;
        write(side, (figure.middle - half, base), &figure.words, HEIGHT, Align::Start, laid);
        let raised = base + (HEIGHT - INCHES) / 2.0;
        write(side, (figure.middle + half, raised), &figure.inches, INCHES, Align::End, laid);
    }
    laid.boxes.push(figure_box(side, line, figure));
    if figure.tier > 0 {
        draw_leader(side, line, base, figure, laid);
    }
}

fn draw_leader(side: Side, line: f64, base: f64, figure: &Figure, laid: &mut Laid) {
    let half = figure.width / 2.0;
    let foot = side.point(figure.foot, line);
    let mut shape = kurbo::BezPath::new();
    shape.move_to(foot);
    if (figure.middle - figure.foot).abs() < half {
        let end = if side.outward() > 0.0 { base - 0.5 } else { base + HEIGHT + 0.5 };
        shape.line_to(side.point(figure.foot, end));
    } else {
        let far = if figure.middle > figure.foot { figure.middle + half } else { figure.middle - half };
        shape.line_to(side.point(figure.foot, base - 0.6));
        shape.line_to(side.point(far, base - 0.6));
    }
    laid.items.push(Item::line(shape, LineClass::Dimension));
}

fn figure_box(side: Side, line: f64, figure: &Figure) -> Rect {
    let base = base_line(side, line, figure.tier);
    let half = figure.width / 2.0;
    side.rect((figure.middle - half, figure.middle + half), (base, base + HEIGHT))
}

/// One line for each place, as far as the coarsest chain that measures to it, broken at figures.
fn extension_lines(side: Side, face: f64, rows: &[Row<'_>], items: &mut Vec<Item>) {
    let mut ends: Vec<(f64, f64)> = Vec::new();
    for row in rows {
        let end = row.line + side.outward() * PAST;
        for stop in &row.chain.stops {
            match ends.iter_mut().find(|(at, _)| (*at - stop.at).abs() <= SAME_LENGTH) {
                Some(found) => found.1 = end,
                None => ends.push((stop.at, end)),
            }
        }
    }
    for (at, end) in ends {
        for (a, b) in open_pieces(side, at, (face + side.outward() * OFF_OBJECT, end), rows) {
            items.push(Item::segment(side.point(at, a), side.point(at, b), LineClass::Dimension));
        }
    }
}

/// What is left of a line across the chains at `at` after gaps around figures.
fn open_pieces(side: Side, at: f64, range: (f64, f64), rows: &[Row<'_>]) -> Vec<(f64, f64)> {
    let mut gaps: Vec<(f64, f64)> = rows
        .iter()
        .flat_map(|row| row.figures.iter().map(move |figure| (row, figure)))
        .filter(|(_, figure)| (figure.middle - at).abs() < figure.width / 2.0 + 0.5)
        .map(|(row, figure)| base_line(side, row.line, figure.tier))
        .map(|base| (base - 1.0, base + HEIGHT + 0.4))
        .collect();
    gaps.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (mut from, end) = (range.0.min(range.1), range.0.max(range.1));
    let mut pieces = Vec::new();
    for (low, high) in gaps {
        if low > from && from < end {
            pieces.push((from, low.min(end)));
        }
        from = from.max(high);
    }
    if from < end {
        pieces.push((from, end));
    }
    pieces
}
