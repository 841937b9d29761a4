//! No two modules take the same space.
//!
//! # Computes
//! For each two solids of different modules, in every arrangement: the bounds of the space that both fill, exact for
//! prisms of any direction. One finding for each two modules and arrangement, with the greatest shared space as
//! length x width x height. Solids of one module are not compared. Touching is no overlap.
//!
//! # Why
//! Two pieces of furniture cannot stand in one place.
//!
//! # Limit
//! 0 mm.
//!
//! # Source
//! Geometry.
//!
//! # Change it
//! There is no limit to change. Move one of the modules. A finding may be accepted with a reason
//! (`accepted`); its subject is both modules: `of: a and b`.

use super::check::{Check, Context, page_of};
use super::words::{area, length, size};
use crate::diagnostic::{Finding, Limit, Quantity, Requirement, Severity, Subject};
use crate::geometry::{Box3, common_bounds, overlap};
use crate::model::{Arrangement, Model, Solid};
use std::collections::BTreeMap;

/// The check `no-overlap`.
pub struct NoOverlap;

const NAME: &str = "no-overlap";

impl Check for NoOverlap {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "no two modules take the same space in any arrangement"
    }

    fn manual(&self) -> String {
        page_of(include_str!("no_overlap.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &[]
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        context.arrangements().iter().flat_map(|arrangement| of_one(context.model, arrangement)).collect()
    }
}

/// Pairs of modules that get a finding of their own in one arrangement; more than that is counted only.
const PAIRS_MOST: usize = 40;

fn of_one(model: &Model, arrangement: &Arrangement) -> Vec<Finding> {
    let pairs = clashes(model, arrangement);
    let rest = pairs.len().saturating_sub(PAIRS_MOST);
    let shown = pairs.into_iter().take(PAIRS_MOST);
    let mut found: Vec<Finding> = shown.filter_map(|(pair, clash)| finding(model, arrangement, pair, &clash)).collect();
    if let Some(last) = found.last().filter(|_| rest > 0) {
        let mut more = last.clone();
        more.key.subject = "more modules".into();
        more = more.figure("pairs", rest as f64, Quantity::Count);
        more.message = format!("{rest} more pairs of modules share space");
        more.help = Some("clear the others first".to_owned());
        found.push(more);
    }
    found
}

/// One solid with the index of its module and its bounds.
struct Item<'a> {
    module: usize,
    solid: &'a Solid,
    bounds: Box3,
}

/// Overlaps of two modules after which no greater one is looked for: their finding is there.
const COUNT_MOST: usize = 1000;

/// The greatest overlap of two modules.
struct Clash<'a> {
    first: &'a Solid,
    second: &'a Solid,
    shared: Box3,
    /// How many overlaps they have.
    count: usize,
}

/// All pairs of modules that share space, found by a sweep along x.
fn clashes<'a>(model: &'a Model, arrangement: &'a Arrangement) -> BTreeMap<(usize, usize), Clash<'a>> {
    let mut items: Vec<Item<'a>> = Vec::new();
    for (module, (_, state)) in model.states(arrangement).enumerate() {
        items.extend(state.solids.iter().map(|solid| Item { module, solid, bounds: solid.prism.bounds() }));
    }
    items.sort_by(|a, b| a.bounds.x.0.total_cmp(&b.bounds.x.0));
    let mut worst: BTreeMap<(usize, usize), Clash<'a>> = BTreeMap::new();
    let mut open: Vec<&Item<'a>> = Vec::new();
    for item in &items {
        open.retain(|other| other.bounds.x.1 > item.bounds.x.0);
        for other in open.iter().filter(|other| other.module != item.module) {
            let (a, b) = if other.module < item.module { (*other, item) } else { (item, *other) };
            let known = worst.get_mut(&(a.module, b.module));
            if known.as_ref().is_some_and(|known| known.count >= COUNT_MOST) {
                continue;
            }
            let Some(clash) = clash(a, b) else { continue };
            match known {
                Some(known) => {
                    let count = known.count + 1;
                    if clash.shared.volume() > known.shared.volume() {
                        *known = clash;
                    }
                    known.count = count;
                }
                None => drop(worst.insert((a.module, b.module), clash)),
            }
        }
        open.push(item);
    }
    worst
}

fn clash<'a>(a: &Item<'a>, b: &Item<'a>) -> Option<Clash<'a>> {
    common_bounds(&a.bounds, &b.bounds)?;
    let shared = overlap(&a.solid.prism, &b.solid.prism)?;
    Some(Clash { first: a.solid, second: b.solid, shared, count: 1 })
}

fn finding(model: &Model, arrangement: &Arrangement, pair: (usize, usize), clash: &Clash<'_>) -> Option<Finding> {
    let (a, b) = (model.modules.get(pair.0)?, model.modules.get(pair.1)?);
    let shared = size(&clash.shared);
    let message = format!(
        "`{}` of `{}` and `{}` of `{}` share a space of {shared}",
        clash.first.name, a.name, clash.second.name, b.name
    );
    let side = |range: (f64, f64)| range.1 - range.0;
    let finding = Finding::new(NAME, Severity::Fault, Subject::pair(&a.name, &b.name), message);
    let finding = finding.names("first", &clash.first.name).names("second", &clash.second.name);
    let mut finding = finding.names("share", shared);
    finding.arrangements = vec![arrangement.name.clone()];
    finding.measured = length(side(clash.shared.x).min(side(clash.shared.y)).min(side(clash.shared.z)));
    finding.required = Some(Requirement::nothing());
    finding.spans = vec![b.place_span, a.place_span, clash.second.span, clash.first.span];
    finding.marks = vec![area(clash.shared.plan())];
    Some(finding)
}

#[cfg(test)]
mod tests;
