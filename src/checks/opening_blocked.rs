//! What stands before doors, windows and hatches.
//!
//! # Computes
//! For each door, window and hatch (the check `pass-through` looks at the others), in every arrangement: how much of its hole is covered, seen square on to its panel, by
//! solids and cutaways that stand within `before` of it (of a door only from 230 mm above the floor, as a step is no
//! obstacle): the exact area of what is covered and the size of the smallest rectangle around it, whose shorter side is
//! measured. A solid that meets the wall within the run of an opening, from below its sill to above its head, cuts it in
//! two. Of a leaf that slides inside, what stands within 40 mm of the wall on its way, or that the wall ends before it. And, for
//! any two openings of one panel, the distance between their holes.
//!
//! # Why
//! A locker before a window is seen on the day the window arrives; a partition cannot end on glass.
//!
//! # Limit
//! Nothing may be covered: a caution for windows and roof hatches, which may be meant so (a bed that is raised by day); a
//! fault for doors, hatches and every way out, and where an opening is cut in two. `before` 150 mm is how
//! near a thing has to be. Of a hatch at least 1,000 mm wide and high, a van's pair of doors, half may be covered: a note. `apart` 0 mm between openings, a fault.
//!
//! # Source
//! Geometry. Before: common practice, no source.
//!
//! # Change it
//! `limits: { opening-blocked: { before: 60, because: "..." } }`, or `apart`, or accept the finding with a reason.

mod grave;
mod pocket;

use super::check::{Check, Context, page_of};
use super::words::{area, length};
use crate::base::number::{mm, trimmed};
use crate::base::tolerance::{NO_AREA, SAME_LENGTH};
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Quantity, Requirement, Severity, SourceClass, Subject};
use crate::figures::ground::STEP;
use crate::figures::panel::{Before, before, named, outline, room};
use crate::figures::shell::wall_name;
use crate::geometry::Region;
use crate::model::{Arrangement, Opening, OpeningKind};
use grave::severity;
use kurbo::Rect;
use pocket::{NAME, pocket};

/// The check `opening-blocked`.
pub struct OpeningBlocked;

/// What is no farther than this from a wall meets it, mm; a fitting gap, common practice, no source.
const MEETS: f64 = 10.0;
static LIMITS: [Limit; 2] = [
    Limit::practice("before", Least(150.0), Quantity::Length),
    Limit::new("apart", Least(0.0), Quantity::Length, SourceClass::Geometry, "geometry"),
];

