//! Whether the cargo goes in, fits together, and is not too heavy.
//!
//! # Computes
//! Three things in every arrangement. (1) For each piece with `through`: whether one of its faces passes the clear part
//! of the opening, turned in its plane where it may be, by Carver's condition, round corners exactly, also where
//! something stands in the opening and takes away its bounds. (2) For each module that keeps cargo: a packing of all pieces, along the
//! axes and as each may stand, into its storage spaces less everything that stands there, sloped undersides and the
//! roof, with at least 0.6 of each base carried. It places what it can by volume, and is the same every time; it may
//! miss a fit that exists, but never states one that does not. If one packing serves all arrangements it is used for
//! all. (3) The mass of all cargo of a module against what its storage spaces say they carry.
//!
//! # Why
//! Litres promise room that a wheel box breaks up, and what fits the boot may not fit its hatch.
//!
//! # Limit
//! Everything passes, everything lies somewhere, no more mass than carried: faults. The order of loading, lashing and
//! tilting a piece while it goes in are not looked at.
//!
//! # Source
//! L. Carver, Amer. Math. Monthly 64 (1957); J. E. Wetzel, Math. Magazine 73 (2000), for the turned rectangle. The packing
//! is geometry; the share of a base that must be carried is common practice, no source. The mass is the symbol's own.
//!
//! # Change it
//! `cargo:` in the layout: sizes, `stands`, `in`, `through`. What is carried is a setting of the symbol, mostly `rating`.

mod hatch_way;

use super::check::{Check, Context, page_of};
use super::words::{area, size};
use crate::base::number::trimmed;
use crate::base::tolerance::SAME_SHARE;
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Bound, Finding, Limit, Measure, Quantity, Requirement, Severity, SourceClass};
use crate::figures::Stowage;
use crate::geometry::{Hole, HolePart};
use crate::model::{Cargo, Model, Opening};
use hatch_way::{clear, mark, none_passes, part, passes, passes_hole};

/// The check `cargo`.
pub struct CargoFits;
const NAME: &str = "cargo";

impl Check for CargoFits {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "cargo passes its hatch, fits together in the boot, and is not too heavy"
    }

    fn work(&self, model: &Model) -> usize {
        1 + model.cargo.iter().map(|cargo| cargo.parcel.count).sum::<usize>() / 4
    }

    fn manual(&self) -> String {
        page_of(include_str!("cargo.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &[]
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let model = context.model;
        let of = |stowage| {
            let alone = hatches(model, stowage).into_iter().chain([fit(model, stowage)]);
            alone.chain(mass(model, stowage)).collect::<Vec<_>>()
        };
        context.figures.stowage().iter().flat_map(of).collect()
    }
}

fn kept<'a>(model: &'a Model, stowage: &Stowage) -> impl Iterator<Item = &'a Cargo> {
    let module = stowage.module;
    model.cargo.iter().filter(move |cargo| cargo.module == module)
}

