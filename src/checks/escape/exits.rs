//! The exits that a sleeper reaches, and whether two of them lie apart.

use crate::base::number::mm;
use crate::base::tolerance::{SAME_LENGTH, WAY_WIDTH};
use crate::diagnostic::Limits;
use crate::figures::ground::STEP;
use crate::figures::overhead_room::Above;
use crate::figures::panel::{before, clear, passage, room};
use crate::figures::ways::{Floor, no_way_in};
use crate::geometry::{Region, Widest};
use crate::model::{Arrangement, Model, Module, Opening, Solid, Space, Wall};
use kurbo::{Point, Rect};
use std::collections::BTreeSet;

/// What hangs over a sleeper so near to an opening hangs over the way out, mm; common practice.
const LEAN: f64 = 400.0;

/// A sleeper reaches this far beyond the lying space, and a thing this near is in an exit's way, mm; common practice.
const ARM: f64 = 300.0;

/// A place to sleep.
pub(super) struct Berth<'a> {
    /// Its module's index.
    pub index: usize,
    /// Its module.
    pub module: &'a Module,
    /// The room to lie.
    pub space: &'a Space,
}

/// How an exit is reached.
pub(super) enum How {
    /// Without leaving the bed.
    FromBed,
    /// Over the floor.
    OnFoot(Widest),
}

/// A way out.
pub(super) struct Exit<'a> {
    /// What it leads through.
    pub opening: &'a Opening,
    /// How it is reached.
    pub how: How,
    /// Zone that the opening lies in, by index.
    at: Option<usize>,
    /// Zones that the way goes through, the sleeper's own left out.
    through: BTreeSet<usize>,
}

fn is_exit(opening: &Opening) -> bool {
    opening.kind.is_door() || opening.escape
}

/// The clear rectangle of an exit from a height up, if one of these sizes passes.
fn passes(
    (model, arrangement): (&Model, &Arrangement),
    opening: &Opening,
    part: Rect,
    reach: f64,
    sizes: [f64; 2],
) -> (Rect, bool) {
    if part.width() <= 0.0 || part.height() <= 0.0 {
        return (Rect::ZERO, false);
    }
    let things = before(model, arrangement, opening, part, reach);
    let (rect, lying) = passage(part, &things, sizes[0], sizes[1]).unwrap_or_default();
    let (short, long) = if lying { (rect.height(), rect.width()) } else { (rect.width(), rect.height()) };
    (rect, short >= sizes[0] - SAME_LENGTH && long >= sizes[1] - SAME_LENGTH)
}

/// The hole above a height; of a door above a step.
fn hole_above(opening: &Opening, height: f64) -> Rect {
    let mut part = clear(opening);
    if !opening.lies_flat() {
        part.y0 = part.y0.max(height);
    }
    part
}

/// Exits whose hole is too small, with what is clear of it; the shell's own sizes, whatever stands before them.
pub(super) fn small_exits<'a>(
    model: &'a Model,
    arrangement: &Arrangement,
    sizes: [f64; 2],
) -> Vec<(&'a Opening, Rect)> {
    let exits = model.openings.iter().filter(|opening| is_exit(opening));
    let clear = exits.map(|opening| (opening, passes((model, arrangement), opening, clear(opening), 0.0, sizes)));
    clear.filter(|(_, (_, fits))| !fits).map(|(opening, (rect, _))| (opening, rect)).collect()
}

impl<'a> Berth<'a> {
    fn top(&self) -> f64 {
        self.space.prism.bounds().z.0
    }

    fn plan(&self) -> Rect {
        self.space.prism.bounds().plan()
    }

