//! The rules of `layouts/README.md`, each clear of its limit, at it and past it by the smallest step; mistakes in rules, with
//! their places; bounds.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop at once")]

mod common;

use boxwright::compile::{Compiled, Options, compile};
use boxwright::diagnostic::{Finding, Severity};
use boxwright::registry::Registry;
use boxwright::source::MemoryWorld;

const BOX: &str = "boxwright: 1\ntitle: House\nbox: { length: 4000, width: 2000, height: 2000 }\n";
const DOOR: &str =
    "entry: { kind: door, wall: right, front: 200, run: 600, sill: 0, height: 1800, hinge: front, swings: out }";
const BED: &str = "bed: { symbol: bed/fixed-across, faces: front, place: { rear: box.rear, left: box.left, right: box.right }, \
                   size: { depth: 1200, height: 700 } }";

fn compiled(text: &str) -> Compiled {
    let file = ("layouts/rules/workshop.yaml", common::text("layouts/rules/workshop.yaml"));
    let world = MemoryWorld::default().with("house.yaml", text).with("rules/workshop.yaml", &file.1);
    compile(&world, "house.yaml", &Registry::standard(), &Options::default())
}

/// A rule of the page, as it stands there.
fn of_page(name: &str) -> String {
    let page = common::text("layouts/README.md");
    let from = page.find("rules:\n  worktop-height:").unwrap();
    let lines = page[from..].lines().skip(1).take_while(|line| line.starts_with("  "));
    let mut own = false;
    let mut rule = String::new();
    for line in lines {
        if !line.starts_with("   ") {
            own = line.trim_start().starts_with(&format!("{name}:"));
        }
        if own {
            rule += &format!("{line}\n");
        }
    }
    assert!(!rule.is_empty(), "{name} is not on the page");
    rule
}

fn with_rule(name: &str, layout: &str) -> String {
    format!("{BOX}{layout}rules:\n{}", of_page(name))
}

fn of_rule<'a>(compiled: &'a Compiled, name: &str) -> Vec<&'a Finding> {
    assert!(compiled.model.is_some(), "{name}: {:?}", compiled.errors.errors());
    let name = format!("rule:{name}");
    compiled.findings.iter().filter(|finding| finding.key.check == name).collect()
}

/// Whether a rule is missed, and the figure that is told first.
fn judged(name: &str, layout: &str) -> (bool, f64) {
    let compiled = compiled(&with_rule(name, layout));
    let found = of_rule(&compiled, name);
    let told: Vec<&&Finding> = found.iter().filter(|finding| !finding.key.to_string().contains("judged")).collect();
    assert!(!told.is_empty() && told.len() == found.len(), "{name}: {found:?}");
    let missed = found.iter().any(|finding| finding.severity != Severity::Met);
    let figure = found.iter().find_map(|finding| finding.measured).map_or(f64::NAN, |measured| measured.value);
    (missed, figure)
}

/// Clear, at the limit, past it: values that take the place of `X`, and what is measured where it fails.
fn at_its_limit(name: &str, layout: &str, values: [&str; 3], fails: f64) {
    let told = values.map(|value| judged(name, &layout.replace('X', value)));
    assert_eq!(told.map(|(missed, _)| missed), [false, false, true], "{name}: {told:?}");
    assert!((told[2].1 - fails).abs() < 1e-9, "{name}: {told:?}");
}

#[test]
fn a_figure_between_two_limits() {
    let layout = "modules:\n  galley: { symbol: galley/base-run, faces: right, place: { front: 0, left: 0 }, size: { run: 1400, height: X } }\n";
    at_its_limit("worktop-height", layout, ["900", "880", "879.999"], 879.999);
    at_its_limit("worktop-height", layout, ["900", "940", "940.001"], 940.001);
}

#[test]
fn how_many_things_there_are() {
    let layout = "openings:\n  drain: { kind: hatch, wall: left, front: 1900, run: 200, sill: 100, height: 200 }\n\
                  loads:\n  fresh: { at: [2000, X, 200], tank: [400, 300, 300], holds: fresh-water }\n";
    // The tank's side is 150 mm before its middle.
    at_its_limit("tank-drain", layout, ["400", "750", "750.001"], 0.0);
}

#[test]
fn what_stands_over_what() {
    let layout = format!(
        "modules:\n  {BED}\n  locker: {{ symbol: stow/overhead-locker, faces: front, place: {{ rear: bed.front + X, left: 300, top: \
         box.top }}, size: {{ run: 1200, height: 360, depth: 400 }} }}\n"
    );
    // The mattress begins behind the bed's front board of 18 mm.
    at_its_limit("clear-pillow", &layout, ["0", "18", "18.01"], 1.0);
}

