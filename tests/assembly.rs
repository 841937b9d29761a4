//! Orders of assembly, replayed: each unit of a step is moved in along its direction in small steps, and shares no room with
//! what stands. Every piece is placed once and every joint made once; what has dowels comes along them. All symbols of the
//! library and the demos. That bodies can't pass through each other needs no source.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may stop at once")]
#![allow(clippy::print_stdout, reason = "orders are shown where they are asked for")]

#[path = "common/mod.rs"]
mod common;
#[path = "common/library.rs"]
mod library;

use boxwright::compile::{Options, read};
use boxwright::drawing::{Item, Sheet};
use boxwright::geometry::{Axis, Box3, Polygon, Prism, common_bounds, overlap};
use boxwright::joints::{Assembly, Step, assembly};
use boxwright::model::{Fixing, Machining, Module, Partner, PieceAt, Toward};
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use boxwright::views::{Chosen, SheetSet, sheet_set};
use library::{LIBRARY, Made};
use rayon::prelude::*;
use std::collections::BTreeMap;

/// From place to place on the way, mm: less than any board is thick.
const STEP: f64 = 2.0;
/// What two may share, mm: as `parts-collide` has it.
const FILM: f64 = 0.1;
/// Around a cut-out lies the rim of what is set into it, mm.
const RIM: f64 = 20.0;

const AXES: [Axis; 3] = [Axis::X, Axis::Y, Axis::Z];

/// A body with the room that is cut out of it.
#[derive(Clone)]
struct Body {
    name: String,
    prism: Prism,
    pockets: Vec<Box3>,
}

impl Body {
    fn moved(&self, axis: Axis, by: f64) -> Self {
        let moved = |all: &[Box3]| all.iter().map(|one| one.moved(axis, by)).collect();
        Self { prism: self.prism.moved(axis, by), pockets: moved(&self.pockets), ..self.clone() }
    }
}

fn piece(module: &Module, at: PieceAt) -> Body {
    let part = &module.parts[at.part];
    let place = &part.places[at.place];
    let mut body = Body { name: part.name.clone(), prism: place.solid.clone(), pockets: vec![] };
    for one in &part.machining {
        match one {
            Machining::Cutout { outline, .. } => {
                let cut = place.carved(outline, (-1.0, part.thickness + 1.0)).unwrap();
                body.pockets.extend((outline.points().len() == 4).then(|| cut.bounds()));
            }
            Machining::Groove { depth, reverse, .. } => {
                let from = if *reverse { part.thickness - depth } else { 0.0 };
                let groove = place.carved(&Polygon::rect(one.bounds()), (from, from + depth));
                body.pockets.extend(groove.map(|groove| groove.bounds()));
            }
            Machining::Hole { .. } => {}
        }
    }
    body
}

/// A bought thing; of one that is set into a board, what is below that board, as large as the cut-out.
fn bought(module: &Module, solid: usize) -> Body {
    let solid = &module.poses[0].solids[solid];
    let whole = Body { name: solid.name.clone(), prism: solid.prism.clone(), pockets: vec![] };
    let at = solid.prism.bounds();
    for part in &module.parts {
        for place in (0..part.places.len()).map(|place| &part.places[place]) {
            for cut in &part.machining {
                let Machining::Cutout { outline, .. } = cut else { continue };
                let Some(cut) = place.carved(outline, (0.0, part.thickness)) else { continue };
                let board = place.bounds();
                let level = cut.axis == Axis::Z && at.z.0 < board.z.0 && at.z.1 >= board.z.1 - 1.0;
                let grown = cut.bounds().plan().inflate(RIM, RIM);
                if level
                    && grown.contains_rect(at.plan())
                    && at.plan().inflate(1.0, 1.0).contains_rect(cut.bounds().plan())
                {
                    return Body { prism: Prism { low: at.z.0, high: board.z.0, ..cut }, ..whole };
                }
            }
        }
    }
    whole
}

