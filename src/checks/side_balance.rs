//! Whether the vehicle leans to one side.
//!
//! # Computes
//! For each load case the loads of the left and right wheels of each axle: load / 2 + moment / track. The moment is that of what
//! the axle carries: each thing counts by its lever between the axles. On a subframe the moment of the whole box is taken where that
//! holds it against rolling (`fixed-at`), since a pivot takes none; a trailer's coupling takes none. Told is the greatest difference as part
//! of the sum. The case `worst side` is the worst of all states: each tank full or empty, contents, cargo and people aboard or not.
//! What lies ahead of the box's front wall rides on the vehicle, everything else on the box.
//!
//! # Why
//! A box that is heavier on one side hangs there, wears its tyres and pulls when it brakes.
//!
//! # Limit
//! `most`: 4 % difference. More is a caution.
//!
//! # Source
//! Common practice, no source.
//!
//! # Change it
//! `limits: { side-balance: { most: 6, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::judged;
use crate::base::number::trimmed;
use crate::diagnostic::Bound::Most;
use crate::diagnostic::{Finding, Limit, Quantity, Severity, Worked};
use crate::geometry::Point3;
use crate::model::{Model, Vehicle, VehicleKind};
use crate::vehicle::{LoadCase, Mass, Support, Weighed, lean, on_supports};

/// The check `side-balance`.
pub struct SideBalance;

const NAME: &str = "side-balance";
static LIMITS: [Limit; 1] = [Limit::practice("most", Most(4.0), Quantity::Percent)];

impl Check for SideBalance {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "difference of the wheel loads left and right"
    }

    fn manual(&self) -> String {
        page_of(include_str!("side_balance.rs"))
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let (cases, weighed) = (context.figures.cases(), context.figures.weighed());
        let all = weighed.iter().zip(cases).flat_map(|(weighed, case)| axles(vehicle, weighed, case));
        let Some(worst) = all.max_by(|a, b| a.lean().total_cmp(&b.lean())) else { return Vec::new() };
        let message = format!(
            "the {} wheels of the {} carry {} % more of it than the others in the case `{}`",
            worst.heavier(),
            worst.words,
            trimmed(worst.lean(), 1),
            worst.case.name,
        );
        let required = context.limits.get("most");
        let mut finding = judged(NAME, Severity::Caution, "vehicle", (worst.lean(), required), message);
        if finding.severity < Severity::Met {
            finding.help = advice(context.model, &worst);
        }
        finding.spans = vec![vehicle.span];
        vec![finding]
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let all = context.figures.weighed().iter().zip(context.figures.cases());
        all.map(|(weighed, case)| sum(vehicle, weighed, case)).collect()
    }
}

/// An axle in a load case.
struct Axle<'a> {
    vehicle: &'a Vehicle,
    case: &'a LoadCase,
    rear: bool,
    words: &'static str,
    carries: Support,
    track: f64,
    sides: (f64, f64),
}

impl Axle<'_> {
    fn lean(&self) -> f64 {
        lean(self.sides)
    }

    fn heavier(&self) -> &'static str {
        if self.carries.side > 0.0 { "right" } else { "left" }
    }

    /// What a mass adds to the moment of this axle, kg mm.
    fn moment(&self, model: &Model, item: &Mass) -> f64 {
        let [front, rear] = on_supports(model, self.vehicle, item);
        if self.rear { rear.side } else { front.side }
    }
}

/// The axles with wheels.
fn axles<'a>(vehicle: &'a Vehicle, weighed: &Weighed, case: &'a LoadCase) -> impl Iterator<Item = Axle<'a>> {
    let front = weighed.front_sides.map(|sides| Axle {
        vehicle,
        case,
        rear: false,
        words: "front axle",
        carries: weighed.on_front,
        track: vehicle.front.track,
        sides,
    });
    let (words, carries, track, sides) = ("rear axle", weighed.on_rear, vehicle.rear.track, weighed.rear_sides);
    front.into_iter().chain([Axle { vehicle, case, rear: true, words, carries, track, sides }])
}

/// How far the heaviest tank or thing would have to go to the other side.
fn advice(model: &Model, worst: &Axle<'_>) -> Option<String> {
    let movable = |item: &&Mass| model.loads.iter().any(|load| load.name == item.name);
    let item = worst.case.aboard.iter().filter(movable).max_by(|a, b| a.mass.total_cmp(&b.mass))?;
    let aside = Mass { at: Point3 { y: item.at.y + 1.0, ..item.at }, ..item.clone() };
    let each = worst.moment(model, &aside) - worst.moment(model, item);
    let side = if worst.carries.side > 0.0 { "left" } else { "right" };
    (each > 0.0).then(|| {
        format!(
            "moving `{}` ({} kg) {} mm to the {side} would level it: {} kg mm / {} kg mm for each mm",
            item.name,
            trimmed(item.mass, 1),
            trimmed(worst.carries.side.abs() / each, 0),
            trimmed(worst.carries.side.abs(), 0),
            trimmed(each, 1)
        )
    })
}

fn sum(vehicle: &Vehicle, weighed: &Weighed, case: &LoadCase) -> Worked {
    let roll = match vehicle.subframe.and_then(|subframe| subframe.rolls_at()) {
        _ if vehicle.kind == VehicleKind::Trailer => "the coupling takes no roll".to_owned(),
        Some(at) => format!("that of the box is taken at {} mm, where the subframe holds it", trimmed(at, 0)),
        None => "each thing by its own lever".to_owned(),
    };
    let mut worked = Worked::new(format!("Load case `{}`", weighed.case)).given("moments about the middle", roll, "");
    for axle in axles(vehicle, weighed, case) {
        let (left, right) = axle.sides;
        let [load, side, track, left, right] =
            [axle.carries.load, axle.carries.side, axle.track, left, right].map(|value| trimmed(value, 1));
        worked = worked
            .given(&format!("moment on the {}", axle.words), format!("{side} kg mm"), "sum(m y), to the right")
            .step(
                "right wheels",
                ["load / 2 + moment / track", &format!("{load} / 2 + {side} / {track}")],
                format!("{right} kg"),
                "moments about the middle",
            )
            .step("left wheels", ["load - right", ""], format!("{left} kg"), "")
            .step("difference", ["|left - right| / (left + right)", ""], format!("{} %", trimmed(axle.lean(), 2)), "");
    }
    worked
}

#[cfg(test)]
mod tests;
