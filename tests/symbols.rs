//! Makes every symbol of the library at its least, usual and greatest sizes, with each value of each setting, in every
//! pose, and looks at what comes out. How the parts fit together is the matter of `tests/rebuild.rs`.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may stop at once")]

mod common;
#[path = "common/library.rs"]
mod library;

use boxwright::compile::Case;
use boxwright::compile::run_checks;
use boxwright::diagnostic::{Severity, Sink};
use boxwright::geometry::Box3;
use boxwright::language::{library_names, library_text, read_recipe, recipe_names};
use boxwright::model::{Grain, Machining, Module, MoveKind, Part, Stock};
use boxwright::registry::Registry;
use boxwright::source::SourceMap;
use kurbo::Shape;
use library::{LIBRARY, Made, ROOMY, document, layout, make};
use std::fmt::Write;

/// What is still equal, mm.
const SLACK: f64 = 0.1;
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

fn sound(part: &Part) -> Vec<String> {
    let mut wrong = Vec::new();
    let mut sizes = [part.length, part.width, part.thickness];
    sizes.sort_by(f64::total_cmp);
    if part.count == 0 || sizes[0] <= 0.0 || part.width < 14.0 {
        wrong.push(format!("part {}: {} of {} x {}", part.name, part.count, part.length, part.width));
    }
    for place in part.places.iter().filter(|place| place.lies.is_some()) {
        let mut extents = ranges(&place.bounds()).map(|range| range.1 - range.0);
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
        let deep = match machining {
            Machining::Groove { depth, .. } => *depth,
            Machining::Hole { depth, .. } => depth.unwrap_or(0.0),
            Machining::Cutout { .. } => 0.0,
        };
        let reach = machining.bounds();
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
    let mut files = common::yaml_files("symbols");
    files.retain(|(path, _)| !path.starts_with("symbols/recipes/"));
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

/// The page names every recipe with its settings in one line, and each recipe is used.
#[test]
fn the_page_lists_the_recipes() {
    let page = common::text("symbols/README.md");
    let symbols: String = library_names().iter().map(|name| library_text(name).unwrap()).collect();
    assert!(recipe_names().len() >= 10);
    for name in recipe_names() {
        let line = page.lines().find(|line| line.starts_with(&format!("| `{name}` |"))).unwrap();
        let text = common::text(&format!("symbols/recipes/{name}.yaml"));
        let mut sink = Sink::default();
        let recipe = read_recipe(&name, &text, &name, &mut SourceMap::default(), &mut sink).unwrap();
        assert!(line.contains(&recipe.says.value), "{name}");
        let named = |setting: &&String| line.contains(&format!("`{setting}`"));
        assert_eq!(recipe.settings.keys().find(|setting| !named(setting)), None, "{name}");
        assert!(
            symbols.contains(&format!("recipe: {name}\n")) || symbols.contains(&format!("recipe: {name},")),
            "{name}"
        );
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
            found.iter().filter(|finding| finding.key.check == "inside-box").map(|f| f.message.as_str()).collect();
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
        let wrong =
            found.iter().filter(|one| about_one.contains(&one.key.check.as_ref()) && one.severity < Severity::Note);
        let wrong: Vec<&str> = wrong.map(|finding| finding.message.as_str()).collect();
        assert!(wrong.is_empty(), "{name}:\n{}", wrong.join("\n"));
    }
}
