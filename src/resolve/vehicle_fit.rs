//! Figures of the vehicle that contradict each other.

use super::names::Resolver;
use crate::base::number::mm;
use crate::diagnostic::Diagnostic;
use crate::language::expression::Failed;
use crate::language::{SUBFRAME, VehicleDoc};
use crate::model::{BoxSpace, Subframe, Vehicle};
use crate::source::Span;

/// A gap that is given twice may differ by so much, mm.
const SAME_GAP: f64 = 1.0;

impl Resolver<'_> {
    pub(super) fn refuse_contradictions(
        &mut self,
        doc: &VehicleDoc,
        vehicle: &Vehicle,
        space: &BoxSpace,
    ) -> Result<(), Failed> {
        if vehicle.bare() > vehicle.gross {
            let message =
                format!("`gross` of {} kg is less than the {} kg of the bare axles", vehicle.gross, vehicle.bare());
            return Err(self.error(
                Diagnostic::new(doc.figures.span, message)
                    .help("`gross` is the most mass in all, `bare` that on each axle without the box"),
            ));
        }
        self.refuse_box_in_cab(doc, vehicle, space)?;
        let Some(frame) = vehicle.frame.filter(|frame| frame.rear < vehicle.wheelbase) else { return Ok(()) };
        let message = format!(
            "the rear axle is {} behind the front one, the frame ends after {}",
            mm(vehicle.wheelbase),
            mm(frame.rear)
        );
        let place = doc.frame.as_ref().map_or(vehicle.span, |frame| frame.span);
        Err(self.error(Diagnostic::new(place, message).help("`rear` of the frame counts from the front axle")))
    }

    /// The front wall stands behind the cab, or the whole box above it.
    fn refuse_box_in_cab(&mut self, doc: &VehicleDoc, vehicle: &Vehicle, space: &BoxSpace) -> Result<(), Failed> {
        let Some(cab) = vehicle.cab else { return Ok(()) };
        let (front, under) = (vehicle.front_wall(space), vehicle.floor_height - space.floor.thickness);
        if front >= cab.rear || under >= cab.top {
            return Ok(());
        }
        let message = format!(
            "the box stands in the cab: its front wall is {} behind the front axle, the cab reaches to {}",
            mm(front),
            mm(cab.rear)
        );
        let place = doc.cab.as_ref().map_or(vehicle.span, |cab| cab.span);
        let help = "make `box-from-front-axle` larger (it is the wall's inside), or the cab's `rear` smaller";
        Err(self.error(Diagnostic::new(place, message).help(help)))
    }

    /// The vehicle with the gap between cab and box: as written, or as the two stand; both together must agree.
    pub(super) fn with_gap(&mut self, doc: &VehicleDoc, vehicle: Vehicle, space: &BoxSpace) -> Result<Vehicle, Failed> {
        let (Some(subframe), Some(cab)) = (vehicle.subframe, vehicle.cab) else { return Ok(vehicle) };
        let stands = vehicle.front_wall(space) - cab.rear;
        let at = SUBFRAME.iter().position(|key| key.name == "cab-gap");
        let written = doc.subframe.as_ref().zip(at).and_then(|(doc, at)| doc.value.figures.values.get(at)?.as_ref());
        let cab_gap = match written {
            None => stands.max(0.0),
            Some(_) if (subframe.cab_gap - stands).abs() <= SAME_GAP => subframe.cab_gap,
            Some(expr) => return Err(self.gap_given_twice(subframe.cab_gap, stands, expr.span)),
        };
        Ok(Vehicle { subframe: Some(Subframe { cab_gap, ..subframe }), ..vehicle })
    }

    fn gap_given_twice(&mut self, written: f64, stands: f64, place: Span) -> Failed {
        let message = format!(
            "`cab-gap` is {}, but from the cab's `rear` to the outside of the front wall are {}",
            mm(written),
            mm(stands)
        );
        self.error(
            Diagnostic::new(place, message)
                .help("leave `cab-gap` out, or correct `rear` of the cab or `box-from-front-axle`"),
        )
    }
}
