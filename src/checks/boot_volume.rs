//! What a storage space holds: its exact volume, and the reference blocks that fit.
//!
//! # Computes
//! For each space of a module that is meant for storage, in every arrangement: its volume in litres after everything
//! that stands in it is taken out (solids of all modules, cutaways, walls, and what lies above the roof lining), by
//! integrating exact cross-sections; and how many blocks of 200 x 100 x 50 mm (1 litre each) fit, standing along the
//! axes. The number of blocks is a lower bound with a known placement: it may be short of the most by about 3 in 100.
//!
//! # Why
//! Litres by length x width x height promise room that wheel boxes and sloped undersides have taken; blocks tell what
//! stiff luggage finds.
//!
//! # Limit
//! `least`: 0 litres. Less is a fault. Both figures are always given as a note.
//!
//! # Source
//! The block method is that of ISO 3832 and DIN 70020-1 as seen in secondary sources; the standards' texts were not
//! read. The limit has no source: it is the layout's own.
//!
//! # Change it
//! `limits: { boot-volume: { least: 800, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::area;
use crate::base::number::trimmed;
use crate::base::tolerance::VOLUME;
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Measure, Quantity, Severity, SourceClass};
use crate::figures::Room;
use crate::model::{Arrangement, Module, Need};
use kurbo::Rect;

/// The check `boot-volume`.
pub struct BootVolume;

const NAME: &str = "boot-volume";
static LIMITS: [Limit; 1] =
    [Limit::new("least", Least(0.0), Quantity::Volume, SourceClass::CommonPractice, "none asked for")];

impl Check for BootVolume {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "litres of each storage space, and the blocks of 200 x 100 x 50 mm that fit"
    }

    fn manual(&self) -> String {
        page_of(include_str!("boot_volume.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let mut findings: Vec<Finding> = Vec::new();
        for arrangement in context.arrangements() {
            let spaces = context.model.spaces(arrangement).filter(|(_, space)| space.need == Need::Storage);
            for (module, space) in spaces {
                let room = Room::new(context.model, arrangement, space);
                findings.extend(report(context, arrangement, module, &room));
            }
        }
        findings
    }

    fn grave(&self, context: &Context<'_>) -> Vec<Finding> {
        if context.limits.value("least") > 0.0 { self.run(context) } else { Vec::new() }
    }
}

fn report(context: &Context<'_>, arrangement: &Arrangement, module: &Module, room: &Room) -> Vec<Finding> {
    let (space, memo) = (&room.space, context.memo());
    let required = context.limits.get("least").within(VOLUME * context.limits.value("least"));
    let (litres, least) = (room.litres(memo), required.value());
    let holds = format!("the storage space `{}` of `{}` holds {} litres", space.name, module.name, trimmed(litres, 1));
    let plan: Rect = space.prism.bounds().plan();
    let finding = |severity, asks, message: String| {
        let mut finding = Finding::new(NAME, severity, &module.name, message).of_part(&space.name).asks(asks);
        finding.arrangements = vec![arrangement.name.clone()];
        finding.measured = Some(Measure { value: litres, quantity: Quantity::Volume });
        finding.spans = vec![module.place_span, space.span];
        finding.marks = vec![area(plan)];
        finding
    };
    let missed = !required.holds(litres);
    let blocks = room.blocks(memo);
    let mut note = finding(Severity::Note, "holds", format!("{holds} and {blocks} blocks of 200 x 100 x 50 mm"));
    note = note.figure("blocks", blocks as f64, Quantity::Count);
    note.required = Some(required.clone()).filter(|_| least > 0.0 && !missed);
    let mut found = vec![note];
    if missed {
        let mut fault = finding(Severity::Fault, "least", format!("{holds}, less than {} litres", trimmed(least, 1)));
        fault.required = Some(required);
        found.push(fault);
    }
    found
}

#[cfg(test)]
mod tests;
