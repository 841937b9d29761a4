//! The cut list: rows of equal parts, grouped by stock, with totals for the sheets that stocks of one material share.
//!
//! Sizes as a joiner reads them. The finished size is the piece as it stands in the module, bands included. The cut
//! size is what leaves the saw: finished less the band on each edge (left and right bands shorten it, front and back
//! bands make it narrower), and what is left on for scribing on top. Outline and machining are positions on the
//! finished piece, from its datum corner: left and front. A part whose mirror image is another piece has a row for each
//! hand.

use super::nesting::{self, CutSheet, CuttingPlan, Piece, Request, SheetKind, Turn};
use super::shared_sheets::{Shared, shared};
use super::stands::{Stand, stand};
use crate::geometry::Polygon;
use crate::model::{Bands, Grain, Hand, Machining, Model, Module, Part, SheetSize, Stock};
use crate::source::Span;
use kurbo::BezPath;
use std::collections::BTreeMap;
use std::ops::Range;

/// One row: parts that are equal in everything but their name and module.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Part number, e.g. `galley-03`: the first module, and the part's place in its symbol's order.
    pub number: String,
    /// Name of the part in the symbol (several names of equal parts are joined with ` / `).
    pub name: String,
    /// Modules it goes to, with how many each.
    pub modules: Vec<(String, u32)>,
    /// Index of each module of the model that has it, with the index of the part there.
    pub parts: Vec<(usize, usize)>,
    /// Where its pieces stand, as far as the symbols say.
    pub stands: Vec<Stand>,
    /// How many in all.
    pub count: u32,
    /// Finished size, length x width x thickness, mm.
    pub finished: (f64, f64, f64),
    /// Cut size, length x width, mm: finished less bands plus scribe.
    pub cut: (f64, f64),
    /// Left on at edges for scribing, mm.
    pub scribe: Bands,
    /// Index of the stock in the model.
    pub stock: usize,
    /// Grain.
    pub grain: Grain,
    /// Bands.
    pub bands: Bands,
    /// True outline, if it is no rectangle.
    pub outline: Option<Polygon>,
    /// The outline with true arcs, if it has any.
    pub curve: Option<BezPath>,
    /// Its two faces differ; the machined one is the good one.
    pub faced: bool,
    /// Which of two mirror images it is, where they differ.
    pub hand: Option<Hand>,
    /// What holds it where it touches nothing.
    pub held: Option<String>,
    /// Machining.
    pub machining: Vec<Machining>,
    /// A word for the joiner.
    pub note: Option<String>,
    /// Mass of one piece, kg.
    pub mass: f64,
    /// Fits on no sheet of its stock, so it is in no cutting plan.
    pub too_large: bool,
    /// Lines of the symbols that made it.
    pub spans: Vec<Span>,
}

/// Totals of the stocks that share their sheets: those of one material, mostly.
#[derive(Debug, Clone, PartialEq)]
pub struct StockTotal {
    /// Indices in the model of the stocks that have rows; at least one.
    pub stocks: Vec<usize>,
    /// Which way the grain of the sheets runs.
    pub grain: Grain,
    /// Its rows; a piece of the plan is the row at the range's start plus the piece's index.
    pub rows: Range<usize>,
    /// Pieces.
    pub pieces: u32,
    /// Area of the cut sizes, m2.
    pub area: f64,
    /// Mass of the pieces, kg.
    pub mass: f64,
    /// The cutting plan of its sheets.
    pub plan: CuttingPlan,
    /// Share of the sheets' area that becomes no part, 0 to 1.
    pub waste: f64,
    /// Price of the sheets, if known.
    pub price: Option<f64>,
}

/// The whole cut list.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CutList {
    /// Rows, grouped by stock, those together that share sheets, longest first in a stock.
    pub rows: Vec<Row>,
    /// One for each stock, or stocks that share sheets, with rows.
    pub totals: Vec<StockTotal>,
}

/// A part as cutting diagrams name it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CutPart {
    /// Its number.
    pub number: String,
    /// Its grain decides how it lies.
    pub grain: bool,
}

impl StockTotal {
    /// The stocks, of one material.
    pub fn stocks<'m>(&self, model: &'m Model) -> impl Iterator<Item = &'m Stock> + use<'m, '_> {
        self.stocks.iter().filter_map(|index| model.stocks.get(*index))
    }

    /// Their names: `carcass, front`.
    #[must_use]
    pub fn names(&self, model: &Model) -> String {
        self.stocks(model).map(|stock| stock.name.as_str()).collect::<Vec<_>>().join(", ")
    }
}

