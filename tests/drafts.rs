//! Layouts with errors in spite of which they can be drawn: the checks go on, outputs are made and say that they are a draft.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

#[path = "common/command.rs"]
mod command;

use boxwright::compile::{Compiled, Options, compile, produce};
use boxwright::diagnostic::Finding;
use boxwright::drawing::Item;
use boxwright::model::MisfitKind;
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;
use command::{boxwright, bytes, folder, write};

const LAYOUT: &str = "boxwright: 1
title: Draft
symbols: [symbols]
box: { length: 4000, width: 2000, height: 1900 }
openings:
  entry: { kind: door, wall: right, front: 2700, run: 600, height: 1800 }
modules:
  rack: { symbol: t/rack, faces: right, place: { front: 0, left: 0 }, RACK }
  chest: { symbol: t/rack, faces: right, place: { front: NEXT, left: 0 } }
";
/// With more than four boards its shelves have no room, and its export none either.
const RACK: &str = "symbol: t/rack
says: A rack of boards
size:
  run: { default: 600, least: 300, most: 900 }
  depth: { default: 400, least: 300, most: 500 }
  height: { default: 500, least: 100, most: 800 }
settings:
  boards: { kind: whole, default: 2, least: 1, most: 4 }
exports:
  gap: sqrt(5 - boards)
solids:
  body: { u: [0, run], v: [0, depth], w: [0, height] }
  board: { u: [10, run - 10], v: [10, depth - 10], w: [10, sqrt(5 - boards) + 20] }
";

fn run(rack: &str, next: &str) -> Compiled {
    let layout = LAYOUT.replace("RACK", rack).replace("NEXT", next);
    let world = MemoryWorld::default().with("a.yaml", &layout).with("symbols/t/rack.yaml", RACK);
    compile(&world, "a.yaml", &Registry::standard(), &Options::default())
}

fn errors(compiled: &Compiled) -> Vec<&str> {
    compiled.errors.errors().iter().map(|error| error.message.as_str()).collect()
}

fn faults(compiled: &Compiled) -> Vec<String> {
    compiled.findings.iter().filter(|one| one.is_open_fault()).map(|one: &Finding| one.key.to_string()).collect()
}

fn told(command: &assert_cmd::assert::Assert) -> String {
    String::from_utf8(command.get_output().stdout.clone()).unwrap()
}

/// A rack of 950 mm, 50 more than its symbol takes, runs 50 mm into what stands at 900.
#[test]
fn a_size_out_of_range_is_drawn_as_it_is_asked_for() {
    let compiled = run("size: { run: 950 }", "900");
    assert_eq!(errors(&compiled), ["the run of module `rack` is 950 mm; `t/rack` takes 300 to 900 mm"]);
    assert_eq!(faults(&compiled), ["no-overlap of rack and chest"]);
    let model = compiled.model.as_ref().unwrap();
    assert_eq!((model.errors, model.modules[0].extent.x), (1, (0.0, 950.0)));
    let misfit = &model.modules[0].misfits[0];
    assert_eq!((misfit.kind, misfit.figure, misfit.range), (MisfitKind::Size, 950.0, (300.0, 900.0)));
    assert!(model.modules[1].misfits.is_empty());
}

#[test]
fn of_a_place_given_too_often_the_first_two_hold() {
    for (place, extent) in [
        ("size: { run: 500 }, place: { front: 100, rear: 700, left: 0 }", (100.0, 700.0)),
        ("place: { front: 100, rear: 700, centre-x: 900, left: 0 }", (100.0, 700.0)),
        ("size: { run: 500 }, place: { rear: 700, centre-x: 400, left: 0 }", (100.0, 700.0)),
    ] {
        let layout = LAYOUT.replace("place: { front: 0, left: 0 }, RACK", place).replace("NEXT", "900");
        let world = MemoryWorld::default().with("a.yaml", &layout).with("symbols/t/rack.yaml", RACK);
        let compiled = compile(&world, "a.yaml", &Registry::standard(), &Options::default());
        let model = compiled.model.as_ref().unwrap();
        assert_eq!((compiled.errors.errors().len(), model.modules[0].extent.x), (1, extent), "{place}");
        assert_eq!(model.modules[0].misfits[0].kind, MisfitKind::Place);
    }
}

