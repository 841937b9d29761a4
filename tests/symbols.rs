//! Makes every symbol of the library at its least, usual and greatest sizes, with each value of each setting, in every
//! pose, and looks at what comes out. What is compared: parts with solids, both as the resolver made them, by rules of
//! joinery that need no source (a part fills its place, two parts do not fill the same place).

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may stop at once")]

mod common;

use boxwright::compile::{Options, read, run_checks};
use boxwright::diagnostic::{Severity, Sink};
use boxwright::geometry::Box3;
use boxwright::language::{SettingKind, SymbolDoc, library_names, library_text, read_symbol};
use boxwright::model::{Grain, Machining, Model, Module, MoveKind, Part, Stock};
use boxwright::registry::Registry;
use boxwright::source::{MemoryWorld, SourceMap};
use kurbo::Shape;
use std::fmt::Write;
use std::sync::LazyLock;

/// What is still equal, mm.
const SLACK: f64 = 0.1;
/// How deep a panel may stand in a groove, mm.
const GROOVE: f64 = 7.5;
/// A box that every symbol has room in.
const ROOMY: &str = "box: { length: 9000, width: 9000, height: 4000 }\n";
/// Stocks unlike the usual ones: nothing may rest on their thickness.
const OTHER_STOCKS: &str = "stocks:
  carcass: { thickness: 18 }
  front: { thickness: 16 }
  back: { thickness: 4 }
  worktop: { thickness: 28 }
  board: { thickness: 15 }
  partition: { thickness: 15 }
";

/// One module to make: its sizes (run, depth, height) where they are not left to the symbol, and its settings.
#[derive(Debug, Clone, Default)]
struct Case {
    size: [Option<f64>; 3],
    set: Vec<(String, String)>,
}

fn layout(symbol: &str, cases: &[Case], head: &str) -> String {
    let mut text = format!("boxwright: 1\ntitle: Symbols\n{head}modules:\n");
    for (at, case) in cases.iter().enumerate() {
        let sizes = ["run", "depth", "height"].iter().zip(case.size);
        let sizes: Vec<String> = sizes.filter_map(|(name, size)| size.map(|size| format!("{name}: {size}"))).collect();
        let set: Vec<String> = case.set.iter().map(|(name, value)| format!("{name}: {value}")).collect();
        let (sizes, set) = (sizes.join(", "), set.join(", "));
        let place = "faces: rear, place: { front: 3000, left: 3000 }";
        writeln!(text, "  m{at}: {{ symbol: {symbol}, {place}, size: {{ {sizes} }}, set: {{ {set} }} }}").unwrap();
    }
    text
}

/// The model, or the errors one a line.
fn make(text: &str) -> Result<Model, Vec<String>> {
    let world = MemoryWorld::default().with("layout.yaml", text);
    let compiled = read(&world, "layout.yaml", &Registry::standard(), &Options::default());
    let tell = |span| compiled.sources.place(span).map_or(String::new(), |(name, at)| format!("{name}:{}", at.line));
    let errors = compiled.errors.errors().iter().map(|error| format!("{}: {}", tell(error.span), error.message));
    compiled.model.ok_or(errors.collect())
}

fn document(name: &str) -> SymbolDoc {
    let mut sink = Sink::default();
    read_symbol(name, library_text(name).unwrap(), name, &mut SourceMap::default(), &mut sink).unwrap()
}

/// The usual settings, and each setting at each of its values.
fn settings(symbol: &SymbolDoc) -> Vec<Vec<(String, String)>> {
    let mut all = vec![Vec::new()];
    let source = library_text(&symbol.symbol.value).unwrap();
    for (name, setting) in &symbol.settings {
        let values: Vec<String> = match &setting.value.kind {
            SettingKind::YesNo => vec!["yes".to_owned(), "no".to_owned()],
            SettingKind::OneOf { values } => values.iter().map(|value| value.value.clone()).collect(),
            SettingKind::Whole { least, most } | SettingKind::Length { least, most } => {
                [least, most].map(|expr| source[expr.span.start as usize..expr.span.end as usize].to_owned()).to_vec()
            }
        };
        all.extend(values.into_iter().map(|value| vec![(name.clone(), value)]));
    }
    all
}

