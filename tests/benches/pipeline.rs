//! Times of the pipeline's stages, each on a line: `cargo bench --bench pipeline`. With a word, such as
//! `cargo bench --bench pipeline -- warm`, only lines that have it.
//!
//! Times are the middle of several runs and hold for this machine alone; what can be compared are the ratios to a peer,
//! the growth from one size to the next, and `tests/benches/instructions.txt`.

#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout, reason = "a bench may stop at once, and prints")]
#![allow(clippy::cast_possible_truncation, reason = "a peer takes single precision")]

#[path = "../common/generator.rs"]
mod generator;
#[path = "../common/inset.rs"]
mod inset;
#[path = "../common/long_box.rs"]
mod long_box;
mod peers;

use boxwright::backends::{Reads, pdf_file};
use boxwright::base::memo::Memo;
use boxwright::checks::Context;
use boxwright::compile::{Compiled, Options, Session, Wanted, compile, produce, read};
use boxwright::figures::Figures;
use boxwright::geometry::{Parcel, Prism, Roof, Stands, pack};
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use boxwright::views::{Choice, Chosen};
use kurbo::{Point, Rect};
use long_box::long_box;
use rayon::prelude::*;
use std::hint::black_box;
use std::process::Command;
use std::time::Instant;

/// Which lines are wanted.
struct Bench {
    word: Option<String>,
}

impl Bench {
    fn wants(&self, name: &str) -> bool {
        self.word.as_ref().is_none_or(|word| name.contains(word.as_str()))
    }

    /// Prints the middle time of so many runs, ms; each run is given its number, from 1, after one run 0 that does not count.
    fn line<T>(&self, name: &str, runs: u32, mut run: impl FnMut(u32) -> T) -> Option<f64> {
        if !self.wants(name) {
            return None;
        }
        if runs > 1 {
            black_box(run(0));
        }
        let mut time = |number| {
            let begun = Instant::now();
            black_box(run(number));
            begun.elapsed().as_secs_f64() * 1e3
        };
        let mut times: Vec<f64> = (1..=runs).map(&mut time).collect();
        times.sort_by(f64::total_cmp);
        let (middle, least, most) = (times[times.len() / 2], times[0], times[times.len() - 1]);
        println!("{name:<58} {middle:>10.2} ms   {least:.2} to {most:.2}, {runs} runs");
        Some(middle)
    }

    /// One stage beside a peer that does the same work.
    fn beside<A, B>(&self, name: &str, own: impl Fn() -> A, (peer, theirs): (&str, impl Fn() -> B)) {
        let own = self.line(name, 9, |_| own());
        if let Some(own) = own {
            let theirs = Bench { word: None }.line(&format!("    beside {peer}"), 3, |_| theirs());
            println!("    ratio {:.3}", own / theirs.unwrap_or(f64::NAN));
        }
    }
}

/// A layout, and a figure in it that can become a little less.
struct Demo {
    name: &'static str,
    text: String,
    figure: &'static str,
}

impl Demo {
    /// The layout with its figure a little less, another time by another step.
    fn changed(&self, turn: u32) -> MemoryWorld {
        let (before, after) = self.text.split_once(self.figure).unwrap();
        let end = after.find(|c: char| !c.is_ascii_digit()).unwrap();
        let figure: f64 = after[..end].parse().unwrap();
        let less = figure - f64::from(turn) * 0.25;
        self.world(&format!("{before}{}{less}{}", self.figure, &after[end..]))
    }

    fn world(&self, text: &str) -> MemoryWorld {
        MemoryWorld::default().with(&self.path(), text)
    }

    fn path(&self) -> String {
        format!("{}.yaml", self.name)
    }
}

fn plan_day() -> Choice {
    Choice::Id(boxwright::model::SheetKind::Plans, "plan-day".to_owned())
}

/// The demo layouts, and one with a fault.
fn demos() -> [Demo; 4] {
    let [marram, skua, teasel] = ["marram", "skua", "teasel"].map(|name| {
        let path = format!("{}/layouts/{name}.yaml", env!("CARGO_MANIFEST_DIR"));
        std::fs::read_to_string(path).unwrap()
    });
    let fault = marram.replacen("aisle: 760", "aisle: 420", 1);
    assert!(fault != marram, "marram has another aisle");
    [
        Demo { name: "marram", text: marram, figure: "aisle: " },
        Demo { name: "skua", text: skua, figure: "stature: " },
        Demo { name: "teasel", text: teasel, figure: "counter: " },
        Demo { name: "aisle-420", text: fault, figure: "bench: " },
    ]
}

/// All outputs, side by side, as the command makes them.
fn files(compiled: &Compiled, registry: &Registry) -> usize {
    let outputs = produce(compiled).unwrap();
    let product = outputs.product(compiled);
    registry.backends.par_iter().filter_map(|backend| backend.files(&product).ok()).map(|files| files.len()).sum()
}

fn cold(bench: &Bench, demo: &Demo) {
    let (registry, options, path, name) = (Registry::standard(), Options::default(), demo.path(), demo.name);
    let world = demo.world(&demo.text);
    let all = |_| compile(&world, &path, &registry, &options);
    bench.line(&format!("{name}: read and resolve, cold"), 9, |_| read(&world, &path, &registry, &options));
    bench.line(&format!("{name}: check, cold, without suggestions"), 9, |_| {
        let session = Session::new(registry.clone(), options);
        let mut compiled = session.read(&world, &path);
        session.check(&mut compiled).unwrap();
        compiled
    });
    bench.line(&format!("{name}: check, cold"), 9, all);
    bench.line(&format!("{name}: build, cold"), 5, |turn| files(&all(turn), &registry));
}

