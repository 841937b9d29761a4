//! Strips of panel by hand; both limits are common practice, no source.

use super::*;
use crate::checks::testing::{door, met, model, run, space, with_opening};
use crate::model::OpeningKind;

/// A window in the left wall of a box of 4 x 2 x 2 m, with corners of 60 mm.
fn window(name: &str, along: (f64, f64), up: (f64, f64)) -> Opening {
    Opening { kind: OpeningKind::Window, radius: 60.0, up, ..door(name, Wall::Left, along) }
}

fn with(openings: &[Opening]) -> Model {
    openings.iter().cloned().fold(model(space(4000.0, 2000.0, 2000.0)), with_opening)
}

fn figures(openings: &[Opening]) -> Vec<(String, Severity, f64)> {
    let found = run(&OpeningEdges, &with(openings)).into_iter();
    found.map(|one| (one.key.subject.to_string(), one.severity, one.measured.map_or(0.0, |m| m.value))).collect()
}

#[test]
fn sixty_millimetres_are_left_to_each_edge() {
    // To the rear wall, to the front wall, under the roof, over the floor.
    let just = [
        ((3340.0, 3940.0), (900.0, 1400.0)),
        ((60.0, 660.0), (900.0, 1400.0)),
        ((900.0, 1500.0), (1440.0, 1940.0)),
        ((900.0, 1500.0), (60.0, 560.0)),
    ];
    for (along, up) in just {
        let pane = window("pane", along, up);
        assert_eq!(figures(std::slice::from_ref(&pane)), [], "{along:?} {up:?}");
        assert_eq!(met(&OpeningEdges, &with(std::slice::from_ref(&pane))), Some(("pane".to_owned(), 60.0)));
        // One micrometre more to the edge that is near.
        let step = |near: bool, (low, high): (f64, f64)| match near {
            true if low <= 60.0 => (low - 0.001, high),
            true => (low, high + 0.001),
            false => (low, high),
        };
        let is_near = |(low, high): (f64, f64), end: f64| low <= 60.0 || high >= end - 60.0;
        let past = Opening { along: step(is_near(along, 4000.0), along), up: step(is_near(up, 2000.0), up), ..pane };
        let found = figures(&[past]);
        assert!(found.len() == 1 && found[0].1 == Severity::Fault && (found[0].2 - 59.999).abs() < 1e-6, "{found:?}");
    }
}

#[test]
fn the_foot_of_a_door_needs_no_strip() {
    let entry = Opening { radius: 60.0, ..door("entry", Wall::Left, (900.0, 1500.0)) };
    assert_eq!(figures(std::slice::from_ref(&entry)), []);
    // 1 mm above the floor it is no foot.
    assert_eq!(figures(&[Opening { up: (1.0, 1801.0), ..entry }]), [("entry".to_owned(), Severity::Fault, 1.0)]);
}

/// Across a corner: 36 and 48 mm are 60 mm apart (3, 4, 5).
#[test]
fn sixty_millimetres_are_left_between_two() {
    let one = window("one", (500.0, 1000.0), (500.0, 900.0));
    let at = |x: f64, y: f64| window("other", (x, x + 500.0), (y, y + 400.0));
    for other in [at(1060.0, 500.0), at(1036.0, 948.0), at(500.0, 960.0)] {
        assert_eq!(figures(&[one.clone(), other]), []);
    }
    for other in [at(1059.999, 500.0), at(1035.0, 948.0), at(500.0, 959.999)] {
        let found = figures(&[one.clone(), other]);
        assert!(found.len() == 1 && found[0].0 == "one and other" && found[0].2 > 59.0, "{found:?}");
    }
    let elsewhere = Opening { wall: Wall::Right, ..at(1010.0, 500.0) };
    assert_eq!(figures(&[one, elsewhere]), [], "in another panel");
}

#[test]
fn corners_are_rounded_by_twenty_millimetres() {
    let pane = |radius, size: f64| Opening { radius, ..window("pane", (500.0, 500.0 + size), (500.0, 500.0 + size)) };
    assert_eq!(figures(&[pane(20.0, 400.0)]), []);
    assert_eq!(figures(&[pane(19.999, 400.0)]), [("pane".to_owned(), Severity::Caution, 19.999)]);
    assert_eq!(figures(&[pane(5.0, 199.999)]), [], "a small one");
    assert_eq!(figures(&[pane(5.0, 200.0)]).len(), 1);
}

#[test]
fn openings_that_say_no_radius_share_a_note() {
    let silent = |name, x| Opening { radius: 0.0, ..window(name, (x, x + 400.0), (500.0, 900.0)) };
    let found = run(&OpeningEdges, &with(&[silent("one", 500.0), silent("other", 1500.0)]));
    assert_eq!((found.len(), found[0].severity), (1, Severity::Note));
    assert_eq!(found[0].message, "one, other say no corner radius; panels want 20 mm");
}

#[test]
fn the_steel_of_a_vehicle_is_no_panel() {
    let mut van = with(&[window("pane", (30.0, 630.0), (900.0, 1400.0))]);
    assert_eq!(run(&OpeningEdges, &van).len(), 1);
    let layer = |material: &str| crate::model::Layer {
        material: material.to_owned(),
        thickness: 1.0,
        conductivity: 50.0,
        bridge: None,
    };
    van.space.walls.layers = ["plywood", "xps-foam", "steel"].map(layer).into();
    assert!(run(&OpeningEdges, &van).is_empty());
    van.space.walls.layers = ["plywood", "xps-foam", "aluminium"].map(layer).into();
    assert_eq!(run(&OpeningEdges, &van).len(), 1, "a skin glued to foam");
}