impl CutList {
    /// The row of a placed piece.
    #[must_use]
    pub fn row(&self, total: &StockTotal, piece: usize) -> Option<&Row> {
        self.rows.get(total.rows.clone())?.get(piece)
    }

    /// The rows of a module's parts, in the parts' order; none for parts that are made no times.
    #[must_use]
    pub fn rows_of(&self, module: usize, parts: usize) -> Vec<Option<&Row>> {
        let mut all = vec![None; parts];
        for row in &self.rows {
            for (_, part) in row.parts.iter().filter(|(of, _)| *of == module) {
                all.get_mut(*part).into_iter().for_each(|place| *place = Some(row));
            }
        }
        all
    }
}

/// Makes the cut list of a layout with a cutting plan for each material.
#[must_use]
pub fn cut_list(model: &Model) -> CutList {
    let groups = shared(&model.stocks);
    let group = |row: &Row| groups.iter().position(|group| group.stocks.contains(&row.stock));
    let mut rows: Vec<(Option<usize>, Row)> = merged(model).into_iter().map(|row| (group(&row), row)).collect();
    rows.sort_by(|(first, a), (second, b)| {
        let size = b.finished.0.total_cmp(&a.finished.0).then(b.finished.1.total_cmp(&a.finished.1));
        first.cmp(second).then(a.stock.cmp(&b.stock)).then(size)
    });
    let ends: Vec<usize> =
        (0..groups.len()).map(|index| rows.partition_point(|(group, _)| *group <= Some(index))).collect();
    let mut rows: Vec<Row> = rows.into_iter().map(|(_, row)| row).collect();
    let mut totals = Vec::new();
    let mut start = 0;
    for (group, end) in groups.iter().zip(ends) {
        let range = std::mem::replace(&mut start, end)..end;
        if let Some(own) = rows.get_mut(range.clone()).filter(|own| !own.is_empty()) {
            totals.extend(total(model, group, range, own));
        }
    }
    CutList { rows, totals }
}

/// Stock and size in whole micrometres: rows of different keys are never equal.
type Key = (usize, i64, i64, i64);

fn merged(model: &Model) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    let mut alike: BTreeMap<Key, Vec<usize>> = BTreeMap::new();
    for (at, module) in model.modules.iter().enumerate() {
        for (place, part) in module.parts.iter().enumerate().filter(|(_, part)| part.count > 0) {
            let Some(stock) = model.stocks.get(part.stock) else { continue };
            let new = row((at, module), place, part, stock);
            let [length, width, thickness] = [part.length, part.width, part.thickness].map(|mm| (mm * 1e3) as i64);
            let same = alike.entry((part.stock, length, width, thickness)).or_default();
            match same.iter().copied().find(|index| rows.get(*index).is_some_and(|row| equal(row, &new))) {
                Some(index) => rows.get_mut(index).into_iter().for_each(|row| join(row, &new)),
                None => {
                    same.push(rows.len());
                    rows.push(new);
                }
            }
        }
    }
    rows
}

fn row((at, module): (usize, &Module), place: usize, part: &Part, stock: &Stock) -> Row {
    Row {
        number: format!("{}-{:02}", module.name, place + 1),
        name: part.name.clone(),
        modules: vec![(module.name.clone(), part.count)],
        parts: vec![(at, place)],
        stands: part.places.iter().map(|place| stand(module, &place.bounds())).collect(),
        count: part.count,
        finished: (part.length, part.width, part.thickness),
        cut: part.cut_size(),
        scribe: part.scribe,
        stock: part.stock,
        grain: if stock.grain == Grain::Free { Grain::Free } else { part.grain },
        bands: part.bands,
        outline: part.outline.clone(),
        curve: part.curve.clone(),
        faced: part.faced,
        hand: part.hand,
        held: part.held.clone(),
        machining: part.machining.clone(),
        note: part.note.clone(),
        mass: part.mass(stock),
        too_large: false,
        spans: [part.piece, Some(part.span)].into_iter().flatten().collect(),
    }
}

fn equal(a: &Row, b: &Row) -> bool {
    let sizes = a.finished == b.finished && a.cut == b.cut && a.scribe == b.scribe && a.bands == b.bands;
    let make = a.outline == b.outline && a.machining == b.machining && a.note == b.note;
    let alike = a.hand == b.hand && a.faced == b.faced && a.held == b.held && a.curve == b.curve;
    sizes && make && alike && a.stock == b.stock && a.grain == b.grain
}

