//! The walkable floor of an arrangement and the ways over it, shared by the checks on walking and by the drawings.
//!
//! A way through a door starts outside it. At any other opening in a wall, a way ends where the middle of the person is in
//! the opening, up to 100 mm past the lining; at a roof hatch, below it. At a module it ends in its standing spaces, as far as
//! they are joined with the module and not behind something that stands in them, else
//! within 300 mm of its sitting, else of its lying spaces, else of the module itself.

use super::ground::{Found, Ground, Line, STEP, clearance, doors, doorstep, loads, outside, plan, spread};
use super::shell::wall_name;
use crate::base::memo::Memo;
use crate::base::once::Once;
use crate::base::tolerance::WAY_WIDTH;
use crate::geometry::{End, Region, Widest, nearest_on};
use crate::model::{
    Arrangement, CutKind, Cutaway, Load, Model, Module, Need, Opening, OpeningKind, Route, RouteEnd, Space, Wall,
};
use crate::source::Span;
use kurbo::{Point, Rect};
use std::sync::Arc;

/// A way narrower than this is no way: a person cannot squeeze through sideways, mm; common practice.
pub(crate) const NO_WAY: f64 = 300.0;

/// How far past the lining a way into a wall opening may end, mm.
const AT_OPENING: f64 = 100.0;

/// What is no farther from a module than its standing space is, and this, mm, is joined with it.
const AT_FACE: f64 = 1.0;

/// How far around a module without spaces a way may end, mm.
const AROUND: f64 = 300.0;

/// A measured way, for drawings.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// `entry to galley`.
    pub name: String,
    /// Diameter of the widest disc that travels it, mm.
    pub width: f64,
    /// The narrowest place.
    pub at: Point,
    /// The two points it is measured between there.
    pub across: (Point, Point),
    /// Its course.
    pub path: Vec<Point>,
}

/// The least width of anything that counts as a way: the limit `least` of the check `reachable`.
pub(crate) fn no_way_in(model: &Model) -> f64 {
    let changed = model.limits.iter().find(|change| change.check == "reachable" && change.name == "least");
    changed.map_or(NO_WAY, |change| change.value)
}

/// What stands at the side of a way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Owner<'a> {
    Module(&'a Module),
    Cutaway(&'a Cutaway),
    Load(&'a Load),
    Frame(&'a Opening),
    Wall(Wall),
}

impl Owner<'_> {
    /// Its name in a sentence.
    pub fn words(&self) -> String {
        match self {
            Self::Module(module) => format!("`{}`", module.name),
            Self::Cutaway(cutaway) => match cutaway.kind {
                CutKind::Wall(wall) => wall_name(wall).to_owned(),
                _ => format!("`{}`", cutaway.name),
            },
            Self::Load(load) => format!("`{}`", load.name),
            Self::Frame(opening) => format!("the frame of `{}`", opening.name),
            Self::Wall(wall) => wall_name(*wall).to_owned(),
        }
    }
}

impl Owner<'_> {
    /// Where it is written.
    pub fn span(&self) -> Option<Span> {
        match self {
            Self::Module(module) => Some(module.place_span),
            Self::Cutaway(cutaway) => Some(cutaway.span),
            Self::Load(load) => Some(load.span),
            Self::Frame(opening) => Some(opening.span),
            Self::Wall(_) => None,
        }
    }
}

/// In words, what a narrow place lies between.
pub(crate) fn between(owners: [Option<Owner<'_>>; 2]) -> String {
    match owners.map(|owner| owner.map(|owner| owner.words())) {
        [Some(a), Some(b)] if a == b => format!("within {a}"),
        [Some(a), Some(b)] => format!("between {a} and {b}"),
        [Some(a), None] | [None, Some(a)] => format!("beside {a}"),
        [None, None] => "at its end".to_owned(),
    }
}

/// A way found, and whether it leads below something that hangs lower than the tallest person.
type Gone = (Found, bool);

/// A way that is wanted.
#[derive(Debug)]
pub(crate) struct Asked<'a> {
    pub name: String,
    /// What a finding about it is named after: the route or the module.
    pub subject: &'a str,
    pub span: Span,
    /// Least width, if the layout's route says one.
    pub least: Option<f64>,
    /// The module and the standing space it leads to; `None` for the layout's own routes.
    pub standing: Option<(&'a Module, &'a Space)>,
    pub found: Option<Widest>,
    /// There is no way for the tallest person upright, but for those who stoop.
    pub stooped: bool,
}

impl Asked<'_> {
    pub fn width(&self) -> f64 {
        self.found.as_ref().map_or(0.0, |found| found.width)
    }
}

