//! Masses over a length by hand.

use super::*;
use crate::checks::testing::{block, box3, met, model, run, space, with};
use crate::geometry::{Parcel, Stands};
use crate::model::testing::load;
use crate::model::{CONTENTS, Cargo, MassItem};
use crate::source::Span;

/// A locker of 2 m from a height up that holds so much.
fn locker(from: f64, held: f64) -> Model {
    let mut locker = block("locker", box3((1000.0, 3000.0), (0.0, 300.0), (from, 1900.0)));
    let at = locker.extent.centre();
    locker.masses.push(MassItem { name: CONTENTS.to_owned(), mass: held, at, span: Span::default() });
    with(model(space(4000.0, 2000.0, 2000.0)), locker)
}

#[test]
fn twenty_five_kilograms_a_metre() {
    assert_eq!(met(&HeavyHigh, &locker(1200.0, 50.0)), Some(("locker".to_owned(), 25.0)));
    let found = run(&HeavyHigh, &locker(1200.0, 51.0));
    assert_eq!(
        found[0].message,
        "`locker` holds 51 kg 1200 mm above the floor, 25.5 kg on each metre, of 25 kg at most"
    );
    assert!(run(&HeavyHigh, &locker(1199.0, 51.0)).is_empty(), "lower down");
}

#[test]
fn listed_cargo_counts_in_place_of_usual_contents() {
    let mut model = locker(1200.0, 51.0);
    let parcel = Parcel { size: [300.0, 200.0, 200.0], count: 4, stands: Stands::Any };
    let books = Cargo { name: "books".to_owned(), parcel, mass: 12.5, module: 0, through: None, span: Span::default() };
    model.cargo.push(books);
    assert!(run(&HeavyHigh, &model).is_empty(), "50 kg");
    model.cargo[0].mass = 12.6;
    assert_eq!(run(&HeavyHigh, &model).len(), 1);
}

#[test]
fn things_inside_but_not_on_the_roof() {
    let with_load = |z: f64, mass: f64| {
        let mut model = model(space(4000.0, 2000.0, 2000.0));
        model.loads.push(load("heater", [2000.0, 300.0, z], [300.0, 300.0, 200.0], mass));
        run(&HeavyHigh, &model)
    };
    assert!(with_load(1200.0, 15.0).is_empty());
    assert_eq!(with_load(1200.0, 16.0)[0].message, "`heater` weighs 16 kg 1200 mm above the floor, of 15 kg at most");
    assert!(with_load(1199.0, 16.0).is_empty());
    assert!(with_load(-300.0, 90.0).is_empty());
}
