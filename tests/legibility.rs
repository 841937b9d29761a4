//! Every text of every sheet can be read: no other text on it, no line through it, nothing over it.
//!
//! Common practice, no source: ISO 129-1 asks it of dimension figures only. A line may pass under a text where an area
//! drawn between the two hides it, and the pale pattern of the brochure's floor may. `LAYOUTS=1000 cargo test --release --test legibility` takes a twentieth of so many
//! random layouts; without it 6.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

#[path = "common/mod.rs"]
mod common;
#[path = "common/generator.rs"]
mod generator;

use boxwright::checks::ran;
use boxwright::compile::{Compiled, Options, produce, read, run_checks};
use boxwright::drawing::{Align, Fill, Item, LineClass, Sheet, Text, text_width};
use boxwright::model::PaperSize;
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use common::{directly_in, world, yaml_files};
use kurbo::{Affine, BezPath, PathEl, Point, Rect, Shape};
use rayon::prelude::*;

/// Boxes may touch by so much, mm: less than the width of the thinnest line.
const TOUCH: f64 = 0.1;
/// Characters with ink below the base line.
const BELOW: &str = "gjpqyQJ,;()[]{}@_|$çşţ/\\";

/// Sheets of all kinds.
const SHEETS: [&str; 4] = [
    "{ paper: A3 }",
    "{ paper: A4 }",
    "{ paper: A4, orientation: portrait, projection: third }",
    "{ paper: A3, orientation: portrait, figures: mm+inch }",
];

/// Kinds that are drawn only when asked for.
const ASKED: [&str; 4] = [
    "{ only: [assembly, parts], paper: A3 }",
    "{ only: [assembly, parts], paper: A4, orientation: portrait }",
    "{ only: [assembly, parts], paper: A4 }",
    "{ only: [parts], paper: A2, figures: mm+inch }",
];

/// A text with its box: where its ink is when it stands unturned at the origin, and the way from paper to there.
struct Letters<'a> {
    text: &'a Text,
    order: usize,
    ink: Rect,
    to_ink: Affine,
    bounds: Rect,
}

/// A drawn line piece.
struct Stroke {
    ends: [Point; 2],
    order: usize,
    class: LineClass,
    group: String,
}

/// A filled area.
struct Area<'a> {
    shape: &'a BezPath,
    bounds: Rect,
    order: usize,
    fill: Fill,
}

#[derive(Default)]
struct Seen<'a> {
    letters: Vec<Letters<'a>>,
    strokes: Vec<Stroke>,
    areas: Vec<Area<'a>>,
    order: usize,
}

impl<'a> Seen<'a> {
    fn of(sheet: &'a Sheet) -> Self {
        let mut seen = Self::default();
        for layer in sheet.views.iter().flat_map(|view| &view.layers) {
            seen.add(&layer.items, layer.kind.name());
        }
        seen
    }

    fn add(&mut self, items: &'a [Item], group: &str) {
        for item in items {
            self.order += 1;
            match item {
                Item::Group(group) => self.add(&group.items, &group.id),
                Item::Text(text) => self.letters.push(letters(text, self.order)),
                Item::Path(path) => {
                    let (shape, order) = (&path.shape, self.order);
                    if let Some(fill) = path.fill {
                        self.areas.push(Area { shape, bounds: shape.bounding_box(), order, fill });
                    }
                    if let Some(class) = path.line {
                        let stroke = |ends| Stroke { ends, order, class, group: group.to_owned() };
                        self.strokes.extend(segments(shape).into_iter().map(stroke));
                    }
                }
            }
        }
    }

    /// What is wrong with the texts.
    fn complaints(&self) -> Vec<String> {
        let mut wrong = Vec::new();
        for (index, letters) in self.letters.iter().enumerate() {
            let others = self.letters.iter().skip(index + 1).filter(|other| letters.touches(other));
            wrong.extend(others.map(|other| format!("{} is on {}", letters.name(), other.name())));
            let crossing = self.strokes.iter().find(|stroke| self.crosses(stroke, letters));
            wrong.extend(crossing.map(|stroke| {
                format!("{} is crossed by a line {:?} of {}", letters.name(), stroke.class, stroke.group)
            }));
            let covering = self.areas.iter().find(|area| area.order > letters.order && letters.is_under(area));
            wrong.extend(covering.map(|area| format!("{} is covered by {:?}", letters.name(), area.fill)));
        }
        wrong
    }