/// The widest ways of an arrangement in their order, once they were asked for.
#[derive(Debug, Default)]
pub(super) struct FoundWays {
    /// Of the layout's routes.
    routes: Once<Vec<Gone>>,
    /// From the doors to the standing spaces.
    inward: Once<Vec<Gone>>,
}

/// The walkable floor of one arrangement.
pub(crate) struct Floor<'a> {
    pub model: &'a Model,
    pub arrangement: &'a Arrangement,
    pub(super) memo: &'a Memo,
    pub(super) ground: Arc<Ground>,
    pub(super) found: Arc<FoundWays>,
    /// Narrow places that may be there.
    pub(super) narrows: &'a [Line],
}

impl<'a> Floor<'a> {
    /// Every way that can be gone, at its narrowest place: the layout's routes, `more` routes, then from the doors to each
    /// standing space.
    pub fn measured(&self, more: &[Route]) -> Vec<Way> {
        let way = |name: &str, found: Widest| {
            let Widest { width, at, across, path } = found;
            Way { name: name.to_owned(), width, at, across, path }
        };
        let of = |asked: Asked<'a>| asked.found.map(|found| way(&asked.name, found));
        let mut ways = self.ways();
        let to_spaces = ways.split_off(self.routes().count().min(ways.len()));
        let more = more.iter().filter_map(|route| Some(way(&route.name, self.between(route.from, route.to)?)));
        ways.into_iter().filter_map(of).chain(more).chain(to_spaces.into_iter().filter_map(of)).collect()
    }

    /// The floor of the box without what stands on it and without the doors' outside.
    pub fn inside(&self) -> &Region {
        &self.ground.inside
    }

    /// What takes room from the floor.
    pub fn obstacles(&self) -> impl Iterator<Item = (Owner<'a>, &Region)> {
        let modules = self.model.states(self.arrangement).map(|(module, _)| Owner::Module(module));
        let cutaways = self.model.space.cutaways.iter().map(Owner::Cutaway);
        let loads = loads(self.model).map(|(load, _)| Owner::Load(load));
        modules.chain(cutaways).chain(loads).zip(&self.ground.taken).filter(|(_, region)| !region.is_empty())
    }

