//! The walkable ground of an arrangement: what takes room from the floor, and how wide a disc gets about on the rest.
//!
//! Walkable is the floor of the box without every solid and cutaway that reaches into the walking volume, from the step
//! height to the tallest person's height. What is lower can be stepped on, what hangs higher can be walked under (if
//! there is headroom). A door continues the floor outward by one and a half times its width, as wide as its lining leaves it, so that a person comes in
//! through it; a person's way starts 0.75 of its width outside. A gap of 3 mm or less between two upright solids of a
//! module that begin and end in line counts as closed.

use crate::base::content::Key;
use crate::base::memo::Memo;
use crate::base::once::Once;
use crate::base::tolerance::{GREATEST_LENGTH, NO_AREA, SAME_LENGTH};
use crate::geometry::{Axis, Box3, Clearance, End, Polygon, Prism, Region, Ways, Widest, common_bounds};
use crate::model::{Arrangement, Load, Model, Opening, PoseState, Space, Wall};
use kurbo::{Point, Rect, Vec2};
use std::sync::Arc;

/// What is no higher than this above the floor can be stepped on, mm; common practice.
pub const STEP: f64 = 230.0;

/// Height of the shoulders as a share of the stature: 1,242 of 1,525 mm to 1,546 of 1,870 mm (ANSUR II).
pub const SHOULDER: f64 = 0.82;

/// A gap between two solids of a module that counts as closed: the air between two fronts, mm; common practice.
const CLOSED: f64 = 3.0;

/// Half the width of the slit that stands for a line, and how far it goes beyond its ends: some steps of the grid, mm.
const SLIT: f64 = 0.01;

/// A straight line over a narrow place, from border to border.
pub(crate) type Line = (Point, Point);

/// A way found, with the number of the door it comes from where doors are asked for.
pub(crate) type Found = Option<(usize, Widest)>;

/// The ground of one arrangement. Its clearance takes its time to work out, and is when it is asked for.
#[derive(Debug, Default)]
pub(crate) struct Ground {
    /// What each module, then each cutaway, then each load inside takes of the floor.
    pub taken: Vec<Region>,
    /// The floor of the box without what is taken and without the doors' outside.
    pub inside: Region,
    /// The same with the doors' outside.
    pub walkable: Region,
    /// Where people stand outside the doors.
    doorsteps: Vec<Point>,
    clearance: Once<Clearance>,
    ways_in: Once<Ways>,
}

impl Ground {
    /// The ground of an arrangement, from the memo if anything equal was ever walked on.
    pub fn known(model: &Model, arrangement: &Arrangement, memo: &Memo) -> Arc<Self> {
        Self::up_to(model, arrangement, model.tallest(), memo)
    }

    /// The ground for those who stoop below what hangs lower than they are; `None` where nothing hangs so.
    pub fn stooped(model: &Model, arrangement: &Arrangement, memo: &Memo) -> Option<Arc<Self>> {
        let (top, shoulder) = (model.tallest(), model.tallest() * SHOULDER);
        let solids = model.solids(arrangement).map(|(_, solid)| &solid.prism);
        let cutaways = model.space.cutaways.iter().map(|cutaway| &cutaway.prism);
        let hangs = |prism: &Prism| (shoulder..top).contains(&prism.bounds().z.0);
        solids.chain(cutaways).any(hangs).then(|| Self::up_to(model, arrangement, shoulder, memo))
    }

    fn up_to(model: &Model, arrangement: &Arrangement, top: f64, memo: &Memo) -> Arc<Self> {
        let (modules, cutaways) = (standing(model, arrangement, top), &model.space.cutaways);
        let loads: Vec<&Prism> = loads(model).map(|(_, room)| room).collect();
        let cutaways: Vec<&Prism> = cutaways.iter().map(|cutaway| &cutaway.prism).collect();
        let doors: Vec<Rect> = doors(model).filter_map(|door| outside(model, door)).collect();
        let key = Key::of(&((plan(model), top), (&modules, &cutaways, &loads), &doors));
        memo.get("ground", key, || {
            let modules = modules.iter().map(|prisms| taken(prisms, top));
            let others = cutaways.iter().chain(&loads).map(|prism| taken(&[prism], top));
            Self::new(plan(model), modules.chain(others).collect(), &doors)
        })
    }

