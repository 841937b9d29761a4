//! Every solid lies in the box, under the roof and clear of the cutaways.
//!
//! # Computes
//! For each solid of each module, in every pose that an arrangement uses: how far it reaches past each wall and below
//! the floor; how far it goes up through the roof lining (greatest height of its surface above the lining, which for
//! an arch is the circle through both side heights and the crown); and the size of what it shares with each cutaway.
//! One finding for each module, side and arrangement, with the greatest figure.
//!
//! What stands outside (steps, awnings) must not reach into the shell.
//!
//! # Why
//! Furniture that pierces the shell cannot be fitted.
//!
//! # Limit
//! 0 mm.
//!
//! # Source
//! Geometry.
//!
//! # Change it
//! There is no limit to change. Move or shorten the module, or correct the box. A finding may be accepted with a
//! reason (`accepted`).

use super::check::{Check, Context, page_of};
use super::words::{area, length, size};
use crate::base::number::mm;
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::{Finding, Limit, Quantity, Requirement, Severity};
use crate::geometry::{Axis, Box3, Prism, overlap};
use crate::model::{Arrangement, CutKind, Cutaway, Model, Module, Solid, Wall};
use kurbo::Rect;

/// The check `inside-box`.
pub struct InsideBox;

const NAME: &str = "inside-box";

