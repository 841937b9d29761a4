//! Water vapour: saturation pressure, dew point, and the humidity at which a surface gets wet or mouldy.

use crate::base::tolerance::ROUNDING;
use crate::diagnostic::{Bound, Limit, Quantity, SourceClass};

/// Humidity at a surface from which on mould grows.
pub const MOULD: Limit = Limit::new(
    "mould",
    Bound::Most(80.0),
    Quantity::Percent,
    SourceClass::Quoted,
    "ISO 13788:2012, 5.3, as quoted in public texts",
);

/// Saturation pressure of water vapour, Pa, at a temperature in degrees Celsius; ISO 13788, annex E.
#[must_use]
pub fn saturation(celsius: f64) -> f64 {
    let (a, b) = if celsius >= 0.0 { (17.269, 237.3) } else { (21.875, 265.5) };
    610.5 * (a * celsius / (b + celsius)).exp()
}

/// Dew point, degrees Celsius, of air at a temperature and relative humidity (0 to 1): the inverse of [`saturation`].
#[must_use]
pub fn dew_point(celsius: f64, humidity: f64) -> f64 {
    let part = (saturation(celsius) * humidity.max(ROUNDING) / 610.5).ln();
    let (a, b) = if part >= 0.0 { (17.269, 237.3) } else { (21.875, 265.5) };
    b * part / (a - part)
}

/// Relative humidity at a surface of `surface` degrees in air of `inside` degrees and `humidity`.
#[must_use]
pub fn humidity_at(surface: f64, inside: f64, humidity: f64) -> f64 {
    saturation(inside) * humidity / saturation(surface)
}

/// Temperature factor of the inside surface, (surface - outside) / (inside - outside), that keeps the humidity there at `most` (0 to 1); ISO
/// 13788. Temperatures are those of the air inside and outside, humidity that inside.
#[must_use]
pub fn factor_needed((inside, outside): (f64, f64), humidity: f64, most: f64) -> f64 {
    let surface = dew_point(inside, humidity / most.max(ROUNDING));
    if inside > outside { ((surface - outside) / (inside - outside)).max(0.0) } else { 0.0 }
}

/// Relative humidity of the room's air at which water begins to stand on a surface.
#[must_use]
pub fn wets_at(surface: f64, inside: f64) -> f64 {
    (saturation(surface) / saturation(inside)).min(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Dew points at 101325 Pa as printed by two open libraries of air and water properties; they and this formula differ
    /// by 0.010 K at most.
    const PRINTED: [(f64, f64, f64, f64); 12] = [
        (20.0, 0.30, 1.914, 1.917),
        (20.0, 0.40, 6.004, 6.007),
        (20.0, 0.50, 9.272, 9.274),
        (20.0, 0.60, 12.007, 12.009),
        (20.0, 0.70, 14.367, 14.368),
        (22.0, 0.60, 13.886, 13.888),
        (25.0, 0.50, 13.864, 13.867),
        (18.0, 0.65, 11.330, 11.331),
        (15.0, 0.80, 11.582, 11.582),
        (10.0, 0.80, 6.713, 6.713),
        (5.0, 0.90, 3.498, 3.499),
        (30.0, 0.80, 26.169, 26.170),
    ];

    #[test]
    fn dew_points_are_those_of_two_libraries() {
        for (celsius, humidity, one, other) in PRINTED {
            let found = dew_point(celsius, humidity);
            assert!((found - one).abs() <= 0.02 && (found - other).abs() <= 0.02, "{celsius} {humidity}: {found}");
        }
    }

    /// Published on a page about drying buildings: 22 degrees and 70 % 16.3, 45 % 9.5.
    #[test]
    fn dew_points_are_those_of_a_published_table() {
        assert!((dew_point(22.0, 0.70) - 16.3).abs() <= 0.05);
        assert!((dew_point(22.0, 0.45) - 9.5).abs() <= 0.05);
    }

    #[test]
    fn saturation_is_that_of_the_standards_formula() {
        let printed =
            [(-20.0, 102.74), (-10.0, 259.33), (0.0, 610.5), (10.0, 1227.31), (20.0, 2336.95), (25.0, 3165.92)];
        for (celsius, pascal) in printed {
            assert!((saturation(celsius) - pascal).abs() <= 0.01, "{celsius}: {}", saturation(celsius));
        }
    }

    /// Worked from the same saturation pressures outside of this project: 20 degrees inside, 80 % at the surface, for 5, 0, -5, -10 and -20
    /// degrees outside. Rules for dwellings ask for 0.70 or 0.75.
    #[test]
    fn cold_weather_asks_for_more_than_dwellings_have() {
        let table = [
            (0.4, [0.29, 0.46, 0.57, 0.64, 0.73]),
            (0.5, [0.51, 0.63, 0.70, 0.75, 0.82]),
            (0.6, [0.70, 0.77, 0.82, 0.85, 0.89]),
            (0.7, [0.86, 0.89, 0.91, 0.93, 0.95]),
        ];
        for (humidity, factors) in table {
            for (outside, factor) in [5.0, 0.0, -5.0, -10.0, -20.0].into_iter().zip(factors) {
                let found = factor_needed((20.0, outside), humidity, 0.8);
                assert!((found - factor).abs() <= 0.0055, "{humidity} {outside}: {found}");
            }
        }
    }

    #[test]
    fn a_surface_at_the_dew_point_is_just_wet() {
        let surface = dew_point(20.0, 0.5);
        assert!((wets_at(surface, 20.0) - 0.5).abs() < 1e-9);
        assert!((humidity_at(surface, 20.0, 0.5) - 1.0).abs() < 1e-9);
        assert!((dew_point(20.0, humidity_at(20.0, 20.0, 0.1)) - dew_point(20.0, 0.1)).abs() < 1e-12);
    }
}
