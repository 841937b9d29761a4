//! Counts against proved counts and bounds, and every placement checked by itself.

use super::*;
use crate::geometry::{Polygon, overlap};
use kurbo::{Point, Rect};

fn flat(height: f64) -> Roof {
    Roof::Line(vec![Point::new(0.0, height), Point::new(10_000.0, height)])
}

/// Independent of the packing: sides, no common room, inside the space, outside what is taken.
fn is_sound(placed: &[Box3], space: &Prism, minus: &[&Prism]) -> bool {
    let sides = |b: &Box3| {
        let mut sides = [b.x.1 - b.x.0, b.y.1 - b.y.0, b.z.1 - b.z.0].map(|side| side.round() as i64);
        sides.sort_unstable();
        sides
    };
    let prisms: Vec<Prism> = placed.iter().map(|b| (*b).into()).collect();
    let apart = prisms.iter().enumerate().all(|(i, a)| prisms.iter().take(i).all(|b| overlap(a, b).is_none()));
    let clear = prisms.iter().all(|a| minus.iter().all(|b| overlap(a, b).is_none()));
    let inside = prisms.iter().all(|a| {
        let free = crate::geometry::free_volume(a, &[space], &flat(1e5));
        free < 1.0
    });
    placed.iter().all(|b| sides(b) == [50, 100, 200]) && apart && clear && inside
}

fn region(case: &serde_json::Value) -> Prism {
    let number = |value: &serde_json::Value| value.as_f64().unwrap();
    if let Some(sides) = case["region"]["box"].as_array() {
        let [x, y, z] = [0, 1, 2].map(|i| number(&sides[i]));
        return Prism::upright(Rect::new(0.0, 0.0, x, y), 0.0, z);
    }
    let prism = &case["region"]["prism"];
    let points = prism["profile"].as_array().unwrap().iter().map(|p| Point::new(number(&p[0]), number(&p[1])));
    Prism { axis: Axis::Y, outline: Polygon::new(points.collect()), low: 0.0, high: number(&prism["width"]) }
}

#[test]
fn near_the_proved_counts() {
    let cases: serde_json::Value =
        serde_json::from_str(include_str!("../../../tests/oracles/brick_cases.json")).unwrap();
    for case in cases.as_array().unwrap() {
        let space = region(case);
        let start = std::time::Instant::now();
        let placed = blocks(&space, &[], &flat(1e5));
        let most = case["upper_bound"].as_u64().unwrap() as usize;
        println!("{} {} of {} ub {} {:?}", case["name"], placed.len(), case["count"], most, start.elapsed());
        assert!(is_sound(&placed, &space, &[]), "{}", case["name"]);
        assert!(placed.len() <= most && placed.len() * 100 >= most * 97, "{}: {}", case["name"], placed.len());
    }
}
