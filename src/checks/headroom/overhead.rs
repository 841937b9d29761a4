//! What is low over ways and standing spaces: the measuring of the check on headroom.

use crate::base::tolerance::{NO_AREA, SAME_LENGTH};
use crate::figures::ground::{Ground, SHOULDER, STEP, plan, spread};
use crate::figures::ways::{Floor, Owner};
use crate::geometry::{Axis, Box3, Polygon, Prism, Region};
use kurbo::{Line, ParamCurveNearest, Point, Rect, Vec2};
use std::sync::Arc;

/// Half the width of the strip along a way, mm.
const HALF_STRIP: f64 = 150.0;

/// A course may be taken for straight by this much, mm.
const STRAIGHT: f64 = 2.0;

/// Corners of a course that are left out in one go, at most, so that the work goes with their number.
const MOST_LEFT_OUT: usize = 64;

/// The border of a standing space that does not count, mm.
const EDGE: f64 = 100.0;

/// What is stepped on is walked on where it takes so much of a place, the smaller and the larger size, mm; else it is a step
/// beside the way. Common practice, no source.
const WALKED_ON: (f64, f64) = (250.0, 400.0);

/// A piece of floor that wants headroom.
pub(super) struct Place<'a> {
    words: String,
    subject: &'a str,
    area: Region,
    /// Solids with an underside below this stand here and do not hang.
    hangs_from: f64,
}

/// A low spot over a place.
pub(super) struct Low<'a> {
    pub place: (String, &'a str),
    /// Above what is walked on.
    pub height: f64,
    /// What is walked on, if not the floor.
    pub on: Option<Owner<'a>>,
    pub at: Region,
    /// What hangs there; the roof, if nothing.
    pub under: Option<Owner<'a>>,
}

