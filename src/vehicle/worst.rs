//! The worst side: of all that may be aboard or not, what makes the wheels of an axle differ most.
//!
//! Difference over sum of an axle's wheels is a quotient of two sums that are linear in the share of each thing aboard, so it is
//! greatest where each share is 0 or 1. Which ones is found by Dinkelbach's method: with the best quotient so far, `q`, aboard is
//! what adds more to the difference than `q` times what it adds to the sum; that gives the next `q`, until it grows no more.

use super::masses::{Group, Mass};
use super::statics::{Support, on_supports};
use crate::base::tolerance::ROUNDING;
use crate::model::{Model, Vehicle, VehicleKind};

/// Rounds after which the search ends; it takes fewer than ten.
const MOST_ROUNDS: usize = 64;

/// A state in which an axle leans most.
pub(super) struct Worst {
    /// Share of each mass of the list that is aboard, of a tank what is in it.
    pub shares: Vec<f64>,
    /// Difference over sum, percent.
    pub lean: f64,
    /// In words: "the left wheels of the rear axle".
    pub wheels: String,
}

/// Of both axles and both sides the worst; `None` if nothing may be left out.
pub(super) fn worst_side(model: &Model, vehicle: &Vehicle, list: &[Mass]) -> Option<Worst> {
    let fixed: Vec<bool> = list.iter().map(|item| always(item.group)).collect();
    if fixed.iter().all(|fixed| *fixed) {
        return None;
    }
    let mut worst: Option<Worst> = None;
    for axle in [0, 1] {
        let (track, words) = match axle {
            0 => (vehicle.front.track, vehicle.kind.front_words()),
            _ => (vehicle.rear.track, "rear axle"),
        };
        if axle == 0 && vehicle.kind == VehicleKind::Trailer {
            continue;
        }
        let parts: Vec<Part> = list.iter().map(|item| Part::of(model, vehicle, item, axle)).collect();
        for (sign, side) in [(-1.0, "left"), (1.0, "right")] {
            let (shares, quotient) = greatest(&parts, &fixed, sign / track);
            let lean = 100.0 * quotient;
            if worst.as_ref().is_none_or(|known| lean > known.lean + ROUNDING) {
                worst = Some(Worst { shares, lean, wheels: format!("the {side} wheels of the {words}") });
            }
        }
    }
    worst
}

/// What is always aboard: the driver, too.
pub(super) fn always(group: Group) -> bool {
    match group {
        Group::Vehicle
        | Group::Shell
        | Group::Parts
        | Group::Fittings
        | Group::Allowance
        | Group::Thing(false)
        | Group::Person(0) => true,
        Group::Tank(_) | Group::Contents | Group::Cargo | Group::Thing(true) | Group::Person(_) => false,
    }
}

/// What a mass puts on an axle: for itself, and what may come on top.
struct Part {
    empty: Support,
    more: Support,
}

impl Part {
    fn of(model: &Model, vehicle: &Vehicle, item: &Mass, axle: usize) -> Self {
        let at = |mass: f64| on_supports(model, vehicle, &Mass { mass, ..item.clone() });
        let liquid = match item.group {
            Group::Tank(index) => model.loads.get(index).and_then(|load| load.tank),
            _ => None,
        };
        let (own, more) = match liquid {
            Some(tank) => (item.mass, tank.litres() * tank.density),
            None if always(item.group) => (item.mass, 0.0),
            None => (0.0, item.mass),
        };
        let [empty, more] = [own, more].map(|mass| at(mass).get(axle).copied().unwrap_or_default());
        Self { empty, more }
    }
}

/// The shares with the greatest quotient of `2 toward side` to load, and the quotient.
fn greatest(parts: &[Part], fixed: &[bool], toward: f64) -> (Vec<f64>, f64) {
    let sum = |shares: &[f64]| {
        let (mut load, mut side) = (0.0, 0.0);
        for (part, share) in parts.iter().zip(shares) {
            load += part.empty.load + part.more.load * share;
            side += part.empty.side + part.more.side * share;
        }
        if load > 0.0 { 2.0 * toward * side / load } else { f64::NEG_INFINITY }
    };
    let mut shares = vec![0.0; parts.len()];
    let mut best = sum(&shares);
    for _ in 0..MOST_ROUNDS {
        let adds = |part: &Part| 2.0 * toward * part.more.side - best * part.more.load > 0.0;
        let taken = parts.iter().zip(fixed);
        let next: Vec<f64> = taken.map(|(part, fixed)| f64::from(u8::from(!fixed && adds(part)))).collect();
        let quotient = sum(&next);
        if quotient <= best {
            break;
        }
        (shares, best) = (next, quotient);
    }
    (shares, best)
}

#[cfg(test)]
mod tests;
