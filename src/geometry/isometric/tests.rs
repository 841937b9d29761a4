//! Scenes whose seen area is known by hand, and bodies at random against rays.

use super::*;
use crate::geometry::{Box3, Point3, Prism};
use proptest::prelude::*;

const LEFT: Eye = Eye { high_x: false, high_y: false };
const RIGHT: Eye = Eye { high_x: true, high_y: false };

fn block(x: (f64, f64), y: (f64, f64), z: (f64, f64)) -> Body {
    Body::from(Prism::from(Box3 { x, y, z }))
}

fn area(seen: &[Seen], body: usize) -> f64 {
    seen.iter().filter(|one| one.body == body).map(|one| one.area.area()).sum()
}

fn length(lines: &[(Point, Point)]) -> f64 {
    lines.iter().map(|(a, b)| a.distance(*b)).sum()
}

/// A face of a by b across an axis is a parallelogram of sides a and b at 120 or 60 degrees: a b sin 60.
fn drawn(a: f64, b: f64) -> f64 {
    a * b * 3.0_f64.sqrt() / 2.0
}

/// ISO 5456-3: the projections of the three axes are 120 degrees apart, one upright, all to one scale.
#[test]
fn axes_are_120_degrees_apart_and_to_one_scale() {
    for eye in [LEFT, RIGHT, Eye { high_x: true, high_y: true }, Eye { high_x: false, high_y: true }] {
        let [x, y, z] = [Axis::X, Axis::Y, Axis::Z].map(|axis| {
            let toward = if eye.sees_high(axis) { 1.0 } else { -1.0 };
            eye.sees(Point3::default().on(axis, toward)).to_vec2()
        });
        assert_eq!((z.x, z.y), (0.0, 1.0));
        for (a, b) in [(x, y), (y, z), (z, x)] {
            assert!((a.hypot() - 1.0).abs() < 1e-12 && (a.dot(b) + 0.5).abs() < 1e-12, "{eye:?}");
        }
    }
}

#[test]
fn a_box_shows_three_faces_and_nine_edges() {
    let seen = seen(&[block((0.0, 300.0), (0.0, 200.0), (0.0, 100.0))], RIGHT);
    let of = |axis: Axis| seen.iter().find(|one| one.facing == axis).unwrap().area.area();
    for (axis, wanted) in
        [(Axis::X, drawn(200.0, 100.0)), (Axis::Y, drawn(300.0, 100.0)), (Axis::Z, drawn(300.0, 200.0))]
    {
        assert!((of(axis) - wanted).abs() < 1.0, "{axis:?} {} {wanted}", of(axis));
    }
    // Each direction has four edges, one of which is hidden.
    let all: f64 = seen.iter().map(|one| length(&one.edges)).sum();
    assert!((all - 3.0 * 600.0).abs() < 0.01, "{all}");
}

/// A cube of 100 on the near corner of a slab of 300 x 300 x 50, by hand: the cube covers its own footprint and two faces'
/// worth of the slab's top behind it, which are parallelograms of 100 x 100 leaning away; all of it lies on the top.
#[test]
fn a_cube_on_a_slab_hides_three_times_its_base() {
    let slab = block((0.0, 300.0), (0.0, 300.0), (0.0, 50.0));
    let cube = |x: f64, y: f64| block((x, x + 100.0), (y, y + 100.0), (50.0, 150.0));
    let seen_with = |cube: Body| {
        let seen = seen(&[slab.clone(), cube], RIGHT);
        (area(&seen, 0), area(&seen, 1))
    };
    let whole = drawn(300.0, 300.0) + 2.0 * drawn(300.0, 50.0);
    let (slab_seen, cube_seen) = seen_with(cube(200.0, 0.0));
    assert!((cube_seen - 3.0 * drawn(100.0, 100.0)).abs() < 1.0);
    assert!((slab_seen - (whole - 3.0 * drawn(100.0, 100.0))).abs() < 1.0, "{slab_seen}");
    // At the far corner it leans away from the slab, so only its footprint is over the top.
    let (slab_seen, cube_seen) = seen_with(cube(0.0, 200.0));
    assert!((cube_seen - 3.0 * drawn(100.0, 100.0)).abs() < 1.0);
    assert!((slab_seen - (whole - drawn(100.0, 100.0))).abs() < 1.0, "{slab_seen} of {whole}");
}

/// What stands behind is hidden; flush faces of two bodies share their area and do not hide each other.
#[test]
fn hidden_and_flush() {
    let front = block((0.0, 400.0), (0.0, 400.0), (0.0, 400.0));
    let behind = block((-100.0, 0.0), (400.0, 500.0), (-100.0, 0.0));
    let seen_both = seen(&[front.clone(), behind], RIGHT);
    assert_eq!(area(&seen_both, 1), 0.0);
    let beside = block((400.0, 500.0), (0.0, 400.0), (0.0, 400.0));
    let seen_both = seen(&[front, beside], RIGHT);
    let top: f64 = seen_both.iter().filter(|one| one.facing == Axis::Z).map(|one| one.area.area()).sum();
    assert!((top - drawn(500.0, 400.0)).abs() < 1.0);
}

