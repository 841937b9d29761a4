//! Energy of a day by hand.

use super::*;
use crate::checks::testing::{met, model, run, space};
use crate::model::{Battery, Consumer, Model};
use crate::source::Span;

/// 12 V x 100 Ah, of which half may be used: 600 Wh.
fn used(watts: f64, charge: f64) -> Model {
    let mut model = model(space(4000.0, 2000.0, 2000.0));
    let span = Span::default();
    model.services.battery = Some(Battery { volts: 12.0, capacity: 100.0, usable: 0.5, charge, span });
    model.services.consumers = vec![Consumer { name: "fridge".to_owned(), watts, hours: 10.0, span }];
    model
}

#[test]
fn a_day_is_judged_without_what_comes_in() {
    assert_eq!(met(&BatteryLasts, &used(60.0, 0.0)), Some(("battery".to_owned(), 1.0)));
    let found = run(&BatteryLasts, &used(75.0, 62.5));
    assert_eq!((found.len(), found[0].severity), (1, Severity::Caution));
    assert!((found[0].measured.as_ref().unwrap().value - 0.8).abs() < 1e-12);
    assert!(found[0].message.contains("600 Wh of the battery are filled up every day: 750 Wh are used and 750 Wh"));
    // 750 Wh used and 600 Wh charged: 600 / 150 = 4 days.
    assert!(run(&BatteryLasts, &used(75.0, 50.0))[0].message.contains("last 4 d"));
}

#[test]
fn without_battery_or_use_there_is_nothing_to_judge() {
    let mut none = used(0.0, 0.0);
    assert!(run(&BatteryLasts, &none).is_empty() && met(&BatteryLasts, &none).is_none());
    none.services.battery = None;
    assert!(met(&BatteryLasts, &none).is_none());
}
