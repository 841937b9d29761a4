//! Days of water by hand.

use super::*;
use crate::checks::testing::{met, model, run, space, with_person};
use crate::geometry::Point3;
use crate::model::{Holds, Load, LoadKind, Model, Tank};
use crate::source::Span;

fn tank(holds: Holds, length: f64, full: f64) -> Load {
    let tank = Tank { size: [length, 500.0, 400.0], holds, density: 1.0, fill: [0.0, 1.0, full] };
    let (name, span) = ("tank".to_owned(), Span::default());
    Load {
        name,
        at: Point3::default(),
        mass: 10.0,
        size: None,
        room: None,
        kind: LoadKind::Other,
        filler: None,
        tank: Some(tank),
        only_full: false,
        span,
    }
}

/// Two people who use 15 l a day each.
fn tanks(tanks: Vec<Load>) -> Model {
    let mut model = with_person(with_person(model(space(4000.0, 2000.0, 2000.0)), 1700.0), 1700.0);
    model.services.water = Some((15.0, Span::default()));
    model.loads = tanks;
    model
}

/// 450 mm x 500 mm x 400 mm are 90 l: 3 days of 30 l. Room for 54 l of grey water is 60 % of that.
#[test]
fn the_limits_are_just_met() {
    let just = tanks(vec![tank(Holds::Fresh, 450.0, 1.0), tank(Holds::Grey, 540.0, 0.5)]);
    assert!(run(&WaterLasts, &just).is_empty());
    assert_eq!(met(&WaterLasts, &just), Some(("fresh water".to_owned(), 3.0)));
}

#[test]
fn water_is_what_is_in_the_tanks_as_travelling_full() {
    let found = run(&WaterLasts, &tanks(vec![tank(Holds::Fresh, 450.0, 0.8), tank(Holds::Grey, 190.0, 0.0)]));
    let figures: Vec<(String, f64)> =
        found.iter().map(|one| (one.key.subject.to_string(), one.measured.as_ref().unwrap().value)).collect();
    // 72 l last 2.4 days; 38 l of room are 52.8 % of them.
    assert_eq!(figures.len(), 2);
    assert!(figures[0].0 == "fresh water" && (figures[0].1 - 2.4).abs() < 1e-12, "{figures:?}");
    assert!(figures[1].0 == "grey water" && (figures[1].1 - 38.0 / 72.0 * 100.0).abs() < 1e-9, "{figures:?}");
    assert!(found[0].message.starts_with("72 l of fresh water last 2 people 2.4 days at 30 l a day"));
    assert!(found.iter().all(|one| one.severity == Severity::Caution));
}

#[test]
fn without_people_there_is_no_use() {
    let mut nobody = tanks(vec![tank(Holds::Fresh, 450.0, 1.0)]);
    nobody.people.clear();
    assert!(met(&WaterLasts, &nobody).is_none() && run(&WaterLasts, &nobody).is_empty());
    assert_eq!((persons(1), persons(2)), ("1 person".to_owned(), "2 people".to_owned()));
}
