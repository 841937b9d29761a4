//! Clearance and regions against floor plans computed with shapely (`tests/oracles/plans.py`), and against a second
//! method: insetting the region and looking which parts hang together.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

use boxwright::geometry::{Clearance, End, Polygon, Region};
use i_overlay::mesh::float::outline::offset::OutlineOffset;
use i_overlay::mesh::float::style::{LineJoin, OutlineStyle};
use kurbo::{Point, Rect, Vec2};
use proptest::prelude::*;
use serde_json::Value;

fn point(value: &Value) -> Point {
    Point::new(value[0].as_f64().unwrap(), value[1].as_f64().unwrap())
}

fn polygon(value: &Value) -> Polygon {
    Polygon::new(value.as_array().unwrap().iter().map(point).collect())
}

fn end(value: &Value) -> End {
    if value[0].is_array() { End::Area(Region::new([&polygon(value)])) } else { End::Point(point(value)) }
}

fn free(plan: &Value) -> Region {
    let furniture: Vec<Polygon> = plan["furniture"].as_array().unwrap().iter().map(polygon).collect();
    Region::new([&polygon(&plan["floor"])]).subtract(&Region::new(&furniture))
}

fn plans() -> Vec<Value> {
    serde_json::from_str(include_str!("oracles/plans.json")).unwrap()
}

#[test]
fn widths_agree_with_shapely() {
    let (mut routes, mut blocked) = (0, 0);
    for plan in plans() {
        let clearance = Clearance::new(&free(&plan));
        for route in plan["routes"].as_array().unwrap() {
            let width = clearance.widest(&end(&route["from"]), &end(&route["to"])).map_or(0.0, |way| way.width);
            let want = route["width"].as_f64().unwrap();
            assert!((width - want).abs() < 0.1, "{} {route}: {width} for {want}", plan["name"]);
            routes += 1;
            blocked += i32::from(want == 0.0);
        }
    }
    assert!(routes >= 250 && blocked >= 10, "{routes} routes, {blocked} blocked");
}

#[test]
fn free_areas_agree_with_shapely() {
    for plan in plans() {
        // Half a grid step along every edge: some 30 m of boundary at 0.005 mm.
        let (area, want) = (free(&plan).area(), plan["free_area"].as_f64().unwrap());
        assert!((area - want).abs() < 150.0, "{}: {area} for {want} mm2", plan["name"]);
    }
}

fn sector(door: &Value) -> Region {
    let (hinge, radius) = (point(&door["hinge"]), door["radius"].as_f64().unwrap());
    let (start, sweep) = (door["start"].as_f64().unwrap(), door["sweep"].as_f64().unwrap());
    let step = (sweep / 600.0).to_radians();
    let radius = radius * (step.abs() / step.abs().sin()).sqrt();
    let rim = (0..=600).map(|i| hinge + Vec2::from_angle(start.to_radians() + f64::from(i) * step) * radius);
    Region::new([&Polygon::new(std::iter::once(hinge).chain(rim).collect())])
}

#[test]
fn door_sectors_agree_with_shapely() {
    for plan in plans() {
        let furniture: Vec<Polygon> = plan["furniture"].as_array().unwrap().iter().map(polygon).collect();
        let (furniture, floor) = (Region::new(&furniture), Region::new([&polygon(&plan["floor"])]));
        for door in plan["doors"].as_array().unwrap() {
            let sector = sector(door);
            let hit = sector.intersect(&furniture).area() - door["hit_area"].as_f64().unwrap();
            let outside = sector.subtract(&floor).area() - door["outside_area"].as_f64().unwrap();
            assert!(hit.abs() < 60.0 && outside.abs() < 60.0, "{} {door}: {hit}, {outside} mm2", plan["name"]);
        }
    }
}

