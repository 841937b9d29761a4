//! The vehicle, loads and load cases in `model.json`.

use super::shapes::point3;
use super::subframe::{SubframeWire, subframe_wire};
use crate::base::number::micrometres;
use crate::diagnostic::wire::{Pair, Place, pair};
use crate::model::{Axle, Cab, FrameLine, Load, Model, OwnCase, Region, Seat, Tank, Tilt, Vehicle, VehicleKind, Word};
use crate::source::{SourceMap, Span};
use schemars::JsonSchema;
use serde::Serialize;

/// The vehicle under the box. Along it X counts to the rear from the front axle or coupling, Z from the ground; seats are
/// points in the box.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Vehicle")]
pub(super) struct VehicleWire<'a> {
    #[schemars(extend("enum" = ["truck", "van", "trailer"]))]
    kind: &'static str,
    #[schemars(extend("enum" = ["eu", "uk", "au"]))]
    region: &'static str,
    #[schemars(extend("enum" = ["motor-caravan", "caravan", "goods"]))]
    class: &'static str,
    /// Of trailers: `car` or `goods-vehicle`.
    drawn_by: Option<&'static str>,
    wheelbase: f64,
    gross: f64,
    /// Inside of the front wall, X.
    box_from_front_axle: f64,
    /// The floor, Z.
    floor_above_ground: f64,
    tyre_radius: f64,
    bare_centre_height: f64,
    /// Right of the vehicle's middle.
    bare_centre_right: f64,
    /// Middle of the box right of the vehicle's middle.
    box_right: f64,
    ahead_of_front_axle: f64,
    behind_rear_axle: f64,
    on_roof: f64,
    /// Off both side walls together.
    beside_box: f64,
    /// How far the wheels come up when the springs give.
    wheel_travel: f64,
    /// Slope across on which the wheel loads are told, degrees.
    side_slope: f64,
    /// What may be fitted beside all that the layout has, kg.
    optional_equipment: f64,
    /// For what nobody counts, percent of what is built.
    allowance: f64,
    /// The front axle, or a trailer's coupling.
    front: AxleWire<'a>,
    /// The rear axle, or the middle of a group.
    rear: AxleWire<'a>,
    cab: Option<CabWire>,
    frame: Option<FrameWire>,
    /// Corners, (X, Z).
    underside: Vec<Pair>,
    /// Rear overhang at most.
    rear_overhang_limit: OverhangWire,
    subframe: Option<SubframeWire<'a>>,
    seats: Vec<SeatWire<'a>>,
    place: Option<Place<'a>>,
}

/// An axle, the middle of a group of axles, or a coupling.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Axle")]
struct AxleWire<'a> {
    /// Most load, kg.
    limit: f64,
    /// Least load, kg; 0 for none.
    least: f64,
    /// Load of the bare vehicle, kg.
    bare: f64,
    /// 0 for a coupling.
    track: f64,
    /// From the first to the last axle of a group; 0 for one axle.
    spread: f64,
    /// Part of a group's load on its first axle, 0 to 1.
    share: f64,
    place: Option<Place<'a>>,
}

/// The cab.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Cab")]
struct CabWire {
    /// Rear wall, X.
    rear: f64,
    /// Roof, Z.
    top: f64,
    width: f64,
    tilt: Option<TiltWire>,
}

/// How the cab tilts forward.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Tilt")]
struct TiltWire {
    /// The line that it turns about, X and Z.
    about: Pair,
    /// How far, degrees.
    angle: f64,
    /// Lower edge of its rear wall, Z.
    bottom: f64,
}

/// The frame.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Frame")]
struct FrameWire {
    /// Upper edge, Z.
    top: f64,
    /// Lower edge, Z.
    bottom: f64,
    /// Rear end, X.
    rear: f64,
    /// Over both rails.
    width: f64,
}

/// The rear overhang at most.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Overhang")]
struct OverhangWire {
    share_of_wheelbase: f64,
    most: f64,
}

/// A tank, or a thing beside the furniture.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Load")]
pub(super) struct LoadWire<'a> {
    name: &'a str,
    /// Its middle, in the box.
    at: [f64; 3],
    /// Without what is in the tank, kg.
    mass: f64,
    /// Outside size.
    size: Option<[f64; 3]>,
    /// What it is.
    is: &'static str,
    tank: Option<TankWire>,
    /// Where the tank is filled, in the box.
    filler: Option<[f64; 3]>,
    /// Aboard in the case `full` alone.
    only_full: bool,
    place: Option<Place<'a>>,
}

/// What is in a tank.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Tank")]
struct TankWire {
    /// Inside.
    size: [f64; 3],
    #[schemars(extend("enum" = ["fresh-water", "grey-water", "black-water", "fuel", "other"]))]
    holds: &'static str,
    /// kg a litre.
    density: f64,
    /// Share that is filled in each case, 0 to 1.
    fill: FillWire,
}

/// A seat for the road.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Seat")]
struct SeatWire<'a> {
    name: Option<&'a str>,
    at: [f64; 3],
    /// Who sits there, if the layout says so.
    who: Option<&'a str>,
}

/// Share that is filled in each case, 0 to 1.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Fill")]
struct FillWire {
    empty: f64,
    running: f64,
    full: f64,
}

/// A load case of the layout's own: as `full` but for what it says.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "LoadCase")]
pub(super) struct OwnCaseWire<'a> {
    name: &'a str,
    arrangement: Option<&'a str>,
    people: Option<usize>,
    /// Of the furniture, 0 to 1.
    contents: f64,
    cargo: bool,
    fill: Vec<TankFillWire<'a>>,
    place: Option<Place<'a>>,
}

