//! A sliding move in its place: how far it goes among what stands around it.

use crate::base::tolerance::{GREATEST_LENGTH, SAME_LENGTH};
use crate::checks::check::Context;
use crate::figures::around::around;
use crate::figures::panel::clear;
use crate::figures::shell::wall_name;
use crate::figures::thing::Thing;
use crate::geometry::{Axis, Box3, Met, Prism, Roof, Travel, overlap, swept, travel};
use crate::model::{Arrangement, Model, Module, Move, Opening, OpeningKind, Slide as Sliding, Wall};
use kurbo::Point;

const FAR: (f64, f64) = (-GREATEST_LENGTH, GREATEST_LENGTH);
const EVERYWHERE: Box3 = Box3 { x: FAR, y: FAR, z: FAR };

/// One sliding move in one arrangement.
pub(super) struct Place<'a> {
    pub context: &'a Context<'a>,
    pub arrangement: &'a Arrangement,
    pub module: &'a Module,
    pub part: &'a Move,
    pub sliding: &'a Sliding,
}

impl Place<'_> {
    /// Solids of its own module that it does not lie in when it is shut.
    pub fn own(&self) -> Vec<(Thing, &Prism)> {
        let shut = Prism::from(self.sliding.body);
        let moves = self.context.model.moves(self.arrangement).filter(|(module, _)| module.name == self.module.name);
        let first: Vec<Prism> =
            moves.filter(|(_, part)| self.sliding.is_after(&part.name)).map(|(_, part)| part.shut()).collect();
        let own = self.context.model.solids(self.arrangement).filter(|(module, _)| module.name == self.module.name);
        let lies_in = |solid: &Prism| first.iter().chain([&shut]).any(|shut| overlap(solid, shut).is_some());
        let before = own.filter(|(_, solid)| !lies_in(&solid.prism));
        before.map(|(module, solid)| (Thing::of_module(module, &solid.name), &solid.prism)).collect()
    }

    /// Whether it is used from outside, or goes out through an opening of its wall that its box fits.
    pub fn goes_out(&self) -> bool {
        self.module.used_outside || self.fits_through()
    }

    /// Whether its box fits an opening of the wall that it goes to, of which the layout or the symbol says that it goes through.
    fn fits_through(&self) -> bool {
        let (axis, body) = (self.sliding.axis, &self.sliding.body);
        let wall = match (axis, self.sliding.travel < 0.0) {
            (Axis::X, true) => Wall::Front,
            (Axis::X, false) => Wall::Rear,
            (Axis::Y, true) => Wall::Left,
            (Axis::Y, false) => Wall::Right,
            (Axis::Z, _) => return false,
        };
        let kinds = [OpeningKind::Door, OpeningKind::Hatch, OpeningKind::PassThrough];
        let openings = &self.context.model.openings;
        let named = self.module.through.and_then(|index| openings.get(index));
        let meant = |opening: &&Opening| {
            let own = named.is_some_and(|named| named.name == opening.name);
            opening.wall == wall && (own || self.sliding.through && kinds.contains(&opening.kind))
        };
        let holes = openings.iter().filter(meant);
        let across = body.across(axis).inflate(-SAME_LENGTH, -SAME_LENGTH);
        holes.map(clear).any(|hole| hole.union(across) == hole)
    }

    pub fn go(&self, body: &Box3, way: f64, roof: &Roof, own: &[(Thing, &Prism)]) -> (Travel, Option<Thing>) {
        let (model, axis) = (self.context.model, self.sliding.axis);
        let near = around(model, self.arrangement, &self.module.name, &swept(body, axis, way));
        let (things, prisms): (Vec<Thing>, Vec<_>) = near.into_iter().chain(own.iter().cloned()).unzip();
        let walls = if self.fits_through() { Box3 { z: (0.0, f64::MAX), ..EVERYWHERE } } else { inside(model) };
        let reached = travel(body, axis, way, &walls, roof, &prisms);
        let thing = reached.met.and_then(|met| self.thing(met, things, way));
        (reached, thing)
    }

    fn thing(&self, met: Met, things: Vec<Thing>, way: f64) -> Option<Thing> {
        let shell = |wall| Some(Thing { says: wall_name(wall).to_owned(), module: None, span: None });
        match met {
            Met::Obstacle(index) => things.into_iter().nth(index),
            Met::Roof => shell(Wall::Roof),
            Met::Wall => shell(match (self.sliding.axis, way < 0.0) {
                (Axis::X, true) => Wall::Front,
                (Axis::X, false) => Wall::Rear,
                (Axis::Y, true) => Wall::Left,
                (Axis::Y, false) => Wall::Right,
                (Axis::Z, true) => Wall::Floor,
                (Axis::Z, false) => Wall::Roof,
            }),
        }
    }
}

/// No roof: how high it is over who stands there is looked at by itself.
pub(super) fn sky() -> Roof {
    Roof::Line(vec![Point::new(-GREATEST_LENGTH, GREATEST_LENGTH), Point::new(GREATEST_LENGTH, GREATEST_LENGTH)])
}

/// The box, up to any height: the roof is looked at by itself.
fn inside(model: &Model) -> Box3 {
    Box3 { x: (0.0, model.space.length), y: (0.0, model.space.width), z: (0.0, f64::MAX) }
}
