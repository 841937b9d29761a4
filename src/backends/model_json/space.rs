//! The box, its openings and zones in `model.json`.

use super::shapes::{PrismWire, prism, range};
use crate::base::number::micrometres;
use crate::diagnostic::wire::{Pair, Place, pair};
use crate::geometry::Roof;
use crate::model::{BoxSpace, Bridge, CutKind, Cutaway, Layer, Opening, Panel, Swings, Wall, Zone};
use crate::source::SourceMap;
use schemars::JsonSchema;
use serde::Serialize;

/// The room inside and the panels around it.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Box")]
pub(super) struct BoxWire<'a> {
    length: f64,
    width: f64,
    /// To the lining at the side walls, the lower of both.
    height: f64,
    roof: RoofWire,
    walls: PanelWire<'a>,
    roof_panel: PanelWire<'a>,
    floor: PanelWire<'a>,
    /// Parts of the room that the shell takes.
    cutaways: Vec<CutawayWire<'a>>,
    place: Option<Place<'a>>,
}

/// The lining of the roof.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "Roof")]
enum RoofWire {
    /// Points (y, z), straight between them.
    Line(Vec<Pair>),
    /// A circular arc over the whole width: height at the side walls, and of the middle above it.
    Arch { width: f64, side: f64, rise: f64 },
}

/// A panel of the shell.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Panel")]
struct PanelWire<'a> {
    layup: &'a str,
    thickness: f64,
    /// kg/m².
    areal_mass: f64,
    /// From inside to outside.
    layers: Vec<LayerWire<'a>>,
}

/// A layer of a panel.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Layer")]
struct LayerWire<'a> {
    material: &'a str,
    thickness: f64,
    /// W/(m K).
    conductivity: f64,
    /// Members set into it.
    frame: Option<BridgeWire<'a>>,
}

/// Members set into a layer, as thick as it is.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Members")]
struct BridgeWire<'a> {
    material: &'a str,
    /// W/(m K).
    conductivity: f64,
    metal: bool,
    /// Of one.
    width: f64,
    /// From middle to middle.
    spacing: f64,
}

/// A part of the room that the shell takes.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Cutaway")]
struct CutawayWire<'a> {
    name: &'a str,
    /// An edge of the floor or a block, an upright corner, an edge of the roof, or what a leaning wall takes.
    #[schemars(extend("enum" = ["floor", "corner", "roof", "wall"]))]
    kind: &'static str,
    prism: PrismWire,
    place: Option<Place<'a>>,
}

/// How a leaf slides.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Slides")]
struct SlidesWire {
    toward: &'static str,
    travel: f64,
}

/// A hole in a panel.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Opening")]
pub(super) struct OpeningWire<'a> {
    name: &'a str,
    #[schemars(extend("enum" = ["door", "double-door", "sliding-door", "lift-gate", "window", "hatch", "roof-hatch", "pass-through", "vent"]))]
    kind: &'static str,
    #[schemars(extend("enum" = ["front", "rear", "left", "right", "roof", "floor"]))]
    wall: &'static str,
    /// x, or y in the front and rear walls.
    along: Pair,
    /// z, or y in roof and floor.
    up: Pair,
    radius: f64,
    /// An end of its wall; `roof` for its upper and `floor` for its lower edge.
    #[schemars(extend("enum" = ["front", "rear", "left", "right", "roof", "floor", null]))]
    hinge: Option<&'static str>,
    #[schemars(extend("enum" = ["in", "out", "no"]))]
    swings: &'static str,
    /// How far the leaf opens, degrees.
    opens: f64,
    /// A leaf that slides along its wall.
    slides: Option<SlidesWire>,
    /// A door or window of the vehicle itself.
    of_vehicle: bool,
    /// A way out in an emergency.
    escape: bool,
    /// Thickness of the lining frame in the hole.
    lining: f64,
    /// Always open to the air, mm².
    free_area: f64,
    /// W/(m² K), if the layout says one.
    u_value: Option<f64>,
    place: Option<Place<'a>>,
}