fn join(row: &mut Row, other: &Row) {
    row.count = row.count.saturating_add(other.count);
    row.name = joined_names(&row.name, &other.name);
    row.stands.extend(other.stands.iter().cloned());
    row.parts.extend(&other.parts);
    for (module, count) in &other.modules {
        match row.modules.iter_mut().find(|(name, _)| name == module) {
            Some((_, own)) => *own = own.saturating_add(*count),
            None => row.modules.push((module.clone(), *count)),
        }
    }
    for span in &other.spans {
        if !row.spans.contains(span) {
            row.spans.push(*span);
        }
    }
}

/// `shelf 1` and `shelf 2` are both `shelf`; different names are listed.
fn joined_names(names: &str, other: &str) -> String {
    let plain = |name: &str| match name.rsplit_once(' ') {
        Some((start, number)) if number.bytes().all(|byte| byte.is_ascii_digit()) => start.to_owned(),
        _ => name.to_owned(),
    };
    let known = |name: &&str| plain(name) == plain(other) && *name != other;
    match names.split(" / ").find(known) {
        Some(same) => names
            .split(" / ")
            .map(|name| if name == same { plain(name) } else { name.to_owned() })
            .collect::<Vec<_>>()
            .join(" / "),
        None if names.split(" / ").any(|name| name == other) => names.to_owned(),
        None => format!("{names} / {other}"),
    }
}

/// How a part may lie: its grain has to run with the sheet's where both have one.
pub(super) fn turn(part: Grain, sheet: Grain) -> Turn {
    match (part, sheet) {
        (Grain::Free, _) | (_, Grain::Free) => Turn::Free,
        (Grain::Length, Grain::Length) | (Grain::Width, Grain::Width) => Turn::Never,
        (Grain::Length, Grain::Width) | (Grain::Width, Grain::Length) => Turn::Always,
    }
}

fn request(model: &Model, group: &Shared, rows: &[Row]) -> Option<Request> {
    let stock = model.stocks.get(*group.stocks.first()?)?;
    let cost = |sheet: &SheetSize| sheet.price.unwrap_or(sheet.size.0 * sheet.size.1);
    let kind = |sheet: &SheetSize| SheetKind { size: sheet.size, cost: cost(sheet), stock: sheet.on_hand };
    let sheet_grain = |row: &Row| model.stocks.get(row.stock).map_or(Grain::Free, |stock| stock.grain);
    let piece = |row: &Row| Piece {
        length: row.cut.0,
        width: row.cut.1,
        count: row.count,
        turn: turn(row.grain, sheet_grain(row)),
    };
    Some(Request {
        sheets: group.sheets.iter().map(kind).collect(),
        kerf: stock.kerf,
        trim: stock.trim,
        useful: stock.useful,
        stages: stock.stages,
        pieces: rows.iter().map(piece).collect(),
        effort: nesting::usual_effort(pieces(rows)),
    })
}

fn pieces(rows: &[Row]) -> u32 {
    rows.iter().fold(0, |sum, row| sum.saturating_add(row.count))
}

fn total(model: &Model, group: &Shared, range: Range<usize>, rows: &mut [Row]) -> Option<StockTotal> {
    let plan = nesting::nest(&request(model, group, rows)?);
    for piece in &plan.too_large {
        rows.get_mut(*piece).into_iter().for_each(|row| row.too_large = true);
    }
    let bought: f64 = plan.sheets.iter().map(|sheet| sheet.size.0 * sheet.size.1).sum();
    let placed = plan.sheets.iter().flat_map(|sheet| &sheet.pieces).map(|piece| piece.length * piece.width);
    let price = |sheet: &CutSheet| group.sheets.get(sheet.kind).and_then(|size| size.price);
    let with_rows = |stock: &&usize| rows.iter().any(|row| row.stock == **stock);
    Some(StockTotal {
        stocks: group.stocks.iter().filter(with_rows).copied().collect(),
        grain: group.grain,
        rows: range,
        pieces: pieces(rows),
        area: rows.iter().map(|row| row.cut.0 * row.cut.1 * f64::from(row.count)).sum::<f64>() / 1e6,
        mass: rows.iter().map(|row| row.mass * f64::from(row.count)).sum(),
        waste: if bought > 0.0 { 1.0 - placed.sum::<f64>() / bought } else { 0.0 },
        price: plan.sheets.iter().map(price).sum(),
        plan,
    })
}
