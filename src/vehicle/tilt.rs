//! A cab that tilts forward before the box.

use crate::model::{Model, Vehicle};
use kurbo::{Point, Vec2};

/// How near the tilting cab comes to the box.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tilting {
    /// Least distance along the vehicle, at whatever height, mm; negative where it would meet.
    pub left: f64,
    /// At this angle, degrees.
    pub angle: f64,
    /// The place of the cab's rear wall at rest, (X, Z).
    pub place: Point,
}

/// The nearest that the ends of the cab's rear wall come to the front wall: a place at `d` before and `h` above the line that it turns about
/// is then at `d cos a - h sin a`, which is greatest at `tan a = -h / d`. `None` for a cab that does not tilt.
#[must_use]
pub fn tilting(model: &Model, vehicle: &Vehicle) -> Option<Tilting> {
    let cab = vehicle.cab?;
    let tilt = cab.tilt?;
    let front = vehicle.front_wall(&model.space);
    let nearest = |z: f64| {
        let place = Point::new(cab.rear, z);
        let Vec2 { x, y } = place - tilt.about;
        let angle = (-y).atan2(x).clamp(0.0, tilt.angle.to_radians());
        let left = front - (tilt.about.x + x * angle.cos() - y * angle.sin());
        Tilting { left, angle: angle.to_degrees(), place }
    };
    [tilt.bottom, cab.top].map(nearest).into_iter().min_by(|a, b| a.left.total_cmp(&b.left))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::testing::{model, space, vehicle};
    use crate::model::{Cab, Tilt};

    /// The lower edge of the rear wall 1,200 mm behind and 500 mm below the line: it swings back by hypot(1200, 500) - 1200 = 100 mm when the cab
    /// has turned by atan(500 / 1200) = 22.62 degrees.
    #[test]
    fn the_lower_edge_swings_back() {
        let tilt = Tilt { about: Point::new(-800.0, 1100.0), angle: 55.0, bottom: 600.0 };
        let found = |tilt: Tilt| {
            let cab = Cab { rear: 400.0, top: 2300.0, width: 2100.0, tilt: Some(tilt) };
            let vehicle = Vehicle { cab: Some(cab), ..vehicle() };
            tilting(&model(space(4000.0, 2000.0, 2000.0)), &vehicle).unwrap()
        };
        // The wall's outside is 580 mm behind the front axle.
        let far = found(tilt);
        assert!((far.left - 80.0).abs() < 1e-9 && (far.angle - 22.62).abs() < 0.005, "{far:?}");
        let little = found(Tilt { angle: 5.0, ..tilt });
        let by_turning = 580.0 - (-800.0 + 1200.0 * 5.0_f64.to_radians().cos() + 500.0 * 5.0_f64.to_radians().sin());
        assert!((little.left - by_turning).abs() < 1e-9, "{little:?}");
    }
}
