//! Times of the pipeline's stages: `cargo bench`.
//!
//! The demo layouts are compiled again and again, with a warm memory of clearance graphs. The long boxes are another
//! layout each time, so nothing is remembered.

#![allow(missing_docs, reason = "the macros of criterion make public items")]
#![allow(clippy::unwrap_used, reason = "a bench may stop at once")]

#[path = "../common/generator.rs"]
mod generator;
#[path = "../common/long_box.rs"]
mod long_box;

use boxwright::base::memo::Memo;
use boxwright::checks::Context;
use boxwright::compile::{Compiled, Options, compile, produce, read, run_checks};
use boxwright::diagnostic::Severity;
use boxwright::figures::Figures;
use boxwright::geometry::{Parcel, Prism, Roof, Stands, pack};
use boxwright::model::Model;
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use kurbo::{Point, Rect};
use long_box::long_box;
use rayon::prelude::*;
use std::cell::Cell;
use std::hint::black_box;
use std::path::Path;

/// Name and text of each layout.
fn demos() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts");
    let paths = std::fs::read_dir(folder).into_iter().flatten().flatten().map(|entry| entry.path());
    let layouts = paths.filter(|path| path.extension().is_some_and(|ending| ending == "yaml"));
    let mut demos: Vec<(String, String)> = layouts
        .filter_map(|path| Some((path.file_name()?.to_str()?.to_owned(), std::fs::read_to_string(&path).ok()?)))
        .collect();
    demos.sort();
    demos
}

fn files(compiled: &Compiled, registry: &Registry) -> usize {
    let Some(outputs) = produce(compiled, &Registry::standard()) else { return 0 };
    let Some(product) = outputs.product(compiled) else { return 0 };
    // Side by side, as the command does.
    registry.backends.par_iter().filter_map(|backend| backend.files(&product).ok()).map(|files| files.len()).sum()
}

fn stages(criterion: &mut Criterion) {
    let registry = Registry::standard();
    let unchecked = Registry { checks: Vec::new(), backends: Vec::new() };
    for (name, text) in demos() {
        let world = MemoryWorld::default().with(&name, &text);
        let run = |registry: &Registry| compile(&world, &name, registry, &Options::default());
        let compiled = run(&registry);
        let mut group = criterion.benchmark_group(name.trim_end_matches(".yaml"));
        group.sample_size(20);
        group.bench_function("read and resolve", |bench| bench.iter(|| black_box(run(&unchecked))));
        group.bench_function("read, resolve and check", |bench| bench.iter(|| black_box(run(&registry))));
        group.bench_function("cut list and sheets", |bench| {
            bench.iter(|| black_box(produce(&compiled, &Registry::standard())))
        });
        group.bench_function("whole build", |bench| bench.iter(|| black_box(files(&run(&registry), &registry))));
        group.finish();
    }
}

/// A row of long boxes, no two alike.
struct Boxes {
    rooms: usize,
    turn: Cell<u32>,
}

impl Boxes {
    fn world(&self) -> MemoryWorld {
        self.turn.set(self.turn.get() + 1);
        MemoryWorld::default().with("long.yaml", &long_box(self.rooms, self.turn.get()).yaml())
    }

    fn model(&self) -> Model {
        read(&self.world(), "long.yaml", &Registry::standard(), &Options::default()).model.unwrap()
    }
}

/// `check` on clean layouts of 40 and 400 modules in three arrangements, and each check by itself.
fn long_boxes(criterion: &mut Criterion) {
    let registry = Registry::standard();
    let unchecked = Registry { checks: Vec::new(), backends: Vec::new() };
    for rooms in [3, 31] {
        let boxes = Boxes { rooms, turn: Cell::new(0) };
        let first = compile(&boxes.world(), "long.yaml", &registry, &Options::default());
        let open: Vec<_> =
            first.findings.iter().filter(|one| one.severity < Severity::Note && one.accepted.is_none()).collect();
        assert!(open.is_empty(), "{open:#?}");
        let modules = first.model.unwrap().modules.len();
        let mut group = criterion.benchmark_group(format!("{modules} modules"));
        group.sample_size(if rooms > 10 { 10 } else { 40 });
        let run = |registry: &Registry, world: MemoryWorld| compile(&world, "long.yaml", registry, &Options::default());
        let whole = |registry: &Registry, bench: &mut criterion::Bencher<'_>| {
            bench.iter_batched(|| boxes.world(), |world| black_box(run(registry, world)), BatchSize::PerIteration);
        };
        group.bench_function("read and resolve", |bench| whole(&unchecked, bench));
        group.bench_function("read, resolve and check", |bench| whole(&registry, bench));
        group.bench_function("all checks", |bench| {
            bench.iter_batched_ref(
                || boxes.model(),
                |model| black_box(run_checks(model, &registry)),
                BatchSize::PerIteration,
            );
        });
        for check in &registry.checks {
            let alone = |model: &Model| check.run(&Context::new(*check, &Figures::new(model, &Memo::default())));
            group.bench_function(check.name(), |bench| {
                bench.iter_batched_ref(|| boxes.model(), |model| black_box(alone(model)), BatchSize::PerIteration);
            });
        }
        group.finish();
    }
}

/// Loads of a boot of 1400 x 2000 x 700 with a wheel box: some things, many, and too many.
fn packing(criterion: &mut Criterion) {
    let space = Prism::upright(Rect::new(0.0, 0.0, 1400.0, 2000.0), 0.0, 700.0);
    let wheel = Prism::upright(Rect::new(100.0, 0.0, 800.0, 260.0), 0.0, 210.0);
    let roof = Roof::Line(vec![Point::new(0.0, 2000.0), Point::new(2000.0, 2000.0)]);
    let any = |size, count| Parcel { size, count, stands: Stands::Any };
    let some = vec![any([890.0, 680.0, 320.0], 2), any([600.0, 400.0, 300.0], 4), any([350.0, 300.0, 200.0], 2)];
    let mixed: Vec<Parcel> =
        (0..50_u32).map(|i| any([200.0 + f64::from(i * 7), 150.0, 120.0 + f64::from(i)], 10)).collect();
    let loads = [
        ("8 pieces", some),
        ("150 equal pieces", vec![any([300.0, 200.0, 150.0], 150)]),
        ("220 equal pieces, too many", vec![any([300.0, 200.0, 150.0], 220)]),
        ("500 pieces of 50 kinds, too many", mixed),
    ];
    let mut group = criterion.benchmark_group("packing");
    group.sample_size(10);
    for (name, parcels) in loads {
        group.bench_function(name, |bench| bench.iter(|| black_box(pack(&space, &[&wheel], &roof, &parcels))));
    }
    group.finish();
}

criterion_group!(benches, stages, long_boxes, packing);
criterion_main!(benches);
