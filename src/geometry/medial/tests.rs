//! The medial axis of shapes by hand and of random rooms.

use super::*;
use crate::geometry::polygon::Polygon;
use kurbo::{Rect, Vec2};
use std::f64::consts::FRAC_PI_2;

/// Nodes and arcs, and whether their parts and loops are as many as the region's.
fn axis(region: &Region) -> (usize, usize, bool) {
    let border = Border::new(&split(region.grid_edges().collect()));
    let (joined, proved) = join::join(&cells::arcs(&border), border.rings());
    (joined.nodes.len(), joined.arcs.len(), proved)
}

fn rect(x0: f64, y0: f64, x1: f64, y1: f64) -> Region {
    Region::rect(Rect::new(x0, y0, x1, y1))
}

#[test]
fn shapes_by_hand() {
    assert_eq!(axis(&Region::default()), (0, 0, true));
    // Four corners, two places where the bisectors of corners meet, and the middle line.
    assert_eq!(axis(&rect(0.0, 0.0, 3000.0, 1000.0)), (6, 5, true));
    // In a square they meet in one.
    assert_eq!(axis(&rect(0.0, 0.0, 1000.0, 1000.0)), (5, 4, true));
    let ring = rect(0.0, 0.0, 3000.0, 3000.0).subtract(&rect(1000.0, 1000.0, 2000.0, 2000.0));
    let (nodes, arcs, proved) = axis(&ring);
    assert!(proved && nodes == arcs, "one loop: {nodes} nodes, {arcs} arcs");
    let apart = rect(0.0, 0.0, 500.0, 500.0).union(&rect(500.0, 500.0, 900.0, 900.0));
    assert_eq!(axis(&apart), (10, 8, true), "what touches in a point is two parts");
    let touching = rect(0.0, 0.0, 900.0, 900.0).subtract(&Region::new([&Polygon::new(vec![
        Point::new(0.0, 450.0),
        Point::new(300.0, 300.0),
        Point::new(300.0, 600.0),
    ])]));
    assert!(axis(&touching).2, "a hole that touches the rim");
}

/// Whole numbers that look random.
struct Random(u64);

impl Random {
    fn upto(&mut self, most: u64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) % (most + 1)) as f64
    }

    /// Blocks on a raster, so that many things are exactly as far; some turned, some round.
    fn region(&mut self, step: f64) -> Region {
        let mut taken = Vec::new();
        for _ in 0..self.upto(14) as usize {
            let (x, y) = (self.upto(4000 / step as u64) * step, self.upto(2000 / step as u64) * step);
            let (w, h) = (step * (1.0 + self.upto(900 / step as u64)), step * (1.0 + self.upto(900 / step as u64)));
            let middle = Point::new(x, y);
            let outline: Vec<Point> = match self.upto(5) as u32 {
                0 => (0..24).map(|i| middle + Vec2::from_angle(f64::from(i) * 0.261_799_4) * (h / 2.0)).collect(),
                1 => {
                    let turn = self.upto(90).to_radians();
                    let corner = |(x, y): (f64, f64)| {
                        middle + Vec2::from_angle(turn) * (x * w) + Vec2::from_angle(turn + FRAC_PI_2) * (y * h)
                    };
                    [(-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5)].map(corner).to_vec()
                }
                _ => [(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)].map(|(dx, dy)| middle + Vec2::new(dx, dy)).to_vec(),
            };
            taken.push(Polygon::new(outline));
        }
        rect(0.0, 0.0, 4000.0, 2000.0).subtract(&Region::new(&taken))
    }
}

#[test]
fn parts_and_loops_of_random_rooms_are_those_of_the_region() {
    let mut random = Random(7);
    let mut sides = 0;
    let rooms: usize = std::env::var("ROOMS").map_or(400, |rooms| rooms.parse().unwrap());
    for turn in 0..rooms {
        let step: f64 = [0.001, 0.1, 1.0, 10.0, 50.0, 250.0][turn % 6];
        let region = random.region(step.max(1.0));
        let region = if step < 1.0 { region.subtract(&random.region(1.0)) } else { region };
        let (nodes, arcs, proved) = axis(&region);
        assert!(
            proved,
            "room {turn} with step {step}: {nodes} nodes, {arcs} arcs, {:?}",
            region.contours().collect::<Vec<_>>()
        );
        sides += region.edges().count();
    }
    assert!(sides > rooms * 20, "{sides}");
}
