//! What must hold when a layout changes a little: a module moved out of the way never narrows a way, a solid that grows
//! never gives room, and a solid in two pieces is still the same solid. On random layouts.
//!
//! `LAYOUTS=1000 cargo test --release --test properties` takes a quarter of so many; without it 50.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

#[path = "common/generator.rs"]
mod generator;

use boxwright::checks::measured_ways;
use boxwright::compile::{Options, read, run_checks};
use boxwright::diagnostic::{Finding, Severity};
use boxwright::geometry::{Axis, Box3, Polygon, Prism};
use boxwright::model::{Model, Module, Solid, Wall};
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use generator::{Random, random_layout};
use kurbo::Rect;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// Two steps of the grid that widths are measured on, mm.
const SLACK: f64 = 0.01;

/// The models of random layouts, with a row of random figures for each.
fn models() -> Vec<(Model, Random)> {
    let count = std::env::var("LAYOUTS").map_or(200, |count| count.parse::<u64>().unwrap()) / 4;
    let model = |seed| {
        let world = MemoryWorld::default().with("random.yaml", &random_layout(seed).yaml());
        let compiled = read(&world, "random.yaml", &Registry::standard(), &Options::default());
        compiled.model.map(|model| (model, Random::new(seed + 77)))
    };
    (5000..5000 + count).into_par_iter().filter_map(model).collect()
}

/// The widths of all ways in all arrangements: for each name, narrowest last. Ways that cannot be gone are not there.
fn widths(model: &Model) -> BTreeMap<String, Vec<f64>> {
    let mut widths: BTreeMap<String, Vec<f64>> = BTreeMap::new();
    for arrangement in &model.arrangements {
        for way in measured_ways(model, arrangement) {
            let goal = way.name.split(" to ").last().unwrap().to_owned();
            widths.entry(format!("{} to {goal}", arrangement.name)).or_default().push(way.width);
        }
    }
    widths.values_mut().for_each(|widths| widths.sort_by(|a, b| b.total_cmp(a)));
    widths
}

/// Complains where a way is narrower in `after` than in `before`.
fn narrowed(before: &Model, after: &Model) -> Vec<String> {
    let after = widths(after);
    let known = widths(before).into_iter().flat_map(|(name, widths)| {
        let now = after.get(&name).cloned().unwrap_or_default();
        let now = now.into_iter().chain(std::iter::repeat(0.0));
        widths.into_iter().zip(now).map(move |(was, is)| (name.clone(), was, is)).collect::<Vec<_>>()
    });
    known.filter(|(_, was, is)| *is < was - SLACK).map(|(name, was, is)| format!("{name}: {was} to {is}")).collect()
}

/// The solids of all poses of one module, made anew.
fn with_solids(model: &Model, module: usize, make: impl Fn(&Module, Vec<Solid>) -> Vec<Solid>) -> Model {
    let mut model = model.clone();
    let unchanged = model.modules[module].clone();
    for state in &mut model.modules[module].poses {
        state.solids = make(&unchanged, std::mem::take(&mut state.solids));
    }
    model
}

