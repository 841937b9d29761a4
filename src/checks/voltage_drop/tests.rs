//! Voltage drops by hand, with the resistances of IEC 60228.

use super::*;
use crate::checks::testing::{met, model, run, space};
use crate::geometry::Point3;
use crate::model::{Battery, Model, Run};
use crate::source::Span;

fn cable(metres: f64, critical: bool, volts: Option<f64>) -> Model {
    let mut model = model(space(4000.0, 2000.0, 2000.0));
    let span = Span::default();
    let to = Point3 { x: metres * 1000.0, ..Point3::default() };
    let run = Run { ends: [String::new(), String::new()], points: vec![Point3::default(), to] };
    let (section, class, temperature) = (2.5, 5, 20.0);
    let name = "lamp".to_owned();
    model.services.cables = vec![Cable { name, run, amps: 10.0, section, class, temperature, critical, span }];
    model.services.battery = volts.map(|volts| Battery { volts, capacity: 100.0, usable: 0.8, charge: 0.0, span });
    model
}

/// 2.5 mm2 of class 5 has 7.98 ohm/km at 20 degrees: 10 A over 5 m and back lose 0.798 V, 6.65 % of 12 V.
#[test]
fn there_and_back_count() {
    let found = run(&VoltageDrop, &cable(5.0, true, None));
    assert_eq!((found.len(), found[0].severity), (1, Severity::Caution));
    assert!((found[0].measured.as_ref().unwrap().value - 6.65).abs() < 1e-9);
    assert!(found[0].message.starts_with("`lamp` loses 0.8 V of 12 V, "), "{}", found[0].message);
}

/// ABYC E-11: 3 % for what is critical, 10 % for other circuits; 24 V halve the percentage.
#[test]
fn what_may_be_lost_depends_on_the_circuit() {
    assert!(run(&VoltageDrop, &cable(5.0, false, None)).is_empty());
    assert!((met(&VoltageDrop, &cable(5.0, false, Some(24.0))).unwrap().1 - 3.325).abs() < 1e-9);
    assert_eq!(run(&VoltageDrop, &cable(5.0, true, Some(24.0))).len(), 1);
    assert!(run(&VoltageDrop, &cable(4.5, true, Some(24.0))).is_empty());
    assert_eq!(run(&VoltageDrop, &cable(8.0, false, None)).len(), 1);
}