#[test]
fn the_disc_fits_at_the_narrowest_place_and_touches() {
    for plan in plans() {
        let free = free(&plan);
        let clearance = Clearance::new(&free);
        for route in plan["routes"].as_array().unwrap() {
            let (from, to) = (end(&route["from"]), end(&route["to"]));
            let Some(way) = clearance.widest(&from, &to) else { continue };
            let fits = 2.0 * clearance.radius_at(way.at);
            assert!((fits - way.width).abs() < 0.05, "{} {route}: {fits} at {:?}", plan["name"], way.at);
            for touch in [way.across.0, way.across.1] {
                assert!((touch.distance(way.at) - way.width / 2.0).abs() < 0.05, "{} {route}", plan["name"]);
            }
            let narrowest = way.path.iter().map(|p| clearance.radius_at(*p)).fold(f64::INFINITY, f64::min);
            assert!(2.0 * narrowest >= way.width - 0.05, "{} {route}: the path leaves the region", plan["name"]);
            for pair in way.path.windows(2) {
                let middle = pair[0].midpoint(pair[1]);
                // A parabola drawn by chords may pass a millimetre or two beside its true course.
                assert!(2.0 * clearance.radius_at(middle) >= way.width - 3.0, "{} {route}", plan["name"]);
            }
        }
    }
}

/// Whether a disc of this radius gets from `a` to `b`: the region is inset with round corners of fine steps, and both ends
/// must lie in one part.
fn passes(region: &Region, radius: f64, a: Point, b: Point) -> bool {
    let contours: Vec<Vec<[f64; 2]>> =
        region.contours().map(|contour| contour.iter().map(|p| [p.x, p.y]).collect()).collect();
    let style = OutlineStyle::new(-radius).line_join(LineJoin::Round(0.02));
    contours.outline(&style).iter().any(|part| {
        let rings: Vec<Polygon> = part
            .iter()
            .map(|ring| Polygon::new(ring.iter().map(|p| Point::new(p[0], p[1])).collect::<Vec<_>>()))
            .collect();
        let Some((outer, holes)) = rings.split_first() else { return false };
        let part = Region::new([outer]).subtract(&Region::new(holes));
        part.contains(a) && part.contains(b)
    })
}

/// Half of them stand square on a raster of 100 mm, so that many touch along edges and in corners.
fn obstacle() -> impl Strategy<Value = Polygon> {
    let square = (0..40_i32, 0..22_i32, 1..9_i32, 1..7_i32).prop_map(|(x, y, run, depth)| {
        let at = |steps: i32| f64::from(steps) * 100.0;
        Polygon::rect(Rect::new(at(x), at(y), at(x + run), at(y + depth)))
    });
    prop_oneof![square, turned()]
}

fn turned() -> impl Strategy<Value = Polygon> {
    (0.0..4000.0, 0.0..2200.0, 100.0..800.0, 100.0..600.0, prop_oneof![Just(0.0), 0.0..1.5]).prop_map(
        |(x, y, run, depth, angle): (f64, f64, f64, f64, f64)| {
            let turn = |u: f64, v: f64| Point::new(x, y) + Vec2::new(u, v).rotate_by(angle);
            Polygon::new(vec![turn(0.0, 0.0), turn(run, 0.0), turn(run, depth), turn(0.0, depth)])
        },
    )
}

trait Turn {
    fn rotate_by(self, angle: f64) -> Self;
}

impl Turn for Vec2 {
    fn rotate_by(self, angle: f64) -> Self {
        Self::new(self.x * angle.cos() - self.y * angle.sin(), self.x * angle.sin() + self.y * angle.cos())
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_little_less_passes_and_a_little_more_does_not(
        furniture in proptest::collection::vec(obstacle(), 1..12),
        ends in ((60.0..4140.0, 60.0..2340.0), (60.0..4140.0, 60.0..2340.0)),
    ) {
        let ((ax, ay), (bx, by)) = ends;
        let (a, b) = (Point::new(ax, ay), Point::new(bx, by));
        let region = Region::rect(Rect::new(0.0, 0.0, 4200.0, 2400.0)).subtract(&Region::new(&furniture));
        let clearance = Clearance::new(&region);
        let width = clearance.widest(&End::Point(a), &End::Point(b)).map_or(0.0, |way| way.width);
        if width > 2.0 {
            // The inset's rounded corners are inscribed polygons, so it may pass a shade more than the true one.
            prop_assert!(passes(&region, width / 2.0 - 0.1, a, b), "{width} does not pass");
        }
        prop_assert!(!passes(&region, width / 2.0 + 0.2, a, b), "more than {width} passes");
    }
}
