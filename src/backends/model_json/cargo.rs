//! Cargo, and where it is stowed, in `model.json`.

use super::{Box3Wire, box3};
use crate::base::number::micrometres;
use crate::diagnostic::wire::Place;
use crate::figures::{Figures, Stowage};
use crate::geometry::Stands;
use crate::model::Model;
use crate::source::SourceMap;
use serde::Serialize;

#[derive(Debug, Serialize)]
pub(super) struct CargoWire<'a> {
    name: &'a str,
    size: [f64; 3],
    mass: f64,
    count: usize,
    #[serde(rename = "in")]
    module: Option<&'a str>,
    through: Option<&'a str>,
    stands: &'static str,
    place: Option<Place<'a>>,
}

#[derive(Debug, Serialize)]
pub(super) struct StowageWire<'a> {
    module: Option<&'a str>,
    arrangements: Vec<String>,
    holds: Vec<HoldWire<'a>>,
    left: Vec<LeftWire<'a>>,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
struct HoldWire<'a> {
    space: &'a str,
    litres: f64,
    litres_stowed: f64,
    carries: Option<f64>,
    largest_free: Option<Box3Wire>,
    pieces: Vec<PieceWire<'a>>,
}

#[derive(Debug, Serialize)]
struct PieceWire<'a> {
    cargo: Option<&'a str>,
    at: Box3Wire,
    /// Which of its sides, counted from 1, lies along x, y and z.
    turn: [usize; 3],
}

#[derive(Debug, Serialize)]
struct LeftWire<'a> {
    cargo: Option<&'a str>,
    count: usize,
}

pub(super) fn cargo_wires<'a>(model: &'a Model, sources: &'a SourceMap) -> Vec<CargoWire<'a>> {
    let wire = |cargo: &'a crate::model::Cargo| CargoWire {
        name: &cargo.name,
        size: cargo.parcel.size.map(micrometres),
        mass: micrometres(cargo.mass),
        count: cargo.parcel.count,
        module: model.modules.get(cargo.module).map(|module| module.name.as_str()),
        through: cargo.through.and_then(|at| model.openings.get(at)).map(|opening| opening.name.as_str()),
        stands: match cargo.parcel.stands {
            Stands::Any => "any",
            Stands::Upright => "upright",
            Stands::Fixed => "fixed",
        },
        place: Place::new(sources, cargo.span),
    };
    model.cargo.iter().map(wire).collect()
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
        carries: hold.room.space.carries,
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
