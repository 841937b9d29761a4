//! Approach, departure and ramp angle: planes tangent to the tyres that just touch the underside (ISO 612; Directive
//! 92/53/EEC for the ramp).
//!
//! A plane that rises at the angle `a` from the ground and is tangent to a tyre of radius `r` passes through a point that
//! lies `d` behind and `h` above the wheel's centre where `d sin a - h cos a = r`, so `a = atan2(h, d) + asin(r / rho)` with
//! `rho = hypot(d, h)`.

use super::underside::Underside;
use crate::model::{Vehicle, VehicleKind};
use kurbo::Point;

/// An angle with the place that sets it.
#[derive(Debug, Clone, PartialEq)]
pub struct Touch {
    /// Degrees.
    pub angle: f64,
    /// What it touches.
    pub by: String,
    /// Where, (X, Z).
    pub at: Point,
}

/// The three angles; `None` where nothing is in the way or there are no wheels.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Angles {
    /// In front of the front wheels.
    pub approach: Option<Touch>,
    /// Behind the rear wheels.
    pub departure: Option<Touch>,
    /// Between the front wheels and the next ones.
    pub ramp: Option<Touch>,
}

/// The angles of a vehicle over its underside.
#[must_use]
pub fn angles(vehicle: &Vehicle, underside: &Underside) -> Angles {
    let radius = vehicle.tyre_radius;
    let wheels = vehicle.wheels();
    let (Some(first), Some(last)) = (wheels.first().copied(), wheels.last().copied()) else {
        return Angles::default();
    };
    let by_angle = |a: &Touch, b: &Touch| a.angle.total_cmp(&b.angle);
    let touch = |by: &str, at: Point, angle: f64| Touch { angle: angle.to_degrees(), by: by.to_owned(), at };
    let behind =
        underside.corners().filter_map(|(by, at)| Some(touch(by, at, tangent(at.x - last, at.y - radius, radius)?)));
    let ahead =
        underside.corners().filter_map(|(by, at)| Some(touch(by, at, tangent(first - at.x, at.y - radius, radius)?)));
    let trailer = vehicle.kind == VehicleKind::Trailer;
    let next = wheels.get(1).copied().filter(|_| !trailer);
    Angles {
        departure: behind.min_by(by_angle),
        approach: ahead.filter(|_| !trailer).min_by(by_angle),
        ramp: next.and_then(|next| ramp(underside, first, next, radius)),
    }
}

/// The angle of the plane tangent to a wheel from below that passes through a point, radians; `d` away from the wheel's
/// centre along the ground and `h` above it. `None` beside or within the wheel.
fn tangent(d: f64, h: f64, radius: f64) -> Option<f64> {
    let rho = d.hypot(h);
    (d > 0.0 && rho > radius).then(|| h.atan2(d) + (radius / rho).asin())
}

/// The smallest ramp: planes tangent to the facing sides of two wheels, meeting at the underside.
fn ramp(underside: &Underside, front: f64, rear: f64, radius: f64) -> Option<Touch> {
    let at = |point: Point| {
        let sum =
            tangent(point.x - front, point.y - radius, radius)? + tangent(rear - point.x, point.y - radius, radius)?;
        Some(sum.to_degrees())
    };
    let mut least: Option<Touch> = None;
    for (by, a, b) in underside.edges() {
        let Some((a, b)) = between(a, b, front, rear) else { continue };
        let point = lowest(|t| at(a.lerp(b, t)).unwrap_or(f64::INFINITY));
        let place = a.lerp(b, point);
        if let Some(angle) = at(place).filter(|angle| least.as_ref().is_none_or(|known| *angle < known.angle)) {
            least = Some(Touch { angle, by: by.to_owned(), at: place });
        }
    }
    least
}

