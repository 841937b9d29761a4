//! Findings do not depend on which way round a layout is drawn: mirrored left to right, and turned end for end, random
//! layouts have the mirrored findings with the same figures.
//!
//! `LAYOUTS=1000 cargo test --release --test invariance` takes so many valid layouts; without it 200.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

#[path = "common/generator.rs"]
mod generator;

use boxwright::compile::{Compiled, Options, read, run_checks};
use boxwright::diagnostic::{Finding, Mark, Severity};
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use generator::plan::{Plan, Way};
use generator::random_layout;
use kurbo::{Affine, Point, Rect, Shape};
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::sync::OnceLock;

/// How many valid layouts are wanted.
fn wanted() -> usize {
    std::env::var("LAYOUTS").map_or(200, |count| count.parse().unwrap())
}

fn compiled(plan: &Plan) -> Compiled {
    let world = MemoryWorld::default().with("random.yaml", &plan.yaml());
    let mut compiled = read(&world, "random.yaml", &Registry::standard(), &Options::default());
    compiled.findings = compiled.model.iter().flat_map(|model| run_checks(model, &Registry::standard())).collect();
    compiled
}

/// The plans of the first seeds whose layouts compile, with their findings.
fn valid() -> &'static [(Plan, Compiled)] {
    static MADE: OnceLock<Vec<(Plan, Compiled)>> = OnceLock::new();
    MADE.get_or_init(|| {
        let tried = (wanted() + wanted() / 20 + 5) as u64;
        let one = |seed| {
            let plan = random_layout(seed);
            let compiled = compiled(&plan);
            (plan, compiled)
        };
        let made: Vec<(Plan, Compiled)> = (0..tried).into_par_iter().map(one).collect();
        let made = made.into_iter().filter(|(_, compiled)| compiled.model.is_some() && compiled.errors.is_empty());
        made.take(wanted()).collect()
    })
}

#[test]
fn random_layouts_compile_and_have_findings_of_every_kind() {
    assert_eq!(valid().len(), wanted(), "more than one in twenty does not compile");
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    valid()
        .iter()
        .flat_map(|(_, compiled)| &compiled.findings)
        .for_each(|one| *counts.entry(&*one.key.check).or_default() += 1);
    let registry = Registry::standard();
    // Random layouts have no loads, and their doors no sill.
    let others = ["room-taken", "sill-step"];
    let names = registry.checks.iter().map(|check| check.name()).filter(|name| !others.contains(name));
    let first = names.take(10).collect::<Vec<_>>();
    assert!(first.iter().all(|name| counts.contains_key(name)), "{counts:?}");
    assert_eq!(random_layout(7).yaml(), random_layout(7).yaml());
}

/// One finding in one arrangement.
#[derive(Debug, Clone)]
struct Figure {
    about: String,
    measured: f64,
    required: f64,
    marks: Vec<Rect>,
}

fn bounds(mark: &Mark, to: Affine) -> Rect {
    let around = |a: Point, b: Point| Rect::from_points(to * a, to * b);
    match mark {
        Mark::At(p) => around(*p, *p),
        Mark::Between(a, b) => around(*a, *b),
        Mark::Area(path) => (to * path.clone()).bounding_box(),
    }
}

/// The findings, one for each arrangement; marks are moved by `to`.
fn figures(found: &[Finding], to: Affine) -> Vec<Figure> {
    let each = found.iter().flat_map(|one| {
        let none = vec![String::new()];
        let arrangements = if one.arrangements.is_empty() { none } else { one.arrangements.clone() };
        // Of what is met only the tightest is told, and of several as tight any.
        let told = if one.severity == Severity::Met { 1 } else { arrangements.len() };
        arrangements.into_iter().take(told).map(move |arrangement| Figure {
            about: match one.severity {
                Severity::Met => format!("{} met", one.key.check),
                _ => format!("{} {:?} {} {arrangement}", one.key.check, one.severity, one.key.subject),
            },
            measured: one.measured.map_or(0.0, |measure| measure.value),
            required: one.required.as_ref().map_or(0.0, boxwright::diagnostic::Requirement::value),
            marks: one.marks.iter().map(|mark| bounds(mark, to)).collect(),
        })
    });
    each.collect()
}

/// Places are on a grid of 0.001 mm, and each layout is put on it as it is drawn.
fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 0.005 + 1e-6 * a.abs().max(b.abs())
}

impl Figure {
    fn says_the_same(&self, other: &Self) -> bool {
        self.about == other.about && close(self.measured, other.measured) && close(self.required, other.required)
    }

    fn marks_the_same(&self, other: &Self) -> bool {
        let near = |(a, b): (&Rect, &Rect)| {
            [a.x0 - b.x0, a.y0 - b.y0, a.x1 - b.x1, a.y1 - b.y1].iter().all(|off| off.abs() < 0.01)
        };
        self.marks.len() == other.marks.len() && self.marks.iter().zip(&other.marks).all(near)
    }

    /// Whether several places may have this same figure: equally narrow or low ones, equal solids, sleepers side by side,
    /// and what a shut leaf touches.
    fn may_lie_elsewhere(&self) -> bool {
        let met = self.about.ends_with(" met");
        let stuck = self.about.starts_with("swing") && close(self.measured, 0.0);
        let shared = ["no-overlap", "walkway", "headroom", "bed-access", "bed-headroom", "wet-room", "moves-clash"];
        met || stuck || self.about.split(' ').next().is_some_and(|check| shared.contains(&check))
    }
}

