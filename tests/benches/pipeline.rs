//! Times of the pipeline's stages for each demo layout: `cargo bench`.

#![allow(missing_docs, reason = "the macros of criterion make public items")]

use boxwright::compile::{Compiled, Options, compile, produce};
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use criterion::{Criterion, criterion_group, criterion_main};
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
    let Some(outputs) = produce(compiled) else { return 0 };
    let Some(product) = outputs.product(compiled) else { return 0 };
    registry.backends.iter().filter_map(|backend| backend.files(&product).ok()).map(|files| files.len()).sum()
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
        group.bench_function("cut list and sheets", |bench| bench.iter(|| black_box(produce(&compiled))));
        group.bench_function("whole build", |bench| bench.iter(|| black_box(files(&run(&registry), &registry))));
        group.finish();
    }
}

criterion_group!(benches, stages);
criterion_main!(benches);
