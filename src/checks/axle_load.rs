//! What the axles carry in every load case.
//!
//! # Computes
//! For each load case, from moments about the axles: rear = sum(mass x X) / wheelbase with X from the front axle (from the
//! coupling of a trailer), front = sum of masses - rear. A group of axles is taken at its middle. Compared are the greatest
//! load of each axle with its limit, the least load of a coupling or axle with its `least`, the part of the mass on a
//! steering front axle in every case, and the part of a full trailer's mass on its coupling. `boxwright explain axle-load --in FILE` prints the sum with all figures.
//!
//! # Why
//! A front axle that is too light does not steer; a rear axle that is too heavy breaks springs, tyres and the law, and is
//! found out on a weighbridge when all is built.
//!
//! # Limit
//! `limit` and `least` of each axle in `vehicle`: a fault. `front-share`: 30 % of the mass on the front axle of a motor caravan,
//! `front-share-goods` 20 % of other vehicles with `class: goods`: a fault below. `nose-least` 4 % and `nose-most` 10 % of a trailer's mass:
//! a caution beyond; the plate of coupling, trailer and drawing vehicle with the least figure is the limit.
//!
//! # Source
//! The limits are those of the vehicle's papers. The shares of 30 and 20 % are those of EU rules on masses, from a secondary source; that
//! 30 % are for category M1 is from memory. Of a trailer public guides ask for 5 to 7 %, for 7 % and 4 % at least, or for 8 to 10 %.
//!
//! # Change it
//! `limits: { axle-load: { front-share: 22, because: "..." } }`.

use super::check::{Check, Context, page_of};
use super::words::{judged, with_tightest};
use crate::base::number::trimmed;
use crate::diagnostic::Bound::{Least, Most};
use crate::diagnostic::{Bound, Finding, Limit, Quantity, Requirement, Severity, SourceClass, Worked};
use crate::figures::axle_sums::{PAPERS, sum};
use crate::model::{Axle, Model, Vehicle, VehicleClass, VehicleKind};
use crate::source::Span;
use crate::vehicle::{LoadCase, Mass, Weighed};

/// The check `axle-load`.
pub struct AxleLoad;

const NAME: &str = "axle-load";
const fn share(name: &'static str, bound: Bound, source: &'static str) -> Limit {
    Limit::new(name, bound, Quantity::Percent, SourceClass::Quoted, source)
}
static LIMITS: [Limit; 4] = [
    share("front-share", Least(30.0), "EU rules on masses, category M1, from a secondary source"),
    share("front-share-goods", Least(20.0), "EU rules on masses, category N, from a secondary source"),
    share("nose-least", Least(4.0), "public guides on towing; they differ"),
    share("nose-most", Most(10.0), "public guides on towing; they differ"),
];
/// Things are moved by no more than this in advice, mm.
const MOST_MOVE: f64 = 400.0;

impl Check for AxleLoad {
    fn name(&self) -> &'static str {
        NAME
    }

    fn says(&self) -> &'static str {
        "load of each axle and coupling in every load case"
    }

    fn manual(&self) -> String {
        page_of(include_str!("axle_load.rs"))
    }

    fn caution(&self) -> Option<&'static str> {
        Some("a design aid: weigh the vehicle; its papers and the local authority decide")
    }

    fn limits(&self) -> &'static [Limit] {
        &LIMITS
    }

    fn run(&self, context: &Context<'_>) -> Vec<Finding> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let looked =
            Look { model: context.model, vehicle, cases: context.figures.cases(), weighed: context.figures.weighed() };
        let mut findings: Vec<Finding> = [true, false].into_iter().flat_map(|front| looked.axle(front)).collect();
        if vehicle.kind == VehicleKind::Trailer {
            findings.extend(looked.nose(context.limits.get("nose-least"), "nose-least"));
            findings.extend(looked.nose(context.limits.get("nose-most"), "nose-most"));
        } else {
            let (required, asks) = match vehicle.class {
                VehicleClass::Goods => (context.limits.get("front-share-goods"), "front-share-goods"),
                _ => (context.limits.get("front-share"), "front-share"),
            };
            findings.extend(looked.steering(required, asks));
        }
        with_tightest(findings)
    }

    fn worked(&self, context: &Context<'_>) -> Vec<Worked> {
        let Some(vehicle) = &context.model.vehicle else { return Vec::new() };
        let figures = context.figures;
        figures.cases().iter().zip(figures.weighed()).map(|(case, weighed)| sum(vehicle, case, weighed)).collect()
    }
}