/// Three bars that lie on each other in turn: each hides a part of the next, and no order of the three would do.
#[test]
fn a_circle_of_three() {
    let bars = [
        block((0.0, 1000.0), (0.0, 100.0), (0.0, 100.0)),
        block((900.0, 1000.0), (-100.0, 0.0), (0.0, 1000.0)),
        block((0.0, 100.0), (0.0, 1000.0), (100.0, 200.0)),
    ];
    let seen = seen(&bars, RIGHT);
    let union = Region::all(seen.iter().map(|one| one.area.clone()));
    let sum: f64 = seen.iter().map(|one| one.area.area()).sum();
    assert!((union.area() - sum).abs() < 2.0, "nothing is seen twice");
    check(&bars, RIGHT, 4000);
}

/// A hole shows its far walls and what is behind it.
#[test]
fn through_a_hole() {
    let hole = Polygon::rect(Rect::new(100.0, 100.0, 200.0, 200.0));
    let board = Prism::from(Box3 { x: (0.0, 300.0), y: (0.0, 300.0), z: (0.0, 18.0) });
    let board = Body { holes: vec![hole], ..Body::from(board) };
    let alone = seen(std::slice::from_ref(&board), RIGHT);
    let ends = drawn(300.0, 300.0) - drawn(100.0, 100.0) + 2.0 * drawn(300.0, 18.0);
    // Of each of the two walls that look at the eye, 18 high, the near rim hides a triangle of 18 x 18 / 2: what is h down
    // in a wall is seen where the rim's plane is h nearer.
    let seen_walls = 2.0 * drawn(100.0, 18.0) - drawn(18.0, 18.0);
    let walls = area(&alone, 0) - ends;
    assert!((walls - seen_walls).abs() < 2.0, "{walls}");
    let under = block((0.0, 300.0), (0.0, 300.0), (-50.0, 0.0));
    let both = seen(&[board.clone(), under.clone()], RIGHT);
    let top: f64 = both.iter().filter(|one| one.body == 1 && one.facing == Axis::Z).map(|one| one.area.area()).sum();
    assert!((top - (drawn(100.0, 100.0) - seen_walls)).abs() < 2.0, "{top}");
    check(&[board, under], LEFT, 2000);
}

/// A round post has no edge between the chords of its curve: two rings' worth less the hidden half below, and two sides.
#[test]
fn a_round_post_has_no_seams() {
    let corners = (0..48).map(|at| Point::ORIGIN + kurbo::Vec2::from_angle(f64::from(at) * 0.130_899_693) * 50.0);
    let post = Prism { axis: Axis::Z, outline: Polygon::new(corners.collect()), low: 0.0, high: 400.0 };
    let seen = seen(&[Body::from(post)], LEFT);
    let upright: Vec<_> = seen
        .iter()
        .flat_map(|one| &one.edges)
        .filter(|(a, b)| (a.x - b.x).abs() < 1e-6 && a.distance(*b) > 300.0)
        .collect();
    assert_eq!(upright.len(), 2);
}

/// A line on a face is seen where the face is.
#[test]
fn marks_are_hidden_with_their_face() {
    let board = Prism::from(Box3 { x: (0.0, 400.0), y: (0.0, 400.0), z: (0.0, 20.0) });
    let groove = Polygon::rect(Rect::new(50.0, 190.0, 350.0, 200.0));
    let board = Body { marks: vec![(true, groove.clone()), (false, groove)], ..Body::from(board) };
    let alone = seen(std::slice::from_ref(&board), RIGHT);
    let drawn: f64 = alone.iter().map(|one| length(&one.marks)).sum();
    assert!((drawn - 620.0).abs() < 0.1, "{drawn}");
    let lid = block((0.0, 400.0), (0.0, 400.0), (20.0, 40.0));
    let covered = seen(&[board, lid], RIGHT);
    assert!(covered.iter().all(|one| one.marks.is_empty()));
}

