//! Whether the panels are strong enough around their openings.
//!
//! # Computes
//! For each opening the distance to the edges of its panel (walls, roof line, and what cutaways take of it) and to the other
//! openings in the panel; and its corner radius. A door's sill and the foot of an opening that reaches the floor are carried
//! by the floor and don't count. Walls and roofs whose outer layer is steel are a vehicle's own body, or stand on ribs, and no
//! glued panels: their openings are not looked at.
//!
//! # Why
//! A strip of panel that is too narrow breaks when the box is lifted or twists; cracks begin at sharp corners.
//!
//! # Limit
//! `least`: 60 mm; less is a fault. `radius`: 20 mm; less is a caution, for openings larger than 200 mm both ways; those that
//! say no radius get a note.
//!
//! # Source
//! Common practice, no source; the maker of the panels decides.
//!
//! # Change it
//! `limits: { opening-edges: { least: 50, because: "..." } }`, or `radius`.

use super::check::{Check, Context, page_of};
use super::words::{judged, length, with_tightest};
use crate::base::number::mm;
use crate::base::tolerance::{NO_AREA, ROUNDING};
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Bound, Finding, Limit, Quantity, Requirement, Severity, SourceClass, Subject};
use crate::geometry::{Polygon, Region};
use crate::model::{BoxSpace, CutKind, Cutaway, Model, Opening, Wall};
use crate::shell::{panel_of, taken_outline};
use kurbo::{Line, ParamCurveNearest, Point, Rect};

/// The check `opening-edges`.
pub struct OpeningEdges;

const NAME: &str = "opening-edges";
const SOURCE: &str = "common practice, no source; the maker of the panels decides";
/// Openings smaller than this either way are drilled round or are small enough, mm.
const SMALL: f64 = 200.0;
const fn limit(name: &'static str, default: Bound) -> Limit {
    Limit::new(name, default, Quantity::Length, SourceClass::CommonPractice, SOURCE)
}
static LIMITS: [Limit; 2] = [limit("least", Least(60.0)), limit("radius", Least(20.0))];