/// The part of a piece that lies between two wheels.
fn between(a: Point, b: Point, front: f64, rear: f64) -> Option<(Point, Point)> {
    let (a, b) = if a.x <= b.x { (a, b) } else { (b, a) };
    if b.x <= front || a.x >= rear {
        return None;
    }
    let cut = |x: f64| if b.x > a.x { a.lerp(b, (x - a.x) / (b.x - a.x)) } else { a };
    Some((if a.x < front { cut(front) } else { a }, if b.x > rear { cut(rear) } else { b }))
}

/// Where in 0 to 1 a function with one valley is least: by thirds, to a ten-thousandth of a micrometre.
fn lowest(f: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..80 {
        let (one, two) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
        if f(one) <= f(two) {
            high = two;
        } else {
            low = one;
        }
    }
    f64::midpoint(low, high)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::tolerance::SAME_LENGTH;
    use crate::model::testing::vehicle;

    fn with(chain: &[(f64, f64)]) -> Underside {
        Underside { chains: vec![("belly".to_owned(), chain.iter().copied().map(Point::from).collect())] }
    }

    /// By arithmetic: wheelbase 3.9 m, belly 0.30 m above the ground midway, tyres of 0.5 m: 17.84 degrees by tangents
    /// (17.49 by the rule 2 atan(2 c / wheelbase)).
    #[test]
    fn the_ramp_is_by_tangents_to_the_tyres() {
        let vehicle = Vehicle { wheelbase: 3900.0, tyre_radius: 500.0, ..vehicle() };
        for belly in [with(&[(1950.0, 300.0)]), with(&[(600.0, 300.0), (3300.0, 300.0)])] {
            let found = angles(&vehicle, &belly).ramp.unwrap();
            assert!((found.angle - 17.84).abs() <= 0.01, "{found:?}");
            assert!((found.at.x - 1950.0).abs() < 1.0);
        }
    }

    /// By proportion: of a slope from 200 mm before the front wheel to 200 mm behind the rear one, what lies between them.
    #[test]
    fn a_slope_is_cut_at_the_wheels() {
        let (a, b) = (Point::new(-200.0, 900.0), Point::new(4200.0, 460.0));
        let inner = Some((Point::new(0.0, 880.0), Point::new(4000.0, 480.0)));
        assert_eq!(between(a, b, 0.0, 4000.0), inner);
        assert_eq!(between(b, a, 0.0, 4000.0), inner, "from either end");
        let upright = (Point::new(1000.0, 300.0), Point::new(1000.0, 700.0));
        assert_eq!(between(upright.0, upright.1, 0.0, 4000.0), Some(upright));
        assert_eq!(between(b, Point::new(4000.0, 480.0), 0.0, 4000.0), None, "behind the wheel");
    }

    #[test]
    fn a_valley_is_found_wherever_it_lies() {
        for valley in [0.0, 0.05, 0.3, 0.62, 1.0] {
            let found = lowest(|t| (t - valley).abs());
            assert!((found - valley).abs() < SAME_LENGTH, "{found} for {valley}");
        }
    }

    /// The tangent really touches: its distance from the wheel's centre is the radius, and it passes through the corner.
    #[test]
    fn the_departure_plane_touches_tyre_and_corner() {
        let vehicle = Vehicle { wheelbase: 4000.0, tyre_radius: 465.0, ..vehicle() };
        let found = angles(&vehicle, &with(&[(4500.0, 900.0), (5600.0, 620.0), (5600.0, 2000.0)])).departure.unwrap();
        let angle = found.angle.to_radians();
        let (normal, centre) = (Point::new(-angle.sin(), angle.cos()), Point::new(4000.0, 465.0));
        let off = (centre - found.at).dot(normal.to_vec2());
        assert!((off - 465.0).abs() < 1e-9 && found.at == Point::new(5600.0, 620.0));
        let approach = angles(&vehicle, &with(&[(-1600.0, 620.0)])).approach.unwrap();
        assert!((approach.angle - found.angle).abs() < 1e-9);
    }
}