/// How full a tank is in a load case.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "TankFill")]
struct TankFillWire<'a> {
    load: Option<&'a str>,
    /// 0 to 1.
    share: f64,
}

pub(super) fn vehicle_wire<'a>(vehicle: &'a Vehicle, sources: &'a SourceMap) -> VehicleWire<'a> {
    #[rustfmt::skip]
    let Vehicle {
        kind, region, class, drawn_by, wheelbase, gross, box_from_front, floor_height, tyre_radius, bare_height, bare_right, box_right, ahead,
        behind, on_roof, beside, wheel_travel, side_slope, options, allowance, front, rear, cab, frame, underside, overhang, subframe, seats, span, axle_spans: [first, last],
    } = vehicle;
    VehicleWire {
        kind: match kind {
            VehicleKind::Truck => "truck",
            VehicleKind::Van => "van",
            VehicleKind::Trailer => "trailer",
        },
        region: match region {
            Region::Eu => "eu",
            Region::Uk => "uk",
            Region::Au => "au",
        },
        class: class.name(),
        drawn_by: (*kind == VehicleKind::Trailer).then_some(drawn_by.name()),
        wheelbase: micrometres(*wheelbase),
        gross: micrometres(*gross),
        box_from_front_axle: micrometres(*box_from_front),
        floor_above_ground: micrometres(*floor_height),
        tyre_radius: micrometres(*tyre_radius),
        bare_centre_height: micrometres(*bare_height),
        bare_centre_right: micrometres(*bare_right),
        box_right: micrometres(*box_right),
        ahead_of_front_axle: micrometres(*ahead),
        behind_rear_axle: micrometres(*behind),
        on_roof: micrometres(*on_roof),
        beside_box: micrometres(*beside),
        wheel_travel: micrometres(*wheel_travel),
        side_slope: micrometres(*side_slope),
        optional_equipment: micrometres(*options),
        allowance: micrometres(*allowance),
        front: axle_wire(*front, *first, sources),
        rear: axle_wire(*rear, *last, sources),
        cab: cab.map(cab_wire),
        frame: frame.map(frame_wire),
        underside: underside.iter().map(|corner| pair(*corner)).collect(),
        rear_overhang_limit: OverhangWire {
            share_of_wheelbase: micrometres(overhang.0),
            most: micrometres(overhang.1),
        },
        subframe: subframe.map(|subframe| subframe_wire(subframe, sources)),
        seats: seats.iter().map(seat_wire).collect(),
        place: Place::new(sources, *span),
    }
}

fn seat_wire(seat: &Seat) -> SeatWire<'_> {
    let Seat { name, at, who } = seat;
    SeatWire { name: name.as_deref(), at: point3(*at), who: who.as_deref() }
}

fn axle_wire(axle: Axle, span: Span, sources: &SourceMap) -> AxleWire<'_> {
    let Axle { limit, least, bare, track, spread, share } = axle;
    let [limit, least, bare, track, spread, share] = [limit, least, bare, track, spread, share].map(micrometres);
    AxleWire { limit, least, bare, track, spread, share, place: Place::new(sources, span) }
}

fn cab_wire(cab: Cab) -> CabWire {
    let Cab { rear, top, width, tilt } = cab;
    let [rear, top, width] = [rear, top, width].map(micrometres);
    CabWire { rear, top, width, tilt: tilt.map(tilt_wire) }
}

fn tilt_wire(tilt: Tilt) -> TiltWire {
    let Tilt { about, angle, bottom } = tilt;
    TiltWire { about: pair(about), angle: micrometres(angle), bottom: micrometres(bottom) }
}

fn frame_wire(frame: FrameLine) -> FrameWire {
    let FrameLine { top, bottom, rear, width } = frame;
    let [top, bottom, rear, width] = [top, bottom, rear, width].map(micrometres);
    FrameWire { top, bottom, rear, width }
}

pub(super) fn load_wire<'a>(load: &'a Load, sources: &'a SourceMap) -> LoadWire<'a> {
    let Load { name, at, mass, size, room: _, kind, tank, filler, only_full, span } = load;
    LoadWire {
        name,
        at: point3(*at),
        mass: micrometres(*mass),
        size: size.map(|size| size.map(micrometres)),
        is: kind.name(),
        tank: tank.map(tank_wire),
        filler: filler.map(point3),
        only_full: *only_full,
        place: Place::new(sources, *span),
    }
}

fn tank_wire(tank: Tank) -> TankWire {
    let Tank { size, holds, density, fill } = tank;
    let [empty, running, full] = fill.map(micrometres);
    TankWire {
        size: size.map(micrometres),
        holds: holds.name(),
        density: micrometres(density),
        fill: FillWire { empty, running, full },
    }
}

pub(super) fn case_wire<'a>(case: &'a OwnCase, model: &'a Model, sources: &'a SourceMap) -> OwnCaseWire<'a> {
    let OwnCase { name, arrangement, people, contents, cargo, fill, span } = case;
    let load = |at: usize| model.loads.get(at).map(|load| load.name.as_str());
    let fill = fill.iter().map(|(at, share)| TankFillWire { load: load(*at), share: micrometres(*share) }).collect();
    let arrangement = arrangement.and_then(|at| model.arrangements.get(at)).map(|one| one.name.as_str());
    let (contents, place) = (micrometres(*contents), Place::new(sources, *span));
    OwnCaseWire { name, arrangement, people: *people, contents, cargo: *cargo, fill, place }
}
