//! Cargo, and where it is stowed, in `model.json`.

use super::shapes::{Box3Wire, box3};
use crate::base::number::micrometres;
use crate::diagnostic::wire::Place;
use crate::figures::{Figures, Stowage};
use crate::geometry::{Parcel, Stands};
use crate::model::{Cargo, Model};
use crate::source::SourceMap;
use schemars::JsonSchema;
use serde::Serialize;

/// Things of one kind that are carried.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Cargo")]
pub(super) struct CargoWire<'a> {
    name: &'a str,
    size: [f64; 3],
    /// Of one.
    mass: f64,
    count: usize,
    /// The module.
    #[serde(rename = "in")]
    module: Option<&'a str>,
    /// The opening.
    through: Option<&'a str>,
    #[schemars(extend("enum" = ["any", "upright", "fixed"]))]
    stands: &'static str,
    place: Option<Place<'a>>,
}

/// What lies in the storage spaces of a module.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Stowage")]
pub(super) struct StowageWire<'a> {
    module: Option<&'a str>,
    arrangements: Vec<String>,
    holds: Vec<HoldWire<'a>>,
    /// What finds no place.
    left: Vec<LeftWire<'a>>,
}

/// A storage space with what lies in it.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Hold")]
struct HoldWire<'a> {
    space: &'a str,
    litres: f64,
    litres_stowed: f64,
    carries: Option<f64>,
    largest_free: Option<Box3Wire>,
    pieces: Vec<PieceWire<'a>>,
}

/// A piece of cargo at its place.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Stowed")]
struct PieceWire<'a> {
    cargo: Option<&'a str>,
    at: Box3Wire,
    /// Which of its sides, counted from 1, lies along x, y and z.
    turn: [usize; 3],
}

/// Cargo without a place.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Left")]
struct LeftWire<'a> {
    cargo: Option<&'a str>,
    count: usize,
}

pub(super) fn cargo_wire<'a>(cargo: &'a Cargo, model: &'a Model, sources: &'a SourceMap) -> CargoWire<'a> {
    let Cargo { name, parcel: Parcel { size, count, stands }, mass, module, through, span } = cargo;
    CargoWire {
        name,
        size: size.map(micrometres),
        mass: micrometres(*mass),
        count: *count,
        module: model.modules.get(*module).map(|module| module.name.as_str()),
        through: through.and_then(|at| model.openings.get(at)).map(|opening| opening.name.as_str()),
        stands: match stands {
            Stands::Any => "any",
            Stands::Upright => "upright",
            Stands::Fixed => "fixed",
        },
        place: Place::new(sources, *span),
    }
}

pub(super) fn stowage_wires<'a>(figures: &'a Figures<'a>) -> Vec<StowageWire<'a>> {
    figures.stowage().iter().map(|stowage| stowage_wire(figures.model, stowage)).collect()
}

fn stowage_wire<'a>(model: &'a Model, stowage: &'a Stowage) -> StowageWire<'a> {
    let name = |at: usize| model.cargo.get(at).map(|cargo| cargo.name.as_str());
    let hold = |hold: &'a crate::figures::Hold| HoldWire {
        space: &hold.room.space.name,
        litres: micrometres(hold.litres),
        litres_stowed: micrometres(hold.stowed),
        carries: hold.room.space.carries.map(micrometres),
        largest_free: hold.packing.largest_free.as_ref().map(box3),
        pieces: hold
            .packing
            .placed
            .iter()
            .map(|one| PieceWire { cargo: name(one.parcel), at: box3(&one.place), turn: one.turn.map(|side| side + 1) })
            .collect(),
    };
    StowageWire {
        module: model.modules.get(stowage.module).map(|module| module.name.as_str()),
        arrangements: stowage.arrangement_names(model),
        holds: stowage.holds.iter().map(hold).collect(),
        left: stowage.left.iter().map(|(at, count)| LeftWire { cargo: name(*at), count: *count }).collect(),
    }
}