impl Check for InsideBox {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "every solid lies in the box, under the roof, clear of cutaways"
    }

    fn manual(&self) -> String {
        page_of(include_str!("inside_box.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &[]
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let model = context.model;
        let mut findings = Vec::new();
        for arrangement in context.arrangements() {
            for (module, state) in model.states(arrangement) {
                if module.outside {
                    findings
                        .extend(in_shell(model, module, &state.solids).map(|found| in_arrangement(found, arrangement)));
                    continue;
                }
                let walls = SIDES.iter().filter_map(|side| past_wall(model, module, &state.solids, *side));
                let cuts = through_cutaways(model, module, &state.solids);
                let found = walls.chain(through_roof(model, module, &state.solids)).chain(cuts);
                findings.extend(found.map(|finding| in_arrangement(finding, arrangement)));
            }
        }
        findings
    }
}

/// The deepest of what stands outside and reaches into the shell.
fn in_shell(model: &Model, module: &Module, solids: &[Solid]) -> Option<Finding> {
    let space = &model.space;
    let thick = space.walls.thickness;
    let plan = Rect::new(-thick, -thick, space.length + thick, space.width + thick);
    let shell = Prism::upright(plan, -space.floor.thickness, space.height);
    let shared = solids.iter().filter_map(|solid| Some((solid, overlap(&solid.prism, &shell)?)));
    let (solid, shared) = shared.max_by(|a, b| a.1.volume().total_cmp(&b.1.volume()))?;
    let least = (shared.x.1 - shared.x.0).min(shared.y.1 - shared.y.0).min(shared.z.1 - shared.z.0);
    let message =
        format!("`{}` of `{}` stands {} in the shell; it belongs outside", solid.name, module.name, size(&shared));
    let mut finding = finding(module, ("shell", solid), least, message).names("share", size(&shared));
    finding.marks.push(area(shared.plan()));
    Some(finding)
}

const SIDES: [(Wall, Axis, bool, &str); 5] = [
    (Wall::Front, Axis::X, false, "past the front wall"),
    (Wall::Rear, Axis::X, true, "past the rear wall"),
    (Wall::Left, Axis::Y, false, "past the left wall"),
    (Wall::Right, Axis::Y, true, "past the right wall"),
    (Wall::Floor, Axis::Z, false, "below the floor"),
];

fn in_arrangement(mut finding: Finding, arrangement: &Arrangement) -> Finding {
    finding.arrangements = vec![arrangement.name.clone()];
    finding
}

fn finding(module: &Module, (asks, solid): (&'static str, &Solid), far: f64, message: String) -> Finding {
    let finding = Finding::new(NAME, Severity::Fault, &module.name, message);
    let mut finding = finding.asks(asks).names("solid", &solid.name);
    finding.measured = length(far);
    finding.required = Some(Requirement::nothing());
    finding.spans = vec![module.place_span, module.span, solid.span];
    finding
}

/// The greatest reach of a module's solids past one wall or the floor.
fn past_wall(model: &Model, module: &Module, solids: &[Solid], side: (Wall, Axis, bool, &str)) -> Option<Finding> {
    let (_, axis, up, where_to) = side;
    let end = if axis == Axis::X { model.space.length } else { model.space.width };
    let reach = |solid: &Solid| {
        let (low, high) = solid.prism.bounds().range(axis);
        if up { high - end } else { -low }
    };
    let solid = solids.iter().max_by(|a, b| reach(a).total_cmp(&reach(b)))?;
    let far = reach(solid);
    if far <= SAME_LENGTH {
        return None;
    }
    let message = format!("`{}` of `{}` reaches {} {where_to}", solid.name, module.name, mm(far));
    let mut finding = finding(module, (side.0.name(), solid), far, message);
    finding.marks.push(area(past(solid.prism.bounds().plan(), model, side.0)));
    Some(finding)
}

/// The part of a rectangle beyond one wall; all of it for the floor.
fn past(rect: Rect, model: &Model, wall: Wall) -> Rect {
    match wall {
        Wall::Front => Rect { x1: rect.x1.min(0.0), ..rect },
        Wall::Rear => Rect { x0: rect.x0.max(model.space.length), ..rect },
        Wall::Left => Rect { y1: rect.y1.min(0.0), ..rect },
        Wall::Right => Rect { y0: rect.y0.max(model.space.width), ..rect },
        Wall::Roof | Wall::Floor => rect,
    }
}

fn through_roof(model: &Model, module: &Module, solids: &[Solid]) -> Option<Finding> {
    let roof = &model.space.roof;
    let depths = solids.iter().filter_map(|solid| Some((solid, roof.pierce(&solid.prism)?)));
    let (solid, (depth, place)) = depths.max_by(|a, b| a.1.0.total_cmp(&b.1.0))?;
    let lining = mm(roof.height_at(place.y));
    let message = format!(
        "`{}` of `{}` goes {} through the roof lining, which is {lining} high at {} from the left wall",
        solid.name,
        module.name,
        mm(depth),
        mm(place.y)
    );
    let mut finding = finding(module, ("roof", solid), depth, message).figure("at", place.y, Quantity::Length);
    finding.marks.push(area(solid.prism.bounds().plan()));
    Some(finding)
}

fn through_cutaways<'a>(
    model: &'a Model,
    module: &'a Module,
    solids: &'a [Solid],
) -> impl Iterator<Item = Finding> + 'a {
    let mut found: Vec<(&Cutaway, &Solid, Box3)> = Vec::new();
    for cutaway in &model.space.cutaways {
        let shared = solids.iter().filter_map(|solid| Some((solid, overlap(&solid.prism, &cutaway.prism)?)));
        let Some((solid, shared)) = shared.max_by(|a, b| a.1.volume().total_cmp(&b.1.volume())) else { continue };
        // A leaning wall is one thing, however many pieces it is made of.
        let same =
            |(other, ..): &(&Cutaway, _, _)| matches!(cutaway.kind, CutKind::Wall(_)) && other.kind == cutaway.kind;
        match found.iter_mut().find(|one| same(one)) {
            Some(known) if deep(&known.2) >= deep(&shared) => {}
            Some(known) => *known = (cutaway, solid, shared),
            None => found.push((cutaway, solid, shared)),
        }
    }
    found.into_iter().map(move |(cutaway, solid, shared)| {
        let where_in = cutaway.words();
        let message = format!("`{}` of `{}` stands {} in {where_in}", solid.name, module.name, size(&shared));
        let other = match cutaway.kind {
            CutKind::Wall(wall) => wall.name(),
            _ => &cutaway.name,
        };
        let finding = finding(module, ("cutaway", solid), deep(&shared), message).with_other(other);
        let mut finding = finding.names("share", size(&shared));
        finding.spans.push(cutaway.span);
        finding.marks.push(area(shared.plan()));
        finding
    })
}

/// The least side of what is shared, mm.
fn deep(shared: &Box3) -> f64 {
    (shared.x.1 - shared.x.0).min(shared.y.1 - shared.y.0).min(shared.z.1 - shared.z.0)
}

#[cfg(test)]
mod tests;
