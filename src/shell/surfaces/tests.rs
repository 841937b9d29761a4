//! By hand: a box of 4 x 2 x 2 m has 8 m2 of floor, 8 of roof, 2 x 8 and 2 x 4 of walls.

use super::*;
use crate::model::Cutaway;
use crate::source::Span;
use kurbo::Rect;

fn space() -> BoxSpace {
    crate::model::testing::space(4000.0, 2000.0, 2000.0)
}

fn with(prism: Prism) -> BoxSpace {
    let mut space = space();
    space.cutaways.push(Cutaway { name: "cut".to_owned(), prism, kind: CutKind::Floor, span: Span::default() });
    space
}

/// Areas in m2 to 1 mm2, by name.
fn areas(space: &BoxSpace) -> Vec<(String, f64)> {
    surfaces(space, &[]).into_iter().map(|surface| (surface.name, (surface.area * 1e6).round() / 1e6)).collect()
}

fn of(found: &[(String, f64)], name: &str) -> f64 {
    found.iter().find(|(known, _)| known == name).unwrap().1
}

#[test]
fn a_plain_box_has_the_areas_of_a_cuboid() {
    let found: Vec<f64> = areas(&space()).into_iter().map(|(_, area)| area).collect();
    assert_eq!(found, [4.0, 4.0, 8.0, 8.0, 8.0, 8.0]);
}

#[test]
fn a_wheel_box_adds_its_sides_and_keeps_the_floors_area_in_its_top() {
    let found = areas(&with(Prism::upright(Rect::new(2000.0, 0.0, 2800.0, 300.0), 0.0, 200.0)));
    assert_eq!((of(&found, "floor"), of(&found, "left wall"), of(&found, "right wall")), (7.76, 7.84, 8.0));
    // Top 0.8 x 0.3, one long side 0.8 x 0.2, two ends 0.3 x 0.2.
    assert_eq!(of(&found, "cutaway cut"), 0.52);
}

#[test]
fn a_wedge_off_the_rear_edge_is_closed_by_its_slope() {
    let outline = Polygon::new([(3700.0, 0.0), (4000.0, 0.0), (4000.0, 400.0)].map(Point::from).to_vec());
    let found = areas(&with(Prism { axis: Axis::Y, outline, low: 0.0, high: 2000.0 }));
    assert_eq!((of(&found, "floor"), of(&found, "rear wall"), of(&found, "left wall")), (7.4, 3.2, 7.94));
    // The slope is 500 mm long by 3-4-5.
    assert_eq!(of(&found, "cutaway cut"), 1.0);
}

/// By hand: an arch over 2 m with a rise of 200 mm has a radius of 2,600 mm and an arc of 2,052.9 mm; a hole of 600 x 400
/// with round corners of 100 is 0.24 - (4 - pi) 0.01 m2.
#[test]
fn arcs_and_round_corners_count_as_they_are() {
    let arch = BoxSpace { roof: Roof::Arch { width: 2000.0, side: 2000.0, rise: 200.0 }, ..space() };
    let arc = 2.0 * 2600.0 * (1000.0_f64 / 2600.0).asin();
    assert!((of(&areas(&arch), "roof") - 4.0 * arc / 1000.0).abs() < 1e-3);
    let opening = Opening {
        name: "window".to_owned(),
        kind: OpeningKind::Window,
        wall: Wall::Left,
        along: (1000.0, 1600.0),
        up: (900.0, 1300.0),
        radius: 100.0,
        hinge: None,
        swings: crate::model::Swings::No,
        opens: 90.0,
        slides: None,
        of_vehicle: false,
        escape: false,
        lining: 0.0,
        free_area: 0.0,
        u_value: None,
        span: Span::default(),
    };
    let hole = 0.24 - (4.0 - std::f64::consts::PI) * 0.01;
    assert!((opening_area(&opening) / 1e6 - hole).abs() < 1e-12);
    let space = space();
    let found = surfaces(&space, &[opening]).into_iter().find(|surface| surface.side == Wall::Left).unwrap();
    assert!((found.area - (8.0 - hole)).abs() < 1e-9);
}
