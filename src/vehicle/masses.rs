//! The mass list: everything that the vehicle carries, each with its place.

use crate::base::number::trimmed;
use crate::geometry::Point3;
use crate::model::{
    Arrangement, BoxSpace, CONTENTS, Model, Module, Need, Panel, Part, Person, PoseState, Vehicle, VehicleKind,
};
use crate::shell::{filling_mass, opening_centre, panel_of, surfaces};
use crate::source::Span;

/// What kind of thing has the mass.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// The bare vehicle.
    Vehicle,
    /// Panels, doors, windows.
    Shell,
    /// Sawn parts of the modules.
    Parts,
    /// What is fitted and bought in for the modules.
    Fittings,
    /// What nobody counts: glue, wire, pipes, paint.
    Allowance,
    /// What the modules are made to hold.
    Contents,
    /// Cargo.
    Cargo,
    /// Tanks and what is in them; the index is that of the load.
    Tank(usize),
    /// Things of `loads`; `true` for those that come aboard in the full case alone.
    Thing(bool),
    /// People; the index is their place in the order of seats.
    Person(usize),
}

impl Group {
    /// In words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Vehicle => "bare vehicle",
            Self::Shell => "shell",
            Self::Parts => "sawn parts",
            Self::Fittings => "fitted, bought in",
            Self::Allowance => "glue, wire, pipes, paint",
            Self::Contents => "contents",
            Self::Cargo => "cargo",
            Self::Tank(_) => "tanks",
            Self::Thing(_) => "other things",
            Self::Person(_) => "people",
        }
    }
}

/// A mass at a place.
#[derive(Debug, Clone, PartialEq)]
pub struct Mass {
    /// What.
    pub name: String,
    /// What kind of thing.
    pub group: Group,
    /// Mass, kg; of a tank, empty.
    pub mass: f64,
    /// Its middle, box coordinates.
    pub at: Point3,
    /// Where it is written, if it is.
    pub span: Option<Span>,
}

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

/// All masses of a layout but what is in tanks; people sit as they travel in an arrangement.
#[must_use]
pub fn masses(model: &Model, arrangement: Option<&Arrangement>) -> Vec<Mass> {
    let mut all = Vec::new();
    all.extend(model.vehicle.iter().flat_map(|vehicle| bare(model, vehicle)));
    all.extend(shell(model));
    let states: Vec<(&Module, &PoseState)> = arrangement.into_iter().flat_map(|one| model.states(one)).collect();
    for (index, module) in model.modules.iter().enumerate() {
        let state = states.iter().find(|(one, _)| std::ptr::eq(*one, module)).map(|(_, state)| *state);
        let moved = moved(module, state);
        let shifted = |mass: Mass| Mass {
            at: Point3 { x: mass.at.x + moved.x, y: mass.at.y + moved.y, z: mass.at.z + moved.z },
            ..mass
        };
        all.extend(of_module(model, index, module).into_iter().map(shifted));
    }
    all.extend(allowance(model, &all));
    all.extend(model.cargo.iter().map(|cargo| Mass {
        name: cargo.name.clone(),
        group: Group::Cargo,
        mass: cargo.mass * cargo.parcel.count as f64,
        at: hold(model, cargo.module),
        span: Some(cargo.span),
    }));
    all.extend(model.loads.iter().enumerate().map(|(index, load)| Mass {
        name: load.name.clone(),
        group: if load.tank.is_some() { Group::Tank(index) } else { Group::Thing(load.only_full) },
        mass: load.mass,
        at: load.at,
        span: Some(load.span),
    }));
    all.extend(people(model, arrangement));
    all
}

/// Sum of weights, and the middle of their places; nothing without a weight.
fn centre(all: impl Iterator<Item = (f64, Point3)>) -> Option<(f64, Point3)> {
    let (mut weight, mut sum) = (0.0, Point3::default());
    for (of, at) in all {
        weight += of;
        sum = Point3 { x: sum.x + of * at.x, y: sum.y + of * at.y, z: sum.z + of * at.z };
    }
    (weight > 0.0).then(|| (weight, Point3 { x: sum.x / weight, y: sum.y / weight, z: sum.z / weight }))
}

/// The layout's percent for what nobody counts, in the middle of what is built.
fn allowance(model: &Model, all: &[Mass]) -> Option<Mass> {
    let vehicle = model.vehicle.as_ref()?;
    let built = |item: &&Mass| matches!(item.group, Group::Shell | Group::Parts | Group::Fittings);
    let (mass, at) = centre(all.iter().filter(built).map(|item| (item.mass, item.at)))?;
    let (name, group) = (format!("allowance of {} %", trimmed(vehicle.allowance, 1)), Group::Allowance);
    let share = mass * vehicle.allowance / 100.0;
    (share > 0.0).then_some(Mass { name, group, mass: share, at, span: Some(vehicle.span) })
}

