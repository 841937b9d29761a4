//! Parts, stocks, hardware and masses in `model.json`.

use super::{Box3Wire, box3, polygon, range};
use crate::base::number::micrometres;
use crate::diagnostic::wire::{Pair, Place};
use crate::model::{Bands, Hand, Hardware, Machining, MassItem, Model, Part, SheetSize, Stock};
use crate::source::SourceMap;
use kurbo::{BezPath, PathEl, Point};
use serde::Serialize;

#[derive(Debug, Serialize)]
pub(super) struct PartWire<'a> {
    name: &'a str,
    count: u32,
    length: f64,
    width: f64,
    thickness: f64,
    stock: Option<&'a str>,
    grain: &'static str,
    bands: BandsWire,
    scribe: BandsWire,
    outline: Option<Vec<Pair>>,
    path: Option<String>,
    hand: Option<&'static str>,
    machining: Vec<MachiningWire<'a>>,
    places: Vec<Box3Wire>,
    held: Option<&'a str>,
    note: Option<&'a str>,
    place: Option<Place<'a>>,
}

#[derive(Debug, Serialize)]
pub(super) struct BandsWire {
    front: f64,
    back: f64,
    left: f64,
    right: f64,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum MachiningWire<'a> {
    Groove { from: Pair, to: Pair, width: f64, depth: f64, reverse: bool, holds: Option<&'a str> },
    Hole { at: Pair, diameter: f64, depth: Option<f64>, reverse: bool },
    Cutout { name: &'a str, outline: Vec<Pair>, path: Option<String> },
}

#[derive(Debug, Serialize)]
pub(super) struct StockWire<'a> {
    name: &'a str,
    material: &'a str,
    thickness: f64,
    density: f64,
    sheets: Vec<Pair>,
    grain: &'static str,
    kerf: f64,
    trim: f64,
    price: Option<f64>,
    offcuts: Vec<OffcutWire>,
    useful: Pair,
    stages: Option<u8>,
    place: Option<Place<'a>>,
}

/// Sheets on hand.
#[derive(Debug, Serialize)]
pub(super) struct OffcutWire {
    size: Pair,
    count: u32,
}

#[derive(Debug, Serialize)]
pub(super) struct HardwareWire<'a> {
    name: &'a str,
    count: u32,
    size: Option<f64>,
    place: Option<Place<'a>>,
}

#[derive(Debug, Serialize)]
pub(super) struct MassWire<'a> {
    name: &'a str,
    mass: f64,
    at: [f64; 3],
    place: Option<Place<'a>>,
}

pub(super) fn bands(bands: &Bands) -> BandsWire {
    let Bands { front, back, left, right } = *bands;
    BandsWire { front: micrometres(front), back: micrometres(back), left: micrometres(left), right: micrometres(right) }
}

pub(super) fn machining(machining: &Machining) -> MachiningWire<'_> {
    match machining {
        Machining::Groove { from, to, width, depth, reverse, holds } => MachiningWire::Groove {
            from: range(*from),
            to: range(*to),
            width: micrometres(*width),
            depth: micrometres(*depth),
            reverse: *reverse,
            holds: holds.as_deref(),
        },
        Machining::Hole { at, diameter, depth, reverse } => MachiningWire::Hole {
            at: range(*at),
            diameter: micrometres(*diameter),
            depth: depth.map(micrometres),
            reverse: *reverse,
        },
        Machining::Cutout { name, outline, curve } => {
            MachiningWire::Cutout { name, outline: polygon(outline), path: curve.as_ref().map(path) }
        }
    }
}

/// An outline with arcs as the `d` of an SVG path, mm.
pub(super) fn path(curve: &BezPath) -> String {
    let mut rounded = curve.clone();
    for element in rounded.elements_mut() {
        let at = |point: Point| Point::new(micrometres(point.x), micrometres(point.y));
        *element = match *element {
            PathEl::MoveTo(a) => PathEl::MoveTo(at(a)),
            PathEl::LineTo(a) => PathEl::LineTo(at(a)),
            PathEl::QuadTo(a, b) => PathEl::QuadTo(at(a), at(b)),
            PathEl::CurveTo(a, b, c) => PathEl::CurveTo(at(a), at(b), at(c)),
            PathEl::ClosePath => PathEl::ClosePath,
        };
    }
    rounded.to_svg()
}

pub(super) fn part_wire<'a>(part: &'a Part, model: &'a Model, sources: &'a SourceMap) -> PartWire<'a> {
    PartWire {
        name: &part.name,
        count: part.count,
        length: micrometres(part.length),
        width: micrometres(part.width),
        thickness: micrometres(part.thickness),
        stock: model.stocks.get(part.stock).map(|stock| stock.name.as_str()),
        grain: part.grain.name(),
        bands: bands(&part.bands),
        scribe: bands(&part.scribe),
        outline: part.outline.as_ref().map(polygon),
        path: part.curve.as_ref().map(path),
        hand: part.hand.map(Hand::name),
        machining: part.machining.iter().map(machining).collect(),
        places: part.places.iter().map(|place| box3(&place.bounds())).collect(),
        held: part.held.as_deref(),
        note: part.note.as_deref(),
        place: Place::new(sources, part.span),
    }
}

pub(super) fn stock_wire<'a>(stock: &'a Stock, sources: &'a SourceMap) -> StockWire<'a> {
    let bought = stock.sheets.iter().filter(|sheet| sheet.on_hand.is_none());
    StockWire {
        name: &stock.name,
        material: &stock.material,
        thickness: micrometres(stock.thickness),
        density: micrometres(stock.density),
        sheets: bought.clone().map(|sheet| range(sheet.size)).collect(),
        grain: stock.grain.name(),
        kerf: micrometres(stock.kerf),
        trim: micrometres(stock.trim),
        price: bought.clone().next().and_then(|sheet| sheet.price).map(micrometres),
        offcuts: stock.sheets.iter().filter_map(offcut_wire).collect(),
        useful: range(stock.useful),
        stages: stock.stages,
        place: stock.span.and_then(|span| Place::new(sources, span)),
    }
}

fn offcut_wire(sheet: &SheetSize) -> Option<OffcutWire> {
    sheet.on_hand.map(|count| OffcutWire { size: range(sheet.size), count })
}

pub(super) fn hardware_wire<'a>(hardware: &'a Hardware, sources: &'a SourceMap) -> HardwareWire<'a> {
    HardwareWire {
        name: &hardware.name,
        count: hardware.count,
        size: hardware.size.map(micrometres),
        place: Place::new(sources, hardware.span),
    }
}

pub(super) fn mass_wire<'a>(mass: &'a MassItem, sources: &'a SourceMap) -> MassWire<'a> {
    MassWire {
        name: &mass.name,
        mass: micrometres(mass.mass),
        at: [mass.at.x, mass.at.y, mass.at.z].map(micrometres),
        place: Place::new(sources, mass.span),
    }
}
