//! What is asked of one thing.

use super::judge::{Judge, Trouble, Value, Worth};
use super::kinds::{Field, Kind};
use super::term::Thing;
use super::things::{Here, around};
use crate::figures::berths::beds;
use crate::geometry::{Axis, Box3, Prism};
use crate::model::{Module, Opening, OpeningKind, Swings, Tag, Wall};
use crate::source::Span;

impl Judge<'_> {
    /// The value of a field; trouble where the thing has none.
    pub fn field(&mut self, thing: Thing, field: Field, span: Span) -> Worth {
        let value = match thing.kind {
            Kind::Module => self.here.module(thing.at).and_then(|module| of_module(self.here, thing.at, module, field)),
            Kind::Opening => self.here.opening(thing).and_then(|opening| of_opening(opening, field)),
            _ => of_other(self.here, thing, field),
        };
        value.or_else(|| of_place(self.here, thing, field)).ok_or_else(|| {
            let name = self.here.name(thing);
            let trouble = |message: String| missing(span, message);
            match field {
                Field::Zone => trouble(format!("`{name}` is in no zone")),
                Field::Hinge => trouble(format!("`{name}` has no hinge")),
                _ => trouble(format!("`{name}` says nothing of this")),
            }
        })
    }

    /// A figure that the symbol of a module exports.
    pub fn export(&self, thing: Thing, name: &str, span: Span) -> Worth {
        let state = self.here.state(thing.at);
        let found = state.and_then(|state| state.exports.iter().find(|(known, _)| known == name));
        found.map(|(_, figure)| Value::Number(*figure)).ok_or_else(|| {
            let module = self.here.module(thing.at);
            let symbol = module.map_or("", |module| module.symbol.as_str());
            let message = format!("`{}` has no `{name}`, as `{symbol}` exports none", self.here.name(thing));
            missing(span, message)
        })
    }

    /// Whether a thing has a solid with a tag.
    pub fn tagged(&self, thing: Thing, tag: Tag) -> bool {
        match thing.kind {
            Kind::Solid => self.here.solid(thing).is_some_and(|solid| solid.is(tag)),
            _ => self.here.state(thing.at).is_some_and(|state| state.solids.iter().any(|solid| solid.is(tag))),
        }
    }
}

fn missing(span: Span, message: String) -> Trouble {
    Trouble { span, message, help: "ask first: `where has(m.worktop)`".to_owned(), missing: true }
}

fn word(word: &str) -> Option<Value> {
    Some(Value::Word(word.to_owned()))
}

fn number(value: f64) -> Option<Value> {
    Some(Value::Number(value))
}

#[allow(clippy::cast_precision_loss, reason = "bounded far below 2^53")]
fn count(value: usize) -> Option<Value> {
    number(value as f64)
}

fn size(range: (f64, f64)) -> f64 {
    crate::base::number::micrometres(range.1 - range.0)
}

/// Along x or along y, whichever the module's run lies along, and across it.
fn sides(module: &Module) -> (f64, f64) {
    let (x, y) = (size(module.extent.x), size(module.extent.y));
    if matches!(module.faces, Wall::Front | Wall::Rear) { (y, x) } else { (x, y) }
}

fn of_module(here: Here<'_>, at: usize, module: &Module, field: Field) -> Option<Value> {
    match field {
        Field::Name => word(&module.name),
        Field::Run => number(sides(module).0),
        Field::Depth => number(sides(module).1),
        Field::Height => number(size(module.extent.z)),
        Field::Mass => number(here.model.parts_mass(module) + module.fitted_mass()),
        Field::Contents => number(module.contents_mass()),
        Field::Symbol => word(&module.symbol),
        Field::Group => word(module.symbol.split('/').next().unwrap_or_default()),
        Field::Faces => word(module.faces.name()),
        Field::Zone => module.zone.map(|zone| Value::Thing(Thing::new(Kind::Zone, zone, 0))),
        Field::Sleepers => {
            let own = beds(here.model, here.arrangement).into_iter().filter(|bed| bed.module.name == module.name);
            count(own.map(|bed| bed.sleepers.len()).sum())
        }
        Field::Parts => count(module.parts.iter().map(|part| part.count as usize).sum()),
        Field::Pose => here.state(at).and_then(|state| word(&state.name)),
        _ => None,
    }
}

fn of_opening(opening: &Opening, field: Field) -> Option<Value> {
    let (along, up) = (size(opening.along), size(opening.up));
    let upright = !opening.lies_flat();
    match field {
        Field::Name => word(&opening.name),
        Field::What => word(opening.kind.name()),
        Field::Wall => word(opening.wall.name()),
        Field::Run => number(along),
        Field::Depth => (!upright).then_some(Value::Number(up)),
        Field::Height => upright.then_some(Value::Number(up)),
        Field::Radius => number(opening.radius),
        Field::Hinge => opening.hinge.and_then(|side| {
            word(match side {
                Wall::Roof => "top",
                Wall::Floor => "bottom",
                side => side.name(),
            })
        }),
        Field::Swings => word(match opening.swings {
            Swings::In => "in",
            Swings::Out => "out",
            Swings::No => "no",
        }),
        Field::Opens => number(if opening.kind == OpeningKind::Vent { 0.0 } else { opening.opens }),
        Field::Escape => Some(Value::Truth(opening.escape)),
        Field::FreeArea => number(opening.free_area),
        _ => None,
    }
}

