//! What stands around a move: solids of other modules, cutaways, walls, floor and roof, as seen along an axis.

use super::ground::loads;
use super::shell::shell;
use super::thing::Thing;
use crate::geometry::{Axis, Box3, Leaf, Polygon, Prism, common_bounds};
use crate::model::{Arrangement, Model, Module, Move, MoveKind, Opening, Swing, Swings, Wall};
use crate::source::Span;
use kurbo::{Point, Vec2};

/// All solids in an arrangement that meet `near`, but those of the module `without`; then the cutaways and the loads.
pub(crate) fn around<'a>(
    model: &'a Model,
    arrangement: &'a Arrangement,
    without: &str,
    near: &Box3,
) -> Vec<(Thing, &'a Prism)> {
    let mut found = fixed(model, arrangement, without, near);
    let near = loads(model).filter(|(_, room)| common_bounds(&room.bounds(), near).is_some());
    found.extend(near.map(|(load, room)| {
        (Thing { span: Some(load.span), ..Thing::of_shell(format!("the load `{}`", load.name)) }, room)
    }));
    found
}

/// The same without the loads.
pub(crate) fn fixed<'a>(
    model: &'a Model,
    arrangement: &'a Arrangement,
    without: &str,
    near: &Box3,
) -> Vec<(Thing, &'a Prism)> {
    let meets = |prism: &Prism| common_bounds(&prism.bounds(), near).is_some();
    let solids = model.solids_near(arrangement, *near).filter(|(module, _)| module.name != without);
    let solids = solids.map(|(module, solid)| (Thing::of_module(module, &solid.name), &solid.prism));
    let cutaways = model.space.cutaways.iter().filter(|cutaway| meets(&cutaway.prism)).map(|cutaway| {
        let thing = Thing { span: Some(cutaway.span), ..Thing::of_shell(cutaway.words()) };
        (thing, &cutaway.prism)
    });
    solids.chain(cutaways).collect()
}

/// A hinged leaf of a module or an opening, with what the `swing` check needs to know of it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Hinged<'a> {
    /// The module or opening it belongs to.
    pub owner: &'a str,
    /// The move of a module, by name.
    pub part: Option<String>,
    /// The leaf in words.
    pub says: String,
    /// Direction of the hinge line.
    pub axis: Axis,
    /// Range along the hinge line.
    pub along: (f64, f64),
    /// The leaf in the plane across the hinge line.
    pub leaf: Leaf,
    /// A door for people.
    pub walk_through: bool,
    /// The wall it hangs in.
    pub wall: Option<Wall>,
    /// Where it is written.
    pub spans: Vec<Span>,
}

impl<'a> Hinged<'a> {
    /// A hinged move of a module.
    pub fn of_module(module: &'a Module, part: &Move) -> Option<Self> {
        let MoveKind::Swing(swing) = &part.kind else { return None };
        let Swing { axis, hinge, along, length, thickness, shut, opens } = *swing;
        Some(Self {
            owner: &module.name,
            part: Some(part.name.clone()),
            says: format!("`{}` of `{}`", part.name, module.name),
            axis,
            along,
            leaf: Leaf { hinge, shut, opens, length, thickness },
            walk_through: part.walk_through,
            wall: None,
            spans: vec![module.place_span, part.span],
        })
    }

    /// The leaves of an opening in a wall that swing in.
    pub fn of_opening(model: &Model, opening: &'a Opening) -> Vec<Self> {
        Self::leaves(model, opening, Swings::In, 0.0)
    }

    /// The leaves of an opening in a wall that swing out, hinged at the outer face.
    pub fn outside(model: &Model, opening: &'a Opening) -> Vec<Self> {
        Self::leaves(model, opening, Swings::Out, model.space.walls.thickness)
    }