    /// Every exit that the sleeper reaches, from the bed first.
    pub fn exits(&self, floor: &Floor<'a>, limits: &Limits) -> Vec<Exit<'a>> {
        let all = floor.model.openings.iter().filter(|opening| is_exit(opening));
        let how = |opening| {
            let reached = || self.reaches(floor, opening, limits).then_some(How::FromBed);
            let walked =
                || Some(How::OnFoot(self.walk(floor, opening, None).filter(|_| on_foot(floor, opening, limits))?));
            if opening.kind.is_door() { walked().or_else(reached) } else { reached().or_else(walked) }
        };
        let mut exits: Vec<Exit<'_>> =
            all.filter_map(|opening| Some(self.exit(floor.model, opening, how(opening)?))).collect();
        exits.sort_by_key(|exit| matches!(exit.how, How::OnFoot(_)));
        exits
    }

    /// Whether an opening can be climbed through from the bed.
    fn reaches(&self, floor: &Floor<'_>, opening: &Opening, limits: &Limits) -> bool {
        let sizes = [limits.value("narrow"), limits.value("long")];
        let at = room(floor.model, opening, clear(opening), 1.0).plan();
        let gap = self.plan().inflate(ARM, ARM).intersect(at);
        if gap.width() <= 0.0 || gap.height() <= 0.0 || opening.wall == Wall::Floor {
            return false;
        }
        let about = (floor.model, floor.arrangement);
        let part = self.within_reach(opening);
        if opening.wall == Wall::Roof {
            let height = floor.model.space.roof.least_over(opening.up.0, opening.up.1).0 - self.top();
            return (0.0..=limits.value("roof")).contains(&height) && passes(about, opening, part, height, sizes).1;
        }
        let end = self.top() + self.height_at(floor, opening);
        let part = Rect { y0: part.y0.max(self.top()), y1: part.y1.min(end), ..part };
        let (rect, fits) = passes(about, opening, part, ARM, sizes);
        fits && rect.y0 - self.top() <= limits.value("sill") + SAME_LENGTH
    }

    /// The part of a hole that the sleeper reaches, along its wall; in the roof both ways.
    fn within_reach(&self, opening: &Opening) -> Rect {
        let (hole, near) = (clear(opening), self.plan().inflate(ARM, ARM));
        match opening.wall {
            Wall::Front | Wall::Rear => Rect { x0: hole.x0.max(near.y0), x1: hole.x1.min(near.y1), ..hole },
            Wall::Left | Wall::Right => Rect { x0: hole.x0.max(near.x0), x1: hole.x1.min(near.x1), ..hole },
            Wall::Roof | Wall::Floor => hole.intersect(near),
        }
    }

    /// The height above the mattress to the lowest thing over the sleeper before an opening.
    fn height_at(&self, floor: &Floor<'_>, opening: &Opening) -> f64 {
        let before = room(floor.model, opening, clear(opening), ARM + LEAN).plan().intersect(self.plan());
        let over = if before.width() > 0.0 && before.height() > 0.0 { before } else { self.plan() };
        let hangs = |solid: &Solid| solid.prism.bounds().z.0 > self.top() + SAME_LENGTH;
        Above::new(floor.model, floor.arrangement, over, self.top(), hangs).least().0
    }

    /// The way over the floor, round a region if one is given.
    fn walk(&self, floor: &Floor<'_>, opening: &Opening, round: Option<&Region>) -> Option<Widest> {
        let to = floor.way_out(opening, ARM)?;
        let from = floor.module_end(self.index)?;
        let least = no_way_in(floor.model);
        if floor.surely_apart(&from, &to, least) {
            return None;
        }
        let found = match round {
            None => floor.widest(&from, &to),
            Some(region) => floor.widest_round(&from, &to, region),
        };
        found.filter(|found| found.width + WAY_WIDTH >= least)
    }

    fn own(&self, model: &Model) -> BTreeSet<usize> {
        let centre = self.plan().center();
        zones(model, |rect| holds(rect, centre)).chain(self.module.zone).collect()
    }

    fn exit(&self, model: &Model, opening: &'a Opening, how: How) -> Exit<'a> {
        let own = self.own(model);
        let middle = room(model, opening, clear(opening), 1.0).plan().center();
        let at = zones(model, |rect| holds(rect, middle)).next();
        let through = match &how {
            How::FromBed => BTreeSet::new(),
            How::OnFoot(found) => zones(model, |rect| crosses(&found.path, rect)).collect(),
        };
        Exit { opening, how, at, through: through.difference(&own).copied().collect() }
    }

    /// How many exits lie apart from each other: 0, 1 or 2.
    pub fn apart(&self, floor: &Floor<'_>, exits: &[Exit<'_>]) -> u32 {
        let pairs = exits.iter().enumerate().flat_map(|(at, one)| exits.iter().skip(at + 1).map(move |two| (one, two)));
        let lie_apart = |one: &Exit<'_>, two: &Exit<'_>| {
            let zone_of_one = one.at.is_some_and(|zone| two.at == Some(zone));
            !zone_of_one && (self.avoids(floor, one, two) || self.avoids(floor, two, one))
        };
        match exits.len() {
            0 => 0,
            _ if pairs.into_iter().any(|(one, two)| lie_apart(one, two)) => 2,
            _ => 1,
        }
    }

    /// Whether the way to `two` keeps out of the zones of `one`, or can be gone so.
    fn avoids(&self, floor: &Floor<'_>, one: &Exit<'_>, two: &Exit<'_>) -> bool {
        let own = self.own(floor.model);
        let taken: BTreeSet<usize> = one.through.iter().copied().chain(one.at.filter(|at| !own.contains(at))).collect();
        if two.at.is_some_and(|at| taken.contains(&at)) {
            return false;
        }
        if taken.is_disjoint(&two.through) {
            return true;
        }
        let rects = taken.iter().filter_map(|at| floor.model.zones.get(*at)).map(|zone| Region::rect(zone.rect));
        self.walk(floor, two.opening, Some(&Region::all(rects))).is_some()
    }

    /// Why the other ways out do not count, in words.
    pub fn hindered(&self, floor: &Floor<'_>, limits: &Limits, exits: &[Exit<'_>]) -> Option<String> {
        let sill = limits.value("sill");
        let lost = floor.model.openings.iter().filter(|opening| opening.escape && !opening.lies_flat());
        let lost = lost.filter(|opening| !exits.iter().any(|exit| exit.opening.name == opening.name));
        let high = lost.filter_map(|opening| {
            let (above, what) =
                if room(floor.model, opening, clear(opening), 1.0).plan().overlaps(self.plan().inflate(ARM, ARM)) {
                    (clear(opening).y0 - self.top(), "the mattress")
                } else {
                    (clear(opening).y0, "the floor")
                };
            (above > sill)
                .then(|| format!("the sill of `{}` is {} above {what}, {} at most", opening.name, mm(above), mm(sill)))
        });
        high.reduce(|all, one| format!("{all}; {one}"))
    }
}

