//! Load cases: which masses are aboard, and how full the tanks are.

use super::masses::{Group, LoadCase, Mass, masses};
use super::statics::weigh;
use super::worst::{always, worst_side};
use crate::base::tolerance::ROUNDING;
use crate::geometry::Point3;
use crate::model::{Arrangement, Holds, Load, Model, OwnCase, Tank, VehicleKind};

/// What is aboard in a case.
#[derive(Debug, Clone, PartialEq)]
struct Recipe {
    people: usize,
    contents: f64,
    cargo: bool,
    full_things: bool,
    /// Filled share of each load's tank.
    fill: Vec<f64>,
}

impl Recipe {
    /// The mass of one item of the list in this case; nothing if it is not aboard.
    fn take(&self, item: &Mass, loads: &[Load]) -> Option<Mass> {
        let share = match item.group {
            Group::Person(index) => f64::from(u8::from(index < self.people)),
            Group::Contents => self.contents,
            Group::Cargo => f64::from(u8::from(self.cargo)),
            Group::Thing(only_full) => f64::from(u8::from(!only_full || self.full_things)),
            Group::Tank(index) => {
                let share = self.fill.get(index).copied().unwrap_or(0.0);
                let tank = loads.get(index).and_then(|load| load.tank);
                return Some(tank.map_or_else(|| item.clone(), |tank| filled(item, &tank, share)));
            }
            _ => 1.0,
        };
        (share > ROUNDING).then(|| Mass { mass: item.mass * share, ..item.clone() })
    }
}

/// A tank with what is in it: the liquid lies in its lower part.
fn filled(item: &Mass, tank: &Tank, share: f64) -> Mass {
    let liquid = tank.litres() * tank.density * share;
    let (whole, lower) = (item.mass + liquid, item.at.z - tank.size[2] * (1.0 - share) / 2.0);
    let z = if whole > ROUNDING { (item.mass * item.at.z + liquid * lower) / whole } else { item.at.z };
    Mass { mass: whole, at: Point3 { z, ..item.at }, ..item.clone() }
}

/// All load cases of a layout with a vehicle: empty, running order, full, full with each tank at its other extreme, the
/// end of a trip, the layout's own, and the worst side. None without a vehicle.
#[must_use]
pub fn load_cases(model: &Model) -> Vec<LoadCase> {
    if model.vehicle.is_none() {
        return Vec::new();
    }
    let travel = travelling(model);
    let list = masses(model, travel);
    let make = |name: &str, says: &str, recipe: &Recipe| {
        let aboard = list.iter().filter_map(|item| recipe.take(item, &model.loads)).collect();
        LoadCase { name: name.to_owned(), says: says.to_owned(), aboard }
    };
    let fill = |at: usize| -> Vec<f64> {
        model.loads.iter().map(|load| load.tank.and_then(|tank| tank.fill.get(at).copied()).unwrap_or(0.0)).collect()
    };
    let none = Recipe { people: 0, contents: 0.0, cargo: false, full_things: false, fill: fill(0) };
    let running = Recipe { people: 1, fill: fill(1), ..none.clone() };
    let full = Recipe { people: usize::MAX, contents: 1.0, cargo: true, full_things: true, fill: fill(2) };
    let drawn = model.vehicle.as_ref().is_some_and(|vehicle| vehicle.kind == VehicleKind::Trailer);
    let mut all = vec![
        make("empty", "fitted out, nobody and nothing aboard", &none),
        make(
            "running order",
            if drawn { "tanks as in running order" } else { "the driver, tanks as in running order" },
            &running,
        ),
        make(
            "full",
            if drawn {
                "contents, cargo, tanks as travelling full"
            } else {
                "everybody, contents, cargo, tanks as travelling full"
            },
            &full,
        ),
    ];
    let extremes = extremes(model, &full);
    for (name, says, recipe) in &extremes {
        all.push(make(name, says, recipe));
    }
    if let Some(recipe) = end_of_trip(model, &full) {
        all.push(make("end of trip", "full, but fresh water used up and waste tanks full", &recipe));
    }
    all.extend(model.load_cases.iter().map(|own| own_case(model, own, &full)));
    let worst = worst_case(model, &list, &all);
    all.extend(worst);
    all
}

