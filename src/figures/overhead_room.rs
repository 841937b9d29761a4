//! The height over a piece of a module, up to the roof lining and to the undersides of solids and cutaways.

use super::stretches::{Stretch, long, longest, meet, without};
use crate::base::tolerance::{NO_AREA, SAME_LENGTH, WAY_WIDTH};
use crate::geometry::{Axis, Prism, Region, Roof};
use crate::model::{Arrangement, Model, Module, Solid};
use kurbo::Rect;

/// What is over a rectangle.
pub(crate) struct Above<'a> {
    plan: Rect,
    /// Height of the mattress or of the seat above the floor, mm.
    from: f64,
    roof: &'a Roof,
    things: Vec<(Option<&'a Module>, &'a Prism)>,
}

impl<'a> Above<'a> {
    /// What is over `plan` above the height `from`, of the solids that `counts` takes.
    pub fn new(
        model: &'a Model,
        arrangement: &'a Arrangement,
        plan: Rect,
        from: f64,
        counts: impl Fn(&Solid) -> bool,
    ) -> Self {
        let solids = model.solids(arrangement).filter(|(_, solid)| counts(solid));
        let solids = solids.map(|(module, solid)| (Some(module), &solid.prism));
        let cut = model.space.cutaways.iter().map(|cut| (None, &cut.prism));
        let over = |prism: &Prism| {
            let bounds = prism.bounds();
            bounds.z.1 > from + SAME_LENGTH && bounds.plan().intersect(plan).area() > NO_AREA
        };
        let things = solids.chain(cut).filter(|(_, prism)| over(prism)).collect();
        Self { plan, from, roof: &model.space.roof, things }
    }

    /// The least height anywhere over the rectangle, and the module that is so low; `None` is the roof or a cutaway.
    pub fn least(&self) -> (f64, Option<&'a Module>) {
        let roof = (self.roof.least_over(self.plan.y0, self.plan.y1).0, None);
        let area = Region::rect(self.plan);
        let low = self.things.iter().filter_map(|(module, prism)| Some((area.underside(prism)?, *module)));
        let least = low.fold(roof, |least, next| if next.0 + SAME_LENGTH < least.0 { next } else { least });
        ((least.0 - self.from).max(0.0), least.1)
    }

    /// The longest stretch along an axis over which everything in the rectangle is at least `height` high.
    pub fn longest(&self, axis: Axis, height: f64) -> f64 {
        let (along, across) = (self.range(axis), self.range(if axis == Axis::Y { Axis::X } else { Axis::Y }));
        let below = self.from + height - SAME_LENGTH;
        let roof = self.roof.lower_than(below).into_iter();
        let mut low: Vec<Stretch> = match axis {
            Axis::Y => roof.collect(),
            _ if roof.clone().any(|range| meet(range, across)) => return 0.0,
            _ => Vec::new(),
        };
        let area = Region::rect(self.plan);
        for (_, prism) in self.things.iter().filter(|(_, prism)| prism.bounds().z.0 < below) {
            let part = Region::footprint(prism, self.from, below).intersect(&area);
            low.extend(part.parts().map(|part| range(part.bounds(), axis)));
        }
        longest(without(along, low)).map_or(0.0, long)
    }

    /// The greatest height over a stretch of this length along an axis, between two heights of which the lower has one.
    pub fn greatest(&self, axis: Axis, stretch: f64, between: Stretch) -> f64 {
        let (mut low, mut high) = between;
        while high - low > SAME_LENGTH {
            let middle = f64::midpoint(low, high);
            let fits = self.longest(axis, middle) + WAY_WIDTH >= stretch;
            if fits { low = middle } else { high = middle }
        }
        (low * 10.0).round() / 10.0
    }

    fn range(&self, axis: Axis) -> Stretch {
        range(self.plan, axis)
    }
}

fn range(rect: Rect, axis: Axis) -> Stretch {
    if axis == Axis::Y { (rect.y0, rect.y1) } else { (rect.x0, rect.x1) }
}
