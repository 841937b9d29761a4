//! The router in `model.json`.

use crate::base::number::micrometres;
use crate::diagnostic::wire::Place;
use crate::model::{Router, Tool, Word};
use crate::source::SourceMap;
use schemars::JsonSchema;
use serde::Serialize;

/// The router of the workshop.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Router")]
pub(super) struct RouterWire<'a> {
    tools: Vec<ToolWire<'a>>,
    #[schemars(extend("enum" = ["sheets", "pieces"]))]
    files: &'static str,
    /// The controller's word for millimetres; `null` for none.
    millimetres: Option<&'a str>,
    /// Its word for a change of tools; `null` where each tool has a file of its own.
    change: Option<&'a str>,
    pilots: bool,
    safe: f64,
    spoil: f64,
    tab_length: f64,
    tab_thickness: f64,
    tab_every: f64,
    place: Option<Place<'a>>,
}

/// A tool: mm, turns a minute, mm a minute.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Tool")]
struct ToolWire<'a> {
    name: &'a str,
    number: u32,
    /// What it may do.
    r#for: Vec<&'static str>,
    diameter: f64,
    speed: f64,
    feed: f64,
    plunge: f64,
    pass: f64,
    deep: f64,
    place: Option<Place<'a>>,
}

pub(super) fn router_wire<'a>(router: &'a Router, sources: &'a SourceMap) -> RouterWire<'a> {
    #[rustfmt::skip]
    let Router {
        tools, files, millimetres, change, pilots, safe, spoil, tab_length, tab_thickness, tab_every, span,
    } = router;
    let [safe, spoil, tab_length, tab_thickness, tab_every] =
        [*safe, *spoil, *tab_length, *tab_thickness, *tab_every].map(micrometres);
    RouterWire {
        tools: tools.iter().map(|tool| tool_wire(tool, sources)).collect(),
        files: files.name(),
        millimetres: millimetres.as_deref(),
        change: change.as_deref(),
        pilots: *pilots,
        safe,
        spoil,
        tab_length,
        tab_thickness,
        tab_every,
        place: Place::new(sources, *span),
    }
}

fn tool_wire<'a>(tool: &'a Tool, sources: &'a SourceMap) -> ToolWire<'a> {
    let Tool { name, number, uses, diameter, speed, feed, plunge, pass, deep, span } = tool;
    let [diameter, speed, feed, plunge, pass, deep] =
        [*diameter, *speed, *feed, *plunge, *pass, *deep].map(micrometres);
    ToolWire {
        name,
        number: *number,
        r#for: uses.iter().map(|of| of.name()).collect(),
        diameter,
        speed,
        feed,
        plunge,
        pass,
        deep,
        place: Place::new(sources, *span),
    }
}
