//! `model.json`: the whole resolved layout with cut list and cutting plans, for other programs.
//!
//! A form of its own, apart from the types inside the program; `boxwright schema model` prints its JSON Schema, which is made
//! from the types here. Lengths are mm, masses kg, angles degrees, shares 0 to 1, all with at most three decimals; x to the
//! rear, y to the right, z up, from the inside front left floor corner. A range is `[low, high]`, a point `[x, y]`. Curves are
//! SVG path data. Things refer to each other by name; `place` is where the text says it, as in `findings.json`.
//!
//! Every type of the model is taken apart here field by field, so that a new field can't be forgotten: the compiler asks for it.
//!
//! Without white space: programs read it.

mod cargo;
mod furniture;
mod list;
mod make;
mod router;
mod services;
mod settings;
mod shapes;
mod space;
mod subframe;
mod together;
mod vehicle;

use super::backend::{Backend, OutputFile, Product, Reads};
use crate::base::number::micrometres;
use crate::diagnostic::wire::{Lazy, Place, compact_json, json_schema};
use crate::figures::Figures;
use crate::model::{Accepted, Arrangement, LimitChange, Model, Person, Revision, Route, RouteEnd, Title};
use crate::source::SourceMap;
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::Value;

/// The version of the form.
const VERSION: u32 = 4;

/// Writes `model.json`.
#[derive(Debug, Clone, Copy, Default)]
pub struct ModelJson;

impl Backend for ModelJson {
    fn name(&self) -> &'static str {
        "model-json"
    }

    fn says(&self) -> &'static str {
        "The whole resolved layout with its cut list as JSON (model.json)"
    }

    fn reads(&self) -> &'static [Reads] {
        &[]
    }

    fn files(&self, product: &Product<'_>) -> Result<Vec<OutputFile>, String> {
        let text = compact_json(&model_wire(product.figures, product.sources, product.held().count()));
        Ok(vec![OutputFile { name: "model.json".to_owned(), bytes: text.into_bytes() }])
    }
}

/// The JSON Schema of `model.json`.
#[must_use]
pub fn model_schema() -> Value {
    json_schema::<ModelWire<'_>>()
}

/// A layout, resolved. Lengths are mm, masses kg, angles degrees, shares 0 to 1; x to the rear, y to the right, z up, from the
/// inside front left floor corner. A later minor version may add keys; a key that goes or means something else makes a new
/// version.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Model")]
pub struct ModelWire<'a> {
    #[schemars(extend("const" = "boxwright-model"))]
    format: &'static str,
    #[schemars(extend("const" = VERSION))]
    version: u32,
    /// How many errors of a draft and open faults there are; nothing may be cut or built while it is not 0.
    held: usize,
    /// Name of the layout.
    name: &'a str,
    title: TitleWire<'a>,
    people: Lazy<'a, Vec<PersonWire<'a>>>,
    /// Parameters that are figures.
    parameters: Vec<furniture::FigureWire<'a>>,
    #[serde(rename = "box")]
    space: space::BoxWire<'a>,
    openings: Lazy<'a, Vec<space::OpeningWire<'a>>>,
    zones: Lazy<'a, Vec<space::ZoneWire<'a>>>,
    modules: Lazy<'a, Vec<furniture::ModuleWire<'a>>>,
    arrangements: Lazy<'a, Vec<ArrangementWire<'a>>>,
    routes: Lazy<'a, Vec<RouteWire<'a>>>,
    cargo: Lazy<'a, Vec<cargo::CargoWire<'a>>>,
    vehicle: Option<vehicle::VehicleWire<'a>>,
    loads: Lazy<'a, Vec<vehicle::LoadWire<'a>>>,
    /// Load cases of the layout's own.
    load_cases: Lazy<'a, Vec<vehicle::OwnCaseWire<'a>>>,
    services: Lazy<'a, services::ServicesWire<'a>>,
    climate: services::ClimateWire<'a>,
    /// Changed limits of checks.
    limits: Lazy<'a, Vec<LimitWire<'a>>>,
    /// Findings that the layout accepts.
    accepted: Lazy<'a, Vec<AcceptedWire<'a>>>,
    stocks: Lazy<'a, Vec<make::StockWire<'a>>>,
    prices: Lazy<'a, settings::PricesWire<'a>>,
    labels: settings::LabelsWire,
    /// The router of the workshop; `null` for none.
    router: Lazy<'a, Option<router::RouterWire<'a>>>,
    sheets: settings::SheetsWire<'a>,
    /// Where the cargo lies.
    stowage: Lazy<'a, Vec<cargo::StowageWire<'a>>>,
    cut_list: Lazy<'a, list::CutListWire<'a>>,
}