struct Look<'a> {
    model: &'a Model,
    vehicle: &'a Vehicle,
    cases: &'a [LoadCase],
    weighed: &'a [Weighed],
}

impl Look<'_> {
    /// The findings on one axle: at its heaviest and at its lightest.
    fn axle(&self, front: bool) -> Vec<Finding> {
        let axle: &Axle = if front { &self.vehicle.front } else { &self.vehicle.rear };
        let subject = if front { self.vehicle.kind.front_words() } else { "rear axle" };
        let load = |weighed: &Weighed| if front { weighed.front } else { weighed.rear };
        let required = |bound| Requirement::new(bound, Quantity::Mass, SourceClass::Published, PAPERS);
        let mut found = Vec::new();
        let heaviest = self.weighed.iter().enumerate().max_by(|a, b| load(a.1).total_cmp(&load(b.1)));
        if let Some((at, weighed)) = heaviest {
            let (value, limit) = (load(weighed), required(Most(axle.limit)));
            let message = format!(
                "the {subject} carries {} kg in the case `{}`, of {} kg at most",
                trimmed(value, 0),
                weighed.case,
                trimmed(axle.limit, 0)
            );
            let over = value - axle.limit;
            let mut finding = judged(NAME, Severity::Fault, subject, (value, limit), message).asks("most");
            finding.help = self.cases.get(at).filter(|_| over > 0.0).and_then(|case| self.advice(case, front, over));
            found.push(finding);
        }
        let lightest = self.weighed.iter().min_by(|a, b| load(a).total_cmp(&load(b))).filter(|_| axle.least > 0.0);
        if let Some(weighed) = lightest {
            let value = load(weighed);
            let message = format!(
                "the {subject} carries only {} kg in the case `{}`, and wants {} kg",
                trimmed(value, 0),
                weighed.case,
                trimmed(axle.least, 0)
            );
            found.push(
                judged(NAME, Severity::Fault, subject, (value, required(Least(axle.least))), message).asks("least"),
            );
        }
        let place = self.vehicle.axle_spans.get(usize::from(!front)).copied().unwrap_or(self.vehicle.span);
        found.iter_mut().for_each(|finding| finding.spans = vec![place]);
        found
    }

    /// What moving the tank or thing with the longest lever would do.
    fn advice(&self, case: &LoadCase, front: bool, over: f64) -> Option<String> {
        let movable = |item: &&Mass| self.model.loads.iter().any(|load| load.name == item.name);
        let item = case.aboard.iter().filter(movable).max_by(|a, b| a.mass.total_cmp(&b.mass))?;
        let wanted = (over * self.vehicle.wheelbase / item.mass / 10.0).ceil() * 10.0;
        let by = wanted.min(MOST_MOVE);
        Some(format!(
            "moving `{}` ({} kg) {} mm to the {} would take {} kg off: {} kg x {} mm / {} mm",
            item.name,
            trimmed(item.mass, 1),
            trimmed(by, 0),
            if front { "rear" } else { "front" },
            trimmed(item.mass * by / self.vehicle.wheelbase, 1),
            trimmed(item.mass, 1),
            trimmed(by, 0),
            trimmed(self.vehicle.wheelbase, 0)
        ))
    }

    /// The case in which the front axle has the smallest part.
    fn steering(&self, required: Requirement, asks: &'static str) -> Option<Finding> {
        let least = self.weighed.iter().min_by(|a, b| a.front_share().total_cmp(&b.front_share()))?;
        let message = format!(
            "{} % of the mass are on the steering axle in the case `{}`",
            trimmed(least.front_share(), 1),
            least.case
        );
        let mut finding =
            judged(NAME, Severity::Fault, "steering", (least.front_share(), required), message).asks(asks);
        finding.spans = vec![self.front_span()];
        Some(finding)
    }

    /// The part of the full trailer's mass that rests on the coupling.
    fn nose(&self, required: Requirement, asks: &'static str) -> Option<Finding> {
        let full = self.weighed.iter().find(|weighed| weighed.case == "full")?;
        let message = format!(
            "{} % of the full trailer's {} kg rest on the coupling",
            trimmed(full.front_share(), 1),
            trimmed(full.total, 0)
        );
        let mut finding = judged(NAME, Severity::Caution, "nose", (full.front_share(), required), message).asks(asks);
        finding.spans = vec![self.front_span()];
        Some(finding)
    }

    fn front_span(&self) -> Span {
        self.vehicle.axle_spans.first().copied().unwrap_or(self.vehicle.span)
    }
}

#[cfg(test)]
mod tests;
