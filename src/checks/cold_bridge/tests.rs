//! Members of the layer's own material, which are none, have the warmth of a plain panel; others are colder.

use super::*;
use crate::checks::testing::{met, model, run, space};
use crate::model::{Bridge, Climate, Layer};

/// Walls of 1 m²K/W, 30 mm of 0.03 W/(m K), with members 40 mm wide, 400 mm apart.
fn walls(conductivity: f64, humidity: f64) -> Model {
    let mut model = model(space(4000.0, 2000.0, 2000.0));
    let (material, metal) = ("member".to_owned(), conductivity > 10.0);
    let bridge = Some(Bridge { material, conductivity, metal, width: 40.0, spacing: 400.0 });
    model.space.walls.layers = vec![Layer { material: "foam".to_owned(), thickness: 30.0, conductivity: 0.03, bridge }];
    model.climate = Climate { inside: 20.0, outside: -10.0, humidity, ..Climate::default() };
    model
}

/// By hand (ISO 6946, ISO 13788 4.4.1 and annex E): 20 - 30 x 0.25 / (0.25 + 1 + 0.04) = 14.186 °C, where saturation is 610.5
/// exp(17.269 x 14.186 / 251.486) = 1617.12 Pa; at 20 °C 2336.95 Pa. 80 % of the first are 55.358 % of the second.
#[test]
fn eighty_percent_at_the_coldest_place_are_the_most() {
    assert!(run(&ColdBridge, &walls(0.03, 0.553)).is_empty());
    let (subject, humidity) = met(&ColdBridge, &walls(0.03, 0.553_58)).unwrap();
    assert!(subject == "walls" && (humidity - 80.0).abs() < 1e-3, "{subject} {humidity}");
    let found = run(&ColdBridge, &walls(0.03, 0.5537));
    assert_eq!((found.len(), found[0].severity), (1, Severity::Caution));
    // 1 / 1.17 m²K/W are 0.85 W/(m²K), with and without.
    let says = "the walls are 14.2 °C inside: 80 % humidity there; heat loss is 0.85 W/(m²K), 0.85 without them";
    assert!(found[0].message.ends_with(says), "{}", found[0].message);
}

/// 1617.12 / 2336.95 = 69.198 %: from there water stands on the wall.
#[test]
fn below_the_dew_point_is_a_fault() {
    let severity = |humidity| run(&ColdBridge, &walls(0.03, humidity))[0].severity;
    assert_eq!((severity(0.6919), severity(0.6920)), (Severity::Caution, Severity::Fault));
}

/// A member that lets more heat through is colder: never warmer than the panel of its own material alone, which for wood of
/// 0.13 W/(m K) is 20 - 30 x 0.25 / (0.25 + 0.03 / 0.13 + 0.04) = 5.598 °C, and never colder than the plain panel.
#[test]
fn a_member_is_colder_than_the_layer_and_warmer_than_a_panel_of_it() {
    let bridged = walls(0.13, 0.5);
    let humidity = run(&ColdBridge, &bridged)
        .first()
        .and_then(|one| one.measured)
        .map_or_else(|| met(&ColdBridge, &bridged).unwrap().1, |measured| measured.value);
    let at = |celsius: f64| humidity_at(celsius, 20.0, 0.5) * 100.0;
    assert!(humidity > at(14.186) && humidity < at(5.598), "{humidity}");
    let steel = run(&ColdBridge, &walls(50.0, 0.5));
    assert!(steel[0].measured.unwrap().value > humidity, "{steel:?}");
}

#[test]
fn panels_without_members_are_not_judged() {
    let mut plain = walls(0.03, 0.9);
    plain.space.walls.layers[0].bridge = None;
    assert!(run(&ColdBridge, &plain).is_empty() && met(&ColdBridge, &plain).is_none());
}
