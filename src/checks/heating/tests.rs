//! Heat loss by hand.

use super::*;
use crate::checks::testing::{met, model, run, space};
use crate::model::{Climate, Model};
use crate::source::Span;

/// Air alone: with walls that let nothing through, 0.34 Wh/(m3 K) x 1 change/h x 16 m3 x 30 K would be 163.2 W; what panels
/// without layers let through is taken off by the difference of two air changes.
fn box_of_air(changes: f64, heater: f64) -> Model {
    let mut model = model(space(4000.0, 2000.0, 2000.0));
    let (inside, outside, humidity) = (20.0, -10.0, 0.5);
    model.climate = Climate {
        inside,
        outside,
        humidity,
        air_changes: changes,
        heater,
        span: Some(Span::default()),
        ..Climate::default()
    };
    model
}

fn wanted(model: &Model) -> f64 {
    run(&Heating, model)[0].required.as_ref().unwrap().value()
}

#[test]
fn each_change_of_air_takes_its_heat_and_a_fifth_is_added() {
    let more = wanted(&box_of_air(2.0, 1.0)) - wanted(&box_of_air(1.0, 1.0));
    assert!((more - 1.2 * 163.2).abs() < 1e-6, "{more}");
}

#[test]
fn a_heater_is_held_against_loss_and_margin() {
    let needed = wanted(&box_of_air(1.0, 1.0));
    assert!((met(&Heating, &box_of_air(1.0, needed + 0.001)).unwrap().1 - needed).abs() < 0.01);
    assert_eq!(run(&Heating, &box_of_air(1.0, needed - 0.1))[0].severity, Severity::Caution);
    assert_eq!(run(&Heating, &box_of_air(1.0, 0.0))[0].severity, Severity::Note);
    let mut no_climate = box_of_air(1.0, 1.0);
    no_climate.climate.span = None;
    assert!(run(&Heating, &no_climate).is_empty());
}