/// The bare vehicle, as its axles' loads say where its middle is.
fn bare(model: &Model, vehicle: &Vehicle) -> Option<Mass> {
    let mass = vehicle.bare();
    let x = vehicle.rear.bare * vehicle.wheelbase / mass - vehicle.box_from_front;
    let y = model.space.width / 2.0 - vehicle.box_right + vehicle.bare_right;
    let at = Point3 { x, y, z: vehicle.bare_height - vehicle.floor_height };
    let (name, group) = ("bare vehicle".to_owned(), Group::Vehicle);
    (mass > 0.0).then_some(Mass { name, group, mass, at, span: Some(vehicle.span) })
}

/// Panels less their openings, and what fills these. A van's own skin is part of the bare vehicle.
fn shell(model: &Model) -> Vec<Mass> {
    let space = &model.space;
    let van = model.is_van();
    let mass = |name: &str, mass: f64, at: Point3, span: Span| Mass {
        name: name.to_owned(),
        group: Group::Shell,
        mass,
        at,
        span: Some(span),
    };
    let mut all: Vec<Mass> = surfaces(space, &model.openings)
        .iter()
        .map(|surface| mass(&surface.name, surface.area * areal_mass(surface.panel, van), surface.centre, space.span))
        .collect();
    // What belongs to the vehicle is weighed with it.
    all.extend(model.openings.iter().filter(|opening| !opening.of_vehicle).map(|opening| {
        let filling = filling_mass(opening, panel_of(space, opening.wall));
        mass(&opening.name, filling, opening_centre(space, opening), opening.span)
    }));
    let middle = Point3 { z: space.height / 2.0, ..middle_of(model) };
    all.extend((!van).then(|| mass("edges of the panels", edges(space), middle, space.span)));
    all
}

/// Profile along each edge where two panels meet, kg/m; common practice, no source.
const PROFILE: f64 = 0.8;

/// What is outside of the panels' inside faces: where two meet, one reaches over the edge of the other, under a profile. Of panels without a mass
/// nothing is known.
fn edges(space: &BoxSpace) -> f64 {
    let (around, up) = space.edges();
    let wall = space.walls.thickness / 1000.0;
    let over = |panel: &Panel| panel.areal_mass * wall * around;
    let profiles = if space.walls.areal_mass > 0.0 { PROFILE * (2.0 * around + up) } else { 0.0 };
    over(&space.roof_panel) + over(&space.floor) + space.walls.areal_mass * wall * up + profiles
}

/// kg/m2 of a panel; of a van's, without the outer skin.
fn areal_mass(panel: &Panel, van: bool) -> f64 {
    let skin = panel.layers.last().and_then(|layer| {
        let material = crate::model::materials::material(&layer.material)?;
        Some(material.density * layer.thickness / 1000.0)
    });
    panel.areal_mass - skin.filter(|_| van).unwrap_or(0.0)
}

/// How far the middle of a module's solids lies from where it is in its first pose: a bed that is raised weighs up there. All of it is taken for
/// equally dense.
fn moved(module: &Module, state: Option<&PoseState>) -> Point3 {
    let middle = |state: &PoseState| {
        let bounds = state.solids.iter().map(|solid| solid.prism.bounds());
        centre(bounds.map(|bounds| (bounds.volume(), bounds.centre()))).map(|(_, at)| at)
    };
    let places = module.poses.first().and_then(middle).zip(state.and_then(middle));
    places.map_or_else(Point3::default, |(first, now)| Point3 {
        x: now.x - first.x,
        y: now.y - first.y,
        z: now.z - first.z,
    })
}

/// Parts where they stand (in the middle of the module where the symbol does not say), fittings and contents in its middle.
/// Where the layout lists cargo for a module, that is what it holds, and no contents beside it.
fn of_module(model: &Model, index: usize, module: &Module) -> Vec<Mass> {
    let mut all: Vec<Mass> = module.parts.iter().flat_map(|part| of_part(model, module, part)).collect();
    let listed = model.cargo.iter().any(|cargo| cargo.module == index);
    let items = module.masses.iter().filter(|item| !(listed && item.name == CONTENTS));
    all.extend(items.map(|item| Mass {
        name: format!("{}, {}", module.name, item.name),
        group: if item.name == CONTENTS { Group::Contents } else { Group::Fittings },
        mass: item.mass,
        at: item.at,
        span: Some(module.span),
    }));
    all
}

fn of_part(model: &Model, module: &Module, part: &Part) -> Vec<Mass> {
    let each = model.part_mass(part);
    let placed = part.places.iter().map(|place| place.solid.bounds().centre());
    let loose = (part.places.len()..part.count as usize).map(|_| module.extent.centre());
    let mass = |at| Mass {
        name: format!("{}, {}", module.name, part.name),
        group: Group::Parts,
        mass: each,
        at,
        span: Some(module.span),
    };
    placed.take(part.count as usize).chain(loose).map(mass).collect()
}

/// The middle of a module's storage space.
fn hold(model: &Model, module: usize) -> Point3 {
    let Some(module) = model.modules.get(module) else { return Point3::default() };
    let spaces = module.poses.iter().flat_map(|pose| &pose.spaces);
    let held = spaces.filter(|space| space.need == Need::Storage).map(|space| space.prism.bounds());
    held.reduce(|one, other| one.union(&other)).map_or_else(|| module.extent.centre(), |room| room.centre())
}

