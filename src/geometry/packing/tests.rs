//! Every packing is looked at by a checker that knows nothing of how it was made: sides, turns, overlaps, the space's
//! true shape, and what carries each box, point by point.

use super::*;
use crate::geometry::{Axis, Polygon, common_bounds, free_volume, overlap};
use kurbo::{Point, Rect};

fn flat(height: f64) -> Roof {
    Roof::Line(vec![Point::new(0.0, height), Point::new(10_000.0, height)])
}

fn room(x: f64, y: f64, z: f64) -> Prism {
    Prism::upright(Rect::new(0.0, 0.0, x, y), 0.0, z)
}

fn any(size: [f64; 3], count: usize) -> Parcel {
    Parcel { size, count, stands: Stands::Any }
}

fn has_point(prism: &Prism, [x, y, z]: [f64; 3]) -> bool {
    let (along, u, v) = match prism.axis {
        Axis::X => (x, y, z),
        Axis::Y => (y, x, z),
        Axis::Z => (z, x, y),
    };
    let crossed = prism
        .outline
        .edges()
        .filter(|(a, b)| (a.y > v) != (b.y > v) && u < a.x + (b.x - a.x) * (v - a.y) / (b.y - a.y));
    prism.low <= along && along <= prism.high && crossed.count() % 2 == 1
}

struct Case<'a> {
    space: &'a Prism,
    minus: &'a [&'a Prism],
    roof: &'a Roof,
    parcels: &'a [Parcel],
}

impl Case<'_> {
    fn pack(&self) -> Packing {
        let packing = pack(self.space, self.minus, self.roof, self.parcels);
        self.check(&packing);
        packing
    }

    fn pack_briefly(&self) -> Packing {
        let packing = pack_within(self.space, self.minus, self.roof, self.parcels, 1500);
        self.check(&packing);
        packing
    }

    fn check(&self, packing: &Packing) {
        let boxes: Vec<Box3> = packing.placed.iter().map(|one| one.place).collect();
        for (at, one) in packing.placed.iter().enumerate() {
            self.check_sides(one);
            let prism = Prism::from(one.place);
            assert!(boxes.iter().take(at).all(|other| common_bounds(other, &one.place).is_none()), "overlap: {one:?}");
            assert!(self.minus.iter().all(|taken| overlap(&prism, taken).is_none()), "in the way: {one:?}");
            assert!(self.roof.pierce(&prism).is_none(), "through the roof: {one:?}");
            let outside = free_volume(&prism, &[self.space], &flat(1e5));
            assert!(outside <= prism.volume() * 1e-4, "outside by {outside}: {one:?}");
            let carried = self.carried(&one.place, &boxes);
            assert!(carried >= SUPPORT - 0.06, "carried {carried}: {one:?}");
        }
        for (at, parcel) in self.parcels.iter().enumerate() {
            let placed = packing.placed.iter().filter(|one| one.parcel == at).count();
            assert_eq!(placed + packing.left[at], parcel.count);
        }
        if let Some(free) = packing.largest_free.map(|free| inset(free, 0.01)) {
            assert!(boxes.iter().all(|other| common_bounds(other, &free).is_none()));
            assert!(self.minus.iter().all(|taken| overlap(&Prism::from(free), taken).is_none()));
        }
    }

    fn check_sides(&self, one: &Stowed) {
        let parcel = self.parcels[one.parcel];
        let mut sorted = one.turn;
        sorted.sort_unstable();
        assert_eq!(sorted, [0, 1, 2]);
        let allowed = match parcel.stands {
            Stands::Any => true,
            Stands::Upright => one.turn[2] == 2,
            Stands::Fixed => one.turn == [0, 1, 2],
        };
        assert!(allowed, "{one:?}");
        for (side, axis) in one.turn.into_iter().zip([Axis::X, Axis::Y, Axis::Z]) {
            let (low, high) = one.place.range(axis);
            assert!((high - low - parcel.size[side]).abs() < 1e-6, "{one:?}");
        }
    }

    /// Share of points just below the base that lie in something or outside the space.
    fn carried(&self, place: &Box3, boxes: &[Box3]) -> f64 {
        const POINTS: u32 = 20;
        let at = |(low, high): (f64, f64), step: u32| low + (high - low) * (f64::from(step) + 0.5) / f64::from(POINTS);
        let steps = (0..POINTS).flat_map(|i| (0..POINTS).map(move |j| (i, j)));
        let held = steps.filter(|(i, j)| {
            let point = [at(place.x, *i), at(place.y, *j), place.z.0 - 0.05];
            let in_box = |b: &Box3| {
                let within = |(low, high): (f64, f64), value: f64| low <= value && value <= high;
                within(b.x, point[0]) && within(b.y, point[1]) && within(b.z, point[2])
            };
            let solid = self.minus.iter().any(|prism| has_point(prism, point)) || !has_point(self.space, point);
            solid || boxes.iter().any(in_box)
        });
        held.count() as f64 / f64::from(POINTS * POINTS)
    }
}