/// A named part of the floor.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Zone")]
pub(super) struct ZoneWire<'a> {
    name: &'a str,
    purpose: &'a str,
    x: Pair,
    y: Pair,
    level: i64,
    place: Option<Place<'a>>,
}

pub(super) fn box_wire<'a>(space: &'a BoxSpace, sources: &'a SourceMap) -> BoxWire<'a> {
    let BoxSpace { length, width, height, roof, walls, roof_panel, floor, cutaways, span } = space;
    let [length, width, height] = [*length, *width, *height].map(micrometres);
    BoxWire {
        length,
        width,
        height,
        roof: roof_wire(roof),
        walls: panel_wire(walls),
        roof_panel: panel_wire(roof_panel),
        floor: panel_wire(floor),
        cutaways: cutaways.iter().map(|cutaway| cutaway_wire(cutaway, sources)).collect(),
        place: Place::new(sources, *span),
    }
}

fn cutaway_wire<'a>(cutaway: &'a Cutaway, sources: &'a SourceMap) -> CutawayWire<'a> {
    let Cutaway { name, prism: taken, kind, span } = cutaway;
    let kind = match kind {
        CutKind::Floor => "floor",
        CutKind::Corner => "corner",
        CutKind::Roof => "roof",
        CutKind::Wall(_) => "wall",
    };
    CutawayWire { name, kind, prism: prism(taken), place: Place::new(sources, *span) }
}

fn roof_wire(roof: &Roof) -> RoofWire {
    match roof {
        Roof::Line(points) => RoofWire::Line(points.iter().map(|point| pair(*point)).collect()),
        Roof::Arch { width, side, rise } => {
            let [width, side, rise] = [*width, *side, *rise].map(micrometres);
            RoofWire::Arch { width, side, rise }
        }
    }
}

fn panel_wire(panel: &Panel) -> PanelWire<'_> {
    let Panel { layup, thickness, areal_mass, layers } = panel;
    let [thickness, areal_mass] = [*thickness, *areal_mass].map(micrometres);
    PanelWire { layup, thickness, areal_mass, layers: layers.iter().map(layer_wire).collect() }
}

fn layer_wire(layer: &Layer) -> LayerWire<'_> {
    let Layer { material, thickness, conductivity, bridge } = layer;
    let [thickness, conductivity] = [*thickness, *conductivity].map(micrometres);
    LayerWire { material, thickness, conductivity, frame: bridge.as_ref().map(bridge_wire) }
}

fn bridge_wire(bridge: &Bridge) -> BridgeWire<'_> {
    let Bridge { material, conductivity, metal, width, spacing } = bridge;
    let [conductivity, width, spacing] = [*conductivity, *width, *spacing].map(micrometres);
    BridgeWire { material, conductivity, metal: *metal, width, spacing }
}

pub(super) fn opening_wire<'a>(opening: &'a Opening, sources: &'a SourceMap) -> OpeningWire<'a> {
    #[rustfmt::skip]
    let Opening {
        name, kind, wall, along, up, radius, hinge, swings, opens, slides, of_vehicle, escape, lining, free_area, u_value, span,
    } = opening;
    OpeningWire {
        name,
        kind: kind.name(),
        wall: wall.name(),
        along: range(*along),
        up: range(*up),
        radius: micrometres(*radius),
        hinge: hinge.map(Wall::name),
        swings: match swings {
            Swings::In => "in",
            Swings::Out => "out",
            Swings::No => "no",
        },
        opens: micrometres(*opens),
        slides: slides.map(|(toward, travel)| SlidesWire { toward: toward.name(), travel: micrometres(travel) }),
        of_vehicle: *of_vehicle,
        escape: *escape,
        lining: micrometres(*lining),
        free_area: micrometres(*free_area),
        u_value: u_value.map(micrometres),
        place: Place::new(sources, *span),
    }
}

pub(super) fn zone_wire<'a>(zone: &'a Zone, sources: &'a SourceMap) -> ZoneWire<'a> {
    let Zone { name, purpose, rect, level, span } = zone;
    let (x, y) = (range((rect.x0, rect.x1)), range((rect.y0, rect.y1)));
    ZoneWire { name, purpose: purpose.name(), x, y, level: *level, place: Place::new(sources, *span) }
}
