//! Parts, stocks, hardware and masses in `model.json`.

use super::shapes::{Box3Wire, PrismWire, box3, point3, polygon, prism, range, toward};
use super::together::{ChosenWire, chosen_wire};
use crate::base::number::micrometres;
use crate::diagnostic::wire::{Pair, Place, path_data};
use crate::model::{
    Bands, Grain, Hand, Hardware, Lies, Machining, MassItem, Model, Part, Place as Stand, SheetSize, Stock, Word,
};
use crate::source::SourceMap;
use schemars::JsonSchema;
use serde::Serialize;

/// One kind of piece of a module. Sizes are finished sizes, bands included; machining is measured from the datum corner.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Part")]
pub(super) struct PartWire<'a> {
    name: &'a str,
    count: u32,
    length: f64,
    width: f64,
    thickness: f64,
    stock: Option<&'a str>,
    #[schemars(extend("enum" = ["length", "width", "free"]))]
    grain: &'static str,
    bands: BandsWire,
    /// Left on at edges for fitting.
    scribe: BandsWire,
    /// Where it is no rectangle.
    outline: Option<Vec<Pair>>,
    /// The outline with true arcs, where it has any.
    path: Option<String>,
    #[schemars(extend("enum" = ["left", "right", null]))]
    hand: Option<&'static str>,
    machining: Vec<MachiningWire<'a>>,
    /// Its two faces differ.
    faced: bool,
    /// Where the pieces stand; empty where the symbol does not say.
    stands: Vec<StandWire>,
    /// What holds it where it touches nothing.
    held: Option<&'a str>,
    /// What holds it to others in the place of what is usual.
    joint: Option<ChosenWire>,
    /// What shuts it, or what it is opened by.
    lock: Option<&'static str>,
    /// What it is made to carry, kg/m².
    load: Option<f64>,
    /// Room around it that is wanted.
    clear: f64,
    note: Option<&'a str>,
    place: Option<Place<'a>>,
    /// Line of the symbol that uses the recipe, where one makes it.
    piece: Option<Place<'a>>,
}

/// Where a piece stands.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Stand")]
struct StandWire {
    /// The smallest box around it.
    bounds: Box3Wire,
    /// Its true outline, without cut-outs and grooves.
    prism: PrismWire,
    /// `null` for a sloping board.
    lies: Option<LiesWire>,
}

/// How a piece lies: `+x` is toward greater x.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Lies")]
struct LiesWire {
    /// From the datum corner along the length.
    length: String,
    /// From the datum corner along the width.
    width: String,
    /// Out of its machined face.
    face: String,
}

/// A figure for each edge: front and left at the datum corner, back and right opposite.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Edges")]
pub(super) struct BandsWire {
    front: f64,
    back: f64,
    left: f64,
    right: f64,
}

/// Machining of a board, from its datum corner.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "Machining")]
pub(super) enum MachiningWire<'a> {
    /// Along its middle line.
    Groove { from: Pair, to: Pair, width: f64, depth: f64, reverse: bool, holds: Option<&'a str> },
    /// Without a depth right through.
    Hole { at: Pair, diameter: f64, depth: Option<f64>, reverse: bool },
    /// Right through.
    Cutout { name: &'a str, outline: Vec<Pair>, path: Option<String> },
}

/// A sheet material as it is bought.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Stock")]
pub(super) struct StockWire<'a> {
    name: &'a str,
    material: &'a str,
    thickness: f64,
    /// kg/m³.
    density: f64,
    /// Modulus of elasticity in bending along and across the grain, N/mm².
    stiffness: Option<Pair>,
    /// Sizes that are bought.
    sheets: Vec<BoughtWire>,
    /// Sheets on hand.
    offcuts: Vec<OffcutWire>,
    #[schemars(extend("enum" = ["length", "width", "free"]))]
    grain: &'static str,
    kerf: f64,
    trim: f64,
    /// The smallest offcut worth keeping.
    useful: Pair,
    /// Most cut stages; `null` for any number.
    stages: Option<u8>,
    place: Option<Place<'a>>,
}

/// A size of sheets.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "SheetSize")]
struct BoughtWire {
    size: Pair,
    price: Option<f64>,
}

/// Sheets on hand.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Offcut")]
struct OffcutWire {
    size: Pair,
    count: u32,
}

