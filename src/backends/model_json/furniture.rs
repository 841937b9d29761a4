//! Modules with their poses in `model.json`.

use super::make::{self, HardwareWire, MassWire, PartWire};
use super::shapes::{Box3Wire, PrismWire, axis, box3, prism, range, toward};
use super::together::{TogetherWire, together_wire};
use crate::base::number::micrometres;
use crate::diagnostic::wire::{Lazy, Pair, Place, pair, path_data};
use crate::model::{
    Connection, Misfit, MisfitKind, Model, Module, Move, MoveKind, Need, PlanLine, PoseState, Said, Slide, Solid,
    Space, Swing, Taker, Word,
};
use crate::source::SourceMap;
use schemars::JsonSchema;
use serde::Serialize;

/// A piece of furniture: a symbol, placed.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Module")]
pub(super) struct ModuleWire<'a> {
    name: &'a str,
    /// `group/name`.
    symbol: &'a str,
    /// What the symbol says of itself.
    says: &'a str,
    /// The side at which a person stands.
    #[schemars(extend("enum" = ["front", "rear", "left", "right"]))]
    faces: &'static str,
    /// The room that it is given; all solids of all poses lie in it.
    extent: Box3Wire,
    zone: Option<&'a str>,
    /// It stands outside the box.
    outside: bool,
    /// People stand outside, on the ground, who use it.
    used_outside: bool,
    /// The opening that it is used or slides out through.
    through: Option<&'a str>,
    sleepers: Vec<TakerWire<'a>>,
    /// Who sits in it on the road.
    riders: Vec<TakerWire<'a>>,
    poses: Lazy<'a, Vec<PoseWire<'a>>>,
    parts: Lazy<'a, Vec<PartWire<'a>>>,
    /// How the pieces go together in the first pose.
    together: Lazy<'a, TogetherWire<'a>>,
    hardware: Lazy<'a, Vec<HardwareWire<'a>>>,
    /// Masses beside those of the parts.
    masses: Lazy<'a, Vec<MassWire<'a>>>,
    connects: Vec<ConnectionWire<'a>>,
    /// What is wrong with it: errors in spite of which it is drawn.
    misfits: Vec<MisfitWire<'a>>,
    place: Option<Place<'a>>,
    /// Where the text says its place.
    placed: Option<Place<'a>>,
}

/// A size or setting out of its symbol's range, or a place that is given too often.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Misfit")]
struct MisfitWire<'a> {
    #[schemars(extend("enum" = ["size", "setting", "place"]))]
    kind: &'static str,
    what: &'a str,
    /// The figure asked for, and the least and greatest that the symbol takes; `null` for a place.
    figure: Option<f64>,
    least: Option<f64>,
    most: Option<f64>,
    place: Option<Place<'a>>,
}

fn misfit_wire<'a>(misfit: &'a Misfit, sources: &'a SourceMap) -> MisfitWire<'a> {
    let Misfit { kind, what, figure, range, span } = misfit;
    let (kind, told) = match kind {
        MisfitKind::Size => ("size", true),
        MisfitKind::Setting => ("setting", true),
        MisfitKind::Place => ("place", false),
    };
    let [figure, least, most] = [*figure, range.0, range.1].map(|value| told.then(|| micrometres(value)));
    MisfitWire { kind, what, figure, least, most, place: Place::new(sources, *span) }
}

/// Somebody whom the layout gives a place of the module.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Taker")]
struct TakerWire<'a> {
    who: &'a str,
    /// The space of the poses; any if it is null.
    space: Option<&'a str>,
}

/// A service that a module needs.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Connection")]
struct ConnectionWire<'a> {
    name: &'a str,
    place: Option<Place<'a>>,
}

/// What a module is in one pose.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Pose")]
struct PoseWire<'a> {
    name: &'a str,
    solids: Vec<SolidWire<'a>>,
    spaces: Vec<SpaceWire<'a>>,
    moves: Vec<MoveWire<'a>>,
    linework: Vec<LineWire>,
    /// What the symbol exports.
    exports: Vec<FigureWire<'a>>,
}

