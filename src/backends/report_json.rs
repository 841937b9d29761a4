//! `report.json`: masses, load cases, outside size, angles and twist of the vehicle, heat and dew of the shell, inserts,
//! services, and the worked sums of all checks that compute, for other programs.
//!
//! `boxwright schema report` prints its JSON Schema, which is made from the types here. All figures have at most three
//! decimals.

use super::backend::{Backend, OutputFile, Product, Reads};
use crate::base::number::micrometres as rounded;
use crate::diagnostic::wire::{Pair, json_schema, json_text, pair};
use crate::diagnostic::{Step, Worked};
use crate::figures::Figures;
use crate::model::{Model, Vehicle};
use crate::services::{day, drop, fall, water};
use crate::vehicle::{
    Angles, Held, Mount, OnSlope, Touch, Weighed, angles, held, masses, on_slope, outside, tilting, twist, underside,
};
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::Value;

/// Writes `report.json`.
#[derive(Debug, Clone, Copy, Default)]
pub struct ReportJson;

impl Backend for ReportJson {
    fn name(&self) -> &'static str {
        "report-json"
    }

    fn says(&self) -> &'static str {
        "Masses, axle loads, insulation, services and their worked sums as JSON (report.json)"
    }

    fn reads(&self) -> &'static [Reads] {
        &[Reads::Sums]
    }

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        let text = json_text(&report_wire(product));
        Ok(vec![OutputFile { name: "report.json".to_owned(), bytes: text.into_bytes() }])
    }
}

/// The computed figures of a layout. Masses are kg, lengths mm, angles degrees; X counts to the rear from the front axle or coupling,
/// Z from the ground.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Report")]
pub struct ReportWire<'a> {
    #[schemars(extend("const" = "boxwright-report"))]
    format: &'static str,
    #[schemars(extend("const" = 1))]
    version: u32,
    /// How many errors of a draft and open faults there are; nothing may be cut or built while it is not 0.
    held: usize,
    name: &'a str,
    cautions: Vec<CautionWire<'a>>,
    vehicle: Option<VehicleWire>,
    shell: ShellWire,
    services: ServicesWire,
    sums: Vec<SumsWire<'a>>,
}

/// What the results of a check on safety are worth.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Caution")]
struct CautionWire<'a> {
    check: &'a str,
    says: &'a str,
}

/// The vehicle with the box.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Vehicle")]
struct VehicleWire {
    length: f64,
    width: f64,
    height: f64,
    rear_overhang: f64,
    approach: Option<TouchWire>,
    departure: Option<TouchWire>,
    ramp: Option<TouchWire>,
    twist: Option<TwistWire>,
    /// Each load case on the subframe; none where it is bolted down.
    subframe: Vec<HeldWire>,
    cab_tilt: Option<TiltWire>,
    load_cases: Vec<CaseWire>,
    masses: Vec<MassWire>,
}

/// The angle at which the ground touches first, and where.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Touch")]
struct TouchWire {
    angle: f64,
    by: String,
    at: Pair,
}

/// The box against a twisted frame.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Twist")]
struct TwistWire {
    angle: f64,
    shear: f64,
    stretch: f64,
    under: Option<f64>,
}

/// The box on its subframe in a load case, at rest.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Held")]
struct HeldWire {
    case: String,
    mounts: Vec<MountWire>,
    rail: Option<BentWire>,
}

/// A mount: X and Y right of the vehicle's middle, kg.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Mount")]
struct MountWire {
    name: String,
    at: Pair,
    carries: f64,
}

/// One longitudinal: greatest moment, kN m, where, stress there, N/mm2, and bend, mm.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Bent")]
struct BentWire {
    moment: f64,
    at: f64,
    stress: f64,
    bend: f64,
}

/// How near the tilting cab comes to the front wall, and at which angle.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "CabTilt")]
struct TiltWire {
    left: f64,
    angle: f64,
}

/// A load case.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "LoadCase")]
struct CaseWire {
    name: String,
    total: f64,
    front: f64,
    rear: f64,
    rear_axles: Vec<f64>,
    front_sides: Option<Pair>,
    rear_sides: Pair,
    centre: [f64; 3],
    stability_factor: f64,
    tips_at: f64,
    /// Wheel loads on the vehicle's side slope; none without one.
    on_slope: Vec<SlopeWire>,
}

