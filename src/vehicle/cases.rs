//! Load cases: which masses are aboard, and how full the tanks are.

use super::masses::{Group, Mass, masses};
use crate::base::tolerance::ROUNDING;
use crate::geometry::Point3;
use crate::model::{Arrangement, Load, Model, OwnCase, Tank, VehicleKind};

/// A load case with everything that is aboard.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadCase {
    /// Name.
    pub name: String,
    /// What it is for, in words.
    pub says: String,
    /// What is aboard, tanks with what is in them.
    pub aboard: Vec<Mass>,
}

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
            Group::Tank(index) => return Some(self.filled(item, index, loads)),
            _ => 1.0,
        };
        (share > ROUNDING).then(|| Mass { mass: item.mass * share, ..item.clone() })
    }

    /// A tank with what is in it: the liquid lies in its lower part.
    fn filled(&self, item: &Mass, index: usize, loads: &[Load]) -> Mass {
        let Some(tank) = loads.get(index).and_then(|load| load.tank) else { return item.clone() };
        let share = self.fill.get(index).copied().unwrap_or(0.0);
        let (liquid, whole) = liquid(&tank, share, item.mass);
        let lower = item.at.z - tank.size[2] * (1.0 - share) / 2.0;
        let z = if whole > ROUNDING { (item.mass * item.at.z + liquid * lower) / whole } else { item.at.z };
        Mass { mass: whole, at: Point3 { z, ..item.at }, ..item.clone() }
    }
}

/// Mass of the liquid and of the whole tank, kg.
fn liquid(tank: &Tank, share: f64, empty: f64) -> (f64, f64) {
    let liquid = tank.litres() * tank.density * share;
    (liquid, empty + liquid)
}

/// All load cases of a layout with a vehicle: empty, running order, full, full with each tank at its other extreme, the
/// worst side, and the layout's own. None without a vehicle.
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
    let known = |recipe: &Recipe| extremes.iter().any(|(.., other)| other.fill == recipe.fill);
    if let Some(recipe) = worst_side(model, &full).filter(|recipe| !known(recipe)) {
        all.push(make("worst side", "full, with tanks filled so that the box leans most", &recipe));
    }
    all.extend(model.load_cases.iter().map(|own| own_case(model, own, &full)));
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

/// Full, with the tanks of the heavier side full and the others empty; nothing where that changes nothing.
fn worst_side(model: &Model, full: &Recipe) -> Option<Recipe> {
    let vehicle = model.vehicle.as_ref()?;
    let middle = model.space.width / 2.0 - vehicle.box_right;
    let list = masses(model, travelling(model));
    let dry = Recipe { fill: vec![0.0; model.loads.len()], ..full.clone() };
    let moment: f64 =
        list.iter().filter_map(|item| dry.take(item, &model.loads)).map(|item| item.mass * (item.at.y - middle)).sum();
    let lean = |right: bool| {
        let side =
            |load: &Load| if load.tank.is_some() { f64::from(u8::from((load.at.y > middle) == right)) } else { 0.0 };
        let fills = model.loads.iter().map(side);
        let fill: Vec<f64> = fills.collect();
        let water: f64 = model
            .loads
            .iter()
            .zip(&fill)
            .filter_map(|(load, share)| {
                load.tank.map(|tank| tank.litres() * tank.density * share * (load.at.y - middle))
            })
            .sum();
        ((moment + water).abs(), fill)
    };
    let (left, right) = (lean(false), lean(true));
    let fill = if left.0 > right.0 { left.1 } else { right.1 };
    let tanks = model.loads.iter().zip(fill.iter().zip(&full.fill)).filter(|(load, _)| load.tank.is_some());
    let differs = tanks.into_iter().any(|(_, (one, other))| one != other);
    differs.then(|| Recipe { fill, ..full.clone() })
}

#[cfg(test)]
mod tests;
