//! Sitting places with their seats, and what stands before and over them.

use super::ground::plan;
use super::overhead_room::Above;
use super::sides::{AROUND, Side, opposite};
use super::stretches::{Stretch, long, longest, meet, within, without};
use crate::base::tolerance::{NO_AREA, SAME_LENGTH};
use crate::model::{Arrangement, Model, Module, Need, PoseState, Solid, Space, Tag, Wall};
use kurbo::Rect;

/// Height of a seat that is not part of the layout, mm; common practice.
const LOOSE: f64 = 440.0;
/// Lower and upper edge of what knees meet, from the seat, mm; common practice.
const KNEES: (f64, f64) = (-50.0, 120.0);
/// A backrest no farther than this from the back of a seat belongs to it, mm; common practice.
const AT_THE_BACK: f64 = 50.0;
/// What is narrower than this stands between the knees, mm.
const POST: f64 = 100.0;

/// A sitting space with its seat.
pub(crate) struct Place<'a> {
    pub module: &'a Module,
    pub space: &'a Space,
    /// Height of the seat above the floor; `None` for a loose chair or stool.
    pub seat: Option<f64>,
    /// The edge in front.
    front: Side,
    /// From the back to the front edge, mm.
    pub depth: f64,
}

/// A table before or over a sitting place: its underside and top above the floor, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Table<'a> {
    pub module: &'a Module,
    pub z: Stretch,
}

/// All sitting places of an arrangement.
pub(crate) fn sitting_places<'a>(model: &'a Model, arrangement: &'a Arrangement) -> Vec<Place<'a>> {
    let sitting = |(module, state): (&'a Module, &'a PoseState)| {
        let spaces = state.spaces.iter().filter(|space| space.need == Need::Sitting);
        spaces.map(|space| place(model, arrangement, module, state, space)).collect::<Vec<_>>()
    };
    model.states(arrangement).flat_map(sitting).collect()
}

fn place<'a>(
    model: &'a Model,
    arrangement: &'a Arrangement,
    module: &'a Module,
    state: &'a PoseState,
    space: &'a Space,
) -> Place<'a> {
    let (rect, low) = (space.prism.bounds().plan(), space.prism.bounds().z.0);
    let front = Side::of(rect, faces(module, state, rect));
    let depth = if front.lengthwise() { rect.height() } else { rect.width() };
    let under = |solid: &Solid| {
        let bounds = solid.prism.bounds();
        solid.is(Tag::Seat) && bounds.z.1 <= low + SAME_LENGTH && bounds.plan().intersect(rect).area() > NO_AREA
    };
    let seats = model.solids(arrangement).filter(|(_, solid)| under(solid));
    let seat = seats.map(|(_, solid)| solid.prism.bounds().z.1).reduce(f64::max);
    Place { module, space, seat, front, depth }
}

/// Away from the backrest that lies along most of the space; else out of the module, or toward it from outside.
fn faces(module: &Module, state: &PoseState, rect: Rect) -> Wall {
    let backs: Vec<Rect> =
        state.solids.iter().filter(|s| s.is(Tag::Backrest)).map(|s| s.prism.bounds().plan()).collect();
    let leans = |side: &Side| {
        let touching = backs.iter().filter(|back| side.distance(**back).0.abs() <= SAME_LENGTH);
        let shared = touching.map(|back| {
            let shadow = side.shadow(*back);
            shadow.1.min(side.along.1) - shadow.0.max(side.along.0)
        });
        shared.fold(0.0, f64::max)
    };
    let leans = AROUND.map(|faces| (faces, leans(&Side::of(rect, faces))));
    let most = leans.into_iter().reduce(|best, next| if next.1 > best.1 + SAME_LENGTH { next } else { best });
    if let Some((back, _)) = most.filter(|(_, shared)| *shared > SAME_LENGTH) {
        return opposite(back);
    }
    if module.extent.plan().contains(rect.center()) { module.faces } else { opposite(module.faces) }
}

