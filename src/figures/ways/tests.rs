//! Ways to openings and modules, by hand.

use super::*;
use crate::checks::testing::{block, box3, door, model, space, standing, with, with_opening, with_space};
use crate::geometry::{Axis, Polygon, Prism};
use crate::model::{Cutaway, Route, Swings};

fn route(from: RouteEnd, to: RouteEnd) -> Route {
    let name = "a to b".to_owned();
    Route { name, from, to, arrangements: vec![0], least: None, span: Span::default() }
}

fn widths(model: &Model) -> Vec<f64> {
    crate::figures::alone(model)
        .measured_ways(&model.arrangements[0], &[])
        .iter()
        .map(|way| (way.width * 10.0).round() / 10.0)
        .collect()
}

#[test]
fn a_pass_through_is_reached_through_its_own_width() {
    let pass =
        Opening { kind: OpeningKind::PassThrough, swings: Swings::No, ..door("pass", Wall::Front, (700.0, 1320.0)) };
    let mut model = with_opening(model(space(4000.0, 2000.0, 2000.0)), door("entry", Wall::Right, (1500.0, 2200.0)));
    model = with_opening(model, pass);
    model.routes.push(route(RouteEnd::Opening(0), RouteEnd::Opening(1)));
    assert_eq!(widths(&model), [620.0]);
    let chest = with(model, block("chest", box3((0.0, 400.0), (0.0, 900.0), (0.0, 450.0))));
    assert_eq!(widths(&chest), [420.0], "the chest leaves 420 of the opening");
}

#[test]
fn a_module_without_spaces_is_reached_beside_it() {
    let mut model = with_opening(model(space(4000.0, 2000.0, 2000.0)), door("entry", Wall::Right, (500.0, 1200.0)));
    model = with(model, block("bunk", box3((2000.0, 4000.0), (0.0, 2000.0), (0.0, 450.0))));
    model.routes.push(route(RouteEnd::Opening(0), RouteEnd::Module(0)));
    // The middle within 300 of the bunk, so a disc of twice that at most.
    assert_eq!(widths(&model), [600.0]);
    let lie = Space { need: Need::Lying, ..standing(Rect::new(2000.0, 0.0, 4000.0, 2000.0)) };
    model.modules[0].poses[0].spaces.push(lie);
    assert_eq!(widths(&model), [600.0], "the same beside the place to lie");
}

#[test]
fn a_wedge_narrows_the_floor_where_it_is_higher_than_a_step() {
    let mut model = with_opening(model(space(3000.0, 2000.0, 2000.0)), door("entry", Wall::Right, (500.0, 1300.0)));
    let outline = [(0.0, 0.0), (600.0, 0.0), (0.0, 600.0)].map(|(y, z)| Point::new(y, z)).to_vec();
    let prism = Prism { axis: Axis::X, outline: Polygon::new(outline), low: 0.0, high: 3000.0 };
    model.space.cutaways.push(Cutaway { name: "sill".to_owned(), prism, kind: CutKind::Floor, span: Span::default() });
    let shelf = block("shelf", box3((1500.0, 2000.0), (800.0, 2000.0), (0.0, 900.0)));
    let rear = block("sink", box3((2900.0, 3000.0), (0.0, 2000.0), (0.0, 900.0)));
    model = with(with(model, shelf), with_space(rear, standing(Rect::new(2300.0, 0.0, 2900.0, 2000.0))));
    // The wedge is 230 high at 370 from the wall: 800 - 370 are left beside the shelf.
    assert_eq!(widths(&model), [430.0]);
    let figures = crate::figures::alone(&model);
    let floor = figures.floor(&model.arrangements[0]);
    assert_eq!(floor.owner_at(Point::new(1700.0, 370.0)).map(|owner| owner.words()).as_deref(), Some("`sill`"));
    assert_eq!(floor.owner_at(Point::new(3000.0, 1700.0)).map(|owner| owner.words()).as_deref(), Some("`sink`"));
    assert_eq!(floor.owner_at(Point::new(900.0, 700.0)), None);
}

#[test]
fn a_ring_of_walls_keeps_its_inside() {
    let mut room = block("wash", box3((0.0, 1000.0), (0.0, 1000.0), (0.0, 2000.0)));
    room.poses[0].solids = [
        box3((980.0, 1000.0), (0.0, 1000.0), (0.0, 2000.0)),
        box3((0.0, 1000.0), (980.0, 1000.0), (0.0, 2000.0)),
        box3((0.0, 20.0), (0.0, 1000.0), (0.0, 2000.0)),
        box3((0.0, 1000.0), (0.0, 20.0), (0.0, 2000.0)),
    ]
    .map(|extent| crate::checks::testing::solid("wall", extent.into()))
    .to_vec();
    let model = with(model(space(3000.0, 2000.0, 2000.0)), room);
    let figures = crate::figures::alone(&model);
    let floor = figures.floor(&model.arrangements[0]);
    assert_eq!(floor.inside().area(), 3000.0 * 2000.0 - (1000.0 * 1000.0 - 960.0 * 960.0));
    let ring = Region::rect(Rect::new(0.0, 0.0, 1000.0, 1000.0));
    assert!((floor.room(&ring) - 960.0).abs() < 0.1);
}
