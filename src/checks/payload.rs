//! Whether the vehicle may be as heavy as it gets.
//!
//! # Computes
//! The mass of the heaviest load case against the gross mass, and what is left for people's things against the least that the vehicle's
//! `class` wants. A motor caravan: gross - running order - 75 kg for each person but the driver - `optional-equipment`, against
//! 10 x (people + outside length in metres) kg; people are those of the layout, or the seats for the road where these are more. A caravan:
//! gross - running order - `optional-equipment`, against 10 x length + 10 x berths + 30 kg, with the outside length of the box. Goods: nothing is
//! asked for; what is left is told. Running order is the layout's case of that name: everything built in, tanks by `fill`, the driver.
//!
//! A note lists what a living box usually has and nothing in the layout is named after.
//!
//! # Why
//! Water, food and clothes of people who live aboard for months weigh more than they look; what the papers leave for them
//! is decided when the box is built.
//!
//! # Limit
//! `gross` in `vehicle`: more is a fault. `least`: 100 % of the least payload; less is a caution.
//!
//! # Source
//! Motor caravans: Regulation (EU) 1230/2012, annex I, part A, 2.6.4.1.2, the formula as a forum quotes it word for word; what is taken off: the
//! same, article 2, from memory. Mass in running order: article 2(4), with driver, fuel at 90 % and liquids; whether fresh water is part of it is
//! told differently, so it is your input. Caravans: an older EN 1645-2, by a trade journal.
//!
//! # Change it
//! `limits: { payload: { least: 120, because: "..." } }`; `vehicle: { class: goods }`.

mod unweighed;

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::trimmed;
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Finding, Limit, Quantity, Requirement, Severity, SourceClass, Worked};
use crate::figures::axle_sums::PAPERS;
use crate::figures::berths::most_berths;
use crate::model::{Model, Vehicle, VehicleClass};
use crate::vehicle::{Weighed, outside};

/// The check `payload`.
pub struct Payload;

const NAME: &str = "payload";
static LIMITS: [Limit; 1] = [Limit::new(
    "least",
    Least(100.0),
    Quantity::Percent,
    SourceClass::Quoted,
    "Regulation (EU) 1230/2012, annex I, 2.6.4.1.2, for caravans an older EN 1645-2, both as others quote them",
)];
/// What the law counts for each person but the driver, kg.
const EACH_PERSON: f64 = 75.0;

impl Check for Payload {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "mass of the full vehicle against its gross mass, and what is left for its people"
    }

    fn manual(&self) -> String {
        page_of(include_str!("payload.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("a design aid: weigh the vehicle; its papers and the local authority decide")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let Some(figures) = context.model.vehicle.as_ref().and_then(|vehicle| figures(context, vehicle)) else {
            return Vec::new();
        };
        let span = figures.vehicle.span;
        let kg = |value: f64| trimmed(value, 0);
        let gross = figures.vehicle.gross;
        let limit = Requirement::new(Most(gross), Quantity::Mass, SourceClass::Published, PAPERS);
        let (case, mass) = (&figures.full.case, figures.full.total);
        let message = format!("the vehicle is {} kg in the case `{case}`, of {} kg at most", kg(mass), kg(gross));
        let whole = judged(NAME, Severity::Fault, "vehicle", (mass, limit), message);
        let left = figures.left();
        let spare = figures.least.as_ref().map(|least| {
            let percent = context.limits.get("least");
            let needed = least.wanted * percent.value() / 100.0;
            let message = format!("{} kg are left for what people bring; {} kg are wanted", kg(left), kg(needed));
            judged(NAME, Severity::Caution, "payload", (left, percent.of(needed, Quantity::Mass)), message)
        });
        let goods = figures.least.is_none().then(|| {
            let message = format!("{} kg are left for goods and who rides along", kg(left));
            Finding::new(NAME, Severity::Note, "payload", message).figure("left", left, Quantity::Mass)
        });
        let mut findings = with_tightest([Some(whole), spare].into_iter().flatten());
        findings.extend(goods);
        findings.extend(unweighed::note(NAME, context.model));
        findings.iter_mut().for_each(|finding| finding.spans = vec![span]);
        findings
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let Some(figures) = context.model.vehicle.as_ref().and_then(|vehicle| figures(context, vehicle)) else {
            return Vec::new();
        };
        let kg = |value: f64| format!("{} kg", trimmed(value, 1));
        let Figures { vehicle, full, running, people, .. } = figures;
        let worked = Worked::new("Payload")
            .given("gross mass", kg(vehicle.gross), "papers of the vehicle")
            .given(&format!("mass in the case `{}`", full.case), kg(full.total), "sum of all masses aboard")
            .given("mass in running order", kg(running), "Regulation (EU) 1230/2012, article 2(4)")
            .given("optional equipment", kg(vehicle.options), "the layout")
            .given("people but the driver", kg(people), "75 kg each; Regulation (EU) 1230/2012, article 2")
            .step("payload", ["gross - running order - options - people", ""], kg(figures.left()), "");
        let least = figures.least.into_iter();
        vec![least.fold(worked, |worked, least| {
            worked.step("least payload", [least.formula, &least.figures], kg(least.wanted), least.source)
        })]
    }
}