/// What is above the floor of an arrangement and lower than a person needs.
pub(super) struct Overhead<'a> {
    floor: &'a Floor<'a>,
    needed: f64,
    /// Solids that begin above half the tallest person's stature and below what is needed.
    hanging: Vec<(Owner<'a>, &'a Prism, Box3)>,
    /// What is low enough to be stepped on and flat, the highest first.
    low: Vec<(Owner<'a>, &'a Prism, Box3)>,
    /// What people cannot stand on: what reaches into the walking volume and does not hang, with its bounds in plan.
    standing: Vec<(&'a Prism, Rect)>,
    /// What takes room from the floor, with its bounds.
    taken: Vec<(&'a Region, Rect)>,
    /// The ground of people who stoop.
    stooped: Option<Arc<Ground>>,
}

impl<'a> Overhead<'a> {
    /// Looks for what is lower than `needed`.
    pub fn new(floor: &'a Floor<'a>, needed: f64) -> Self {
        let half = floor.model.tallest() / 2.0;
        let solids = floor.model.solids(floor.arrangement).map(|(module, solid)| (Owner::Module(module), &solid.prism));
        let cut = floor.model.space.cutaways.iter().map(|cut| (Owner::Cutaway(cut), &cut.prism));
        let all: Vec<(Owner<'_>, &Prism, Box3)> =
            solids.chain(cut).map(|(owner, prism)| (owner, prism, prism.bounds())).collect();
        let mut low: Vec<_> = all.iter().filter(|(_, prism, bounds)| is_flat(prism, bounds)).copied().collect();
        low.sort_by(|a, b| b.2.z.1.total_cmp(&a.2.z.1));
        let standing = all.iter().filter(|(owner, _, bounds)| bounds.z.0 < half || matches!(owner, Owner::Cutaway(..)));
        let standing = standing.map(|(_, prism, bounds)| (*prism, bounds.plan())).collect();
        let hanging =
            all.into_iter().filter(|(_, _, bounds)| bounds.z.0 + SAME_LENGTH >= half && bounds.z.0 < needed + STEP);
        let hanging = hanging.collect();
        let taken = floor.obstacles().map(|(_, region)| (region, region.bounds())).collect();
        Self { floor, needed, hanging, low, standing, taken, stooped: floor.stooped() }
    }

    /// The places over which something could be lower than needed.
    pub fn places(&self) -> Vec<Place<'a>> {
        let tallest = self.floor.model.tallest();
        let mut places: Vec<Place<'a>> = Vec::new();
        for way in self.floor.ways() {
            let Some(found) = way.found.as_ref() else { continue };
            let hangs_from = if way.stooped { tallest * SHOULDER } else { tallest };
            let strip = strip(&found.path, |piece| self.may_be_low(piece, hangs_from));
            let area = match self.stooped.as_ref().filter(|_| way.stooped) {
                Some(ground) => strip.intersect(&ground.inside),
                None => self.free(&strip),
            };
            let words = format!("on the way from {}", way.name);
            places.push(Place { words, subject: way.subject, area, hangs_from });
        }
        let spaces = self.floor.model.standing_inside(self.floor.arrangement);
        for (module, space) in spaces.filter(|(_, space)| self.may_be_low(space.prism.bounds().plan(), tallest / 2.0)) {
            let stand = inner(&spread([space])).intersect(&Region::rect(plan(self.floor.model)));
            let area = stand.subtract(&self.standing_in(stand.bounds()));
            let words = format!("where a person stands at `{}`", module.name);
            places.push(Place { words, subject: &module.name, area, hangs_from: tallest / 2.0 });
        }
        places
    }

    /// Whether anything over a rectangle is lower than needed; if not, no area is made.
    fn may_be_low(&self, over: Rect, hangs_from: f64) -> bool {
        let hangs =
            |bounds: &Box3| bounds.z.0 + SAME_LENGTH >= hangs_from && bounds.plan().intersect(over).area() > NO_AREA;
        let steps = self.low.iter().filter(|(_, _, bounds)| bounds.plan().intersect(over).area() > NO_AREA);
        let on = steps.map(|(_, _, bounds)| bounds.z.1).fold(0.0, f64::max);
        self.floor.model.space.roof.least_over(over.y0, over.y1).0 - on < self.needed
            || self.hanging.iter().any(|(_, _, bounds)| hangs(bounds))
    }

    /// What of an area is walkable floor. Only what stands near it is taken off: the whole floor has far more edges.
    fn free(&self, area: &Region) -> Region {
        let over = area.bounds();
        let near = self.taken.iter().filter(|(_, bounds)| bounds.intersect(over).area() > 0.0);
        let taken = Region::all(near.map(|(region, _)| (*region).clone()));
        area.intersect(&Region::rect(plan(self.floor.model))).subtract(&taken)
    }

    /// A place by what is walked on: each thing that is low, with its height and what it takes of the place; last the floor.
    fn surfaces(&self, area: &Region) -> Vec<(Option<Owner<'a>>, f64, Region)> {
        let mut left = area.clone();
        let mut found = Vec::new();
        for (owner, prism, bounds) in &self.low {
            if bounds.plan().intersect(left.bounds()).area() <= NO_AREA {
                continue;
            }
            let common = left.intersect(&Region::footprint(prism, bounds.z.0, bounds.z.1));
            let large = |part: &Region| {
                let (w, h) = (part.bounds().width(), part.bounds().height());
                w.min(h) >= WALKED_ON.0 && w.max(h) >= WALKED_ON.1
            };
            let on = Region::all(common.parts().filter(large));
            if !on.is_empty() {
                left = left.subtract(&on);
                found.push((Some(*owner), bounds.z.1, on));
            }
        }
        found.push((None, 0.0, left));
        found
    }

    /// What people cannot stand on within a rectangle.
    fn standing_in(&self, over: Rect) -> Region {
        let (step, top) = (STEP, self.floor.model.tallest());
        let here = self.standing.iter().filter(|(_, bounds)| bounds.intersect(over).area() > 0.0);
        Region::all(here.map(|(prism, _)| Region::footprint(prism, step, top)))
    }
}

/// Whether something can be walked on, level and no higher than a step.
fn is_flat(prism: &Prism, bounds: &Box3) -> bool {
    let square = || (prism.outline.area() - prism.outline.bounds().area()).abs() <= NO_AREA;
    bounds.z.1 <= STEP && bounds.z.1 > SAME_LENGTH && (prism.axis == Axis::Z || square())
}

/// The strip of head and shoulders along a course: those of its pieces that count, by their bounds.
fn strip(path: &[Point], counts: impl Fn(Rect) -> bool) -> Region {
    let path = fewer(path);
    let disc = |p: Point| {
        let rim = (0..16).map(|i| p + Vec2::from_angle(f64::from(i) * std::f64::consts::TAU / 16.0) * HALF_STRIP);
        Polygon::new(rim.collect())
    };
    let band = |a: Point, b: Point| {
        let along = (b - a).normalize() * HALF_STRIP;
        let side = Vec2::new(-along.y, along.x);
        Polygon::new(vec![a + side, a - side, b - side, b + side])
    };
    let bands = path.windows(2).filter_map(|pair| if let [a, b] = pair { Some(band(*a, *b)) } else { None });
    let pieces = path.iter().map(|p| disc(*p)).chain(bands);
    Region::new(&pieces.filter(|piece| counts(piece.bounds())).collect::<Vec<_>>())
}

/// A course with fewer corners, none left out that is farther than [`STRAIGHT`] from the new course.
fn fewer(path: &[Point]) -> Vec<Point> {
    let mut kept: Vec<usize> = Vec::new();
    for at in 0..path.len() {
        let (Some(from), Some(to)) = (kept.last().copied(), path.get(at + 1)) else {
            kept.push(at);
            continue;
        };
        let Some(start) = path.get(from) else { continue };
        let chord = Line::new(*start, *to);
        let left_out = path.get(from + 1..=at).unwrap_or_default();
        let many = left_out.len() > MOST_LEFT_OUT;
        if many || left_out.iter().any(|p| chord.nearest(*p, SAME_LENGTH).distance_sq > STRAIGHT * STRAIGHT) {
            kept.push(at);
        }
    }
    kept.iter().filter_map(|at| path.get(*at)).copied().collect()
}

/// A standing space without its outer border, of which at most a quarter of the size goes on each side.
fn inner(space: &Region) -> Region {
    let bounds = space.bounds();
    let edge = |size: f64| EDGE.min(size / 4.0);
    space.intersect(&Region::rect(bounds.inflate(-edge(bounds.width()), -edge(bounds.height()))))
}

/// The lowest spot of the roof, and of each thing that hangs, over all places.
pub(super) fn lows<'a>(overhead: &Overhead<'a>, places: &[Place<'a>]) -> Vec<Low<'a>> {
    let mut lows: Vec<Low<'a>> = Vec::new();
    let mut keep = |low: Low<'a>| match lows.iter_mut().find(|known| same(known.under, low.under)) {
        Some(known) if known.height <= low.height + SAME_LENGTH => {}
        Some(known) => *known = low,
        None => lows.push(low),
    };
    for place in places.iter().filter(|place| !place.area.is_empty()) {
        for (on, base, area) in overhead.surfaces(&place.area) {
            over(overhead, place, &area, (on, base)).into_iter().for_each(&mut keep);
        }
    }
    lows
}

/// Whether two things that hang are one.
fn same(a: Option<Owner<'_>>, b: Option<Owner<'_>>) -> bool {
    match (a, b) {
        (Some(Owner::Module(a)), Some(Owner::Module(b))) => std::ptr::eq(a, b),
        (Some(Owner::Module(_)), _) | (_, Some(Owner::Module(_))) => false,
        (a, b) => a == b,
    }
}

/// What is over a piece of a place that is walked on at one height.
fn over<'a>(
    overhead: &Overhead<'a>,
    place: &Place<'a>,
    area: &Region,
    (on, base): (Option<Owner<'a>>, f64),
) -> Vec<Low<'a>> {
    let low = |height: f64, at: Region, under| Low {
        place: (place.words.clone(), place.subject),
        height: height - base,
        on,
        at,
        under,
    };
    let roof = &overhead.floor.model.space.roof;
    let over = |part: Region| low(roof.least_over(part.bounds().y0, part.bounds().y1).0, part, None);
    let mut found: Vec<Low<'a>> = area.parts().map(over).collect();
    let within = area.bounds();
    for (owner, prism, bounds) in &overhead.hanging {
        let z = bounds.z;
        if z.0 + SAME_LENGTH < place.hangs_from || bounds.plan().intersect(within).area() <= NO_AREA {
            continue;
        }
        let at = area.intersect(&Region::footprint(prism, z.0, z.1 + 1.0));
        if at.area() > NO_AREA {
            found.extend(at.underside(prism).map(|height| low(height, at, Some(*owner))));
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_course_keeps_its_ends_and_corners() {
        let arc = |i: u32| Point::ORIGIN + Vec2::from_angle(f64::from(i) * std::f64::consts::PI / 200.0) * 500.0;
        let path: Vec<Point> = (0..=100).map(arc).chain([Point::new(0.0, 900.0)]).collect();
        let few = fewer(&path);
        // A chord of sagitta 2 mm on a radius of 500 mm spans 2 acos(1 - 2 / 500) = 10.25 degrees: at least nine for 90.
        assert!((9..=12).contains(&(few.len() - 2)), "{}", few.len());
        assert_eq!((few.first(), few.last()), (path.first(), path.last()));
        assert!(few.contains(&path[100]) || few.iter().any(|p| p.distance(path[100]) < 45.0));
        assert_eq!(fewer(&[]), []);
        assert_eq!(fewer(&path[..1]), path[..1]);
    }
}
