//! The things of a layout that rules are about, with their names and places.

use super::kinds::Kind;
use super::term::Thing;
use crate::diagnostic::{Finding, Subject};
use crate::geometry::{Box3, Prism};
use crate::model::{Arrangement, Load, Model, Module, Need, Opening, Part, PoseState, Solid, Space, Wall, Zone};
use crate::source::Span;
use kurbo::Rect;

/// A layout in one of its arrangements.
#[derive(Debug, Clone, Copy)]
pub(super) struct Here<'a> {
    pub model: &'a Model,
    pub arrangement: &'a Arrangement,
}

impl<'a> Here<'a> {
    pub fn module(&self, at: usize) -> Option<&'a Module> {
        self.model.modules.get(at)
    }

    pub fn state(&self, at: usize) -> Option<&'a PoseState> {
        self.module(at)?.poses.get(*self.arrangement.poses.get(at)?)
    }

    pub fn opening(&self, thing: Thing) -> Option<&'a Opening> {
        self.model.openings.get(thing.at).filter(|_| thing.kind == Kind::Opening)
    }

    pub fn zone(&self, thing: Thing) -> Option<&'a Zone> {
        self.model.zones.get(thing.at).filter(|_| thing.kind == Kind::Zone)
    }

    pub fn load(&self, thing: Thing) -> Option<&'a Load> {
        self.model.loads.get(thing.at).filter(|_| thing.kind == Kind::Load)
    }

    pub fn part(&self, thing: Thing) -> Option<&'a Part> {
        self.module(thing.at)?.parts.get(thing.inner).filter(|_| thing.kind == Kind::Part)
    }

    pub fn solid(&self, thing: Thing) -> Option<&'a Solid> {
        self.state(thing.at)?.solids.get(thing.inner).filter(|_| thing.kind == Kind::Solid)
    }

    pub fn space(&self, thing: Thing) -> Option<&'a Space> {
        let is_space = matches!(thing.kind, Kind::Berth | Kind::Seat);
        self.state(thing.at)?.spaces.get(thing.inner).filter(|_| is_space)
    }

    /// The module that a thing is, or is a part of.
    pub fn owner(&self, thing: Thing) -> Option<&'a Module> {
        let owned = matches!(thing.kind, Kind::Module | Kind::Part | Kind::Solid | Kind::Berth | Kind::Seat);
        self.module(thing.at).filter(|_| owned)
    }

    /// All things of a kind, in the order of the file.
    pub fn all(&self, kind: Kind) -> Vec<Thing> {
        let model = self.model;
        let count = |count: usize| (0..count).map(|at| Thing::new(kind, at, 0)).collect();
        match kind {
            Kind::Box => count(1),
            Kind::Module => count(model.modules.len()),
            Kind::Opening => count(model.openings.len()),
            Kind::Zone => count(model.zones.len()),
            Kind::Person => count(model.people.len()),
            Kind::Load => count(model.loads.len()),
            Kind::Tank => {
                let tanks = model.loads.iter().enumerate().filter(|(_, load)| load.tank.is_some());
                tanks.map(|(at, _)| Thing::new(kind, at, 0)).collect()
            }
            Kind::Part => {
                let of = |(at, module): (usize, &Module)| (0..module.parts.len()).map(move |part| (at, part));
                let all = model.modules.iter().enumerate().flat_map(of);
                all.map(|(at, part)| Thing::new(kind, at, part)).collect()
            }
            Kind::Solid => self.inner(kind, |state| (0..state.solids.len()).collect()),
            Kind::Berth => self.inner(kind, |state| spaces(state, Need::Lying)),
            Kind::Seat => self.inner(kind, |state| spaces(state, Need::Sitting)),
        }
    }

    fn inner(&self, kind: Kind, of: impl Fn(&PoseState) -> Vec<usize>) -> Vec<Thing> {
        let state = |at: usize| self.state(at).map(&of).unwrap_or_default();
        let all = (0..self.model.modules.len()).flat_map(|at| state(at).into_iter().map(move |inner| (at, inner)));
        all.map(|(at, inner)| Thing::new(kind, at, inner)).collect()
    }

    /// The thing of a kind that is called so.
    pub fn called(&self, kind: Kind, name: &str) -> Option<Thing> {
        let model = self.model;
        let at = match kind {
            Kind::Box => Some(0),
            Kind::Module => model.modules.iter().position(|one| one.name == name),
            Kind::Opening => model.openings.iter().position(|one| one.name == name),
            Kind::Zone => model.zones.iter().position(|one| one.name == name),
            Kind::Person => model.people.iter().position(|one| one.name == name),
            Kind::Load | Kind::Tank => model.loads.iter().position(|one| one.name == name),
            _ => None,
        };
        at.map(|at| Thing::new(kind, at, 0))
    }

    /// Its name, for people.
    pub fn name(&self, thing: Thing) -> String {
        let (first, second) = self.names(thing);
        if second.is_empty() { first } else { format!("{first} / {second}") }
    }

    /// Its name, or that of its module and its own.
    fn names(&self, thing: Thing) -> (String, String) {
        let own = |name: Option<&String>| name.cloned().unwrap_or_default();
        let inner = match thing.kind {
            Kind::Part => own(self.part(thing).map(|part| &part.name)),
            Kind::Solid => own(self.solid(thing).map(|solid| &solid.name)),
            Kind::Berth | Kind::Seat => own(self.space(thing).map(|space| &space.name)),
            _ => String::new(),
        };
        let first = match thing.kind {
            Kind::Box => "box".to_owned(),
            Kind::Opening => own(self.opening(thing).map(|opening| &opening.name)),
            Kind::Zone => own(self.zone(thing).map(|zone| &zone.name)),
            Kind::Person => own(self.model.people.get(thing.at).map(|person| &person.name)),
            Kind::Load | Kind::Tank => own(self.load(thing).map(|load| &load.name)),
            _ => own(self.module(thing.at).map(|module| &module.name)),
        };
        (first, inner)
    }

    /// What a finding about some things is named after: one or two of them, with their parts.
    pub fn subject(&self, things: &[Thing]) -> (Subject, Vec<String>) {
        let names: Vec<(String, String)> = things.iter().map(|thing| self.names(*thing)).collect();
        let parts = names.iter().map(|(_, inner)| inner.clone()).filter(|inner| !inner.is_empty()).collect();
        let subject = match names.as_slice() {
            [(one, _), (other, _)] if one != other => Subject::pair(one, other),
            [(one, _), ..] => Subject::from(one),
            [] => Subject::from("layout"),
        };
        (subject, parts)
    }

    /// A finding with what it is about told apart by the parts of the things.
    pub fn about(finding: Finding, parts: &[String]) -> Finding {
        parts.iter().fold(finding, |finding, part| finding.of_part(part))
    }

    /// Where it is written.
    pub fn span(&self, thing: Thing) -> Option<Span> {
        match thing.kind {
            Kind::Box => Some(self.model.space.span),
            Kind::Opening => self.opening(thing).map(|opening| opening.span),
            Kind::Zone => self.zone(thing).map(|zone| zone.span),
            Kind::Person => self.model.people.get(thing.at).map(|person| person.span),
            Kind::Load | Kind::Tank => self.load(thing).map(|load| load.span),
            _ => self.module(thing.at).map(|module| module.place_span),
        }
    }

    /// The bodies that it is made of in this arrangement.
    pub fn bodies(&self, thing: Thing) -> Vec<Prism> {
        let of_module = |at: usize| {
            let solids = self.state(at).map(|state| &state.solids);
            let bodies: Vec<Prism> = solids.into_iter().flatten().map(|solid| solid.prism.clone()).collect();
            let whole = || self.module(at).map(|module| Prism::from(module.extent)).into_iter().collect();
            if bodies.is_empty() { whole() } else { bodies }
        };
        match thing.kind {
            Kind::Box | Kind::Person => Vec::new(),
            Kind::Module => of_module(thing.at),
            Kind::Opening => self.opening(thing).map(|opening| self.hole(opening)).into_iter().collect(),
            Kind::Zone => self.zone(thing).map(|zone| self.column(zone.rect)).into_iter().collect(),
            Kind::Load | Kind::Tank => self.load(thing).map(|load| Prism::from(around(load))).into_iter().collect(),
            Kind::Part => {
                let places = self.part(thing).map(|part| &part.places).into_iter().flatten();
                places.map(|place| place.solid.clone()).collect()
            }
            Kind::Solid => self.solid(thing).map(|solid| solid.prism.clone()).into_iter().collect(),
            Kind::Berth | Kind::Seat => self.space(thing).map(|space| space.prism.clone()).into_iter().collect(),
        }
    }

    /// The smallest box around it; a module's is the room that it is given.
    pub fn bounds(&self, thing: Thing) -> Option<Box3> {
        if thing.kind == Kind::Module {
            return self.module(thing.at).map(|module| module.extent);
        }
        if thing.kind == Kind::Box {
            let space = &self.model.space;
            return Some(Box3 { x: (0.0, space.length), y: (0.0, space.width), z: (0.0, space.height) });
        }
        self.bodies(thing).iter().map(Prism::bounds).reduce(|all, one| all.union(&one))
    }

    /// The room over a part of the floor.
    fn column(&self, rect: Rect) -> Prism {
        let space = &self.model.space;
        let top = space.roof.chain().iter().map(|point| point.y).fold(space.height, f64::max);
        Prism::upright(rect, 0.0, top)
    }

    /// The hole of an opening in its panel, without thickness.
    fn hole(&self, opening: &Opening) -> Prism {
        let space = &self.model.space;
        let (along, up) = (opening.along, opening.up);
        let flat = |z: f64| Box3 { x: along, y: up, z: (z, z) };
        Prism::from(match opening.wall {
            Wall::Front => Box3 { x: (0.0, 0.0), y: along, z: up },
            Wall::Rear => Box3 { x: (space.length, space.length), y: along, z: up },
            Wall::Left => Box3 { x: along, y: (0.0, 0.0), z: up },
            Wall::Right => Box3 { x: along, y: (space.width, space.width), z: up },
            Wall::Roof => flat(space.roof.height_at(f64::midpoint(up.0, up.1))),
            Wall::Floor => flat(0.0),
        })
    }
}

fn spaces(state: &PoseState, need: Need) -> Vec<usize> {
    state.spaces.iter().enumerate().filter(|(_, space)| space.need == need).map(|(at, _)| at).collect()
}

/// The room that a load takes; a point where nothing says its size.
pub(super) fn around(load: &Load) -> Box3 {
    let size = load.size.or(load.tank.as_ref().map(|tank| tank.size)).unwrap_or_default();
    let range = |middle: f64, size: Option<&f64>| {
        let half = size.copied().unwrap_or(0.0) / 2.0;
        (middle - half, middle + half)
    };
    Box3 { x: range(load.at.x, size.first()), y: range(load.at.y, size.get(1)), z: range(load.at.z, size.get(2)) }
}
