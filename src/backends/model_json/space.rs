//! The box, its openings and zones in `model.json`.

use super::{PrismWire, prism, range};
use crate::base::number::micrometres;
use crate::diagnostic::wire::{Pair, Place, pair};
use crate::geometry::Roof;
use crate::model::{BoxSpace, Cutaway, Opening, Panel, Swings, Wall, Zone};
use crate::source::SourceMap;
use serde::Serialize;

#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(super) struct BoxWire<'a> {
    length: f64,
    width: f64,
    height: f64,
    roof: RoofWire,
    walls: PanelWire<'a>,
    roof_panel: PanelWire<'a>,
    floor: PanelWire<'a>,
    cutaways: Vec<CutawayWire<'a>>,
    place: Option<Place<'a>>,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "lowercase")]
enum RoofWire {
    /// Points (y, z), straight between them.
    Line(Vec<Pair>),
    /// A circular arc over the whole width.
    Arch { side: f64, rise: f64 },
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
struct PanelWire<'a> {
    layup: &'a str,
    thickness: f64,
    areal_mass: f64,
}

#[derive(Debug, Serialize)]
struct CutawayWire<'a> {
    name: &'a str,
    prism: PrismWire,
    place: Option<Place<'a>>,
}

#[derive(Debug, Serialize)]
pub(super) struct OpeningWire<'a> {
    name: &'a str,
    kind: &'static str,
    wall: &'static str,
    along: Pair,
    up: Pair,
    radius: f64,
    hinge: Option<&'static str>,
    swings: &'static str,
    opens: f64,
    escape: bool,
    lining: f64,
    free_area: f64,
    place: Option<Place<'a>>,
}

#[derive(Debug, Serialize)]
pub(super) struct ZoneWire<'a> {
    name: &'a str,
    purpose: &'a str,
    x: Pair,
    y: Pair,
    level: i64,
    place: Option<Place<'a>>,
}

pub(super) fn box_wire<'a>(space: &'a BoxSpace, sources: &'a SourceMap) -> BoxWire<'a> {
    let cutaway = |cutaway: &'a Cutaway| CutawayWire {
        name: &cutaway.name,
        prism: prism(&cutaway.prism),
        place: Place::new(sources, cutaway.span),
    };
    BoxWire {
        length: micrometres(space.length),
        width: micrometres(space.width),
        height: micrometres(space.height),
        roof: roof(&space.roof),
        walls: panel(&space.walls),
        roof_panel: panel(&space.roof_panel),
        floor: panel(&space.floor),
        cutaways: space.cutaways.iter().map(cutaway).collect(),
        place: Place::new(sources, space.span),
    }
}

fn roof(roof: &Roof) -> RoofWire {
    match roof {
        Roof::Line(points) => RoofWire::Line(points.iter().map(|point| pair(*point)).collect()),
        Roof::Arch { side, rise, .. } => RoofWire::Arch { side: micrometres(*side), rise: micrometres(*rise) },
    }
}

fn panel(panel: &Panel) -> PanelWire<'_> {
    PanelWire {
        layup: &panel.layup,
        thickness: micrometres(panel.thickness),
        areal_mass: micrometres(panel.areal_mass),
    }
}

pub(super) fn opening_wire<'a>(opening: &'a Opening, sources: &'a SourceMap) -> OpeningWire<'a> {
    let swings = match opening.swings {
        Swings::In => "in",
        Swings::Out => "out",
        Swings::No => "no",
    };
    OpeningWire {
        name: &opening.name,
        kind: opening.kind.name(),
        wall: opening.wall.name(),
        along: range(opening.along),
        up: range(opening.up),
        radius: micrometres(opening.radius),
        hinge: opening.hinge.map(Wall::name),
        swings,
        opens: micrometres(opening.opens),
        escape: opening.escape,
        lining: micrometres(opening.lining),
        free_area: micrometres(opening.free_area),
        place: Place::new(sources, opening.span),
    }
}

pub(super) fn zone_wire<'a>(zone: &'a Zone, sources: &'a SourceMap) -> ZoneWire<'a> {
    ZoneWire {
        name: &zone.name,
        purpose: &zone.purpose,
        x: range((zone.rect.x0, zone.rect.x1)),
        y: range((zone.rect.y0, zone.rect.y1)),
        level: zone.level,
        place: Place::new(sources, zone.span),
    }
}
