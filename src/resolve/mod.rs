//! From the typed document to the absolute model: parameters, placement, symbols, poses, arrangements.
//!
//! Names are computed when asked for, so entries may stand in any order; a circle of references is an error that
//! prints the chain.

mod bounds;
mod cargo;
mod edges;
mod figures;
mod frame;
mod furniture;
mod instance;
mod layout;
mod loads;
mod members;
mod modules;
mod moves;
mod names;
mod openings;
mod outline;
mod part_fit;
mod part_place;
mod parts;
mod people;
mod piece;
mod pieces;
mod prices;
mod router;
mod services;
mod shapes;
mod space_box;
mod stocks;
mod subframe;
mod takes;
mod under_roof;
mod vehicle;
mod vehicle_fit;
mod walls;

use crate::base::memo::Memo;
use crate::diagnostic::Sink;
use crate::language::{LayoutDoc, SymbolDoc};
use crate::model::Model;
use names::Resolver;
use std::sync::Arc;

pub use takes::{Takes, takes};

/// Resolves a layout.
///
/// `symbols` holds the symbol of each module in file order, `None` where it could not be read (reported already).
/// Returns `None` exactly when `sink` has errors at the end in spite of which nothing can be drawn; with others the layout is
/// a draft.
/// What a module's symbol makes is found again in `memo` where symbol, place, settings and stocks are the same.
pub fn resolve(
    name: &str,
    doc: &LayoutDoc,
    symbols: Vec<Option<Arc<SymbolDoc>>>,
    memo: &Memo,
    sink: &mut Sink,
) -> Option<Model> {
    let mut resolver = Resolver::new(doc, symbols, memo, sink);
    resolver.refuse_double_names();
    let model = resolver.model(name);
    resolver.bring_up();
    let errors = sink.errors().len() + sink.dropped();
    model.filter(|_| !sink.bars()).map(|model| Model { errors, ..model })
}
