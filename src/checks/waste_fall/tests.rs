//! Falls of pipes by hand.

use super::*;
use crate::checks::testing::{met, model, run, space};
use crate::geometry::Point3;
use crate::model::{Model, Run, Waste};
use crate::source::Span;

fn pipe(bore: f64, points: &[(f64, f64)]) -> Model {
    let mut model = model(space(4000.0, 2000.0, 2000.0));
    let points = points.iter().map(|(x, z)| Point3 { x: *x, y: 0.0, z: *z }).collect();
    let run = Run { ends: ["sink".to_owned(), "tank".to_owned()], points };
    model.services.wastes = vec![Waste { name: "sink".to_owned(), run, bore, span: Span::default() }];
    model
}

/// IPC 704.1: a quarter of an inch a foot (25 mm on 1,200 mm) for pipes of 2 1/2 in (63.5 mm) or less, an eighth for larger.
#[test]
fn a_quarter_and_an_eighth_of_an_inch_a_foot() {
    let fall = |bore, drop| pipe(bore, &[(0.0, drop), (1200.0, 0.0)]);
    assert!(run(&WasteFall, &fall(63.5, 25.0)).is_empty());
    assert!((met(&WasteFall, &fall(63.5, 25.0)).unwrap().1 - 100.0 / 48.0).abs() < 1e-12);
    let found = run(&WasteFall, &fall(63.5, 24.0));
    assert_eq!(found[0].severity, Severity::Caution);
    assert!((found[0].measured.as_ref().unwrap().value - 2.0).abs() < 1e-12);
    assert!(run(&WasteFall, &fall(75.0, 12.5)).is_empty());
    assert_eq!(run(&WasteFall, &fall(75.0, 12.0)).len(), 1);
}

#[test]
fn a_pipe_that_rises_on_its_way_is_no_good_however_it_ends() {
    let found = run(&WasteFall, &pipe(40.0, &[(0.0, 200.0), (600.0, 100.0), (1200.0, 101.0)]));
    assert_eq!((found.len(), found[0].severity), (1, Severity::Caution));
    assert!(found[0].message.ends_with("and a leg of it rises"), "{}", found[0].message);
    // Straight down there is no length to fall over.
    assert!(run(&WasteFall, &pipe(40.0, &[(0.0, 200.0), (0.0, 0.0)])).is_empty());
}