/// Title data. Texts that were not written are empty.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Title")]
struct TitleWire<'a> {
    title: &'a str,
    number: &'a str,
    revision: &'a str,
    revision_note: &'a str,
    /// In order, the last is the current one.
    revisions: Vec<RevisionWire<'a>>,
    by: &'a str,
    approved: &'a str,
    owner: &'a str,
    date: &'a str,
}

/// A revision of the drawings.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Revision")]
struct RevisionWire<'a> {
    mark: &'a str,
    note: &'a str,
    date: &'a str,
    by: &'a str,
}

/// A person who lives aboard.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Person")]
struct PersonWire<'a> {
    name: &'a str,
    stature: f64,
    /// Whether the layout says the stature.
    measured: bool,
    mass: f64,
    place: Option<Place<'a>>,
}

/// A pose for every module.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Arrangement")]
struct ArrangementWire<'a> {
    name: &'a str,
    /// One for each module, in the order of `modules`.
    poses: Vec<PoseOfWire<'a>>,
    place: Option<Place<'a>>,
}

/// The pose of a module.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "PoseOf")]
struct PoseOfWire<'a> {
    module: &'a str,
    pose: &'a str,
}

/// A way that must stay free.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Route")]
struct RouteWire<'a> {
    name: &'a str,
    from: Option<EndWire<'a>>,
    to: Option<EndWire<'a>>,
    arrangements: Vec<&'a str>,
    /// Least width, if the layout says one.
    least: Option<f64>,
    place: Option<Place<'a>>,
}

/// An end of a route, by name.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "RouteEnd")]
enum EndWire<'a> {
    Opening(&'a str),
    Module(&'a str),
}

/// A limit that the layout has changed, in the limit's unit.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "ChangedLimit")]
struct LimitWire<'a> {
    check: &'a str,
    name: &'a str,
    value: f64,
    because: &'a str,
    place: Option<Place<'a>>,
}

/// A finding that the layout accepts.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Acceptance")]
struct AcceptedWire<'a> {
    check: &'a str,
    of: &'a str,
    /// What tells the finding from others; empty for all.
    about: &'a [String],
    /// Empty for all.
    arrangements: &'a [String],
    /// The figure it was accepted at.
    up_to: Option<f64>,
    because: &'a str,
    place: Option<Place<'a>>,
}

/// The whole form, each part of which is made when it is written.
#[must_use]
pub fn model_wire<'a>(figures: &'a Figures<'a>, sources: &'a SourceMap, held: usize) -> ModelWire<'a> {
    let whole = figures.model;
    #[rustfmt::skip]
    let Model {
        name, title, people, parameters, space, openings, zones, modules, arrangements, routes, cargo, vehicle, loads, load_cases, services,
        climate, limits, accepted, stocks, prices, labels, router, sheets,
        errors: _,
    } = whole;
    ModelWire {
        format: "boxwright-model",
        version: VERSION,
        held,
        name,
        title: title_wire(title),
        people: Lazy::new(move || people.iter().map(|person| person_wire(person, sources)).collect()),
        parameters: parameters.iter().map(|(name, value)| furniture::figure_wire(name, *value)).collect(),
        space: space::box_wire(space, sources),
        openings: Lazy::new(move || openings.iter().map(|opening| space::opening_wire(opening, sources)).collect()),
        zones: Lazy::new(move || zones.iter().map(|zone| space::zone_wire(zone, sources)).collect()),
        modules: Lazy::new(move || {
            modules.iter().map(|module| furniture::module_wire(module, whole, sources)).collect()
        }),
        arrangements: Lazy::new(move || arrangements.iter().map(|one| arrangement_wire(one, whole, sources)).collect()),
        routes: Lazy::new(move || routes.iter().map(|route| route_wire(route, whole, sources)).collect()),
        cargo: Lazy::new(move || cargo.iter().map(|one| cargo::cargo_wire(one, whole, sources)).collect()),
        vehicle: vehicle.as_ref().map(|vehicle| vehicle::vehicle_wire(vehicle, sources)),
        loads: Lazy::new(move || loads.iter().map(|load| vehicle::load_wire(load, sources)).collect()),
        load_cases: Lazy::new(move || load_cases.iter().map(|case| vehicle::case_wire(case, whole, sources)).collect()),
        services: Lazy::new(move || services::services_wire(services, sources)),
        climate: services::climate_wire(climate, sources),
        limits: Lazy::new(move || limits.iter().map(|limit| limit_wire(limit, sources)).collect()),
        accepted: Lazy::new(move || accepted.iter().map(|entry| accepted_wire(entry, sources)).collect()),
        stocks: Lazy::new(move || stocks.iter().map(|stock| make::stock_wire(stock, sources)).collect()),
        prices: Lazy::new(move || settings::prices_wire(prices)),
        labels: settings::labels_wire(labels),
        router: Lazy::new(move || router.as_ref().map(|router| router::router_wire(router, sources))),
        sheets: settings::sheets_wire(sheets),
        stowage: Lazy::new(move || cargo::stowage_wires(figures)),
        cut_list: Lazy::new(move || list::cut_list_wire(figures.cut_list(), whole, sources)),
    }
}

