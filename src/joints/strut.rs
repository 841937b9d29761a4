//! The force of the struts that hold up a flap, by the moments about its hinge.
//!
//! `F = m g r cos t / (n a)`: r is from the hinge to the centre of mass, a the distance of the strut's line from the hinge.
//! The worst over the whole travel counts, which is mostly near the open end.

/// Newton for each kilogram.
const GRAVITY: f64 = 9.81;
/// Steps over the travel.
const STEPS: u32 = 90;
/// Struts of a flap.
const STRUTS: f64 = 2.0;
/// Where a strut is fixed, as shares of the flap's height: on the flap from the hinge, on the carcass below the hinge. Common
/// practice, no source.
const FIXED: (f64, f64) = (0.5, 0.6);
/// More than the sum says, for cold and age: gas loses 0.34 % for each kelvin, that is a seventh at -15 degrees against 25.
const RESERVE: f64 = 1.15;

/// Force of one of two struts, N, where the flap is open by an angle above the level, degrees.
fn at(mass: f64, centre: f64, flap: f64, carcass: f64, above_level: f64) -> f64 {
    let (sin, cos) = above_level.to_radians().sin_cos();
    let (x, y) = (flap * cos, flap * sin);
    let arm = x * carcass / x.hypot(y + carcass).max(f64::MIN_POSITIVE);
    mass * GRAVITY * centre * cos / (STRUTS * arm.max(f64::MIN_POSITIVE))
}

/// Force of each of the two struts of a flap that hangs from its upper edge and opens by an angle, degrees, with reserve, N.
pub(super) fn force(mass: f64, height: f64, opens: f64) -> f64 {
    let end = opens.abs() - 90.0;
    let step = |step: u32| -89.0 + (end + 89.0) * f64::from(step) / f64::from(STEPS);
    let worst = (0..=STEPS)
        .map(|index| at(mass, height / 2.0, height * FIXED.0, height * FIXED.1, step(index)))
        .fold(0.0, f64::max);
    (worst * RESERVE).ceil()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Moments by hand: a flap of 9 kg, its centre 300 mm from the hinge, the strut 150 mm along the flap and 180 mm below the
    /// hinge, two struts: 114.9, 140.4, 156.4, 161.3 N at 0, 30, 60, 80 degrees.
    #[test]
    fn moments_about_the_hinge() {
        for (angle, newton) in [(0.0, 114.9), (30.0, 140.4), (60.0, 156.4), (80.0, 161.3)] {
            let found = at(9.0, 300.0, 150.0, 180.0, angle);
            assert!((found - newton).abs() < 0.1, "{angle}: {found}");
        }
    }

    #[test]
    fn the_open_end_is_the_worst() {
        let at_the_end = |opens: f64| at(3.0, 150.0, 150.0, 180.0, opens - 90.0);
        assert!((force(3.0, 300.0, 170.0) - (at_the_end(170.0) * RESERVE).ceil()).abs() < 1e-9);
        assert!(force(3.0, 300.0, 170.0) > force(3.0, 300.0, 85.0));
    }
}
