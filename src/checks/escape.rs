//! Two ways out from every place to sleep.
//!
//! # Computes
//! For every lying space in every arrangement: the exits that a sleeper can reach, and the way there. Exits are doors and
//! openings with `escape: yes` whose hole, after its lining and what stands within 300 mm before it, passes a rectangle of
//! the limits, either way round. From the bed itself a sleeper reaches an opening within 300 mm of the lying space: of its hole
//! counts what is no farther than that along its wall, above the mattress and below what hangs over the sleeper there, as an upper
//! bunk; its sill is no more than `sill` above the mattress. Or a roof hatch no more than `roof` above it with nothing between. On
//! foot a sleeper reaches, from where the bed is stepped into, a door, or an opening whose sill is no more than `sill` above
//! the floor, if the way is as wide as the check `reachable` asks; its narrowest place is given.
//!
//! Two exits in one zone count as one. Nor do two count whose ways both go through one zone other than the sleeper's own
//! and cannot go round it, as a galley where a fire may be.
//!
//! # Why
//! A box has thin walls, gas and people who sleep. The second way out is the one that matters.
//!
//! # Limit
//! `exits` 2: fewer is a caution, none a fault. `narrow` 450 mm one way and `long` 600 mm the other; an opening with
//! `escape: yes` that is smaller gets a caution. `sill` 914 mm, `roof` 1,400 mm. A design aid: the local code decides.
//!
//! # Source
//! Sill: 36 in, 24 CFR 3280.404, for homes in the US, as quoted by public pages. All others: common practice, no source; of the
//! European standards for caravans no figure could be read. Rules for homes disagree, and none of them is meant here: 450 x
//! 600 mm are 0.27 m²; 24 CFR 3280.404 wants 559 mm at least and 0.465 m², Approved Document B (UK) 450 mm both ways and 0.33 m²
//! with a sill of at most 1,100 mm. Who builds to one of them sets `narrow`, `long` and `sill` to it.
//!
//! # Change it
//! `limits: { escape: { exits: 1, because: "..." } }`, or `narrow`, `long`, `sill`, `roof`.

mod exits;

use super::check::{Check, Context, page_of};
use super::words::{area, length};
use crate::base::number::{mm, trimmed};
use crate::base::text::one_of;
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Bound, Finding, Limit, Mark, Measure, Quantity, Severity, SourceClass};
use crate::figures::panel::{clear, room};
use crate::figures::ways::{Floor, between};
use crate::model::{Arrangement, Need};
use exits::{Berth, Exit, How, small_exits};

/// The check `escape`.
pub struct Escape;

const NAME: &str = "escape";
const PRACTICE: &str = "common practice, no source; local code decides";

const SILL: &str = "24 CFR 3280.404, homes, as quoted by public pages; local code decides";

const fn limit(name: &'static str, default: Bound, quantity: Quantity) -> Limit {
    Limit::new(name, default, quantity, SourceClass::CommonPractice, PRACTICE)
}

static LIMITS: [Limit; 5] = [
    limit("exits", Least(2.0), Quantity::Count),
    limit("narrow", Least(450.0), Quantity::Length),
    limit("long", Least(600.0), Quantity::Length),
    Limit::new("sill", Most(914.0), Quantity::Length, SourceClass::Quoted, SILL),
    limit("roof", Most(1400.0), Quantity::Length),
];