    fn new(plan: Rect, taken: Vec<Region>, doors: &[Rect]) -> Self {
        let inside = Region::rect(plan).subtract(&Region::all(taken.iter().cloned()));
        let notches = doors.iter().copied().map(Region::rect);
        let walkable = Region::all(notches.chain([inside.clone()]));
        let doorsteps = doors.iter().map(|outside| outside.center()).collect();
        Self { taken, inside, walkable, doorsteps, ..Self::default() }
    }

    /// How wide a disc gets about.
    pub fn clearance(&self) -> &Clearance {
        self.clearance.get(|| Clearance::new(&self.walkable))
    }

    /// The ways from outside all doors.
    pub fn ways_in(&self) -> &Ways {
        self.ways_in.get(|| self.clearance().ways_from(&self.doorsteps()))
    }

    /// Where people stand outside the doors.
    pub fn doorsteps(&self) -> Vec<End> {
        self.doorsteps.iter().copied().map(End::Point).collect()
    }

    /// Whether every way from one of some ends to another one crosses one of some straight lines: then none is wider than
    /// the longest of them. Lines that begin or end on walkable ground shut off nothing.
    pub fn apart(&self, from: &[End], to: &End, lines: &[Line]) -> bool {
        let slits: Vec<Polygon> = lines.iter().filter_map(|line| self.slit(*line)).collect();
        if slits.is_empty() {
            return false;
        }
        let touches = |part: &Region, end: &End| match end {
            End::Point(point) => part.contains(*point),
            End::Area(area) => !part.intersect(area).is_empty(),
        };
        let cut = self.walkable.subtract(&Region::new(&slits));
        let mut reached = cut.parts().filter(|part| from.iter().any(|end| touches(part, end)));
        !reached.any(|part| touches(&part, to))
    }

    /// A thin strip over a line and a little beyond its ends, if both lie off the walkable ground.
    fn slit(&self, (a, b): Line) -> Option<Polygon> {
        let along = (b - a) / a.distance(b).max(f64::MIN_POSITIVE) * SLIT;
        let side = Vec2::new(-along.y, along.x);
        let (a, b) = (a - along, b + along);
        let off = [a, b].iter().all(|end| !self.walkable.contains(*end));
        off.then(|| Polygon::new(vec![a + side, a - side, b - side, b + side]))
    }
}

/// Its regions say all: clearance and ways follow from them.
impl PartialEq for Ground {
    fn eq(&self, other: &Self) -> bool {
        self.taken == other.taken && self.walkable == other.walkable
    }
}

/// The clearance of a region that is not the ground itself.
pub(super) fn clearance(region: &Region, memo: &Memo) -> Arc<Clearance> {
    memo.get("clearance", Key::of(region), || Clearance::new(region))
}

/// The loads that always stand inside the box, with their room.
pub(crate) fn loads(model: &Model) -> impl Iterator<Item = (&Load, &Prism)> {
    let space = &model.space;
    let inside = Box3 { x: (0.0, space.length), y: (0.0, space.width), z: (0.0, GREATEST_LENGTH) };
    let aboard = model.loads.iter().filter(|load| !load.only_full);
    let rooms = aboard.filter_map(|load| Some((load, load.room.as_ref()?)));
    rooms.filter(move |(_, room)| common_bounds(&room.bounds(), &inside).is_some())
}

