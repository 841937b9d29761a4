//! How far a box can travel along an axis before it meets something.

use super::overlap::overlap;
use super::prism::{Axis, Box3, Prism};
use super::roof::Roof;
use crate::base::tolerance;

/// What a travelling box meets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Met {
    /// An obstacle, by index.
    Obstacle(usize),
    /// A wall or the floor.
    Wall,
    /// The roof lining.
    Roof,
}

/// How far a box gets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Travel {
    /// Free travel, mm, from 0 to the travel asked for.
    pub free: f64,
    /// What ends it; `None` if the whole travel is free.
    pub met: Option<Met>,
}

/// Moves `body` along `axis` by `travel` (negative goes down the axis) inside the box `inside` under `roof`, among
/// `obstacles`. Exact: the room swept ahead of the body is itself a box, and its overlap with a prism begins where the
/// body stops. Touching does not stop it.
#[must_use]
pub fn travel(body: &Box3, axis: Axis, travel: f64, inside: &Box3, roof: &Roof, obstacles: &[&Prism]) -> Travel {
    let ahead = swept(body, axis, travel);
    let prism = Prism::from(ahead);
    let mut best = Travel { free: travel.abs(), met: None };
    let mut limit = |free: f64, met: Met| {
        if free < best.free - tolerance::SAME_LENGTH {
            best = Travel { free: free.max(0.0), met: Some(met) };
        }
    };
    let (low, high) = inside.range(axis);
    let face = ahead.range(axis);
    limit(if travel < 0.0 { face.1 - low } else { high - face.0 }, Met::Wall);
    if let Some(free) = below_roof(body, axis, travel, roof) {
        limit(free, Met::Roof);
    }
    for (index, obstacle) in obstacles.iter().enumerate() {
        if let Some(shared) = overlap(obstacle, &prism) {
            let (from, to) = shared.range(axis);
            limit(if travel < 0.0 { face.1 - to } else { from - face.0 }, Met::Obstacle(index));
        }
    }
    best
}

/// The room that the body's leading face passes through.
#[must_use]
pub fn swept(body: &Box3, axis: Axis, travel: f64) -> Box3 {
    let (low, high) = body.range(axis);
    body.with(axis, if travel < 0.0 { (low + travel, low) } else { (high, high + travel) })
}

/// Free travel below the roof; `None` where the roof cannot end it.
fn below_roof(body: &Box3, axis: Axis, travel: f64, roof: &Roof) -> Option<f64> {
    match axis {
        Axis::X => None,
        Axis::Z => (travel > 0.0).then(|| roof.least_over(body.y.0, body.y.1).0 - body.z.1),
        Axis::Y => {
            let low = roof.lower_than(body.z.1 - tolerance::SAME_LENGTH).into_iter();
            if travel < 0.0 {
                low.filter(|span| span.0 < body.y.0).map(|span| body.y.0 - span.1).reduce(f64::min)
            } else {
                low.filter(|span| span.1 > body.y.1).map(|span| span.0 - body.y.1).reduce(f64::min)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Polygon;
    use kurbo::Point;

    const INSIDE: Box3 = Box3 { x: (0.0, 4000.0), y: (0.0, 2000.0), z: (0.0, 2000.0) };

    fn flat() -> Roof {
        Roof::Line(vec![Point::new(0.0, 2000.0), Point::new(2000.0, 2000.0)])
    }

    fn drawer() -> Box3 {
        Box3 { x: (1000.0, 1400.0), y: (0.0, 500.0), z: (300.0, 500.0) }
    }

    #[test]
    fn free_to_the_wall_and_stopped_by_it() {
        assert_eq!(travel(&drawer(), Axis::Y, 400.0, &INSIDE, &flat(), &[]), Travel { free: 400.0, met: None });
        let stopped = travel(&drawer(), Axis::X, -1200.0, &INSIDE, &flat(), &[]);
        assert_eq!(stopped, Travel { free: 1000.0, met: Some(Met::Wall) });
    }

    #[test]
    fn a_sloped_face_ends_it_where_its_lowest_edge_meets() {
        // Face z = y - 500 (filled below) along x: the drawer's foot at z = 300 meets it at y = 800.
        let outline = Polygon::new(vec![Point::new(500.0, 0.0), Point::new(2000.0, 0.0), Point::new(2000.0, 1500.0)]);
        let ramp = Prism { axis: Axis::X, outline, low: 0.0, high: 4000.0 };
        let stopped = travel(&drawer(), Axis::Y, 450.0, &INSIDE, &flat(), &[&ramp]);
        assert_eq!(stopped, Travel { free: 300.0, met: Some(Met::Obstacle(0)) });
    }

    #[test]
    fn touching_ahead_leaves_no_travel_and_touching_beside_all() {
        let ahead = Prism::from(Box3 { x: (1390.0, 1800.0), y: (500.0, 900.0), z: (0.0, 900.0) });
        let beside = Prism::from(Box3 { x: (1400.0, 1800.0), y: (500.0, 900.0), z: (0.0, 900.0) });
        assert_eq!(travel(&drawer(), Axis::Y, 400.0, &INSIDE, &flat(), &[&ahead]).free, 0.0);
        assert_eq!(travel(&drawer(), Axis::Y, 400.0, &INSIDE, &flat(), &[&beside]).free, 400.0);
    }

    #[test]
    fn a_bed_that_lifts_stops_below_the_lowest_lining_over_it() {
        let arch = Roof::Arch { width: 2000.0, side: 1850.0, rise: 150.0 };
        let bed = Box3 { x: (0.0, 1400.0), y: (100.0, 1900.0), z: (700.0, 900.0) };
        let stopped = travel(&bed, Axis::Z, 1200.0, &INSIDE, &arch, &[]);
        assert_eq!(stopped.met, Some(Met::Roof));
        assert!((stopped.free - (arch.height_at(100.0) - 900.0)).abs() < 1e-9);
    }

    #[test]
    fn a_high_drawer_stops_at_the_roof_beside() {
        // Ridge falling from 2000 in the middle to 1500 at the wall: 1750 high at y = 1500.
        let ridge = Roof::Line(vec![Point::new(0.0, 1500.0), Point::new(1000.0, 2000.0), Point::new(2000.0, 1500.0)]);
        let high = Box3 { x: (0.0, 400.0), y: (700.0, 1100.0), z: (1500.0, 1750.0) };
        let stopped = travel(&high, Axis::Y, 800.0, &INSIDE, &ridge, &[]);
        assert!((stopped.free - 400.0).abs() < 0.01 && stopped.met == Some(Met::Roof));
    }
}
