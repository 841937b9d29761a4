//! `model.json`: the whole resolved layout with cut list and cutting plans, for other programs.
//!
//! Version 1 of a form of its own, apart from the types inside the program. Keys at the top: `format`
//! (`boxwright-model`), `version`, `held` (how many faults are open; nothing may be cut or built while it is not 0),
//! `name`, `title`, `people`, `box`, `openings`, `zones`, `arrangements`, `routes`, `cargo`, `stowage`, `limits`, `accepted`,
//! `sheets`, `stocks`, `modules`, `cut-list`. Lengths are mm, masses kg, angles degrees, all with at most three decimals;
//! x to the rear, y to the right, z up, from the inside front left floor corner. A range is `[low, high]`, a point
//! `[x, y]`. A prism is `{ axis, outline, range }` with the outline in the two other axes in the order x, y, z. Curves
//! are SVG path data. Things refer to each other by name; `place` is where the text says it, as in `findings.json`.

mod cargo;
mod furniture;
mod list;
mod make;
mod space;

use super::backend::{Backend, OutputFile, Product, Reads};
use crate::base::number::micrometres;
use crate::diagnostic::Counts;
use crate::diagnostic::wire::{Pair, Place, json_text, pair};
use crate::geometry::{Axis, Box3, Polygon, Prism};
use crate::model::{Arrangement, Figures, Model, Person, Projection, Revision, Route, RouteEnd, SheetSettings, Title};
use crate::source::SourceMap;
use serde::Serialize;

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
        let text = json_text(&wire(product));
        Ok(vec![OutputFile { name: "model.json".to_owned(), bytes: text.into_bytes() }])
    }
}

/// The whole file.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
struct ModelWire<'a> {
    format: &'static str,
    version: u32,
    held: usize,
    name: &'a str,
    title: TitleWire<'a>,
    people: Vec<PersonWire<'a>>,
    #[serde(rename = "box")]
    space: space::BoxWire<'a>,
    openings: Vec<space::OpeningWire<'a>>,
    zones: Vec<space::ZoneWire<'a>>,
    arrangements: Vec<ArrangementWire<'a>>,
    routes: Vec<RouteWire<'a>>,
    cargo: Vec<cargo::CargoWire<'a>>,
    stowage: Vec<cargo::StowageWire<'a>>,
    limits: Vec<LimitWire<'a>>,
    accepted: Vec<AcceptedWire<'a>>,
    sheets: SheetsWire<'a>,
    stocks: Vec<make::StockWire<'a>>,
    modules: Vec<furniture::ModuleWire<'a>>,
    cut_list: list::CutListWire<'a>,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
struct TitleWire<'a> {
    title: &'a str,
    number: &'a str,
    revision: &'a str,
    revision_note: &'a str,
    revisions: Vec<RevisionWire<'a>>,
    by: &'a str,
    approved: &'a str,
    owner: &'a str,
    date: &'a str,
}

#[derive(Debug, Serialize)]
struct RevisionWire<'a> {
    mark: &'a str,
    note: &'a str,
    date: &'a str,
    by: &'a str,
}

#[derive(Debug, Serialize)]
struct PersonWire<'a> {
    name: &'a str,
    stature: f64,
    mass: f64,
    place: Option<Place<'a>>,
}

#[derive(Debug, Serialize)]
struct ArrangementWire<'a> {
    name: &'a str,
    /// One for each module, in the order of `modules`.
    poses: Vec<PoseOfWire<'a>>,
    place: Option<Place<'a>>,
}

#[derive(Debug, Serialize)]
struct PoseOfWire<'a> {
    module: &'a str,
    pose: &'a str,
}

#[derive(Debug, Serialize)]
struct RouteWire<'a> {
    name: &'a str,
    from: Option<EndWire<'a>>,
    to: Option<EndWire<'a>>,
    arrangements: Vec<&'a str>,
    least: Option<f64>,
    place: Option<Place<'a>>,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "lowercase")]
enum EndWire<'a> {
    Opening(&'a str),
    Module(&'a str),
}

#[derive(Debug, Serialize)]
struct LimitWire<'a> {
    check: &'a str,
    name: &'a str,
    value: f64,
    because: &'a str,
    place: Option<Place<'a>>,
}

#[derive(Debug, Serialize)]
struct AcceptedWire<'a> {
    check: &'a str,
    of: &'a str,
    because: &'a str,
    place: Option<Place<'a>>,
}

#[derive(Debug, Serialize)]
struct SheetsWire<'a> {
    paper: &'a str,
    orientation: &'static str,
    scale: Option<f64>,
    projection: &'static str,
    figures: &'static str,
}

/// A prism.
#[derive(Debug, Serialize)]
struct PrismWire {
    axis: &'static str,
    outline: Vec<Pair>,
    range: Pair,
}

/// A box with edges along the axes.
#[derive(Debug, Serialize)]
struct Box3Wire {
    x: Pair,
    y: Pair,
    z: Pair,
}

