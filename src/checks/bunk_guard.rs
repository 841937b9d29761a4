//! Guards at the edges of bunk beds.
//!
//! # Computes
//! For each lying space in every arrangement that is a bunk: another one lies above or below it, or its module has a solid
//! tagged `guard`; its base (the underside of the mattress that lies under it; the lying face, if there is none) is at the
//! limit `base` or higher above the floor; and it is no wider than `width`. For each of the four sides, the stretches that are not guarded. A wall of the box within 75 mm guards its whole side. Elsewhere
//! solids within 75 mm guard where they reach above the mattress by the limit `guard` and leave no gap of more than 75 mm
//! one above the other, measured from the base of the bed, without its mattress. Another mattress within 75 mm whose top
//! is within 300 mm guards too. On one side, to get in, there may be openings.
//!
//! Other beds are not looked at, however high: whether one wants a guard, its sleepers say.
//!
//! # Why
//! Sleepers roll over, and a box on a slope or in a wind does not lie still.
//!
//! # Limit
//! `base` 600 mm and `width` 1,200 mm: lower or wider beds are no bunks. `guard` 160 mm above the mattress. `opening` 400 mm
//! for each opening on the side to get in, `gap` 5.6 mm on the others. A caution: the rules are made with children in mind.
//! The US rule has 760 mm for the base, 127 mm for the guard and 381 mm for the opening.
//!
//! # Source
//! Base and width: scope of EN 747-1:2024, as published. Guard, opening (300 to 400 mm; too narrow ones are a matter of
//! `bed-access`) and 75 mm: EN 747-1, as three public pages quote it; its own text was not read. Gap, and the figures of
//! the US rule: 16 CFR 1213.2 and 1213.3, read. That a mattress beside it guards is common practice, no source.
//!
//! # Change it
//! `limits: { bunk-guard: { guard: 127, because: "built to 16 CFR 1213" } }`, or `base`, `width`, `opening`, `gap`.

mod edges;

use super::check::{Check, Context, page_of};
use super::words::{area, length, with_tightest};
use crate::base::number::mm;
use crate::base::tolerance::{NO_AREA, SAME_LENGTH};
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Bound, Finding, Limit, Mark, Quantity, Requirement, Severity, SourceClass};
use crate::figures::berths::{Bed, beds};
use crate::figures::shell::at_the;
use crate::figures::sides::Side;
use crate::figures::stretches::{Stretch, long};
use crate::model::{Arrangement, Tag};
use edges::{Fence, GAP};

/// The check `bunk-guard`.
pub struct BunkGuard;

const NAME: &str = "bunk-guard";
const SCOPE: (SourceClass, &str) = (SourceClass::Published, "scope of EN 747-1:2024");
const EN: (SourceClass, &str) = (SourceClass::Quoted, "EN 747-1, as public pages quote it, its own text not read");
const US: (SourceClass, &str) = (SourceClass::Published, "16 CFR 1213.3: 0.22 in between a rail and an end");
static LIMITS: [Limit; 5] = [
    limit("base", Most(600.0), SCOPE),
    limit("width", Least(1200.0), SCOPE),
    limit("guard", Least(160.0), EN),
    limit("opening", Most(400.0), EN),
    limit("gap", Most(5.6), US),
];

const fn limit(name: &'static str, default: Bound, (class, source): (SourceClass, &'static str)) -> Limit {
    Limit::new(name, default, Quantity::Length, class, source)
}

impl Check for BunkGuard {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "guards at the edges of bunk beds"
    }

    fn manual(&self) -> String {
        page_of(include_str!("bunk_guard.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let of_arrangement = |arrangement| {
            let beds = beds(context.model, arrangement);
            beds.iter().filter_map(|bed| look(context, arrangement, &beds, bed)).collect::<Vec<_>>()
        };
        with_tightest(context.arrangements().iter().flat_map(of_arrangement))
    }
}

/// Whether another bed is above or below it, or it has a guard already.
fn is_bunk(context: &Context<'_>, arrangement: &Arrangement, beds: &[Bed<'_>], bed: &Bed<'_>) -> bool {
    let over = |other: &Bed<'_>| bed.plan().intersect(other.plan()).area() > NO_AREA;
    let own = context.model.solids(arrangement).filter(|(module, _)| module.name == bed.module.name);
    beds.iter().any(|other| !std::ptr::eq(other, bed) && over(other))
        || own.into_iter().any(|(_, solid)| solid.is(Tag::Guard))
}

