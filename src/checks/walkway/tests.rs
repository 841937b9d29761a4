//! Widths worked out by hand.

use super::super::testing::{block, box3, door, met, model, run, space, standing, with, with_opening, with_space};
use super::*;
use crate::model::{LimitChange, Model, Route, RouteEnd, Wall};
use kurbo::Rect;

/// A box of 4,000 x 2,000 with a door in the front wall and a galley at the rear; a bench leaves a gap before it.
fn gap(bench: f64) -> Model {
    let rear = block("galley", box3((3400.0, 4000.0), (0.0, 2000.0), (0.0, 900.0)));
    let rear = with_space(rear, standing(Rect::new(2800.0, 0.0, 3400.0, 2000.0)));
    let side = block("bench", box3((1500.0, 2300.0), (100.0, bench), (0.0, 450.0)));
    let rail = block("locker", box3((1500.0, 2300.0), (1500.0, 2000.0), (0.0, 1200.0)));
    let model = with_opening(model(space(4000.0, 2000.0, 2000.0)), door("entry", Wall::Front, (500.0, 1200.0)));
    with(with(with(model, rear), side), rail)
}

#[test]
fn a_wide_gap_is_silent() {
    assert!(run(&Walkway, &gap(1000.0)).is_empty(), "500 mm is comfortable");
    let (subject, width) = met(&Walkway, &gap(1000.0)).unwrap();
    assert_eq!(subject, "galley");
    assert!((width - 500.0).abs() < WAY_WIDTH, "{width}");
}

#[test]
fn a_door_is_as_wide_as_its_lining_leaves_it() {
    // The door of 700 with a lining all round; the gap beside the bench is 700 wide.
    let lined = |lining: f64| {
        let mut model = gap(800.0);
        model.openings[0].lining = lining;
        run(&Walkway, &model)
    };
    assert!(lined(100.0).is_empty(), "500 clear");
    let found = lined(101.0);
    let is = "the way from entry to galley narrows to 498 mm within the frame of `entry`, 500 mm is needed";
    assert_eq!(found[0].message, is);
}

#[test]
fn a_gap_below_500_is_a_caution_with_its_figures() {
    let findings = run(&Walkway, &gap(1050.0));
    let [finding] = findings.as_slice() else { panic!("{findings:?}") };
    assert_eq!((finding.severity, finding.key.subject.to_string().as_str()), (Severity::Caution, "galley"));
    assert!((finding.measured.unwrap().value - 450.0).abs() < WAY_WIDTH);
    assert_eq!(finding.required.as_ref().unwrap().value(), 500.0);
    assert_eq!(
        finding.message,
        "the way from entry to galley narrows to 450 mm between `bench` and `locker`, 500 mm is needed"
    );
    let [Mark::Between(a, b)] = finding.marks[..] else { panic!("{:?}", finding.marks) };
    assert_eq!((a.y.min(b.y), a.y.max(b.y)), (1050.0, 1500.0));
}

#[test]
fn a_gap_below_380_is_a_fault_and_a_module_at_the_wall_has_to_shrink() {
    let findings = run(&Walkway, &gap(1130.0));
    assert_eq!(findings[0].severity, Severity::Fault);
}

#[test]
fn what_is_no_way_at_all_is_left_to_the_other_check() {
    assert!(run(&Walkway, &gap(1250.0)).is_empty());
    assert!(run(&Walkway, &gap(1500.0)).is_empty());
}

#[test]
fn low_things_are_stepped_on_and_high_things_walked_under() {
    let low = |z: (f64, f64)| {
        let step = block("step", box3((1500.0, 2300.0), (1000.0, 1500.0), z));
        run(&Walkway, &with(gap(1000.0), step)).len()
    };
    assert_eq!(low((0.0, 230.0)), 0);
    assert_eq!(low((1755.0, 1900.0)), 0, "above the median person");
    let mut narrow = gap(1000.0);
    narrow = with(narrow, block("step", box3((1500.0, 2300.0), (1000.0, 1100.0), (0.0, 231.0))));
    assert!((run(&Walkway, &narrow)[0].measured.unwrap().value - 400.0).abs() < WAY_WIDTH);
}

#[test]
fn a_route_has_its_own_limit_and_is_named() {
    let mut asked = gap(1000.0);
    asked.routes.push(Route {
        name: "entry to galley".to_owned(),
        from: RouteEnd::Opening(0),
        to: RouteEnd::Module(0),
        arrangements: vec![0],
        least: Some(520.0),
        span: crate::source::Span::default(),
    });
    let findings = run(&Walkway, &asked);
    let [finding] = findings.as_slice() else { panic!("{findings:?}") };
    assert_eq!((finding.severity, finding.key.subject.to_string().as_str()), (Severity::Fault, "entry to galley"));
    assert_eq!(finding.required.as_ref().unwrap().class, SourceClass::Layout);
    asked.routes[0].arrangements.clear();
    assert!(run(&Walkway, &asked).is_empty(), "it holds in no arrangement");
}

#[test]
fn ways_through_one_narrow_place_make_one_finding() {
    let side = block("desk", box3((2600.0, 3200.0), (0.0, 300.0), (0.0, 700.0)));
    let side = with_space(side, standing(Rect::new(2600.0, 300.0, 3200.0, 900.0)));
    let findings = run(&Walkway, &with(gap(1050.0), side));
    assert_eq!(findings.len(), 1);
    assert!(findings[0].message.ends_with("; the same place is on the way to `desk`"), "{}", findings[0].message);
}

#[test]
fn a_layout_changes_the_limit_with_a_reason() {
    let mut asked = gap(1050.0);
    let because = "owner asked for a broad aisle".to_owned();
    let (check, name) = ("walkway".to_owned(), "least".to_owned());
    asked.limits.push(LimitChange { check, name, value: 600.0, because, span: crate::source::Span::default() });
    let findings = run(&Walkway, &asked);
    assert_eq!(findings[0].severity, Severity::Fault);
    assert_eq!(findings[0].required.as_ref().unwrap().source, "set by the layout: owner asked for a broad aisle");
}

#[test]
fn a_narrow_door_is_the_narrowest_place() {
    let mut asked = gap(1000.0);
    asked.openings[0].along = (500.0, 950.0);
    let findings = run(&Walkway, &asked);
    assert!(findings[0].message.contains("450 mm within the frame of `entry`"), "{}", findings[0].message);
}

#[test]
fn the_manual_page_has_its_headings() {
    let page = Walkway.manual();
    for heading in ["# Computes", "# Why", "# Limit", "# Source", "# Change it"] {
        assert!(page.contains(heading), "{heading}");
    }
}
