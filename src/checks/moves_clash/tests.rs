//! Angles and travels worked out by hand.

use super::*;
use crate::checks::testing::{block, box3, model, run, space, with};
use crate::geometry::{Axis, Box3};
use crate::model::{Model, Module, Move, MoveKind, Slide, Swing};
use crate::source::Span;
use kurbo::Point;

fn part(name: &str, kind: MoveKind) -> Move {
    Move { name: name.to_owned(), kind, walk_through: false, span: Span::default() }
}

/// A module at the left wall with a drawer that pulls out to the right.
fn drawers(depth: f64, x: (f64, f64), travel: f64) -> Module {
    let mut module = block("chest", box3(x, (0.0, depth), (0.0, 900.0)));
    let body = box3(x, (0.0, depth), (300.0, 500.0));
    module.poses[0]
        .moves
        .push(part("drawer", MoveKind::Slide(Slide { body, axis: Axis::Y, travel, after: None, through: false })));
    module
}

/// A leaf of 600 x 20 in the face `y` of a module that faces left: hinged at `x`, opening to the left.
fn leaf(x: f64, y: f64, opens: f64) -> MoveKind {
    let hinge = Point::new(x, y);
    let along = (100.0, 800.0);
    MoveKind::Swing(Swing { axis: Axis::Z, hinge, along, length: 600.0, thickness: 20.0, shut: 0.0, opens: -opens })
}

/// A cupboard at the right wall, face at y = 1,500, with a door of 600 hinged at its front end.
fn cupboard(x: f64, opens: f64) -> Module {
    let mut module = block("cupboard", box3((x, x + 600.0), (1500.0, 2000.0), (0.0, 900.0)));
    module.poses[0].moves.push(part("door", leaf(x, 1500.0, opens)));
    module
}

fn plain() -> Model {
    model(space(4000.0, 2000.0, 2000.0))
}

#[test]
fn a_drawer_meets_an_open_door_across_the_aisle() {
    // Opened 85 degrees, the leaf's tip is at y = 1500 - 600 sin 85 = 902.3. The drawer's face starts at 500 and wants 450, so
    // it stops after 402.3.
    let model = with(with(plain(), drawers(500.0, (900.0, 1300.0), 450.0)), cupboard(1000.0, 95.0));
    let found = run(&MovesClash, &model);
    let [finding] = found.as_slice() else { panic!("{found:?}") };
    let expected = 1500.0 - 600.0 * 85.0_f64.to_radians().sin() - 500.0;
    assert_eq!((finding.severity, finding.key.subject.to_string().as_str()), (Severity::Caution, "chest and cupboard"));
    // The other way round, the door of 598 with its gap opens to the drawer's face at 950: sin of the angle is 550 / 598.
    let angle = (550.0_f64 / 598.0).asin().to_degrees();
    assert!((finding.measured.unwrap().value - angle).abs() < 1e-6, "{finding:?} against {angle}");
    let drawer = Moving::all(&model, &model.arrangements[0], 85.0);
    let short = clash(&drawer[0], &drawer[1], 85.0).unwrap();
    assert!((short.reached - expected).abs() < 1e-6, "{short:?}");
}

#[test]
fn beside_each_other_or_far_enough_is_no_clash() {
    let apart = with(with(plain(), drawers(400.0, (900.0, 1300.0), 450.0)), cupboard(1000.0, 95.0));
    assert!(run(&MovesClash, &apart).is_empty(), "open face at 850");
    let mut beside = cupboard(400.0, 95.0);
    beside.name = "other".to_owned();
    let row = with(with(plain(), cupboard(1000.0, 95.0)), beside);
    assert!(run(&MovesClash, &row).is_empty(), "side by side in one plane");
}

#[test]
fn two_doors_face_to_face() {
    // Hinged opposite each other 1,000 apart, 600 long: 85 degrees of one stands in the way of the other.
    let mut across = block("locker", box3((1000.0, 1600.0), (0.0, 500.0), (0.0, 900.0)));
    let hinge = Point::new(1000.0, 500.0);
    let kind = MoveKind::Swing(Swing {
        axis: Axis::Z,
        hinge,
        along: (100.0, 800.0),
        length: 600.0,
        thickness: 20.0,
        shut: 0.0,
        opens: 95.0,
    });
    across.poses[0].moves.push(part("door", kind));
    let facing = with(with(plain(), across.clone()), cupboard(1000.0, 95.0));
    let found = run(&MovesClash, &facing);
    assert_eq!(found.len(), 1);
    assert!(found[0].message.starts_with("`door` of "), "{}", found[0].message);
    // One above the other they pass.
    let MoveKind::Swing(swing) = &mut across.poses[0].moves[0].kind else { panic!() };
    swing.along = (800.0, 1200.0);
    assert!(run(&MovesClash, &with(with(plain(), across), cupboard(1000.0, 95.0))).is_empty());
}