    /// The leaves that swing one way, hinged so far outside of the lining.
    fn leaves(model: &Model, opening: &'a Opening, swings: Swings, out: f64) -> Vec<Self> {
        let leaves = opening.leaves();
        let double = leaves.len() > 1;
        let named = |mut one: Self, leaf: &Opening| {
            if let Some(side) = leaf.hinge.filter(|_| double) {
                one.says = format!("the {} leaf of `{}`", side.name(), opening.name);
                one.part = Some(format!("{} leaf", side.name()));
            }
            one
        };
        let swinging = leaves.iter().filter(|leaf| leaf.swings == swings);
        swinging.filter_map(|leaf| Some(named(Self::hung(model, leaf, &opening.name, out)?, leaf))).collect()
    }

    fn hung(model: &Model, opening: &Opening, owner: &'a str, out: f64) -> Option<Self> {
        let (hinge, swings) = (opening.hinge?, opening.swings);
        let (x, y) = (Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0));
        let upright = matches!(hinge, Wall::Roof | Wall::Floor);
        let lengthwise = matches!(opening.wall, Wall::Left | Wall::Right);
        let axis = if !upright {
            Axis::Z
        } else if lengthwise {
            Axis::X
        } else {
            Axis::Y
        };
        let (inward, depth) = match opening.wall {
            Wall::Front => (x, -out),
            Wall::Rear => (-x, model.space.length + out),
            Wall::Left if upright => (x, -out),
            Wall::Left => (y, -out),
            Wall::Right if upright => (-x, model.space.width + out),
            Wall::Right => (-y, model.space.width + out),
            Wall::Roof | Wall::Floor => return None,
        };
        let toward = if swings == Swings::In { inward } else { -inward };
        let (range, along) = if upright { (opening.up, opening.along) } else { (opening.along, opening.up) };
        let from_low = matches!(hinge, Wall::Front | Wall::Left | Wall::Floor);
        let run = if inward.x == 0.0 { x } else { y };
        let (start, way) = if from_low { (range.0, run) } else { (range.1, -run) };
        let across = if inward.x == 0.0 { Point::new(start, depth) } else { Point::new(depth, start) };
        let leaf = Leaf {
            hinge: across,
            shut: way.angle().to_degrees(),
            opens: opening.opens.abs().copysign(way.cross(toward)),
            length: range.1 - range.0,
            thickness: model.space.walls.thickness,
        };
        let walk_through = opening.kind.is_door();
        let says = format!("the leaf of `{}`", opening.name);
        let (wall, spans) = (Some(opening.wall), vec![opening.span]);
        Some(Self { owner, part: None, says, axis, along, leaf, walk_through, wall, spans })
    }

    /// The box that the leaf may sweep.
    pub fn near(&self) -> Box3 {
        let (first, second) = self.axis.plane();
        let (reach, hinge) = (self.leaf.reach(), self.leaf.hinge);
        let across = |at: f64| (at - reach, at + reach);
        Box3::default().with(self.axis, self.along).with(first, across(hinge.x)).with(second, across(hinge.y))
    }

    /// Everything that the leaf may meet, as seen along its hinge line.
    pub fn obstacles(&self, model: &Model, arrangement: &Arrangement) -> (Vec<Thing>, Vec<Polygon>) {
        let without = if self.wall.is_none() { self.owner } else { "" };
        let mut found: Vec<(Thing, Polygon)> = Vec::new();
        for (thing, prism) in around(model, arrangement, without, &self.near()) {
            let shadow = prism.shadow(self.axis, self.along.0, self.along.1);
            found.extend(shadow.into_iter().map(|polygon| (thing.clone(), polygon)));
        }
        found.extend(shell(model, self.axis, self.along, self.wall));
        found.into_iter().unzip()
    }

    /// The leaf opened by an angle, in plan.
    pub fn plan(&self, angle: f64) -> Polygon {
        let outline = self.leaf.outline(angle);
        if self.axis == Axis::Z {
            return outline;
        }
        let bounds = outline.bounds();
        let (first, second) = self.axis.plane();
        let across = Box3::default().with(first, (bounds.x0, bounds.x1)).with(second, (bounds.y0, bounds.y1));
        Polygon::rect(across.with(self.axis, self.along).plan())
    }
}