/// The wheels of an axle on ground that slopes across, kg.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "OnSlope")]
struct SlopeWire {
    axle: &'static str,
    falls: &'static str,
    uphill: f64,
    downhill: f64,
}

/// A mass, X, Y to the right of the vehicle's middle, Z.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Mass")]
struct MassWire {
    name: String,
    kind: &'static str,
    mass: f64,
    at: [f64; 3],
}

/// Heat through the shell.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Shell")]
struct ShellWire {
    mean_u: f64,
    volume: f64,
    /// Where panels meet: length, m, and what they let through on top, W/K.
    edges: f64,
    at_edges: f64,
    conducted: f64,
    aired: f64,
    surfaces: Vec<SurfaceWire>,
    inserts: Vec<InsertWire>,
}

/// A surface of the shell.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Surface")]
struct SurfaceWire {
    name: String,
    made_of: String,
    area: f64,
    u: f64,
}

/// Something to be set into a panel for what is fixed there.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Insert")]
struct InsertWire {
    panel: &'static str,
    at: Pair,
    holds: String,
    carries: f64,
}

/// Water, electricity, waste pipes.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Services")]
struct ServicesWire {
    water_days: Option<f64>,
    battery_days: Option<f64>,
    cables: Vec<CableWire>,
    wastes: Vec<WasteWire>,
}

/// A cable and its voltage drop.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Cable")]
struct CableWire {
    name: String,
    length: f64,
    volts: f64,
    percent: f64,
}

/// A waste pipe and its fall.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Waste")]
struct WasteWire {
    name: String,
    length: f64,
    fall: f64,
    percent: f64,
}

/// The worked sums of a check.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Sums")]
struct SumsWire<'a> {
    check: &'a str,
    sums: Vec<SumWire>,
}

/// A worked sum.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Sum")]
struct SumWire {
    title: String,
    steps: Vec<StepWire>,
}

/// A step of a sum.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Step")]
struct StepWire {
    what: String,
    formula: String,
    figures: String,
    result: String,
    source: String,
}

/// The JSON Schema of `report.json`.
#[must_use]
pub fn report_schema() -> Value {
    json_schema::<ReportWire<'_>>()
}

/// The whole form.
#[must_use]
pub fn report_wire<'a>(product: &Product<'a>) -> ReportWire<'a> {
    let model = product.model;
    let caution =
        |ran: &'a crate::diagnostic::Ran| Some(CautionWire { check: &ran.name, says: ran.caution.as_deref()? });
    ReportWire {
        format: "boxwright-report",
        version: 1,
        held: product.held().count(),
        name: &model.name,
        cautions: product.checks.iter().filter_map(caution).collect(),
        vehicle: model.vehicle.as_ref().map(|vehicle| vehicle_wire(product.figures, vehicle)),
        shell: shell(product.figures),
        services: services(model),
        sums: product
            .sums
            .iter()
            .map(|(check, sums)| SumsWire { check, sums: sums.iter().map(sum).collect() })
            .collect(),
    }
}

fn sum(worked: &Worked) -> SumWire {
    let step = |step: &Step| {
        let Step { what, formula, figures, result, source } = step.clone();
        StepWire { what, formula, figures, result, source }
    };
    SumWire { title: worked.title.clone(), steps: worked.steps.iter().map(step).collect() }
}

fn vehicle_wire(figures: &Figures<'_>, vehicle: &Vehicle) -> VehicleWire {
    let model = figures.model;
    let size = outside(model, vehicle);
    let Angles { approach, departure, ramp } = angles(vehicle, &underside(model, vehicle));
    let touch = |touch: Touch| TouchWire { angle: rounded(touch.angle), by: touch.by, at: pair(touch.at) };
    let turn = twist(model, vehicle).map(|twist| TwistWire {
        angle: rounded(twist.angle),
        shear: rounded(twist.shear),
        stretch: rounded(twist.stretch),
        under: twist.under.map(|(_, left)| rounded(left)),
    });
    let list = masses(model, model.arrangements.first()).into_iter().map(|mass| MassWire {
        name: mass.name,
        kind: mass.group.words(),
        mass: rounded(mass.mass),
        at: [mass.at.x, mass.at.y, mass.at.z].map(rounded),
    });
    let held = held(model, vehicle, figures.cases());
    let on_slope = |weighed: &Weighed| on_slope(vehicle, weighed).into_iter().map(slope_wire).collect();
    VehicleWire {
        length: rounded(size.length),
        width: rounded(size.width),
        height: rounded(size.height),
        rear_overhang: rounded(size.overhang),
        approach: approach.map(touch),
        departure: departure.map(touch),
        ramp: ramp.map(touch),
        twist: turn,
        subframe: held.iter().map(held_wire).collect(),
        cab_tilt: tilting(model, vehicle)
            .map(|found| TiltWire { left: rounded(found.left), angle: rounded(found.angle) }),
        load_cases: figures.weighed().iter().map(|weighed| case_wire(weighed, on_slope(weighed))).collect(),
        masses: list.collect(),
    }
}