    /// All ways of the arrangement: the layout's routes, then from the doors to each standing space.
    pub fn ways(&self) -> Vec<Asked<'a>> {
        let found = self.found.routes.get(|| self.routes().map(|route| self.on(route)).collect());
        let routes = self.routes().zip(found).map(|(route, (found, stooped))| Asked {
            name: route.name.clone(),
            subject: &route.name,
            span: route.span,
            least: route.least,
            standing: None,
            found: found.as_ref().map(|(_, way)| way.clone()),
            stooped: *stooped,
        });
        routes.chain(self.ways_in()).collect()
    }

    /// The ways from the doors to each standing space.
    pub fn ways_in(&self) -> Vec<Asked<'a>> {
        let found = self.found.inward.get(|| self.to_spaces());
        self.standing().zip(found).filter_map(|(standing, gone)| self.to(standing, gone)).collect()
    }

    fn routes(&self) -> impl Iterator<Item = &'a Route> {
        let here = self.model.arrangements.iter().position(|other| other.name == self.arrangement.name);
        self.model.routes.iter().filter(move |route| here.is_none_or(|here| route.arrangements.contains(&here)))
    }

    fn on(&self, route: &Route) -> Gone {
        let on = |ground: &Ground| vec![self.between_on(ground, route.from, route.to).map(|way| (0, way))];
        self.upright_or_stooped(on).pop().unwrap_or_default()
    }

    /// Ways over the ground; those that are none, over the ground of people who stoop, if they are there.
    fn upright_or_stooped(&self, over: impl Fn(&Ground) -> Vec<Found>) -> Vec<Gone> {
        let least = no_way_in(self.model);
        let is_way = |found: &Found| found.as_ref().is_some_and(|(_, way)| way.width + WAY_WIDTH >= least);
        let found = over(&self.ground);
        let stooped = match found.iter().all(is_way) {
            true => None,
            false => self.stooped().map(|ground| over(&ground)),
        };
        let mut stooped = stooped.into_iter().flatten();
        let choose = |upright: Found| match stooped.next().filter(|low| is_way(low) && !is_way(&upright)) {
            Some(low) => (low, true),
            None => (upright, false),
        };
        found.into_iter().map(choose).collect()
    }

    /// The ground of people who stoop; `None` where nothing hangs so low.
    pub fn stooped(&self) -> Option<Arc<Ground>> {
        Ground::stooped(self.model, self.arrangement, self.memo)
    }

    /// The standing spaces and their modules.
    fn standing(&self) -> impl Iterator<Item = (&'a Module, &'a Space)> {
        self.model.standing_inside(self.arrangement)
    }

    fn to_spaces(&self) -> Vec<Gone> {
        self.upright_or_stooped(|ground| {
            let end = |(module, space)| End::Area(stand(ground, module, space));
            ground.ways_in().widest_to(&self.standing().map(end).collect::<Vec<_>>())
        })
    }

    /// Where a person stands in a standing space: the parts of it that reach to the module, not those behind what stands in it.
    pub fn stand(&self, module: &Module, space: &Space) -> Region {
        stand(&self.ground, module, space)
    }

    /// Whether surely no way as wide as this leads from a door to any standing space of a module.
    pub fn shut_off(&self, module: &str, width: f64) -> bool {
        let mut spaces = self.standing().filter(|(owner, _)| owner.name == module).map(|(_, space)| space).peekable();
        spaces.peek().is_some()
            && self.stooped().is_none()
            && self.ground.apart(&self.ground.doorsteps(), &End::Area(spread(spaces)), &self.below(width))
    }

    /// Whether surely no way as wide as this leads from one end to the other.
    pub fn surely_apart(&self, from: &End, to: &End, width: f64) -> bool {
        self.ground.apart(std::slice::from_ref(from), to, &self.below(width))
    }

    /// Straight lines over all places of the floor that are narrower than a width.
    pub fn narrow(&self, width: f64) -> Vec<Line> {
        self.ground.clearance().lines_across(width)
    }

    /// Whether every way from one end to another crosses a straight line.
    pub fn shuts(&self, from: &End, to: &End, line: Line) -> bool {
        self.ground.apart(std::slice::from_ref(from), to, &[line])
    }

    /// The narrow places that are narrower than a width.
    fn below(&self, width: f64) -> Vec<Line> {
        self.narrows.iter().filter(|(a, b)| a.distance(*b) < width - WAY_WIDTH).copied().collect()
    }

    /// The way from a door to a standing space; `None` if there is no door.
    fn to(&self, standing: (&'a Module, &'a Space), (found, stooped): &Gone) -> Option<Asked<'a>> {
        let (number, way) = found.clone().unzip();
        let door = doors(self.model).nth(number.unwrap_or(0))?;
        let module = standing.0;
        let name = format!("{} to {}", door.name, module.name);
        let (subject, span) = (module.name.as_str(), module.place_span);
        Some(Asked { name, subject, span, least: None, standing: Some(standing), found: way, stooped: *stooped })
    }

    /// The widest way between two ends of a route.
    pub fn between(&self, from: RouteEnd, to: RouteEnd) -> Option<Widest> {
        self.between_on(&self.ground, from, to)
    }

    fn between_on(&self, ground: &Ground, from: RouteEnd, to: RouteEnd) -> Option<Widest> {
        let ends = (self.end(from)?, self.end(to)?);
        let through = [from, to].into_iter().filter_map(|end| match end {
            RouteEnd::Opening(index) => self.model.openings.get(index).filter(|o| !o.kind.is_door()),
            RouteEnd::Module(_) => None,
        });
        let notches = Region::all(through.filter_map(|opening| outside(self.model, opening)).map(Region::rect));
        if notches.is_empty() {
            return ground.clearance().widest(&ends.0, &ends.1);
        }
        clearance(&ground.walkable.union(&notches), self.memo).widest(&ends.0, &ends.1)
    }

    /// The widest way between two areas.
    pub fn way(&self, from: &Region, to: &Region) -> Option<Widest> {
        self.ground.clearance().widest(&End::Area(from.clone()), &End::Area(to.clone()))
    }

    /// Which of some areas a disc of this diameter gets to from a door; all of them, if there is no door.
    pub fn reached(&self, areas: &[Region], width: f64) -> Vec<bool> {
        let no_door = doors(self.model).next().is_none();
        let reached = |area: &Region| no_door || self.ground.ways_in().width(&End::Area(area.clone())) >= width;
        areas.iter().map(reached).collect()
    }

    pub fn end(&self, end: RouteEnd) -> Option<End> {
        match end {
            RouteEnd::Opening(index) => Some(opening_end(self.model, self.model.openings.get(index)?)),
            RouteEnd::Module(index) => self.module_end(index),
        }
    }

    /// Where a way to a module ends.
    pub fn module_end(&self, index: usize) -> Option<End> {
        let (module, state) = self.model.states(self.arrangement).nth(index)?;
        let of = |need| state.spaces.iter().filter(move |space| space.need == need);
        if of(Need::Standing).next().is_some() {
            return Some(End::Area(Region::all(of(Need::Standing).map(|space| self.stand(module, space)))));
        }
        let near = |rect: Rect| Region::rect(rect.inflate(AROUND, AROUND));
        let resting = [Need::Sitting, Need::Lying].into_iter();
        let near_spaces = resting.map(|need| Region::all(of(need).map(|space| near(space.prism.bounds().plan()))));
        let found = near_spaces.into_iter().find(|area| !area.is_empty());
        Some(End::Area(found.unwrap_or_else(|| near(module.extent.plan()))))
    }

    /// The widest way between two ends over this floor.
    pub fn widest(&self, from: &End, to: &End) -> Option<Widest> {
        self.ground.clearance().widest(from, to)
    }

    /// The widest way between two ends that keeps its middle and its width out of a region.
    pub fn widest_round(&self, from: &End, to: &End, region: &Region) -> Option<Widest> {
        clearance(&self.ground.walkable.subtract(region), self.memo).widest(from, to)
    }

    /// Where a person stands who climbs or walks out of an opening in a wall: outside a door, else within `reach` before it.
    pub fn way_out(&self, opening: &Opening, reach: f64) -> Option<End> {
        if opening.kind.is_door() {
            return outside(self.model, opening).map(|_| doorstep(self.model, opening));
        }
        let (from, to) = opening.along;
        let Rect { x1, y1, .. } = plan(self.model);
        Some(End::Area(Region::rect(match opening.wall {
            Wall::Front => Rect::new(0.0, from, reach, to),
            Wall::Rear => Rect::new(x1 - reach, from, x1, to),
            Wall::Left => Rect::new(from, 0.0, to, reach),
            Wall::Right => Rect::new(from, y1 - reach, to, y1),
            Wall::Roof | Wall::Floor => return None,
        })))
    }

    /// The largest disc that has room with its middle in an area; 0 if there is none.
    pub fn room(&self, area: &Region) -> f64 {
        self.ground.clearance().largest(&End::Area(area.clone())).map_or(0.0, |(_, width)| width)
    }

    /// What stands at both sides of a narrow place.
    pub fn sides(&self, found: &Widest) -> [Option<Owner<'a>>; 2] {
        [found.across.0, found.across.1].map(|p| self.owner_at(p))
    }

    /// What stands at a point of the floor's border: modules before cutaways, frames and walls.
    pub fn owner_at(&self, p: Point) -> Option<Owner<'a>> {
        let near = |region: &Region| {
            let region = region.parts_near(p, WAY_WIDTH);
            region.contains(p) || region.edges().any(|(a, b)| nearest_on(a, b, p).distance(p) <= WAY_WIDTH)
        };
        let obstacle = self.obstacles().find(|(_, region)| near(region)).map(|(owner, _)| owner);
        let frame = || {
            let at = |opening: &&Opening| outside(self.model, opening).is_some_and(|rect| on_border(rect, p));
            self.model.openings.iter().filter(|o| o.kind != OpeningKind::Vent).find(at).map(Owner::Frame)
        };
        obstacle.or_else(frame).or_else(|| wall_at(plan(self.model), p).map(Owner::Wall))
    }
}

