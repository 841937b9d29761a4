//! Hand-made models: 1.2 x 1,500 is 1,800.

use super::*;
use crate::checks::testing::{block, box3, model, run, solid, space, with, with_person};
use crate::geometry::{Box3, Prism};
use crate::model::testing::said;
use crate::model::{Model, Slide, Space};
use kurbo::Point;

fn holding(change: impl Fn(&mut PoseState)) -> Model {
    let mut locker = block("locker", box3((0.0, 1200.0), (0.0, 320.0), (1600.0, 2100.0)));
    change(&mut locker.poses[0]);
    with_person(with(model(space(4000.0, 2000.0, 2200.0)), locker), 1500.0)
}

fn told(model: &Model) -> Vec<f64> {
    run(&Reach, model).iter().map(|finding| finding.measured.unwrap().value).collect()
}

fn leaf(hinge: Point, shut: f64, axis: Axis, along: (f64, f64)) -> Move {
    let swing = Swing { axis, hinge, along, length: 350.0, thickness: 15.0, shut, opens: 85.0 };
    Move { name: "leaf".to_owned(), kind: MoveKind::Swing(swing), walk_through: false, span: Span::default() }
}

#[test]
fn a_flap_is_grasped_at_its_free_edge() {
    // Hinged at the top, 350 long, hanging down.
    let flap =
        |top: f64| told(&holding(|state| state.moves.push(leaf(Point::new(320.0, top), -90.0, Axis::X, (0.0, 600.0)))));
    assert_eq!((flap(2150.0), flap(2151.0)), (vec![], vec![1801.0]));
    // Hinged at the bottom its free edge is above.
    let up =
        |low: f64| told(&holding(|state| state.moves.push(leaf(Point::new(320.0, low), 90.0, Axis::X, (0.0, 600.0)))));
    assert_eq!((up(1450.0), up(1451.0)), (vec![], vec![1801.0]));
}

#[test]
fn a_door_is_grasped_low_and_a_drawer_below() {
    let door =
        |low: f64| told(&holding(|state| state.moves.push(leaf(Point::new(0.0, 320.0), 0.0, Axis::Z, (low, 2100.0)))));
    assert_eq!((door(1800.0), door(1801.0)), (vec![], vec![1801.0]));
    let drawer = |low: f64| {
        told(&holding(|state| {
            let slide = Slide {
                body: box3((0.0, 600.0), (0.0, 320.0), (low, low + 100.0)),
                axis: Axis::Y,
                travel: 250.0,
                after: None,
                through: false,
            };
            let kind = MoveKind::Slide(slide);
            state.moves.push(Move { name: "drawer".to_owned(), kind, walk_through: false, span: Span::default() });
        }))
    };
    assert_eq!((drawer(1800.0), drawer(1801.0)), (vec![], vec![1801.0]));
}

#[test]
fn tagged_solids_and_storage() {
    let of = |tag: &'static str, z: (f64, f64)| {
        told(&holding(|state| {
            let mut piece = solid("piece", Prism::from(box3((0.0, 600.0), (0.0, 200.0), z)));
            piece.tags.push(said(tag));
            state.solids.push(piece);
        }))
    };
    assert_eq!((of("shelf", (1785.0, 1800.0)), of("shelf", (1786.0, 1801.0))), (vec![], vec![1801.0]));
    assert_eq!((of("handle", (1800.0, 1840.0)), of("switch", (1801.0, 1840.0))), (vec![], vec![1801.0]));
    assert_eq!(of("mirror", (2000.0, 2100.0)), [0.0; 0]);
    let store = |low: f64| {
        let room = Box3 { z: (low, 2100.0), ..box3((0.0, 600.0), (0.0, 320.0), (0.0, 0.0)) };
        told(&holding(|state| {
            let name = "inside".to_owned();
            let prism = room.into();
            state.spaces.push(Space {
                name,
                prism,
                need: Need::Storage,
                people: 1,
                along: None,
                carries: None,
                span: Span::default(),
            });
        }))
    };
    assert_eq!((store(1800.0), store(1801.0)), (vec![], vec![1801.0]));
}

#[test]
fn the_highest_of_a_module_is_told_and_nobody_named_is_the_median_woman() {
    // 1.2 x 1,626 = 1,951.2.
    let mut locker = holding(|state| {
        state.moves.push(leaf(Point::new(0.0, 320.0), 0.0, Axis::Z, (1960.0, 2100.0)));
        state.moves.push(leaf(Point::new(0.0, 320.0), 0.0, Axis::Z, (1970.0, 2100.0)));
    });
    locker.people.clear();
    let found = run(&Reach, &locker);
    let says = "`leaf` of `locker` is 1970 mm above the floor, the shortest person, 1626 mm tall, reaches 1951.2 mm";
    assert_eq!(found.iter().map(|finding| finding.message.as_str()).collect::<Vec<_>>(), [says]);
    assert_eq!(found[0].required.as_ref().unwrap().source, "120 % of 1626 mm; common practice, no source");
}