/// One figure changed in a session that is kept.
fn warm(bench: &Bench, demo: &Demo) {
    let (name, path) = (demo.name, demo.path());
    let stages: [(&str, Option<Wanted>); 3] = [
        ("findings", None),
        ("findings and one sheet", Some(Wanted { reads: vec![Reads::Sheets], sheets: Chosen(vec![plan_day()]) })),
        ("findings and all sheets", Some(Wanted { reads: vec![Reads::Sheets], sheets: Chosen::default() })),
    ];
    for (what, wanted) in stages {
        let session = Session::new(Registry::standard(), Options::default());
        bench.line(&format!("{name}: one figure changed, warm, {what}"), 9, |turn| {
            let mut compiled = session.read(&demo.changed(turn), &path);
            session.check(&mut compiled).unwrap();
            let sheets = wanted.as_ref().map(|wanted| session.draw(&compiled, wanted).unwrap().unwrap().sheets.len());
            assert!(compiled.model.is_some() && sheets != Some(0), "{name}: nothing is drawn");
        });
    }
}

/// What a size took, and how it grew from the size before.
#[derive(Default)]
struct Growth(Option<(f64, f64)>);

impl Growth {
    fn to(&mut self, modules: usize, time: Option<f64>) {
        let now = time.map(|time| (modules as f64, time));
        if let Some(((few, quick), (many, slow))) = self.0.zip(now) {
            println!("    grew as n^{:.2}", (slow / quick).ln() / (many / few).ln());
        }
        self.0 = now.or(self.0);
    }
}

/// Clean boxes of more and more modules; each run has another box, so nothing is remembered.
fn sizes(bench: &Bench) {
    let (registry, options) = (Registry::standard(), Options::default());
    let mut growth: [Growth; 3] = Default::default();
    for rooms in [1, 3, 8, 38] {
        let modules = long_box(rooms, 0).pieces.len();
        let runs = if rooms > 100 {
            1
        } else if rooms > 10 {
            3
        } else {
            7
        };
        let world = |turn| MemoryWorld::default().with("long.yaml", &long_box(rooms, turn).yaml());
        let checked = |turn| compile(&world(turn), "long.yaml", &registry, &options);
        let [reading, checking, building] = &mut growth;
        let name = |what: &str| format!("{modules} modules: {what}");
        reading.to(
            modules,
            bench.line(&name("read and resolve"), runs, |t| read(&world(t), "long.yaml", &registry, &options)),
        );
        checking.to(modules, bench.line(&name("check"), runs, checked));
        building.to(modules, bench.line(&name("build"), runs.div_ceil(3), |turn| files(&checked(turn), &registry)));
    }
}

/// Each check by itself, with nothing remembered.
fn checks(bench: &Bench) {
    let registry = Registry::standard();
    let world = MemoryWorld::default().with("long.yaml", &long_box(8, 0).yaml());
    let model = read(&world, "long.yaml", &registry, &Options::default()).model.unwrap();
    for check in &registry.checks {
        bench.line(&format!("{} modules: {} alone", model.modules.len(), check.name()), 5, |_| {
            check.run(&Context::new(check.as_ref(), &Figures::new(&model, &Memo::default())))
        });
    }
}

fn beside_peers(bench: &Bench) {
    let ways = peers::ways(25);
    let (own, theirs) = (peers::by_graph(&ways), peers::by_insets(&ways[..3]));
    for (own, theirs) in own.iter().zip(&theirs) {
        assert!((own - theirs).abs() < 0.5, "a way is {own} mm wide by the graph and {theirs} by insets");
    }
    let name = "clearance graph: widths of ways over 25 floors";
    bench.beside(name, || peers::by_graph(&ways), ("insets by i_overlay, halved", || peers::by_insets(&ways)));
    for demo in demos() {
        let compiled = compile(&demo.world(&demo.text), &demo.path(), &Registry::standard(), &Options::default());
        let sheets = produce(&compiled).unwrap().sheets;
        let name = format!("PDF of {} sheets of {}", sheets.len(), demo.name);
        bench.beside(&name, || pdf_file(&sheets, "own"), ("printpdf's own writer", || peers::by_printpdf(&sheets)));
    }
}

/// Loads of a boot of 1400 x 2000 x 700 with a wheel box: some things, many, and too many.
fn packing(bench: &Bench) {
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
    for (name, parcels) in loads {
        bench.line(&format!("packing: {name}"), 9, |_| pack(&space, &[&wheel], &roof, &parcels));
    }
}

fn main() {
    // Cargo itself gives `--bench`.
    let bench = Bench { word: std::env::args().skip(1).find(|word| !word.starts_with("--")) };
    let start = || Command::new(env!("CARGO_BIN_EXE_boxwright")).arg("--version").output().unwrap();
    let shell = || Command::new("sh").args(["-c", "echo boxwright"]).output().unwrap();
    bench.beside("process start", start, ("a shell that echoes", shell));
    for demo in demos() {
        cold(&bench, &demo);
        warm(&bench, &demo);
    }
    sizes(&bench);
    if bench.wants("alone") || bench.wants("modules") {
        checks(&bench);
    }
    if bench.wants("clearance") || bench.wants("PDF") {
        beside_peers(&bench);
    }
    packing(&bench);
}