impl Check for Escape {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "two ways out from every place to sleep"
    }

    fn manual(&self) -> String {
        page_of(include_str!("escape.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("a design aid: the local code decides how many exits there are, how large and where")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        context.arrangements().iter().flat_map(|arrangement| in_one(context, arrangement)).collect()
    }
}

fn in_one(context: &Context<'_>, arrangement: &Arrangement) -> Vec<Finding> {
    let sleeps = |space: &crate::model::Space| space.need == Need::Lying;
    if !context.model.spaces(arrangement).any(|(_, space)| sleeps(space)) {
        return Vec::new();
    }
    let floor = context.floor(arrangement);
    let states = context.model.states(arrangement).enumerate();
    let berths = states.flat_map(|(index, (module, state))| {
        let lying = state.spaces.iter().filter(|space| sleeps(space));
        lying.map(move |space| Berth { index, module, space })
    });
    let told = berths.flat_map(|berth| told(context, &floor, &berth));
    small(context, arrangement).into_iter().chain(told).collect()
}

/// Ways out that are too small.
fn small(context: &Context<'_>, arrangement: &Arrangement) -> Vec<Finding> {
    let required = [context.limits.get("narrow"), context.limits.get("long")];
    let sizes = [required[0].value(), required[1].value()];
    let found = small_exits(context.model, arrangement, sizes).into_iter();
    found
        .map(|(opening, rect)| {
            let (short, deep) = (rect.width().min(rect.height()), rect.width().max(rect.height()));
            let message = format!(
                "the way out `{}` is {} x {} clear, {} x {} is needed, either way round",
                opening.name,
                trimmed(rect.width(), 1),
                mm(rect.height()),
                trimmed(sizes[0], 1),
                mm(sizes[1])
            );
            let by_narrow = short / sizes[0] <= deep / sizes[1];
            let finding = Finding::new(NAME, Severity::Caution, &opening.name, message).asks("size");
            let finding = finding.figure("width", rect.width(), Quantity::Length);
            let mut finding = finding.figure("height", rect.height(), Quantity::Length);
            finding.arrangements = vec![arrangement.name.clone()];
            finding.measured = length(if by_narrow { short } else { deep });
            finding.required = Some(required[usize::from(!by_narrow)].clone());
            finding.spans = vec![opening.span];
            finding.marks = vec![area(room(context.model, opening, clear(opening), 100.0).plan())];
            finding
        })
        .collect()
}

/// The note about a berth, and what is wrong with it.
fn told(context: &Context<'_>, floor: &Floor<'_>, berth: &Berth<'_>) -> Vec<Finding> {
    let exits = berth.exits(floor, &context.limits);
    let apart = berth.apart(floor, &exits);
    let needed = context.limits.get("exits");
    let from = format!("`{}` of `{}`", berth.space.name, berth.module.name);
    let mut all = Vec::new();
    let finding = |severity, asks, message: String| {
        let mut finding = Finding::new(NAME, severity, &berth.module.name, message);
        finding = finding.of_part(&berth.space.name).asks(asks);
        finding.arrangements = vec![floor.arrangement.name.clone()];
        finding.measured = Some(Measure { value: f64::from(apart), quantity: Quantity::Count });
        finding.spans = vec![berth.module.place_span];
        finding
    };
    if !exits.is_empty() {
        let ways: Vec<String> = exits.iter().map(|exit| way(floor, exit)).collect();
        let ways = ways.join("; ");
        let mut note = finding(Severity::Note, "ways", format!("ways out from {from}: {ways}")).names("ways", ways);
        note.required = Some(needed.clone()).filter(|needed| needed.holds(f64::from(apart)));
        note.marks = exits.iter().filter_map(narrowest).collect();
        all.push(note);
    }
    if !needed.holds(f64::from(apart)) {
        let names = one_of(exits.iter().map(|exit| exit.opening.name.as_str()));
        let is = match (apart, exits.len()) {
            (0, _) => format!("there is no way out from {from}"),
            (_, 1) => format!("there is one way out from {from}, by {names}"),
            _ => format!("the ways out from {from} by {names} share a zone and count as {apart}"),
        };
        let severity = if apart == 0 { Severity::Fault } else { Severity::Caution };
        let wanted = trimmed(needed.value(), 0);
        let mut bad =
            finding(severity, "exits", format!("{is}, {wanted} apart from each other are needed; local code decides"));
        bad = bad.names("by", names);
        bad.help = berth.hindered(floor, &context.limits, &exits);
        bad.required = Some(needed);
        bad.marks = vec![area(berth.space.prism.bounds().plan())];
        all.push(bad);
    }
    all
}

fn way(floor: &Floor<'_>, exit: &Exit<'_>) -> String {
    match &exit.how {
        How::FromBed => format!("`{}` from the bed itself", exit.opening.name),
        How::OnFoot(found) => {
            let sides = between(floor.sides(found));
            format!("`{}` on foot, {} wide at the narrowest place {sides}", exit.opening.name, mm(found.width))
        }
    }
}

fn narrowest(exit: &Exit<'_>) -> Option<Mark> {
    match &exit.how {
        How::FromBed => None,
        How::OnFoot(found) => Some(Mark::Between(found.across.0, found.across.1)),
    }
}

#[cfg(test)]
mod tests;