/// What each module puts into the walking volume.
fn standing<'a>(model: &'a Model, arrangement: &'a Arrangement, top: f64) -> Vec<Vec<&'a Prism>> {
    let reaches = |prism: &&Prism| {
        let (low, high) = prism.bounds().z;
        low < top && high > STEP
    };
    let of = |(_, state): (_, &'a PoseState)| state.solids.iter().map(|solid| &solid.prism).filter(reaches).collect();
    model.states(arrangement).map(of).collect()
}

fn taken(prisms: &[&Prism], top: f64) -> Region {
    let gaps = gaps(prisms, top);
    Region::footprints(prisms.iter().copied().chain(&gaps), STEP, top)
}

/// What fills the gaps between upright solids that stand side by side: a row of fronts is one straight edge of the floor
/// then, and a comb of a thousand teeth a rectangle. Nothing wider than 50 mm becomes narrower by more than 0.05 mm, which
/// is how far a disc would reach into the gap.
fn gaps(prisms: &[&Prism], top: f64) -> Vec<Prism> {
    let stands = |prism: &&&Prism| prism.axis == Axis::Z && prism.low < top && prism.high > STEP;
    let rect = |prism: &&Prism| {
        let bounds = prism.outline.bounds();
        (prism.outline.points().len() == 4 && prism.outline.area() >= bounds.area() - NO_AREA).then_some(bounds)
    };
    let rects: Vec<Rect> = prisms.iter().filter(stands).filter_map(rect).collect();
    let mut found = Vec::new();
    for turn in [|r: Rect| r, |r: Rect| Rect::new(r.y0, r.x0, r.y1, r.x1)] {
        let mut row: Vec<Rect> = rects.iter().map(|rect| turn(*rect)).collect();
        row.sort_by(|a, b| a.y0.total_cmp(&b.y0).then(a.y1.total_cmp(&b.y1)).then(a.x0.total_cmp(&b.x0)));
        for (a, b) in row.iter().zip(row.iter().skip(1)) {
            let in_line = (a.y0 - b.y0).abs() <= SAME_LENGTH && (a.y1 - b.y1).abs() <= SAME_LENGTH;
            if in_line && b.x0 > a.x1 && b.x0 - a.x1 <= CLOSED + SAME_LENGTH {
                found.push(Prism::upright(turn(Rect::new(a.x1, a.y0, b.x0, a.y1)), STEP, top));
            }
        }
    }
    found
}

/// The floor of the box.
pub(crate) fn plan(model: &Model) -> Rect {
    Rect::new(0.0, 0.0, model.space.length, model.space.width)
}

/// The doors that people come in by.
pub(crate) fn doors(model: &Model) -> impl Iterator<Item = &Opening> {
    model.openings.iter().filter(|opening| opening.kind.is_door() && outside(model, opening).is_some())
}

/// All that the spaces cover, seen from above.
pub(crate) fn spread<'a>(spaces: impl IntoIterator<Item = &'a Space>) -> Region {
    Region::all(spaces.into_iter().map(|space| {
        let (low, high) = space.prism.bounds().z;
        Region::footprint(&space.prism, low, high)
    }))
}

/// The floor's continuation through an opening in a wall, as wide as its lining leaves it and one and a half times its run
/// deep; `None` in roof or floor.
pub(crate) fn outside(model: &Model, opening: &Opening) -> Option<Rect> {
    let (low, high) = opening.along;
    let deep = 1.5 * (high - low);
    let lining = opening.lining.min((high - low) / 2.0);
    let (from, to) = (low + lining, high - lining);
    let Rect { x0, y0, x1, y1 } = plan(model);
    match opening.wall {
        Wall::Front => Some(Rect::new(x0 - deep, from, x0, to)),
        Wall::Rear => Some(Rect::new(x1, from, x1 + deep, to)),
        Wall::Left => Some(Rect::new(from, y0 - deep, to, y0)),
        Wall::Right => Some(Rect::new(from, y1, to, y1 + deep)),
        Wall::Roof | Wall::Floor => None,
    }
}

