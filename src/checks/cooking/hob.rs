//! A hob, with what is beside, behind and over it.

use crate::base::tolerance::{GREATEST_LENGTH, SAME_LENGTH};
use crate::geometry::{Axis, Box3, Met, Prism, overlap, travel};
use crate::model::{Arrangement, Model, Module, Need, OpeningKind, Service, Solid, Tag, Wall};
use crate::source::Span;
use kurbo::Rect;

/// Tops that differ by no more than this are level, and joints no wider are none, mm; common practice, no source.
const LEVEL: f64 = 10.0;

/// A hob stands proud of its worktop by no more, mm; common practice, no source: burner rings and pan supports.
const PROUD: f64 = 60.0;

/// Height over the hob that is hot, mm; common practice, no source.
const HOT: f64 = 400.0;

/// A wall no farther than this is behind the hob, mm; common practice, no source.
const BEHIND: f64 = 300.0;

/// A hob of a module.
pub(super) struct Hob<'a> {
    /// Its module.
    pub module: &'a Module,
    /// The room it takes.
    pub bounds: Box3,
    /// Itself.
    pub solid: &'a Solid,
    /// Along the front of its module.
    along: Axis,
    /// From its back to its front.
    out: Axis,
}

/// Something near a hob.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Near {
    /// In words.
    pub what: String,
    /// How far away, mm.
    pub by: f64,
    /// Where it is written.
    pub span: Option<Span>,
}

fn nearest(all: impl IntoIterator<Item = Near>) -> Option<Near> {
    all.into_iter().reduce(|a, b| if b.by < a.by { b } else { a })
}

impl<'a> Hob<'a> {
    /// Every hob of an arrangement.
    pub fn all(model: &'a Model, arrangement: &'a Arrangement) -> Vec<Self> {
        let solids = model.solids(arrangement).filter(|(_, solid)| solid.is(Tag::Hob));
        let hob = |(module, solid): (&'a Module, &'a Solid)| {
            let out = if matches!(module.faces, Wall::Front | Wall::Rear) { Axis::X } else { Axis::Y };
            Self { module, bounds: solid.prism.bounds(), solid, along: Axis::Z.third(out), out }
        };
        solids.map(hob).collect()
    }

