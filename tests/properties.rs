//! What must hold when a layout changes a little: a module moved out of the way never narrows a way, a solid that grows
//! never gives room, and a solid in two pieces is still the same solid. On random layouts.
//!
//! `LAYOUTS=1000 cargo test --release --test properties` takes a quarter of so many; without it 50.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

#[path = "common/generator.rs"]
mod generator;

use boxwright::base::memo::Memo;
use boxwright::compile::{Options, read, run_checks};
use boxwright::diagnostic::{Finding, Severity};
use boxwright::figures::Figures;
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
    let memo = Memo::default();
    let figures = Figures::new(model, &memo);
    for arrangement in &model.arrangements {
        for way in figures.measured_ways(arrangement, &[]) {
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

/// Looks at every model; fails with all complaints, or if no more than `least` things have changed at all.
fn holds(least: usize, look: impl Fn(Model, Random) -> (Vec<String>, usize) + Sync) {
    let one = |(model, random): (Model, Random)| {
        let title = model.title.title.clone();
        let (wrong, changed) = look(model, random);
        (wrong.into_iter().map(|what| format!("{title}: {what}")).collect::<Vec<_>>(), changed)
    };
    let all: Vec<(Vec<String>, usize)> = models().into_par_iter().map(one).collect();
    let wrong: Vec<&str> = all.iter().flat_map(|one| &one.0).map(String::as_str).collect();
    assert!(wrong.is_empty(), "{}\n{}", wrong.len(), wrong.join("\n"));
    let changed: usize = all.iter().map(|one| one.1).sum();
    assert!(changed > least, "only {changed} have changed");
}

#[test]
fn a_module_moved_away_never_narrows_a_way() {
    // A block at a side wall goes into that wall: it takes less of the floor and nothing new.
    holds(20, |model, mut random| {
        let width = model.space.width;
        let at_wall = |(_, module): &(usize, &Module)| match module.faces {
            Wall::Right => module.extent.y.0 == 0.0,
            Wall::Left => module.extent.y.1 == width,
            _ => false,
        };
        let modules: Vec<usize> = model.modules.iter().enumerate().filter(at_wall).map(|(at, _)| at).collect();
        let (mut wrong, mut changed) = (Vec::new(), 0);
        for at in modules {
            let by = random.whole(1, 300) * if model.modules[at].faces == Wall::Right { -1.0 } else { 1.0 };
            let block = |by: f64| {
                with_solids(&model, at, move |module, solids| {
                    let prism = Prism::from(module.extent.moved(Axis::Y, by));
                    solids.into_iter().take(1).map(|solid| Solid { prism: prism.clone(), ..solid }).collect()
                })
            };
            let (near, away) = (block(0.0), block(by));
            let name = &model.modules[at].name;
            wrong.extend(narrowed(&near, &away).into_iter().map(|what| format!("{name} by {by}: {what}")));
            changed += narrowed(&away, &near).len();
        }
        (wrong, changed)
    });
}

/// Findings of one check with the first words of their message, up to `until`, each with its least figure.
fn least(found: &[Finding], check: &str, until: &str) -> BTreeMap<String, f64> {
    let mut least = BTreeMap::new();
    for one in found.iter().filter(|one| one.key.check == check && one.message.contains(until)) {
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
    let of = found.iter().filter(|one| one.key.check == check);
    of.flat_map(|one| one.arrangements.iter().map(|name| (name.clone(), one.key.subject.to_string()))).collect()
}

/// One solid of a module, in each pose, as a block that is larger by so much; its underside stays.
fn grown(model: &Model, module: usize, which: usize, by: f64) -> Model {
    with_solids(model, module, |_, mut solids| {
        let at = which % solids.len().max(1);
        if let Some(solid) = solids.get_mut(at) {
            let Box3 { x, y, z } = solid.prism.bounds();
            let wide = |range: (f64, f64)| (range.0 - by, range.1 + by);
            solid.prism = Prism::from(Box3 { x: wide(x), y: wide(y), z: (z.0, z.1 + by) });
        }
        solids
    })
}

#[test]
fn a_solid_that_grows_never_gives_room() {
    holds(5, |model, mut random| {
        let (module, by) = ((random.next() % model.modules.len() as u64) as usize, random.whole(1, 80));
        let grown = grown(&model, module, random.next() as usize, by);
        let mut wrong = narrowed(&grown, &model);
        let mut changed = narrowed(&model, &grown).len();
        let [before, after] = [&model, &grown].map(|model| run_checks(model, &Registry::standard()));
        let now = freedom(&after);
        for (of, was) in freedom(&before) {
            let is = now.get(&of).copied().unwrap_or(f64::INFINITY);
            changed += usize::from(is < was - SLACK);
            wrong.extend((is > was + SLACK).then(|| format!("{of}: {was} to {is}")));
        }
        for check in ["no-overlap", "inside-box"] {
            let now = about(&after, check);
            let gone = about(&before, check).into_iter().filter(|one| !now.contains(one));
            wrong.extend(gone.map(|one| format!("{check} {one:?} is gone")));
        }
        let name = &model.modules[module].name;
        (wrong.into_iter().map(|what| format!("{name} by {by}: {what}")).collect(), changed)
    });
}

/// A solid in two pieces side by side; whole where it has neither a direction along the floor nor a square outline, and
/// where it is one thing (two halves of a hob or a toilet would be two).
fn in_two(solid: &Solid) -> Vec<Solid> {
    if !solid.tags.is_empty() {
        return vec![solid.clone()];
    }
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
        .filter(|one| one.severity < Severity::Note)
        .flat_map(|one| {
            let measured =
                one.measured.filter(|_| !single.contains(&one.key.check.as_ref())).map_or(0.0, |measure| measure.value);
            let figure = format!("{} {:?} {} {measured:.4}", one.key.check, one.severity, one.key.subject);
            one.arrangements.iter().map(move |name| format!("{name} {figure}"))
        })
        .collect();
    figures.sort();
    figures.dedup();
    figures
}

#[test]
fn a_solid_in_two_pieces_changes_nothing() {
    holds(100, |model, _| {
        let mut split = model.clone();
        for state in split.modules.iter_mut().flat_map(|module| &mut module.poses) {
            state.solids = state.solids.iter().flat_map(in_two).collect();
        }
        let solids = |model: &Model| {
            model.modules.iter().flat_map(|module| &module.poses).map(|state| state.solids.len()).sum::<usize>()
        };
        let [before, after] = [&model, &split].map(|model| all_figures(&run_checks(model, &Registry::standard())));
        let gone = before.iter().filter(|one| !after.contains(one)).map(|one| format!("gone: {one}"));
        let new = after.iter().filter(|one| !before.contains(one)).map(|one| format!("new: {one}"));
        (gone.chain(new).collect(), solids(&split) - solids(&model))
    });
}