#[test]
fn a_way_over_the_floor() {
    let layout = format!(
        "openings:\n  {DOOR}\nmodules:\n  {BED}\n  one: {{ symbol: build/partition, faces: front, place: {{ front: 1500, left: 0, right: \
         700 }} }}\n  two: {{ symbol: build/partition, faces: front, place: {{ front: 1500, left: 700 + X, right: 2000 }} }}\n"
    );
    at_its_limit("way-out", &layout, ["520", "480", "479.9"], 479.9);
}

#[test]
fn what_is_seen_from_where() {
    // The look goes along y = 500, past the partition's end.
    let layout = "openings:\n  pane: { kind: window, wall: front, left: 300, right: 700, sill: 800, height: 500 }\nmodules:\n  bench: { \
                  symbol: stow/bench-seat, faces: front, place: { rear: 3500, left: 0, right: 1000 } }\n  wall: { symbol: \
                  build/partition, faces: front, place: { front: 1500, left: X, right: 2000 } }\n";
    at_its_limit("look-out", layout, ["800", "500", "499.99"], 0.0);
}

#[test]
fn pieces_and_a_limit_that_the_layout_changes() {
    let of = |most: Option<f64>| {
        let more = most.map_or(String::new(), |most| {
            format!("limits: {{ rule:carried-by-one: {{ most: {most}, because: \"two carry\" }} }}\n")
        });
        let layout = "modules:\n  galley: { symbol: galley/base-run, faces: right, place: { front: 0, left: 0 }, size: { run: 1400 } }\n";
        judged("carried-by-one", &format!("{layout}{more}"))
    };
    let (missed, heaviest) = of(None);
    assert!(!missed && heaviest > 5.0, "{heaviest}");
    assert_eq!(of(Some(heaviest)), (false, heaviest));
    assert_eq!(of(Some(heaviest - 0.001)), (true, heaviest));
}

#[test]
fn pieces_of_some_boards() {
    // The top of a locker, 6 mm thick, is as long as the locker.
    let layout = "modules:\n  locker: { symbol: stow/overhead-locker, faces: right, place: { front: 0, left: 0, top: box.top }, size: { \
                  run: X, height: 360 } }\n";
    at_its_limit("short-thin-boards", layout, ["1500", "2000", "2000.001"], 2000.001);
}

#[test]
fn each_of_one_kind_with_each_of_another() {
    let layout = format!("people: {{ anna: {{ stature: 1500 }}, ben: {{ stature: X }} }}\nmodules:\n  {BED}\n");
    at_its_limit("long-enough", &layout, ["1700", "1940", "1940.001"], 2000.0);
}

#[test]
fn a_sum_of_the_whole_box() {
    let of = |most: f64| {
        let layout = "modules:\n  a: { symbol: stow/overhead-locker, faces: right, place: { front: 0, left: 0, top: box.top }, size: { height: 360 } }\n  \
                      b: { symbol: stow/overhead-locker, faces: right, place: { front: a.rear, left: 0, top: box.top }, size: { height: 360 } }\n";
        let more = format!("limits: {{ rule:light-above: {{ most: {most}, because: \"more\" }} }}\n");
        judged("light-above", &format!("{layout}{more}"))
    };
    let (missed, sum) = of(80.0);
    assert!(!missed && sum > 10.0, "{sum}");
    assert_eq!((of(sum).0, of(sum - 0.001).0), (false, true));
}

#[test]
fn two_things_of_one_kind() {
    let layout = "modules:\n  galley: { symbol: galley/base-run, faces: right, place: { front: 0, left: 0 }, size: { run: 1400 }, set: { hob: 2 } }\n  \
                  cold: { symbol: galley/drawer-fridge, faces: right, place: { front: galley.rear + X, left: 0 } }\n";
    at_its_limit("hob-off-fridge", layout, ["300", "100", "99.999"], 99.999);
}

#[test]
fn two_things_of_one_wall() {
    let layout = "openings:\n  one: { kind: window, wall: left, front: 500, run: 400, sill: 1000, height: 500 }\n  two: { kind: window, \
                  wall: left, front: 1500, run: 400, sill: 1100, height: X }\n  three: { kind: window, wall: right, front: 1500, run: \
                  400, sill: 1200, height: 200 }\n";
    at_its_limit("heads-level", layout, ["400", "400", "400.001"], 1500.0);
}

#[test]
fn figures_of_the_layout_itself() {
    let layout = "parameters: { days: 3 }\npeople: { anna: { stature: 1700 } }\nloads:\n  fresh: { at: [2000, 1000, 200], tank: [400, 300, \
                  X], holds: fresh-water }\n  grey: { at: [3000, 1000, 200], tank: [100, 100, 100], holds: grey-water }\n";
    at_its_limit("water-for-all", layout, ["400", "300", "299.9"], 35.988);
}