/// What a ray from the eye meets first, by cutting the ray with each body: how near, the body, and the axis of the face.
fn ray(bodies: &[Body], eye: Eye, at: Point) -> Vec<(f64, usize, Axis)> {
    let side = |high: bool| if high { 1.0 } else { -1.0 };
    let (x, y) = (side(eye.high_x), side(eye.high_y));
    // A point that is seen there, by hand from `u = c (x' y - y' x)` and `v = z - (x' x + y' y) / 2` at z = v.
    let aside = at.x / (3.0_f64.sqrt() / 2.0);
    let start = Point3 { x: -y * aside / 2.0, y: x * aside / 2.0, z: at.y };
    let mut met: Vec<(f64, usize, Axis)> = Vec::new();
    for (index, body) in bodies.iter().enumerate() {
        let axis = body.prism.axis;
        let (first, second) = axis.plane();
        let along = |axis: Axis| {
            if axis == Axis::X {
                x
            } else if axis == Axis::Y {
                y
            } else {
                1.0
            }
        };
        let value = |axis: Axis| {
            let mut start = start;
            *start.along_mut(axis)
        };
        let (a, b) = ((body.prism.low - value(axis)) / along(axis), (body.prism.high - value(axis)) / along(axis));
        let range = (a.min(b), a.max(b));
        let (from, way) = (Point::new(value(first), value(second)), kurbo::Vec2::new(along(first), along(second)));
        let mut stops = vec![(range.0, axis), (range.1, axis)];
        for (p, q) in std::iter::once(&body.prism.outline).chain(&body.holes).flat_map(Polygon::edges) {
            let across = (q - p).cross(way);
            if across != 0.0 {
                let (t, s) = ((p - from).cross(q - p) / way.cross(q - p), (p - from).cross(way) / way.cross(q - p));
                let facing = if (q - p).x.abs() > (q - p).y.abs() { second } else { first };
                stops.extend(((0.0..=1.0).contains(&s)).then_some((t, facing)));
            }
        }
        stops.sort_by(|a, b| b.0.total_cmp(&a.0));
        let inside = |t: f64| {
            let at = from + way * t;
            let holds = |outline: &Polygon| Region::new([outline]).contains(at);
            range.0 < t && t < range.1 && holds(&body.prism.outline) && !body.holes.iter().any(holds)
        };
        for pair in stops.windows(2) {
            if pair[0].0 - pair[1].0 > 0.05 && inside(f64::midpoint(pair[0].0, pair[1].0)) {
                met.push((pair[0].0, index, pair[0].1));
            }
        }
    }
    met.sort_by(|a, b| b.0.total_cmp(&a.0));
    met
}

/// Compares what is seen with rays at points spread over the picture.
fn check(bodies: &[Body], eye: Eye, points: u32) {
    let seen = seen(bodies, eye);
    let all = Region::all(seen.iter().map(|one| one.area.clone())).bounds().inflate(5.0, 5.0);
    let sum: f64 = seen.iter().map(|one| one.area.area()).sum();
    let union = Region::all(seen.iter().map(|one| one.area.clone())).area();
    assert!((sum - union).abs() < 0.001 * union + 1.0, "seen twice: {sum} {union}");
    let mut hit = 0;
    for index in 0..points {
        // Points after Weyl: no lattice that bodies could lie on.
        let share = |by: f64| (f64::from(index) * by).fract();
        let at = Point::new(all.x0 + all.width() * share(0.754_877_666), all.y0 + all.height() * share(0.569_840_291));
        let around =
            [(0.2, 0.0), (-0.2, 0.0), (0.0, 0.2), (0.0, -0.2)].map(|by| ray(bodies, eye, at + kurbo::Vec2::from(by)));
        let met = ray(bodies, eye, at);
        let same = |other: &Vec<(f64, usize, Axis)>| {
            other.first().map(|one| (one.1, one.2)) == met.first().map(|one| (one.1, one.2))
        };
        let tie = met.len() > 1 && met[0].0 - met[1].0 < 0.5;
        if tie || !around.iter().all(same) {
            continue;
        }
        let owner: Vec<(usize, Axis)> =
            seen.iter().filter(|one| one.area.contains(at)).map(|one| (one.body, one.facing)).collect();
        let wanted: Vec<(usize, Axis)> = met.first().map(|one| (one.1, one.2)).into_iter().collect();
        assert_eq!(owner, wanted, "at {at:?}: {bodies:#?}");
        hit += usize::from(!wanted.is_empty());
    }
    assert!(hit > points as usize / 50, "{hit} of {points} met something");
}

fn outlines() -> impl Strategy<Value = Vec<(f64, f64)>> {
    prop_oneof![
        Just(vec![(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]),
        Just(vec![(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)]),
        Just(vec![(0.0, 0.0), (1.0, 0.0), (1.0, 0.3), (0.4, 0.3), (0.4, 1.0), (0.0, 1.0)]),
        Just(vec![(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.8, 1.0), (0.8, 0.2), (0.2, 0.2), (0.2, 1.0), (0.0, 1.0)]),
        Just(vec![(0.3, 0.0), (1.0, 0.2), (0.8, 0.9), (0.1, 1.0)]),
    ]
}

prop_compose! {
    fn any_body()(axis in 0..3_usize, shape in outlines(), at in prop::array::uniform3(0.0..800.0),
        size in prop::array::uniform3(10.0..500.0)) -> Body {
        let axis = [Axis::X, Axis::Y, Axis::Z][axis];
        let corners = shape.iter().map(|(x, y)| Point::new(at[0] + x * size[0], at[1] + y * size[1])).collect();
        Body::from(Prism { axis, outline: Polygon::new(corners), low: at[2], high: at[2] + size[2] })
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    /// Bodies at random, some of which pierce each other.
    #[test]
    fn rays_see_what_is_drawn(bodies in prop::collection::vec(any_body(), 1..9), high_x: bool, high_y: bool) {
        check(&bodies, Eye { high_x, high_y }, 300);
    }
}