impl Check for OpeningEdges {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "strips of panel beside openings, and corner radii"
    }

    fn manual(&self) -> String {
        page_of(include_str!("opening_edges.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("no proof of strength; the maker of the panels decides")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let (model, least) = (context.model, context.limits.get("least"));
        let mut findings: Vec<Finding> = Vec::new();
        let cut = |opening: &&Opening| !opening.of_vehicle && panel_of(&model.space, opening.wall).is_panel();
        let openings: Vec<&Opening> = model.openings.iter().filter(cut).collect();
        for (at, opening) in openings.iter().copied().enumerate() {
            findings.extend(to_edge(model, opening, &least));
            let others = openings.iter().copied().skip(at + 1).filter(|other| other.wall == opening.wall);
            findings.extend(others.map(|other| between(opening, other, &least)));
            let rect = opening.hole();
            if opening.radius > 0.0 && rect.width() >= SMALL && rect.height() >= SMALL {
                findings.push(corners(opening, context.limits.get("radius")));
            }
        }
        findings.extend(without_radius(&openings, &context.limits.get("radius")));
        with_tightest(findings)
    }
}

/// The narrowest strip between an opening and an edge of its panel.
fn to_edge(model: &Model, opening: &Opening, least: &Requirement) -> Option<Finding> {
    let (strip, edge) = strips(&model.space, opening).into_iter().min_by(|a, b| a.0.total_cmp(&b.0))?;
    let message = format!("{} of panel are left between `{}` and {edge}", mm(strip), opening.name);
    let finding = judged(NAME, Severity::Fault, &opening.name, (strip, least.clone()), message);
    let mut finding = finding.asks("edge").names("edge", edge);
    finding.measured = length(strip);
    finding.spans = vec![opening.span];
    finding.marks = vec![super::words::area(crate::figures::panel::room(model, opening, opening.hole(), 50.0).plan())];
    Some(finding)
}

/// All strips beside an opening with the edge that ends each.
fn strips(space: &BoxSpace, opening: &Opening) -> Vec<(f64, String)> {
    let hole = opening.hole();
    let (along, top) = match opening.wall {
        Wall::Left => (space.length, space.roof.height_at(0.0)),
        Wall::Right => (space.length, space.roof.height_at(space.width)),
        Wall::Front | Wall::Rear => (space.width, space.roof.least_over(hole.x0, hole.x1).0),
        Wall::Roof | Wall::Floor => (space.length, space.width),
    };
    let names = match opening.wall {
        Wall::Front | Wall::Rear => ["left wall", "right wall", "floor", "roof"],
        Wall::Roof | Wall::Floor => ["front wall", "rear wall", "left wall", "right wall"],
        _ => ["front wall", "rear wall", "floor", "roof"],
    };
    let sides = [hole.x0, along - hole.x1, hole.y0, top - hole.y1];
    let foot = !opening.lies_flat() && hole.y0 <= 0.0;
    let strips = sides.into_iter().zip(names).filter(|(_, name)| !(foot && *name == "floor"));
    let whole = |cutaway: &&Cutaway| cutaway.kind != CutKind::Wall(opening.wall);
    let cut = space.cutaways.iter().filter(whole).filter_map(|cutaway| {
        let taken = taken_outline(space, &cutaway.prism, opening.wall)?;
        Some((to_outline(hole, &taken), cutaway.words()))
    });
    strips.map(|(strip, name)| (strip, format!("the {name}"))).chain(cut).collect()
}

/// How far two rectangles are from each other, mm; 0 where they meet.
fn apart(a: Rect, b: Rect) -> f64 {
    let along = (b.x0 - a.x1).max(a.x0 - b.x1).max(0.0);
    let up = (b.y0 - a.y1).max(a.y0 - b.y1).max(0.0);
    along.hypot(up)
}

/// How far a rectangle is from an outline, mm; 0 where they meet.
fn to_outline(rect: Rect, outline: &Polygon) -> f64 {
    if Region::rect(rect).intersect(&Region::new([outline])).area() > NO_AREA {
        return 0.0;
    }
    let sides = Polygon::rect(rect);
    let pairs = sides.edges().flat_map(|side| outline.edges().map(move |edge| (side, edge)));
    let near = |(a, b): (Point, Point), to: Point| Line::new(a, b).nearest(to, ROUNDING).distance_sq.sqrt();
    let ends = |(side, edge): ((Point, Point), (Point, Point))| near(side, edge.0).min(near(edge, side.0));
    pairs.map(ends).fold(f64::INFINITY, f64::min)
}

fn between(one: &Opening, other: &Opening, least: &Requirement) -> Finding {
    let strip = apart(one.hole(), other.hole());
    let message = format!("{} of panel are left between `{}` and `{}`", mm(strip), one.name, other.name);
    let subject = Subject::pair(&one.name, &other.name);
    let mut finding = judged(NAME, Severity::Fault, subject, (strip, least.clone()), message);
    finding.spans = vec![one.span, other.span];
    finding
}

/// One note on the openings that say no radius.
fn without_radius(openings: &[&Opening], wanted: &Requirement) -> Option<Finding> {
    let large = |opening: &&&Opening| opening.hole().width() >= SMALL && opening.hole().height() >= SMALL;
    let silent: Vec<&Opening> =
        openings.iter().filter(large).filter(|opening| opening.radius <= 0.0).copied().collect();
    let first = silent.first().filter(|_| wanted.value() > 0.0)?;
    let names: Vec<&str> = silent.iter().map(|opening| opening.name.as_str()).collect();
    let says = if names.len() == 1 { "says" } else { "say" };
    let message = format!("{} {says} no corner radius; panels want {}", names.join(", "), mm(wanted.value()));
    let note = Finding::new(NAME, Severity::Note, &first.name, message).asks("radius");
    let mut note = note.names("openings", names.join(", ")).figure("wanted", wanted.value(), Quantity::Length);
    note.spans = silent.iter().map(|opening| opening.span).collect();
    Some(note)
}

fn corners(opening: &Opening, required: Requirement) -> Finding {
    let message =
        format!("`{}` has corners of {} radius, {} are wanted", opening.name, mm(opening.radius), mm(required.value()));
    let finding = judged(NAME, Severity::Caution, &opening.name, (opening.radius, required), message);
    let mut finding = finding.asks("radius");
    finding.spans = vec![opening.span];
    finding
}

#[cfg(test)]
mod tests;