fn inset(b: Box3, by: f64) -> Box3 {
    let shrunk = |(low, high): (f64, f64)| (low + by, high - by);
    Box3 { x: shrunk(b.x), y: shrunk(b.y), z: shrunk(b.z) }
}

fn wedge(along: (f64, f64), height: f64, width: f64) -> Prism {
    let outline = Polygon::new(vec![Point::new(along.0, 0.0), Point::new(along.1, 0.0), Point::new(along.1, height)]);
    Prism { axis: Axis::Y, outline, low: 0.0, high: width }
}

fn region(case: &serde_json::Value) -> Prism {
    let number = |value: &serde_json::Value| value.as_f64().unwrap();
    if let Some(sides) = case["region"]["box"].as_array() {
        return room(number(&sides[0]), number(&sides[1]), number(&sides[2]));
    }
    let prism = &case["region"]["prism"];
    let points = prism["profile"].as_array().unwrap().iter().map(|p| Point::new(number(&p[0]), number(&p[1])));
    Prism { axis: Axis::Y, outline: Polygon::new(points.collect()), low: 0.0, high: number(&prism["width"]) }
}

/// Blocks of 200 x 100 x 50 against the counts of an exact solver with proved bounds (`tests/oracles/bricks.py`): 95 in
/// 100 of each proved count, all of them, find a place.
#[test]
fn ninety_five_in_a_hundred_of_the_proved_bricks() {
    let cases = include_str!("../../../tests/oracles/brick_cases.json");
    let cases: serde_json::Value = serde_json::from_str(cases).unwrap();
    for case in cases.as_array().unwrap() {
        let proved = case["count"].as_u64().unwrap() as usize;
        let wanted = (proved * 95).div_ceil(100);
        let space = region(case);
        let parcels = [any([200.0, 100.0, 50.0], wanted)];
        let packing = Case { space: &space, minus: &[], roof: &flat(1e5), parcels: &parcels }.pack();
        assert!(packing.is_complete(), "{}: {} of {wanted}, proved {proved}", case["name"], packing.placed.len());
    }
}

