//! Drawers by hand; both limits are common practice, no source.

use super::*;
use crate::checks::testing::{block, box3, model, run, space, with};
use crate::geometry::Box3;
use crate::joinery::fixture::part;
use crate::model::{Lies, Model, Toward};

fn piece(name: &str, at: Box3, face: Axis) -> Part {
    let toward = |axis| Toward { axis, up: true };
    let width = if face == Axis::Z { Axis::Y } else { Axis::Z };
    let lies = Lies { length: toward(Axis::X), width: toward(width), face: toward(face) };
    let side = (face != Axis::Z).then(|| RUNNERS.to_owned());
    Part { places: vec![Place { solid: at.into(), lies: Some(lies) }], held: side, ..part(name, 1, 500.0, 400.0) }
}

/// A drawer with its bottom, 10 mm thick, let into both sides: so high above the bottom, its sides so long.
fn drawer(at: f64, height: f64, long: f64) -> Vec<Part> {
    let side = |y: f64| piece("side", box3((0.0, long), (y, y + 12.0), (at, at + 20.0 + height)), Axis::Y);
    let bottom = piece("bottom", box3((0.0, long), (6.0, 394.0), (at + 10.0, at + 20.0)), Axis::Z);
    vec![side(0.0), side(388.0), bottom]
}

fn of(drawers: impl IntoIterator<Item = (f64, f64)>) -> Model {
    let mut module = block("chest", box3((0.0, 600.0), (0.0, 400.0), (0.0, 900.0)));
    let drawers = drawers.into_iter().enumerate();
    module.parts = drawers.flat_map(|(at, (height, long))| drawer(300.0 * at as f64, height, long)).collect();
    with(model(space(4000.0, 2000.0, 2000.0)), module)
}

fn figures(model: &Model) -> Vec<f64> {
    run(&DrawerTooShallow, model).into_iter().map(|one| one.measured.unwrap().value).collect()
}

#[test]
fn sixty_millimetres_inside_are_the_least() {
    assert_eq!(figures(&of([(60.0, 500.0)])), [0.0; 0]);
    let found = run(&DrawerTooShallow, &of([(59.999, 500.0)]));
    assert_eq!((found.len(), found[0].severity), (1, Severity::Caution));
    assert!((found[0].measured.unwrap().value - 59.999).abs() < 1e-9);
    let says = "a drawer of `chest`, on part `bottom`, is 60 mm high inside; at least 60 mm are wanted";
    assert_eq!(found[0].message, says);
}

#[test]
fn runners_of_two_hundred_and_fifty_are_the_least() {
    assert_eq!(figures(&of([(100.0, 250.0)])), [0.0; 0]);
    assert_eq!(figures(&of([(100.0, 249.999)])), [249.999]);
    assert_eq!(figures(&of([(50.0, 200.0)])), [50.0, 200.0], "both");
}

/// The lower side is the one that counts.
#[test]
fn a_low_side_makes_a_shallow_drawer() {
    let mut model = of([(100.0, 500.0)]);
    model.modules[0].parts[0].places[0].solid = box3((0.0, 500.0), (0.0, 12.0), (0.0, 60.0)).into();
    assert_eq!(figures(&model), [40.0]);
}

#[test]
fn a_shelf_between_plain_sides_is_no_drawer() {
    let mut model = of([(20.0, 100.0)]);
    model.modules[0].parts.iter_mut().for_each(|part| part.held = None);
    assert_eq!(figures(&model), [0.0; 0]);
}
