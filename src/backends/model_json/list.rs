//! Cut list and cutting plans in `model.json`.

use super::make::{self, BandsWire, MachiningWire};
use super::shapes::{polygon, range};
use crate::base::number::micrometres;
use crate::diagnostic::wire::{Pair, Place, path_data};
use crate::joinery::{CutList, CutSheet, Row, StockTotal};
use crate::model::{Hand, Model};
use crate::source::SourceMap;
use schemars::JsonSchema;
use serde::Serialize;

/// Parts with their numbers, and how they are cut from sheets.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "CutList")]
pub(super) struct CutListWire<'a> {
    rows: Vec<RowWire<'a>>,
    totals: Vec<TotalWire<'a>>,
}

/// A row of the cut list.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Row")]
#[serde(rename_all = "kebab-case")]
struct RowWire<'a> {
    number: &'a str,
    name: &'a str,
    modules: Vec<CountWire<'a>>,
    stands: Vec<StandWire<'a>>,
    held: Option<&'a str>,
    count: u32,
    stock: Option<&'a str>,
    /// Length, width, thickness.
    finished: [f64; 3],
    /// Length, width.
    cut: Pair,
    scribe: BandsWire,
    #[schemars(extend("enum" = ["length", "width", "free"]))]
    grain: &'static str,
    bands: BandsWire,
    outline: Option<Vec<Pair>>,
    path: Option<String>,
    #[schemars(extend("enum" = ["left", "right", null]))]
    hand: Option<&'static str>,
    machining: Vec<MachiningWire<'a>>,
    note: Option<&'a str>,
    mass: f64,
    too_large: bool,
    places: Vec<Place<'a>>,
}

/// From the left end, the front and the floor of its module to a piece.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "RowStand")]
struct StandWire<'a> {
    module: &'a str,
    from: [f64; 3],
}

/// How many of it a module has.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "ModuleCount")]
struct CountWire<'a> {
    module: &'a str,
    count: u32,
}

/// The sheets of a stock.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "StockTotal")]
#[serde(rename_all = "kebab-case")]
struct TotalWire<'a> {
    /// Those that share the sheets.
    stocks: Vec<&'a str>,
    pieces: u32,
    area: f64,
    mass: f64,
    waste: f64,
    price: Option<f64>,
    sheets_used: usize,
    sheets_at_least: usize,
    /// Part numbers of rows that fit on no sheet.
    too_large: Vec<&'a str>,
    /// Pieces beyond what one plan takes.
    unplaced: usize,
    sheets: Vec<SheetWire<'a>>,
}

/// A sheet with the pieces cut from it.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "CutSheet")]
struct SheetWire<'a> {
    size: Pair,
    pieces: Vec<PieceWire<'a>>,
}

/// `length` along the sheet's length, `width` across, cut sizes; x and y from its left front corner.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "CutPiece")]
struct PieceWire<'a> {
    part: &'a str,
    x: f64,
    y: f64,
    length: f64,
    width: f64,
    turned: bool,
}

pub(super) fn cut_list_wire<'a>(list: &'a CutList, model: &'a Model, sources: &'a SourceMap) -> CutListWire<'a> {
    CutListWire {
        rows: list.rows.iter().map(|row| row_wire(row, model, sources)).collect(),
        totals: list.totals.iter().map(|total| total_wire(total, list, model)).collect(),
    }
}

fn stock(model: &Model, index: usize) -> Option<&str> {
    model.stocks.get(index).map(|stock| stock.name.as_str())
}

fn row_wire<'a>(row: &'a Row, model: &'a Model, sources: &'a SourceMap) -> RowWire<'a> {
    RowWire {
        number: &row.number,
        name: &row.name,
        modules: row.modules.iter().map(|(module, count)| CountWire { module, count: *count }).collect(),
        stands: row
            .stands
            .iter()
            .map(|stand| StandWire { module: &stand.module, from: stand.from.map(micrometres) })
            .collect(),
        held: row.held.as_deref(),
        count: row.count,
        stock: stock(model, row.stock),
        finished: [row.finished.0, row.finished.1, row.finished.2].map(micrometres),
        cut: range(row.cut),
        scribe: make::bands(&row.scribe),
        grain: row.grain.name(),
        bands: make::bands(&row.bands),
        outline: row.outline.as_ref().map(polygon),
        path: row.curve.as_ref().map(path_data),
        hand: row.hand.map(Hand::name),
        machining: row.machining.iter().map(make::machining).collect(),
        note: row.note.as_deref(),
        mass: micrometres(row.mass),
        too_large: row.too_large,
        places: row.spans.iter().filter_map(|span| Place::new(sources, *span)).collect(),
    }
}

fn total_wire<'a>(total: &'a StockTotal, list: &'a CutList, model: &'a Model) -> TotalWire<'a> {
    let own = list.rows.get(total.rows.clone()).unwrap_or_default();
    TotalWire {
        stocks: total.stocks(model).map(|stock| stock.name.as_str()).collect(),
        pieces: total.pieces,
        area: micrometres(total.area),
        mass: micrometres(total.mass),
        waste: micrometres(total.waste),
        price: total.price.map(micrometres),
        sheets_used: total.plan.sheets.len(),
        sheets_at_least: total.plan.bound,
        too_large: own.iter().filter(|row| row.too_large).map(|row| row.number.as_str()).collect(),
        unplaced: total.plan.unplaced,
        sheets: total.plan.sheets.iter().map(|sheet| sheet_wire(sheet, own)).collect(),
    }
}

fn sheet_wire<'a>(sheet: &CutSheet, own: &'a [Row]) -> SheetWire<'a> {
    let pieces = sheet.pieces.iter().map(|piece| PieceWire {
        part: own.get(piece.piece).map_or("", |row| row.number.as_str()),
        x: micrometres(piece.x),
        y: micrometres(piece.y),
        length: micrometres(piece.length),
        width: micrometres(piece.width),
        turned: piece.turned,
    });
    SheetWire { size: range(sheet.size), pieces: pieces.collect() }
}
