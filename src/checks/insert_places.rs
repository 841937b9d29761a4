//! Whether everything heavy finds a place for its inserts.
//!
//! # Computes
//! Where inserts go: for each module of more than 15 kg, each that hangs or that people sit or lie on, in every panel that it touches:
//! along the boards that lie against the panel (rails and backs on walls, plinths and fronts on the floor), else along the
//! module's upper edge (hanging ones along the lower edge too, and in the roof); 80 mm from the ends and at most 400 mm
//! apart (600 mm on the floor), moved along the line by up to 240 mm to stay 40 mm clear of openings. Two or three beside each hinged edge of an opening. The panel sheets and the schedule list them all.
//!
//! # Why
//! A foam core holds no screw. What is not said before the panel is glued is drilled and filled afterwards, or pulls out.
//!
//! # Limit
//! None: a module for which a panel has no free place is a caution.
//!
//! # Source
//! Common practice, no source; the maker of the panels decides on kind and strength.
//!
//! # Change it
//! Move the module or the opening.

use super::check::{Check, Context, page_of};
use crate::diagnostic::Bound::Least;
use crate::diagnostic::{Finding, Limit, Measure, Quantity, Requirement, Severity};
use crate::model::Wall;

/// The check `insert-places`.
pub struct InsertPlaces;

const NAME: &str = "insert-places";

impl Check for InsertPlaces {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "places in the panels for the inserts of heavy modules, seats and beds"
    }

    fn manual(&self) -> String {
        page_of(include_str!("insert_places.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some(
            "places only; the maker of the panels decides on kind and strength of inserts, for seats with belts the law",
        )
    }

    fn limits(&self) -> &'static [Limit] {
        &[]
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let missing = &context.figures.inserts().missing;
        let caution = |(module, wall, span): &(String, Wall, crate::source::Span)| {
            let panel = if matches!(wall, Wall::Roof | Wall::Floor) {
                wall.name().to_owned()
            } else {
                format!("{} wall", wall.name())
            };
            let message = format!("openings leave no place for inserts of `{module}` in the {panel}");
            let mut finding = Finding::new(NAME, Severity::Caution, module, message).asks(wall.name());
            finding.measured = Some(Measure { value: 0.0, quantity: Quantity::Count });
            finding.required = Some(Requirement::geometry(Least(1.0), Quantity::Count));
            finding.spans = vec![*span];
            finding
        };
        missing.iter().map(caution).collect()
    }
}

#[cfg(test)]
mod tests;
