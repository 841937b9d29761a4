//! Seats in the box that people ride on.
//!
//! # Computes
//! Who is more than the vehicle's `seats` rides on the seats of the arrangement `travel`, or of the first, in their order. Of each such
//! seat: how far a solid tagged `backrest` behind it, over half its width at least, reaches above the seat; and by how many
//! degrees its people look away from the line of travel. And whether all people have a seat. A trailer carries nobody; of a
//! vehicle without `seats` nothing is known, which a note says.
//!
//! # Why
//! A bench without a back holds nobody when the vehicle brakes, and a belt needs something to be fixed to.
//!
//! # Limit
//! `back` 400 mm: less is a fault. `aside` 0 degrees: a seat that looks aside is a caution. Fewer seats than people is a fault.
//!
//! # Source
//! `back`: common practice, no source; the rules on seats and head restraints ask for more. `aside`: seats that face the side are
//! forbidden on the road in many classes, from memory, not verified. Belts, their anchorages and the seats themselves are to be
//! approved: nothing of it is looked at.
//!
//! # Change it
//! `limits: { seat-travel: { back: 350, because: "..." } }`; name the vehicle's own `seats`; choose another pose in `travel`.

use super::check::{Check, Context, page_of};
use super::words::{area, judged, with_tightest};
use crate::base::number::mm;
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Finding, Limit, Quantity, Requirement, Severity, SourceClass};
use crate::figures::seat_room::{Place, sitting_places};
use crate::model::{Arrangement, Vehicle, VehicleKind, Wall};

/// The check `seat-travel`.
pub struct SeatTravel;

const NAME: &str = "seat-travel";
/// The arrangement in which people ride.
const TRAVEL: &str = "travel";

static LIMITS: [Limit; 2] = [
    Limit::practice("back", Least(400.0), Quantity::Length),
    Limit::new("aside", Most(0.0), Quantity::Angle, SourceClass::FromMemory, "from memory, not verified"),
];

impl Check for SeatTravel {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "backs and directions of the seats that people ride on"
    }

    fn manual(&self) -> String {
        page_of(include_str!("seat_travel.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("a design aid: seats, belts and anchorages for the road are to be approved by who is allowed to")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let (model, arrangements) = (context.model, context.arrangements());
        let travel = arrangements.iter().find(|one| one.name == TRAVEL).or(arrangements.first());
        let vehicle = model.vehicle.as_ref().filter(|vehicle| vehicle.kind != VehicleKind::Trailer);
        let (Some(vehicle), Some(travel)) = (vehicle, travel) else { return Vec::new() };
        let people = model.people.len();
        if vehicle.seats.is_empty() {
            return if people > 0 { vec![unknown(vehicle)] } else { Vec::new() };
        }
        let riders = people.saturating_sub(vehicle.seats.len());
        let places = sitting_places(model, travel);
        let mut left = riders;
        let mut found = Vec::new();
        for place in places.iter().filter(|place| place.seat.is_some()) {
            if left == 0 {
                break;
            }
            left -= left.min(place.space.people.max(1) as usize);
            found.extend(seat(context, travel, place));
        }
        found.extend((left > 0).then(|| missing(vehicle, travel, people, people - left)));
        found.extend((riders > left).then(|| belts(vehicle, travel, riders - left)));
        with_tightest(found)
    }
}

/// What is wrong with a seat, or how well it does.
fn seat(context: &Context<'_>, travel: &Arrangement, place: &Place<'_>) -> [Finding; 2] {
    let of = format!("`{}` of `{}`", place.space.name, place.module.name);
    let (back, aside) = (context.limits.get("back"), context.limits.get("aside"));
    let high = place.back(context.model, travel);
    let says =
        format!("the back of {of} reaches {} above the seat, {} is needed to ride on it", mm(high), mm(back.value()));
    let angle = if matches!(place.faces(), Wall::Front | Wall::Rear) { 0.0 } else { 90.0 };
    let looks = format!("who rides on {of} looks {angle} degrees away from the line of travel");
    let back = judged(NAME, Severity::Fault, &place.module.name, (high, back), says).asks("back");
    let aside = judged(NAME, Severity::Caution, &place.module.name, (angle, aside), looks).asks("aside");
    [back, aside].map(|finding| {
        let mut finding = finding.of_part(&place.space.name);
        finding.arrangements = vec![travel.name.clone()];
        finding.spans = vec![place.module.place_span, place.space.span];
        finding.marks = vec![area(place.plan())];
        finding
    })
}

/// People without a seat on the road.
fn missing(vehicle: &Vehicle, travel: &Arrangement, people: usize, seats: usize) -> Finding {
    let message = format!("{people} people ride along, {seats} have a seat");
    let required = Requirement::geometry(Least(people as f64), Quantity::Count);
    let mut finding = judged(NAME, Severity::Fault, "vehicle", (seats as f64, required), message).asks("seats");
    finding.arrangements = vec![travel.name.clone()];
    finding.spans = vec![vehicle.span];
    finding
}

/// The note that somebody else has to look at belts.
fn belts(vehicle: &Vehicle, travel: &Arrangement, riders: usize) -> Finding {
    let message = format!("{riders} of the people ride in the box: belts, anchorages and seats are to be approved");
    let finding = Finding::new(NAME, Severity::Note, "vehicle", message).asks("belts");
    let mut finding = finding.figure("in the box", riders as f64, Quantity::Count);
    finding.arrangements = vec![travel.name.clone()];
    finding.spans = vec![vehicle.span];
    finding
}

/// The note that nobody said where people ride.
fn unknown(vehicle: &Vehicle) -> Finding {
    let message = "the vehicle has no `seats`: nothing tells who rides in the box";
    let mut finding = Finding::new(NAME, Severity::Note, "vehicle", message).asks("unknown");
    finding.spans = vec![vehicle.span];
    finding
}

#[cfg(test)]
mod tests;
