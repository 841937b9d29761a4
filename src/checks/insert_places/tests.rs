//! Places for inserts by hand; the rules are common practice, no source.

use super::*;
use crate::checks::testing::{block, box3, door, model, run, space, with, with_opening};
use crate::geometry::Point3;
use crate::model::{MassItem, Model, Opening, OpeningKind};
use crate::source::Span;

/// A cupboard at the left wall and on the floor, 1 m along and 900 mm high, that weighs so much. Its line of inserts in the wall
/// is 80 mm under its upper edge, at 820 mm, from 1,080 to 1,920 mm.
fn cupboard(mass: f64) -> Model {
    let mut module = block("cupboard", box3((1000.0, 2000.0), (0.0, 400.0), (0.0, 900.0)));
    let (at, span) = (Point3::default(), Span::default());
    module.masses = vec![MassItem { name: "itself".to_owned(), mass, at, span }];
    with(model(space(4000.0, 2000.0, 2000.0)), module)
}

fn window(along: (f64, f64), up: (f64, f64)) -> Opening {
    Opening { kind: OpeningKind::Window, up, ..door("pane", Wall::Left, along) }
}

fn missing(model: Model, opening: Opening) -> usize {
    run(&InsertPlaces, &with_opening(model, opening)).len()
}

#[test]
fn inserts_keep_forty_millimetres_from_an_opening() {
    let over = |sill: f64| window((500.0, 2500.0), (sill, sill + 500.0));
    assert_eq!(missing(cupboard(30.0), over(860.001)), 0);
    assert_eq!(missing(cupboard(30.0), over(859.999)), 1);
    let found = run(&InsertPlaces, &with_opening(cupboard(30.0), over(700.0)));
    assert_eq!((found[0].severity, found[0].key.subject.is("cupboard")), (Severity::Caution, true));
    assert_eq!(found[0].message, "openings leave no place for inserts of `cupboard` in the left wall");
}

/// The line ends at 1,920 mm: an opening that ends 40 mm before that leaves one place.
#[test]
fn one_free_place_is_enough() {
    let beside = |end: f64| window((500.0, end), (600.0, 1200.0));
    assert_eq!(missing(cupboard(30.0), beside(1879.999)), 0);
    assert_eq!(missing(cupboard(30.0), beside(1880.001)), 1);
}

#[test]
fn what_weighs_no_more_than_fifteen_kilograms_needs_none() {
    let all = || window((500.0, 2500.0), (600.0, 1200.0));
    assert_eq!(missing(cupboard(15.0), all()), 0);
    assert_eq!(missing(cupboard(15.001), all()), 1);
}

#[test]
fn an_opening_in_another_panel_is_in_nobodys_way() {
    let right = Opening { wall: Wall::Right, ..window((500.0, 2500.0), (600.0, 1200.0)) };
    assert_eq!(missing(cupboard(30.0), right), 0);
}