    /// The limit of the height over it: gas flames reach higher.
    pub fn above_limit(&self) -> &'static str {
        if self.module.connects.iter().any(|one| one.service == Service::Gas) { "above-gas" } else { "above" }
    }

    fn top(&self) -> f64 {
        self.bounds.z.1
    }

    fn others(&self, model: &'a Model, arrangement: &'a Arrangement) -> impl Iterator<Item = (&'a Module, &'a Solid)> {
        let own = self.solid.prism.clone();
        model.solids(arrangement).filter(move |(_, solid)| solid.prism != own)
    }

    /// How far the worktop is free on both sides, the lower coordinate first.
    pub fn landings(&self, model: &'a Model, arrangement: &'a Arrangement) -> [f64; 2] {
        let (low, high) = self.bounds.range(self.along);
        let ((from, to), top) = self.worktop(model, arrangement);
        let solids: Vec<&Solid> = self.others(model, arrangement).map(|(_, solid)| solid).collect();
        let tall: Vec<&Prism> = solids.iter().map(|solid| &solid.prism).collect();
        let holes = solids.iter().filter(|solid| solid.is_any(&[Tag::Sink, Tag::Hob]));
        let holes: Vec<&Prism> = holes.map(|solid| &solid.prism).collect();
        let [over, level] =
            [(top + LEVEL, self.top() + HOT), (top - LEVEL, top)].map(|heights| self.bounds.with(Axis::Z, heights));
        [(-1.0, low - from), (1.0, to - high)].map(|(sign, end)| {
            let end = end.max(0.0);
            let first = go(model, &over, self.along, sign * end, &tall).map_or(end, |(by, _)| by);
            go(model, &level, self.along, sign * first, &holes).map_or(first, |(by, _)| by)
        })
    }

    /// The range of the worktop that the hob is in, and its height.
    fn worktop(&self, model: &'a Model, arrangement: &'a Arrangement) -> ((f64, f64), f64) {
        let (low, high) = self.bounds.range(self.along);
        let middle = {
            let (front, back) = self.bounds.range(self.out);
            f64::midpoint(front, back)
        };
        let tops = model.solids(arrangement).filter(|(_, solid)| solid.is(Tag::Worktop));
        let tops: Vec<Box3> = tops.map(|(_, solid)| solid.prism.bounds()).collect();
        let across = |bounds: &&Box3| {
            let (front, back) = bounds.range(self.out);
            front < middle && back > middle
        };
        let holds = |bounds: &&Box3| {
            let (from, to) = bounds.range(self.along);
            let proud = self.top() - bounds.z.1;
            from < high && to > low && (-LEVEL..=PROUD + SAME_LENGTH).contains(&proud)
        };
        let Some(own) = tops.iter().filter(across).find(holds) else { return ((low, high), self.top()) };
        let level = tops.iter().filter(across).filter(|bounds| (bounds.z.1 - own.z.1).abs() <= LEVEL);
        let mut ranges: Vec<(f64, f64)> = level.map(|bounds| bounds.range(self.along)).collect();
        ranges.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut joined: Vec<(f64, f64)> = Vec::new();
        for range in ranges {
            match joined.last_mut() {
                Some(last) if range.0 <= last.1 + LEVEL => last.1 = last.1.max(range.1),
                _ => joined.push(range),
            }
        }
        let range = joined.into_iter().find(|range| range.0 < high && range.1 > low).unwrap_or((low, high));
        (range, own.z.1)
    }

    /// The nearest thing that may burn beside it, within `reach`.
    pub fn beside(&self, model: &'a Model, arrangement: &'a Arrangement, reach: f64) -> Option<Near> {
        let body = self.bounds.with(Axis::Z, (self.top() + LEVEL, self.top() + HOT));
        let others: Vec<(&Module, &Solid)> = self.others(model, arrangement).collect();
        let prisms: Vec<&Prism> = others.iter().map(|(_, solid)| &solid.prism).collect();
        let sides = [-reach, reach].into_iter().filter_map(|way| {
            let (by, met) = go(model, &body, self.along, way, &prisms)?;
            Some(match met {
                Met::Obstacle(at) => {
                    let (module, solid) = others.get(at)?;
                    Near { what: format!("`{}` of `{}`", solid.name, module.name), by, span: Some(solid.span) }
                }
                _ => Near { what: "the wall".to_owned(), by, span: None },
            })
        });
        nearest(sides.chain(self.soft(model, arrangement)).filter(|near| near.by < reach - SAME_LENGTH))
    }

    /// Mattresses, cushions and people who lie, at any side.
    fn soft(&self, model: &'a Model, arrangement: &'a Arrangement) -> impl Iterator<Item = Near> {
        let hot = (self.top() + LEVEL, self.top() + HOT);
        let solids =
            model.solids(arrangement).filter(|(_, solid)| solid.is_any(&[Tag::Mattress, Tag::Cushion, Tag::Backrest]));
        let solids = solids.map(|(module, solid)| (&solid.name, module, solid.span, solid.prism.bounds()));
        let lying = model.spaces(arrangement).filter(|(_, space)| space.need == Need::Lying);
        let lying = lying.map(|(module, space)| (&space.name, module, space.span, space.prism.bounds()));
        let near = solids.chain(lying).filter(|(.., bounds)| bounds.z.0 < hot.1 && bounds.z.1 > hot.0);
        let plan = self.bounds.plan();
        near.map(move |(name, module, span, bounds)| Near {
            what: format!("`{name}` of `{}`", module.name),
            by: distance(plan, bounds.plan()),
            span: Some(span),
        })
        .collect::<Vec<_>>()
        .into_iter()
    }

    /// The nearest window in the wall behind it that reaches into the height above it.
    pub fn window(&self, model: &'a Model, above: f64) -> Option<Near> {
        let space = &model.space;
        let (front, back) = self.bounds.range(self.out);
        let (wall, gap) = match self.module.faces {
            Wall::Rear => (Wall::Front, front),
            Wall::Front => (Wall::Rear, space.length - back),
            Wall::Right => (Wall::Left, front),
            _ => (Wall::Right, space.width - back),
        };
        let (low, high) = self.bounds.range(self.along);
        let windows = model.openings.iter().filter(|o| o.kind == OpeningKind::Window && o.wall == wall);
        let near = windows.filter(|o| gap <= BEHIND && o.up.1 > self.top() && o.up.0 < self.top() + above);
        nearest(near.map(|o| Near {
            what: format!("`{}`", o.name),
            by: (o.along.0 - high).max(low - o.along.1).max(0.0),
            span: Some(o.span),
        }))
    }

    /// The lowest thing over it.
    pub fn above(&self, model: &'a Model, arrangement: &'a Arrangement, height: f64) -> Option<Near> {
        let column = Prism::from(self.bounds.with(Axis::Z, (self.top() + LEVEL, self.top() + height)));
        nearest(self.others(model, arrangement).filter_map(|(module, solid)| {
            let by = overlap(&solid.prism, &column)?.z.0 - self.top();
            let what = format!("`{}` of `{}`", solid.name, module.name);
            (by > LEVEL + SAME_LENGTH).then_some(Near { what, by, span: Some(solid.span) })
        }))
    }
}

/// How far a body gets, and what it meets on its way.
fn go(model: &Model, body: &Box3, axis: Axis, way: f64, things: &[&Prism]) -> Option<(f64, Met)> {
    let walls = Box3 { x: (0.0, model.space.length), y: (0.0, model.space.width), z: (0.0, GREATEST_LENGTH) };
    let found = travel(body, axis, way, &walls, &model.space.roof, things);
    found.met.map(|met| (found.free, met))
}

fn distance(a: Rect, b: Rect) -> f64 {
    let x = (a.x0 - b.x1).max(b.x0 - a.x1).max(0.0);
    let y = (a.y0 - b.y1).max(b.y0 - a.y1).max(0.0);
    x.hypot(y)
}
