//! Whether the vehicle is as small as the law wants it.
//!
//! # Computes
//! Outside length, width and height of the vehicle with its box: wall, roof and floor thickness, what stands on the roof
//! (`on-roof`) and beside the walls (`beside-box`), cab and overhangs.
//!
//! # Why
//! A few millimetres too wide, and there is no registration.
//!
//! # Limit
//! The table of `region`: `eu` 12.00 x 2.55 x 4.00 m; `uk` 12.00 x 2.55 m, trailers 7.00 m, or 12.00 m with four wheels behind a
//! goods vehicle of more than 3.5 t (`drawn-by`); `au` 12.50 x 2.50 x 4.30 m. More is a fault. The 2.60 m of the European rules are for
//! bodies equipped for goods at controlled temperature, however thick the walls of a living box are.
//!
//! # Source
//! `eu`: Regulation (EU) 1230/2012, annex I, part A, from memory; Directive 96/53/EC, article 2. `uk`: SI 1986/1078, regulation 7; its
//! width from memory. `au`: National inspection manual; its length from memory, not verified.
//!
//! # Change it
//! Another `region`; a local rule that allows more is accepted with its reason under `accepted`.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::mm;
use crate::diagnostic::Bound::Most;
use crate::diagnostic::{Finding, Limit, Quantity, Requirement, Severity, SourceClass, Worked};
use crate::vehicle::{outside, size_limits};

/// The check `outside-size`.
pub struct OutsideSize;

const NAME: &str = "outside-size";

impl Check for OutsideSize {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "length, width and height of the vehicle against the region's table"
    }

    fn manual(&self) -> String {
        page_of(include_str!("outside_size.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("the local authority decides on what counts as part of the vehicle")
    }

    fn limits(&self) -> &'static [Limit] {
        &[]
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let (size, limits) = (outside(context.model, vehicle), size_limits(vehicle));
        let class = if limits.read { SourceClass::Published } else { SourceClass::FromMemory };
        let sides = [
            ("length", "long", size.length, limits.length),
            ("width", "wide", size.width, limits.width),
            ("height", "high", size.height, limits.height),
        ];
        let known = sides.into_iter().filter(|(.., most)| most.is_finite());
        with_tightest(known.map(|(subject, word, value, most)| {
            let required = Requirement::new(Most(most), Quantity::Length, class, limits.source);
            let message = format!("the vehicle is {} {word} outside, of {} at most", mm(value), mm(most));
            let mut finding = judged(NAME, Severity::Fault, subject, (value, required), message);
            finding.spans = vec![vehicle.span];
            finding
        }))
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let (space, size) = (&context.model.space, outside(context.model, vehicle));
        let limits = size_limits(vehicle);
        let width = format!("{} + 2 x {} + {}", mm(space.width), mm(space.walls.thickness), mm(vehicle.beside));
        let crown = space.roof.highest();
        let height = format!(
            "{} + {} + {} + {}",
            mm(vehicle.floor_height),
            mm(crown),
            mm(space.roof_panel.thickness),
            mm(vehicle.on_roof)
        );
        vec![
            Worked::new("Outside size")
                .step(
                    "width",
                    ["inside + 2 x wall + beside the box (or the cab's)", &width],
                    mm(size.width),
                    limits.source,
                )
                .step(
                    "height",
                    ["floor over ground + crown + roof + on the roof", &height],
                    mm(size.height),
                    limits.source,
                )
                .step("length", ["foremost to rearmost point", ""], mm(size.length), limits.source),
        ]
    }
}

#[cfg(test)]
mod tests;
