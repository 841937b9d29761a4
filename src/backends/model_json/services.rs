//! Services and climate in `model.json`.

use super::shapes::point3;
use crate::base::number::micrometres;
use crate::diagnostic::wire::Place;
use crate::model::{Battery, Cable, Climate, Consumer, Run, Services, Waste};
use crate::source::{SourceMap, Span};
use schemars::JsonSchema;
use serde::Serialize;

/// Water, electricity, waste pipes.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Services")]
pub(super) struct ServicesWire<'a> {
    water: Option<WaterWire<'a>>,
    battery: Option<BatteryWire<'a>>,
    consumers: Vec<ConsumerWire<'a>>,
    cables: Vec<CableWire<'a>>,
    wastes: Vec<WasteWire<'a>>,
}

/// Water that a person uses in a day.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Water")]
struct WaterWire<'a> {
    /// Litres.
    per_person: f64,
    place: Option<Place<'a>>,
}

/// A battery.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Battery")]
struct BatteryWire<'a> {
    /// Nominal, V.
    volts: f64,
    /// Ah.
    capacity: f64,
    /// Share that may be used, 0 to 1.
    usable: f64,
    /// What comes in on a day, Ah.
    charge: f64,
    place: Option<Place<'a>>,
}

/// Something that uses the battery.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Consumer")]
struct ConsumerWire<'a> {
    name: &'a str,
    watts: f64,
    /// A day.
    hours: f64,
    place: Option<Place<'a>>,
}

/// Where something runs.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Run")]
struct RunWire<'a> {
    from: &'a str,
    to: &'a str,
    /// Corners from start to end, in the box.
    points: Vec<[f64; 3]>,
}

/// A cable, there and back.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Cable")]
struct CableWire<'a> {
    name: &'a str,
    run: RunWire<'a>,
    amps: f64,
    /// Copper, mm².
    section: f64,
    /// Of the conductor, by IEC 60228.
    class: u8,
    /// Of the conductor, °C.
    temperature: f64,
    /// What it feeds must not fail.
    critical: bool,
    place: Option<Place<'a>>,
}

/// A waste pipe.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Waste")]
struct WasteWire<'a> {
    name: &'a str,
    run: RunWire<'a>,
    /// Inside diameter.
    bore: f64,
    place: Option<Place<'a>>,
}

/// Air inside and outside.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Climate")]
pub(super) struct ClimateWire<'a> {
    /// °C.
    inside: f64,
    /// °C.
    outside: f64,
    /// Relative, inside, 0 to 1.
    humidity: f64,
    /// An hour.
    air_changes: f64,
    /// W; 0 for none given.
    heater: f64,
    /// 0 to 1.
    outside_humidity: f64,
    summer_outside: f64,
    summer_inside: f64,
    /// W/m2 on the roof, and the part that it takes up, 0 to 1.
    sun: f64,
    absorbs: f64,
    /// W.
    cooler: f64,
    place: Option<Place<'a>>,
}

pub(super) fn services_wire<'a>(services: &'a Services, sources: &'a SourceMap) -> ServicesWire<'a> {
    let Services { water, battery, consumers, cables, wastes } = services;
    let water =
        water.map(|(litres, span)| WaterWire { per_person: micrometres(litres), place: Place::new(sources, span) });
    ServicesWire {
        water,
        battery: battery.map(|battery| battery_wire(battery, sources)),
        consumers: consumers.iter().map(|one| consumer_wire(one, sources)).collect(),
        cables: cables.iter().map(|one| cable_wire(one, sources)).collect(),
        wastes: wastes.iter().map(|one| waste_wire(one, sources)).collect(),
    }
}

fn battery_wire(battery: Battery, sources: &SourceMap) -> BatteryWire<'_> {
    let Battery { volts, capacity, usable, charge, span } = battery;
    let [volts, capacity, usable, charge] = [volts, capacity, usable, charge].map(micrometres);
    BatteryWire { volts, capacity, usable, charge, place: Place::new(sources, span) }
}

fn consumer_wire<'a>(consumer: &'a Consumer, sources: &'a SourceMap) -> ConsumerWire<'a> {
    let Consumer { name, watts, hours, span } = consumer;
    let [watts, hours] = [*watts, *hours].map(micrometres);
    ConsumerWire { name, watts, hours, place: Place::new(sources, *span) }
}

fn run_wire(run: &Run) -> RunWire<'_> {
    let Run { ends: [from, to], points } = run;
    RunWire { from, to, points: points.iter().map(|point| point3(*point)).collect() }
}

fn cable_wire<'a>(cable: &'a Cable, sources: &'a SourceMap) -> CableWire<'a> {
    let Cable { name, run, amps, section, class, temperature, critical, span } = cable;
    let [amps, section, temperature] = [*amps, *section, *temperature].map(micrometres);
    let (class, critical, place) = (*class, *critical, Place::new(sources, *span));
    CableWire { name, run: run_wire(run), amps, section, class, temperature, critical, place }
}

fn waste_wire<'a>(waste: &'a Waste, sources: &'a SourceMap) -> WasteWire<'a> {
    let Waste { name, run, bore, span } = waste;
    WasteWire { name, run: run_wire(run), bore: micrometres(*bore), place: Place::new(sources, *span) }
}

pub(super) fn climate_wire<'a>(climate: &Climate, sources: &'a SourceMap) -> ClimateWire<'a> {
    #[rustfmt::skip]
    let Climate {
        inside, outside, humidity, air_changes, heater, outside_humidity, summer_outside, summer_inside, sun, absorbs, cooler, span,
    } = *climate;
    ClimateWire {
        inside: micrometres(inside),
        outside: micrometres(outside),
        humidity: micrometres(humidity),
        air_changes: micrometres(air_changes),
        heater: micrometres(heater),
        outside_humidity: micrometres(outside_humidity),
        summer_outside: micrometres(summer_outside),
        summer_inside: micrometres(summer_inside),
        sun: micrometres(sun),
        absorbs: micrometres(absorbs),
        cooler: micrometres(cooler),
        place: span.and_then(|span: Span| Place::new(sources, span)),
    }
}