fn title_wire(title: &Title) -> TitleWire<'_> {
    let Title { title, number, revision, revision_note, revisions, by, approved, owner, date } = title;
    let revisions = revisions.iter().map(revision_wire).collect();
    TitleWire { title, number, revision, revision_note, revisions, by, approved, owner, date }
}

fn revision_wire(revision: &Revision) -> RevisionWire<'_> {
    let Revision { mark, note, date, by } = revision;
    RevisionWire { mark, note, date, by }
}

fn person_wire<'a>(person: &'a Person, sources: &'a SourceMap) -> PersonWire<'a> {
    let Person { name, stature, measured, mass, span } = person;
    let [stature, mass] = [*stature, *mass].map(micrometres);
    PersonWire { name, stature, measured: *measured, mass, place: Place::new(sources, *span) }
}

fn arrangement_wire<'a>(one: &'a Arrangement, model: &'a Model, sources: &'a SourceMap) -> ArrangementWire<'a> {
    let Arrangement { name, poses, span } = one;
    let pose = |(module, pose): (&'a crate::model::Module, &usize)| {
        let pose = module.poses.get(*pose)?;
        Some(PoseOfWire { module: &module.name, pose: &pose.name })
    };
    let poses = model.modules.iter().zip(poses).filter_map(pose).collect();
    ArrangementWire { name, poses, place: Place::new(sources, *span) }
}

fn route_wire<'a>(route: &'a Route, model: &'a Model, sources: &'a SourceMap) -> RouteWire<'a> {
    let Route { name, from, to, arrangements, least, span } = route;
    let end = |end: RouteEnd| match end {
        RouteEnd::Opening(index) => model.openings.get(index).map(|opening| EndWire::Opening(&opening.name)),
        RouteEnd::Module(index) => model.modules.get(index).map(|module| EndWire::Module(&module.name)),
    };
    let of = |index: &usize| model.arrangements.get(*index).map(|arrangement| arrangement.name.as_str());
    RouteWire {
        name,
        from: end(*from),
        to: end(*to),
        arrangements: arrangements.iter().filter_map(of).collect(),
        least: least.map(micrometres),
        place: Place::new(sources, *span),
    }
}

fn limit_wire<'a>(limit: &'a LimitChange, sources: &'a SourceMap) -> LimitWire<'a> {
    let LimitChange { check, name, value, because, span } = limit;
    LimitWire { check, name, value: micrometres(*value), because, place: Place::new(sources, *span) }
}

fn accepted_wire<'a>(entry: &'a Accepted, sources: &'a SourceMap) -> AcceptedWire<'a> {
    let Accepted { check, of, about, arrangements, up_to, because, span } = entry;
    let up_to = up_to.map(micrometres);
    AcceptedWire { check, of, about, arrangements, up_to, because, place: Place::new(sources, *span) }
}