/// The bounds of some sizes as the resolver states them when it refuses wrong ones.
fn bounds(symbol: &str, case: &Case, indices: &[usize]) -> Vec<(f64, f64)> {
    let mut wrong = case.clone();
    indices.iter().for_each(|index| wrong.size[*index] = Some(0.5));
    let errors = make(&layout(symbol, &[wrong], ROOMY)).unwrap_err();
    let stated = |index: &usize| {
        let word = format!("the {} of module", ["run", "depth", "height"][*index]);
        let message =
            errors.iter().find(|error| error.contains(&word)).unwrap_or_else(|| panic!("{symbol}: {errors:?}"));
        let (least, most) =
            message.rsplit("takes ").next().unwrap().trim_end_matches(" mm").split_once(" to ").unwrap();
        (least.parse().unwrap(), most.parse().unwrap())
    };
    indices.iter().map(stated).collect()
}

/// The sizes that a symbol takes when the layout says none.
fn usual(symbol: &str) -> [f64; 3] {
    let extent = make(&layout(symbol, &[Case::default()], ROOMY)).unwrap().modules[0].extent;
    [extent.y, extent.x, extent.z].map(|range| range.1 - range.0)
}

/// Least, usual and greatest sizes for some settings. Bounds may hang on the height, so that one comes first.
fn sized(symbol: &str, usual: [f64; 3], set: &[(String, String)]) -> Vec<Case> {
    let start = Case { size: usual.map(Some), set: set.to_vec() };
    let heights = bounds(symbol, &start, &[2]);
    type Pick = fn((f64, f64), f64) -> f64;
    let picks: [Pick; 3] =
        [|bounds, _| bounds.0, |bounds, usual| usual.max(bounds.0).min(bounds.1), |bounds, _| bounds.1];
    let case = |pick: Pick| {
        let mut case = start.clone();
        case.size[2] = Some(pick(heights[0], usual[2]));
        for (index, bounds) in bounds(symbol, &case, &[0, 1]).into_iter().enumerate() {
            case.size[index] = Some(pick(bounds, usual[index]));
        }
        case
    };
    picks.map(case).to_vec()
}

/// One module as made, with the stocks of its layout.
struct Made {
    name: String,
    case: Case,
    made: Result<(Module, Vec<Stock>), Vec<String>>,
}

/// Every symbol with all its cases, made once for all tests.
static LIBRARY: LazyLock<Vec<Made>> = LazyLock::new(|| library_names().iter().flat_map(|name| all_of(name)).collect());

/// One symbol in usual stocks with all its settings, and in other stocks with the usual ones.
fn all_of(name: &str) -> Vec<Made> {
    let usual = usual(name);
    let cases: Vec<Case> = settings(&document(name)).iter().flat_map(|set| sized(name, usual, set)).collect();
    let mut all = Vec::new();
    for (head, cases) in [(ROOMY.to_owned(), &cases[..]), (format!("{ROOMY}{OTHER_STOCKS}"), &cases[..3])] {
        let model = make(&layout(name, cases, &head));
        for (at, case) in cases.iter().enumerate() {
            let made = model.as_ref().map(|model| (model.modules[at].clone(), model.stocks.clone()));
            all.push(Made { name: name.to_owned(), case: case.clone(), made: made.map_err(Clone::clone) });
        }
    }
    all
}