/// Whether an opening can be climbed through by a person who stands before it.
fn on_foot(floor: &Floor<'_>, opening: &Opening, limits: &Limits) -> bool {
    let sizes = [limits.value("narrow"), limits.value("long")];
    let from = if opening.kind.is_door() { STEP } else { 0.0 };
    let (rect, fits) = passes((floor.model, floor.arrangement), opening, hole_above(opening, from), ARM, sizes);
    fits && !opening.lies_flat() && rect.y0 <= limits.value("sill").max(from) + SAME_LENGTH
}

/// Whether a point lies within a rectangle, not on its border.
fn holds(rect: Rect, p: Point) -> bool {
    p.x > rect.x0 && p.x < rect.x1 && p.y > rect.y0 && p.y < rect.y1
}

fn zones(model: &Model, holds: impl Fn(Rect) -> bool) -> impl Iterator<Item = usize> {
    model.zones.iter().enumerate().filter(move |(_, zone)| holds(zone.rect)).map(|(at, _)| at)
}

/// Whether a course goes through a rectangle.
fn crosses(path: &[Point], rect: Rect) -> bool {
    path.iter().any(|point| holds(rect, *point)) || path.iter().zip(path.iter().skip(1)).any(|(a, b)| cut(*a, *b, rect))
}

/// Whether a straight line goes through a rectangle: the range of it between each two parallel sides is not empty.
fn cut(a: Point, b: Point, rect: Rect) -> bool {
    let between = |from: f64, to: f64, low: f64, high: f64| {
        let along = to - from;
        if along == 0.0 {
            return if from > low && from < high { (0.0, 1.0) } else { (1.0, 0.0) };
        }
        let (p, q) = ((low - from) / along, (high - from) / along);
        (p.min(q), p.max(q))
    };
    let (x, y) = (between(a.x, b.x, rect.x0, rect.x1), between(a.y, b.y, rect.y0, rect.y1));
    x.0.max(y.0).max(0.0) < x.1.min(y.1).min(1.0)
}
