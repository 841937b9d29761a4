//! Findings do not depend on which way round a layout is drawn: mirrored left to right and turned end for end, random
//! layouts give the mirrored findings with the same figures.
//!
//! `LAYOUTS=1000 cargo test --release --test invariance` takes so many layouts; without it 200.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

#[path = "common/generator.rs"]
mod generator;

use boxwright::compile::{Compiled, Options, compile};
use boxwright::diagnostic::{Finding, Mark};
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use generator::plan::{Plan, Way};
use generator::random_layout;
use kurbo::{Affine, Point, Rect, Shape};
use rayon::prelude::*;

/// How many random layouts are tried.
fn layouts() -> usize {
    std::env::var("LAYOUTS").map_or(200, |count| count.parse().unwrap())
}

fn compiled(plan: &Plan) -> Compiled {
    let world = MemoryWorld::default().with("random.yaml", &plan.yaml());
    compile(&world, "random.yaml", &Registry::standard(), &Options::default())
}

/// The plans of the first seeds whose layouts compile, with what was found.
fn valid(count: usize) -> Vec<(Plan, Compiled)> {
    let seeds: Vec<u64> = (0..2 * count as u64).collect();
    let made = seeds.par_iter().map(|seed| {
        let plan = random_layout(*seed);
        let compiled = compiled(&plan);
        (plan, compiled)
    });
    let mut made: Vec<(Plan, Compiled)> = made.filter(|(_, compiled)| compiled.model.is_some()).collect();
    made.truncate(count);
    made
}

/// One finding in one arrangement.
#[derive(Debug, Clone)]
struct Figure {
    about: String,
    measured: f64,
    required: f64,
    marks: Vec<Place>,
}

/// A mark as its bounds, and the length or area that is marked.
#[derive(Debug, Clone)]
struct Place {
    bounds: Rect,
    size: f64,
}

impl Place {
    fn new(mark: &Mark, to: Affine) -> Self {
        let bounds = |points: &[Point]| {
            let start = points.first().map_or(Rect::ZERO, |p| Rect::from_points(*p, *p));
            points.iter().fold(start, |bounds, p| bounds.union_pt(*p))
        };
        match mark {
            Mark::At(p) => Self { bounds: bounds(&[to * *p]), size: 0.0 },
            Mark::Between(a, b) => Self { bounds: bounds(&[to * *a, to * *b]), size: a.distance(*b) },
            Mark::Area(path) => Self { bounds: (to * path.clone()).bounding_box(), size: path.area().abs() },
        }
    }

    fn is(&self, other: &Self) -> bool {
        let (a, b) = (self.bounds, other.bounds);
        [a.x0 - b.x0, a.y0 - b.y0, a.x1 - b.x1, a.y1 - b.y1].iter().all(|off| off.abs() < 0.01)
    }
}

/// The findings, one for each arrangement; marks are moved by `to`.
fn figures(found: &[Finding], to: Affine) -> Vec<Figure> {
    let each = found.iter().flat_map(|one| {
        let none = [String::new()];
        let arrangements = if one.arrangements.is_empty() { none.to_vec() } else { one.arrangements.clone() };
        arrangements.into_iter().map(move |arrangement| Figure {
            about: format!("{} {:?} {} {arrangement}", one.check, one.severity, one.subject),
            measured: one.measured.map_or(0.0, |measure| measure.value),
            required: one.required.as_ref().map_or(0.0, |required| required.measure.value),
            marks: one.marks.iter().map(|mark| Place::new(mark, to)).collect(),
        })
    });
    each.collect()
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-6 * a.abs().max(b.abs()).max(1.0)
}

/// What the two have not in common; and how many marks lie elsewhere although all figures agree.
fn differences(left: Vec<Figure>, mut right: Vec<Figure>) -> (Vec<String>, Vec<String>) {
    let (mut wrong, mut elsewhere) = (Vec::new(), Vec::new());
    for one in left {
        let same = |other: &Figure| {
            one.about == other.about && close(one.measured, other.measured) && close(one.required, other.required)
        };
        let placed = |other: &Figure| {
            one.marks.len() == other.marks.len() && one.marks.iter().zip(&other.marks).all(|(a, b)| a.is(b))
        };
        let exact = right.iter().position(|other| same(other) && placed(other));
        match exact.or_else(|| right.iter().position(same)) {
            Some(at) => {
                let other = right.swap_remove(at);
                if exact.is_none() {
                    elsewhere.push(format!("{one:?}\n  {other:?}"));
                }
            }
            None => wrong.push(format!("only as drawn: {one:?}")),
        }
    }
    wrong.extend(right.iter().map(|other| format!("only the other way round: {other:?}")));
    (wrong, elsewhere)
}

/// Findings of every layout against those of the same layout the other way round.
fn holds(name: &str, other_way: impl Fn(&Plan) -> Plan + Sync, to: impl Fn(&Plan) -> Affine + Sync) {
    let compared = valid(layouts()).into_par_iter().map(|(plan, as_drawn)| {
        let other = compiled(&other_way(&plan));
        if other.model.is_none() {
            return (plan, 0, vec![format!("{:?}", other.errors.errors())], Vec::new());
        }
        let drawn = figures(&as_drawn.findings, Affine::IDENTITY);
        let count = drawn.len();
        let (wrong, elsewhere) = differences(drawn, figures(&other.findings, to(&plan)));
        (plan, count, wrong, elsewhere)
    });
    let compared: Vec<_> = compared.collect();
    let wrong: Vec<String> = compared
        .iter()
        .filter(|(_, _, wrong, _)| !wrong.is_empty())
        .map(|(plan, _, wrong, _)| format!("{}\n{}", plan.title, wrong.join("\n")))
        .collect();
    let all: usize = compared.iter().map(|(_, count, _, _)| count).sum();
    let elsewhere: Vec<String> = compared
        .iter()
        .flat_map(|(plan, _, _, elsewhere)| elsewhere.iter().map(move |one| format!("{}: {one}", plan.title)))
        .collect();
    let show = std::env::var_os("SHOW").is_some();
    if show {
        elsewhere.iter().for_each(|one| println!("{one}"));
    }
    println!("{name}: {} layouts, {all} findings, {} marked elsewhere", compared.len(), elsewhere.len());
    assert!(wrong.is_empty(), "{} of {} layouts\n{}", wrong.len(), compared.len(), wrong.join("\n"));
}

#[test]
fn mirrored_layouts_have_mirrored_findings() {
    let to = |plan: &Plan| Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, plan.width]);
    holds("mirrored", |plan| plan.flipped(Way::Y), to);
}

#[test]
fn turned_layouts_have_turned_findings() {
    let to = |plan: &Plan| Affine::new([-1.0, 0.0, 0.0, -1.0, plan.length, plan.width]);
    holds("turned", |plan| plan.flipped(Way::X).flipped(Way::Y), to);
}