fn of_other(here: Here<'_>, thing: Thing, field: Field) -> Option<Value> {
    match thing.kind {
        Kind::Box => {
            let space = &here.model.space;
            match field {
                Field::Length => number(space.length),
                Field::Width => number(space.width),
                Field::Height => number(space.height),
                _ => None,
            }
        }
        Kind::Zone => {
            let zone = here.zone(thing)?;
            match field {
                Field::Name => word(&zone.name),
                Field::Purpose => word(zone.purpose.name()),
                Field::Length => number(zone.rect.width()),
                Field::Width => number(zone.rect.height()),
                Field::Area => number(zone.rect.area()),
                #[allow(clippy::cast_precision_loss, reason = "a level is a figure within the bounds of lengths")]
                Field::Level => number(zone.level as f64),
                _ => None,
            }
        }
        Kind::Person => {
            let person = here.model.people.get(thing.at)?;
            match field {
                Field::Name => word(&person.name),
                Field::Stature => number(person.stature),
                Field::Mass => number(person.mass),
                _ => None,
            }
        }
        Kind::Load | Kind::Tank => of_load(here, thing, field),
        Kind::Part => of_part(here, thing, field),
        _ => of_inner(here, thing, field),
    }
}

fn of_load(here: Here<'_>, thing: Thing, field: Field) -> Option<Value> {
    let load = here.load(thing)?;
    let sized = load.size.is_some() || load.tank.is_some();
    let side = |axis| sized.then(|| Value::Number(size(around(load).range(axis))));
    match field {
        Field::Name => word(&load.name),
        Field::Mass => number(load.mass),
        Field::Length => side(Axis::X),
        Field::Width => side(Axis::Y),
        Field::Height => side(Axis::Z),
        Field::Litres => load.tank.as_ref().and_then(|tank| number(tank.litres())),
        Field::Holds => load.tank.as_ref().and_then(|tank| word(crate::model::Word::name(tank.holds))),
        _ => None,
    }
}

fn of_part(here: Here<'_>, thing: Thing, field: Field) -> Option<Value> {
    let part = here.part(thing)?;
    let stock = here.model.stocks.get(part.stock);
    match field {
        Field::Name => word(&part.name),
        Field::Module => Some(Value::Thing(Thing::new(Kind::Module, thing.at, 0))),
        Field::Length => number(part.length),
        Field::Width => number(part.width),
        Field::Thickness => number(part.thickness),
        Field::Count => number(f64::from(part.count)),
        Field::Mass => number(here.model.part_mass(part)),
        Field::Material => stock.and_then(|stock| word(&stock.material)),
        Field::Stock => stock.and_then(|stock| word(&stock.name)),
        _ => None,
    }
}

/// A solid, a berth or a seat.
fn of_inner(here: Here<'_>, thing: Thing, field: Field) -> Option<Value> {
    if field == Field::Module {
        return Some(Value::Thing(Thing::new(Kind::Module, thing.at, 0)));
    }
    if let Some(solid) = here.solid(thing) {
        let bounds = solid.prism.bounds();
        return match field {
            Field::Name => word(&solid.name),
            Field::Length => number(size(bounds.x)),
            Field::Width => number(size(bounds.y)),
            Field::Height => number(size(bounds.z)),
            Field::Bought => Some(Value::Truth(solid.bought)),
            _ => None,
        };
    }
    let space = here.space(thing)?;
    let (x, y) = (size(space.prism.bounds().x), size(space.prism.bounds().y));
    let lies_along_y = space.along.map_or(y > x, |axis| axis == Axis::Y);
    let (long, wide) = if lies_along_y { (y, x) } else { (x, y) };
    match field {
        Field::Name => word(&space.name),
        Field::Length => number(long),
        Field::Width => number(wide),
        Field::People => number(f64::from(space.people.max(1))),
        _ => None,
    }
}

/// Edges and middles.
fn of_place(here: Here<'_>, thing: Thing, field: Field) -> Option<Value> {
    let middle = |range: (f64, f64)| crate::base::number::micrometres(f64::midpoint(range.0, range.1));
    let at = |of: fn(&Box3) -> f64| here.bounds(thing).map(|bounds| Value::Number(of(&bounds)));
    match field {
        Field::Front => at(|bounds| bounds.x.0),
        Field::Rear => at(|bounds| bounds.x.1),
        Field::Left => at(|bounds| bounds.y.0),
        Field::Right => at(|bounds| bounds.y.1),
        Field::Floor => at(|bounds| bounds.z.0),
        Field::Top => at(|bounds| bounds.z.1),
        Field::CentreX => here.bounds(thing).map(|bounds| Value::Number(middle(bounds.x))),
        Field::CentreY => here.bounds(thing).map(|bounds| Value::Number(middle(bounds.y))),
        _ => None,
    }
}

/// The bounds of some bodies.
pub(super) fn bounds_of(bodies: &[Prism]) -> Option<Box3> {
    bodies.iter().map(Prism::bounds).reduce(|all, one| all.union(&one))
}