fn held_wire(held: &Held) -> HeldWire {
    let mount = |mount: &Mount| MountWire {
        name: mount.name.clone(),
        at: [mount.x, mount.y].map(rounded),
        carries: rounded(mount.carries),
    };
    let rail = held.rail.map(|rail| BentWire {
        moment: rounded(rail.moment / 1e6),
        at: rounded(rail.at),
        stress: rounded(rail.stress),
        bend: rounded(rail.bend),
    });
    HeldWire { case: held.case.clone(), mounts: held.mounts.iter().map(mount).collect(), rail }
}

fn slope_wire(one: OnSlope) -> SlopeWire {
    let OnSlope { axle, falls, uphill, downhill } = one;
    SlopeWire { axle, falls, uphill: rounded(uphill), downhill: rounded(downhill) }
}

fn case_wire(weighed: &Weighed, on_slope: Vec<SlopeWire>) -> CaseWire {
    let sides = |(left, right): (f64, f64)| [rounded(left), rounded(right)];
    CaseWire {
        total: rounded(weighed.total),
        front: rounded(weighed.front),
        rear: rounded(weighed.rear),
        rear_axles: weighed.group.iter().copied().map(rounded).collect(),
        front_sides: weighed.front_sides.map(sides),
        rear_sides: sides(weighed.rear_sides),
        centre: [weighed.centre.x, weighed.centre.y, weighed.centre.z].map(rounded),
        stability_factor: rounded(weighed.stability()),
        tips_at: rounded(weighed.tips_at()),
        on_slope,
        name: weighed.case.clone(),
    }
}

fn shell(figures: &Figures<'_>) -> ShellWire {
    let losses = figures.losses();
    let surface = |loss: &crate::shell::losses::Loss| SurfaceWire {
        area: rounded(loss.area),
        u: rounded(loss.u),
        made_of: loss.made_of.clone(),
        name: loss.name.clone(),
    };
    let insert = |insert: &crate::shell::inserts::Insert| InsertWire {
        panel: insert.wall.name(),
        at: pair(insert.at),
        carries: rounded(insert.carries),
        holds: insert.holds.clone(),
    };
    ShellWire {
        mean_u: rounded(losses.mean_u),
        volume: rounded(losses.volume),
        edges: rounded(losses.edges),
        at_edges: rounded(losses.at_edges),
        conducted: rounded(losses.conducted),
        aired: rounded(losses.aired),
        surfaces: losses.through.iter().map(surface).collect(),
        inserts: figures.inserts().placed.iter().map(insert).collect(),
    }
}

fn services(model: &Model) -> ServicesWire {
    let volts = crate::services::nominal(model);
    let cables = model.services.cables.iter().map(|cable| {
        let found = drop(cable, volts);
        let [length, volts, percent] = [found.length, found.volts, found.percent].map(rounded);
        CableWire { name: cable.name.clone(), length, volts, percent }
    });
    let wastes = model.services.wastes.iter().map(|waste| {
        let found = fall(waste);
        let [length, fall, percent] = [found.length, found.drop, found.percent].map(rounded);
        WasteWire { name: waste.name.clone(), length, fall, percent }
    });
    ServicesWire {
        water_days: water(model).map(|water| rounded(water.days)),
        battery_days: day(model).map(|day| day.stored / day.used).filter(|days| days.is_finite()).map(rounded),
        cables: cables.collect(),
        wastes: wastes.collect(),
    }
}