/// A figure with its name.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Figure")]
pub(super) struct FigureWire<'a> {
    name: &'a str,
    value: f64,
}

/// A figure with its name.
pub(super) fn figure_wire(name: &str, value: f64) -> FigureWire<'_> {
    FigureWire { name, value: micrometres(value) }
}

/// A body that a module fills.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Solid")]
struct SolidWire<'a> {
    name: &'a str,
    prism: PrismWire,
    /// The outline with true curves, where the prism's is made of chords.
    curve: Option<String>,
    tags: Vec<&'a str>,
    /// Bought in: no parts are made for it.
    bought: bool,
    /// Sides that no board closes: `+x` is toward greater x.
    open: Vec<String>,
    place: Option<Place<'a>>,
}

/// Room that people or things need.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Space")]
struct SpaceWire<'a> {
    name: &'a str,
    #[schemars(extend("enum" = ["standing", "sitting", "lying", "storage"]))]
    need: &'static str,
    /// For how many.
    people: u32,
    /// The axis along which people lie.
    #[schemars(extend("enum" = ["x", "y", "z", null]))]
    along: Option<&'static str>,
    /// What may be kept in it, kg, if the symbol says so.
    carries: Option<f64>,
    prism: PrismWire,
    place: Option<Place<'a>>,
}

/// Something that opens.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Move")]
struct MoveWire<'a> {
    name: &'a str,
    /// A door that people walk through.
    walk_through: bool,
    #[serde(flatten)]
    kind: KindWire<'a>,
    place: Option<Place<'a>>,
}

/// How it goes.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "MoveKind")]
enum KindWire<'a> {
    /// A leaf that turns about an axis.
    Swing(SwingWire),
    /// A body that travels along an axis.
    Slide(SlideWire<'a>),
}

/// A leaf that turns about an axis.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Swing")]
struct SwingWire {
    #[schemars(extend("enum" = ["x", "y", "z"]))]
    axis: &'static str,
    /// Across the axis, in the face that the leaf opens toward.
    hinge: Pair,
    /// Of the leaf along the axis.
    along: Pair,
    /// From the hinge to the free edge.
    length: f64,
    thickness: f64,
    /// Direction of the shut leaf from the hinge, degrees counter-clockwise from the plane's first axis.
    shut: f64,
    /// Degrees; negative turns clockwise.
    opens: f64,
}

/// A body that travels along an axis.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Slide")]
struct SlideWire<'a> {
    #[schemars(extend("enum" = ["x", "y", "z"]))]
    axis: &'static str,
    /// Shut.
    body: Box3Wire,
    /// Negative goes down the axis.
    travel: f64,
    /// The move that must be open first.
    after: Option<&'a str>,
    /// It leaves the box through an opening.
    through: bool,
}

/// A line of the plan beyond the outlines of solids.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Line")]
struct LineWire {
    path: String,
    /// Above the floor.
    height: f64,
    dashed: bool,
}

pub(super) fn module_wire<'a>(module: &'a Module, model: &'a Model, sources: &'a SourceMap) -> ModuleWire<'a> {
    #[rustfmt::skip]
    let Module {
        name, symbol, says, faces, extent, zone, outside, used_outside, through, sleepers, riders, poses, parts, together, hardware, masses,
        connects, misfits,
        span, place_span,
    } = module;
    let zone = zone.and_then(|index| model.zones.get(index));
    let connection = |connection: &'a Connection| {
        let Connection { service, span } = connection;
        ConnectionWire { name: service.name(), place: Place::new(sources, *span) }
    };
    ModuleWire {
        name,
        symbol,
        says,
        faces: faces.name(),
        extent: box3(extent),
        zone: zone.map(|zone| zone.name.as_str()),
        outside: *outside,
        used_outside: *used_outside,
        through: through.and_then(|index| model.openings.get(index)).map(|opening| opening.name.as_str()),
        sleepers: sleepers.iter().map(taker_wire).collect(),
        riders: riders.iter().map(taker_wire).collect(),
        poses: Lazy::new(move || poses.iter().map(|pose| pose_wire(pose, sources)).collect()),
        parts: Lazy::new(move || parts.iter().map(|part| make::part_wire(part, model, sources)).collect()),
        together: Lazy::new(move || together_wire(together)),
        hardware: Lazy::new(move || hardware.iter().map(|one| make::hardware_wire(one, sources)).collect()),
        masses: Lazy::new(move || masses.iter().map(|mass| make::mass_wire(mass, sources)).collect()),
        connects: connects.iter().map(connection).collect(),
        misfits: misfits.iter().map(|one| misfit_wire(one, sources)).collect(),
        place: Place::new(sources, *span),
        placed: Place::new(sources, *place_span),
    }
}