/// A load case of the layout's own.
fn own_case(model: &Model, own: &OwnCase, full: &Recipe) -> LoadCase {
    let people = own.people.unwrap_or(usize::MAX);
    let mut recipe = Recipe { people, contents: own.contents, cargo: own.cargo, ..full.clone() };
    for (tank, share) in &own.fill {
        if let Some(slot) = recipe.fill.get_mut(*tank) {
            *slot = *share;
        }
    }
    let poses = own.arrangement.and_then(|at| model.arrangements.get(at)).or_else(|| travelling(model));
    let aboard = masses(model, poses).iter().filter_map(|item| recipe.take(item, &model.loads)).collect();
    LoadCase { name: own.name.clone(), says: "of this layout".to_owned(), aboard }
}

/// The arrangement in which the vehicle drives: the one called `travel`, else the first.
#[must_use]
fn travelling(model: &Model) -> Option<&Arrangement> {
    model.arrangements.iter().find(|arrangement| arrangement.name == "travel").or(model.arrangements.first())
}

/// Full, with one tank at the extreme that it is not at.
fn extremes(model: &Model, full: &Recipe) -> Vec<(String, String, Recipe)> {
    let mut all = Vec::new();
    for (index, load) in model.loads.iter().enumerate().filter(|(_, load)| load.tank.is_some()) {
        let mut recipe = full.clone();
        let Some(share) = recipe.fill.get_mut(index) else { continue };
        let (other, word) = if *share > 0.5 { (0.0, "empty") } else { (1.0, "full") };
        *share = other;
        all.push((format!("{} {word}", load.name), format!("full, but the tank `{}` {word}", load.name), recipe));
    }
    all
}

/// The end of a trip: full, but fresh water used up and tanks of waste full; nothing without both.
fn end_of_trip(model: &Model, full: &Recipe) -> Option<Recipe> {
    let holds =
        |wanted: fn(Holds) -> bool| model.loads.iter().any(|load| load.tank.is_some_and(|tank| wanted(tank.holds)));
    let is_waste = |holds: Holds| matches!(holds, Holds::Grey | Holds::Black);
    if !(holds(|holds| holds == Holds::Fresh) && holds(is_waste)) {
        return None;
    }
    let mut recipe = full.clone();
    for (load, share) in model.loads.iter().zip(&mut recipe.fill) {
        match load.tank.map(|tank| tank.holds) {
            Some(Holds::Fresh) => *share = 0.0,
            Some(holds) if is_waste(holds) => *share = 1.0,
            _ => {}
        }
    }
    Some(recipe)
}

/// The state in which an axle leans most, where that is more than in the other cases.
fn worst_case(model: &Model, list: &[Mass], others: &[LoadCase]) -> Option<LoadCase> {
    let vehicle = model.vehicle.as_ref()?;
    let worst = worst_side(model, vehicle, list)?;
    let known = others.iter().map(|case| weigh(model, vehicle, case).lean()).fold(0.0, f64::max);
    let taken = list.iter().zip(&worst.shares).filter_map(|(item, share)| match item.group {
        Group::Tank(index) => {
            let tank = model.loads.get(index).and_then(|load| load.tank);
            Some(tank.map_or_else(|| item.clone(), |tank| filled(item, &tank, *share)))
        }
        group if always(group) => Some(item.clone()),
        _ => (*share > ROUNDING).then(|| item.clone()),
    });
    (worst.lean > known + ROUNDING).then(|| LoadCase {
        name: "worst side".to_owned(),
        says: format!("tanks full or empty, contents, cargo and people aboard or not, as {} carry most", worst.wheels),
        aboard: taken.collect(),
    })
}

#[cfg(test)]
mod tests;