struct Figures<'a> {
    vehicle: &'a Vehicle,
    /// The heaviest case.
    full: &'a Weighed,
    /// Mass in running order, kg.
    running: f64,
    /// People but the driver, kg.
    people: f64,
    least: Option<LeastPayload>,
}

impl Figures<'_> {
    /// What is left for what people bring, kg.
    fn left(&self) -> f64 {
        self.vehicle.gross - self.running - self.vehicle.options - self.people
    }
}

/// The least payload of a class.
struct LeastPayload {
    wanted: f64,
    formula: &'static str,
    figures: String,
    source: &'static str,
}

fn figures<'a>(context: &Context<'a>, vehicle: &'a Vehicle) -> Option<Figures<'a>> {
    let (model, all) = (context.model, context.figures.weighed());
    let running = all.iter().find(|weighed| weighed.case == "running order")?.total;
    let full = all.iter().max_by(|a, b| a.total.total_cmp(&b.total))?;
    let seated = model.people.len().max(vehicle.seats.len());
    let motor_caravan = vehicle.class == VehicleClass::MotorCaravan;
    let people = if motor_caravan { EACH_PERSON * seated.saturating_sub(1) as f64 } else { 0.0 };
    let least = match vehicle.class {
        VehicleClass::MotorCaravan => Some(of_motor_caravan(seated, outside(model, vehicle).length)),
        VehicleClass::Caravan => Some(of_caravan(model)),
        VehicleClass::Goods => None,
    };
    Some(Figures { vehicle, full, running, people, least })
}

fn of_motor_caravan(people: usize, length: f64) -> LeastPayload {
    let metres = length / 1000.0;
    LeastPayload {
        wanted: 10.0 * (people as f64 + metres),
        formula: "10 (n + L)",
        figures: format!("10 ({people} + {})", trimmed(metres, 3)),
        source: "Regulation (EU) 1230/2012, annex I, 2.6.4.1.2, quoted; n people, L outside length in m",
    }
}

fn of_caravan(model: &Model) -> LeastPayload {
    let (metres, berths) = ((model.space.length + 2.0 * model.space.walls.thickness) / 1000.0, most_berths(model));
    LeastPayload {
        wanted: 10.0 * metres + 10.0 * berths as f64 + 30.0,
        formula: "10 L + 10 N + 30",
        figures: format!("10 x {} + 10 x {berths} + 30", trimmed(metres, 3)),
        source: "an older EN 1645-2, by a trade journal; L outside length of the box in m, N berths",
    }
}

#[cfg(test)]
mod tests;