    /// A line runs through the ink's box and can be seen there.
    fn crosses(&self, stroke: &Stroke, letters: &Letters<'_>) -> bool {
        let [a, b] = stroke.ends;
        if stroke.class == LineClass::Floor || !Rect::from_points(a, b).inflate(TOUCH, TOUCH).overlaps(letters.bounds) {
            return false;
        }
        let [p, q] = [letters.to_ink * a, letters.to_ink * b];
        let Some((from, to)) = inside(p, q, letters.ink) else { return false };
        let shown = |share: f64| {
            let point = a.lerp(b, from + (to - from) * share);
            let between = |area: &&Area<'_>| area.order > stroke.order && area.order < letters.order;
            !self.areas.iter().filter(between).any(|area| area.bounds.contains(point) && area.shape.contains(point))
        };
        [0.05, 0.35, 0.65, 0.95].into_iter().any(shown)
    }
}

impl Letters<'_> {
    fn name(&self) -> String {
        format!("`{}` at {:.1}, {:.1}", self.text.words, self.text.at.x, self.text.at.y)
    }

    fn corners(&self) -> [Point; 4] {
        let Rect { x0, y0, x1, y1 } = self.ink;
        [(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(|corner| self.to_ink.inverse() * Point::from(corner))
    }

    fn touches(&self, other: &Self) -> bool {
        if !self.bounds.overlaps(other.bounds) {
            return false;
        }
        let corners = other.corners();
        let edges = (0..4).map(|i| [corners[i], corners[(i + 1) % 4]]);
        let mut edges = edges.map(|ends| ends.map(|end| self.to_ink * end));
        let within = other.ink.contains(other.to_ink * self.corners()[0].midpoint(self.corners()[2]));
        within || edges.any(|[a, b]| inside(a, b, self.ink).is_some())
    }

    fn is_under(&self, area: &Area<'_>) -> bool {
        let corners = self.corners();
        let middle = corners[0].midpoint(corners[2]);
        area.bounds.overlaps(self.bounds)
            && corners.into_iter().chain([middle]).any(|p| area.shape.contains(p.lerp(middle, 0.1)))
    }
}

fn letters(text: &Text, order: usize) -> Letters<'_> {
    let (width, height) = (text_width(&text.words, text.height), text.height);
    let left = match text.align {
        Align::Start => 0.0,
        Align::Middle => -width / 2.0,
        Align::End => -width,
    };
    let below = if text.words.chars().any(|c| BELOW.contains(c)) { 0.334 } else { 0.0 };
    let ink = Rect::new(left, -below * height, left + width, 1.08 * height).inset(-TOUCH);
    let to_ink = Affine::rotate(-text.turn.to_radians()) * Affine::translate(-text.at.to_vec2());
    Letters { text, order, ink, to_ink, bounds: to_ink.inverse().transform_rect_bbox(ink) }
}

fn segments(shape: &BezPath) -> Vec<[Point; 2]> {
    let (mut all, mut start, mut last) = (Vec::new(), Point::ZERO, Point::ZERO);
    kurbo::flatten(shape, 0.02, |element| match element {
        PathEl::MoveTo(point) => (start, last) = (point, point),
        PathEl::LineTo(point) => {
            all.push([last, point]);
            last = point;
        }
        PathEl::ClosePath => {
            all.push([last, start]);
            last = start;
        }
        _ => {}
    });
    all
}

/// The part of a straight line inside a rectangle, as shares of its length (Liang and Barsky).
fn inside(a: Point, b: Point, rect: Rect) -> Option<(f64, f64)> {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (start, way, low, high) in [(a.x, b.x - a.x, rect.x0, rect.x1), (a.y, b.y - a.y, rect.y0, rect.y1)] {
        if way.abs() < 1e-12 {
            if start <= low || start >= high {
                return None;
            }
            continue;
        }
        let (p, q) = ((low - start) / way, (high - start) / way);
        (from, to) = (from.max(p.min(q)), to.min(p.max(q)));
    }
    (from < to).then_some((from, to))
}

