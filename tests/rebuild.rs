//! Puts every module together again from the places its parts state: all symbols of the library at all their sizes and
//! settings, and the demos. What must hold: every piece has a place inside the module's solids, no two share room but
//! for a panel in a groove, none hangs in the air, faces meet or keep a stated distance, the outside is closed but for
//! joints and sides that the symbol calls open, and something stands in every groove. The rules are those of how solid
//! bodies can be put together; they need no source. The last tests spoil a part and demand that it is found.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may stop at once")]

#[path = "common/mod.rs"]
mod common;
#[path = "common/library.rs"]
mod library;
#[path = "common/rebuild.rs"]
mod rebuild;

use boxwright::compile::Case;
use boxwright::compile::{Options, read, run_checks};
use boxwright::geometry::{Axis, Prism};
use boxwright::joinery::cut_list;
use boxwright::model::{Lies, Module, OpeningKind, Place, Wall};
use boxwright::registry::Registry;
use kurbo::Rect;
use library::{LIBRARY, Made, OTHER_STOCKS, ROOMY, layout, make};
use rayon::prelude::*;
use rebuild::{complaints, covering, mass};
use std::collections::BTreeMap;

#[test]
fn every_symbol_can_be_put_together() {
    let look = |Made { name, case, made }: &Made| {
        let complaints = made.as_ref().map_or_else(Clone::clone, |(module, _)| complaints(module)).into_iter();
        complaints.map(|one| (one.clone(), format!("{name} {:?} {:?}: {one}", case.size, case.set))).collect()
    };
    let wrong: Vec<Vec<(String, String)>> = LIBRARY.par_iter().map(look).collect();
    let mut kinds: BTreeMap<String, String> = BTreeMap::new();
    for (one, shown) in wrong.into_iter().flatten() {
        let kind = shown.split(' ').next().unwrap_or_default().to_owned() + &one;
        kinds.entry(kind.chars().filter(|letter| !letter.is_ascii_digit()).collect()).or_insert(shown);
    }
    let shown: Vec<String> = kinds.into_values().collect();
    assert!(shown.is_empty(), "one of each kind:\n{}\n", shown.join("\n"));
}

#[test]
fn the_demos_can_be_put_together() {
    let files = common::yaml_files("layouts");
    let world = common::world(&files);
    assert!(files.len() >= 3);
    for (path, _) in &files {
        let model = read(&world, path, &Registry::standard(), &Options::default()).model.unwrap();
        for module in &model.modules {
            let wrong = complaints(module);
            assert!(wrong.is_empty(), "{path}: {}\n{}", module.name, wrong.join("\n"));
        }
    }
}

/// Below the lowest drawer: what lies lower is the bottom of a module or stands on the floor, mm.
const UNDERSIDE: f64 = 80.0;

/// A drop vent for gas does nothing under a closed board.
#[test]
fn no_board_of_the_demos_covers_a_vent_in_the_floor() {
    let files = common::yaml_files("layouts");
    let world = common::world(&files);
    let mut vents = 0;
    for (path, _) in &files {
        let model = read(&world, path, &Registry::standard(), &Options::default()).model.unwrap();
        for vent in model.openings.iter().filter(|one| one.wall == Wall::Floor && one.kind == OpeningKind::Vent) {
            let column = Prism::upright(Rect::new(vent.along.0, vent.up.0, vent.along.1, vent.up.1), 0.0, UNDERSIDE);
            let covers: Vec<String> = model.modules.iter().flat_map(|module| covering(module, &column)).collect();
            assert!(covers.is_empty(), "{path}: {} is covered by {}", vent.name, covers.join(", "));
            vents += 1;
        }
    }
    assert!(vents >= 3, "{vents}");
}

/// Masses of the cut list against the volumes of the pieces where they stand, to a gram, for every demo.
#[test]
fn the_cut_list_weighs_what_the_pieces_weigh() {
    let files = common::yaml_files("layouts");
    let world = common::world(&files);
    for (path, _) in &files {
        let model = read(&world, path, &Registry::standard(), &Options::default()).model.unwrap();
        let listed: f64 = cut_list(&model).rows.iter().map(|row| row.mass * f64::from(row.count)).sum();
        let built: f64 = model.modules.iter().map(|module| mass(module, &model.stocks)).sum();
        assert!(listed > 50.0 && (listed - built).abs() < 0.001, "{path}: {listed} kg listed, {built} kg built");
    }
}

/// The module of one symbol at its usual sizes.
fn usual(symbol: &str, set: &[(&str, &str)]) -> Module {
    let set = set.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect();
    make(&layout(symbol, &[Case { set, ..Case::default() }], ROOMY)).unwrap().modules.remove(0)
}

/// A place whose piece reaches further at one end of one axis; the part is as much larger.
fn stretched(place: &Place, axis: Axis, by: f64) -> Place {
    let (low, high) = place.bounds().range(axis);
    Place { solid: Prism::from(place.bounds().with(axis, (low, high + by))), ..place.clone() }
}

