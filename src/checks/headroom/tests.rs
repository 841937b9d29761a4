//! Heights by hand.

use super::super::testing::{
    block, box3, door, model, run, solid, space, standing, with, with_opening, with_person, with_space,
};
use super::*;
use crate::geometry::{Axis, Polygon, Prism, Roof};
use crate::model::Model;
use crate::model::Wall;
use kurbo::{Point, Rect};

/// A person of 1,700 in a box of this height with a galley along the left wall and its standing space.
fn galley(height: f64) -> Model {
    let galley = block("galley", box3((1000.0, 3000.0), (0.0, 600.0), (0.0, 900.0)));
    let galley = with_space(galley, standing(Rect::new(1000.0, 600.0, 3000.0, 1200.0)));
    let model = with_opening(model(space(4000.0, 2000.0, height)), door("entry", Wall::Front, (500.0, 1200.0)));
    with(with_person(model, 1700.0), galley)
}

#[test]
fn a_roof_with_enough_to_spare_is_silent() {
    assert!(run(&Headroom, &galley(1750.0)).is_empty());
}

#[test]
fn little_to_spare_is_a_caution_and_too_low_a_fault() {
    let low = run(&Headroom, &galley(1720.0));
    let [finding] = low.as_slice() else { panic!("{low:?}") };
    assert_eq!((finding.severity, finding.measured.unwrap().value), (Severity::Caution, 1720.0));
    let lower = run(&Headroom, &galley(1690.0));
    assert_eq!(lower[0].severity, Severity::Fault);
    assert!(
        lower[0].message.contains("1690 mm above the floor on the way from entry to galley"),
        "{}",
        lower[0].message
    );
    assert!(lower[0].message.contains("a person of 1700 mm cannot stand upright, 1750 mm is needed"));
}

#[test]
fn an_arched_roof_is_lowest_at_the_side_of_the_way() {
    let mut arched = galley(1700.0);
    arched.space.roof = Roof::Arch { width: 2000.0, side: 1700.0, rise: 100.0 };
    // The way runs in the middle of the aisle, at y = 1,300; its strip ends at 1,450, 450 from the crown. By the circle
    // of radius (1000^2 + 100^2) / 200 = 5,050 the lining is 20.1 lower there than the crown: 1,779.9.
    assert!(run(&Headroom, &arched).is_empty());
    arched.people[0].stature = 1740.0;
    let findings = run(&Headroom, &arched);
    assert!((findings[0].measured.unwrap().value - 1779.9).abs() < 0.1, "{findings:?}");
}

#[test]
fn a_locker_over_the_standing_space_is_a_finding_unless_at_its_edge() {
    let over = |depth: f64| {
        let locker = block("locker", box3((1000.0, 3000.0), (0.0, depth), (1400.0, 1900.0)));
        run(&Headroom, &with(galley(2000.0), locker))
    };
    assert!(over(700.0).is_empty(), "100 mm at the edge");
    let findings = over(750.0);
    let [finding] = findings.as_slice() else { panic!("{findings:?}") };
    assert_eq!((finding.key.subject.to_string().as_str(), finding.measured.unwrap().value), ("locker", 1400.0));
    assert_eq!(finding.severity, Severity::Fault);
}

#[test]
fn a_tapered_locker_counts_with_its_lowest_point_over_the_space() {
    // Its underside rises from 1,400 at the wall to 1,600 at 800 from it; the inner space begins at 700: 1,575.
    let profile = [(0.0, 1400.0), (800.0, 1600.0), (800.0, 1900.0), (0.0, 1900.0)];
    let outline = Polygon::new(profile.iter().map(|(y, z)| Point::new(*y, *z)).collect());
    let mut locker = block("locker", box3((1000.0, 3000.0), (0.0, 800.0), (1400.0, 1900.0)));
    locker.poses[0].solids = vec![solid("body", Prism { axis: Axis::X, outline, low: 1000.0, high: 3000.0 })];
    let findings = run(&Headroom, &with(galley(2000.0), locker));
    assert!((findings[0].measured.unwrap().value - 1575.0).abs() < 0.01, "{findings:?}");
}

#[test]
fn a_shelf_over_the_way_above_the_person_has_to_leave_something_to_spare() {
    let shelf = |z: f64| {
        let shelf = block("shelf", box3((300.0, 800.0), (0.0, 2000.0), (z, z + 100.0)));
        run(&Headroom, &with(galley(2000.0), shelf))
    };
    assert!(shelf(1750.0).is_empty());
    let findings = shelf(1720.0);
    assert_eq!((findings[0].severity, findings[0].key.subject.to_string().as_str()), (Severity::Caution, "shelf"));
}

#[test]
fn a_table_in_the_standing_space_is_no_matter_of_headroom() {
    let table = block("table", box3((1500.0, 2500.0), (800.0, 1300.0), (680.0, 720.0)));
    assert!(run(&Headroom, &with(galley(2000.0), table)).is_empty());
}

#[test]
fn the_height_is_above_what_is_walked_on() {
    let platform = |top: f64| {
        let place = box3((1000.0, 3000.0), (600.0, 1300.0), (0.0, top));
        run(&Headroom, &with(galley(1900.0), block("platform", place)))
    };
    assert!(platform(150.0).is_empty(), "1,750 above it");
    let found = platform(151.0);
    assert_eq!((found.len(), found[0].measured.unwrap().value), (1, 1749.0));
    let is = "the roof lining is 1749 mm above `platform` where a person stands at `galley`: a person of 1700 mm has \
              little to spare, 1750 mm is needed";
    assert_eq!(found[0].message, is);
    let step = block("step", box3((1400.0, 1600.0), (600.0, 1300.0), (0.0, 200.0)));
    assert!(run(&Headroom, &with(galley(1900.0), step)).is_empty(), "200 deep: a step is stood on by nobody for long");
}

#[test]
fn a_beam_that_shuts_the_way_is_named() {
    let beam = |low: f64| {
        let beam = block("beam", box3((600.0, 700.0), (0.0, 2000.0), (low, 2000.0)));
        with(galley(2000.0), beam)
    };
    let found = run(&Headroom, &beam(1690.0));
    let [finding] = found.as_slice() else { panic!("{found:?}") };
    assert_eq!((finding.severity, finding.key.subject.to_string().as_str()), (Severity::Fault, "beam"));
    let is = "`beam` is 1690 mm above the floor on the way from entry to galley: a person of 1700 mm cannot stand upright, \
              1750 mm is needed";
    assert_eq!(finding.message, is);
    let reached = |low| run(&crate::checks::Reachable, &beam(low)).len();
    // The shoulders of 1,700 are at 1,394.
    assert_eq!((reached(1690.0), reached(1395.0), reached(1393.0)), (0, 0, 1));
}