fn range(range: (f64, f64)) -> Pair {
    [micrometres(range.0), micrometres(range.1)]
}

fn polygon(polygon: &Polygon) -> Vec<Pair> {
    polygon.points().iter().map(|point| pair(*point)).collect()
}

fn axis(axis: Axis) -> &'static str {
    match axis {
        Axis::X => "x",
        Axis::Y => "y",
        Axis::Z => "z",
    }
}

fn prism(prism: &Prism) -> PrismWire {
    PrismWire { axis: axis(prism.axis), outline: polygon(&prism.outline), range: range((prism.low, prism.high)) }
}

fn box3(b: &Box3) -> Box3Wire {
    Box3Wire { x: range(b.x), y: range(b.y), z: range(b.z) }
}

fn wire<'a>(product: &Product<'a>) -> ModelWire<'a> {
    let (model, sources) = (product.model, product.sources);
    let modules = model.modules.iter().map(|module| furniture::module_wire(module, model, sources));
    ModelWire {
        format: "boxwright-model",
        version: 1,
        held: Counts::of(product.findings).faults,
        name: &model.name,
        title: title_wire(&model.title),
        people: model.people.iter().map(|person| person_wire(person, sources)).collect(),
        space: space::box_wire(&model.space, sources),
        openings: model.openings.iter().map(|opening| space::opening_wire(opening, sources)).collect(),
        zones: model.zones.iter().map(|zone| space::zone_wire(zone, sources)).collect(),
        arrangements: model.arrangements.iter().map(|one| arrangement_wire(one, model, sources)).collect(),
        routes: model.routes.iter().map(|route| route_wire(route, model, sources)).collect(),
        cargo: cargo::cargo_wires(model, sources),
        stowage: cargo::stowage_wires(product.figures),
        limits: limits(model, sources),
        accepted: accepted(model, sources),
        sheets: sheets_wire(&model.sheets),
        stocks: model.stocks.iter().map(|stock| make::stock_wire(stock, sources)).collect(),
        modules: modules.collect(),
        cut_list: list::cut_list_wire(product.figures.cut_list(), model, sources),
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

fn sheets_wire(settings: &SheetSettings) -> SheetsWire<'_> {
    SheetsWire {
        paper: &settings.paper,
        orientation: if settings.portrait { "portrait" } else { "landscape" },
        scale: settings.scale.map(micrometres),
        projection: match settings.projection {
            Projection::First => "first",
            Projection::Third => "third",
        },
        figures: match settings.figures {
            Figures::Mm => "mm",
            Figures::MmInch => "mm+inch",
        },
    }
}

fn person_wire<'a>(person: &'a Person, sources: &'a SourceMap) -> PersonWire<'a> {
    PersonWire {
        name: &person.name,
        stature: micrometres(person.stature),
        mass: micrometres(person.mass),
        place: Place::new(sources, person.span),
    }
}

fn arrangement_wire<'a>(one: &'a Arrangement, model: &'a Model, sources: &'a SourceMap) -> ArrangementWire<'a> {
    let pose = |(module, pose): (&'a crate::model::Module, &usize)| {
        let pose = module.poses.get(*pose)?;
        Some(PoseOfWire { module: &module.name, pose: &pose.name })
    };
    let poses = model.modules.iter().zip(&one.poses).filter_map(pose).collect();
    ArrangementWire { name: &one.name, poses, place: Place::new(sources, one.span) }
}

fn route_wire<'a>(route: &'a Route, model: &'a Model, sources: &'a SourceMap) -> RouteWire<'a> {
    let end = |end: RouteEnd| match end {
        RouteEnd::Opening(index) => model.openings.get(index).map(|opening| EndWire::Opening(&opening.name)),
        RouteEnd::Module(index) => model.modules.get(index).map(|module| EndWire::Module(&module.name)),
    };
    let name = |index: &usize| model.arrangements.get(*index).map(|arrangement| arrangement.name.as_str());
    RouteWire {
        name: &route.name,
        from: end(route.from),
        to: end(route.to),
        arrangements: route.arrangements.iter().filter_map(name).collect(),
        least: route.least.map(micrometres),
        place: Place::new(sources, route.span),
    }
}

fn limits<'a>(model: &'a Model, sources: &'a SourceMap) -> Vec<LimitWire<'a>> {
    let wire = |limit: &'a crate::model::LimitChange| LimitWire {
        check: &limit.check,
        name: &limit.name,
        value: micrometres(limit.value),
        because: &limit.because,
        place: Place::new(sources, limit.span),
    };
    model.limits.iter().map(wire).collect()
}

fn accepted<'a>(model: &'a Model, sources: &'a SourceMap) -> Vec<AcceptedWire<'a>> {
    let wire = |accepted: &'a crate::model::Accepted| AcceptedWire {
        check: &accepted.check,
        of: &accepted.of,
        because: &accepted.because,
        place: Place::new(sources, accepted.span),
    };
    model.accepted.iter().map(wire).collect()
}
