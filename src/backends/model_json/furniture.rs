//! Modules with their poses in `model.json`.

use super::make::{self, HardwareWire, MassWire, PartWire};
use super::{Box3Wire, PrismWire, axis, box3, prism, range};
use crate::base::number::micrometres;
use crate::diagnostic::wire::{Pair, Place, pair, path_data};
use crate::model::{Model, Module, Move, MoveKind, Need, PlanLine, PoseState, Slide, Solid, Space, Swing};
use crate::source::SourceMap;
use serde::Serialize;

#[derive(Debug, Serialize)]
pub(super) struct ModuleWire<'a> {
    name: &'a str,
    symbol: &'a str,
    says: &'a str,
    faces: &'static str,
    extent: Box3Wire,
    zone: Option<&'a str>,
    sleepers: &'a [String],
    poses: Vec<PoseWire<'a>>,
    parts: Vec<PartWire<'a>>,
    hardware: Vec<HardwareWire<'a>>,
    masses: Vec<MassWire<'a>>,
    connects: Vec<&'a str>,
    place: Option<Place<'a>>,
}

#[derive(Debug, Serialize)]
struct PoseWire<'a> {
    name: &'a str,
    solids: Vec<SolidWire<'a>>,
    spaces: Vec<SpaceWire<'a>>,
    moves: Vec<MoveWire<'a>>,
    linework: Vec<LineWire>,
}

#[derive(Debug, Serialize)]
struct SolidWire<'a> {
    name: &'a str,
    prism: PrismWire,
    curve: Option<String>,
    tags: &'a [String],
    bought: bool,
    place: Option<Place<'a>>,
}

#[derive(Debug, Serialize)]
struct SpaceWire<'a> {
    name: &'a str,
    need: &'static str,
    people: u32,
    along: Option<&'static str>,
    carries: Option<f64>,
    prism: PrismWire,
    place: Option<Place<'a>>,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
struct MoveWire<'a> {
    name: &'a str,
    walk_through: bool,
    #[serde(flatten)]
    kind: KindWire,
    place: Option<Place<'a>>,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "lowercase")]
enum KindWire {
    Swing { axis: &'static str, hinge: Pair, along: Pair, length: f64, thickness: f64, shut: f64, opens: f64 },
    Slide { axis: &'static str, body: Box3Wire, travel: f64 },
}

#[derive(Debug, Serialize)]
struct LineWire {
    path: String,
    height: f64,
    dashed: bool,
}

pub(super) fn module_wire<'a>(module: &'a Module, model: &'a Model, sources: &'a SourceMap) -> ModuleWire<'a> {
    let zone = module.zone.and_then(|index| model.zones.get(index));
    ModuleWire {
        name: &module.name,
        symbol: &module.symbol,
        says: &module.says,
        faces: module.faces.name(),
        extent: box3(&module.extent),
        zone: zone.map(|zone| zone.name.as_str()),
        sleepers: &module.sleepers,
        poses: module.poses.iter().map(|pose| pose_wire(pose, sources)).collect(),
        parts: module.parts.iter().map(|part| make::part_wire(part, model, sources)).collect(),
        hardware: module.hardware.iter().map(|one| make::hardware_wire(one, sources)).collect(),
        masses: module.masses.iter().map(|mass| make::mass_wire(mass, sources)).collect(),
        connects: module.connects.iter().map(|connection| connection.name.as_str()).collect(),
        place: Place::new(sources, module.span),
    }
}

fn pose_wire<'a>(pose: &'a PoseState, sources: &'a SourceMap) -> PoseWire<'a> {
    PoseWire {
        name: &pose.name,
        solids: pose.solids.iter().map(|solid| solid_wire(solid, sources)).collect(),
        spaces: pose.spaces.iter().map(|space| space_wire(space, sources)).collect(),
        moves: pose.moves.iter().map(|one| move_wire(one, sources)).collect(),
        linework: pose.linework.iter().map(line_wire).collect(),
    }
}

fn solid_wire<'a>(solid: &'a Solid, sources: &'a SourceMap) -> SolidWire<'a> {
    SolidWire {
        name: &solid.name,
        prism: prism(&solid.prism),
        curve: solid.curve.as_ref().map(path_data),
        tags: &solid.tags,
        bought: solid.bought,
        place: Place::new(sources, solid.span),
    }
}

fn space_wire<'a>(space: &'a Space, sources: &'a SourceMap) -> SpaceWire<'a> {
    let need = match space.need {
        Need::Standing => "standing",
        Need::Sitting => "sitting",
        Need::Lying => "lying",
        Need::Storage => "storage",
    };
    SpaceWire {
        name: &space.name,
        need,
        people: space.people,
        along: space.along.map(axis),
        carries: space.carries.map(micrometres),
        prism: prism(&space.prism),
        place: Place::new(sources, space.span),
    }
}

fn move_wire<'a>(one: &'a Move, sources: &'a SourceMap) -> MoveWire<'a> {
    let kind = match &one.kind {
        MoveKind::Swing(swing) => swing_wire(swing),
        MoveKind::Slide(Slide { body, axis: along, travel }) => {
            KindWire::Slide { axis: axis(*along), body: box3(body), travel: micrometres(*travel) }
        }
    };
    MoveWire { name: &one.name, walk_through: one.walk_through, kind, place: Place::new(sources, one.span) }
}

fn swing_wire(swing: &Swing) -> KindWire {
    KindWire::Swing {
        axis: axis(swing.axis),
        hinge: pair(swing.hinge),
        along: range(swing.along),
        length: micrometres(swing.length),
        thickness: micrometres(swing.thickness),
        shut: micrometres(swing.shut),
        opens: micrometres(swing.opens),
    }
}

fn line_wire(line: &PlanLine) -> LineWire {
    LineWire { path: path_data(&line.path), height: micrometres(line.height), dashed: line.dashed }
}