/// Sitting height of the middle of a person over the seat, mm: about where the body's centre is when seated; common practice.
const SEATED: f64 = 250.0;

/// The middle of the box's floor.
fn middle_of(model: &Model) -> Point3 {
    Point3 { x: model.space.length / 2.0, y: model.space.width / 2.0, z: 0.0 }
}

/// Everyone aboard on the seats for the road, then on the seats of an arrangement, who has none on the floor in the middle of the box.
/// Nobody rides in a trailer.
fn people(model: &Model, arrangement: Option<&Arrangement>) -> Vec<Mass> {
    let Some(vehicle) = model.vehicle.as_ref().filter(|vehicle| vehicle.kind != VehicleKind::Trailer) else {
        return Vec::new();
    };
    let raised = |at: Point3| Point3 { z: at.z + SEATED, ..at };
    let mut seats: Vec<(Point3, Option<&str>)> =
        vehicle.seats.iter().map(|seat| (raised(seat.at), seat.who.as_deref())).collect();
    for (module, state) in arrangement.into_iter().flat_map(|arrangement| model.states(arrangement)) {
        seats.extend(module_seats(module, state).into_iter().map(|(at, who)| (raised(at), who)));
    }
    let named: Vec<&str> = seats.iter().filter_map(|(_, who)| *who).collect();
    let mut others = model.people.iter().filter(|person| !named.contains(&person.name.as_str()));
    let seated = seats.iter().filter_map(|(at, who)| {
        let person = match who {
            Some(who) => model.people.iter().find(|person| person.name == *who),
            None => others.next(),
        };
        Some((person?, *at))
    });
    let mut aboard: Vec<(&Person, Point3)> = seated.collect();
    aboard.extend(others.map(|person| (person, Point3 { z: SEATED, ..middle_of(model) })));
    let mass = |(index, (person, at)): (usize, (&Person, Point3))| Mass {
        name: person.name.clone(),
        group: Group::Person(index),
        mass: person.mass,
        at,
        span: Some(person.span),
    };
    aboard.into_iter().enumerate().map(mass).collect()
}

/// Places to sit in a module with those who are named for them: first who names the space, then the others in order.
fn module_seats<'a>(module: &'a Module, state: &PoseState) -> Vec<(Point3, Option<&'a str>)> {
    let mut anywhere = module.riders.iter().filter(|rider| rider.space.is_none());
    let mut all = Vec::new();
    for space in state.spaces.iter().filter(|space| space.need == Need::Sitting) {
        let bounds = space.prism.bounds();
        let at = Point3 { z: bounds.z.0, ..bounds.centre() };
        let own = module.riders.iter().filter(|rider| rider.space.as_ref() == Some(&space.name));
        let places = space.people.max(1) as usize;
        let mut who: Vec<&str> = own.map(|rider| rider.who.as_str()).collect();
        let free = places.saturating_sub(who.len());
        who.extend(anywhere.by_ref().take(free).map(|rider| rider.who.as_str()));
        all.extend((0..places).map(|place| (at, who.get(place).copied())));
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::tolerance::SAME_LENGTH;
    use crate::model::testing::{model, space, vehicle};

    /// By the balance about the front axle: of 2,000 kg a quarter on the rear axle of a wheelbase of 4 m, so 1 m behind the
    /// front one, and 200 mm before a box that begins 1.2 m behind it; 30 mm to the right of the vehicle's middle, which lies
    /// 50 mm to the left of the box's.
    #[test]
    fn the_bare_vehicle_lies_where_its_axles_say() {
        let mut vehicle = Vehicle { wheelbase: 4000.0, box_from_front: 1200.0, box_right: 50.0, ..vehicle() };
        (vehicle.bare_right, vehicle.bare_height, vehicle.floor_height) = (30.0, 700.0, 1000.0);
        (vehicle.front.bare, vehicle.rear.bare) = (1500.0, 500.0);
        let model = model(space(4000.0, 2000.0, 2000.0));
        let found = bare(&model, &vehicle).map(|mass| (mass.mass, mass.at));
        let Some((mass, at)) = found else { panic!("no mass") };
        assert!((mass - 2000.0).abs() < SAME_LENGTH);
        assert!([at.x + 200.0, at.y - 980.0, at.z + 300.0].iter().all(|off| off.abs() < SAME_LENGTH), "{at:?}");
        (vehicle.front.bare, vehicle.rear.bare) = (0.0, 0.0);
        assert!(bare(&model, &vehicle).is_none(), "nothing weighs nothing");
    }

    /// By hand: 24 m around floor and roof, 8 m upright, walls of 40 mm: (8 + 8) x 0.04 x 12 + 8 x 0.04 x 8 of panel and 0.8 x 32 of profile.
    #[test]
    fn edges_are_wider_outside_than_inside() {
        assert!((edges(&space(4000.0, 2000.0, 2000.0)) - (7.68 + 2.56 + 25.6)).abs() < SAME_LENGTH);
    }
}