fn taker_wire(taker: &Taker) -> TakerWire<'_> {
    let Taker { who, space } = taker;
    TakerWire { who, space: space.as_deref() }
}

fn pose_wire<'a>(pose: &'a PoseState, sources: &'a SourceMap) -> PoseWire<'a> {
    let PoseState { name, solids, spaces, moves, linework, exports } = pose;
    PoseWire {
        name,
        solids: solids.iter().map(|solid| solid_wire(solid, sources)).collect(),
        spaces: spaces.iter().map(|space| space_wire(space, sources)).collect(),
        moves: moves.iter().map(|one| move_wire(one, sources)).collect(),
        linework: linework.iter().map(line_wire).collect(),
        exports: exports.iter().map(|(name, value)| figure_wire(name, *value)).collect(),
    }
}

fn solid_wire<'a>(solid: &'a Solid, sources: &'a SourceMap) -> SolidWire<'a> {
    let Solid { name, prism: body, curve, tags, bought, open, span } = solid;
    SolidWire {
        name,
        prism: prism(body),
        curve: curve.as_ref().map(path_data),
        tags: tags.iter().map(Said::name).collect(),
        bought: *bought,
        open: open.iter().copied().map(toward).collect(),
        place: Place::new(sources, *span),
    }
}

fn space_wire<'a>(space: &'a Space, sources: &'a SourceMap) -> SpaceWire<'a> {
    let Space { name, prism: room, need, people, along, carries, span } = space;
    let need = match need {
        Need::Standing => "standing",
        Need::Sitting => "sitting",
        Need::Lying => "lying",
        Need::Storage => "storage",
    };
    SpaceWire {
        name,
        need,
        people: *people,
        along: along.map(axis),
        carries: carries.map(micrometres),
        prism: prism(room),
        place: Place::new(sources, *span),
    }
}

fn move_wire<'a>(one: &'a Move, sources: &'a SourceMap) -> MoveWire<'a> {
    let Move { name, kind, walk_through, span } = one;
    let kind = match kind {
        MoveKind::Swing(swing) => KindWire::Swing(swing_wire(swing)),
        MoveKind::Slide(Slide { body, axis: along, travel, after, through }) => KindWire::Slide(SlideWire {
            axis: axis(*along),
            body: box3(body),
            travel: micrometres(*travel),
            after: after.as_deref(),
            through: *through,
        }),
    };
    MoveWire { name, walk_through: *walk_through, kind, place: Place::new(sources, *span) }
}

fn swing_wire(swing: &Swing) -> SwingWire {
    let Swing { axis: about, hinge, along, length, thickness, shut, opens } = swing;
    let [length, thickness, shut, opens] = [*length, *thickness, *shut, *opens].map(micrometres);
    SwingWire { axis: axis(*about), hinge: pair(*hinge), along: range(*along), length, thickness, shut, opens }
}

fn line_wire(line: &PlanLine) -> LineWire {
    let PlanLine { path, height, dashed } = line;
    LineWire { path: path_data(path), height: micrometres(*height), dashed: *dashed }
}
