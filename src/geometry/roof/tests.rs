//! Roof curves against the circle formula and hand figures.

use super::*;
use kurbo::Rect;

const ARCH: Roof = Roof::Arch { width: 2100.0, side: 1900.0, rise: 120.0 };

fn gull() -> Roof {
    // Low in the middle: no roof that only looks at its ends gets this right.
    Roof::Line(vec![Point::new(0.0, 2000.0), Point::new(1000.0, 1900.0), Point::new(2000.0, 2050.0)])
}

#[test]
fn an_arch_follows_the_circle_through_three_points() {
    // Circle through (0, 1900), (1050, 2020), (2100, 1900): (y - 1050)^2 + (z - c)^2 = r^2 with c = 2020 - r.
    let radius = (1050.0_f64.powi(2) + 120.0_f64.powi(2)) / 240.0;
    assert!((radius - 4653.75).abs() < 1e-9);
    for y in [0.0, 300.0, 777.0, 1050.0, 2100.0] {
        let z = ARCH.height_at(y);
        let from_centre = ((y - 1050.0).powi(2) + (z - (2020.0 - radius)).powi(2)).sqrt();
        assert!((from_centre - radius).abs() < 1e-9, "{y}");
    }
}

#[test]
fn the_lowest_place_may_be_a_corner_between() {
    assert_eq!(gull().least_over(500.0, 1500.0), (1900.0, 1000.0));
    assert_eq!(gull().least_over(1200.0, 1500.0), (1930.0, 1200.0));
    let (height, y) = ARCH.least_over(200.0, 1500.0);
    assert_eq!((height, y), (ARCH.height_at(200.0), 200.0));
}

#[test]
fn an_upright_box_pierces_where_the_roof_is_lowest_over_it() {
    let locker = Prism::upright(Rect::new(0.0, 700.0, 500.0, 1400.0), 1500.0, 1950.0);
    let (depth, place) = gull().pierce(&locker).unwrap();
    assert_eq!((depth, place.y, place.z), (50.0, 1000.0, 1950.0));
    assert_eq!(gull().pierce(&Prism::upright(Rect::new(0.0, 700.0, 500.0, 1400.0), 1500.0, 1900.0)), None);
}

#[test]
fn a_profile_pierces_between_its_corners() {
    // A sloped top from (500, 1940) to (1500, 1960) passes y = 1000 at 1950: 50 above the gull's 1900; its ends are
    // below (500: 1950) and below (1500: 1975).
    let corners = [(500.0, 1500.0), (1500.0, 1500.0), (1500.0, 1960.0), (500.0, 1940.0)];
    let outline = Polygon::new(corners.iter().map(|(y, z)| Point::new(*y, *z)).collect());
    let (depth, place) = gull().pierce(&Prism { axis: Axis::X, outline, low: 0.0, high: 10.0 }).unwrap();
    assert!((depth - 50.0).abs() < 1e-9 && place.y == 1000.0);
}

#[test]
fn a_profile_with_chords_on_the_arch_does_not_pierce_it() {
    let mut points = ARCH.chain();
    points.extend([Point::new(2100.0, 1000.0), Point::new(0.0, 1000.0)]);
    let prism = |by: f64| {
        Prism { axis: Axis::X, outline: Polygon::new(points.clone()), low: 0.0, high: 10.0 }.moved(Axis::Z, by)
    };
    assert_eq!(ARCH.pierce(&prism(0.0)), None);
    let (depth, _) = ARCH.pierce(&prism(3.0)).unwrap();
    assert!((depth - 3.0).abs() < 1e-9);
}

#[test]
fn stretches_lower_than_a_height() {
    assert_eq!(gull().lower_than(1950.0), vec![(500.0, 1000.0 + 1000.0 * 50.0 / 150.0)]);
    assert!(gull().lower_than(1900.0).is_empty());
    let spans = ARCH.lower_than(2000.0);
    assert_eq!(spans.len(), 2);
    for (from, to) in spans {
        let inner = if from == 0.0 { to } else { from };
        assert!((ARCH.height_at(inner) - 2000.0).abs() < 1e-9);
    }
    assert_eq!(ARCH.lower_than(2021.0), vec![(0.0, 2100.0)]);
}

#[test]
fn the_chain_keeps_to_the_chord_tolerance() {
    let chain = ARCH.chain();
    for (a, b) in chain.iter().zip(chain.iter().skip(1)) {
        let middle = a.midpoint(*b);
        let across = (1050.0 - middle.x).hypot(middle.y - (2020.0 - 4653.75));
        let below = 4653.75 - across;
        assert!((0.0..=tolerance::CHORD * 1.001).contains(&below));
    }
    // Area above the lining: the rectangle less the circular segment's complement, A = r^2 (t - sin t) / 2.
    let radius: f64 = 4653.75;
    let angle = 2.0 * (1050.0 / radius).asin();
    let segment = radius * radius * (angle - angle.sin()) / 2.0;
    let area = ARCH.above_outline(2020.0).area();
    assert!((area - (2100.0 * 120.0 - segment)).abs() < 2100.0 * tolerance::CHORD);
}

/// By hand: 6 mm below the arch of radius 4653.75 mm a wall of 2006 mm meets a lining of 2012 mm at 1050 mm from either
/// side less sqrt(2 r d - d^2), with d = 2020 - 2012 = 8: 272.75 mm. Left of it an arc, right of it level.
#[test]
fn an_edge_below_an_arch_is_an_arc_up_to_where_the_board_ends() {
    let edge = ARCH.edge((500.0, 1000.0), 6.0, 2006.0);
    let ends: Vec<(f64, bool)> = edge.iter().map(|(to, through)| (to.x, through.is_some())).collect();
    assert!((ends[1].0 - (1050.0 - 272.747)).abs() < 0.01, "{ends:?}");
    assert_eq!((ends[0], ends[1].1, ends[2]), ((500.0, false), true, (1000.0, false)));
    assert!((edge[0].0.y - (ARCH.height_at(500.0) - 6.0)).abs() < 1e-9 && edge[2].0.y == 2006.0);
    assert_eq!(ARCH.edge((500.0, 1500.0), 0.0, 9000.0).len(), 3, "the crown is one of its ends");
}

#[test]
fn an_edge_below_a_gull_roof_has_its_corner() {
    let edge = gull().edge((500.0, 1200.0), 10.0, 9000.0);
    let expected = [(500.0, 1940.0), (1000.0, 1890.0), (1200.0, 1920.0)];
    assert!(edge.iter().map(|(to, _)| (to.x, to.y)).eq(expected) && edge.iter().all(|(_, through)| through.is_none()));
}
