//! Free areas against the rows of the table.

use super::*;
use crate::checks::testing::{door, model, run, space, with_opening, with_person};
use crate::model::OpeningKind;

fn vent(name: &str, wall: Wall, up: (f64, f64), free_area: f64) -> Opening {
    Opening { kind: OpeningKind::Vent, up, free_area, ..door(name, wall, (1000.0, 1200.0)) }
}

/// A box of 5 m2, just the first row.
fn small() -> Model {
    model(space(2500.0, 2000.0, 2000.0))
}

fn both(model: Model, high: f64, low: f64) -> Model {
    let upper = vent("upper", Wall::Roof, (900.0, 1100.0), high);
    with_opening(with_opening(model, upper), vent("lower", Wall::Floor, (900.0, 1100.0), low))
}

#[test]
fn each_row_of_the_table() {
    // EN 721, as quoted: floor area, high, low.
    for (length, high, low) in [
        (2500.0, 7500.0, 1000.0),
        (2500.5, 10_000.0, 1500.0),
        (5000.0, 10_000.0, 1500.0),
        (7500.0, 12_500.0, 2000.0),
        (10_000.0, 15_000.0, 3000.0),
        (10_001.0, 20_000.0, 5000.0),
    ] {
        let found = |high, low| run(&Ventilation, &both(model(space(length, 2000.0, 2000.0)), high, low)).len();
        assert_eq!((found(high, low), found(high - 1.0, low), found(high, low - 1.0)), (0, 1, 1), "{length}");
    }
}

#[test]
fn a_wall_vent_is_high_above_the_middle_and_counts_half() {
    let at = |up: (f64, f64), area| run(&Ventilation, &both_with(up, area)).len();
    assert_eq!((at((900.0, 1101.0), 15_000.0), at((900.0, 1101.0), 14_999.0)), (0, 1));
    assert_eq!(at((900.0, 1100.0), 15_000.0), 1, "its middle is at half the height");
}

/// The small box with a vent in the floor as it should be, and one in a wall.
fn both_with(up: (f64, f64), area: f64) -> Model {
    let low = vent("lower", Wall::Floor, (900.0, 1100.0), 1000.0);
    with_opening(with_opening(small(), low), vent("grille", Wall::Left, up, area))
}

#[test]
fn low_is_at_the_floor() {
    let at = |from: f64| {
        let upper = vent("upper", Wall::Roof, (900.0, 1100.0), 7500.0);
        let grille = vent("grille", Wall::Left, (from, from + 60.0), 1000.0);
        run(&Ventilation, &with_opening(with_opening(small(), upper), grille))
    };
    assert!(at(100.0).is_empty());
    let found = at(101.0);
    assert_eq!(found[0].message, "vents at the floor count for 0 mm², 1000 mm² is wanted for 5 m² of floor");
    assert_eq!(
        found[0].help.as_deref(),
        Some("`grille` counts nowhere: too high for the floor and too low for the top")
    );
}

#[test]
fn without_any_vent_a_lived_in_box_gets_a_note() {
    assert!(run(&Ventilation, &small()).is_empty(), "nobody lives there");
    let found = run(&Ventilation, &with_person(small(), 1800.0));
    let is = "no vents are given; for 5 m² of floor the table wants 7500 mm² in the roof and 1000 mm² at the floor";
    assert_eq!((found[0].severity, found[0].message.as_str()), (Severity::Note, is));
}
