//! Clearance and regions against floor plans computed with shapely (`tests/oracles/plans.py`), and against a second
//! method: insetting the region and looking which parts hang together.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

#[path = "common/inset.rs"]
mod inset;

use boxwright::geometry::{Clearance, End, Polygon, Region, Widest};
use inset::passes;
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
    let (mut random, mut routes, mut blocked) = (0, 0, 0);
    for plan in plans() {
        random += i32::from(plan["by_hand"].is_null());
        let clearance = Clearance::new(&free(&plan));
        for route in plan["routes"].as_array().unwrap() {
            let width = clearance.widest(&end(&route["from"]), &end(&route["to"])).map_or(0.0, |way| way.width);
            let want = route["width"].as_f64().unwrap();
            assert!((width - want).abs() < 0.1, "{} {route}: {width} for {want}", plan["name"]);
            routes += 1;
            blocked += i32::from(want == 0.0);
        }
    }
    assert!(random >= 200 && routes >= 800 && blocked >= 50, "{random} random plans, {routes} ways, {blocked} blocked");
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

/// The distance from a point to an edge.
fn from_edge(a: Point, b: Point, p: Point) -> f64 {
    let t = ((p - a).dot(b - a) / (b - a).hypot2()).clamp(0.0, 1.0);
    a.lerp(b, t).distance(p)
}

/// Whether a point lies in a ring, by the number of edges to its right.
fn within(ring: &[Point], p: Point) -> bool {
    let edges = ring.iter().zip(ring.iter().cycle().skip(1));
    let right = |a: Point, b: Point| p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y);
    edges.filter(|(a, b)| (a.y > p.y) != (b.y > p.y) && right(**a, **b)).count() % 2 == 1
}

/// The floor and the furniture of a plan as plain rings: nothing of the project's regions and graphs.
struct Rings(Vec<Vec<Point>>);

impl Rings {
    fn new(plan: &Value) -> Self {
        let ring = |value: &Value| value.as_array().unwrap().iter().map(point).collect();
        let furniture = plan["furniture"].as_array().unwrap().iter().map(ring);
        Self(std::iter::once(ring(&plan["floor"])).chain(furniture).collect())
    }

    /// How far a point is from the nearest edge of all.
    fn edge(&self, p: Point) -> f64 {
        let edges = self.0.iter().flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)));
        edges.map(|(a, b)| from_edge(*a, *b, p)).fold(f64::INFINITY, f64::min)
    }

    /// The radius of the largest disc about a point; 0 where it stands in furniture or outside.
    fn radius(&self, p: Point) -> f64 {
        let free = within(&self.0[0], p) && !self.0[1..].iter().any(|ring| within(ring, p));
        if free { self.edge(p) } else { 0.0 }
    }
}

/// How far a point is from an end.
fn away(end: &End, p: Point) -> f64 {
    match end {
        End::Point(end) => end.distance(p),
        End::Area(area) if area.contains(p) => 0.0,
        End::Area(area) => area.edges().map(|(a, b)| from_edge(a, b, p)).fold(f64::INFINITY, f64::min),
    }
}

/// One found way against plain distances to the edges of its plan; whether its narrowest place lies at an end of it.
fn valid(plan: &Value, route: &Value, way: &Widest) -> bool {
    let (rings, name) = (Rings::new(plan), format!("{} {route}", plan["name"]));
    let radius = way.width / 2.0;
    let fits = rings.radius(way.at);
    assert!((fits - radius).abs() < 0.05, "{name}: {fits} for {radius} at {:?}", way.at);
    let (a, b) = way.across;
    for touch in [a, b] {
        assert!((touch.distance(way.at) - radius).abs() < 0.05, "{name}: {touch:?} is not on the disc");
    }
    let [first, second] = [a, b].map(|touch| rings.edge(touch) < 0.05);
    assert!(first || second, "{name}: touches nothing");
    // Where a disc is held in the middle of a way it is held from both sides; at an end it may stand in a corner.
    let ends = [way.path.first(), way.path.last()].map(|end| end.unwrap().distance(way.at) < 0.05);
    let at_end = ends.contains(&true);
    let opposite = first && second && (a.distance(b) - way.width).abs() < 0.1;
    assert!(opposite || at_end, "{name}: {a:?} and {b:?} are {} apart, not {}", a.distance(b), way.width);
    for p in &way.path {
        assert!(rings.radius(*p) >= radius - 0.05, "{name}: the way is narrower at {p:?}");
    }
    for pair in way.path.windows(2) {
        // A parabola drawn by chords may pass a few millimetres beside its true course.
        assert!(rings.radius(pair[0].midpoint(pair[1])) > radius - 4.0, "{name}: the way is narrower");
    }
    for (end, given) in [(way.path.first(), &route["from"]), (way.path.last(), &route["to"])] {
        let off = away(&self::end(given), *end.unwrap());
        assert!(off < 0.02, "{name}: ends {off} away");
    }
    at_end
}

#[test]
fn narrowest_places_are_valid() {
    let (mut all, mut ends) = (0, 0);
    for plan in plans() {
        let clearance = Clearance::new(&free(&plan));
        for route in plan["routes"].as_array().unwrap() {
            let Some(way) = clearance.widest(&end(&route["from"]), &end(&route["to"])) else { continue };
            all += 1;
            ends += i32::from(valid(&plan, route, &way));
        }
    }
    assert!(all > 700 && all - ends > 150, "{all} ways, {ends} narrowest at an end");
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

/// The width alone is that of the whole way.
#[test]
fn the_width_of_a_way_is_the_same_without_its_course() {
    for plan in plans() {
        let clearance = Clearance::new(&free(&plan));
        for route in plan["routes"].as_array().unwrap() {
            let (from, to) = (end(&route["from"]), end(&route["to"]));
            let width = clearance.widest(&from, &to).map_or(0.0, |way| way.width);
            let alone = clearance.ways_from(std::slice::from_ref(&from)).width(&to);
            assert!((alone - width).abs() < 1e-6, "{} {route}: {alone} {width}", plan["name"]);
        }
    }
}