fn new(model: &Model, stowage: &Stowage, (asks, severity): (&'static str, Severity), message: String) -> Finding {
    let module = model.modules.get(stowage.module);
    let mut finding = Finding::new(NAME, severity, stowage.owner(model), message).asks(asks);
    finding.arrangements = stowage.arrangement_names(model);
    finding.spans.extend(kept(model, stowage).map(|cargo| cargo.span));
    finding.spans.extend(module.map(|module| module.place_span));
    finding.marks = stowage.holds.iter().map(|hold| area(hold.room.space.prism.bounds().plan())).collect();
    finding
}

fn required(bound: Bound, quantity: Quantity, source: &str) -> Option<Requirement> {
    Some(Requirement::new(bound, quantity, SourceClass::Geometry, source))
}

/// That everything lies somewhere, or what does not.
fn fit(model: &Model, stowage: &Stowage) -> Finding {
    let pieces: usize = kept(model, stowage).map(|cargo| cargo.parcel.count).sum();
    let left: usize = stowage.left.iter().map(|(_, count)| count).sum();
    let boot = stowage.owner(model);
    let litres = |litres: f64| trimmed(litres, 0);
    let free = stowage.holds.iter().filter_map(|hold| hold.packing.largest_free);
    let largest = free
        .max_by(|a, b| a.volume().total_cmp(&b.volume()))
        .map(|free| format!(", the largest free box {}", size(&free)));
    let room = format!("{} litres are left{}", litres(stowage.litres_left()), largest.unwrap_or_default());
    let counted = |mut finding: Finding| {
        finding.measured = Some(Measure { value: (pieces - left) as f64, quantity: Quantity::Count });
        finding.required = required(Least(pieces as f64), Quantity::Count, "pieces listed by the layout");
        finding
    };
    if left == 0 {
        let all = if pieces == 1 { "the one piece".to_owned() } else { format!("all {pieces} pieces") };
        let kg =
            stowage.carries().map(|kg| format!(", {} of {} kg", trimmed(weight(model, stowage), 1), trimmed(kg, 1)));
        let (litres, kg) = (litres(stowage.stowed()), kg.unwrap_or_default());
        let message = format!("`{boot}` holds {all} of its cargo, {litres} litres{kg}; {room}");
        return counted(new(model, stowage, ("fits", Severity::Note), message).names("room", room));
    }
    let name = |(at, count): &(usize, usize)| {
        model.cargo.get(*at).map(|cargo| format!("{count} of {} `{}`", cargo.parcel.count, cargo.name))
    };
    let names: Vec<String> = stowage.left.iter().filter_map(name).collect();
    let message = format!("`{boot}` has no place for {}; {room}", names.join(", "));
    let fault = new(model, stowage, ("fits", Severity::Fault), message);
    let mut fault = fault.names("left", names.join(", ")).names("room", room);
    let first = stowage.left.iter().filter_map(|(at, _)| model.cargo.get(*at)).map(|cargo| cargo.span).next();
    fault.spans.sort_by_key(|span| Some(*span) != first);
    counted(fault)
}

/// Kilograms of all cargo of a module.
fn weight(model: &Model, stowage: &Stowage) -> f64 {
    kept(model, stowage).map(|cargo| cargo.mass * cargo.parcel.count as f64).sum()
}

/// That it is too heavy.
fn mass(model: &Model, stowage: &Stowage) -> Option<Finding> {
    let carries = stowage.carries()?;
    let mass = weight(model, stowage);
    if mass <= carries * (1.0 + SAME_SHARE) {
        return None;
    }
    let boot = stowage.owner(model);
    let message = format!("`{boot}` carries {} kg and its cargo weighs {} kg", trimmed(carries, 1), trimmed(mass, 1));
    let mut fault = new(model, stowage, ("mass", Severity::Fault), message);
    fault.measured = Some(Measure { value: mass, quantity: Quantity::Mass });
    fault.required = required(Most(carries), Quantity::Mass, "what the symbol says its storage carries");
    Some(fault)
}

/// Cargo that does not pass its opening in some arrangement.
fn hatches(model: &Model, stowage: &Stowage) -> Vec<Finding> {
    let mut found = Vec::new();
    for cargo in kept(model, stowage) {
        let Some(opening) = cargo.through.and_then(|at| model.openings.get(at)) else { continue };
        for at in &stowage.arrangements {
            let Some(arrangement) = model.arrangements.get(*at) else { continue };
            let rooms: Vec<_> = stowage.holds.iter().map(|hold| &hold.room).collect();
            let deep = cargo.parcel.size.iter().copied().fold(f64::INFINITY, f64::min);
            let clear = clear(model, arrangement, opening, &rooms, deep).into_iter();
            let parts: Vec<HolePart> = clear.map(|rect| part(opening, rect)).collect();
            if !parts.iter().any(|part| passes(&cargo.parcel, opening.wall, part)) {
                let mut finding = blocked(model, stowage, cargo, opening, parts.first());
                finding.arrangements = vec![arrangement.name.clone()];
                found.push(finding);
            }
        }
    }
    found
}

fn blocked(model: &Model, stowage: &Stowage, cargo: &Cargo, opening: &Opening, part: Option<&HolePart>) -> Finding {
    let boot = stowage.owner(model);
    let [a, b, c] = cargo.parcel.size.map(|side| trimmed(side, 1));
    let piece = format!("`{}` of {a} x {b} x {c} mm does not pass `{}`", cargo.name, opening.name);
    let Some(hole) = part.map(|part| part.alone(opening.radius)) else {
        return none_passes(about(model, cargo, opening, format!("{piece}, which does not open to `{boot}`")), cargo);
    };
    let corners = if hole.radius > 0.0 { format!(", corners {} mm", trimmed(hole.radius, 1)) } else { String::new() };
    let clear = format!("{} x {} mm clear{corners}", trimmed(hole.width, 1), trimmed(hole.height, 1));
    let passes = |hole: Hole| passes_hole(&cargo.parcel, opening.wall, hole);
    let higher = hole.height_for(passes).map(|height| (height, hole.height, "high"));
    let wider = hole.width_for(passes).map(|width| (width, hole.width, "wide"));
    let least = [higher, wider].into_iter().flatten().min_by(|a, b| (a.0 - a.1).total_cmp(&(b.0 - b.1)));
    let wants = least.map(|(wants, _, way)| format!("; it would if that were {} mm {way}", trimmed(wants, 1)));
    let finding = about(model, cargo, opening, format!("{piece}, {clear}{}", wants.unwrap_or_default()));
    let mut finding = finding.names("clear", clear);
    let Some((wants, has, _)) = least else { return none_passes(finding, cargo) };
    finding.measured = super::words::length(has);
    finding.required = required(Least(wants), Quantity::Length, "geometry");
    finding
}

fn about(model: &Model, cargo: &Cargo, opening: &Opening, message: String) -> Finding {
    let (spans, marks) = (vec![cargo.span, opening.span], vec![mark(model, opening)]);
    let finding = Finding::new(NAME, Severity::Fault, &cargo.name, message).with_other(&opening.name);
    Finding { spans, marks, ..finding }
}

#[cfg(test)]
mod tests;
