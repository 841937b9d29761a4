//! Parts against sheets by hand.

use super::*;
use crate::checks::testing::{block, box3, met, model, run, space, with};
use crate::joinery::fixture::part;
use crate::model::{Model, materials};

/// One part on a sheet that is trimmed by 10 mm at each edge.
fn one(length: f64, width: f64, grains: (Grain, Grain), sheet: (f64, f64)) -> Model {
    let mut stock = materials::material("poplar-ply-15").unwrap().stock("carcass");
    (stock.grain, stock.trim) = (grains.1, 10.0);
    stock.sheets.truncate(1);
    stock.sheets[0].size = sheet;
    let mut module = block("shelf", box3((0.0, 500.0), (0.0, 500.0), (0.0, 500.0)));
    module.parts = vec![Part { grain: grains.0, ..part("board", 1, length, width) }];
    let mut model = with(model(space(4000.0, 2000.0, 2000.0)), module);
    model.stocks = vec![stock];
    model
}

/// Which parts may lie along a sheet, and which turned: grain runs with grain, and what has none turns as it likes.
#[test]
fn grain_that_may_turn() {
    use Grain::{Free, Length, Width};
    for (part, sheet, lie, turn) in [
        (Length, Length, true, false),
        (Width, Width, true, false),
        (Length, Width, false, true),
        (Width, Length, false, true),
        (Free, Length, true, true),
        (Width, Free, true, true),
        (Free, Free, true, true),
    ] {
        assert_eq!((may_lie(part, sheet), may_turn(part, sheet)), (lie, turn), "{part:?} {sheet:?}");
    }
}

#[test]
fn a_long_part_fits_only_the_way_its_grain_allows() {
    use Grain::{Free, Length};
    let sheet = (2440.0, 1220.0);
    assert_eq!(met(&PartExceedsSheet, &one(2420.0, 600.0, (Length, Length), sheet)).unwrap().1, 0.0);
    assert!(run(&PartExceedsSheet, &one(600.0, 2420.0, (Free, Length), sheet)).is_empty());
    let found = run(&PartExceedsSheet, &one(600.0, 2420.0, (Length, Length), sheet));
    // Turned against its grain it would fit; along it the width is 1,220 mm too much for 1,200 mm.
    assert_eq!((found.len(), found[0].severity), (1, Severity::Fault));
    assert_eq!(found[0].measured.as_ref().unwrap().value, -1220.0);
}
