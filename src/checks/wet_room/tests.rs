//! Figures worked out by hand.

use super::*;
use crate::checks::testing::{block, box3, model, run, solid, space, with};
use crate::geometry::Box3;
use crate::model::testing::said;
use crate::model::{Model, Module, Move, MoveKind, Swing, Zone};
use kurbo::{Point, Rect};

fn add(module: &mut Module, name: &str, extent: Box3, tag: &str) {
    let mut one = solid(name, extent.into());
    one.tags.push(said(tag));
    module.poses[0].solids.push(one);
}

/// A wet room of 900 x `deep` in the corner, facing right: tray, a wall at its rear, a door of 20 shut over its front.
fn wash(deep: f64) -> Module {
    let mut module = block("wash", box3((0.0, 920.0), (0.0, deep + 20.0), (0.0, 2000.0)));
    module.poses[0].solids.clear();
    add(&mut module, "tray", box3((0.0, 900.0), (0.0, deep), (0.0, 60.0)), "shower");
    add(&mut module, "wall", box3((900.0, 920.0), (0.0, deep + 20.0), (0.0, 1990.0)), "wall");
    let hinge = Point::new(0.0, deep + 20.0);
    let leaf = Swing {
        axis: crate::geometry::Axis::Z,
        hinge,
        along: (60.0, 1900.0),
        length: 900.0,
        thickness: 20.0,
        shut: 0.0,
        opens: 90.0,
    };
    let kind = MoveKind::Swing(leaf);
    module.poses[0].moves.push(Move { name: "door".to_owned(), kind, walk_through: true, span: Span::default() });
    module
}

fn plain() -> Model {
    model(space(4000.0, 2000.0, 2000.0))
}

fn cautions(model: &Model) -> Vec<String> {
    let graver = run(&WetRoom, model).into_iter().filter(|one| one.severity != Severity::Note);
    graver.map(|one| one.message).collect()
}

#[test]
fn the_floor_between_the_walls_with_the_door_shut() {
    assert_eq!(cautions(&with(plain(), wash(700.0))), Vec::<String>::new());
    let is = "the free floor of `wash` is 900 x 699 mm with its door shut, 700 x 700 mm is needed";
    assert_eq!(cautions(&with(plain(), wash(699.0))), [is]);
}

#[test]
fn a_toilet_leaves_the_floor_and_takes_from_the_disc() {
    let mut with_seat = wash(900.0);
    // In the far corner, 380 wide with its middle 300 from the front wall, 480 deep.
    add(&mut with_seat, "bowl", box3((110.0, 490.0), (0.0, 480.0), (60.0, 500.0)), "toilet");
    let found = run(&WetRoom, &with(plain(), with_seat));
    let notes: Vec<&str> = found.iter().map(|one| one.message.as_str()).collect();
    assert!(notes[0].contains("900 x 900 mm"), "{notes:?}");
    // Middle 300: 300 to the front wall, 600 to the partition; before it 900 - 480 to the shut door.
    assert!(
        notes[1].starts_with("the toilet of `wash` has 300 and 600 mm beside its middle and 420 mm before it"),
        "{notes:?}"
    );
    // The disc touches the partition and the shut door, and the bowl's corner (490, 480): its middle (900 - r, 900 - r) is r
    // away from there, so (410 - r)^2 + (420 - r)^2 = r^2.
    let (a, b): (f64, f64) = (410.0, 420.0);
    let r = (a + b) - (2.0 * a * b).sqrt();
    assert!((found[2].measured.unwrap().value - 2.0 * r).abs() < 0.1, "{} against {}", notes[2], 2.0 * r);
}

#[test]
fn a_toilet_too_near_the_wall_or_the_door() {
    let seat = |x: f64, deep: f64| {
        let mut module = wash(900.0);
        add(&mut module, "bowl", box3((x - 190.0, x + 190.0), (0.0, deep), (60.0, 500.0)), "toilet");
        cautions(&with(plain(), module)).into_iter().filter(|one| one.contains("toilet")).collect::<Vec<_>>()
    };
    assert!(seat(255.0, 650.0).is_empty(), "255 beside, 250 before");
    assert_eq!(
        seat(254.0, 650.0),
        ["the toilet of `wash` has 254 mm from its middle to the nearer side, 255 mm is needed"]
    );
    assert_eq!(seat(255.0, 651.0), ["the toilet of `wash` has 249 mm free before it, 250 mm is needed"]);
}

#[test]
fn a_zone_without_a_module_of_its_own_is_a_room() {
    let zone = |x| Zone {
        name: "bath".to_owned(),
        purpose: said("wet-room"),
        rect: Rect::new(0.0, 0.0, x, 800.0),
        level: 0,
        span: Span::default(),
    };
    let mut model = plain();
    model.zones.push(zone(699.0));
    assert_eq!(cautions(&model).len(), 1);
    model.zones[0] = zone(700.0);
    assert!(cautions(&model).is_empty());
}

#[test]
fn the_rim_of_a_tray_is_no_wall() {
    let rimmed = |height: f64| {
        let mut module = wash(700.0);
        add(&mut module, "rim", box3((0.0, 300.0), (0.0, 700.0), (60.0, 60.0 + height)), "wall");
        let found = run(&WetRoom, &with(plain(), module));
        found.iter().find(|one| one.message.contains("disc")).unwrap().measured.unwrap().value
    };
    assert!((rimmed(230.0) - 700.0).abs() < 0.1, "{}", rimmed(230.0));
    assert!((rimmed(231.0) - 600.0).abs() < 0.1, "{}", rimmed(231.0));
}

#[test]
fn what_hangs_over_the_toilet_is_told_as_height() {
    let seat = |low: f64| {
        let mut module = wash(900.0);
        add(&mut module, "bowl", box3((110.0, 490.0), (0.0, 480.0), (60.0, 500.0)), "toilet");
        add(&mut module, "locker", box3((0.0, 900.0), (0.0, 300.0), (low, 1900.0)), "locker");
        cautions(&with(plain(), module)).into_iter().filter(|one| one.contains("toilet")).collect::<Vec<_>>()
    };
    assert!(seat(1400.0).is_empty(), "{:?}", seat(1400.0));
    assert_eq!(seat(1399.0), ["over the toilet of `wash` 899 mm are free to sit, 900 mm is needed"]);
}