/// Any piece of a galley that is 3 mm too long or too short is found.
#[test]
fn a_part_of_a_galley_too_long_or_too_short_by_three_millimetres_is_found() {
    let mut missed = Vec::new();
    for set in [&[("sink", "none"), ("hob", "2")][..], &[("drawers", "0")][..]] {
        let module = usual("galley/base-run", set);
        assert!(complaints(&module).is_empty());
        for (at, part) in module.parts.iter().enumerate() {
            for (which, place) in part.places.iter().enumerate() {
                let Lies { length, .. } = place.lies.unwrap();
                for by in [3.0, -3.0] {
                    let mut spoilt = module.clone();
                    spoilt.parts[at].places[which] = stretched(place, length.axis, by);
                    if complaints(&spoilt).is_empty() {
                        missed.push(format!("{} {which} longer by {by}", part.name));
                    }
                }
            }
        }
    }
    assert!(missed.is_empty(), "{missed:#?}");
}

/// Where a wheel box of 800 x 230 x 210 mm is under a module, from its left end, mm.
const WHEELS: [(f64, f64); 5] = [(0.0, 2400.0), (0.0, 800.0), (10.0, 810.0), (300.0, 1100.0), (800.0, 2400.0)];

/// Notched modules go together and stay clear of the wheel box, which only the layout knows as such.
#[test]
fn modules_over_a_wheel_box_are_notched_round_it() {
    let symbols = [
        ("galley/base-run", 1600, "sink: none"),
        ("galley/base-run", 1600, "drawers: 0, toe: 120"),
        ("stow/wardrobe", 1200, "inside: shelved"),
    ];
    for (symbol, run, set) in symbols {
        for stocks in ["", OTHER_STOCKS] {
            for (from, to) in WHEELS {
                let (front, rear) = (1000.0 + from, 1000.0 + to.min(f64::from(run)));
                let wheel = format!("{{ box: {{ front: {front}, rear: {rear}, left: 0, right: 230, top: 210 }} }}");
                let made = make(&format!(
                    "boxwright: 1\ntitle: Wheel\n{stocks}box: {{ length: 6000, width: 3000, height: 2500, cutaways: {{ \
                     wheel: {wheel} }} }}\nmodules:\n  m: {{ symbol: {symbol}, faces: right, mirror: yes, place: {{ \
                     front: 1000, left: 0 }}, size: {{ run: {run} }}, set: {{ {set}, wheel-from: {from}, wheel-to: {to}, \
                     wheel-depth: 230, wheel-height: 210 }} }}\n"
                ))
                .unwrap();
                let wrong = complaints(&made.modules[0]);
                assert!(wrong.is_empty(), "{symbol} {from} {to} {stocks}:\n{}", wrong.join("\n"));
                let column = Prism::upright(Rect::new(front, 0.0, rear, 230.0), 0.0, 210.0);
                assert_eq!(covering(&made.modules[0], &column), Vec::<String>::new(), "{symbol} {from} {to}");
                let pierced =
                    run_checks(&made, &Registry::standard()).into_iter().find(|one| one.key.check == "inside-box");
                assert_eq!(pierced.map(|one| one.message), None, "{symbol} {from} {to}");
            }
        }
    }
}

/// Boards that end below the roof fill their walls, whichever way they stand under whichever roof.
#[test]
fn walls_under_a_roof_that_is_not_flat_go_together() {
    let walls = [("build/partition", "doorway: door"), ("wash/wet-room", "right-wall: yes, back-wall: yes")];
    for roof in ["{ shape: arch, rise: 160 }", "{ shape: ridge, rise: 200 }", "[[0, 1600], [500, 1950], [2100, 1800]]"]
    {
        for (symbol, set) in walls {
            for (faces, side) in [("right", "left: 100"), ("left", "right: 2100"), ("rear", "left: 600")] {
                let made = make(&format!(
                    "boxwright: 1\ntitle: Roof\nbox: {{ length: 4000, width: 2100, height: 1600, roof: {roof} }}\n\
                     modules:\n  m: {{ symbol: {symbol}, faces: {faces}, place: {{ front: 500, {side} }}, set: {{ {set} }} }}\n"
                ));
                let wrong = complaints(&made.unwrap().modules[0]);
                assert!(wrong.is_empty(), "{symbol} {faces} {roof}:\n{}", wrong.join("\n"));
            }
        }
    }
}

#[test]
fn a_back_beside_its_groove_is_found() {
    let mut module = usual("galley/base-run", &[]);
    let back = module.parts.iter_mut().find(|part| part.name == "carcass-back").unwrap();
    for place in &mut back.places {
        *place = Place { solid: place.solid.moved(Axis::X, 6.0), ..place.clone() };
    }
    let wrong = complaints(&module);
    let found = |words: &str| wrong.iter().any(|one| one.contains(words));
    assert!(found("side and carcass-back share") && found("side: a groove is free"), "{wrong:#?}");
}

#[test]
fn what_is_left_out_is_found() {
    for name in ["carcass-bottom", "carcass-back", "drawer-bottom", "worktop", "door"] {
        let mut module = usual("galley/base-run", &[]);
        module.parts.retain(|part| part.name != name);
        assert!(!complaints(&module).is_empty(), "{name}");
    }
    let mut module = usual("galley/base-run", &[]);
    module.parts.iter_mut().for_each(|part| part.places.clear());
    assert!(complaints(&module)[0].ends_with("0 places"));
}
