//! Sills and steps by hand.

use super::*;
use crate::checks::testing::{block, box3, door, met, model, run, space, with, with_opening};
use crate::model::{Model, Wall};

/// A box of 4 x 2 x 2 m with a door in its right wall from x = 1000 to 1600.
fn sill(up: (f64, f64)) -> Model {
    let mut entry = door("entry", Wall::Right, (1000.0, 1600.0));
    entry.up = up;
    with_opening(model(space(4000.0, 2000.0, 2000.0)), entry)
}

fn cautions(model: &Model) -> Vec<(f64, String)> {
    run(&SillStep, model).into_iter().map(|one| (one.measured.map_or(0.0, |of| of.value), one.message)).collect()
}

#[test]
fn a_sill_of_a_step_and_no_more() {
    assert!(cautions(&sill((230.0, 1800.0))).is_empty());
    assert_eq!(met(&SillStep, &sill((230.0, 1800.0))), Some(("entry".to_owned(), 230.0)));
    let found = cautions(&sill((231.0, 1800.0)));
    assert_eq!(found, [(231.0, "the sill of `entry` is 231 mm above the floor, of 230 mm at most".to_owned())]);
}

#[test]
fn steps_that_people_get_up_to_count() {
    let step = |x: (f64, f64), y: (f64, f64), top| block("step", box3(x, y, (0.0, top)));
    let high = || sill((430.0, 1960.0));
    let one = |top| cautions(&with(high(), step((1100.0, 1500.0), (1700.0, 2000.0), top)));
    assert!(one(200.0).is_empty(), "230 left");
    assert_eq!(one(199.0)[0].0, 231.0);
    assert_eq!(one(231.0)[0].0, 430.0, "too high to get up to");
    let aside = with(high(), step((1400.0, 1650.0), (1700.0, 2000.0), 200.0));
    assert_eq!(cautions(&aside)[0].0, 430.0, "200 mm of the door's width are no room for feet");
    // 600 from the wall: it leads to the second one, no further.
    let first = || step((1000.0, 1600.0), (1300.0, 1600.0), 220.0);
    assert_eq!(cautions(&with(high(), first()))[0].0, 430.0);
    let high = sill((660.0, 2200.0));
    let both = with(with(high, first()), step((1000.0, 1600.0), (1600.0, 2000.0), 440.0));
    assert!(cautions(&both).is_empty(), "220, 220 and 220");
}

#[test]
fn a_lining_raises_the_sill_and_lowers_the_head() {
    let mut model = sill((200.0, 1760.0));
    model.openings[0].lining = 30.0;
    assert!(cautions(&model).is_empty(), "230 and 1,500");
    model.openings[0].lining = 31.0;
    let found: Vec<f64> = cautions(&model).into_iter().map(|one| one.0).collect();
    assert_eq!(found, [231.0, 1498.0]);
}

#[test]
fn a_low_room_has_low_doors() {
    let mut low = sill((0.0, 1100.0));
    assert_eq!(cautions(&low)[0].0, 1100.0);
    low.space = space(4000.0, 2000.0, 1350.0);
    assert!(cautions(&low).is_empty(), "250 below the lining");
    low.openings[0].up.1 = 1099.0;
    assert_eq!(cautions(&low)[0].1, "`entry` is 1099 mm high clear, 1100 mm is needed to get through stooping");
}