fn stand(ground: &Ground, module: &Module, space: &Space) -> Region {
    let whole = spread([space]);
    let over = whole.bounds();
    let near = ground.taken.iter().filter(|region| region.bounds().intersect(over).area() > 0.0);
    let reach = over.width().hypot(over.height()) / 2.0;
    let taken = Region::all(near.map(|region| region.parts_near(over.center(), reach)));
    // Over what stands below a module that hangs, people reach.
    if taken.is_empty() || module.extent.z.0 > STEP {
        return whole;
    }
    let face = module.extent.plan();
    let gap = (face.x0 - over.x1).max(over.x0 - face.x1).max(face.y0 - over.y1).max(over.y0 - face.y1).max(0.0);
    let face = Region::rect(face.inflate(gap + AT_FACE, gap + AT_FACE));
    let (at_face, behind): (Vec<Region>, Vec<Region>) =
        whole.subtract(&taken).parts().partition(|part| !part.intersect(&face).is_empty());
    if behind.is_empty() { whole } else { Region::all(at_face) }
}

fn on_border(rect: Rect, p: Point) -> bool {
    rect.inflate(WAY_WIDTH, WAY_WIDTH).contains(p) && !rect.inflate(-WAY_WIDTH, -WAY_WIDTH).contains(p)
}

