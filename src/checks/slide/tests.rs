//! Hand-made models; every figure follows by hand from the coordinates beside it.

use super::*;
use crate::checks::testing;
use crate::checks::testing::{block, box3, model, space, with};
use crate::geometry::Roof;
use crate::model::{Model, Move, OpeningKind, Slide as Sliding};
use crate::source::Span;
use kurbo::Point;

fn run(model: &Model) -> Vec<Finding> {
    testing::run(&Slide, model)
}

/// A galley at the left wall, 500 deep, with one drawer that pulls out 450 to the right.
fn galley() -> Model {
    let mut module = block("galley", box3((1000.0, 1600.0), (0.0, 500.0), (0.0, 900.0)));
    let body = box3((1000.0, 1600.0), (0.0, 500.0), (300.0, 500.0));
    let kind = MoveKind::Slide(Sliding { body, axis: Axis::Y, travel: 450.0, after: None, through: false });
    let part = Move { name: "drawer 1".to_owned(), kind, walk_through: false, span: Span::default() };
    module.poses[0].moves.push(part);
    with(model(space(4000.0, 2000.0, 2000.0)), module)
}

#[test]
fn free_travel_and_room_in_front() {
    assert!(run(&galley()).is_empty());
    let far = block("sofa", box3((0.0, 4000.0), (1200.0, 2000.0), (0.0, 450.0)));
    assert!(run(&with(galley(), far)).is_empty());
}

#[test]
fn a_drawer_stopped_short() {
    let sofa = block("sofa", box3((0.0, 4000.0), (900.0, 2000.0), (0.0, 450.0)));
    let found = run(&with(galley(), sofa));
    assert_eq!(found.len(), 2);
    assert_eq!(found[0].message, "`drawer 1` of `galley` slides 400 mm of 450 mm and then meets `body` of `sofa`");
    assert_eq!(found[0].severity, Severity::Caution);
    assert_eq!(found[1].measured.unwrap().value, 0.0);
}

#[test]
fn less_than_half_is_a_fault() {
    let sofa = block("sofa", box3((0.0, 4000.0), (700.0, 2000.0), (0.0, 450.0)));
    assert_eq!(run(&with(galley(), sofa))[0].severity, Severity::Fault);
}

#[test]
fn too_little_room_to_stand() {
    // Open face at y = 950, sofa at 1130: 180 left of 250. A low step in front does not count.
    let sofa = block("sofa", box3((0.0, 4000.0), (1130.0, 2000.0), (0.0, 280.0)));
    let found = run(&with(galley(), sofa));
    let [finding] = &found[..] else { panic!() };
    let says = "180 mm are left to stand between the open `drawer 1` of `galley` and `body` of `sofa`";
    assert_eq!(finding.message, says);
    let step = block("step", box3((0.0, 4000.0), (1000.0, 2000.0), (0.0, 230.0)));
    assert!(run(&with(galley(), step)).is_empty());
}

#[test]
fn its_own_post_stands_in_its_way() {
    let mut model = galley();
    let post = box3((1580.0, 1620.0), (500.0, 520.0), (0.0, 900.0));
    model.modules[0].poses[0].solids.push(testing::solid("post", post.into()));
    let found = run(&model);
    assert_eq!(found[0].message, "`drawer 1` of `galley` slides 0 mm of 450 mm and then meets `post` of `galley`");
    assert_eq!(found[0].severity, Severity::Fault);
}

#[test]
fn a_low_roof_takes_height_and_not_room() {
    // The open face is at y = 950; one stands up to 1,200, where the roof that falls to the right from 2,000 at y = 0 is
    // lowest. Shoulders of 1,755 are at 1,439.1.
    let roofed = |end: f64| {
        let mut model = galley();
        model.space.roof = Roof::Line(vec![Point::new(0.0, 2000.0), Point::new(2000.0, end)]);
        run(&model)
    };
    // 2,000 - 0.6 (2,000 - 1,066) = 1,439.6 at y = 1,200; with 1,064, 1,438.4.
    assert!(roofed(1066.0).is_empty());
    let found = roofed(1064.0);
    let is =
        "the roof is 1438.4 mm high where one stands at the open `drawer 1` of `galley`, 1439.1 mm is needed to stoop";
    assert_eq!((found.len(), found[0].message.as_str()), (1, is));
}

#[test]
fn out_through_an_opening_that_it_fits() {
    // A tray at the right wall, 1,000 to 1,600 along it and 300 to 500 high, that goes 450 out.
    let tray = |through: bool, sill: f64| {
        let mut model = galley();
        let MoveKind::Slide(slide) = &mut model.modules[0].poses[0].moves[0].kind else { panic!() };
        (slide.body.y, slide.through) = ((1500.0, 2000.0), through);
        model.modules[0].extent.y = (1500.0, 2000.0);
        model.modules[0].poses[0].solids[0].prism = box3((1000.0, 1600.0), (1500.0, 2000.0), (0.0, 900.0)).into();
        let mut hatch = testing::door("hatch", Wall::Right, (1000.0, 1600.0));
        (hatch.kind, hatch.up) = (OpeningKind::Hatch, (sill, 500.0));
        run(&testing::with_opening(model, hatch))
    };
    assert!(tray(true, 300.0).is_empty());
    assert_eq!(
        tray(true, 301.0)[0].message,
        "`drawer 1` of `galley` slides 0 mm of 450 mm and then meets the right wall"
    );
    assert_eq!(tray(false, 300.0).len(), 2, "it does not say so");
}

#[test]
fn the_door_that_it_opens_after_is_none_of_what_it_meets() {
    let inner = |after: Option<&str>| {
        let mut model = galley();
        let state = &mut model.modules[0].poses[0];
        let MoveKind::Slide(slide) = &mut state.moves[0].kind else { panic!() };
        slide.after = after.map(str::to_owned);
        state.solids.push(testing::solid("leaf", box3((1000.0, 1600.0), (500.0, 520.0), (0.0, 900.0)).into()));
        let leaf = crate::model::Swing {
            axis: Axis::Z,
            hinge: Point::new(1000.0, 520.0),
            along: (0.0, 900.0),
            length: 600.0,
            thickness: 20.0,
            shut: 0.0,
            opens: 95.0,
        };
        let (name, kind) = ("door 1".to_owned(), MoveKind::Swing(leaf));
        state.moves.push(Move { name, kind, walk_through: false, span: Span::default() });
        run(&model).len()
    };
    // A door made by `each` is known by the name of its entry.
    assert_eq!((inner(None), inner(Some("door 1")), inner(Some("door")), inner(Some("doo"))), (1, 0, 0, 1));
}
