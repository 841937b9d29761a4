//! Humidity at panels by hand, by the formulas of ISO 13788 as quoted in public texts.

use super::*;
use crate::checks::testing::{door, met, model, run, space, with_opening};
use crate::model::Layer;

/// Walls of 1 m²K/W: 30 mm of 0.03 W/(m K).
fn walls(humidity: f64) -> Model {
    let mut model = model(space(4000.0, 2000.0, 2000.0));
    let layer = Layer { material: "foam".to_owned(), thickness: 30.0, conductivity: 0.03, bridge: None };
    model.space.walls.layers = vec![layer];
    model.climate = Climate { inside: 20.0, outside: -10.0, humidity, ..Climate::default() };
    model
}

/// By hand: behind furniture 20 - 30 x 0.25 / (0.25 + 1 + 0.04) = 14.186 °C. Saturation (annex E) 610.5 exp(17.269 x 14.186 /
/// (237.3 + 14.186)) = 1617.12 Pa there, 2336.95 Pa at 20 °C. 80 % of the first are 55.358 % of the second.
#[test]
fn eighty_percent_at_the_surface_are_the_most() {
    assert!(run(&SurfaceDew, &walls(0.5535)).is_empty());
    let (subject, humidity) = met(&SurfaceDew, &walls(0.553_583)).unwrap();
    assert!(subject == "walls" && (humidity - 80.0).abs() < 1e-3, "{subject} {humidity}");
    let found = run(&SurfaceDew, &walls(0.5536));
    assert_eq!((found.len(), found[0].severity), (1, Severity::Caution));
    assert!(found[0].message.contains("14.2 °C inside behind furniture: 80 % humidity there"), "{}", found[0].message);
}

/// 1617.12 / 2336.95 = 69.198 %: from there water stands on the wall.
#[test]
fn water_on_the_surface_is_a_fault() {
    let severity = |humidity| run(&SurfaceDew, &walls(humidity))[0].severity;
    assert_eq!((severity(0.6919), severity(0.6920)), (Severity::Caution, Severity::Fault));
}

/// By hand: 5.7 W/(m²K) with 0.13 m²K/W inside: 20 - 30 x 5.7 x 0.13 = -2.23 °C; over ice 610.5 exp(21.875 x -2.23 / 263.27) =
/// 507.24 Pa, 21.705 % of 2336.95 Pa.
#[test]
fn windows_that_get_wet_are_noted_together() {
    let pane = |name: &str| {
        let opening = door(name, Wall::Left, (500.0, 1100.0));
        crate::model::Opening { kind: OpeningKind::Window, u_value: Some(5.7), ..opening }
    };
    let notes = |humidity| {
        let mut model = with_opening(with_opening(walls(humidity), pane("one")), pane("other"));
        model.climate.span = Some(Span::default());
        run(&SurfaceDew, &model)
    };
    assert!(notes(0.217).is_empty());
    let found = notes(0.2171);
    assert_eq!((found.len(), found[0].severity), (1, Severity::Note));
    assert!(found[0].message.starts_with("one, other are -2.2 °C inside with 5.7 W/(m²K): wet from 22 %"), "{found:?}");
}

#[test]
fn a_panel_without_layers_is_not_judged() {
    assert!(run(&SurfaceDew, &model(space(4000.0, 2000.0, 2000.0))).is_empty());
    assert_eq!(met(&SurfaceDew, &model(space(4000.0, 2000.0, 2000.0))), None);
}