/// Something bought.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Hardware")]
pub(super) struct HardwareWire<'a> {
    name: &'a str,
    count: u32,
    size: Option<f64>,
    /// N.
    force: Option<f64>,
    place: Option<Place<'a>>,
}

/// A mass at a place.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Mass")]
pub(super) struct MassWire<'a> {
    name: &'a str,
    mass: f64,
    at: [f64; 3],
    place: Option<Place<'a>>,
}

pub(super) fn bands(bands: &Bands) -> BandsWire {
    let Bands { front, back, left, right } = *bands;
    let [front, back, left, right] = [front, back, left, right].map(micrometres);
    BandsWire { front, back, left, right }
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
            MachiningWire::Cutout { name, outline: polygon(outline), path: curve.as_ref().map(path_data) }
        }
    }
}

pub(super) fn part_wire<'a>(part: &'a Part, model: &'a Model, sources: &'a SourceMap) -> PartWire<'a> {
    #[rustfmt::skip]
    let Part {
        name, count, length, width, thickness, stock, grain, bands: banded, scribe, outline, curve, machining: machined, faced,
        hand, places, held, joint, lock, load, clear, note, span, piece,
    } = part;
    PartWire {
        name,
        count: *count,
        length: micrometres(*length),
        width: micrometres(*width),
        thickness: micrometres(*thickness),
        stock: model.stocks.get(*stock).map(|stock| stock.name.as_str()),
        grain: Grain::name(*grain),
        bands: bands(banded),
        scribe: bands(scribe),
        outline: outline.as_ref().map(polygon),
        path: curve.as_ref().map(path_data),
        hand: hand.map(Hand::name),
        machining: machined.iter().map(machining).collect(),
        faced: *faced,
        stands: places.iter().map(stand).collect(),
        held: held.as_deref(),
        joint: joint.as_ref().map(chosen_wire),
        lock: lock.map(Word::name),
        load: load.map(micrometres),
        clear: micrometres(*clear),
        note: note.as_deref(),
        place: Place::new(sources, *span),
        piece: piece.and_then(|span| Place::new(sources, span)),
    }
}

fn stand(stand: &Stand) -> StandWire {
    let Stand { solid, lies } = stand;
    let lies = lies.map(|Lies { length, width, face }| LiesWire {
        length: toward(length),
        width: toward(width),
        face: toward(face),
    });
    StandWire { bounds: box3(&stand.bounds()), prism: prism(solid), lies }
}

pub(super) fn stock_wire<'a>(stock: &'a Stock, sources: &'a SourceMap) -> StockWire<'a> {
    #[rustfmt::skip]
    let Stock {
        name, material, thickness, density, stiffness, sheets, grain, kerf, trim, useful, stages, span,
    } = stock;
    let [thickness, density, kerf, trim] = [*thickness, *density, *kerf, *trim].map(micrometres);
    StockWire {
        name,
        material,
        thickness,
        density,
        stiffness: stiffness.map(range),
        sheets: sheets.iter().filter_map(bought_wire).collect(),
        offcuts: sheets.iter().filter_map(offcut_wire).collect(),
        grain: grain.name(),
        kerf,
        trim,
        useful: range(*useful),
        stages: *stages,
        place: span.and_then(|span| Place::new(sources, span)),
    }
}

fn bought_wire(sheet: &SheetSize) -> Option<BoughtWire> {
    let SheetSize { size, price, on_hand } = *sheet;
    on_hand.is_none().then(|| BoughtWire { size: range(size), price: price.map(micrometres) })
}

/// What is on hand costs nothing.
fn offcut_wire(sheet: &SheetSize) -> Option<OffcutWire> {
    sheet.on_hand.map(|count| OffcutWire { size: range(sheet.size), count })
}

pub(super) fn hardware_wire<'a>(hardware: &'a Hardware, sources: &'a SourceMap) -> HardwareWire<'a> {
    let Hardware { name, count, size, force, span } = hardware;
    let (size, force) = (size.map(micrometres), force.map(micrometres));
    HardwareWire { name, count: *count, size, force, place: Place::new(sources, *span) }
}

pub(super) fn mass_wire<'a>(mass: &'a MassItem, sources: &'a SourceMap) -> MassWire<'a> {
    let MassItem { name, mass, at, span } = mass;
    MassWire { name, mass: micrometres(*mass), at: point3(*at), place: Place::new(sources, *span) }
}