/// The longest stretch of a bunk that should not be open.
fn look(context: &Context<'_>, arrangement: &Arrangement, beds: &[Bed<'_>], bed: &Bed<'_>) -> Option<Finding> {
    if !is_bunk(context, arrangement, beds, bed) {
        return None;
    }
    let base = bed.deck(arrangement, context.model);
    let (low, wide) = (context.limits.value("base"), context.limits.value("width"));
    if base + SAME_LENGTH < low || bed.width > wide + SAME_LENGTH {
        return None;
    }
    let fence = Fence::new(context.model, arrangement, beds, (bed, base));
    let [opening, gap] = ["opening", "gap"].map(|name| context.limits.get(name));
    let sides = Side::all(bed.plan()).map(|side| (side, fence.open(&side, context.limits.value("guard"))));
    let open = || sides.iter().flat_map(|(side, open)| open.iter().map(move |stretch| (*side, *stretch)));
    let wide = open().filter(|(_, stretch)| !gap.holds(long(*stretch)));
    let (ways_in, too_wide): (Vec<_>, Vec<_>) = wide.partition(|(_, stretch)| opening.holds(long(*stretch)));
    let longest = |found: &[(Side, Stretch)]| {
        found.iter().copied().reduce(|best, next| if long(next.1) > long(best.1) + SAME_LENGTH { next } else { best })
    };
    if let Some((side, stretch)) = longest(&too_wide) {
        return Some(finding(context, bed, arrangement, &fence, (side, stretch), opening));
    }
    let way_in = longest(&ways_in).map(|(side, _)| side.faces);
    let second: Vec<_> = ways_in.into_iter().filter(|(side, _)| Some(side.faces) != way_in).collect();
    let Some(found) = longest(&second) else { return met(context, bed, arrangement, &fence, opening.value()) };
    Some(finding(context, bed, arrangement, &fence, found, gap))
}

/// The lowest guard, where there is more than walls.
fn met(
    context: &Context<'_>,
    bed: &Bed<'_>,
    arrangement: &Arrangement,
    fence: &Fence<'_>,
    opening: f64,
) -> Option<Finding> {
    let sides = Side::all(bed.plan()).into_iter().filter(|side| !fence.is_wall(side));
    let height = sides.map(|side| fence.height(&side, opening)).reduce(f64::min)?;
    let which = format!("`{}` of `{}`", bed.space.name, bed.module.name);
    let message = format!("the guard of {which} stands {} above the mattress", mm(height));
    let mut finding = Finding::new(NAME, Severity::Met, &bed.module.name, message).of_part(&bed.space.name);
    finding.arrangements = vec![arrangement.name.clone()];
    finding.measured = length(height);
    finding.required = Some(context.limits.get("guard"));
    finding.spans = vec![bed.module.place_span, bed.space.span];
    Some(finding)
}

fn finding(
    context: &Context<'_>,
    bed: &Bed<'_>,
    arrangement: &Arrangement,
    fence: &Fence<'_>,
    (side, stretch): (Side, Stretch),
    most: Requirement,
) -> Finding {
    let guard = context.limits.get("guard");
    let (height, tall, side_words) = (fence.height(&side, most.value()), mm(guard.value()), at_the(side.faces));
    let which = format!("`{}` of `{}`", bed.space.name, bed.module.name);
    let message = if height > SAME_LENGTH {
        format!("the guard of {which} {side_words} is only {} above the mattress, {tall} is needed", mm(height))
    } else if fence.has_gap(&side, guard.value(), stretch) {
        let (open, most) = (mm(long(stretch)), mm(most.value()));
        format!(
            "the guard of {which} {side_words} has a gap of more than {} below it for {open}, {most} is the most",
            mm(GAP)
        )
    } else {
        let (open, most) = (mm(long(stretch)), mm(most.value()));
        format!("{which} is open {side_words} for {open} without a guard {tall} above the mattress, {most} is the most")
    };
    let finding = Finding::new(NAME, Severity::Caution, &bed.module.name, message).of_part(&bed.space.name);
    let mut finding = finding.names("side", side_words);
    finding.arrangements = vec![arrangement.name.clone()];
    finding.measured = length(if height > SAME_LENGTH { height } else { long(stretch) });
    finding.required = Some(if height > SAME_LENGTH { guard } else { most });
    finding.spans = vec![bed.module.place_span, bed.space.span];
    let (from, to) = side.ends(stretch);
    finding.marks = vec![area(bed.plan()), Mark::Between(from, to)];
    finding
}

#[cfg(test)]
mod tests;