impl<'a> Place<'a> {
    /// Width for all who sit here, mm.
    pub fn width(&self) -> f64 {
        long(self.front.along)
    }

    /// Where people look who sit here.
    pub fn faces(&self) -> Wall {
        self.front.faces
    }

    /// The sitting space seen from above.
    pub fn plan(&self) -> Rect {
        self.space.prism.bounds().plan()
    }

    /// Height of the seat, or of a usual chair.
    fn height(&self) -> f64 {
        self.seat.unwrap_or(LOOSE)
    }

    /// How far a backrest behind it, over half of its width at least, reaches above the seat; 0 without one.
    pub fn back(&self, model: &Model, arrangement: &Arrangement) -> f64 {
        let behind = Side::of(self.plan(), opposite(self.front.faces));
        let backs = model.solids(arrangement).filter(|(_, solid)| solid.is(Tag::Backrest)).filter_map(|(_, solid)| {
            let bounds = solid.prism.bounds();
            let near = behind.distance(bounds.plan()).0.abs() <= AT_THE_BACK;
            let over = longest(within(behind.along, [behind.shadow(bounds.plan())])).map_or(0.0, long);
            (near && over + SAME_LENGTH >= self.width() / 2.0).then_some(bounds.z.1 - self.height())
        });
        backs.fold(0.0, f64::max)
    }

    /// How far from the back it is free for the knees, up to `reach`, over at least `width` at a stretch; and what is
    /// then in the way, if it is a module.
    pub fn knees(
        &self,
        model: &'a Model,
        arrangement: &'a Arrangement,
        reach: f64,
        width: f64,
    ) -> (f64, Option<&'a Module>) {
        let zone = self.front.outside(self.front.along, 0.0, reach - self.depth);
        let knees = (self.height() + KNEES.0, self.height() + KNEES.1);
        let (_, wall) = self.front.distance(plan(model));
        let mut met: Vec<(f64, Stretch, Option<&Module>)> = vec![(wall, self.front.along, None)];
        for (module, solid) in model.solids(arrangement) {
            let bounds = solid.prism.bounds();
            let shadow = self.front.shadow(bounds.plan());
            let table = solid.is(Tag::Table) && bounds.z.0 > self.height();
            let beyond = meet(bounds.z, knees) && bounds.plan().intersect(zone).area() > NO_AREA;
            if beyond && !table && long(shadow) >= POST {
                met.push((self.front.distance(bounds.plan()).0.max(0.0), shadow, Some(module)));
            }
        }
        met.sort_by(|a, b| a.0.total_cmp(&b.0));
        let width = width.min(self.width());
        for (index, (off, _, what)) in met.iter().enumerate() {
            let taken = met.iter().take(index + 1).map(|(_, shadow, _)| *shadow);
            let free = longest(without(self.front.along, taken)).map_or(0.0, long);
            if free + SAME_LENGTH < width {
                return ((self.depth + off).min(reach), *what);
            }
        }
        (reach, None)
    }

    /// The tables whose plan lies before or over the lap, up to `reach` from the back.
    pub fn tables(&self, model: &'a Model, arrangement: &'a Arrangement, reach: f64) -> Vec<Table<'a>> {
        let lap = self.front.outside(self.front.along, -self.depth, reach - self.depth);
        let over = |solid: &Solid| {
            let bounds = solid.prism.bounds();
            solid.is(Tag::Table) && bounds.z.0 > self.height() && bounds.plan().intersect(lap).area() > NO_AREA
        };
        let tables = model.solids(arrangement).filter(|(_, solid)| over(solid));
        tables.map(|(module, solid)| Table { module, z: solid.prism.bounds().z }).collect()
    }

    /// Height over the seat, but for tables, and the module that is so low.
    pub fn headroom(&self, model: &'a Model, arrangement: &'a Arrangement) -> (f64, Option<&'a Module>) {
        let counts = |solid: &Solid| !solid.is(Tag::Table);
        Above::new(model, arrangement, self.plan(), self.height(), counts).least()
    }
}