/// A wardrobe at the left wall with a door over an inner drawer; the leaf hinges at its front end and opens to the right.
fn wardrobe(opens: f64, inner: (f64, f64)) -> Model {
    let mut module = block("wardrobe", box3((1000.0, 1600.0), (0.0, 500.0), (0.0, 1800.0)));
    let hinge = Point::new(1000.0, 500.0);
    let door = Swing { axis: Axis::Z, hinge, along: (0.0, 1800.0), length: 600.0, thickness: 20.0, shut: 0.0, opens };
    let body: Box3 = box3(inner, (50.0, 470.0), (300.0, 500.0));
    module.poses[0].moves.push(part("door", MoveKind::Swing(door)));
    module.poses[0].moves.push(part(
        "drawer",
        MoveKind::Slide(Slide { body, axis: Axis::Y, travel: 400.0, after: None, through: false }),
    ));
    with(plain(), module)
}

#[test]
fn a_drawer_behind_a_door_of_its_own_module_must_get_past_it() {
    // The leaf at 60 degrees leans over all of the drawer's way; at 85 it clears what begins 60 inside the hinge.
    let found = run(&MovesClash, &wardrobe(60.0, (1060.0, 1560.0)));
    let [finding] = found.as_slice() else { panic!("{found:?}") };
    assert_eq!((finding.severity, finding.key.subject.to_string().as_str()), (Severity::Fault, "wardrobe"));
    assert!(
        finding.message.ends_with("while `door` of `wardrobe` is open, which must open first"),
        "{}",
        finding.message
    );
    // tan 5 x 400 = 35 of lean at the end of the drawer's way.
    assert!(run(&MovesClash, &wardrobe(95.0, (1060.0, 1560.0))).is_empty());
}

#[test]
fn one_finding_for_two_modules_counts_the_rest() {
    let mut chest = drawers(500.0, (900.0, 1300.0), 450.0);
    let body = box3((900.0, 1300.0), (0.0, 500.0), (600.0, 700.0));
    chest.poses[0].moves.push(part(
        "upper",
        MoveKind::Slide(Slide { body, axis: Axis::Y, travel: 450.0, after: None, through: false }),
    ));
    let found = run(&MovesClash, &with(with(plain(), chest), cupboard(1000.0, 95.0)));
    assert_eq!(found.len(), 1);
    assert!(found[0].message.ends_with("; another pair of theirs meets, too"), "{}", found[0].message);
}

#[test]
fn a_door_and_a_drawer_round_the_corner_of_one_module() {
    // A cupboard with a drawer that pulls out to the right and a door in its rear face, hinged at its right end, that opens
    // over the drawer's way by 95 degrees and more.
    let corner = |opens: f64| {
        let mut module = drawers(500.0, (900.0, 1300.0), 450.0);
        let MoveKind::Slide(slide) = &mut module.poses[0].moves[0].kind else { panic!() };
        slide.body.x = (900.0, 1250.0);
        let door = Swing {
            axis: Axis::Z,
            hinge: Point::new(1300.0, 500.0),
            along: (100.0, 800.0),
            length: 400.0,
            thickness: 20.0,
            shut: 270.0,
            opens,
        };
        module.poses[0].moves.push(part("door", MoveKind::Swing(door)));
        run_wide(&with(plain(), module))
    };
    assert!(corner(175.0).is_empty(), "turned 175 degrees it stands 5 degrees off the drawer's side");
    let found = corner(190.0);
    let [finding] = found.as_slice() else { panic!("{found:?}") };
    assert_eq!((finding.severity, finding.key.subject.to_string().as_str()), (Severity::Caution, "chest"));
    assert!(!finding.message.contains("must open first"), "{}", finding.message);
}

/// With leaves that should open as far as they can.
fn run_wide(model: &Model) -> Vec<Finding> {
    let mut model = model.clone();
    model.limits.push(crate::model::LimitChange {
        check: NAME.to_owned(),
        name: "angle".to_owned(),
        value: 360.0,
        because: "as far as they go".to_owned(),
        span: Span::default(),
    });
    run(&MovesClash, &model)
}
