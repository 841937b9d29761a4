//! Ways out that all go through one narrow place.
//!
//! # Computes
//! For every lying space in every arrangement from which two exits or more (doors and openings with `escape: yes`) are reached on foot and none
//! from the bed itself: whether the floor has one narrow place, narrower than `wide`, that every way from where the bed is
//! stepped into to every one of these exits goes through. Where several are, the narrowest is given. From the bed itself an exit is reached whose
//! hole is within 300 mm of the lying space and reaches above the mattress. Sizes and sills of exits are the matter of `escape`.
//!
//! # Why
//! Two doors are one way out if the same gap leads to both: one fire, one fallen table shuts them.
//!
//! # Limit
//! `wide` 600 mm: a place that all ways share and that is narrower is a caution.
//!
//! # Source
//! 600 mm is the least width of a walkway beside machines (ISO 14122-2, as quoted by public pages). That no place may be shared: common
//! practice, no source. A design aid: the local code decides.
//!
//! # Change it
//! `limits: { two-exits: { wide: 500, because: "..." } }`; give the bed an exit of its own: a window or roof hatch with `escape: yes`.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::mm;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Mark, Quantity, Severity, SourceClass};
use crate::figures::panel::{clear, room};
use crate::figures::ways::{Floor, between, no_way_in};
use crate::geometry::End;
use crate::model::{Arrangement, Module, Need, Opening, OpeningKind, Space, Wall};
use kurbo::Point;

/// The check `two-exits`.
pub struct TwoExits;

const NAME: &str = "two-exits";
/// A sleeper reaches this far beyond the lying space, and stands this near to a window, mm; common practice, no source.
const ARM: f64 = 300.0;

static LIMITS: [Limit; 1] = [Limit::new(
    "wide",
    Least(600.0),
    Quantity::Length,
    SourceClass::CommonPractice,
    "width of a walkway, ISO 14122-2, as quoted by public pages; common practice",
)];

impl Check for TwoExits {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "ways out that do not all go through one narrow place"
    }

    fn manual(&self) -> String {
        page_of(include_str!("two_exits.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("a design aid: the local code decides how many exits there are, how large and where")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let exits = context.model.openings.iter().filter(|one| one.kind == OpeningKind::Door || one.escape);
        let exits: Vec<&Opening> = exits.collect();
        if exits.len() < 2 {
            return Vec::new();
        }
        with_tightest(context.arrangements().iter().flat_map(|one| in_one(context, one, &exits)))
    }
}

fn in_one(context: &Context<'_>, arrangement: &Arrangement, exits: &[&Opening]) -> Vec<Finding> {
    let mut found = Vec::new();
    let floor = context.floor(arrangement);
    for (index, (module, state)) in context.model.states(arrangement).enumerate() {
        let lying = state.spaces.iter().filter(|space| space.need == Need::Lying);
        let shut_in: Vec<&Space> =
            lying.filter(|space| !exits.iter().any(|exit| from_bed(context, space, exit))).collect();
        let Some(from) = floor.module_end(index).filter(|_| !shut_in.is_empty()) else { continue };
        let shared = shared(context, &floor, &from, exits);
        let told = |space| shared.as_ref().map(|shared| finding(context, &floor, (module, space), shared));
        found.extend(shut_in.into_iter().filter_map(told));
    }
    found
}

/// Whether an exit is reached from the bed itself.
fn from_bed(context: &Context<'_>, space: &Space, exit: &Opening) -> bool {
    let bounds = space.prism.bounds();
    let near = room(context.model, exit, clear(exit), 1.0).plan().overlaps(bounds.plan().inflate(ARM, ARM));
    near && match exit.wall {
        Wall::Floor => false,
        Wall::Roof => true,
        _ => clear(exit).y1 > bounds.z.0,
    }
}

/// A narrow place that all ways share.
struct Shared<'a> {
    /// From border to border.
    line: (Point, Point),
    exits: Vec<&'a str>,
}

/// The narrowest place that every way to every exit on foot goes through; its line is empty where none is narrower than the limit.
fn shared<'a>(context: &Context<'_>, floor: &Floor<'_>, from: &End, exits: &[&'a Opening]) -> Option<Shared<'a>> {
    let least = no_way_in(context.model);
    let mut ways = Vec::new();
    for exit in exits {
        let Some(to) = floor.way_out(exit, ARM) else { continue };
        if let Some(way) = floor.widest(from, &to).filter(|way| way.width >= least) {
            ways.push((exit.name.as_str(), to, way));
        }
    }
    if ways.len() < 2 {
        return None;
    }
    let narrow = floor.narrow(context.limits.value("wide"));
    let crossed = |line: &&(Point, Point)| ways.iter().all(|(_, _, way)| crosses(&way.path, **line));
    let shuts = |line: &&(Point, Point)| ways.iter().all(|(_, to, _)| floor.shuts(from, to, **line));
    let mut lines: Vec<&(Point, Point)> = narrow.iter().filter(crossed).collect();
    lines.sort_by(|a, b| a.0.distance(a.1).total_cmp(&b.0.distance(b.1)));
    let line = *lines.into_iter().find(shuts)?;
    Some(Shared { line, exits: ways.iter().map(|(name, ..)| *name).collect() })
}

/// Whether a course crosses a straight line.
fn crosses(path: &[Point], (a, b): (Point, Point)) -> bool {
    let side = |from: Point, to: Point, p: Point| (to - from).cross(p - from);
    path.iter()
        .zip(path.iter().skip(1))
        .any(|(p, q)| side(a, b, *p) * side(a, b, *q) <= 0.0 && side(*p, *q, a) * side(*p, *q, b) <= 0.0)
}

fn finding(context: &Context<'_>, floor: &Floor<'_>, of: (&Module, &Space), shared: &Shared<'_>) -> Finding {
    let (required, (a, b)) = (context.limits.get("wide"), shared.line);
    let wide = a.distance(b);
    let sides = between([floor.owner_at(a), floor.owner_at(b)]);
    let names: Vec<String> = shared.exits.iter().map(|name| format!("`{name}`")).collect();
    let names = names.join(" and ");
    let message = format!(
        "all ways from `{}` of `{}` out by {names} go through one place, {} wide {sides}; narrower than {} it shuts them all",
        of.1.name,
        of.0.name,
        mm(wide),
        mm(required.value())
    );
    let finding = judged(NAME, Severity::Caution, &of.0.name, (wide, required), message);
    let mut finding = finding.of_part(&of.1.name).names("by", names).names("place", sides);
    finding.arrangements = vec![floor.arrangement.name.clone()];
    finding.spans = vec![of.0.place_span];
    finding.marks = vec![Mark::Between(a, b)];
    finding
}

#[cfg(test)]
mod tests;
