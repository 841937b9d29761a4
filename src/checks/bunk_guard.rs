//! Guards at the edges of high beds.
//!
//! # Computes
//! For each lying space in every arrangement whose deck (the underside of the mattress that lies under it; the lying
//! face, if there is none) is higher than the limit: for each of the four sides, the stretches that are not guarded. A
//! wall of the box within 75 mm guards its whole side; a solid within 75 mm guards where it starts no higher than the
//! mattress top and reaches above it by the limit `guard`; one tagged `guard` may start up to 89 mm above the mattress;
//! another mattress within 75 mm whose top is within 300 mm guards too. On one side, to get in, there may be openings.
//!
//! # Why
//! Sleepers roll over, and a box on a slope or in a wind does not lie still.
//!
//! # Limit
//! `deck` 760 mm: only higher decks need guards. `guard` 127 mm above the mattress. `opening` 381 mm for each opening on
//! the side to get in, `gap` 5.6 mm on the others. A caution: the rule is made for bunk beds with children in mind;
//! adults may accept it with a reason.
//!
//! # Source
//! US federal rule for bunk beds, 16 CFR 1213: bunks are beds with an underside above 30 in (1213.2); gaps at an end of at
//! most 0.22 in, rail top at least 5 in above the mattress, at most 15 in open at an end of one rail (1213.3; the last
//! two as a public page quotes them). That the underside is taken at the mattress, 75 mm and 89 mm are from memory, not
//! verified.
//!
//! # Change it
//! `limits: { bunk-guard: { opening: 450, because: "..." } }`.

mod edges;

use super::check::{Check, Context, page_of};
use super::words::{area, length, with_tightest};
use crate::base::number::mm;
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Bound, Finding, Limit, Mark, Quantity, Requirement, Severity, SourceClass};
use crate::figures::berths::{Bed, beds};
use crate::figures::shell::at_the;
use crate::figures::sides::Side;
use crate::figures::stretches::{Stretch, long};
use crate::model::Arrangement;
use edges::Fence;

/// The check `bunk-guard`.
pub struct BunkGuard;

const NAME: &str = "bunk-guard";
static LIMITS: [Limit; 4] = [
    limit("deck", Most(760.0), "16 CFR 1213.2: underside above 30 in"),
    limit("guard", Least(127.0), "16 CFR 1213.3, as a public page quotes it: 5 in above the mattress"),
    limit("opening", Most(381.0), "16 CFR 1213.3, as a public page quotes it: 15 in at an end of one rail"),
    limit("gap", Most(5.6), "16 CFR 1213.3: 0.22 in between a rail and an end"),
];

const fn limit(name: &'static str, default: Bound, source: &'static str) -> Limit {
    Limit::new(name, default, Quantity::Length, SourceClass::Published, source)
}

impl Check for BunkGuard {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "guards at the edges of beds whose deck is high"
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

/// The longest stretch of a high bed that should not be open.
fn look(context: &Context<'_>, arrangement: &Arrangement, beds: &[Bed<'_>], bed: &Bed<'_>) -> Option<Finding> {
    if context.limits.get("deck").holds(bed.deck(arrangement, context.model)) {
        return None;
    }
    let fence = Fence::new(context.model, arrangement, beds, bed);
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
