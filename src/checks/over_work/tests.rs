//! Heights over work places by hand.

use super::*;
use crate::checks::testing::{block, box3, met, model, run, solid, space, with};
use crate::geometry::Box3;
use crate::model::testing::said;

/// A worktop, sink or toilet 900 high, and a locker over it from a height up.
fn work(tag: &str, depth: f64, from: f64) -> Model {
    let mut galley = block("galley", box3((1000.0, 2200.0), (0.0, 600.0), (0.0, 900.0)));
    let mut top = solid("top", box3((1000.0, 2200.0), (0.0, 600.0), (860.0, 900.0)).into());
    top.tags.push(said(tag));
    galley.poses[0].solids.push(top);
    let locker: Box3 = box3((1000.0, 2000.0), (0.0, depth), (from, 1950.0));
    with(with(model(space(4000.0, 2000.0, 2000.0)), galley), block("locker", locker))
}

fn said_of(model: &Model) -> Vec<String> {
    run(&OverWork, model).into_iter().map(|one| one.message).collect()
}

#[test]
fn each_place_has_its_height() {
    for (tag, least) in [("worktop", 450.0), ("sink", 500.0), ("toilet", 977.0)] {
        let least: f64 = least;
        assert!(said_of(&work(tag, 320.0, 900.0 + least)).is_empty(), "{tag}");
        assert_eq!(met(&OverWork, &work(tag, 320.0, 900.0 + least)).map(|one| one.1), Some(least));
        let found = said_of(&work(tag, 320.0, 899.0 + least));
        let wanted =
            format!("`body` of `locker` hangs {} mm over `top` of `galley`, {least} mm is needed", least - 1.0);
        assert_eq!(found, [wanted]);
    }
}

#[test]
fn what_stands_on_it_or_hardly_covers_it_does_not_hang() {
    assert!(said_of(&work("worktop", 149.0, 1000.0)).is_empty(), "a rail of 149 mm");
    assert_eq!(said_of(&work("worktop", 150.0, 1000.0)).len(), 1);
    assert!(said_of(&work("worktop", 320.0, 999.0)).is_empty(), "99 mm: it stands there");
    let mut table = work("worktop", 320.0, 1200.0);
    table.modules[0].poses[0].solids[1].tags.push(said("table"));
    assert!(said_of(&table).is_empty());
}

#[test]
fn a_bed_that_goes_up_by_day_leaves_room() {
    let mut model = work("worktop", 320.0, 1100.0);
    let mut raised = model.modules[1].poses[0].clone();
    raised.solids[0].prism = box3((1000.0, 2000.0), (0.0, 320.0), (1700.0, 1950.0)).into();
    model.modules[1].poses.push(raised);
    assert_eq!(said_of(&model).len(), 1);
    let mut day = model.arrangements[0].clone();
    (day.name, day.poses) = ("day".to_owned(), vec![0, 1]);
    model.arrangements.push(day);
    assert!(said_of(&model).is_empty());
}