fn wall_at(plan: Rect, p: Point) -> Option<Wall> {
    let gaps = [
        (p.x - plan.x0, Wall::Front),
        (plan.x1 - p.x, Wall::Rear),
        (p.y - plan.y0, Wall::Left),
        (plan.y1 - p.y, Wall::Right),
    ];
    gaps.into_iter().find(|(gap, _)| gap.abs() <= WAY_WIDTH).map(|(_, wall)| wall)
}

fn opening_end(model: &Model, opening: &Opening) -> End {
    let Some(rect) = outside(model, opening) else {
        let ((x0, x1), (y0, y1)) = (opening.along, opening.up);
        return End::Area(Region::rect(Rect::new(x0, y0, x1, y1)));
    };
    if opening.kind.is_door() {
        return End::Point(rect.center());
    }
    let Rect { x0, y0, x1, y1 } = rect;
    End::Area(Region::rect(match opening.wall {
        Wall::Front => Rect::new(x1 - AT_OPENING, y0, x1, y1),
        Wall::Rear => Rect::new(x0, y0, x0 + AT_OPENING, y1),
        Wall::Left => Rect::new(x0, y1 - AT_OPENING, x1, y1),
        Wall::Right | Wall::Roof | Wall::Floor => Rect::new(x0, y0, x1, y0 + AT_OPENING),
    }))
}

#[cfg(test)]
mod tests;