/// Compiles without suggestions, which sheets do not need to be legible.
fn compiled(world: &MemoryWorld, path: &str) -> Option<Compiled> {
    let registry = Registry::standard();
    let mut compiled = read(world, path, &registry, &Options::default());
    let model = compiled.model.as_ref()?;
    compiled.checks = registry.checks.iter().map(|check| ran(check.as_ref(), model)).collect();
    compiled.findings = run_checks(model, &registry);
    Some(compiled)
}

fn complaints(name: &str, compiled: &Compiled) -> Vec<String> {
    let sheets = produce(compiled).unwrap().sheets;
    let of = |sheet: &Sheet| {
        let wrong = Seen::of(sheet).complaints().into_iter();
        wrong.map(|wrong| format!("{name}, {} ({}): {wrong}", sheet.id, sheet.paper.name)).collect::<Vec<_>>()
    };
    sheets.par_iter().flat_map_iter(of).collect()
}

fn none(wrong: &[String]) {
    assert!(wrong.is_empty(), "{} texts can't be read\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn every_text_of_the_demos_can_be_read() {
    let files = yaml_files("layouts");
    let on = |sheets: &str| {
        let file = |(path, text): &(String, String)| (path.clone(), format!("{text}\nsheets: {sheets}\n"));
        let files: Vec<(String, String)> = files.iter().map(file).collect();
        let world = world(&files);
        let of = |(path, _): &(String, String)| complaints(path, &compiled(&world, path).unwrap());
        directly_in(&files, "layouts/").flat_map(of).collect::<Vec<_>>()
    };
    none(&SHEETS.into_iter().chain(ASKED).flat_map(on).collect::<Vec<_>>());
}

#[test]
fn every_text_of_random_layouts_can_be_read() {
    let count = std::env::var("LAYOUTS").map_or(120, |count| count.parse::<u64>().unwrap()) / 20;
    let of = |seed: u64| {
        let sheets = if seed % 7 > 3 { ASKED[(seed % 4) as usize] } else { SHEETS[(seed % 4) as usize] };
        let text = format!("{}\nsheets: {sheets}\n", generator::random_layout(seed).yaml());
        let world = MemoryWorld::default().with("random.yaml", &text);
        compiled(&world, "random.yaml").map_or_else(Vec::new, |compiled| complaints(&format!("seed {seed}"), &compiled))
    };
    none(&(9000..9000 + count).into_par_iter().flat_map_iter(of).collect::<Vec<_>>());
}

/// The test itself: a line through a text, one that is hidden, one that only passes, a text on a text, a cover.
#[test]
fn overlaps_are_noticed() {
    use boxwright::drawing::{Layer, LayerKind, Paper, View};
    let text = |x: f64, y: f64| Item::text(Point::new(x, y), "Holm", 2.5, Align::Start);
    let line = |y: f64| Item::segment(Point::new(0.0, y), Point::new(90.0, y), LineClass::Detail);
    let paper = || Item::area(Rect::new(10.0, 8.0, 30.0, 14.0).to_path(0.1), None, Fill::Paper);
    let count = |items: Vec<Item>| {
        let view = View {
            id: "v".into(),
            title: String::new(),
            scale: None,
            layers: vec![Layer { kind: LayerKind::Notes, items }],
        };
        let paper = Paper::landscape(PaperSize::A4);
        Seen::of(&Sheet {
            id: "s".into(),
            title: String::new(),
            paper,
            views: vec![view],
            look: boxwright::drawing::Look::default(),
        })
        .complaints()
        .len()
    };
    assert_eq!(count(vec![line(11.0), text(12.0, 10.0)]), 1);
    assert_eq!(count(vec![text(12.0, 10.0), line(11.0)]), 1);
    assert_eq!(count(vec![line(11.0), paper(), text(12.0, 10.0)]), 0);
    assert_eq!(count(vec![paper(), line(11.0), text(12.0, 10.0)]), 1);
    assert_eq!(count(vec![line(9.9), line(12.8), text(12.0, 10.0)]), 0);
    assert_eq!(count(vec![text(12.0, 10.0), text(14.0, 11.0)]), 1);
    assert_eq!(count(vec![text(12.0, 10.0), paper()]), 1);
}