fn holds(outer: &Box3, inner: &Box3) -> bool {
    AXES.iter().all(|axis| {
        let (a, b) = (outer.range(*axis), inner.range(*axis));
        a.0 - FILM <= b.0 && b.1 <= a.1 + FILM
    })
}

/// What two share beyond what is cut out of either.
fn clash(a: &Body, b: &Body) -> bool {
    let Some(shared) = overlap(&a.prism, &b.prism) else { return false };
    let thick = AXES.iter().all(|axis| shared.range(*axis).1 - shared.range(*axis).0 > FILM);
    thick && !a.pockets.iter().chain(&b.pockets).any(|pocket| holds(pocket, &shared))
}

/// What is wrong with the way of some bodies, moved together, among what stands.
fn way(own: &[Body], standing: &[Body], from: Toward) -> Vec<String> {
    let mut wrong = Vec::new();
    let sign = if from.up { 1.0 } else { -1.0 };
    for a in own {
        let at = a.prism.bounds();
        for b in standing {
            let there = b.prism.bounds();
            let far = if from.up {
                there.range(from.axis).1 - at.range(from.axis).0
            } else {
                at.range(from.axis).1 - there.range(from.axis).0
            };
            let (low, high) = at.range(from.axis);
            let swept = at.with(from.axis, if from.up { (low, high + far) } else { (low - far, high) });
            if far <= 0.0 || common_bounds(&swept, &there).is_none() {
                continue;
            }
            let steps = (far / STEP).ceil() as u32;
            if (0..=steps).any(|step| clash(&a.moved(from.axis, sign * STEP * f64::from(step)), b)) {
                wrong.push(format!("{} from {from:?} passes through {}", a.name, b.name));
            }
        }
    }
    wrong
}

/// Replays steps; what stands and what is made of joints grows with them.
fn replay(module: &Module, steps: &[Step], standing: &mut Vec<Body>, placed: &mut Vec<PieceAt>) -> Vec<String> {
    let mut wrong = Vec::new();
    for step in steps {
        // Units of a step come one after the other.
        let units: Vec<Vec<Body>> = if step.kit.is_some() {
            let each = step.pieces.len() / step.count;
            step.pieces.chunks(each).map(|own| own.iter().map(|at| piece(module, *at)).collect()).collect()
        } else {
            let own = step.pieces.iter().map(|at| piece(module, *at));
            own.chain(step.bought.iter().map(|solid| bought(module, *solid))).map(|one| vec![one]).collect()
        };
        assert_eq!(units.len(), step.count);
        for unit in units {
            if let Some(from) = step.from {
                wrong.extend(way(&unit, standing, from));
            }
            standing.extend(unit);
        }
        for joint in step.joints.iter().map(|joint| &module.together.joints[*joint]) {
            let Partner::Piece(other) = joint.other else { continue };
            let before = placed.contains(&joint.one) || placed.contains(&other);
            if matches!(joint.fixing, Fixing::Dowels { .. })
                && before
                && step.from.is_some_and(|from| from.axis != joint.across.axis)
            {
                wrong.push(format!("{} comes across its dowels", module.parts[joint.one.part].name));
            }
        }
        placed.extend(&step.pieces);
    }
    wrong
}