impl Check for OpeningBlocked {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "nothing stands before a door, window or hatch, and no two openings meet"
    }

    fn manual(&self) -> String {
        page_of(include_str!("opening_blocked.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let others = [OpeningKind::Vent, OpeningKind::PassThrough];
        let openings = || context.model.openings.iter().filter(|opening| !others.contains(&opening.kind));
        let look = |arrangement| openings().filter_map(move |opening| look(context, arrangement, opening));
        let slide = |arrangement| openings().filter_map(move |opening| pocket(context, arrangement, opening));
        let arrangements = || context.arrangements().iter();
        arrangements().flat_map(look).chain(arrangements().flat_map(slide)).chain(meetings(context)).collect()
    }
}

fn look(context: &Context<'_>, arrangement: &Arrangement, opening: &Opening) -> Option<Finding> {
    let (model, reach) = (context.model, context.limits.value("before"));
    let mut part = opening.hole();
    if opening.kind.is_door() {
        part.y0 = part.y0.max(STEP);
    }
    let mut things = before(model, arrangement, opening, part, reach);
    // What is used or slides out through an opening stands before it.
    let through = |name: &str| {
        let module = model.modules.iter().find(|module| module.name == name);
        let opening_of = module.and_then(|module| model.openings.get(module.through?));
        opening_of.is_some_and(|own| own.name == opening.name)
    };
    things.retain(|before| !before.thing.module.as_deref().is_some_and(through));
    if things.is_empty() {
        return None;
    }
    let shape = outline(opening).intersect(&Region::rect(part));
    let region = |before: &Before| Region::new(&before.shadow).intersect(&shape);
    things.retain(|before| region(before).area() > NO_AREA);
    // The largest first, whatever the order of modules.
    let by_words = |a: &Before, b: &Before| a.thing.says.cmp(&b.thing.says);
    things.sort_by(|a, b| region(b).area().total_cmp(&region(a).area()).then_with(|| by_words(a, b)));
    let covered = Region::all(things.iter().map(region));
    let (bounds, depth) = (covered.bounds(), covered.bounds().width().min(covered.bounds().height()));
    if depth <= SAME_LENGTH {
        return None;
    }
    let cut = cutter(context, arrangement, opening, &things);
    let message = match cut {
        Some(thing) => {
            format!("{thing} meets {} within `{}` and cuts it in two", wall_name(opening.wall), opening.name)
        }
        None => format!(
            "{} {} {} % of `{}`, {} x {}",
            named(&things),
            if things.len() == 1 { "covers" } else { "cover" },
            share(covered.area() / shape.area()),
            opening.name,
            trimmed(bounds.width(), 1),
            mm(bounds.height())
        ),
    };
    let severity = severity(opening, cut.is_some(), covered.area() / shape.area());
    let cover = format!("{} {}", if cut.is_some() { "cut by" } else { "covered by" }, named(&things));
    let finding = Finding::new(NAME, severity, &opening.name, message).names("how", cover);
    let finding = finding.figure("share", 100.0 * covered.area() / shape.area(), Quantity::Percent);
    let finding = finding.figure("width", bounds.width(), Quantity::Length);
    let mut finding = finding.figure("height", bounds.height(), Quantity::Length);
    finding.arrangements = vec![arrangement.name.clone()];
    finding.measured = length(depth);
    finding.required = Some(Requirement::nothing()).filter(|_| severity != Severity::Note);
    finding.spans = vec![opening.span];
    finding.spans.extend(things.iter().filter_map(|before| before.thing.span));
    finding.marks = vec![area(room(context.model, opening, bounds, reach).plan())];
    Some(finding)
}

/// Percent, never rounded down to nothing nor up to all.
fn share(of: f64) -> String {
    if of < 0.005 { "under 1".to_owned() } else { trimmed((of * 100.0).min(if of < 1.0 { 99.0 } else { 100.0 }), 0) }
}

/// What meets the wall between two parts of an opening that it leaves free, side by side (in roof and floor also one before
/// the other), in words; together with others that meet the wall there.
fn cutter<'a>(
    context: &Context<'_>,
    arrangement: &Arrangement,
    opening: &Opening,
    things: &'a [Before],
) -> Option<&'a str> {
    let whole = opening.hole();
    let near = before(context.model, arrangement, opening, whole, MEETS);
    let covers = |before: &Before| Region::new(&before.shadow).intersect(&Region::rect(whole));
    let free = Region::rect(whole).subtract(&Region::all(near.iter().map(covers)));
    let parts: Vec<Rect> = free.parts().filter(|part| part.area() > NO_AREA).map(|part| part.bounds()).collect();
    let pairs = parts.iter().flat_map(|a| parts.iter().map(move |b| (a, b)));
    let between = pairs.filter_map(|(a, b)| {
        let side_by_side = a.x1 <= b.x0 + SAME_LENGTH;
        let in_a_row = opening.lies_flat() && a.y1 <= b.y0 + SAME_LENGTH;
        let across = Rect { x0: a.x1, x1: b.x0, ..whole };
        let along = Rect { y0: a.y1, y1: b.y0, ..whole };
        (side_by_side || in_a_row).then_some(if side_by_side { across } else { along })
    });
    let strip = Region::rect(between.reduce(|a, b| if b.area() < a.area() { b } else { a })?);
    let taken = |before: &&Before| covers(before).intersect(&strip).area();
    let meets = near.iter().max_by(|a, b| taken(a).total_cmp(&taken(b)))?;
    things.iter().find(|before| before.thing == meets.thing).map(|before| before.thing.says.as_str())
}

/// Openings of one panel that meet or overlap.
fn meetings(context: &Context<'_>) -> Vec<Finding> {
    let apart = context.limits.get("apart");
    let openings = &context.model.openings;
    let pairs = openings.iter().enumerate().flat_map(|(at, one)| {
        let later = openings.iter().skip(at + 1).filter(|other| other.wall == one.wall);
        later.map(move |other| (one, other, gap(one.hole(), other.hole())))
    });
    let near = pairs.filter(|(.., gap)| !apart.holds(*gap));
    near.map(|(one, other, gap)| {
        let are = if gap < 0.0 { format!("overlap by {}", mm(-gap)) } else { format!("are {} apart", mm(gap)) };
        let message = format!("`{}` and `{}` in {} {are}", one.name, other.name, wall_name(one.wall));
        let mut finding = Finding::new(NAME, Severity::Fault, Subject::pair(&one.name, &other.name), message);
        finding.measured = length(gap);
        finding.required = Some(apart.clone());
        finding.spans = vec![one.span, other.span];
        finding.marks = [one, other].map(|o| area(room(context.model, o, o.hole(), MEETS).plan())).into();
        finding
    })
    .collect()
}

/// The distance of two rectangles; negative by how much they overlap, the shorter way.
fn gap(a: Rect, b: Rect) -> f64 {
    let x = (a.x0 - b.x1).max(b.x0 - a.x1);
    let y = (a.y0 - b.y1).max(b.y0 - a.y1);
    if x > 0.0 && y > 0.0 { x.hypot(y) } else { x.max(y) }
}

#[cfg(test)]
mod tests;
