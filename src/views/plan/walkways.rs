//! How wide the ways are where they are narrowest: a double arrow with its figure.

use crate::base::number::trimmed;
use crate::base::tolerance::SAME_LENGTH;
use crate::drawing::{Align, Fill, Item, LayerKind, LineClass, Text, text_box};
use crate::figures::{Figures, Way};
use crate::model::{Arrangement, Model, Module, Need, PoseState, Route, RouteEnd};
use crate::views::kit::canvas::Canvas;
use crate::views::kit::ink::{Taken, double_arrow, plate};
use crate::views::kit::raster::{Raster, Sums};
use crate::views::kit::scene::Scene;
use crate::views::plan::furniture::{Level, level};
use kurbo::{Point, Rect, Vec2};

/// Arrows on one plan, at most: the narrowest.
const MOST: usize = 5;
/// Places nearer than this are one, mm.
const NEAR: f64 = 450.0;
/// Wider than this is no narrow place; it is drawn only where there is no other, mm.
const WIDE: f64 = 900.0;
/// A figure stands beyond the end of its arrow only if that keeps it off this many more cells with lines.
const BEYOND: u32 = 12;
/// A figure stands on furniture only if that keeps it off this many more cells with lines.
const COVERS: u32 = 8;
/// Height of figures, mm.
const FIGURE: f64 = 2.5;
/// From the arrow to a figure that keeps off a wall or a door the arrow lies in, mm.
const CLEAR: f64 = 2.0;

/// The narrowest place of a way.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::views) struct Narrow {
    /// What way.
    pub name: String,
    /// One side of the narrowest place, mm in the box.
    pub from: Point,
    /// The other side.
    pub to: Point,
}

impl Narrow {
    /// Its width, which is the length of the arrow, mm.
    pub fn width(&self) -> f64 {
        (self.to - self.from).hypot()
    }
}

/// A place is measured between two points only if they are as far apart as the disc is wide; a disc held in a corner, or
/// at the end of its way, touches points nearer to each other, mm.
const OPPOSITE: f64 = 1.0;

/// The narrowest place of every way of an arrangement, and of the ways between neighbouring modules: often a door is the
/// narrowest place of all the others.
pub(in crate::views) fn narrow_places(figures: &Figures<'_>, arrangement: &Arrangement) -> Vec<Narrow> {
    let model = figures.model;
    let here = model.arrangements.iter().position(|other| other.name == arrangement.name);
    let ways = figures
        .measured_ways(arrangement, &between_neighbours(model, arrangement, here.into_iter().collect()))
        .into_iter();
    let opposite = |way: &Way| ((way.across.1 - way.across.0).hypot() - way.width).abs() < OPPOSITE;
    ways.filter(opposite).map(|way| Narrow { name: way.name, from: way.across.0, to: way.across.1 }).collect()
}

/// Routes from each module that people stand at to the next toward the rear.
fn between_neighbours(model: &Model, arrangement: &Arrangement, arrangements: Vec<usize>) -> Vec<Route> {
    let states = model.states(arrangement).enumerate();
    let stands = |state: &PoseState| state.spaces.iter().any(|space| space.need == Need::Standing);
    let standing = states.filter(|(_, (_, state))| stands(state));
    let mut modules: Vec<(usize, &Module)> = standing.map(|(index, (module, _))| (index, module)).collect();
    modules.sort_by(|a, b| a.1.extent.centre().x.total_cmp(&b.1.extent.centre().x));
    let route = |((from, a), (to, b)): (&(usize, &Module), &(usize, &Module))| Route {
        name: format!("{} to {}", a.name, b.name),
        from: RouteEnd::Module(*from),
        to: RouteEnd::Module(*to),
        arrangements: arrangements.clone(),
        least: None,
        span: b.span,
    };
    modules.iter().zip(modules.iter().skip(1)).map(route).collect()
}

/// Draws the narrowest places, near ones once, their figures off what is taken and off anchors; those in an opening have a dimension already.
pub(in crate::views) fn draw(
    scene: &Scene<'_>,
    ways: &[Narrow],
    (taken, anchors): (&mut Taken, &Taken),
    canvas: &mut Canvas,
) {
    let traced = |items: &mut dyn Iterator<Item = &Item>| {
        let mut lines = Raster::new(scene.outside());
        items.for_each(|item| lines.trace(item));
        lines.sums(|cell| cell > 0)
    };
    let lines = traced(&mut canvas.items());
    let marks = traced(&mut canvas.layer(LayerKind::Findings));
    for way in distinct(ways) {
        let (a, b) = (scene.place.to_paper(way.from), scene.place.to_paper(way.to));
        let inside = scene.inside().inflate(0.1, 0.1);
        if !(inside.contains(a) && inside.contains(b)) {
            continue;
        }
        let Some(text) = figure(scene, way, (a, b), [&*taken, anchors], (&lines, &marks)) else { continue };
        taken.add(text_box(&text));
        let mut items = vec![plate(&text, Fill::Paper)];
        items.extend(double_arrow(a, b, LineClass::Dimension));
        items.push(Item::Text(text));
        let title = format!("Width of {}: {} mm", way.name, trimmed(way.width(), 0));
        canvas.group(LayerKind::Dimensions, &format!("width-{}", way.name), &title, items);
    }
}