fn wrong(module: &Module) -> Vec<String> {
    let made = assembly(module);
    let mut wrong = Vec::new();
    let mut joints: Vec<usize> = Vec::new();
    for kit in &made.kits {
        let (mut standing, mut placed) = (Vec::new(), Vec::new());
        wrong.extend(replay(module, &kit.steps, &mut standing, &mut placed));
        placed.sort();
        let mut first = kit.copies[0].clone();
        first.sort();
        assert_eq!(placed, first, "a kit has its pieces");
        assert!(kit.copies.iter().all(|copy| copy.len() == first.len()));
        joints.extend(kit.steps.iter().flat_map(|step| &step.joints));
        if !kit.stuck.is_empty() {
            wrong.push(format!("no order for {}: {:?}", kit.name, names(module, &kit.stuck)));
        }
    }
    let (mut standing, mut placed) = (Vec::new(), Vec::new());
    wrong.extend(replay(module, &made.steps, &mut standing, &mut placed));
    let mut all: Vec<PieceAt> = Vec::new();
    for (part, of) in module.parts.iter().enumerate() {
        all.extend((0..of.places.len()).map(|place| PieceAt { part, place }));
    }
    placed.sort();
    assert_eq!(placed, all, "every piece is placed once");
    joints.extend(made.steps.iter().flat_map(|step| &step.joints));
    let copied = copied(module, &made);
    joints.sort_unstable();
    let own: Vec<usize> = (0..module.together.joints.len()).filter(|joint| !copied.contains(joint)).collect();
    assert_eq!(joints, own, "every joint is made once");
    if !made.stuck.is_empty() {
        wrong.push(format!("no order for {:?}", names(module, &made.stuck)));
    }
    wrong
}

/// Joints inside the second, third and further copies of a kit.
fn copied(module: &Module, made: &Assembly) -> Vec<usize> {
    let copies: Vec<&Vec<PieceAt>> = made.kits.iter().flat_map(|kit| kit.copies.iter().skip(1)).collect();
    let joints = module.together.joints.iter().enumerate();
    let inside = joints.filter(|(_, joint)| {
        let Partner::Piece(other) = joint.other else { return false };
        copies.iter().any(|copy| copy.contains(&joint.one) && copy.contains(&other))
    });
    inside.map(|(index, _)| index).collect()
}

fn names(module: &Module, pieces: &[PieceAt]) -> Vec<String> {
    pieces.iter().map(|at| module.parts[at.part].name.clone()).collect()
}

/// For a look at orders: `SHOW=galley cargo test --release --test assembly demos -- --nocapture`.
fn show(module: &Module) {
    let Ok(wanted) = std::env::var("SHOW") else { return };
    if !format!("{} {}", module.name, module.symbol).contains(&wanted) {
        return;
    }
    let made = assembly(module);
    let tell = |steps: &[Step]| {
        for step in steps {
            let mut what = names(module, &step.pieces);
            what.extend(step.bought.iter().map(|solid| bought(module, *solid).name));
            let from =
                step.from.map_or("-".to_owned(), |from| format!("{}{:?}", if from.up { '+' } else { '-' }, from.axis));
            println!("  {from} {} x {what:?} {} joints", step.count, step.joints.len());
        }
    };
    println!("{} {}", module.name, module.symbol);
    for kit in &made.kits {
        println!(" kit {} x {}", kit.copies.len(), kit.name);
        tell(&kit.steps);
    }
    println!(" whole");
    tell(&made.steps);
}

#[test]
fn the_library_can_be_assembled_in_the_order_told() {
    let look = |Made { name, case, made }: &Made| {
        let (module, _) = made.as_ref().unwrap();
        let wrong = wrong(module).into_iter();
        wrong.map(|one| (format!("{name}: {one}"), format!("{:?} {:?}", case.size, case.set))).collect()
    };
    let wrong: Vec<Vec<(String, String)>> = LIBRARY.par_iter().map(look).collect();
    let kinds: BTreeMap<String, String> = wrong.into_iter().flatten().collect();
    let shown: Vec<String> = kinds.into_iter().map(|(one, case)| format!("{one}  {case}")).collect();
    assert!(shown.is_empty(), "{} kinds:\n{}\n", shown.len(), shown.join("\n"));
}

