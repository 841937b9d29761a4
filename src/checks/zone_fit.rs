//! Modules keep to their zones, zones to the box and apart from each other.
//!
//! # Computes
//! In plan: how far each module's place reaches past the rectangle of its zone, how far each zone reaches past the
//! walls, and the size of what two zones of one level have in common.
//!
//! # Why
//! Zones carry the areas and captions of the drawings, and routes and services are planned by them; they have to be
//! true.
//!
//! # Limit
//! 0 mm.
//!
//! # Source
//! Geometry.
//!
//! # Change it
//! There is no limit to change. Widen the zone, move the module, or put zones that lie over each other on different
//! levels (`level`).

use super::check::{Check, Context, page_of};
use super::words::{area, direction, length};
use crate::base::number::{mm, trimmed};
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::{Finding, Limit, Requirement, Severity};
use crate::geometry::Axis;
use crate::model::{Model, Zone};
use crate::source::Span;
use kurbo::Rect;

/// The check `zone-fit`.
pub struct ZoneFit;

const NAME: &str = "zone-fit";

impl Check for ZoneFit {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "modules keep to their zones, zones to the box and apart from each other"
    }

    fn manual(&self) -> String {
        page_of(include_str!("zone_fit.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &[]
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let model = context.model;
        let mut findings = modules(model);
        findings.extend(zones(model));
        findings.extend(common(model));
        findings
    }
}

/// One way in which a rectangle leaves another.
struct Excess {
    axis: Axis,
    up: bool,
    far: f64,
    beyond: Rect,
}

/// How a rectangle leaves another: the greatest reach past one side.
fn excess(inner: Rect, outer: Rect) -> Option<Excess> {
    let sides = [
        (Axis::X, false, outer.x0 - inner.x0, Rect { x1: outer.x0.min(inner.x1), ..inner }),
        (Axis::X, true, inner.x1 - outer.x1, Rect { x0: outer.x1.max(inner.x0), ..inner }),
        (Axis::Y, false, outer.y0 - inner.y0, Rect { y1: outer.y0.min(inner.y1), ..inner }),
        (Axis::Y, true, inner.y1 - outer.y1, Rect { y0: outer.y1.max(inner.y0), ..inner }),
    ];
    let past = sides.into_iter().filter(|side| side.2 > SAME_LENGTH);
    let (axis, up, far, beyond) = past.max_by(|a, b| a.2.total_cmp(&b.2))?;
    Some(Excess { axis, up, far, beyond })
}

fn finding(
    subject: &str,
    (asks, other): (&'static str, &str),
    message: String,
    far: f64,
    mark: Rect,
    spans: Vec<Span>,
) -> Finding {
    let mut finding = Finding::new(NAME, Severity::Fault, subject, message).asks(asks).with_other(other);
    finding.measured = length(far);
    finding.required = Some(Requirement::nothing());
    finding.spans = spans;
    finding.marks = vec![area(mark)];
    finding
}

fn modules(model: &Model) -> Vec<Finding> {
    let placed = model.modules.iter().filter_map(|module| Some((module, model.zones.get(module.zone?)?)));
    let out = placed.filter_map(|(module, zone)| {
        let excess = excess(module.extent.plan(), zone.rect)?;
        let towards = direction(excess.axis, excess.up);
        let message = format!("`{}` reaches {} out of its zone `{}` {towards}", module.name, mm(excess.far), zone.name);
        let spans = vec![module.place_span, zone.span];
        Some(finding(&module.name, ("zone", &zone.name), message, excess.far, excess.beyond, spans))
    });
    out.collect()
}

fn zones(model: &Model) -> Vec<Finding> {
    let inside = Rect::new(0.0, 0.0, model.space.length, model.space.width);
    let out = model.zones.iter().filter_map(|zone| {
        let excess = excess(zone.rect, inside)?;
        let towards = direction(excess.axis, excess.up);
        let message = format!("the zone `{}` reaches {} out of the box {towards}", zone.name, mm(excess.far));
        Some(finding(&zone.name, ("box", "box"), message, excess.far, excess.beyond, vec![zone.span]))
    });
    out.collect()
}

fn common(model: &Model) -> Vec<Finding> {
    let pairs = model.zones.iter().enumerate();
    pairs.flat_map(|(at, b)| model.zones.iter().take(at).filter_map(move |a| share(a, b))).collect()
}

fn share(a: &Zone, b: &Zone) -> Option<Finding> {
    let both = Rect {
        x0: a.rect.x0.max(b.rect.x0),
        y0: a.rect.y0.max(b.rect.y0),
        x1: a.rect.x1.min(b.rect.x1),
        y1: a.rect.y1.min(b.rect.y1),
    };
    let least = both.width().min(both.height());
    if a.level != b.level || least <= SAME_LENGTH {
        return None;
    }
    let size = format!("{} x {}", trimmed(both.width(), 1), mm(both.height()));
    let message = format!("the zones `{}` and `{}` of one level overlap by {size}", a.name, b.name);
    Some(finding(&b.name, ("level", &a.name), message, least, both, vec![b.span, a.span]))
}

#[cfg(test)]
mod tests;