/// Nine boards: the square root of -4 is an error of the symbol that follows, and a block is drawn.
#[test]
fn what_its_symbol_cannot_make_is_a_block() {
    let compiled = run("set: { boards: 9 }", "500");
    assert_eq!(errors(&compiled), ["`boards` of module `rack` is 9; it takes 1 to 4"]);
    let model = compiled.model.as_ref().unwrap();
    let solids = &model.modules[0].poses[0].solids;
    assert_eq!((solids.len(), solids[0].prism.bounds()), (1, model.modules[0].extent));
    assert_eq!(faults(&compiled), ["no-overlap of rack and chest"]);
}

/// Where something else needs what failed there, nothing is drawn, and why is told.
#[test]
fn what_hangs_on_a_figure_that_failed_is_not_left_out() {
    let compiled = run("set: { boards: 9 }", "900 + rack.gap");
    assert!(compiled.model.is_none());
    let told = errors(&compiled);
    assert!(told.len() >= 2 && told.iter().any(|error| error.contains("root")), "{told:?}");
}

#[test]
fn every_sheet_says_draft_and_hatches_what_is_wrong() {
    let compiled = run("size: { run: 950 }", "1000");
    let outputs = produce(&compiled).unwrap();
    let stamped = |items: &[Item]| format!("{items:?}").contains("DRAFT: 1 error");
    for sheet in &outputs.sheets {
        let mut items = sheet.views.iter().flat_map(|view| &view.layers).map(|layer| &layer.items);
        assert!(items.any(|items| stamped(items)), "{}", sheet.id);
    }
    let hatched = |id: &str| {
        let sheet = outputs.sheets.iter().find(|sheet| sheet.id.starts_with(id)).unwrap();
        let shown = format!("{:?}", sheet.views);
        (shown.contains("misfit-rack"), shown.contains("misfit-chest"))
    };
    for id in ["plan-", "elevations", "brochure"] {
        assert_eq!(hatched(id), (true, false), "{id}");
    }
}

#[test]
fn the_command_makes_a_draft_and_ends_as_with_any_error() {
    let folder = folder();
    let text = LAYOUT.replace("symbols: [symbols]\n", "").replace("RACK", "size: { run: 5000 }").replace("NEXT", "0");
    write(&folder, "draft.yaml", &text.replace("t/rack", "stow/shelf"));
    let check = boxwright(&folder).args(["check", "draft.yaml"]).assert().code(2);
    let report = told(&check);
    assert!(report.contains("error: the run of module `rack` is 5000 mm"), "{report}");
    assert!(
        report.contains("fault: inside-box of rack") && report.contains("draft.yaml: a draft with 1 error; held by"),
        "{report}"
    );
    let build = boxwright(&folder).args(["build", "draft.yaml"]).assert().code(2);
    assert!(told(&build).contains("stamped DRAFT for 1 error, "), "{}", told(&build));
    let files = bytes(&folder.path().join("out/draft"));
    for (name, text) in files.iter().filter(|(name, _)| name.ends_with(".svg") || name.ends_with(".csv")) {
        assert!(String::from_utf8_lossy(text).contains("DRAFT"), "{name}");
    }
    let json = |name: &str| serde_json::from_slice::<serde_json::Value>(&files[name]).unwrap();
    let findings = json("findings.json");
    assert_eq!((&findings["compiled"], &findings["drawn"]), (&false.into(), &true.into()));
    assert_eq!(findings["errors"].as_array().unwrap().len(), 1);
    assert!(json("model.json")["held"].as_u64() > Some(1) && json("report.json")["held"] == json("model.json")["held"]);
    let sarif = boxwright(&folder).args(["check", "draft.yaml", "--format", "sarif"]).assert().code(2);
    let log: serde_json::Value = serde_json::from_str(&told(&sarif)).unwrap();
    let rules: Vec<&str> =
        log["runs"][0]["results"].as_array().unwrap().iter().filter_map(|one| one["ruleId"].as_str()).collect();
    assert!(rules.contains(&"layout-language") && rules.contains(&"inside-box"), "{rules:?}");
}