/// Where a person stands outside a door.
pub(crate) fn doorstep(model: &Model, door: &Opening) -> End {
    End::Point(outside(model, door).unwrap_or(Rect::ZERO).center())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn narrow_gaps_in_a_row_are_closed_and_others_stay() {
        let block = |x0: f64, x1: f64| Prism::upright(Rect::new(x0, 0.0, x1, 500.0), 100.0, 900.0);
        let row = [block(0.0, 397.0), block(400.0, 800.0), block(803.1, 1000.0)];
        let floor = taken(&row.iter().collect::<Vec<_>>(), 1800.0);
        assert_eq!(floor.contours().count(), 2);
        assert!((floor.area() - 500.0 * (800.0 + 196.9)).abs() < NO_AREA);
        let turned: Vec<Prism> = [(0.0, 400.0), (402.0, 900.0)]
            .map(|(y0, y1)| Prism::upright(Rect::new(0.0, y0, 500.0, y1), 0.0, 900.0))
            .to_vec();
        assert_eq!(taken(&turned.iter().collect::<Vec<_>>(), 1800.0).contours().count(), 1);
        let low = Prism { high: STEP, ..block(400.0, 800.0) };
        assert_eq!(taken(&[&row[0], &low], 1800.0).area(), 500.0 * 397.0, "what is stepped on closes nothing");
    }

    #[test]
    fn a_line_across_the_only_way_is_crossed_and_another_is_not() {
        let wall = Region::rect(Rect::new(1500.0, 0.0, 1520.0, 1600.0));
        let door = Rect::new(-900.0, 500.0, 0.0, 1100.0);
        let ground = Ground::new(Rect::new(0.0, 0.0, 4000.0, 2000.0), vec![wall], &[door]);
        let goal = Region::rect(Rect::new(3000.0, 0.0, 3600.0, 2000.0));
        let line = |x: f64, from: f64| (Point::new(x, from), Point::new(x, 2000.0));
        let apart = |lines: &[Line], goal: Region| ground.apart(&ground.doorsteps(), &End::Area(goal), lines);
        assert!(apart(&[line(1510.0, 1600.0)], goal.clone()));
        assert!(!apart(&[line(1510.0, 1700.0)], goal.clone()), "it ends on walkable ground");
        let (corner, middle) = (Point::new(1510.0, 1600.0), Point::new(1510.0, 1800.0));
        assert!(!apart(&[(corner, middle), (middle, Point::new(1510.0, 2000.0))], goal), "both end on walkable ground");
        assert!(!apart(&[line(1510.0, 1600.0)], Region::rect(Rect::new(0.0, 0.0, 600.0, 600.0))));
        assert!(!ground.clearance.is_made(), "told without the clearance");
    }

    /// Of rooms with blocks at random: the lines of a room shut off what its own clearance says is too narrow, and of a
    /// room with one block moved never what is wide enough.
    #[test]
    fn narrow_places_shut_off_what_the_clearance_says() {
        let mut state = 0x9e37_79b9_7f4a_7c15_u64;
        let mut random = |most: u64| {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            (state % most) as f64
        };
        let door = Rect::new(-900.0, 500.0, 0.0, 1100.0);
        let room = |blocks: &[Rect]| {
            Ground::new(
                Rect::new(0.0, 0.0, 4000.0, 2000.0),
                blocks.iter().copied().map(Region::rect).collect(),
                &[door],
            )
        };
        let (mut own, mut same, mut moved) = (0, 0, 0);
        for _ in 0..60 {
            let mut block = || {
                let (x, y) = (600.0 + random(2400), random(1800));
                Rect::new(x, y, x + 100.0 + random(700), y + 100.0 + random(700))
            };
            let mut blocks: Vec<Rect> = (0..5).map(|_| block()).collect();
            let goal = Region::rect(Rect::new(3300.0, 200.0, 3900.0, 1800.0));
            let before = room(&blocks);
            blocks.extend([block()]);
            blocks.swap_remove(0);
            let after = room(&blocks);
            for width in [150.0, 300.0, 450.0, 600.0] {
                let lines = before.clearance().lines_across(width);
                let judged = |ground: &Ground| {
                    let wide = ground.ways_in().width(&End::Area(goal.clone())) >= width;
                    let apart = ground.apart(&ground.doorsteps(), &End::Area(goal.clone()), &lines);
                    assert!(!(wide && apart), "{width}: {blocks:?}");
                    (wide, apart)
                };
                let (wide, apart) = judged(&before);
                own += usize::from(!wide);
                same += usize::from(apart);
                moved += usize::from(judged(&after).1);
            }
        }
        assert!(same * 10 >= own * 9 && own > 50 && moved > 20, "{same} of {own} seen, {moved} with another block");
    }
}