/// What the two do not have in common; how many marks lie elsewhere although all figures agree.
fn differences(drawn: Vec<Figure>, mut other: Vec<Figure>) -> (Vec<String>, usize) {
    let (mut wrong, mut elsewhere) = (Vec::new(), 0);
    for one in drawn {
        let exact = other.iter().position(|found| one.says_the_same(found) && one.marks_the_same(found));
        let found = exact.or_else(|| other.iter().position(|found| one.says_the_same(found)));
        match found.map(|at| other.swap_remove(at)) {
            Some(_) if exact.is_some() => {}
            Some(_) if one.may_lie_elsewhere() => elsewhere += 1,
            Some(found) => wrong.push(format!("marked elsewhere: {one:?}\n  {found:?}")),
            None => wrong.push(format!("only as drawn: {one:?}")),
        }
    }
    wrong.extend(other.iter().map(|found| format!("only the other way round: {found:?}")));
    (wrong, elsewhere)
}

/// Compares every layout with itself the other way round; `to` takes a place of the other way back.
fn holds(other_way: impl Fn(&Plan) -> Plan + Sync, to: impl Fn(&Plan) -> Affine + Sync) {
    let compared = valid().par_iter().map(|(plan, as_drawn)| {
        let other = compiled(&other_way(plan));
        let errors = other.errors.errors().iter().map(|error| error.message.clone());
        let drawn = figures(&as_drawn.findings, Affine::IDENTITY);
        let count = drawn.len();
        let (wrong, elsewhere) = differences(drawn, figures(&other.findings, to(plan)));
        let wrong: Vec<String> = errors.chain(wrong).map(|what| format!("{}: {what}", plan.title)).collect();
        (wrong, elsewhere, count)
    });
    let compared: Vec<(Vec<String>, usize, usize)> = compared.collect();
    let wrong: Vec<&str> = compared.iter().flat_map(|one| &one.0).map(String::as_str).collect();
    assert!(wrong.is_empty(), "{} differ\n{}", wrong.len(), wrong.join("\n"));
    let elsewhere: usize = compared.iter().map(|one| one.1).sum();
    let all: usize = compared.iter().map(|one| one.2).sum();
    assert!(elsewhere * 12 < all && all > 5 * wanted(), "{elsewhere} of {all} are marked elsewhere");
}

#[test]
fn mirrored_layouts_have_mirrored_findings() {
    holds(|plan| plan.flipped(Way::Y), |plan| Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, plan.width]));
}

#[test]
fn turned_layouts_have_turned_findings() {
    let turned = |plan: &Plan| plan.flipped(Way::X).flipped(Way::Y);
    holds(turned, |plan| Affine::new([-1.0, 0.0, 0.0, -1.0, plan.length, plan.width]));
}

/// A layout that takes another one mirrored or turned has what the other way round has, and nothing else.
fn taken(words: &str, ways: &[Way]) {
    let differ =
        valid().iter().filter(|(_, drawn)| drawn.errors.errors().is_empty()).take(60).filter_map(|(plan, _)| {
            let turned = ways.iter().fold(plan.clone(), |plan, way| plan.flipped(*way));
            let taken = format!("boxwright: 1\nextends: {{ file: random.yaml, {words} }}\ntitle: {}\n", plan.title);
            let world = MemoryWorld::default().with("random.yaml", &plan.yaml()).with("taken.yaml", &taken);
            let of = read(&world, "taken.yaml", &Registry::standard(), &Options::default());
            let errors: Vec<String> = of.errors.errors().iter().map(|error| error.message.clone()).collect();
            let found: Vec<Finding> =
                of.model.iter().flat_map(|model| run_checks(model, &Registry::standard())).collect();
            let drawn = figures(&compiled(&turned).findings, Affine::IDENTITY);
            let (wrong, elsewhere) = differences(drawn, figures(&found, Affine::IDENTITY));
            (elsewhere > 0 || !wrong.is_empty() || !errors.is_empty())
                .then(|| format!("{}: {wrong:?} {errors:?}", plan.title))
        });
    let differ: Vec<String> = differ.collect();
    assert!(differ.is_empty(), "{}", differ.join("\n"));
}

#[test]
fn taken_mirrored_is_drawn_mirrored() {
    taken("mirror: yes", &[Way::Y]);
}

#[test]
fn taken_turned_is_drawn_turned() {
    taken("turn: yes", &[Way::X, Way::Y]);
    taken("turn: yes, mirror: yes", &[Way::X]);
}

#[test]
fn a_difference_is_seen() {
    let figure = |about: &str, measured, x| {
        let marks = vec![Rect::new(x, 0.0, x + 10.0, 10.0)];
        Figure { about: about.to_owned(), measured, required: 500.0, marks }
    };
    let drawn = || vec![figure("walkway", 480.0, 0.0), figure("slide", 200.0, 0.0)];
    let seen = |other: Vec<Figure>| {
        let (wrong, elsewhere) = differences(drawn(), other);
        (wrong.len(), elsewhere)
    };
    assert_eq!(seen(drawn()), (0, 0));
    assert_eq!(seen(vec![figure("slide", 200.0, 0.0), figure("walkway", 480.0, 5.0)]), (0, 1));
    assert_eq!(seen(vec![figure("walkway", 480.0, 0.0), figure("slide", 200.0, 0.1)]), (1, 0));
    assert_eq!(seen(vec![figure("walkway", 480.1, 0.0), figure("slide", 200.0, 0.0)]), (2, 0));
    assert_eq!(seen(vec![figure("walkway", 480.0, 0.0)]), (1, 0));
}