fn distinct(ways: &[Narrow]) -> Vec<&Narrow> {
    let mut sorted: Vec<&Narrow> = ways.iter().filter(|way| way.width() > 0.0 && way.from != way.to).collect();
    sorted.sort_by(|a, b| rank(a).total_cmp(&rank(b)).then_with(|| a.name.cmp(&b.name)));
    let mut kept: Vec<&Narrow> = Vec::new();
    for way in sorted {
        let middle = way.from.midpoint(way.to);
        let near = |other: &&Narrow| (other.from.midpoint(other.to) - middle).hypot() < NEAR;
        let near = |other: &&Narrow| near(other) || same_gap(other, way);
        let telling = way.width() <= WIDE || kept.is_empty();
        if kept.len() < MOST && telling && !kept.iter().any(near) {
            kept.push(way);
        }
    }
    kept
}

/// Two places across one gap: equally wide, between the same two lines along the box or across it.
fn same_gap(a: &Narrow, b: &Narrow) -> bool {
    let equal = |x: f64, y: f64| (x - y).abs() < 1.0;
    let ends = |way: &Narrow, upright: bool| {
        let (from, to) = if upright { (way.from.y, way.to.y) } else { (way.from.x, way.to.x) };
        (from.min(to), from.max(to))
    };
    equal(a.width(), b.width())
        && [true, false].into_iter().any(|upright| {
            let (p, q) = (ends(a, upright), ends(b, upright));
            equal(p.0, q.0) && equal(p.1, q.1) && equal(p.1 - p.0, a.width())
        })
}

/// Narrow ones first; a slanting one stands back a little, for one straight across is easier to read.
fn rank(way: &Narrow) -> f64 {
    let across = way.to - way.from;
    let slanting = across.x.abs().min(across.y.abs()) > SAME_LENGTH;
    if slanting { way.width() * 1.05 } else { way.width() }
}

/// The figure over its arrow, or under it, or moved along it, where it is free, no mark of a finding is and
/// fewest lines are under it.
fn figure(
    scene: &Scene<'_>,
    way: &Narrow,
    (a, b): (Point, Point),
    taken: [&Taken; 2],
    (lines, marks): (&Sums, &Sums),
) -> Option<Text> {
    let mut along = if a.x <= b.x { b - a } else { a - b };
    if along.x.abs() < SAME_LENGTH {
        along = Vec2::new(0.0, along.y.abs());
    }
    let along = if along.hypot() > 0.0 { along.normalize() } else { Vec2::new(1.0, 0.0) };
    let up = Vec2::new(-along.y, along.x);
    let middle = a.midpoint(b);
    let make = |shift: f64, off: f64| Text {
        at: middle + along * shift + up * off,
        words: trimmed(way.width(), 0),
        height: FIGURE,
        align: Align::Middle,
        turn: along.atan2().to_degrees(),
        inverse: false,
    };
    let inside = scene.inside();
    let half = (b - a).hypot() / 2.0;
    let shares = [0.0, 0.2, -0.2, 0.4, -0.4, 0.6, -0.6, 0.75, -0.75].map(|share| share * half);
    let options = shares.into_iter().chain([half + 4.5, -half - 4.5]).flat_map(|shift| {
        let beyond = if shift.abs() > half { BEYOND } else { 0 };
        [0.8, -FIGURE - 0.8, CLEAR, -FIGURE - CLEAR].map(|off| (beyond, make(shift, off)))
    });
    let free = |place: Rect| {
        let apart = taken.iter().all(|taken| taken.is_free(place));
        inside.contains_rect(place) && apart && marks.within(place).0 == 0
    };
    let free = options.filter(|(_, text)| free(text_box(text)));
    let furniture = furniture(scene);
    let cost = |(beyond, text): &(u32, Text)| {
        let place = text_box(text);
        let covers = furniture.iter().any(|other| place.overlaps(*other));
        beyond + lines.within(place.inflate(0.4, 0.4)).0 + if covers { COVERS } else { 0 }
    };
    free.min_by_key(cost).map(|(_, text)| text)
}

/// What stands, on paper, without what it opens.
fn furniture(scene: &Scene<'_>) -> Vec<Rect> {
    let plan = |state: &PoseState| {
        let standing = state.solids.iter().filter(|solid| level(solid) != Level::Above);
        let whole = standing.map(|solid| solid.prism.bounds().plan()).reduce(|a, b| a.union(b))?;
        Some(scene.place.rect(whole).inset(-0.1))
    };
    scene.model.states(scene.arrangement).filter_map(|(_, state)| plan(state)).collect()
}