/// Looks at every module that could be made.
fn each_made(look: impl Fn(&Module, &[Stock]) -> Vec<String>) {
    let mut wrong = Vec::new();
    for Made { name, case, made } in LIBRARY.iter() {
        let Ok((module, stocks)) = made else { continue };
        let complaints = look(module, stocks).into_iter();
        wrong.extend(complaints.map(|one| format!("{name} {:?} {:?}: {one}", case.size, case.set)));
    }
    wrong.truncate(20);
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

#[test]
fn every_symbol_compiles_at_every_size_and_setting() {
    let mut errors: Vec<&String> = LIBRARY.iter().filter_map(|one| one.made.as_ref().err()).flatten().collect();
    errors.dedup();
    assert!(errors.is_empty(), "\n{errors:#?}");
    assert!(LIBRARY.iter().all(|one| one.made.as_ref().is_ok_and(|(module, _)| !module.poses.is_empty())));
}

fn ranges(block: &Box3) -> [(f64, f64); 3] {
    [block.x, block.y, block.z]
}

fn inside(block: &Box3, outer: &Box3) -> bool {
    ranges(block).iter().zip(ranges(outer)).all(|(a, b)| a.0 >= b.0 - SLACK && a.1 <= b.1 + SLACK)
}

fn hull(blocks: impl Iterator<Item = Box3>) -> Option<Box3> {
    blocks.reduce(|a, b| a.union(&b))
}

fn solids_stay_in_the_size(module: &Module) -> Vec<String> {
    let mut wrong = Vec::new();
    for pose in &module.poses {
        for solid in &pose.solids {
            if !inside(&solid.prism.bounds(), &module.extent) || solid.prism.volume() <= 0.0 {
                wrong.push(format!("solid {} in {}: {:?}", solid.name, pose.name, solid.prism.bounds()));
            }
        }
        for line in &pose.linework {
            let (line, plan) = (line.path.bounding_box(), module.extent.plan().inflate(SLACK, SLACK));
            if plan.union(line) != plan {
                wrong.push(format!("linework in {}: {line:?}", pose.name));
            }
        }
        wrong.extend(pose.moves.iter().filter_map(|one| match &one.kind {
            MoveKind::Slide(slide) if !inside(&slide.body, &module.extent) => {
                Some(format!("move {}: {:?}", one.name, slide.body))
            }
            MoveKind::Swing(swing) if swing.length <= 0.0 || swing.thickness <= 0.0 => {
                Some(format!("move {}: {swing:?}", one.name))
            }
            _ => None,
        }));
    }
    wrong
}

#[test]
fn every_pose_stays_in_the_stated_size() {
    each_made(|module, _| solids_stay_in_the_size(module));
}

/// The parts that stand somewhere reach exactly as far as what is built of them.
fn parts_fill_the_solids(module: &Module) -> Vec<String> {
    let built = module.poses[0].solids.iter().filter(|solid| !solid.bought);
    let solids = hull(built.map(|solid| solid.prism.bounds()));
    let parts = hull(module.parts.iter().flat_map(|part| part.places.iter().copied()));
    let (Some(solids), Some(parts)) = (solids, parts) else {
        return if solids == parts { vec![] } else { vec![format!("solids {solids:?}, parts {parts:?}")] };
    };
    if inside(&solids, &parts) && inside(&parts, &solids) {
        return vec![];
    }
    vec![format!("solids reach {solids:?}, parts {parts:?}")]
}

#[test]
fn parts_reach_as_far_as_the_solids() {
    each_made(|module, _| parts_fill_the_solids(module));
}

fn sound(part: &Part) -> Vec<String> {
    let mut wrong = Vec::new();
    let mut sizes = [part.length, part.width, part.thickness];
    sizes.sort_by(f64::total_cmp);
    if part.count == 0 || sizes[0] <= 0.0 || part.width < 14.0 {
        wrong.push(format!("part {}: {} of {} x {}", part.name, part.count, part.length, part.width));
    }
    for place in &part.places {
        let mut extents = ranges(place).map(|range| range.1 - range.0);
        extents.sort_by(f64::total_cmp);
        if extents.iter().zip(sizes).any(|(a, b)| (a - b).abs() > SLACK) {
            wrong.push(format!("part {}: place {extents:?}, size {sizes:?}", part.name));
        }
    }
    let face = kurbo::Rect::new(0.0, 0.0, part.length, part.width);
    if let Some(outline) = &part.outline {
        let bounds = outline.bounds();
        if (bounds.width() - face.width()).abs() > SLACK || (bounds.height() - face.height()).abs() > SLACK {
            wrong.push(format!("part {}: outline {bounds:?} on {face:?}", part.name));
        }
    }
    let face = face.inflate(SLACK, SLACK);
    for machining in &part.machining {
        let (reach, deep) = match machining {
            Machining::Groove { from, to, depth, .. } => (kurbo::Rect::from_points(*from, *to), *depth),
            Machining::Hole { at, diameter, depth } => {
                (kurbo::Rect::from_center_size(*at, (*diameter, *diameter)), depth.unwrap_or(0.0))
            }
            Machining::Cutout { outline, .. } => (outline.bounds(), 0.0),
        };
        if face.union(reach) != face || deep > part.thickness * 0.8 {
            wrong.push(format!("part {}: {machining:?} on {face:?}", part.name));
        }
    }
    wrong
}

#[test]
fn every_part_can_be_made() {
    each_made(|module, _| module.parts.iter().flat_map(sound).collect());
}

/// Two parts fill the same place, by more than a panel in a groove does.
fn clashes(module: &Module) -> Vec<String> {
    let square = module.parts.iter().filter(|part| part.outline.is_none());
    let placed: Vec<(&str, &Box3)> =
        square.flat_map(|part| part.places.iter().map(|place| (part.name.as_str(), place))).collect();
    let mut wrong = Vec::new();
    for (at, (name, a)) in placed.iter().enumerate() {
        for (other, b) in &placed[at + 1..] {
            let shared =
                ranges(a).iter().zip(ranges(b)).map(|(a, b)| a.1.min(b.1) - a.0.max(b.0)).fold(9.9e9, f64::min);
            if shared > GROOVE || (shared > SLACK && ![name, other].iter().any(|name| grooved(name))) {
                wrong.push(format!("{name} and {other} share {shared:.1} mm"));
            }
        }
    }
    wrong
}

/// Panels that stand in grooves of others.
fn grooved(name: &str) -> bool {
    name.contains("back") || name == "drawer-bottom"
}

#[test]
fn no_two_parts_fill_the_same_place() {
    each_made(|module, _| clashes(module));
}

/// At the usual sizes every part can be cut from a sheet of its stock.
#[test]
fn parts_of_usual_size_fit_their_sheets() {
    for name in library_names() {
        let model = make(&layout(&name, &[Case::default()], ROOMY)).unwrap();
        for part in &model.modules[0].parts {
            let stock = &model.stocks[part.stock];
            let fits = stock.sheets.iter().any(|sheet| {
                let (length, width) = sheet.size;
                let (length, width) = (length - 2.0 * stock.trim, width - 2.0 * stock.trim);
                let straight = part.length <= length && part.width <= width;
                let turns = stock.grain == Grain::Free || part.grain == Grain::Free;
                straight || (turns && part.length <= width && part.width <= length)
            });
            assert!(fits, "{name}: {} is {} x {}", part.name, part.length, part.width);
        }
    }
}

#[test]
fn the_library_holds_exactly_the_files() {
    let files = common::yaml_files("symbols");
    let names: Vec<&str> = files.iter().map(|(path, _)| &path["symbols/".len()..path.len() - ".yaml".len()]).collect();
    assert_eq!(library_names(), names);
    assert!(names.len() >= 20);
    for (name, (_, text)) in names.iter().zip(&files) {
        assert_eq!(library_text(name).unwrap(), text, "{name}");
        assert_eq!(document(name).symbol.value, *name);
    }
}

#[test]
fn every_symbol_says_what_it_is_and_takes_room() {
    for name in library_names() {
        let symbol = document(&name);
        assert!(!symbol.solids.is_empty() || !symbol.spaces.is_empty(), "{name} has neither solid nor space");
        let says = &symbol.says.value;
        assert!(!says.ends_with('.') && says.starts_with(char::is_uppercase) && says.len() <= 100, "{name}: {says}");
        assert!(symbol.fixed_mass.is_some(), "{name} has no mass of its own");
    }
}

/// The page of the library names every symbol with all its settings in one line, and no other.
#[test]
fn the_page_lists_the_library() {
    let page = common::text("symbols/README.md");
    let listed: Vec<&str> = page.lines().filter(|line| line.starts_with("| `") && line.contains('/')).collect();
    let cell = |line: &str| line.split('`').nth(1).unwrap().to_owned();
    let mut names: Vec<String> = listed.iter().map(|line| cell(line)).filter(|name| name.contains('/')).collect();
    names.sort();
    assert_eq!(names, library_names());
    for name in names {
        let line = listed.iter().find(|line| line.starts_with(&format!("| `{name}`"))).unwrap();
        for setting in document(&name).settings.keys() {
            assert!(line.contains(&format!("`{setting}`")), "{name}: the page does not name `{setting}`");
        }
    }
}

/// Symbols that go up to the roof stay under it, whichever way they face; checked by `inside-box`.
#[test]
fn tall_symbols_follow_the_roof() {
    let tall = [
        ("stow/overhead-locker", ""),
        ("stow/wardrobe", ""),
        ("galley/tall-cupboard", ""),
        ("build/partition", "doorway: door"),
        ("wash/wet-room", "right-wall: yes, back-wall: yes"),
    ];
    let roofs = ["{ shape: arch, rise: 160 }", "{ shape: ridge, rise: 200 }", "[[0, 1600], [500, 1950], [2100, 1800]]"];
    for roof in roofs {
        let mut text = format!(
            "boxwright: 1\ntitle: Tall\nbox: {{ length: 4000, width: 2100, height: 1600, roof: {roof} }}\nmodules:\n"
        );
        for (at, (symbol, set)) in tall.iter().enumerate() {
            let floor = if *symbol == "stow/overhead-locker" { ", floor: 1300" } else { "" };
            for (faces, side) in [("right", "left: 0"), ("left", "right: 2100"), ("rear", "left: 300")] {
                let place = format!("place: {{ front: 0, {side}{floor} }}");
                writeln!(text, "  m{at}-{faces}: {{ symbol: {symbol}, faces: {faces}, {place}, set: {{ {set} }} }}")
                    .unwrap();
            }
        }
        let model = make(&text).unwrap();
        let found = run_checks(&model, &Registry::standard());
        let wrong: Vec<&str> =
            found.iter().filter(|finding| finding.check == "inside-box").map(|f| f.message.as_str()).collect();
        assert!(wrong.is_empty(), "roof {roof}:\n{}", wrong.join("\n"));
    }
}

/// At its usual sizes, with its back and its left side at walls, no symbol gives cause for complaint about itself.
#[test]
fn usual_symbols_can_be_used() {
    let about_one = ["bunk-guard", "seat", "worktop", "reach"];
    for name in library_names() {
        let poses: Vec<String> = document(&name).poses.keys().cloned().collect();
        let poses = if poses.is_empty() { vec![String::new()] } else { poses };
        let mut text = format!(
            "boxwright: 1\ntitle: Usual\nbox: {{ length: 4000, width: 3000, height: 2600 }}\nmodules:\n  m: {{ symbol: \
             {name}, faces: right, place: {{ front: 0, left: 0 }} }}\narrangements:\n"
        );
        for pose in poses {
            let of_module = if pose.is_empty() { String::new() } else { format!("m: {pose}") };
            writeln!(text, "  in-{pose}x: {{ {of_module} }}").unwrap();
        }
        let found = run_checks(&make(&text).unwrap(), &Registry::standard());
        let wrong = found.iter().filter(|one| about_one.contains(&one.check) && one.severity < Severity::Note);
        let wrong: Vec<&str> = wrong.map(|finding| finding.message.as_str()).collect();
        assert!(wrong.is_empty(), "{name}:\n{}", wrong.join("\n"));
    }
}