fn none(wrong: &[String]) {
    assert!(wrong.is_empty(), "{}\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn a_module_moved_away_never_narrows_a_way() {
    // A block at a side wall goes into that wall: it takes less of the floor and nothing new.
    let one = |(model, mut random): (Model, Random)| {
        let width = model.space.width;
        let at_wall = |(_, module): &(usize, &Module)| match module.faces {
            Wall::Right => module.extent.y.0 == 0.0,
            Wall::Left => module.extent.y.1 == width,
            _ => false,
        };
        let modules: Vec<usize> = model.modules.iter().enumerate().filter(at_wall).map(|(at, _)| at).collect();
        let tried = modules.into_iter().flat_map(|at| {
            let by = random.whole(1, 300) * if model.modules[at].faces == Wall::Right { -1.0 } else { 1.0 };
            let block = |by: f64| {
                with_solids(&model, at, move |module, solids| {
                    let prism = Prism::from(module.extent.moved(Axis::Y, by));
                    solids.into_iter().take(1).map(|solid| Solid { prism: prism.clone(), ..solid }).collect()
                })
            };
            let name = &model.modules[at].name;
            narrowed(&block(0.0), &block(by))
                .into_iter()
                .map(|what| format!("{name} by {by}: {what}"))
                .collect::<Vec<_>>()
        });
        tried.map(|what| format!("{}: {what}", model.title.title)).collect::<Vec<_>>()
    };
    none(&models().into_par_iter().flat_map_iter(one).collect::<Vec<_>>());
}

/// Findings of one check with the first words of their message, up to `until`, each with its least figure.
fn least(found: &[Finding], check: &str, until: &str) -> BTreeMap<String, f64> {
    let mut least = BTreeMap::new();
    for one in found.iter().filter(|one| one.check == check && one.message.contains(until)) {
        let of = one.message.split(until).next().unwrap();
        for arrangement in &one.arrangements {
            let measured = one.measured.map_or(0.0, |measure| measure.value);
            let known = least.entry(format!("{check} {arrangement} {of}")).or_insert(measured);
            *known = measured.min(*known);
        }
    }
    least
}

/// What a check says that tells how far things open, travel and hold.
fn freedom(found: &[Finding]) -> BTreeMap<String, f64> {
    let checks = [("swing", " opens "), ("slide", " slides "), ("boot-volume", " holds ")];
    checks.into_iter().flat_map(|(check, until)| least(found, check, until)).collect()
}

fn about(found: &[Finding], check: &str) -> BTreeSet<(String, String)> {
    let of = found.iter().filter(|one| one.check == check);
    of.flat_map(|one| one.arrangements.iter().map(|name| (name.clone(), one.subject.clone()))).collect()
}

#[test]
fn a_solid_that_grows_never_gives_room() {
    let one = |(model, mut random): (Model, Random)| {
        let (module, by) = ((random.next() % model.modules.len() as u64) as usize, random.whole(1, 80));
        let which = random.next() as usize;
        let grown = with_solids(&model, module, |_, mut solids| {
            let at = which % solids.len().max(1);
            if let Some(solid) = solids.get_mut(at) {
                let Box3 { x, y, z } = solid.prism.bounds();
                let wide = |range: (f64, f64)| (range.0 - by, range.1 + by);
                solid.prism = Prism::from(Box3 { x: wide(x), y: wide(y), z: (z.0, z.1 + by) });
            }
            solids
        });
        let mut wrong = narrowed(&grown, &model);
        let (before, after) = (run_checks(&model, &Registry::standard()), run_checks(&grown, &Registry::standard()));
        let now = freedom(&after);
        for (of, was) in freedom(&before) {
            if now.get(&of).is_none_or(|is| *is > was + SLACK) {
                wrong.push(format!("{of}: {was} to {:?}", now.get(&of)));
            }
        }
        for check in ["no-overlap", "inside-box"] {
            let now = about(&after, check);
            wrong.extend(
                about(&before, check)
                    .into_iter()
                    .filter(|one| !now.contains(one))
                    .map(|one| format!("{one:?} is gone")),
            );
        }
        let name = &model.modules[module].name;
        wrong.into_iter().map(|what| format!("{}: {name} by {by}: {what}", model.title.title)).collect::<Vec<_>>()
    };
    none(&models().into_par_iter().flat_map_iter(one).collect::<Vec<_>>());
}

/// A solid in two pieces side by side; whole where it has neither a direction along the floor nor a square outline.
fn in_two(solid: &Solid) -> Vec<Solid> {
    let with = |prism: Prism| Solid { prism, curve: None, ..solid.clone() };
    let prism = &solid.prism;
    let middle = |low: f64, high: f64| (f64::midpoint(low, high) * 1000.0).round() / 1000.0;
    if prism.axis != Axis::Z {
        let at = middle(prism.low, prism.high);
        return vec![with(Prism { high: at, ..prism.clone() }), with(Prism { low: at, ..prism.clone() })];
    }
    let plan = prism.outline.bounds();
    if prism.outline.points().len() != 4 || (prism.outline.area() - plan.area()).abs() > 1e-6 {
        return vec![solid.clone()];
    }
    let at = middle(plan.x0, plan.x1);
    let half = |rect: Rect| with(Prism { outline: Polygon::rect(rect), ..prism.clone() });
    vec![half(Rect { x1: at, ..plan }), half(Rect { x0: at, ..plan })]
}

/// Every finding with its figure, in each arrangement. Of checks that measure single solids only what they are about.
fn all_figures(found: &[Finding]) -> Vec<String> {
    let single = ["no-overlap", "inside-box"];
    let mut figures: Vec<String> = found
        .iter()
        .filter(|one| one.severity != Severity::Note)
        .flat_map(|one| {
            let measured = one.measured.filter(|_| !single.contains(&one.check)).map_or(0.0, |measure| measure.value);
            let figure = format!("{} {:?} {} {measured:.4}", one.check, one.severity, one.subject);
            one.arrangements.iter().map(move |name| format!("{name} {figure}"))
        })
        .collect();
    figures.sort();
    figures.dedup();
    figures
}

#[test]
fn a_solid_in_two_pieces_changes_nothing() {
    let one = |(model, _): (Model, Random)| {
        let mut split = model.clone();
        for state in split.modules.iter_mut().flat_map(|module| &mut module.poses) {
            state.solids = state.solids.iter().flat_map(in_two).collect();
        }
        let [before, after] = [&model, &split].map(|model| all_figures(&run_checks(model, &Registry::standard())));
        let gone = before.iter().filter(|one| !after.contains(one)).map(|one| format!("gone: {one}"));
        let new = after.iter().filter(|one| !before.contains(one)).map(|one| format!("new: {one}"));
        gone.chain(new).map(|what| format!("{}: {what}", model.title.title)).collect::<Vec<_>>()
    };
    none(&models().into_par_iter().flat_map_iter(one).collect::<Vec<_>>());
}