/// Steele, Lea and Flood's SplitMix64.
fn next(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
    let mut z = *state;
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

/// A box cut by straight cuts into `pieces` boxes on a grid of 10 mm: they fit back by construction.
fn cut_box(size: [f64; 3], pieces: usize, seed: u64) -> Vec<Parcel> {
    let mut state = seed;
    let mut boxes = vec![size];
    while boxes.len() < pieces {
        let largest = (0..boxes.len()).max_by(|a, b| {
            let volume = |at: usize| boxes[at].iter().product::<f64>();
            volume(*a).total_cmp(&volume(*b))
        });
        let mut first = boxes.swap_remove(largest.unwrap());
        let axis = (0..3).max_by(|a, b| first[*a].total_cmp(&first[*b])).unwrap();
        let share = 0.3 + 0.4 * (next(&mut state) % 1000) as f64 / 1000.0;
        let cut = (first[axis] * share / 10.0).round() * 10.0;
        let mut second = first;
        (first[axis], second[axis]) = (cut, first[axis] - cut);
        boxes.extend([first, second]);
    }
    boxes.into_iter().map(|size| any(size, 1)).collect()
}

/// How full (mean of ten) boxes with a known perfect fit get, in hundredths.
fn fill(pieces: usize) -> f64 {
    let size = [1200.0, 900.0, 700.0];
    let shares = (0..10).map(|seed| {
        let parcels = cut_box(size, pieces, 1000 * pieces as u64 + seed);
        let space = room(size[0], size[1], size[2]);
        let packing = Case { space: &space, minus: &[], roof: &flat(1e5), parcels: &parcels }.pack();
        let placed = packing.placed.iter().map(|one| Prism::from(one.place).volume()).sum::<f64>();
        placed / size.iter().product::<f64>()
    });
    100.0 * shares.sum::<f64>() / 10.0
}

#[test]
fn boxes_cut_from_one_box_go_back_well() {
    for (pieces, least) in [(4, 99.9), (8, 90.0), (20, 80.0), (50, 80.0)] {
        let fill = fill(pieces);
        assert!(fill >= least, "{pieces} pieces: {fill} of 100");
    }
}

#[test]
fn what_just_fits_fits_and_a_millimetre_more_does_not() {
    let space = room(900.0, 700.0, 400.0);
    let crates = |z| [any([900.0, 300.0, 400.0], 1), any([450.0, 400.0, z], 2)];
    let pack = |parcels: &[Parcel]| Case { space: &space, minus: &[], roof: &flat(1e5), parcels }.pack();
    assert!(pack(&crates(400.0)).is_complete());
    assert!(!pack(&crates(401.0)).is_complete());
}

#[test]
fn turns_are_only_those_allowed() {
    let space = room(700.0, 300.0, 900.0);
    let one = |stands| [Parcel { size: [300.0, 700.0, 900.0], count: 1, stands }];
    let fits = |stands, space: &Prism| {
        Case { space, minus: &[], roof: &flat(1e5), parcels: &one(stands) }.pack().is_complete()
    };
    assert!(fits(Stands::Any, &space) && fits(Stands::Upright, &space) && !fits(Stands::Fixed, &space));
    let low = room(900.0, 700.0, 300.0);
    assert!(fits(Stands::Any, &low) && !fits(Stands::Upright, &low));
}

/// By hand: the ramp takes z < (x - 500) * 0.75 over 400 mm. A box 100 deep on a box 300 high reaches to x = 900, its
/// lower edge on the ramp; one on the floor only to 500.
#[test]
fn beside_a_ramp_boxes_stand_up_to_its_face() {
    let (space, ramp) = (room(900.0, 600.0, 600.0), wedge((500.0, 900.0), 300.0, 600.0));
    let pack = |parcels: &[Parcel]| Case { space: &space, minus: &[&ramp], roof: &flat(1e5), parcels }.pack();
    let fixed = |x, z| Parcel { size: [x, 600.0, z], count: 1, stands: Stands::Fixed };
    assert!(pack(&[fixed(500.0, 300.0), fixed(833.0, 300.0)]).is_complete());
    assert!(!pack(&[fixed(501.0, 300.0)]).is_complete(), "the floor ends at the ramp");
    // On 300 high boxes the whole length is free, and 500 of 834 is less than 0.6.
    assert!(!pack(&[fixed(500.0, 300.0), fixed(834.0, 300.0)]).is_complete(), "it would tip");
}

#[test]
fn a_box_stands_on_a_wheel_box_but_not_on_air() {
    let (space, wheel) = (room(800.0, 600.0, 500.0), Prism::upright(Rect::new(0.0, 0.0, 800.0, 250.0), 0.0, 200.0));
    let case = |parcels: &[Parcel]| Case { space: &space, minus: &[&wheel], roof: &flat(1e5), parcels }.pack();
    let on = case(&[Parcel { size: [800.0, 400.0, 300.0], count: 1, stands: Stands::Fixed }]);
    assert!(on.is_complete() && on.placed[0].place.z.0 == 200.0, "250 of 400 carry it");
    assert!(!case(&[Parcel { size: [800.0, 420.0, 300.0], count: 1, stands: Stands::Fixed }]).is_complete());
}

#[test]
fn what_is_left_is_told() {
    let space = room(1000.0, 500.0, 500.0);
    let parcels = [any([500.0, 500.0, 500.0], 1), any([600.0, 500.0, 500.0], 1), any([200.0, 500.0, 500.0], 1)];
    let packing = Case { space: &space, minus: &[], roof: &flat(1e5), parcels: &parcels }.pack();
    assert_eq!(packing.left, [1, 0, 0], "600 and 200 fill more than 500 and 200");
    let free = packing.largest_free.unwrap();
    assert!((Prism::from(free).volume() - 200.0 * 500.0 * 500.0).abs() < 1.0);
}

#[test]
fn nothing_to_pack_and_nowhere_to_put_it() {
    let space = room(500.0, 500.0, 500.0);
    let none = pack(&space, &[], &flat(1e5), &[]);
    assert!(
        none.is_complete() && none.largest_free == Some(Box3 { x: (0.0, 500.0), y: (0.0, 500.0), z: (0.0, 500.0) })
    );
    let full = Case { space: &space, minus: &[&space], roof: &flat(1e5), parcels: &[any([9.0; 3], 3)] }.pack();
    assert_eq!((full.left.as_slice(), full.largest_free), ([3].as_slice(), None));
}

/// Spaces of many shapes with ramps, wheel boxes, round posts and low roofs; loads too large and small.
#[test]
fn thousands_of_draws_never_overlap_float_or_stick_out() {
    const DRAWS: u64 = 2000;
    let mut placed = 0;
    for seed in 0..DRAWS {
        let mut state = seed;
        let mut number = |low: f64, high: f64| (low + (high - low) * (next(&mut state) % 10_000) as f64 / 1e4).round();
        let (x, y, z) = (number(400.0, 1500.0), number(400.0, 1500.0), number(200.0, 900.0));
        let outline = [(0.0, 0.0), (x, 0.0), (x, number(0.3, 1.0) * z), (number(0.3, 1.0) * x, z), (0.0, z)];
        let outline = Polygon::new(outline.into_iter().map(Point::from).collect());
        let cut_off = Prism { axis: Axis::Y, outline, low: 0.0, high: y };
        let cranked = [(0.0, 0.0), (x, 0.0), (x, y * 0.5), (number(200.0, 399.0), y), (0.0, y)];
        let cranked = Polygon::new(cranked.into_iter().map(Point::from).collect());
        let cranked = Prism { axis: Axis::Z, outline: cranked, low: 0.0, high: z };
        let space = [room(x, y, z), cut_off, cranked][(seed % 3) as usize].clone();
        let ramp = wedge((number(0.3, 1.0) * x, x), number(0.1, 1.0) * z, y);
        let corner = (number(-100.0, x), number(-100.0, y));
        let block = Prism::upright(
            Rect::from_origin_size(corner, (number(50.0, 500.0), number(50.0, 500.0))),
            0.0,
            number(50.0, z),
        );
        let post = kurbo::Shape::path_segments(&kurbo::Circle::new(corner, number(30.0, 200.0)), 1.0);
        let post = Polygon::new(post.map(|part| kurbo::ParamCurve::start(&part)).collect());
        let post = Prism { axis: Axis::Z, outline: post, low: 0.0, high: number(50.0, z) };
        let all = [&ramp, &block, &post];
        let minus: Vec<&Prism> =
            all.into_iter().enumerate().filter(|(at, _)| seed >> at & 1 == 1).map(|(_, p)| p).collect();
        let arch = Roof::Arch { width: y, side: number(0.4, 1.0) * z, rise: y / 8.0 };
        let roof = if seed % 5 == 0 { arch } else { flat(z) };
        let parcels: Vec<Parcel> = (0..1 + seed % 5)
            .map(|at| Parcel {
                size: [number(40.0, 600.0), number(40.0, 500.0), number(40.0, 400.0)],
                count: 1 + (number(0.0, 6.0) as usize),
                stands: [Stands::Any, Stands::Upright, Stands::Fixed][((seed + at) % 3) as usize],
            })
            .collect();
        let packing = Case { space: &space, minus: &minus, roof: &roof, parcels: &parcels }.pack_briefly();
        placed += packing.placed.len();
    }
    assert!(placed > 5000, "{placed}");
}