/// The replay finds what is wrong: no galley goes together backwards.
#[test]
fn an_order_turned_round_passes_through_pieces() {
    let made = LIBRARY.iter().find(|one| one.name == "galley/base-run").unwrap();
    let (module, _) = made.made.as_ref().unwrap();
    let mut steps = assembly(module).steps;
    assert!(replay(module, &steps, &mut Vec::new(), &mut Vec::new()).is_empty());
    steps.reverse();
    let wrong = replay(module, &steps, &mut Vec::new(), &mut Vec::new());
    assert!(wrong.iter().any(|one| one.contains("passes through")), "{wrong:?}");
}

/// Texts of a view, with those of its groups.
fn texts(items: &[Item], all: &mut Vec<String>) {
    for item in items {
        match item {
            Item::Text(text) => all.push(text.words.clone()),
            Item::Group(group) => texts(&group.items, all),
            Item::Path(_) => {}
        }
    }
}

/// Sheets of a demo: by default, and those that are asked for.
fn drawn(world: &MemoryWorld, path: &str, asked: Option<&str>) -> Vec<Sheet> {
    let registry = Registry::standard();
    let compiled = read(world, path, &registry, &Options::default());
    let figures = compiled.figures().unwrap();
    let set = SheetSet { figures: &figures, checks: &[], findings: &[], given: &[] };
    sheet_set(&set, &Chosen(asked.map(|one| one.parse().unwrap()).into_iter().collect()))
}

/// Each module has its sheet with a number for every part, a row for every step and all its pictures, but only when it is
/// asked for.
#[test]
fn sheets_show_every_part_and_every_step() {
    let files = common::yaml_files("layouts");
    let world = common::world(&files);
    for (path, _) in common::directly_in(&files, "layouts/") {
        assert!(drawn(&world, path, None).iter().all(|sheet| !sheet.id.starts_with("assembly")), "{path}");
        let model = read(&world, path, &Registry::standard(), &Options::default()).model.unwrap();
        let sheets = drawn(&world, path, Some("assembly"));
        for module in model.modules.iter().filter(|module| !module.parts.is_empty()) {
            let sheet = sheets.iter().find(|sheet| sheet.id == format!("assembly-{}", module.name)).unwrap();
            let made = assembly(module);
            let pictures: Vec<Vec<String>> = sheet
                .views
                .iter()
                .filter(|view| view.id.starts_with("assembly-"))
                .map(|view| {
                    let mut all = Vec::new();
                    view.layers.iter().for_each(|layer| texts(&layer.items, &mut all));
                    all
                })
                .collect();
            assert_eq!(pictures.len(), made.kits.len() + 2, "{path} {}", module.name);
            let in_kit =
                |at: &PieceAt| made.kits.iter().position(|kit| kit.copies.iter().any(|copy| copy.contains(at)));
            for (part, of) in module.parts.iter().enumerate() {
                for place in 0..of.places.len() {
                    let picture = in_kit(&PieceAt { part, place }).map_or(0, |kit| kit + 1);
                    let number = (part + 1).to_string();
                    assert!(pictures[picture].contains(&number), "{path} {}: {number} {}", module.name, of.name);
                }
            }
            let of_list = sheets.iter().filter(|other| other.id.starts_with(&sheet.id)).flat_map(|one| &one.views);
            let mut words = Vec::new();
            of_list.flat_map(|view| &view.layers).for_each(|layer| texts(&layer.items, &mut words));
            for step in 1..=made.steps.len() {
                assert!(words.contains(&step.to_string()), "{path} {}: step {step}", module.name);
            }
        }
    }
}

#[test]
fn the_demos_can_be_assembled_in_the_order_told() {
    let files = common::yaml_files("layouts");
    let world = common::world(&files);
    let mut told = Vec::new();
    for (path, _) in &files {
        let model = read(&world, path, &Registry::standard(), &Options::default()).model.unwrap();
        for module in &model.modules {
            show(module);
            told.extend(wrong(module).into_iter().map(|one| format!("{path}: {}: {one}", module.name)));
        }
    }
    assert!(told.is_empty(), "{}", told.join("\n"));
}
