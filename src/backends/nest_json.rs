//! What `boxwright nest --format json` prints: for each job its sheets and where every part lies.

use crate::base::number::micrometres;
use crate::diagnostic::wire::{Pair, json_schema, json_text};
use crate::joinery::nesting::{CuttingPlan, Placed};
use crate::joinery::{CutPart, PartsJob};
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::Value;

/// Cutting plans, one for each job.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Plans")]
struct PlansWire<'a> {
    instances: Vec<PlanWire<'a>>,
}

/// Where every part of a job lies.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Plan")]
struct PlanWire<'a> {
    id: &'a str,
    /// How many sheets, and how many any plan needs at least.
    sheets: usize,
    bound: usize,
    cost: f64,
    least_cost: f64,
    /// Length and width of each sheet, in order.
    sizes: Vec<Pair>,
    too_large: Vec<PartWire<'a>>,
    unplaced: usize,
    layout: Vec<PlaceWire<'a>>,
}

/// A part by its name, or by its place in the list, from 0.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(untagged)]
#[schemars(rename = "Part")]
enum PartWire<'a> {
    Name(&'a str),
    Index(usize),
}

/// A part at its place on a sheet.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "PartPlace")]
struct PlaceWire<'a> {
    /// From 1.
    sheet: usize,
    part: PartWire<'a>,
    /// Lower left corner, mm from that of the untrimmed sheet.
    x: f64,
    y: f64,
    /// Size along the sheet's length and width.
    length: f64,
    width: f64,
    turned: bool,
}

/// The JSON Schema of what [`nest_json`] gives.
#[must_use]
pub fn nest_schema() -> Value {
    json_schema::<PlansWire<'_>>()
}

/// The plans of some jobs.
#[must_use]
pub fn nest_json(jobs: &[(&PartsJob, &CuttingPlan)]) -> String {
    json_text(&PlansWire { instances: jobs.iter().map(|(job, plan)| plan_wire(job, plan)).collect() })
}

fn plan_wire<'a>(job: &'a PartsJob, plan: &CuttingPlan) -> PlanWire<'a> {
    let part = |index: usize| match job.parts.get(index).filter(|_| job.named) {
        Some(CutPart { number, .. }) => PartWire::Name(number),
        None => PartWire::Index(index),
    };
    let place = |sheet: usize, piece: &Placed| PlaceWire {
        sheet: sheet + 1,
        part: part(piece.piece),
        x: micrometres(piece.x),
        y: micrometres(piece.y),
        length: micrometres(piece.length),
        width: micrometres(piece.width),
        turned: piece.turned,
    };
    let sheets = plan.sheets.iter().enumerate();
    PlanWire {
        id: &job.id,
        sheets: plan.sheets.len(),
        bound: plan.bound,
        cost: micrometres(plan.cost),
        least_cost: micrometres(plan.least_cost),
        sizes: plan.sheets.iter().map(|sheet| [micrometres(sheet.size.0), micrometres(sheet.size.1)]).collect(),
        too_large: plan.too_large.iter().map(|index| part(*index)).collect(),
        unplaced: plan.unplaced,
        layout: sheets.flat_map(|(index, sheet)| sheet.pieces.iter().map(move |piece| place(index, piece))).collect(),
    }
}
