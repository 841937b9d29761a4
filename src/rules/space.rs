//! What geometry knows of two things: distance, ways, what stands over what and what hides it.

use super::fields::bounds_of;
use super::judge::{Judge, Trouble, Value, Worth};
use super::kinds::Kind;
use super::term::Thing;
use crate::base::number::micrometres;
use crate::base::tolerance::SAME_LENGTH;
use crate::diagnostic::Mark;
use crate::geometry::{Box3, End, Point3, Prism, Region, apart, apart_work, boxes_apart, hides};
use crate::language::expression::Function;
use crate::model::RouteEnd;
use crate::source::Span;
use kurbo::Point;

/// Steps that a search for a way counts as.
const WAY_STEPS: usize = 20_000;
/// Steps that a comparison of two footprints counts as.
const PLAN_STEPS: usize = 50;

impl Judge<'_> {
    /// A function of two things.
    pub fn between(&mut self, function: Function, a: Thing, b: Thing, span: Span) -> Worth {
        match function {
            Function::Distance => self.distance(a, b, span).map(Value::Number),
            Function::Way => self.way(a, b, span).map(Value::Number),
            Function::Above => self.above(a, b, span).map(Value::Truth),
            Function::Sees => self.sees(a, b, span).map(Value::Truth),
            _ => Ok(Value::Truth(self.inside(a, b))),
        }
    }

    /// The nearest that two things come to each other, mm.
    fn distance(&mut self, a: Thing, b: Thing, span: Span) -> Result<f64, Trouble> {
        let (of_a, of_b) = (self.here.bodies(a), self.here.bodies(b));
        if of_a.is_empty() || of_b.is_empty() {
            return Err(self.no_body(if of_a.is_empty() { a } else { b }, span));
        }
        let mut best = (f64::INFINITY, Point3::default(), Point3::default());
        for one in &of_a {
            for other in &of_b {
                self.spend(1, span)?;
                if boxes_apart(&one.bounds(), &other.bounds()) >= best.0 {
                    continue;
                }
                self.spend(apart_work(one, other) / 4, span)?;
                let found = apart(one, other);
                if found.0 < best.0 {
                    best = found;
                }
            }
        }
        let (distance, p, q) = best;
        let [p, q] = [p, q].map(|point| Point::new(point.x, point.y));
        self.marks.push(if p.distance(q) > SAME_LENGTH { Mark::Between(p, q) } else { Mark::At(p) });
        Ok(micrometres(distance))
    }

    fn no_body(&self, thing: Thing, span: Span) -> Trouble {
        let message = format!("`{}` has no place that is known", self.here.name(thing));
        Trouble { span, message, help: "say with `where` which things the rule is about".to_owned(), missing: true }
    }

    /// The width of the widest way over the floor between two things, mm; 0 where there is none.
    fn way(&mut self, a: Thing, b: Thing, span: Span) -> Result<f64, Trouble> {
        self.spend(WAY_STEPS, span)?;
        let floor = self.figures.floor(self.here.arrangement);
        let route = |thing: Thing| match thing.kind {
            Kind::Opening => Some(RouteEnd::Opening(thing.at)),
            Kind::Zone => None,
            _ => Some(RouteEnd::Module(thing.at)),
        };
        let found = match (route(a), route(b)) {
            (Some(from), Some(to)) => floor.between(from, to),
            _ => {
                let end = |thing: Thing| match self.here.zone(thing) {
                    Some(zone) => Some(End::Area(Region::rect(zone.rect))),
                    None => route(thing).and_then(|end| floor.end(end)),
                };
                end(a).zip(end(b)).and_then(|(from, to)| floor.widest(&from, &to))
            }
        };
        let Some(found) = found else { return Ok(0.0) };
        self.marks.push(Mark::Between(found.across.0, found.across.1));
        Ok(micrometres(found.width))
    }

    /// Whether a body of the first stands over a body of the second: seen from above they share an area, and it begins where
    /// the other ends, or higher.
    fn above(&mut self, a: Thing, b: Thing, span: Span) -> Result<bool, Trouble> {
        let (of_a, of_b) = (self.here.bodies(a), self.here.bodies(b));
        for one in &of_a {
            for other in &of_b {
                self.spend(1, span)?;
                let (up, low) = (one.bounds(), other.bounds());
                // What people lie and sit on ends where their room begins.
                let ends = if self.here.space(b).is_some() { low.z.0 } else { low.z.1 };
                if up.z.0 + SAME_LENGTH < ends || up.plan().intersect(low.plan()).is_zero_area() {
                    continue;
                }
                self.spend(PLAN_STEPS, span)?;
                if !footprint(one).intersect(&footprint(other)).is_empty() {
                    return Ok(true);
                }
            }
        }
        Ok(false)
    }

    /// Whether nothing stands between the middles of two things: no body of a third module and no cutaway.
    fn sees(&mut self, a: Thing, b: Thing, span: Span) -> Result<bool, Trouble> {
        let middle = |thing: Thing| bounds_of(&self.here.bodies(thing)).map(|bounds: Box3| bounds.centre());
        let (Some(from), Some(to)) = (middle(a), middle(b)) else { return Err(self.no_body(a, span)) };
        let own = [a, b].map(|thing| self.here.owner(thing).map(|module| module.name.as_str()));
        let model = self.here.model;
        let solids = model.solids(self.here.arrangement);
        let others = solids.filter(|(module, _)| !own.contains(&Some(module.name.as_str())));
        let bodies = others.map(|(_, solid)| &solid.prism).chain(model.space.cutaways.iter().map(|cut| &cut.prism));
        let bodies: Vec<&Prism> = bodies.collect();
        self.spend(bodies.len(), span)?;
        self.marks.push(Mark::Between(Point::new(from.x, from.y), Point::new(to.x, to.y)));
        Ok(!bodies.into_iter().any(|body| hides(body, from, to)))
    }

    /// Whether all of the first lies within the second, seen from above.
    fn inside(&self, a: Thing, b: Thing) -> bool {
        let plans = self.here.bounds(a).zip(self.here.bounds(b));
        plans.is_some_and(|(a, b)| {
            let (inner, outer) = (a.plan(), b.plan().inflate(SAME_LENGTH, SAME_LENGTH));
            outer.union(inner) == outer
        })
    }
}

fn footprint(prism: &Prism) -> Region {
    let (low, high) = prism.bounds().z;
    Region::footprint(prism, low - 1.0, high + 1.0)
}
